"""Outcomes and findings: what inspecting a rig gives. Plain frozen values with a total order.

Grades are the signal words of ANSI Z535 / ISO 3864-2, results those of the W3C's EARL.
"""

from dataclasses import dataclass
from enum import Enum
from typing import Literal, NamedTuple


class Grade(Enum):
    """How much is at stake, most serious first."""

    DANGER = "DANGER"
    WARNING = "WARNING"
    CAUTION = "CAUTION"
    NOTICE = "NOTICE"

    rank: int  # 0 for the most serious

    def __init__(self, _word: str) -> None:
        self.rank = len(type(self).__members__)

    def at_least(self, other: "Grade") -> bool:
        """Whether this grade is as serious as the other, or more."""
        return self.rank <= other.rank


class Result(Enum):
    """What a rule found. The order is from mildest to gravest for one that applies."""

    INAPPLICABLE = "inapplicable"
    PASSED = "passed"
    CANT_TELL = "cantTell"
    FAILED = "failed"
    UNTESTED = "untested"


BasisKind = Literal["standard", "regulation", "handbook", "maker", "derivation", "common practice"]
Scope = Literal["winching", "lifting", "towing", "mooring", "general"]
CITED = frozenset({"standard", "regulation", "handbook", "maker"})


@dataclass(frozen=True, slots=True)
class Basis:
    """What a rule or a limit rests on. `source` is a key of the rulebook's sources, `claim` what it supports.

    Common practice has no source and says so. `trust` is how far the figure was seen: read, read second hand,
    or from memory.
    """

    kind: BasisKind
    claim: str
    source: str | None = None
    locator: str = ""
    scope: Scope = "general"
    trust: Literal["read", "read second hand", "from memory", ""] = ""

    def __post_init__(self) -> None:
        if not self.claim.strip():
            raise ValueError("a basis says what it supports")
        cited = self.kind in CITED
        if cited and not (self.source and self.locator and self.trust):
            raise ValueError(f"a basis of kind {self.kind!r} names its source, locator and how it was read")
        if not cited and self.source:
            raise ValueError(f"a basis of kind {self.kind!r} has no source")


Unit = Literal[
    "N",  # force
    "N weight",  # weight, shown as the mass that people speak of
    "m",  # length or distance
    "m off",  # how far off somebody is: a place on the ground, whose decimetres count and not its millimetres
    "rad",
    "share",  # shown in percent
    "1",  # a ratio
    "wraps",
    "layers",
    "parts",
    "legs",
    "N m",
    "m/s",
    "s",
    "Pa",
    "degC",
    "K",  # a rise of temperature
    "J/m",
    "J/kg",
    "kg/m",
]
"""The units in which values travel: SI, told apart where they are shown in different ways."""


def six_digits(x: float) -> float:
    """A figure as it is told: further digits differ between machines."""
    return float(f"{settled(x):.6g}")


def settled(x: float) -> float:
    """A figure to be rounded, without the digits that rounding left: 0.12345 is a tie, on whatever machine."""
    return float(f"{x:.12g}")


class Value(NamedTuple):
    """A number with its unit, as reports print it."""

    si: float
    unit: Unit


class Formula(NamedTuple):
    """An equation that a rule shows: `symbol = expression`, arithmetic in the names of `terms`.

    Written once where the rule is. The expression may use min, max, sqrt, sin, cos, exp and pi; a test
    evaluates it for every step, so that what is shown and what was reckoned can't drift apart.
    """

    symbol: str
    expression: str
    terms: tuple[tuple[str, Unit], ...]
    unit: Unit

    def step(self, result: float, *numbers: float) -> "Step":
        """One line of working: the result that mechanics gave, and the numbers in the order of `terms`."""
        return Step(self, result, numbers)


class Step(NamedTuple):
    """A formula with its numbers put in."""

    formula: Formula
    result: float
    numbers: tuple[float, ...]


Term = tuple[str, Value | str]


class Where(NamedTuple):
    """What a check is about: kind and name of the component, place in the plan, case, stage and station."""

    kind: str
    name: str
    pointer: str
    case: str = ""
    stage: int = 0
    travel_m: float | None = None
    related: tuple[tuple[str, str], ...] = ()  # (pointer, note) of other places that matter

    @property
    def component(self) -> str:
        """In words: `connector bow_b`; a name that says its kind, such as `join_1`, stands by itself."""
        return self.name if self.name.startswith(self.kind) else f"{self.kind} {self.name}"


class Check(NamedTuple):
    """One comparison that a rule made, whether it came out well or not.

    `use` is measured over what is allowed (or asked for over measured), with 1 at the limit and more being
    worse. A failed or can't-tell check becomes a finding. `message` and `remedy` are sentences with places for
    numbers, `{measured}` and the like, since it is the report that knows the units to show; `terms` holds what
    else they name. `pull_n` is the line pull that goes with `measured`, where the two grow in proportion.
    """

    result: Result
    where: Where
    message: str
    remedy: str = ""
    measured: float | None = None
    limit: float | None = None
    unit: Unit = "1"
    use: float | None = None
    missing: tuple[str, ...] = ()  # pointers or words for facts without which it can't be told
    terms: tuple[Term, ...] = ()
    working: tuple[Step, ...] = ()
    pull_n: float | None = None
    measure: str = ""  # what the limit is: `working load`, `breaking strength`
    basis: Basis | None = None  # where the rule rests on several
    grade: Grade | None = None  # where it differs from the rule's own


class Waiver(NamedTuple):
    """What a house file lets pass, and who answers for it. A rule set aside has no component and no last day."""

    rule: str
    component: str  # name or place in the plan; empty: whatever the rule finds
    reason: str
    allowed_by: str
    until: str  # the last day, as written

    @property
    def sets_aside(self) -> bool:
        """Whether the whole rule is set aside."""
        return not self.component

    @property
    def words(self) -> str:
        """Who answers for it, until when and why, as reports print it."""
        if self.sets_aside:
            return f"Set aside by {self.allowed_by}: {self.reason}"
        return f"Waived until {self.until} by {self.allowed_by}: {self.reason}"


class Finding(NamedTuple):
    """A check that did not pass, with all a report needs. A waived one is shown, and doesn't halt."""

    rule: str
    title: str
    grade: Grade
    result: Result
    check: Check
    basis: tuple[Basis, ...]
    waived: Waiver | None = None

    @property
    def order(self) -> tuple[object, ...]:
        """Most serious first, failures before can't-tells, then the worst use, rule and place."""
        w, check = self.check.where, self.check
        return (
            self.grade.rank, self.result is not Result.FAILED, -round(check.use or 0.0, 9), self.rule, w.stage,
            w.pointer, w.kind, w.name, w.case, w.travel_m or 0.0, check.message, check.missing,
        )  # fmt: skip


class Outcome(NamedTuple):
    """What one rule found about one rig. `reason` is for untested and inapplicable."""

    rule: str
    title: str
    grade: Grade
    result: Result
    checks: tuple[Check, ...] = ()
    findings: tuple[Finding, ...] = ()
    reason: str = ""


class Verdict(Enum):
    """The word at the top of every report."""

    CLEAR = "clear"
    NOT_CLEAR = "not clear"
    CANT_TELL = "can't tell"


class Changed(NamedTuple):
    """A limit that a rulebook or a house set to another value than the rule's own."""

    rule: str
    limit: str
    says: str
    standard: Value
    value: Value
    set_by: str
    milder: bool


class Inspection(NamedTuple):
    """Everything that the rules found: outcomes by rule, findings in their total order."""

    outcomes: tuple[Outcome, ...]
    findings: tuple[Finding, ...]
    verdict: Verdict
    halting: Grade
    changed: tuple[Changed, ...] = ()
    set_aside: tuple[Waiver, ...] = ()  # rules that the house file sets aside, whether they found anything or not

    @property
    def untested(self) -> tuple[Outcome, ...]:
        """Rules that broke."""
        return tuple(o for o in self.outcomes if o.result is Result.UNTESTED)
