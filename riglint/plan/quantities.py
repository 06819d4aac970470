"""The quantities of a plan as pydantic types: text with a unit in, a `Span` in SI out.

Each type names its dimension once; the text's grammar and the units come from `riglint.reading`, for the
validator and for the JSON Schema alike, so that the two cannot drift.
"""

import re
from collections.abc import Callable
from math import pi
from typing import Annotated, Any

from pydantic import GetCoreSchemaHandler, GetJsonSchemaHandler
from pydantic_core import PydanticCustomError
from pydantic_core.core_schema import CoreSchema, no_info_plain_validator_function

from riglint.reading.problems import quoted
from riglint.reading.quantity import (
    BearingPlace,
    QuantityError,
    Span,
    parse_bearing_place,
    parse_quantity,
    pattern,
)
from riglint.reading.units import serving

__all__ = [
    "Angle", "Bearing", "BearingPlace", "Climb", "Coordinates", "Count", "Diameter", "Duration", "Force",
    "Fraction", "Grip", "Layer", "Length", "Loss", "Place", "Rating", "RiggedLength", "RiggedSize", "Share", "Sheaves",
    "SignedLength", "Size",
    "Slope", "Span", "Speed", "Spread", "Tilt", "Weight",
]  # fmt: skip

FARTHEST_M = 10_000.0  # a line reaches no farther, so a longer way is a slip of the pen
STEEPEST_RAD = pi / 3.0  # nothing that is winched stands on steeper ground
MOST_GRIP = 2.0  # nothing on wheels or tracks grips so well; a per cent written as a number would
TURN_RAD = 2.0 * pi


def refusal(found: str, serves: str) -> PydanticCustomError:
    """An error that carries what was found and what would serve, for `faults` to report."""
    return PydanticCustomError("plan_fault", "{found}; {serves}", {"found": found, "serves": serves})


NAMED = "x-named"
"""In a piece of schema: the name under which `schema` writes it once for all its uses, and what it is."""


class Form:
    """How a value is read, and the JSON Schema of what can be read: a type's whole pydantic metadata.

    Pydantic's own PlainValidator would also work out how to write the value again, 5 ms at each start.
    """

    __slots__ = ("_read", "_schema")

    def __init__(self, read: Callable[[object], object], schema: Callable[[], dict[str, Any]]) -> None:
        self._read = read
        self._schema = schema

    def __get_pydantic_core_schema__(self, source: object, handler: GetCoreSchemaHandler) -> CoreSchema:
        return no_info_plain_validator_function(self._read)

    def __get_pydantic_json_schema__(self, core: CoreSchema, handler: GetJsonSchemaHandler) -> dict[str, Any]:
        return self._schema()


def _quantity(
    dimension: str,
    *,
    minimum: float | None = None,
    above: float | None = None,
    maximum: float | None = None,
    below: float | None = None,
    exact: str = "",
) -> Any:
    """The pydantic metadata of a quantity of one dimension, with its bounds; `exact` says why no range will do."""

    def read(value: object) -> Span:
        text = value if type(value) is str else _as_written(value)
        try:
            span = parse_quantity(text, dimension, minimum=minimum, above=above, maximum=maximum, below=below)
        except QuantityError as error:
            raise refusal(error.found, error.serves) from None
        if exact and span.low != span.high:
            raise refusal(f"{quoted(text)} is a range", exact)
        return span

    signed = minimum is not None and minimum < 0.0
    return Annotated[Span, Form(read, lambda: _text_schema(dimension, signed=signed))]


_EXAMPLES = {
    "length": ["6 m", "7/16 in", "21 m ± 0.5 m"],
    "mass or force": ["5.8 t to 6.4 t", "78 kN", "12 000 lbf"],
    "angle": ["30 deg"],
    "fraction": ["10 %", "4 % to 8 %"],
    "speed": ["4 m/min"],
    "duration": ["20 min"],
}


def _text_schema(dimension: str, *, signed: bool) -> dict[str, Any]:
    form = pattern(dimension)
    return {
        NAMED: [
            dimension.replace(" ", "_") + ("_either_way" if signed else ""),
            f"a number and its unit: {serving(dimension)}; or a range with `to`, or a tolerance with `±`",
        ],
        "type": "string",
        "pattern": form if signed else unsigned(form),
        "examples": _EXAMPLES[dimension],
    }


def unsigned(form: str) -> str:
    """A quantity's pattern without its minus signs."""
    return form.replace("[-\\u2212]?", "")


def _as_written(value: object) -> str:
    """The text that a value which isn't text was written as. Raises a refusal for what can't be a quantity."""
    if isinstance(value, bool):
        raise refusal(f"`{str(value).lower()}` where a quantity belongs", _ONE_QUANTITY)
    if isinstance(value, int | float):
        return str(value)
    what = {list: "a list", dict: "a mapping", type(None): "nothing"}.get(type(value), "something else")
    raise refusal(f"{what} where a quantity belongs", _ONE_QUANTITY)


_ONE_QUANTITY = "write one quantity with its unit, for example `12 m`"
_AS_RIGGED = "it places what hangs by it: write one length, `1.5 m`, and try a second plan with the other end"
_ONE_WAY = "write one angle, for example `90 deg`"

Length = _quantity("length", minimum=0.0, maximum=FARTHEST_M)
Size = _quantity("length", above=0.0, maximum=FARTHEST_M)  # a length that can't be nothing
RiggedLength = _quantity("length", minimum=0.0, maximum=FARTHEST_M, exact=_AS_RIGGED)
RiggedSize = _quantity("length", above=0.0, maximum=FARTHEST_M, exact=_AS_RIGGED)
Diameter = _quantity("length", above=0.0, maximum=FARTHEST_M)
SignedLength = _quantity("length", minimum=-FARTHEST_M, maximum=FARTHEST_M)
Weight = _quantity("mass or force", above=0.0)
Rating = _quantity("mass or force", above=0.0)
Force = _quantity("mass or force", minimum=0.0)
Angle = _quantity("angle", minimum=-TURN_RAD, maximum=TURN_RAD)
Bearing = _quantity("angle", minimum=-TURN_RAD, maximum=TURN_RAD, exact=_ONE_WAY)
Climb = _quantity("angle", minimum=-STEEPEST_RAD, maximum=STEEPEST_RAD, exact=_ONE_WAY)
Spread = _quantity("angle", minimum=0.0, maximum=pi)  # an angle between two things
Tilt = _quantity("angle", minimum=0.0, maximum=STEEPEST_RAD)
Fraction = _quantity("fraction", minimum=0.0)
Share = _quantity("fraction", minimum=0.0, maximum=1.0)
Loss = _quantity("fraction", minimum=0.0, below=1.0)
Duration = _quantity("duration", minimum=0.0)
Speed = _quantity("speed", above=0.0)

_NO_WAY = "0(?:\\.0+)? ?(?:deg|°|rad|%)"  # level ground goes neither up nor down
_level = re.compile(_NO_WAY).fullmatch


def _read_slope(value: object) -> Span:
    """`4 deg up`, `10 % down`, `0 deg`: up is positive, in radians."""
    text = value if isinstance(value, str) else _as_written(value)
    if _level(text):
        return Span(0.0, 0.0)
    head, _, way = text.rpartition(" ")
    if way not in ("up", "down"):
        head = text
    try:
        low, high = parse_quantity(head, "slope", minimum=0.0, maximum=STEEPEST_RAD)
    except QuantityError as error:
        raise refusal(error.found, error.serves + " and then `up` or `down`") from None
    if way == "up":
        return Span(low, high)
    if way == "down":
        return Span(-high, -low)
    raise refusal(f"slope {quoted(text)} doesn't say which way", "end it with `up` or `down`, as the pull goes")


_END = "(?![\\s\\S])"


def _core(form: str) -> str:
    """A quantity's pattern without its ends, to build others of."""
    return form.removeprefix("^").removesuffix(_END)


def _slope_schema() -> dict[str, Any]:
    slope = _core(unsigned(pattern("slope")))
    return {
        NAMED: [
            "slope",
            f"a number, its unit ({serving('slope')}), and `up` or `down` as the pull goes",
        ],
        "type": "string",
        "pattern": f"^(?:{slope} (?:up|down)|{_NO_WAY}){_END}",
        "examples": ["4 deg up", "10 % to 12 % down", "0 deg"],
    }


Slope = Annotated[Span, Form(_read_slope, _slope_schema)]


def _read_number(value: object) -> Span:
    """A bare number, or a range `0.4 to 0.6`: for a coefficient, which has no unit."""
    text = value if isinstance(value, str) else _as_written(value)
    try:
        return parse_quantity(text, "number", minimum=0.0, maximum=MOST_GRIP)
    except QuantityError as error:
        raise refusal(error.found, error.serves) from None


def _number_schema() -> dict[str, Any]:
    text = {"type": "string", "pattern": unsigned(pattern("number"))}
    return {
        NAMED: [
            "coefficient",
            "a number without a unit, or a range of them",
        ],
        "anyOf": [{"type": "number", "minimum": 0, "maximum": MOST_GRIP}, text],
        "examples": [0.6, "0.4 to 0.6"],
    }


Grip = Annotated[Span, Form(_read_number, _number_schema)]


def _count(most: int) -> Any:
    """The pydantic metadata of a whole number from one to `most`."""

    def read(value: object) -> int:
        if isinstance(value, int | float) and not isinstance(value, bool) and value % 1 == 0 and 1 <= value <= most:
            return int(value)
        shown = quoted(str(value)) if isinstance(value, str | int | float) else "something else"
        raise refusal(f"{shown} where a whole number from 1 to {most} belongs", "write one, with no unit")

    return Annotated[int, Form(read, lambda: {"type": "integer", "minimum": 1, "maximum": most})]


Count = _count(1000)
Layer = _count(50)
Sheaves = _count(6)


class Coordinates(tuple[float, float, float]):
    """A place by coordinates in the plan's own axes: x, y and z in metres (z is 0 where not given)."""

    __slots__ = ()


class FlatCoordinates(Coordinates):
    """A place by two coordinates: its height isn't stated, and z is 0."""

    __slots__ = ()


def _read_place(value: object) -> Coordinates | BearingPlace:
    try:
        if isinstance(value, list):
            return _read_coordinates(value)
        return _read_bearing(value if isinstance(value, str) else _as_written(value))
    except QuantityError as error:
        raise refusal(error.found, error.serves) from None


def _read_bearing(text: str) -> BearingPlace:
    place = parse_bearing_place(text)
    if max(place.distance_m, abs(place.up_m)) > FARTHEST_M:
        raise refusal(f"{quoted(text)} is out of reach", "write a place within 10 km")
    return place


def _read_coordinates(value: list[Any]) -> Coordinates:
    if len(value) not in (2, 3):
        raise refusal(f"a place of {len(value)} numbers", "write two lengths, or three with the height: `[12 m, 0 m]`")
    x, y, z = (_coordinate(v) for v in (*value, "0 m")[:3])
    return Coordinates((x, y, z)) if len(value) == 3 else FlatCoordinates((x, y, z))


def _coordinate(value: object) -> float:
    text = value if isinstance(value, str) else _as_written(value)
    span = parse_quantity(text, "length", minimum=-FARTHEST_M, maximum=FARTHEST_M)
    if span.low != span.high:
        raise refusal(f"{quoted(text)} is a range", "a place is one point: write one length for each axis")
    return span.low


def _place_schema() -> dict[str, Any]:
    coordinates = {
        "type": "array",
        "items": _text_schema("length", signed=True),
        "minItems": 2,
        "maxItems": 3,
    }
    length, angle = _core(unsigned(pattern("length"))), _core(pattern("angle"))
    place = f"^{length} bearing {angle}(?: from [^\\s,]+)?(?:, {length} (?:up|down))?{_END}"
    return {
        NAMED: [
            "place",
            "coordinates `[x, y]` or `[x, y, z]`, or a distance and a bearing from the origin or a point",
        ],
        "anyOf": [coordinates, {"type": "string", "pattern": place}],
        "examples": [["12 m", "0.4 m"], "17.6 m bearing 358 deg from ash, 0.5 m up"],
    }


Place = Annotated[Coordinates | BearingPlace, Form(_read_place, _place_schema)]
