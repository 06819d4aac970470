"""A student's plan against a model plan: in means and in figures, never in spelling."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from math import inf, isclose
from typing import Final, Literal, NamedTuple

from riglint.outcome import Result, Unit
from riglint.report.material import Inspected
from riglint.report.numbers import percent, show
from riglint.report.summary import Summary, summaries
from riglint.rig.model import Point
from riglint.solve.solution import ResistanceFigures, Solution, StageSolution
from riglint.solve.wraps import fewest_wraps

Standing = Literal["same", "better", "worse", "differs", "can't tell"]
_ALIKE: Final = 0.02
"""Relative: places that two people measure differ by as much."""

Way = Literal["lower", "higher", ""]


class Respect(NamedTuple):
    """One respect in which two plans can differ. Values are in words, and only for whoever asked for figures."""

    name: str
    ask: str  # the question to ask oneself where they differ
    standing: Standing
    own: str
    model: str
    means: bool


class _Figure(NamedTuple):
    name: str
    ask: str
    unit: Unit | Literal["use"]
    better: Way
    of: Callable[[Inspected, tuple[Summary, ...]], float | None]


def compare(own: Inspected, model: Inspected) -> tuple[Respect, ...]:
    """Every respect, means first, then the job. Of a job that is or may be easier no figure is better."""
    told = summaries(own.solution.stages, own.inspection), summaries(model.solution.stages, model.inspection)
    means = [_of_means(name, ask, of(own.solution), of(model.solution)) for name, ask, of in _MEANS]
    figures = [_of_figure(f, f.of(own, told[0]), f.of(model, told[1]), own.system) for f in (*_JOB, *_FIGURES)]
    if any(_is_easier(job.of(own, told[0]), job.of(model, told[1])) for job in _JOB):
        figures = [f._replace(standing="differs") if f.standing == "better" else f for f in figures]
    return (*means, *figures)


def _is_easier(own: float | None, model: float | None) -> bool:
    """Whether there is less to do than in the model plan, or perhaps less."""
    if own is None or model is None:
        return model is not None
    return own < model and not isclose(own, model, rel_tol=_ALIKE)


def better_rules(own: Inspected, model: Inspected) -> tuple[str, ...]:
    """Titles of rules that pass here and don't in the model plan."""
    passed = {o.rule: o.title for o in own.inspection.outcomes if o.result is Result.PASSED}
    open_ = {o.rule for o in model.inspection.outcomes if o.result in (Result.FAILED, Result.CANT_TELL)}
    return tuple(passed[rule] for rule in sorted(passed.keys() & open_))


def _of_means(name: str, ask: str, own: str, model: str) -> Respect:
    return Respect(name, ask, "same" if own == model else "differs", own, model, means=True)


def _of_figure(figure: _Figure, own: float | None, model: float | None, system: str) -> Respect:
    words = _shown(own, figure.unit, system), _shown(model, figure.unit, system)
    return Respect(
        figure.name, figure.ask, _standing(figure.better, own, model), words[0], words[1], means=not figure.better
    )


def _shown(value: float | None, unit: Unit | Literal["use"], system: str) -> str:
    if value is None:
        return "can't be told"
    return percent(value) if unit == "use" else show(value, unit, system)


def _standing(better: Way, own: float | None, model: float | None) -> Standing:
    """What isn't known is never better, nor is it as good."""
    if own is None or model is None:
        return "same" if own is model else "can't tell" if model is None else "worse"
    if isclose(own, model, rel_tol=_ALIKE):
        return "same"
    if not better:
        return "differs"
    return "better" if (own < model) == (better == "lower") else "worse"


def _counted(count: int, one: str) -> str:
    return f"{count} {one}" if count == 1 else f"{count} {one}s"


def _parts(solution: Solution) -> str:
    return ", ".join(str(stage.parts) for stage in solution.stages)


def _redirects(solution: Solution) -> str:
    kinds = [r.facts.kind for r in {r.pointer: r for s in solution.stages for r in s.stage.redirects.values()}.values()]
    return ", ".join(_counted(kinds.count(kind), kind) for kind in ("block", "ring") if kind in kinds) or "none"


def _ropes(solution: Solution) -> str:
    lines = {line.pointer: line for stage in solution.stages for line in stage.stage.lines}.values()
    pieces = sorted(piece.facts.rope or "rope not stated" for line in lines for piece in line.pieces)
    joins = sorted(join.facts.kind for line in lines for join in line.joins)
    return "; ".join((*pieces, *joins))


def _connectors(solution: Solution) -> str:
    kinds = sorted(c.facts.kind or "kind not stated" for c in
                   {c.pointer: c for s in solution.stages for c in s.stage.connectors.values()}.values())  # fmt: skip
    return ", ".join(_counted(kinds.count(kind), kind) for kind in dict.fromkeys(kinds)) or "none"


def _anchors(solution: Solution) -> str:
    """What the rig hangs on off the load, by kind."""
    held = [point for stage in solution.stages for point in _points(stage) if not point.body.moves]
    kinds = sorted(point.facts.kind or "kind not stated" for point in {p.pointer: p for p in held}.values())
    return ", ".join(_counted(kinds.count(kind), kind) for kind in dict.fromkeys(kinds)) or "none"


def _points(stage: StageSolution) -> list[Point]:
    return [c.item for c in stage.components if isinstance(c.item, Point)]


def _stages(solution: Solution) -> str:
    stops = sum(len(stage.stage.stops) for stage in solution.stages)
    return f"{_counted(len(solution.stages), 'stage')}, {_counted(stops, 'planned stop')}"


_MEANS: Final[tuple[tuple[str, str, Callable[[Solution], str]], ...]] = (
    ("parts", "What does one part more or less do to the line pull, to the line and to the anchors?", _parts),
    ("stages and stops", "Where must the pull be halted, and what is done there?", _stages),
    ("redirects", "What does each redirect bring, and what does it cost?", _redirects),
    ("rope and joins", "What rope is there, what joins it, and where does each join go?", _ropes),
    ("connectors", "What is each connector there for, and is there one too many or too few?", _connectors),
    ("anchors", "What else is there to make fast to, and which of it is the surest?", _anchors),
)  # fmt: skip


def _most(values: Iterable[float | None]) -> float | None:
    """The worst over the stages; None where one of them can't be told."""
    known = list(values)
    if not known or None in known:
        return None
    most = max(value for value in known if value is not None)
    return most if most < inf else None


def _anchor_load(case: str) -> Callable[[Inspected, tuple[Summary, ...]], float | None]:
    def worst(inspected: Inspected, told: tuple[Summary, ...]) -> float | None:
        del inspected
        return _most(next((a.load_n for a in s.anchors if a.case == case), None) for s in told)

    return worst


def _line_pull(summary: Summary) -> float | None:
    """By the greater of two reckonings, as the verdict goes: whoever leaves out the losses has none the better rig."""
    if summary.line_pull_n is None:
        return None
    return max(summary.line_pull_n, summary.line_pull_doctrine_n or 0.0)


def _gives(inspected: Inspected, told: tuple[Summary, ...]) -> float | None:
    """Not told where something isn't counted for want of facts: that may be the first."""
    del inspected
    if any(summary.not_counted for summary in told):
        return None
    pulls = [summary.gives.pull_n if summary.gives else None for summary in told]
    return None if None in pulls or not pulls else min(pull for pull in pulls if pull is not None)


def _use(inspected: Inspected, told: tuple[Summary, ...]) -> float | None:
    """As above: what isn't counted may be used most."""
    del inspected
    if any(summary.not_counted for summary in told):
        return None
    return _most(summary.uses[0].use if summary.uses else None for summary in told)


def _wraps(inspected: Inspected, told: tuple[Summary, ...]) -> float | None:
    del told
    found = [fewest_wraps(stage) for stage in inspected.solution.stages if stage.stations]
    return None if not found or any(wraps.lacks for wraps in found) else min(wraps.wraps for wraps in found)


def _halting(inspected: Inspected, told: tuple[Summary, ...]) -> float:
    del told
    inspection = inspected.inspection
    return float(sum(f.waived is None and f.grade.at_least(inspection.halting) for f in inspection.findings))


def _resists(inspected: Inspected, told: tuple[Summary, ...]) -> float | None:
    """What the load resists with at the most, or pulls with where it is lowered; None where a fact of it is missing."""
    del told
    return _most(_at(stage.stage.works, s.resistance) for stage in inspected.solution.stages for s in stage.stations)


def _at(works: str, found: ResistanceFigures) -> float | None:
    force, lacks = (found.hauling, found.missing) if works == "hauling" else (found.holding, found.rest_missing)
    return None if force is None or lacks else force.high


def _way(inspected: Inspected, told: tuple[Summary, ...]) -> float:
    del told
    return sum(stage.stage.travel.high for stage in inspected.solution.stages)


_JOB: Final = (
    _Figure("resistance of the load", "What holds the load, and is all of it in the plan?", "N", "", _resists),
    _Figure("distance that the load goes", "How far has the load to go?", "m", "", _way),
)
_FIGURES: Final = (
    _Figure("line that the rig needs", "How long is the way of the line, and what makes it longer?", "m", "lower",
            lambda _, told: _most(s.line_needed_m for s in told)),
    _Figure("line pull that the job needs", "What makes the line pull what it is?", "N", "lower",
            lambda _, told: _most(map(_line_pull, told))),
    _Figure("worst anchor load as expected", "How many parts does that anchor hold?", "N", "lower",
            _anchor_load("expected")),
    _Figure("worst anchor load at stall", "What can the winch put on it?", "N", "lower", _anchor_load("stall")),
    _Figure("line pull at which the first thing is past its load",
            "What is the weakest thing for what it carries?", "N", "higher", _gives),
    _Figure("highest use of anything", "What has least in hand?", "use", "lower", _use),
    _Figure("fewest wraps on the drum", "When is least rope on the drum?", "wraps", "higher", _wraps),
    _Figure("findings and gaps that halt the pull", "Which of what you found would you pull with?", "1", "lower",
            _halting),
)  # fmt: skip
