"""What pydantic finds wrong with a plan, a kit or a house file, in our own words, with the place in the text.

Looked at only once something is wrong, so nothing here needs to be quick.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from itertools import islice
from types import UnionType
from typing import Annotated, Any, NamedTuple, Union, get_args, get_origin

from pydantic import BaseModel, ValidationError
from pydantic_core import ErrorDetails

from riglint.plan.base import GEAR_PATTERN, NAME_PATTERN, TEXT_PATTERN
from riglint.plan.plan import Plan
from riglint.plan.points import ROWS_PATTERN
from riglint.reading.build import pointer_of
from riglint.reading.document import Document
from riglint.reading.nearest import nearest, one_of
from riglint.reading.problems import Problem, quoted

MOST_PROBLEMS = 100
"""After so many the rest is left out: they will have one cause."""
ROUNDS = 12
"""How often what is refused is put aside: it may leave what it stood in refused, and so on up to the top."""

TAG = "("
"""Tags of unions begin with this, so that a place can be told from the branch that was meant."""


Way = tuple[Any, ...]
"""The model of the whole file, then the steps down to a place."""


class Fault(NamedTuple):
    """One thing that is wrong: where, at the key or its value, and the texts."""

    place: list[str | int]
    at_key: bool
    what: str
    serves: str


def problems_of(error: ValidationError | None, document: Document, root: type[BaseModel] = Plan) -> list[Problem]:
    """The problems of a file that its models refuse, or where nothing is written, in the order of the text."""
    found = [] if error is None else error.errors(include_url=False)[: 3 * MOST_PROBLEMS]
    details = [detail for detail in found if not is_echo(detail)]
    empty = [Fault(place, False, *NOTHING) for place in islice(nothings(document.data), MOST_PROBLEMS)]
    taken = {pointer_of(fault.place) for fault in empty}
    placed = [(pointer_of(place_of(d, document.data)), d) for d in details]
    placed.sort(key=lambda entry: document.position(entry[0])[:2])
    slips = _slips(details, document, root)
    kept = [d for place, d in placed if place not in taken and not (d["type"] == "missing" and place in slips)]
    faults = [fault for d in kept[:MOST_PROBLEMS] for fault in _faults(d, document.data, root)]
    return [document.problem(pointer_of(f.place), f.what, f.serves, key=f.at_key) for f in empty + faults]


def is_echo(detail: ErrorDetails) -> bool:
    """Whether a list is called short only because entries of it were refused."""
    return detail["type"] == "too_short" and len(detail["input"]) >= detail["ctx"]["min_length"]


NOTHING = (
    "there is nothing here",
    "write a value, or leave the key out; a text that has a comma in `{ }` needs quotes round it",
)


def nothings(data: Any, place: tuple[str | int, ...] = ()) -> Iterator[list[str | int]]:
    """The places with nothing written behind their key or in their list."""
    if data is None:
        yield list(place)
    steps = data.items() if isinstance(data, dict) else enumerate(data) if isinstance(data, list) else ()
    for step, value in steps:
        yield from nothings(value, (*place, step))


def _slips(details: list[ErrorDetails], document: Document, root: type[BaseModel]) -> set[str]:
    """The keys that are misspelt, at the places where they should stand."""
    slips = set()
    for detail in details:
        if detail["type"] == "extra_forbidden":
            place = place_of(detail, document.data)
            meant = nearest(str(place[-1]), _keys(list(_models((root, *detail["loc"][:-1])))))
            slips.add(pointer_of([*place[:-1], meant or ""]))
    return slips


def place_of(detail: ErrorDetails, data: Any) -> list[str | int]:
    """The path of an error into the data, without what pydantic puts in for union branches and keys."""
    place: list[str | int] = []
    for i, step in enumerate(detail["loc"]):
        there = step in data if isinstance(data, dict) else isinstance(step, int)
        last = i == len(detail["loc"]) - 1
        if not there and not (last and detail["type"] == "missing"):
            continue
        if _is_key_fault(detail) and last:
            continue
        place.append(step)
        data = _inside(data, step)
    return place


def _inside(data: Any, step: str | int) -> Any:
    if isinstance(data, dict):
        return data.get(str(step))
    return data[step] if isinstance(data, list) and isinstance(step, int) and step < len(data) else None


def _is_key_fault(detail: ErrorDetails) -> bool:
    return detail["loc"][-1:] == ("[key]",) and detail["type"] != "extra_forbidden"


def _faults(detail: ErrorDetails, data: Any, root: type[BaseModel]) -> Iterator[Fault]:
    place, kind, context = place_of(detail, data), detail["type"], detail.get("ctx", {})
    way = (root, *detail["loc"])
    if kind == "plan_misfits":
        for at, found, serves in context["misfits"]:
            yield Fault([*place, *at.split("/")], False, found, serves)
        return
    if kind == "missing":
        yield _missing(place, way)
        return
    what, serves = _texts(detail, place, way)
    yield Fault(place, _is_key_fault(detail) or kind == "extra_forbidden", what, serves)


def _missing(place: list[str | int], way: Way) -> Fault:
    *above, key = place
    if isinstance(key, int):
        return Fault(above, False, "the list is too short", "write every entry that it must have")
    described = _description(way)
    return Fault(above, False, f"`{key}` is missing", f"add `{key}:`" + (f" ({described})" if described else ""))


def _texts(detail: ErrorDetails, place: list[str | int], way: Way) -> tuple[str, str]:
    """What was found and what would serve, by the kind of the error."""
    kind, value, context = detail["type"], detail["input"], detail.get("ctx", {})
    key = next((step for step in reversed(place) if isinstance(step, str)), "plan")
    if kind == "plan_fault":
        return context["found"], context["serves"]
    if kind == "extra_forbidden":
        return _unknown_key(key, way)
    if kind == "literal_error":
        return _unknown_word(value, key, way, context["expected"])
    if kind in _WANTED:
        several = key == "winch" and isinstance(value, list)
        return f"{_kind(value)} where {_WANTED[kind]} belongs", _ONE_WINCH if several else _shape(kind, value, key, way)
    return _of_size(kind, value, context)


_WANTED = {
    "string_type": "a text",
    "bool_type": "`true` or `false`",
    "model_type": "a mapping",
    "dict_type": "a mapping",
    "tuple_type": "a list",
}


def _kind(value: object) -> str:
    if isinstance(value, dict):
        return "a mapping"
    if isinstance(value, list):
        return "a list"
    return quoted(str(value).lower() if isinstance(value, bool) else str(value))


def _shape(kind: str, value: object, key: str, way: Way) -> str:
    if kind == "bool_type":
        return "write `true` or `false`"
    if kind == "string_type":
        return f"write {_kind(value)} in quotes" if isinstance(value, int | float) else "write one text"
    if kind == "tuple_type":
        return f"write `[{value}]`" if isinstance(value, str | int | float) else "write `[..., ...]`"
    models = list(_models(way))
    if not models:
        return "write `name: ...` under it, one entry for each"
    if models == [way[0]]:
        form, title, *_ = _keys(models)
        return f"begin with `{form}: 1` and `{title}:`"
    keys = [k for k, f in _keys(models).items() if f.is_required()] or list(_keys(models))[:3]
    return f"write a mapping with {_and(keys)}"


_SECOND_WINCH = re.compile(r"winches|(second|other)[ _-]?winch|winch[ _-]?[0-9]")
_ONE_WINCH = (
    "one plan has one `winch`: plan for the load's whole resistance on that one, or don't pull with two at all, since "
    "nothing shares a load out between winches, and two plans would each count half of it"
)


def _and(keys: list[str]) -> str:
    return ", ".join(f"`{key}`" for key in keys)


def _unknown_key(key: str, way: Way) -> tuple[str, str]:
    known = list(_keys(list(_models(way[:-1]))))
    near = nearest(key, known)
    if "winch" in known and _SECOND_WINCH.fullmatch(key):
        return f"the key {quoted(key)} isn't known here", _ONE_WINCH
    return (
        f"the key {quoted(key)} isn't known here",
        f"did you mean `{near}`?" if near else f"use {one_of(known)}",
    )


def _unknown_word(value: object, key: str, way: Way, expected: str) -> tuple[str, str]:
    words = list(_words(way)) or [expected]
    near = nearest(value, words) if isinstance(value, str) else None
    found = f"{_kind(value)} is none of the words for `{key}`" if len(words) > 1 else f"{_kind(value)} isn't known here"
    return found, f"did you mean `{near}`?" if near else f"write {one_of(words)}"


_PATTERNS = {
    NAME_PATTERN: ("can't be a name", "begin with a letter, then letters, digits, `_` and `-`, 64 at most"),
    GEAR_PATTERN: ("can't be a number of gear", "use letters, digits, `.`, `_` and `-`, 64 at most"),
    ROWS_PATTERN: ("isn't an arrangement of pickets", "write how many stand in each row from the front: `3-2-1`"),
    TEXT_PATTERN: ("says nothing", "write a text, or leave the key out"),
}


def _of_size(kind: str, value: Any, context: dict[str, Any]) -> tuple[str, str]:
    if kind == "string_pattern_mismatch" and context["pattern"] in _PATTERNS:
        found, serves = _PATTERNS[context["pattern"]]
        return f"{quoted(value)} {found}", serves
    if kind == "string_too_long":
        return f"a text of {len(value)} characters", f"write at most {context['max_length']}"
    if kind == "too_short":
        return f"{_kind(value)} of {len(value)} where more belong", f"write at least {context['min_length']}"
    if kind == "too_long":
        return f"{_kind(value)} of {len(value)} where fewer belong", f"write at most {context['max_length']}"
    return f"{_kind(value)} doesn't serve here", "look the key up in the schema"


def _keys(models: list[type[BaseModel]]) -> dict[str, Any]:
    return {f.alias or name: f for model in models for name, f in model.model_fields.items()}


def _models(way: Way) -> Iterator[type[BaseModel]]:
    """The models that may stand at a place."""
    for form in _forms(way):
        if isinstance(form, type) and issubclass(form, BaseModel):
            yield form


def _words(way: Way) -> Iterator[str]:
    """The words that may stand at a place."""
    for form in _forms(way):
        if "Literal" in str(get_origin(form)):
            yield from map(str, get_args(form))


def _description(way: Way) -> str:
    key = str(way[-1])
    fields = _keys(list(_models(way[:-1])))
    return (fields[key].description or "") if key in fields else ""


def _forms(way: Way) -> list[Any]:
    """The types that may stand at a place, found by walking down from the whole file's own."""
    forms: list[Any] = [way[0]]
    for step in way[1:]:
        if isinstance(step, str) and step.startswith(TAG):
            forms = [form for form in forms if _tagged(form, step)] or forms
        else:
            forms = [branch for form in forms for inner in _within(form, step) for branch in _branches(inner)]
    return [form.__origin__ if get_origin(form) is Annotated else form for form in forms]


def _tagged(form: Any, tag: str) -> bool:
    return any(getattr(meta, "tag", None) == tag for meta in getattr(form, "__metadata__", ()))


def _within(form: Any, step: str | int) -> list[Any]:
    """The types inside a type, one step on."""
    if get_origin(form) is Annotated:
        return _within(get_args(form)[0], step)
    if isinstance(form, type) and issubclass(form, BaseModel):
        fields = _keys([form])
        return [fields[str(step)].annotation] if step in fields else []
    if get_origin(form) is dict:
        return [get_args(form)[1]]
    return [arg for arg in get_args(form)[:1] if get_origin(form) is tuple]


def _branches(form: Any) -> list[Any]:
    """The branches of a union, or the type itself; the marks of a branch stay on it."""
    origin = get_origin(form)
    if origin in (Union, UnionType):
        return [branch for arg in get_args(form) if arg is not type(None) for branch in _branches(arg)]
    if origin is Annotated and get_origin(get_args(form)[0]) in (Union, UnionType):
        return _branches(get_args(form)[0])
    return [form]
