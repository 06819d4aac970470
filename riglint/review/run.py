"""A whole review: what to do, done by however many processes, put together as a report."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass, replace
from datetime import date
from pathlib import Path

from riglint.outcome import Grade
from riglint.report.review_forms import FORMS
from riglint.report.reviewed import Tally, Whole
from riglint.report.spool import Spool
from riglint.review.about import about
from riglint.review.cache import Cache
from riglint.review.gather import Gathered, Slice, gather, one_of_each_folder, uri
from riglint.review.key import program_digest
from riglint.review.merge import Merged, merge
from riglint.review.pool import done
from riglint.review.progress import Progress
from riglint.review.record import Record
from riglint.review.since import Earlier, earlier
from riglint.review.work import Settings, Task


@dataclass(frozen=True, slots=True)
class Order:
    """What is to be reviewed or merged, and how."""

    paths: tuple[str, ...] = ()
    merge: tuple[Path, ...] = ()
    form: str = "text"
    halting: Grade = Grade.WARNING
    rulebooks: tuple[Path, ...] = ()
    house: Path | None = None
    kit: Path | None = None
    today: date | None = None
    since: Path | None = None
    only_new: bool = False
    slice: Slice | None = None
    cache: Path | None = None
    processes: int = 1
    quiet: bool = False
    remedies: bool = False


@dataclass(frozen=True, slots=True)
class Reviewing:
    """A review that is done and waits to be written."""

    code: int
    plans: int
    pieces: Iterator[str]


@contextmanager
def review(order: Order) -> Iterator[Reviewing]:
    """Do it. Nothing is written before all of it is done.

    Raises RulebookError, MergeError and SinceError, the last two before or while plans are read.
    """
    work = _Merging(order) if order.merge else _Files(order)
    settings = replace(work.settings, since=order.since is not None, only_new=order.only_new)
    tally = Tally()
    with Spool() as spool:
        with Progress(work.count, quiet=order.quiet) as progress:
            for one in done(_with_earlier(work, order), settings, order.processes, work.contexts):
                tally.add(one.head)
                spool.add(one.head.order, one.sections)
                progress.step()
        if settings.cache:
            Cache(settings.cache).tidy()
        whole = Whole(work.about, tally, settings.since, str(order.slice or ""))
        yield Reviewing(tally.code, tally.plans, FORMS[order.form]().whole(whole, spool))


class _Files:
    """Plans in files."""

    def __init__(self, order: Order) -> None:
        self.all: Gathered = gather(order.paths)
        self.names = order.slice.of(self.all.names) if order.slice else self.all.names
        self.count = len(self.names)
        self.gone_here = order.slice is None or order.slice.part == 1
        bare = Settings(
            order.form, order.halting, order.rulebooks, order.house, order.kit, order.today, order.cache,
            program_digest() if order.cache else "", self.all.base, {}, remedies=order.remedies,
        )  # fmt: skip
        folders = [Path(self.all.path(name)) for name in one_of_each_folder(self.names)]
        self.contexts = bare.contexts()
        self.about: Record = about(self.contexts, folders, order.halting, order.today)
        self.settings = replace(bare, rule_index=_index(self.about))

    def tasks(self) -> Iterator[Task]:
        for name in self.names:
            yield Task(uri(name), name, self.all.path(name))

    def others(self) -> Iterator[str]:
        """URIs of all plans, those of other slices, too: what the earlier review has beyond them is gone."""
        return map(uri, self.all.names)


class _Merging:
    """Plans in reports."""

    def __init__(self, order: Order) -> None:
        self.merged: Merged = merge(order.merge)
        self.about = self.merged.about
        self.gone_here = True
        halting = Grade(self.about["halting_grade"])
        self.settings = Settings(order.form, halting, (), None, None, None, None, "", "", _index(self.about))
        self.contexts = self.settings.contexts()
        self.count = sum(1 for _ in self.others())

    def tasks(self) -> Iterator[Task]:
        for plan in self.merged.plans():
            name, at = plan.pop("file"), plan.pop("uri")
            yield Task(at, name, record=plan)

    def others(self) -> Iterator[str]:
        return (str(plan["uri"]) for plan in self.merged.plans())


def _index(about: Record) -> dict[str, int]:
    return {rule["rule"]: number for number, rule in enumerate(about["rules"])}


def _with_earlier(work: _Files | _Merging, order: Order) -> Iterator[Task]:
    """The tasks, each with what the earlier review said of its plan, and those for plans that are gone."""
    if order.since is None:
        yield from work.tasks()
        return
    yield from _beside(work.tasks(), work.others(), earlier(order.since), gone_here=work.gone_here)


def _beside(
    tasks: Iterable[Task], others: Iterator[str], earlier: Iterator[Earlier], *, gone_here: bool
) -> Iterator[Task]:
    """All three are in the order of the URIs."""
    old, other = next(earlier, None), next(others, None)

    def gone(before: str | None) -> Iterator[Task]:
        nonlocal old, other
        while old and (before is None or old.uri < before):
            while other is not None and other < old.uri:
                other = next(others, None)
            if gone_here and other != old.uri and old.uri:
                yield Task(old.uri, _name(old.uri), old=old.results, gone=True)
            old = next(earlier, None)

    for task in tasks:
        yield from gone(task.uri)
        results = old.results if old and old.uri == task.uri else []
        yield task._replace(old=results)
    yield from gone(None)


def _name(uri: str) -> str:
    from urllib.parse import unquote  # noqa: PLC0415 -- only for plans that are gone

    return unquote(uri)
