"""What a rule is: a generator of checks, with its title, grade, basis, limits and what it guards."""

import re
from collections.abc import Callable, Iterator
from typing import Final, Literal, NamedTuple, get_args

from riglint.outcome import Basis, Check, Grade
from riglint.rulebook.limits import Limit, Limits
from riglint.solve.solution import Solution

Guards = Literal["line", "drum", "redirects", "connectors", "anchors", "load", "people", "paper"]
Generator = Callable[[Solution, Limits], Iterator[Check]]

GUARDS: Final[tuple[str, ...]] = get_args(Guards)
_SLUG: Final = re.compile(r"[a-z][a-z0-9]*(-[a-z0-9]+)*")
_IS_GENERATOR: Final = 0x20  # the flag that the interpreter sets on the code of a generator function


class RuleError(ValueError):
    """A rule that is not fit to be one."""


Way = Literal["higher", "lower", "taken away", "nearer"]


class Worse(tuple[str, Way]):
    """A fact that can only worsen a rule's outcome, and which way: `Worse("points/*/rated", "lower")`.

    The fact is a place in the plan, `*` any name in it; keys with `+` between them go together. `nearer` is for
    somebody's place, towards the nearest leg.
    """

    __slots__ = ()

    def __new__(cls, fact: str, way: Way) -> "Worse":
        return super().__new__(cls, (fact, way))

    @classmethod
    def by(cls, *, higher: str = "", lower: str = "", nearer: str = "", taken_away: str = "") -> tuple["Worse", ...]:
        """Several of them, parted by spaces; what differs in the last key alone, by commas: `drum/width,flange`."""
        ways: tuple[tuple[Way, str], ...] = (
            ("higher", higher), ("lower", lower), ("nearer", nearer), ("taken away", taken_away),
        )  # fmt: skip
        return tuple(cls(fact, way) for way, facts in ways for group in facts.split() for fact in _each(group))


def _each(group: str) -> list[str]:
    holder, slash, keys = group.rpartition("/")
    return [f"{holder}{slash}{key}" for key in keys.split(",")]


class Rule(NamedTuple):
    """One rule. `page` is its module's docstring, `file` the module's own file."""

    slug: str
    title: str
    grade: Grade
    guards: Guards
    basis: tuple[Basis, ...]
    limits: tuple[Limit, ...]
    worse: tuple[Worse, ...]
    check: Generator
    page: str
    file: str
    once: bool = False  # whether to say a thing once, however many stages it holds in


def rule(
    *,
    title: str,
    grade: Grade,
    guards: Guards,
    basis: tuple[Basis, ...],
    limits: tuple[Limit, ...] = (),
    worse: tuple[Worse, ...] = (),
    once: bool = False,
) -> Callable[[Generator], Rule]:
    """Make a generator function a rule; its name gives the slug: `drum_wraps` is `drum-wraps`."""

    def made(check: Generator) -> Rule:
        module = getattr(check, "__globals__", {})
        slug = getattr(check, "__name__", "").replace("_", "-")
        page = (module.get("__doc__") or "").strip()
        file = str(module.get("__file__") or "")
        found = Rule(slug, title, grade, guards, basis, limits, worse, check, page, file, once)
        for fault in _faults(found):
            raise RuleError(f"rule {slug}: {fault}")
        return found

    return made


def _faults(rule: Rule) -> Iterator[str]:
    code = getattr(rule.check, "__code__", None)
    if not _SLUG.fullmatch(rule.slug):
        yield "its name must be lower case words, like `drum_wraps`"
    if code is None or not code.co_flags & _IS_GENERATOR:
        yield "it must be a generator function that yields checks"
    if not rule.title.strip():
        yield "it has no title"
    if not isinstance(rule.grade, Grade):
        yield "its grade must be a Grade"
    if rule.guards not in GUARDS:
        yield f"it must guard one of {', '.join(GUARDS)}"
    if not rule.page:
        yield "its module has no docstring, which is its page"
    yield from _faults_of_evidence(rule)


def _faults_of_evidence(rule: Rule) -> Iterator[str]:
    if not rule.basis or not all(isinstance(b, Basis) for b in rule.basis):
        yield "it has no basis"
    if not all(isinstance(limit, Limit) for limit in rule.limits):
        yield "its limits must be made with Limit"
    names = [limit.name for limit in rule.limits]
    if len(set(names)) < len(names):
        yield "two limits have one name"
