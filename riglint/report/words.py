"""Sentences of checks with the numbers put in, and lines broken to fit."""

from __future__ import annotations

import re
from collections.abc import Iterable
from functools import lru_cache
from typing import Final

from riglint.outcome import Check, Step, Value
from riglint.report.numbers import METRIC, pair, percent, show, travel

_PLACE: Final = re.compile(r"\{(\w+)\}")
_NAME: Final = re.compile(r"[A-Za-z_]\w*")
_UNIT_GAP: Final = re.compile(r"(?<=\d) (?=(?:kN|N|mm?|t|kg|lbf?|ft|in|deg|degC|degF|kPa|MPa|psi)\b|%)")
_KEPT: Final = "\ue000"  # for private use: no text holds it, and it is no space to split at
WIDTH: Final = 96


def message(check: Check, system: str = METRIC) -> str:
    """What the check says."""
    return fill(check.message, check, system)


def fill(sentence: str, check: Check, system: str = METRIC) -> str:
    """A sentence of a check with its places filled; a place that nothing fills stays as it is."""
    pieces = _split(sentence)
    places = pieces[1::2]
    if not places:
        return sentence
    texts = _texts(check, system, places)
    filled = list(pieces)
    filled[1::2] = [texts.get(place, f"{{{place}}}") for place in places]
    return "".join(filled)


@lru_cache(maxsize=2048)  # rules say few sentences many times
def _split(sentence: str) -> tuple[str, ...]:
    """Text and places by turns."""
    return tuple(_PLACE.split(sentence))


def _texts(check: Check, system: str, places: tuple[str, ...]) -> dict[str, str]:
    where = check.where
    texts = {"component": where.component, "name": where.name, "case": where.case, "measure": check.measure}
    if "measured" in places or "limit" in places:
        texts["measured"], texts["limit"] = compared(check, system)
    if "use" in places and check.use is not None:
        texts["use"] = percent(check.use)
    if "travel" in places and where.travel_m is not None:
        texts["travel"] = travel(where.travel_m, system)
    for name, term in check.terms:
        if name in places:
            texts[name] = show(term.si, term.unit, system) if isinstance(term, Value) else plain(term)
    return texts


def compared(check: Check, system: str = METRIC) -> tuple[str, str]:
    """Measured and limit as texts; `?` for one that isn't known."""
    measured, limit = check.measured, check.limit
    if measured is not None and limit is not None:
        return pair(measured, limit, check.unit, system)
    return (
        "?" if measured is None else show(measured, check.unit, system),
        "?" if limit is None else show(limit, check.unit, system),
    )


def working(step: Step, system: str = METRIC) -> str:
    """One line of working: the formula, then the same with its numbers, then what comes out."""
    formula = step.formula
    terms = zip(formula.terms, step.numbers, strict=True)
    numbers = {name: _bracketed(show(number, unit, system)) for (name, unit), number in terms}
    put_in = _NAME.sub(lambda word: numbers.get(word[0], word[0]), formula.expression)
    return f"{formula.symbol} = {formula.expression} = {put_in} = {show(step.result, formula.unit, system)}"


def _bracketed(text: str) -> str:
    return f"({text})" if text.startswith("-") else text


def plain(text: str) -> str:
    """A text of the plan on one line, with nothing in it that a terminal would obey."""
    return text if text.isprintable() else "".join(c if c.isprintable() else " " for c in text)


def sentence(text: str) -> str:
    """With a capital and a full stop. A name written small keeps its small letter."""
    text = text.strip()
    first = text.split(" ", 1)[0]
    if first.isalpha():
        text = text[:1].upper() + text[1:]
    return text if text.endswith((".", "!", "?", ":")) else text + "."


def wrapped(text: str, indent: str = "", hang: str | None = None, width: int = WIDTH) -> list[str]:
    """The text in lines of at most `width`, the first after `indent`, the others after `hang`.

    A number and its unit stay together.
    """
    hang = indent if hang is None else hang
    lines, line, begun = [], indent, False
    for word in _UNIT_GAP.sub(_KEPT, text).split():
        if begun and len(line) + 1 + len(word) > width:
            lines.append(line)
            line, begun = hang, False
        line += f" {word}" if begun else word
        begun = True
    return [kept.replace(_KEPT, " ") for kept in (*lines, line)]


def for_day(day: str | None) -> str:
    """` for pulls on 2026-03-14`; nothing where no day was told. Gear falls due and waivers run out."""
    return f" for pulls on {day}" if day else ""


def listed(words: Iterable[str]) -> str:
    """`a, b and c`."""
    words = list(words)
    return " and ".join(filter(None, (", ".join(words[:-1]), *words[-1:])))
