"""Why a text isn't a quantity, and what would serve: looked at only after the grammar has refused it."""

from __future__ import annotations

import re

from riglint.reading.problems import quoted
from riglint.reading.units import LONGEST_QUANTITY, NUMBER, SIGNED, SLOPE, UNITS, serving, why_not

# In this order: the first that fits is told, so what is narrow stands before what is wide.
_FAULTS: tuple[tuple[str, str, str], ...] = (
    (r"\s|[\s\S]*\s$", "has spaces or a line break around it", "write it without them"),
    (r"[\s\S]*[\n\r\t]", "has a line break or a tab in it", "write it on one line, with spaces"),
    (
        r"(?i)[-+.]*(inf|infinity|nan)\b",
        "isn't a finite number",
        "write a finite number, or leave the key out",
    ),
    (r".*[0-9]\s*['\"\u2032\u2033\u2019\u201d]", "has quote marks for feet or inches", "write `ft` or `in`"),
    (r".*[0-9][eE][-+]?[0-9]", "has an exponent", "write the number out"),
    (r".*[¼½¾⅐-⅞]", "has a fraction in one letter", "write it like `1 3/4`"),
    (
        r".*[0-9]\.[0-9]+[.,][0-9]|.*[0-9],[0-9]+\.[0-9]+,",
        "has dots and commas that could be read two ways",
        "write thousands with a space and decimals with one dot, as in `12 000.5`",
    ),
    (
        r"(?:.*[^0-9.,])?(?P<n>[1-9][0-9]{0,2})\.000(?![0-9])",
        "could be read two ways: some group thousands with a dot",
        r"write `\g<n>` or `\g<n> 000`, whichever is meant",
    ),
    (
        r"(?:.*[^0-9,])?(?:0,[0-9]|[0-9]+,(?![0-9]{3}(?![0-9]))[0-9])",
        "has a comma where no thousands are grouped",
        "write decimals with a dot, as in `1.5`, and group thousands in threes",
    ),
    (r".*[0-9]_[0-9]", "has `_` in a number", "group thousands with a space, in threes"),
    (r"(?:.*\s)?[-\u2212]?\.[0-9]", "has no digit before the dot", "write it like `0.5`"),
    (r".*[0-9]\.(?![0-9])", "has no digit after the dot", "leave the dot out"),
    (r"(?:.*\s)?[-\u2212]?0[xX][0-9a-fA-F]", "isn't a decimal number", "write a decimal number"),
    (r"(?:.*\bto\s+|.*±\s*)?[-\u2212]?0[0-9]", "has a zero in front of the number", "leave it out"),
    (r"(?:.*\bto\s+)?\+[0-9]", "has a `+` in front", "leave it out"),
    (r"[-\u2212]\s", "has a space after the minus", "write the minus right before the number"),
    (
        r"(?i)\s*(~|≈|<|>|≤|≥|about|circa|ca\.?|max\.?|min\.?|up to)\s*[0-9]",
        "isn't a plain quantity",
        "give a range, as in `5 t to 7 t`",
    ),
    (
        r".*[0-9][^0-9+/±]*\s*[-\u2013\u2014]\s*[0-9]|.*[0-9]\s*\.\.+\s*[0-9]",
        "looks like a range",
        "write `to` between the two values, as in `5 t to 7 t`",
    ),
    (r".*[0-9]/0", "divides by zero", "write a fraction like `7/16`"),
)
_COMPILED: list[tuple[re.Pattern[str], str, str]] = []


def why_refused(text: object, dimension: str) -> tuple[str, str]:
    """What is wrong with a text the grammar refused, and what would serve."""
    if not isinstance(text, str):
        return _not_text(text, dimension)
    if not text.strip():
        return "there is nothing where a quantity is wanted", _example(dimension)
    if len(text) > LONGEST_QUANTITY:
        return f"{quoted(text)} is too long for a quantity", _example(dimension)
    return _slope_as_ratio(text, dimension) or _fault(text) or _by_parts(text, dimension)


def _not_text(value: object, dimension: str) -> tuple[str, str]:
    if isinstance(value, bool) or not isinstance(value, int | float):
        kind = {bool: "true or false", type(None): "nothing", dict: "a mapping", list: "a list"}
        return f"{kind.get(type(value), 'something else')} stands where a quantity is wanted", _example(dimension)
    return f"`{value}` has no unit", f"add {serving(dimension)}, as meant"


def _example(dimension: str) -> str:
    return "write a number" if dimension == NUMBER else f"write a number and a unit: {serving(dimension)}"


def _slope_as_ratio(text: str, dimension: str) -> tuple[str, str] | None:
    match = re.fullmatch(r"([0-9.]+)\s*(?:in|:|/)\s*([0-9.]+)", text)
    if match is None or dimension != SLOPE:
        return None
    return f"{quoted(text)} gives a slope as a ratio", "write it in `deg` or `%`: one in four is `25 %`"


def _fault(text: str) -> tuple[str, str] | None:
    if not _COMPILED:
        _COMPILED.extend((re.compile(form), what, serves) for form, what, serves in _FAULTS)
    for form, what, serves in _COMPILED:
        if match := form.match(text):
            return f"{quoted(text)} {what}", match.expand(serves)
    return None


def _by_parts(text: str, dimension: str) -> tuple[str, str]:
    parts = re.split(r"\s+to\s+|\s*(?:±|\+/-)\s*", text)
    if len(parts) > 2:
        return f"{quoted(text)} has more than two values", _example(dimension)
    if len(parts) == 2 and re.match(r".*(?:±|\+/-)\s*[-\u2212]", text):
        return f"{quoted(text)} has a tolerance below zero", "write the tolerance without a sign"
    if dimension not in SIGNED and any(part[:1] in "-\u2212" for part in parts if part):
        return f"{quoted(text)} is below zero", "use zero or more"
    return _by_units(text, parts, dimension)


def _by_units(text: str, parts: list[str], dimension: str) -> tuple[str, str]:
    form = re.compile(r"[-\u2212]?([0-9][0-9.,/ \u00a0\u2009\u202f]*?)[ \u00a0\u2009\u202f]*([^0-9., ].*)?")
    for part in reversed(parts):
        match = form.fullmatch(part)
        if match is None:
            return f"{quoted(text)} isn't a quantity", _example(dimension)
        number, unit = match.groups()
        if unit and re.search(r"\s*[0-9]", unit):
            return _several(text, unit)
        if unit and unit not in UNITS[dimension]:
            return why_not(unit, dimension)
        if re.search(r"[ \u00a0\u2009\u202f]", number) and "/" not in number:
            return (
                f"{quoted(text)} has a space in a number that doesn't group thousands",
                "group digits in threes",
            )
        if not unit and dimension != NUMBER and part is parts[-1]:
            return f"{quoted(text)} has no unit", f"add {serving(dimension)}, as meant"
    return f"{quoted(text)} isn't a quantity", _example(dimension)


def _several(text: str, rest: str) -> tuple[str, str]:
    if re.match(r"[A-Za-z]+\s*[0-9]", rest):
        return f"{quoted(text)} has two quantities in a row", "write it in one unit: `6 ft 2 in` is `74 in`"
    return f"{quoted(text)} isn't a quantity", "write one number and one unit"
