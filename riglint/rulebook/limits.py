"""Limits: the numbers that rules compare with, which a rulebook or a house file may set."""

from collections.abc import Mapping
from dataclasses import dataclass
from math import isclose
from typing import Final, Literal, NamedTuple

from riglint.outcome import Basis, Changed, Unit, Value
from riglint.reading.quantity import QuantityError, parse_quantity

DIMENSIONS: Final[dict[str, str]] = {
    "N": "mass or force", "N weight": "mass or force", "m": "length", "rad": "angle", "share": "fraction",
    "m/s": "speed", "s": "duration", "Pa": "stress", "degC": "temperature",
    "1": "number", "wraps": "number", "layers": "number", "parts": "number", "legs": "number",
}  # fmt: skip
"""How a limit of each unit is written in a file; a unit that is not here can't be a limit's."""


class LimitError(ValueError):
    """A limit that can't be set as it was given."""


@dataclass(frozen=True, slots=True)
class Limit:
    """A number that a rule compares with. `milder` says whether a higher or a lower value lets more pass.

    `mildest` is for what keeps people alive: the least stern figure that is published, beyond which no file may go.
    """

    name: str
    value: float
    unit: Unit
    says: str
    basis: Basis
    milder: Literal["higher", "lower"]
    mildest: float | None = None

    def __post_init__(self) -> None:
        if not self.name.isidentifier() or self.name != self.name.lower():
            raise LimitError(f"limit {self.name!r}: write the name in lower case, like `wire_wraps`")
        if self.unit not in DIMENSIONS:
            raise LimitError(f"limit {self.name}: no file can set a limit in {self.unit!r}")
        if not isinstance(self.basis, Basis):
            raise LimitError(f"limit {self.name} has no basis")
        if not self.says.strip():
            raise LimitError(f"limit {self.name} does not say what it limits")
        if not 0 <= self.value < float("inf"):
            raise LimitError(f"limit {self.name} is {self.value}: it must be finite and not below zero")

    def parse(self, text: str | float) -> float:
        """The value that a file gives, in SI. Raises LimitError with what would serve."""
        try:
            low, high = parse_quantity(text, DIMENSIONS[self.unit], minimum=0.0)
        except QuantityError as error:
            raise LimitError(f"{error.found}; {error.serves}") from None
        if low != high:
            raise LimitError(f"`{text}` is a range; a limit is one value")
        if self._too_mild(low):
            side, unit = ("less" if self.milder == "higher" else "more"), "" if self.unit == "1" else f" {self.unit}"
            raise LimitError(f"`{text}` lets more pass than any source does; write {self.mildest:.5g}{unit} or {side}")
        return low

    def _too_mild(self, value: float) -> bool:
        if self.mildest is None or isclose(value, self.mildest, rel_tol=1e-9):
            return False
        return (value > self.mildest) if self.milder == "higher" else (value < self.mildest)


class Setting(NamedTuple):
    """The value of a limit in force, who set it, and whether that lets more pass than the rule's own value."""

    value: float
    set_by: str  # empty: the rule itself
    milder: bool


class Limits:
    """The limits in force for one rule: `limits["wire_wraps"]` is a number in SI."""

    __slots__ = ("_limits", "_settings", "_values")

    def __init__(self, limits: tuple[Limit, ...], settings: Mapping[str, Setting] | None = None) -> None:
        self._limits = limits
        self._settings = dict(settings or {})
        self._values = {limit.name: limit.value for limit in limits}
        self._values.update((name, setting.value) for name, setting in self._settings.items())

    def __getitem__(self, name: str) -> float:
        return self._values[name]

    def source(self, name: str) -> Setting:
        """The value in force, and where it comes from."""
        return self._settings.get(name) or Setting(self._values[name], "", False)

    def set(self, name: str, text: str | float, set_by: str) -> "Limits":
        """These limits with one of them set by a file. Raises LimitError for an unknown name or a bad value."""
        limit = next((own for own in self._limits if own.name == name), None)
        if limit is None:
            raise LimitError(f"there is no limit `{name}`; there is {', '.join(self._values) or 'none'}")
        value = limit.parse(text)
        milder = value > limit.value if limit.milder == "higher" else value < limit.value
        return Limits(self._limits, self._settings | {name: Setting(value, set_by, milder)})

    def changed(self, rule: str) -> tuple[Changed, ...]:
        """Those whose value in force differs from the rule's own, by name."""
        if not self._settings:
            return ()
        return tuple(
            _changed(rule, own, now)
            for own in self._limits
            if (now := self._settings.get(own.name)) and now.value != own.value
        )


def _changed(rule: str, own: Limit, now: Setting) -> Changed:
    values = Value(own.value, own.unit), Value(now.value, own.unit)
    return Changed(rule, own.name, own.says, *values, now.set_by, now.milder)
