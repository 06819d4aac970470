"""Quantities as people write them: number and unit, range (`5 t to 7 t`), tolerance (`21 m ± 0.5 m`)."""

import math
import re
from typing import NamedTuple

from riglint.reading.units import ANGLE, LENGTH, LONGEST_QUANTITY, NUMBER, SI_UNIT, SIGNED, SLOPE, UNITS, Unit

_GAP = "[ \\u00a0\\u2009\\u202f]"
_SIGN = "[-\\u2212]"
_FRACTION = f"(?:[1-9][0-9]*{_GAP}+)?[1-9][0-9]?/[1-9][0-9]{{0,2}}"
_WHOLE = f"(?:[1-9][0-9]{{0,2}}(?:(?:,[0-9]{{3}})+|(?:{_GAP}[0-9]{{3}})+)|[1-9][0-9]*|0)"
# `12.000` is twelve to some and twelve thousand to others, so no 1 to 3 digits with `.000` behind them.
_DECIMAL = f"(?![1-9][0-9]{{0,2}}\\.000(?![0-9])){_WHOLE}(?:\\.[0-9]+)?"
_NUMBER = f"(?:{_DECIMAL}|{_FRACTION})"
_TO = f"{_GAP}+to{_GAP}+"
_GIVE = f"{_GAP}*(?:\\u00b1|\\+/-){_GAP}*"
_WORD = "(?:(?:short|long) ton|[A-Za-z%°/]+)"
_TERM = f"({_SIGN}?{_NUMBER}){_GAP}*({_WORD})?"
_SHAPE = f"{_TERM}(?:({_TO}|{_GIVE}){_TERM})?"
_PLACE = (
    f"({_NUMBER}{_GAP}*{_WORD}) bearing ({_SIGN}?{_NUMBER}{_GAP}*{_WORD})(?: from ([^\\s,]+))?"
    f"(?:, ({_NUMBER}{_GAP}*{_WORD}) (up|down))?"
)
# What most plans write, `12 kN` and `5.8 t to 6.4 t`, in patterns that are ready in a tenth of the time. They take
# nothing that the whole ones wouldn't take in the same parts, but for `12.000`.
_PLAIN_NUMBER = "(?:[1-9][0-9]*|0)(?:\\.[0-9]+)?"
_PLAIN_TERM = f"(-?{_PLAIN_NUMBER}) ?([A-Za-z%]+)?"
_PLAIN = re.compile(f"{_PLAIN_TERM}(?:( to ){_PLAIN_TERM})?")
_PLAIN_PLACE = re.compile(
    f"({_PLAIN_NUMBER} [a-z]+) bearing (-?{_PLAIN_NUMBER} [a-z]+)(?: from ([^\\s,]+))?"
    f"(?:, ({_PLAIN_NUMBER} [a-z]+) (up|down))?"
)
_AMBIGUOUS = ".000"
_SEPARATORS = str.maketrans({",": None, " ": None, "\u00a0": None, "\u2009": None, "\u202f": None, "\u2212": "-"})


class Span(NamedTuple):
    """A quantity in SI, from its lowest to its highest value; the two are one where it is exact."""

    low: float
    high: float

    @property
    def mid(self) -> float:
        """The middle of the span."""
        return self.low + (self.high - self.low) / 2

    @property
    def exact(self) -> bool:
        """Whether one value was given."""
        return self.low == self.high


class BearingPlace(NamedTuple):
    """A place as a tape and a compass give it."""

    distance_m: float
    bearing_rad: float
    origin: str | None
    up_m: float


class QuantityError(ValueError):
    """A text that isn't a quantity of its dimension: what was found, and what would serve."""

    def __init__(self, found: str, serves: str) -> None:
        self.found = found
        self.serves = serves
        super().__init__(f"{found}; {serves}")


def parse_quantity(
    text: str | float,
    dimension: str,
    *,
    minimum: float | None = None,
    above: float | None = None,
    maximum: float | None = None,
    below: float | None = None,
) -> Span:
    """The quantity in SI (see `units.SI_UNIT`); the bounds are in SI too, and hold for the whole span.

    A number that isn't text serves only where a bare number is wanted. Raises QuantityError.
    """
    span = _read(text, dimension)
    low, high = span
    if dimension not in SIGNED and low < 0:
        raise QuantityError(f"the lowest value of {_quoted(text)} is below zero", "use zero or more")
    if minimum is not None and low < minimum:
        raise _out(text, dimension, "at least", minimum)
    if above is not None and low <= above:
        raise _out(text, dimension, "more than", above)
    if maximum is not None and high > maximum:
        raise _out(text, dimension, "at most", maximum)
    if below is not None and high >= below:
        raise _out(text, dimension, "less than", below)
    return span


def _read(text: str | float, dimension: str) -> Span:
    if not isinstance(text, str):
        return _bare(text, dimension)
    match = _parts(text, _PLAIN, _SHAPE)
    if match is None:
        raise _refusal(text, dimension)
    number, unit, joint, number_2, unit_2 = match.groups("")
    factor = UNITS[dimension].get(unit if unit or not joint else unit_2)
    if factor is None or (number[0] in "-\u2212" and dimension not in SIGNED):
        raise _refusal(text, dimension)
    value = _number(number)
    if not joint:
        low = high = _si(value, factor, dimension)
    else:
        low, high = _pair(text, dimension, (value, factor), joint, (number_2, unit_2))
    if not -math.inf < low <= high < math.inf:
        raise _disorder(text, low, high)
    return Span(low, high)


def _parts(text: str, plain: re.Pattern[str], whole: str) -> re.Match[str] | None:
    if len(text) > LONGEST_QUANTITY:
        return None
    return (None if _AMBIGUOUS in text else plain.fullmatch(text)) or re.fullmatch(whole, text)


def _pair(
    text: str, dimension: str, first: tuple[float, Unit], joint: str, second: tuple[str, str]
) -> tuple[float, float]:
    value, factor = first
    number_2, unit_2 = second
    factor_2 = UNITS[dimension].get(unit_2)
    ranged = "to" in joint
    if factor_2 is None or (number_2[0] in "-\u2212" and not (ranged and dimension in SIGNED)):
        raise _refusal(text, dimension)
    value_2 = _number(number_2)
    if ranged:
        return _si(value, factor, dimension), _si(value_2, factor_2, dimension)
    if factor == factor_2:
        # In the unit that was written: a slope's percents and its angle aren't proportional.
        return _si(value - value_2, factor, dimension), _si(value + value_2, factor, dimension)
    middle, give = _si(value, factor, dimension), _si(value_2, factor_2, dimension)
    return middle - give, middle + give


def _si(value: float, unit: Unit, dimension: str) -> float:
    plain = value * unit.times / unit.over
    return math.atan(plain) if dimension == SLOPE and unit.over == 100 else plain


def _number(text: str) -> float:
    try:
        return float(text)
    except ValueError:
        return _fraction(text) if "/" in text else float(text.translate(_SEPARATORS))


def _fraction(text: str) -> float:
    sign = -1 if text[0] in "-\u2212" else 1
    *whole, part = text.lstrip("-\u2212").split()
    top, bottom = map(int, part.split("/"))
    if whole and top >= bottom:
        raise QuantityError(f"{_quoted(text)} has a fraction of one or more", "write it like `1 3/4`")
    return sign * ((int(whole[0]) if whole else 0) + top / bottom)


def _bare(value: object, dimension: str) -> Span:
    wanted = isinstance(value, int | float) and not isinstance(value, bool)
    if not (wanted and dimension == NUMBER):
        raise _refusal(value, dimension)
    assert isinstance(value, int | float)  # noqa: S101 -- for the type checker; said one line above
    if not -math.inf < value < math.inf:
        raise QuantityError(f"`{value}` isn't a finite number", "write a finite number")
    return Span(float(value), float(value))


def _quoted(text: object) -> str:
    from riglint.reading.problems import quoted  # noqa: PLC0415 -- only for messages

    return quoted(str(text))


def _refusal(text: object, dimension: str) -> QuantityError:
    from riglint.reading.mends import why_refused  # noqa: PLC0415 -- only for messages

    return QuantityError(*why_refused(text, dimension))


def _disorder(text: str, low: float, high: float) -> QuantityError:
    if not math.isfinite(low) or not math.isfinite(high):
        return QuantityError(f"{_quoted(text)} is beyond any number", "write a smaller number")
    return QuantityError(f"{_quoted(text)} goes from the higher to the lower", "write the lower value first")


def _out(text: object, dimension: str, relation: str, limit: float) -> QuantityError:
    shown, unit = limit, SI_UNIT[dimension]
    if dimension in (ANGLE, SLOPE):
        shown, unit = math.degrees(limit), "deg"
    bound = f"{shown:.10g} {unit}".strip()
    return QuantityError(f"{_quoted(text)} is out of range", f"use {relation} {bound}")


def pattern(dimension: str) -> str:
    """The grammar of a dimension as a regular expression that JSON Schema can carry (ECMA 262 subset).

    It says what `parse_quantity` takes by form; bounds, order and mixed fractions of one or more are for
    the parser.
    """
    sign = f"{_SIGN}?" if dimension in SIGNED else ""
    names = sorted((name for name in UNITS[dimension] if name), key=lambda name: (-len(name), name))
    unit = f"{_GAP}*(?:{'|'.join(names)})" if names else ""
    first = f"(?:{unit})?" if unit else ""
    pair = f"(?:{_TO}{sign}|{_GIVE}){_NUMBER}{unit}"
    return f"^(?![\\s\\S]{{{LONGEST_QUANTITY + 1}}}){sign}{_NUMBER}(?:{first}{pair}|{unit})(?![\\s\\S])"


def parse_bearing_place(text: str) -> BearingPlace:
    """A place such as `17.6 m bearing 358 deg from ash, 2 m up`; without `from`, from the plan's origin.

    Distances and the bearing are exact. Raises QuantityError.
    """
    match = _parts(text, _PLAIN_PLACE, _PLACE)
    if match is None:
        raise QuantityError(
            f"{_quoted(text)} isn't a place",
            "write coordinates like `[12 m, 0.4 m]`, or a distance and a bearing like"
            " `17.6 m bearing 358 deg from ash, 0.5 m up`, each exact",
        )
    distance, bearing, origin, height, way = match.groups()
    turn = parse_quantity(bearing, ANGLE, minimum=-2 * math.pi, maximum=2 * math.pi).low
    up = parse_quantity(height, LENGTH).low if height else 0.0
    return BearingPlace(parse_quantity(distance, LENGTH).low, turn, origin, -up if way == "down" else up)
