"""Lines resolved: pieces and joins by their distance to the dead end, turns through seats, both ends."""

from __future__ import annotations

from math import inf

from riglint.plan.lines import Join as JoinFacts
from riglint.plan.lines import Line as LineFacts
from riglint.plan.lines import Piece as PieceFacts
from riglint.reading.quantity import Span
from riglint.rig.chains import Chains
from riglint.rig.faults import Faults
from riglint.rig.model import Chain, Join, Line, Piece, Redirect, Turn

MOST_TURNS = 12  # each doubles the corners of losses that every load is judged at


def resolve_line(
    name: str, facts: LineFacts, pointer: str, pieces_at: str, chains: Chains, faults: Faults
) -> Line | None:
    """One line; None where it has faults, which are then noted."""
    before = faults.told
    entries = _entries(facts, pieces_at, faults)
    turns = _turns(facts, pointer, chains.redirects, faults)
    first, dead_end = _ends(facts, pointer, chains, faults)
    if faults.told > before or dead_end is None:
        return None
    pieces, joins, length, unstated = _lay_out(entries)
    return Line(name, pointer, pieces, joins, turns, first, dead_end, length, unstated, facts.edge)


Entry = tuple[str, PieceFacts | JoinFacts, str]


def _entries(facts: LineFacts, pieces_at: str, faults: Faults) -> list[Entry]:
    """Pieces and joins in order, with a join between each two pieces."""
    out: list[Entry] = []
    for i, entry in enumerate(facts.pieces):
        [(name, value)] = entry.items()
        at = f"{pieces_at}/{i}/{name}"
        if isinstance(value, JoinFacts) != (i % 2 == 1):
            what = "a join where a piece belongs" if i % 2 == 0 else "a piece right behind a piece"
            faults.add(at, what, "let pieces and joins take turns; a join says its `kind`", key=True)
        out.append((name, value, at))
    if len(facts.pieces) % 2 == 0:
        faults.add(pieces_at, "the line doesn't end with a piece of rope", "begin and end with a piece")
    return out


def _turns(facts: LineFacts, pointer: str, redirects: dict[str, Redirect], faults: Faults) -> tuple[Turn, ...]:
    turns: list[Turn] = []
    for i, word in enumerate(facts.path[1:-1], start=1):
        at = f"{pointer}/path/{i}"
        if not isinstance(word, str):
            faults.add(at, "a list in mid path", "only the ends of a line are made fast by connectors")
            continue
        turn = _turn(word, at, redirects, faults)
        if turn is None:
            continue
        if turns and turns[-1].redirect == turn.redirect:
            faults.add(at, f"the line goes from `{turn.redirect}` straight to itself", "name what stands between")
        turns.append(turn)
    _count_turns(turns, pointer, redirects, faults)
    return tuple(turns)


def _turn(word: str, at: str, redirects: dict[str, Redirect], faults: Faults) -> Turn | None:
    name, _, seat_name = word.partition(".")
    redirect = redirects.get(name)
    if redirect is None:
        faults.unknown(at, name, "redirect", list(redirects))
        return None
    seat = redirect.facts.running(seat_name)
    if seat is None:
        seats = [s for s in ("sheave", "groove", "bore") if redirect.facts.running(s)]
        found = f"`{word}` names no seat of `{name}`" if seat_name else f"`{word}` doesn't say which seat"
        serves = " or ".join(f"`{name}.{s}`" for s in seats) or f"give `{name}` a sheave, groove or bore"
        faults.add(at, found, serves)
        return None
    return Turn(name, seat_name, seat, seat.loss or redirect.facts.loss, at)


def _count_turns(turns: list[Turn], pointer: str, redirects: dict[str, Redirect], faults: Faults) -> None:
    if len(turns) > MOST_TURNS:
        faults.add(f"{pointer}/path", f"{len(turns)} turns in one line", f"at most {MOST_TURNS} can be worked out")
    for name in {t.redirect for t in turns}:
        used = sum(t.redirect == name for t in turns)
        room = redirects[name].facts.sheaves
        if used > room:
            faults.add(f"{pointer}/path", f"the line goes {used} times through `{name}`, which has room for {room}",
                       f"another redirect, or `sheaves: {used}` if it has that many")  # fmt: skip


def _ends(facts: LineFacts, pointer: str, chains: Chains, faults: Faults) -> tuple[Chain | None, Chain | None]:
    first, last = facts.path[0], facts.path[-1]
    begin = None if first == "winch" else chains.resolve(first, f"{pointer}/path/0")
    at = f"{pointer}/path/{len(facts.path) - 1}"
    if last == "winch":
        faults.add(at, "the path ends at the winch", "begin at the winch and end at the dead end")
        return begin, None
    return begin, chains.resolve(last, at)


def _lay_out(entries: list[Entry]) -> tuple[tuple[Piece, ...], tuple[Join, ...], Span, tuple[str, ...]]:
    """Go from the dead end inward and note where each piece begins and ends.

    A piece of unknown length may end anywhere: what comes after it has no known distance to the dead end.
    """
    pieces: list[Piece] = []
    joins: list[tuple[str, JoinFacts, str, Span]] = []
    unstated: list[str] = []
    low = high = 0.0
    for name, facts, pointer in reversed(entries):
        if isinstance(facts, JoinFacts):
            joins.append((name, facts, pointer, Span(low, high)))
            continue
        start = low
        if facts.length is None:
            unstated.append(name)
            high = inf
        else:
            low, high = low + facts.length.low, high + facts.length.high
        pieces.append(Piece(name, pointer, facts, start, high))
    placed = tuple(
        Join(name, pointer, facts, at, inner=pieces[i + 1], outer=pieces[i])
        for i, (name, facts, pointer, at) in enumerate(joins)
    )
    return tuple(reversed(pieces)), tuple(reversed(placed)), Span(low, high), tuple(unstated)
