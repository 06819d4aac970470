"""How far one thing can change before the verdict does, as reports tell it."""

from __future__ import annotations

from collections.abc import Callable
from typing import Literal, NamedTuple

from riglint.outcome import Unit, Verdict
from riglint.remedy.room.search import Search, seen
from riglint.remedy.workshop import Workshop

Of = Literal["resistance", "slope", "swing", "angle"]
Side = Literal["", "wider", "tighter"]


class Anchor(NamedTuple):
    """The point that is moved to change an angle, and by how much, outward from the rope."""

    point: str
    by_m: float


class Headroom(NamedTuple):
    """How far one thing can change.

    `at` is where the verdict changes, `then` to what, and `rules` what changes it. None in `at` and `then`: the
    verdict holds as far as was looked (`looked_to`). Where the verdict is already not clear, `growing` is False: the
    search is for where it would not be. `steady` says whether the verdict only went one way over all that was looked
    at; `step` how finely that was, in the unit of `change`.
    """

    of: Of
    name: str
    unit: Unit  # of `now`, `at` and `looked_to`
    now: float | None
    at: float | None
    change: float | None  # a factor for the resistance, else by how many radians
    then: Verdict | None
    rules: tuple[str, ...]
    looked_to: float | None
    growing: bool
    steady: bool
    why_not: str = ""
    step: float | None = None
    side: Side = ""
    anchor: Anchor | None = None


def untold(of: Of, name: str, unit: Unit, why: str) -> Headroom:
    """What can't be told, and why."""
    return Headroom(of, name, unit, None, None, None, None, (), None, growing=True, steady=True, why_not=why)


def is_growing(shop: Workshop) -> bool:
    """Whether there is room to look for; else what is sought is where the verdict gets better."""
    return shop.inspection.verdict is not Verdict.NOT_CLEAR


def rules_of(shop: Workshop, found: Search) -> tuple[str, ...]:
    """What changes the verdict: what comes, or where nothing does, what goes."""
    if found.then is None:
        return ()
    own = seen(shop.inspection).found
    change = found.then.found - own if is_growing(shop) else own - found.then.found
    return tuple(sorted({rule for rule, _, _ in change or found.then.found ^ own}))


def told(
    shop: Workshop, what: tuple[Of, str, Unit], now: float, at: Callable[[float], float], found: Search
) -> Headroom:
    """What a search found; `at` gives the thing's own value from that of the search.

    The place is the outermost that is safe to name: where it is still good, or at last good.
    """
    if found.looked_to == found.start:
        return untold(*what, "the rig can't be worked out with any other")
    change = found.last if is_growing(shop) else found.first
    place = None if change is None else at(change)
    then = found.then.verdict if found.then else None
    return Headroom(
        *what, now, place, change, then, rules_of(shop, found), at(found.looked_to), is_growing(shop), found.steady,
        step=found.step,
    )  # fmt: skip
