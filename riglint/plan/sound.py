"""A file that isn't a plan, as far as it is sound: every problem of it, and what is left without them.

Names in a file are held against what they stand for only once its shape is right. So that both are told at once, what
is refused is put aside, step by step, until the models take the rest.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from copy import deepcopy
from itertools import takewhile
from typing import Any, Final, Generic, NamedTuple, TypeVar

from pydantic import BaseModel, ValidationError

from riglint.plan.faults import ROUNDS, nothings, place_of, problems_of
from riglint.plan.quick import make_ready
from riglint.reading.document import Document, HalfRead, read_document
from riglint.reading.problems import Problem, ReadingFailed

_File = TypeVar("_File", bound=BaseModel)


class Sound(NamedTuple, Generic[_File]):
    """A file with its problems, and the model of what is left without them; None where too little is."""

    document: Document
    left: _File | None
    problems: list[Problem]

    def whole(self, further: Iterable[Problem] = ()) -> _File:
        """The model of the whole file. Raises ReadingFailed with every problem, its own and further ones."""
        problems = [*self.problems, *further]
        if problems or self.left is None:
            raise ReadingFailed(problems)
        return self.left


def read_sound(root: type[_File], text: bytes | str, file: str) -> Sound[_File]:
    """Read a file as far as it is sound. Raises ReadingFailed where its text can't be read to its end."""
    try:
        return sound(root, read_document(text, file))
    except HalfRead as half:
        rest = sound(root, half.document)
        return rest._replace(problems=[*half.problems, *elsewhere(rest.problems, half.problems)])


def sound(root: type[_File], document: Document) -> Sound[_File]:
    """A document held against the model of its file."""
    make_ready(root)
    refused: ValidationError | None = None
    left: _File | None = None
    try:
        left = root.model_validate(document.data)
    except ValidationError as error:
        refused = error
    problems = problems_of(refused, document, root)
    if refused or problems:
        left = _left(root, document.data)
    return Sound(document, left, problems)


def elsewhere(problems: Iterable[Problem], writing: Iterable[Problem]) -> Iterator[Problem]:
    """Those at places that faults of the writing have nothing to do with."""
    spoilt = [f"{problem.place}/" for problem in writing]
    for problem in problems:
        place = f"{problem.place}/"
        if not any(place.startswith(at) or at.startswith(place) for at in spoilt):
            yield problem


def _left(root: type[_File], data: Any) -> _File | None:
    """What the models take of it. Of a list with a fault nothing is left, or its entries would change their places."""
    data = deepcopy(data)
    if not isinstance(data, dict):
        return None
    for place in list(nothings(data)):
        _put_aside(data, place)
    for _ in range(ROUNDS):
        try:
            return root.model_validate(data)
        except ValidationError as error:
            details = error.errors(include_url=False)
        for detail in details:
            place = place_of(detail, data)
            missing = detail["type"] == "missing"
            if missing and place[0] in _STAND_INS:
                data[place[0]] = _STAND_INS[place[0]]
            else:
                _put_aside(data, place[:-1] if missing else place)
    return None


def _put_aside(data: Any, place: list[str | int]) -> None:
    """Take a place out of the data; the whole list, where it is in one."""
    steps = [*takewhile(lambda step: isinstance(step, str), place)]
    for step in steps[:-1]:
        data = data.get(step) if isinstance(data, dict) else None
    if steps and isinstance(data, dict):
        data.pop(steps[-1], None)


_STAND_INS: Final[dict[str | int, Any]] = {
    "rig_house": 1, "rig_kit": 1, "rig_task": 1, "title": "a title", "scenario": "a scenario",
}  # fmt: skip
"""What such files must have, where it was put aside or isn't there."""
