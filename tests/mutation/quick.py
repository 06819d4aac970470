"""A rule's mutants against its own cases, limits and flag, without pytest: some hundredths of a second each.

The cases are loaded and worked out once, since a rule's mutant changes nothing before the rule. What survives here is
tried on the other tests by `run`.
"""

from __future__ import annotations

import os
import resource
import sys
from functools import cache
from pathlib import Path
from types import ModuleType
from typing import TYPE_CHECKING, NamedTuple

from tests.mutation.run import ROOT

if TYPE_CHECKING:
    from riglint.outcome import Outcome
    from riglint.plan.load import LoadedPlan
    from riglint.solve.solution import Solution

SECONDS = 20


def caught(file: str, text: str) -> bool:
    """Whether a case of the rule comes out or reads otherwise."""
    _cases(Path(file).stem)
    child = os.fork()
    if child == 0:
        resource.setrlimit(resource.RLIMIT_CPU, (SECONDS, SECONDS))
        try:
            same = _same(file, text)
        except BaseException:  # whatever a mutant does, it is caught at it
            same = False
        os._exit(0 if same else 1)
    return os.waitstatus_to_exitcode(os.waitpid(child, 0)[1]) != 0


def _same(file: str, text: str) -> bool:
    from riglint.rulebook.inspect import apply
    from riglint.rulebook.limits import Limits
    from riglint.rulebook.rule import Rule
    from tests.rules.test_limits import LIMITS
    from tests.rules.test_over_stages import ONCE

    name = f"mutant_{Path(file).stem}"
    module = sys.modules[name] = ModuleType(name)
    module.__file__ = str(ROOT / file)
    exec(compile(text, file, "exec"), vars(module))
    [rule] = [value for value in vars(module).values() if isinstance(value, Rule)]
    meant: dict[str, str | float] = dict(LIMITS.get(rule.slug, {}))  # type: ignore[call-overload]
    if rule.once != (rule.slug in ONCE) or any(
        abs(limit.value - limit.parse(meant[limit.name])) > 1e-12 for limit in rule.limits
    ):
        return False
    return all(_reads(apply(rule, case.rig, Limits(rule.limits)), case) for case in _cases(Path(file).stem))


class _Case(NamedTuple):
    path: Path
    plan: LoadedPlan
    rig: Solution


def _reads(outcome: Outcome, case: _Case) -> bool:
    """Whether an outcome points at the lines that a case says it does, and reads as the case holds."""
    from tests.rules.says import marked, points_at, said, written

    as_marked = not outcome.reason and points_at(outcome, case.plan) == marked(case.path)
    return as_marked and said(outcome) == written(case.path)


@cache
def _cases(stem: str) -> list[_Case]:
    """Each case, worked out."""
    from riglint.solve.solve import solve
    from tests.rules.says import judged

    paths = sorted((ROOT / "tests" / "rules" / stem).glob("*.yaml"))
    return [_Case(path, plan := judged(path)[1], solve(plan.rig)) for path in paths]
