"""A mutant of mechanics against the tests that reach its line, in the process that has collected them.

Pytest collects once. A first run of every test, in a child, notes which lines of mechanics it reaches and how long it
takes. Each mutant then has a child of its own, in which the module's functions and constants are put in place of the
true ones, and the tests that reach the line run, quickest first, up to the first that fails. In the first run the
modules' own texts are put in place in the same way: a test that fails at that would fail whatever the mutant, and is
left out. What a mutant changes only while other modules are imported is missed here: `run` tries what survives on the
whole tree.
"""

from __future__ import annotations

import ast
import gc
import json
import os
import resource
import signal
import sys
import tempfile
import time
from collections import Counter
from collections.abc import Callable, Iterator
from functools import cache
from importlib import import_module
from pathlib import Path
from types import FrameType, FunctionType, ModuleType
from typing import Any, NamedTuple

import pytest
from hypothesis import HealthCheck, Phase, settings

from tests.mutation.mutants import Mutant
from tests.mutation.run import ROOT

# Of work on one test, and how often as long as it takes unchanged (noted while traced, so generous): what takes
# longer than both together hangs, and so is caught.
SECONDS, TIMES = 3.0, 5.0
LONG = 3600  # of work in the run that notes what is reached
NEAREST = ("tests/mechanics", "tests/published")
# Tests, and how many examples of a property: what is nearest and quickest first; what survives one round is tried on
# the next.
ROUNDS = ((NEAREST, 20), (NEAREST, 100), (("tests/solve", "tests/rules/test_cases.py", "tests/examples"), 100))
FOLDER = "riglint/mechanics"


def left(chosen: list[tuple[str, Mutant]], tests: tuple[str, ...], examples: int) -> list[tuple[str, Mutant]]:
    """The mutants that those tests don't catch, with so many examples of each property."""
    with tempfile.NamedTemporaryFile("r") as file:
        done = _in_child(lambda: _tried(chosen, tests, examples, Path(file.name)), LONG * 10, niceness=10)
        if not done:
            raise RuntimeError(f"{', '.join(tests)} can't be run")
        return [chosen[i] for i in json.load(file)]


def was_tried_in_full(file: str, mutant: Mutant) -> bool:
    """Whether a mutant lies in a function, so that nothing was reckoned from it while other modules were imported."""
    tree = ast.parse((ROOT / file).read_text())
    bodies = (node.body for node in ast.walk(tree) if isinstance(node, ast.FunctionDef))
    return any(body[0].lineno <= mutant.line <= (body[-1].end_lineno or 0) for body in bodies)


def _tried(chosen: list[tuple[str, Mutant]], tests: tuple[str, ...], examples: int, file: Path) -> bool:
    found: list[int] = []

    def tell(number: int, caught: bool) -> None:
        if not caught:
            found.append(number)

    sys.dont_write_bytecode = True
    profile = {"phases": (Phase.explicit, Phase.generate), "derandomize": True, "database": None, "deadline": None}
    settings.register_profile(
        "mutation",
        max_examples=examples,
        suppress_health_check=list(HealthCheck),
        **profile,  # type: ignore[arg-type]
    )
    quietly = ["-q", "--no-header", "--hypothesis-profile=mutation", "-W", "ignore::pytest.PytestAssertRewriteWarning"]
    pytest.main([*quietly, *tests], plugins=[Within(chosen, tell)])
    file.write_text(json.dumps(found))
    return True


class Reach(NamedTuple):
    """What a test reaches, `file:line`, and how long it takes."""

    lines: frozenset[str]
    seconds: float


class Within:
    """The plugin: in place of running the tests, tries each mutant on those that reach it."""

    def __init__(self, chosen: list[tuple[str, Mutant]], tell: Callable[[int, bool], None]) -> None:
        self.chosen, self.tell = chosen, tell
        self.failed = False

    def pytest_runtest_logreport(self, report: pytest.TestReport) -> None:
        """Note a failure of the test that runs."""
        self.failed = self.failed or report.failed

    def pytest_runtestloop(self, session: pytest.Session) -> bool:
        """Note what each test reaches, then try the mutants: on what caught most before, then on the quickest."""
        reach = self._reach(session.items)
        items = [item for item in session.items if item.nodeid in reach]
        catches: Counter[str] = Counter()
        gc.freeze()  # else each child copies all of the memory on its first collection
        for number, (file, mutant) in enumerate(self.chosen):
            items.sort(key=lambda item: (-catches[f"{file} {item.nodeid}"], reach[item.nodeid].seconds))
            met = [item for item in items if f"{file}:{mutant.line}" in reach[item.nodeid].lines]
            near = {f"{file}:{line}" for line in _lines(ROOT / file, mutant.line)}
            met = met or [item for item in items if near & reach[item.nodeid].lines or _reads(item, file)]
            by = self._caught(file, mutant, met, reach)
            catches[f"{file} {by}"] += 1
            self.tell(number, by is not None)
        return True

    def _reach(self, items: list[pytest.Item]) -> dict[str, Reach]:
        """By test that passes."""
        with tempfile.NamedTemporaryFile("r") as file:
            _in_child(lambda: self._note(items, Path(file.name)), LONG)
            return {one: Reach(frozenset(lines), seconds) for one, (lines, seconds) in json.load(file).items()}

    def _note(self, items: list[pytest.Item], file: Path) -> bool:
        found = {}
        for name in sorted({name for name, _ in self.chosen}):  # what fails though nothing is changed tells nothing
            _put(name, (ROOT / name).read_text())
        for item in items:
            reached: set[tuple[str, int]] = set()
            self.failed = False
            began = time.perf_counter()
            sys.settrace(_tracer(reached))
            _run(item)
            sys.settrace(None)
            if not self.failed:
                seconds = time.perf_counter() - began
                lines = sorted(f"{FOLDER}/{Path(path).name}:{line}" for path, line in reached)
                found[item.nodeid] = (lines, seconds)
        file.write_text(json.dumps(found))
        return True

    def _caught(self, file: str, mutant: Mutant, items: list[pytest.Item], reach: dict[str, Reach]) -> str | None:
        """The first test that fails; empty where the mutant can't be imported, or hangs; None where it survives."""
        with tempfile.NamedTemporaryFile("r") as told:

            def same() -> bool:
                _put(file, mutant.of((ROOT / file).read_text()))
                self.failed = False
                for item in items:
                    signal.setitimer(signal.ITIMER_VIRTUAL, SECONDS + TIMES * reach[item.nodeid].seconds)
                    _run(item)
                    if self.failed:
                        Path(told.name).write_text(item.nodeid)
                        return False
                return True

            return None if _in_child(same, LONG) else told.read()


def _reads(item: pytest.Item, file: str) -> bool:
    """Whether a test's module names a module of mechanics: it may read a constant and run no line of it."""
    return Path(file).stem in _text(item.path)


@cache
def _text(path: Path) -> str:
    return path.read_text()


def _run(item: pytest.Item) -> None:
    item.config.hook.pytest_runtest_protocol(item=item, nextitem=None)


def _in_child(work: Callable[[], bool], seconds: int, niceness: int = 0) -> bool:
    """Whether the work comes out true; false as well if it falls over, or does not end."""
    child = os.fork()
    if child == 0:
        os.nice(niceness)
        resource.setrlimit(resource.RLIMIT_CPU, (seconds, seconds))
        silence = os.open(os.devnull, os.O_WRONLY)
        os.dup2(silence, 1)
        os.dup2(silence, 2)
        try:
            good = work()
        except BaseException:  # whatever a mutant does, it is caught at it
            good = False
        os._exit(0 if good else 1)
    return os.waitstatus_to_exitcode(os.waitpid(child, 0)[1]) == 0


def _tracer(reached: set[tuple[str, int]]) -> Callable[..., Any]:
    folder = str(ROOT / FOLDER)

    def local(frame: FrameType, event: str, _: object) -> Any:
        if event == "line":
            reached.add((frame.f_code.co_filename, frame.f_lineno))
        return local

    def calls(frame: FrameType, event: str, _: object) -> Any:
        if not frame.f_code.co_filename.startswith(folder):
            return None
        return local(frame, "line", None)

    return calls


def _lines(path: Path, line: int) -> list[int]:
    """The lines of the function or the statement of the module that a line is in; of a constant, of the whole file."""
    for node in ast.parse(path.read_text()).body:
        if isinstance(node, ast.FunctionDef | ast.ClassDef) and node.lineno <= line <= (node.end_lineno or 0):
            return list(range(node.lineno, (node.end_lineno or 0) + 1))
    return list(range(1, len(path.read_text().splitlines()) + 1))


def _put(file: str, text: str) -> None:
    """Put a mutant's functions and constants in place of the true ones, wherever they were imported."""
    name = file.removesuffix(".py").replace("/", ".")
    true = import_module(name)  # the tests of a round need not have loaded it
    made = ModuleType(name)
    made.__file__ = str(ROOT / file)
    made.__package__ = name.rpartition(".")[0]
    sys.modules[name] = made
    exec(compile(text, str(ROOT / file), "exec"), vars(made))
    sys.modules[name] = true
    for key, old in list(vars(true).items()):
        if key.startswith("__") or key not in vars(made):
            continue
        new = vars(made)[key]
        for was, now in _functions(old, new, name):
            was.__code__, was.__defaults__, was.__kwdefaults__ = now.__code__, now.__defaults__, now.__kwdefaults__
        if not isinstance(old, FunctionType | type | ModuleType):
            _replace(key, old, new)


def _functions(old: Any, new: Any, module: str) -> Iterator[tuple[FunctionType, FunctionType]]:
    if getattr(old, "__module__", "") != module:
        return
    if isinstance(old, FunctionType):
        yield old, new
    elif isinstance(old, type):
        for key, value in vars(old).items():
            was, now = (getattr(v, "fget", None) or getattr(v, "__func__", v) for v in (value, vars(new).get(key)))
            if isinstance(was, FunctionType) and isinstance(now, FunctionType):
                yield was, now


def _replace(key: str, old: Any, new: Any) -> None:
    for module in list(sys.modules.values()):
        if vars(module).get(key) is old if isinstance(module, ModuleType) else False:
            setattr(module, key, new)
