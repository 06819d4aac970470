"""A plan that was handed in: read, solved and inspected, or why it couldn't be."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path
from typing import NamedTuple

from riglint.house.context import Contexts
from riglint.kit.read import opened
from riglint.outcome import Grade
from riglint.plan.plan import Plan
from riglint.reading.problems import ReadingFailed
from riglint.report.material import Inspected
from riglint.review.gather import is_yaml
from riglint.rulebook.book import RulebookError
from riglint.solve.solve import solve


class Handed(NamedTuple):
    """One plan. With `inspected` it could be read, else `unread` says why not."""

    file: str
    plan: Plan | None = None
    inspected: Inspected | None = None
    unread: ReadingFailed | None = None
    broke: str = ""

    @property
    def failed(self) -> bool:
        """Whether the program or a rule failed on it."""
        return bool(self.broke) or bool(self.inspected and self.inspected.inspection.untested)


def hand_in(file: Path, contexts: Contexts, halting: Grade = Grade.WARNING) -> Handed:
    """Read and judge one plan. Raises RulebookError for a rulebook that the user named; else tells what went wrong."""
    name = file.as_posix()
    try:
        text = opened(file, "name a plan that is there")
        context = contexts.of(file)
        loaded = context.load(text, name)
        solution = solve(loaded.rig)
        inspection = context.inspect(solution, halting)
    except ReadingFailed as failed:
        return Handed(name, unread=failed)
    except RulebookError:
        raise
    except Exception as error:  # one plan that breaks the program must not hide the others
        words = " ".join(f"{type(error).__name__}: {error}".split())
        return Handed(name, broke=f"the program itself failed on it: {words}")
    inspected = Inspected(name, loaded.document, solution, inspection, context.rulebook, context.sources)
    return Handed(name, loaded.plan, inspected)


def plans_in(paths: Iterable[Path], apart_from: Iterable[Path | None]) -> tuple[list[Path], bool]:
    """The plans of folders and the files that are named, and whether a folder was among them.

    A folder's task, model plan and kits aren't handed in. One file under two names is handed in once.
    """
    files: list[Path] = []
    folder = False
    own = {path.resolve() for path in apart_from if path}
    for path in paths:
        if path.is_dir():
            folder = True
            found = sorted(p for p in path.rglob("*") if is_yaml(p.name) and p.is_file())
            files += [p for p in found if p.resolve() not in own and _is_plan(p)]
        else:
            files.append(path)
    once: dict[Path, Path] = {}
    for file in files:
        once.setdefault(file.resolve(), file)
    return list(once.values()), folder


_OTHER_FILES = (b"rig_kit:", b"rig_task:", b"rig_house:", b"rig_estimate:")


def _is_plan(file: Path) -> bool:
    """Whatever doesn't say that it is another kind of file: a plan that can't be read is handed in all the same."""
    try:
        lines = file.read_bytes().splitlines()
    except OSError:
        return True
    return not any(line.startswith(_OTHER_FILES) for line in lines)
