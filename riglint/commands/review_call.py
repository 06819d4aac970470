"""The command `review` and its options. Thin: the work is imported when it runs."""

from __future__ import annotations

from collections.abc import Callable
from enum import StrEnum
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from riglint.commands.day import Day, day_of_pull
from riglint.outcome import Grade

if TYPE_CHECKING:
    from riglint.review.gather import Slice


class ReviewAs(StrEnum):
    """Forms of a review's report."""

    text = "text"
    json = "json"
    sarif = "sarif"
    html = "html"


class HaltOn(StrEnum):
    """Which findings halt."""

    any = "any"
    new = "new"


_Path = Annotated[list[str], typer.Argument(metavar="PATH...", help="Folders of plans, and plans.")]
_Merge = Annotated[
    bool, typer.Option("--merge", help="The paths are reports of slices, made --as json: put them together.")
]
_Since = Annotated[Path | None, typer.Option("--since", metavar="OLD.sarif", help="Tell what is new, worse and gone.")]
_Slice = Annotated[str | None, typer.Option("--slice", metavar="2/5", help="Only this part of the plans.")]
_Rulebook = Annotated[
    list[Path] | None,
    typer.Option("--rulebook", metavar="FOLDER", help="A further rulebook, whose code is run; repeatable."),
]
_House = Annotated[Path | None, typer.Option("--house", metavar="FILE", help="The house file for all plans.")]
_Kit = Annotated[Path | None, typer.Option("--kit", metavar="FILE", help="The kit for all plans.")]
_Out = Annotated[Path | None, typer.Option("--out", "-o", metavar="FILE", help="Where to write the report.")]
_Cache = Annotated[Path | None, typer.Option("--cache", metavar="FOLDER", help="Where results are kept for next time.")]


def review(
    paths: _Path,
    *,
    form: Annotated[ReviewAs, typer.Option("--as", help="Form of the report.")] = ReviewAs.text,
    out: _Out = None,
    halt_at: Annotated[
        Grade, typer.Option("--halt-at", case_sensitive=False, help="The mildest grade that halts.")
    ] = Grade.WARNING,
    since: _Since = None,
    halt_on: Annotated[HaltOn, typer.Option("--halt-on", help="With --since: any finding, or new ones.")] = HaltOn.any,
    slice_: _Slice = None,
    merge: _Merge = False,
    rulebook: _Rulebook = None,
    house: _House = None,
    kit: _Kit = None,
    day: Day = None,
    cache: _Cache = None,
    no_cache: Annotated[bool, typer.Option("--no-cache", help="Work out every plan anew.")] = False,
    jobs: Annotated[int | None, typer.Option("--jobs", min=1, help="Processes; else one a core.")] = None,
    remedies: Annotated[bool, typer.Option("--remedies", help="Try what would put each finding right.")] = False,
    quiet: Annotated[bool, typer.Option("--quiet", help="No word on how far it has come.")] = False,
) -> None:
    """Review folders of plans: a summary by plan and by rule, worst first, then the findings.

    Exit code: 0 nothing at or above the halting grade, 1 findings or can't-tells there, 2 wrong call,
    3 a plan that can't be read, 4 a rule or the program itself failed.
    """
    from riglint.commands import review as job  # noqa: PLC0415
    from riglint.review.cache import default_folder  # noqa: PLC0415
    from riglint.review.gather import read_slice  # noqa: PLC0415
    from riglint.review.pool import cores  # noqa: PLC0415
    from riglint.review.run import Order  # noqa: PLC0415

    _check(merge=merge, since=since, halt_on=halt_on, part=slice_)
    order = Order(
        paths=() if merge else tuple(paths),
        merge=tuple(map(Path, paths)) if merge else (),
        form=form.value,
        halting=halt_at,
        rulebooks=tuple(rulebook or ()),
        house=house,
        kit=kit,
        today=day_of_pull(day),
        since=since,
        only_new=halt_on is HaltOn.new,
        slice=_told(lambda: read_slice(slice_)) if slice_ else None,
        cache=None if no_cache else cache or default_folder(),
        processes=jobs or cores(),
        quiet=quiet,
        remedies=remedies,
    )
    raise typer.Exit(job.run(order, out))


def _check(*, merge: bool, since: Path | None, halt_on: HaltOn, part: str | None) -> None:
    if merge and part:
        raise typer.BadParameter("--slice is for plans, not for reports to --merge")
    if halt_on is HaltOn.new and since is None:
        raise typer.BadParameter("--halt-on new needs --since")


def _told(read: Callable[[], Slice]) -> Slice:
    try:
        return read()
    except ValueError as error:
        raise typer.BadParameter(str(error)) from None
