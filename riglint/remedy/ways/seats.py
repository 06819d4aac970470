"""The other seat of a ring: rope through the bore and hanger through the groove, or the other way about."""

from __future__ import annotations

from collections.abc import Iterator

from riglint.outcome import Finding
from riglint.remedy.model import Proposal
from riglint.remedy.patch import put, replace, value_at
from riglint.remedy.workshop import Workshop
from riglint.rig.model import Turn

_OTHER = {"bore": "groove", "groove": "bore"}


def other_seat(shop: Workshop, finding: Finding) -> Iterator[Proposal]:
    """For every ring that the finding names, or every ring if it names none."""
    where = finding.check.where
    stage = shop.rig.stages[where.stage]
    named = {where.name.partition(".")[0], *(t.partition(".")[0] for _, t in finding.check.terms if isinstance(t, str))}
    turns = [turn for line in stage.lines for turn in line.turns]
    for turn in [turn for turn in turns if turn.redirect in named] or turns:
        redirect = stage.redirects[turn.redirect]
        other = _OTHER.get(turn.seat_name, "")
        if redirect.facts.seat(other) is None or value_at(shop.data, turn.pointer) is None:
            continue
        yield _swap(shop, turn, redirect.pointer, other, hung=redirect.facts.hung_through)


def _swap(shop: Workshop, turn: Turn, pointer: str, other: str, hung: str | None) -> Proposal:
    changes = [replace(turn.pointer, f"{turn.redirect}.{other}")]
    words = "reeve the rope through {redirect}.{other}"
    if hung == other:
        changes.append(put(shop.data, f"{pointer}/hung_through", turn.seat_name))
        words += " and hang {redirect} by its {own}"
    terms = (("redirect", turn.redirect), ("other", other), ("own", turn.seat_name))
    return Proposal(words, terms, tuple(changes))
