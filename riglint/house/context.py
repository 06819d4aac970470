"""What a plan is inspected with: its house file, rulebooks, limits, kit and the day. One for every plan of a run."""

from __future__ import annotations

import os
from collections.abc import Iterable
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

from riglint.house.find import house_files
from riglint.outcome import Grade, Inspection
from riglint.plan.load import LoadedPlan, load_plan
from riglint.reading.nearest import nearest
from riglint.reading.problems import Problem, ReadingFailed
from riglint.rulebook.book import Rulebook, RulebookError
from riglint.rulebook.find import rulebooks
from riglint.rulebook.inspect import inspect
from riglint.rulebook.sources import Sources
from riglint.solve.solution import Solution

if TYPE_CHECKING:
    from datetime import date

    from riglint.house.read import House
    from riglint.kit.read import Kit

# Models of kits and house files are imported where there is one: most plans have neither, and start quicker.


class Context(NamedTuple):
    """What one plan is loaded and inspected with."""

    plan: Path | None  # None: its text came without a file
    house: House | None
    rulebook: Rulebook
    sources: Sources
    today: date | None
    kits: Kits
    passed_over: tuple[str, ...] = ()
    """House files farther up, which don't count, by their names from the house file's folder."""

    def load(self, text: bytes | str, file: str) -> LoadedPlan:
        """Read, check and resolve the plan with gear of its kit. Raises ReadingFailed."""
        return load_plan(text, file, self.kit_for, self.today)

    def inspect(self, solution: Solution, halting: Grade = Grade.WARNING) -> Inspection:
        """What the rules find, with the house's waivers."""
        inspection = inspect(solution, self.rulebook, halting)
        if self.house is None:
            return inspection
        from riglint.house.settle import set_aside  # noqa: PLC0415
        from riglint.house.waivers import PlanName, apply_waivers  # noqa: PLC0415

        name = PlanName(self.house.name_of(self.plan), solution.rig.title)
        waivers = self.house.file.waivers
        return apply_waivers(inspection, solution, waivers, name, self.today, set_aside(self.house), self.passed_over)

    def kit_for(self, named: str | None) -> Kit | None:
        """The user's choice, else the plan's, else the house's. Raises KitRefused and ReadingFailed."""
        if self.kits.chosen:
            return self.kits.open(self.kits.chosen)
        if named is not None:
            from riglint.kit.find import kit_file  # noqa: PLC0415

            folders = [self.plan.parent] if self.plan else []
            return self.kits.open(kit_file(named, folders + ([self.house.folder] if self.house else [])))
        if self.house and self.house.file.kit is not None:
            return self.kits.open(self.house.folder / self.house.file.kit)
        return None


class Kits:
    """Kits by their files, each read once in a run."""

    def __init__(self, chosen: Path | None) -> None:
        self.chosen = chosen
        self._read: dict[Path, Kit] = {}

    def open(self, file: Path) -> Kit:
        """The kit of a file. Raises ReadingFailed."""
        if file not in self._read:
            from riglint.kit.read import open_kit  # noqa: PLC0415

            self._read[file] = open_kit(file)
        return self._read[file]


class Contexts:
    """Contexts of the plans of one run: what the user chose goes before what house files say.

    A rulebook's code runs because the user named its folder or a house file does, never because a plan does.
    """

    def __init__(
        self,
        rulebooks: Iterable[Path] = (),
        house: Path | None = None,
        kit: Path | None = None,
        today: date | None = None,
        *,
        standard: bool = True,
    ) -> None:
        self._folders = tuple(rulebooks)
        self._house = house
        self._today = today
        self._standard = standard
        self._kits = Kits(kit)
        self._books: dict[Path | None, tuple[House | None, Rulebook, Sources]] = {}

    def of(self, plan: Path | None) -> Context:
        """The context of a plan's file; None for a text without one, which has a house only if the user names it.

        Raises RulebookError for what the user named, ReadingFailed for what the house file says.
        """
        files = [self._house] if self._house else house_files(plan) if plan else []
        found = files[0] if files else None
        if found not in self._books:
            house, book = self._with_house(found) if found else (None, self._book(()))
            self._books[found] = house, book, Sources(origin.folder for origin in book.origins)
        house, book, sources = self._books[found]
        passed_over: tuple[str, ...] = ()
        if house and not house.file.alone:
            passed_over = tuple(_from(house.folder, other) for other in files[1:])
        return Context(plan, house, book, sources, self._today, self._kits, passed_over)

    def _with_house(self, file: Path) -> tuple[House, Rulebook]:
        from riglint.house.read import read_house  # noqa: PLC0415
        from riglint.house.settle import settled, unsettled  # noqa: PLC0415

        house, problems = read_house(file)
        if house is None:
            raise ReadingFailed(problems)
        book, faults = self._with_rulebooks(house)
        problems += [*faults, *unsettled(book, house, all_books=not faults and not _of_rulebooks(problems))]
        if problems:
            raise ReadingFailed(problems)
        return house, settled(book, house)

    def _with_rulebooks(self, house: House) -> tuple[Rulebook, list[Problem]]:
        """The user's rulebooks with those of a house, and each line of the house file that can't be used."""
        chosen = {folder.resolve() for folder in self._folders}
        named = ((i, house.folder / name) for i, name in enumerate(house.file.rulebooks))
        added = {i: folder for i, folder in named if folder.resolve() not in chosen}
        try:
            return self._book(added.values()), []
        except RulebookError:
            pass
        book = self._book(())  # a fault in what the user named is no fault of the house
        good: list[Path] = []
        problems = []
        for index, folder in added.items():
            try:
                book = self._book([*good, folder])
                good.append(folder)
            except RulebookError as error:
                what = "; ".join(" ".join(line.split()) for line in str(error).splitlines())
                serves = "name a folder that holds a rulebook"
                problems.append(house.document.problem(f"/rulebooks/{index}", what, serves))
        return book, problems

    def _book(self, added: Iterable[Path]) -> Rulebook:
        return rulebooks([*self._folders, *added], standard=self._standard)


def _of_rulebooks(problems: Iterable[Problem]) -> bool:
    """Whether it is the rulebooks of a house that can't be read, by their own key or a misspelt one."""
    steps = {problem.place.split("/")[1] for problem in problems if problem.place}
    return any(nearest(step, ["rulebooks"]) for step in steps)


def _from(folder: Path, other: Path) -> str:
    """A file's name from a folder on, never by a machine's own paths."""
    return Path(os.path.relpath(other, folder)).as_posix()
