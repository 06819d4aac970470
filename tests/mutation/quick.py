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
from typing import TYPE_CHECKING

from tests.mutation.run import ROOT

if TYPE_CHECKING:
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
    from tests.rules.says import said
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
    outcomes = ((apply(rule, rig, Limits(rule.limits)), lines) for rig, lines in _cases(Path(file).stem))
    return all(not outcome.reason and said(outcome) == lines for outcome, lines in outcomes)


@cache
def _cases(stem: str) -> list[tuple[Solution, list[str]]]:
    """Each case, worked out, with what it holds that is said of it."""
    from riglint.solve.solve import solve
    from tests.rules.says import judged, written

    paths = sorted((ROOT / "tests" / "rules" / stem).glob("*.yaml"))
    return [(solve(judged(path)[1].rig), written(path)) for path in paths]
