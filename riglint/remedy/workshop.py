"""Where changes are tried: the changed data is read, resolved, solved and inspected like any other plan."""

from __future__ import annotations

import json
import re
from collections.abc import Callable, Sequence
from functools import partial
from typing import TYPE_CHECKING, Any, Final, NamedTuple

from riglint.outcome import Finding, Grade, Inspection, Result
from riglint.plan.load import KitFor, LoadedPlan, load_plan
from riglint.reading.document import Document, read_document
from riglint.reading.problems import ReadingFailed
from riglint.remedy.compare import is_gone
from riglint.remedy.patch import Operation, PatchError, patched
from riglint.rulebook.book import Rulebook
from riglint.rulebook.inspect import apply, inspect
from riglint.solve.solution import Solution
from riglint.solve.solve import solve

if TYPE_CHECKING:
    from riglint.kit.read import Kit


_ABOUT_PEOPLE: Final = re.compile(r"(/stages/\d+)?/people/")  # no pull depends on who stands where


class Engine(NamedTuple):
    """What a plan is worked out with. `kit_for` finds the kit that stronger gear may come from; None: no kit."""

    rulebook: Rulebook
    load: Callable[[str, str], LoadedPlan]
    inspect: Callable[[Solution, Grade], Inspection]
    kit_for: KitFor | None = None


def plain_engine(rulebook: Rulebook) -> Engine:
    """For plans with neither kit nor house file."""
    return Engine(rulebook, load_plan, lambda solution, halting: inspect(solution, rulebook, halting))


class Trial(NamedTuple):
    """A changed plan, solved."""

    loaded: LoadedPlan
    solution: Solution


class Workshop:
    """One plan as it stands, and a bench to try changes of it on. Equal changes are worked out once."""

    def __init__(self, document: Document, solution: Solution, inspection: Inspection, engine: Engine) -> None:
        self.solution, self.inspection, self.engine = solution, inspection, engine
        self.rig = solution.rig
        self.file = document.file
        self.data: Any = read_document(document.text, document.file).data
        """As the plan has it; `filled` is with what its kit lends."""
        self.filled: Any = document.data
        self.kit = self._kit()
        self._trials: dict[str, Trial | None] = {}
        self._inspections: dict[int, Inspection] = {}
        self.tried = 0

    def _kit(self) -> Kit | None:
        """The plan's kit. One that can't be had is of no use here; a plan that needs it has been refused."""
        from riglint.kit.find import KitRefused  # noqa: PLC0415 -- only where remedies are asked for

        try:
            return self.engine.kit_for(self.data.get("kit")) if self.engine.kit_for else None
        except (KitRefused, ReadingFailed):
            return None

    def try_(self, changes: Sequence[Operation]) -> Trial | None:
        """The changed plan; None where it can't be read, a stage that stood can no longer, or a line goes slack.

        What no longer pulls carries nothing, and so would seem to be put right.
        """
        key = json.dumps(list(changes), ensure_ascii=False)
        if key not in self._trials:
            self._trials[key] = self._changed(changes)
        return self._trials[key]

    def _changed(self, changes: Sequence[Operation]) -> Trial | None:
        try:
            data = patched(self.data, changes)
        except PatchError:
            return None
        self.tried += 1
        pulls_the_same = all(map(_ABOUT_PEOPLE.match, (change["path"] for change in changes)))
        return self._worked_out(json.dumps(data, ensure_ascii=False), pulls_the_same=pulls_the_same)

    def _worked_out(self, text: str, *, pulls_the_same: bool) -> Trial | None:
        try:
            loaded = self.engine.load(text, self.file)
        except ReadingFailed:
            return None
        if pulls_the_same:
            stages = zip(self.solution.stages, loaded.rig.stages, strict=True)
            return Trial(loaded, Solution(loaded.rig, tuple(old._replace(stage=new) for old, new in stages)))
        solution = solve(loaded.rig)
        stood = sum(stage.refused is None for stage in self.solution.stages)
        stands = sum(stage.refused is None for stage in solution.stages)
        if stands < stood or _slack(solution) > _slack(self.solution):
            return None
        return Trial(loaded, solution)

    def puts_right(self, finding: Finding, trial: Trial) -> bool:
        """Whether the finding's own rule no longer finds it: the cheap look before the whole inspection."""
        rule = self.engine.rulebook.rule(finding.rule)
        if rule is None:
            return True
        found = apply(rule, trial.solution, self.engine.rulebook.limits[rule.slug])
        if found.result is Result.UNTESTED:
            return False
        before = [f for f in self.inspection.findings if f.rule == finding.rule]
        return is_gone(finding, before, found.findings)

    def inspect(self, trial: Trial) -> Inspection:
        """The whole inspection of a changed plan."""
        made = partial(self.engine.inspect, trial.solution, self.inspection.halting)
        if id(trial) not in self._inspections:
            self._inspections[id(trial)] = made()
        return self._inspections[id(trial)]


def _slack(solution: Solution) -> int:
    """How many legs carry nothing at some station, whatever the case."""
    legs = (leg for stage in solution.stages for station in stage.stations for leg in station.legs)
    return sum(bool(leg.tension) and not any(leg.tension.values()) for leg in legs)
