"""The estimate: from a question to the fewest parts, the line, what every place carries, and what of the kit serves."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any, Final, NamedTuple

from riglint.estimate.ask import Asked
from riglint.estimate.ladder import Rung, ladder
from riglint.estimate.line import LineNeeded, first_n, gives, line_needed, most_n
from riglint.estimate.question import Question
from riglint.estimate.serves import Fit, Load, dated, fits, pick, rope_fit, seat_of
from riglint.kit.gear import PieceGear
from riglint.mechanics.tackle import dead_line_n
from riglint.outcome import Formula, Result, Step
from riglint.plan.bodies import Body
from riglint.plan.lines import Piece
from riglint.plan.redirects import Redirect
from riglint.rulebook.book import Rulebook
from riglint.rulebook.limits import Limits
from riglint.solve.resistance import ResistanceTable
from riglint.solve.solution import ResistanceFigures

LOAD: Final = "load"  # the name of the body, here and in the plan to start from
ROPE: Final = "the rope"  # what is said of one that has no number
_BODY: Final = ("weight", "ground", "overturned", "running_gear")
_ROLLING: Final = "rolling"  # how the method begins that goes by the surface, and not by doctrine
_PARTS: Final = {1: "one part", 2: "both parts"}
_DEAD = Formula("carries", "fall_line * lines", (("fall_line", "N"), ("lines", "1")), "N")


class Place(NamedTuple):
    """A place where gear is made fast: on the load or on what stays, and what comes on it."""

    name: str  # `block_1`, `dead end`, `winch`
    on_load: bool
    lines: int
    load: Load
    block: Fit | None = None
    connector: Fit | None = None
    anchor: Fit | None = None

    @property
    def is_block(self) -> bool:
        """Whether the line is turned here."""
        return self.name.startswith("block_")

    @property
    def is_bare(self) -> bool:
        """Whether a block or a connector is wanted here and none was found."""
        return self.name != "winch" and (self.connector is None or (self.is_block and self.block is None))

    def working(self, line_n: float) -> Step:
        """The step with its numbers."""
        return _DEAD.step(self.load.expected_n, line_n, self.lines)


class Doctrine(NamedTuple):
    """What doctrine gives, where that is more than the surface does, and the last try of the ladder with it."""

    resistance_n: float
    rung: Rung


class Estimate(NamedTuple):
    """All that came of a question. `rungs` are the tries; the last one serves unless nothing does."""

    asked: Asked
    resistance: ResistanceFigures
    load_n: float | None
    rope: str | None  # the number in the kit
    rope_facts: Piece | None
    rope_fits: tuple[Fit, ...]
    rungs: tuple[Rung, ...]
    line: LineNeeded | None
    stall_n: float | None
    places: tuple[Place, ...]
    total: Load | None  # all that pulls on what stays
    others: tuple[tuple[str, tuple[Fit, ...]], ...]  # what else the kit has, by the place that it was looked at for
    missing: tuple[str, ...]
    doctrine: Doctrine | None = None

    @property
    def serves(self) -> Rung | None:
        """The fewest parts that do it, as far as facts are stated."""
        return self.rungs[-1] if self.rungs and self.rungs[-1].serves else None

    @property
    def sure(self) -> bool:
        """Whether the number of parts hangs on no fact that isn't stated: it may take more, else."""
        rung = self.serves
        return rung is not None and rung.gives.layer is not None and not self.resistance.missing

    @property
    def bare(self) -> tuple[Place, ...]:
        """Places that the kit has no block or no connector for."""
        if self.asked.kit is None:
            return ()
        return tuple(place for place in self.places if place.is_bare)

    @property
    def untold(self) -> tuple[Place, ...]:
        """Places where what the kit has may not do: nobody can tell."""
        chosen = ((place, (place.block, place.connector, place.anchor)) for place in self.places)
        return tuple(place for place, fits_of in chosen if any(f and f.result is Result.CANT_TELL for f in fits_of))

    @property
    def rope_wont_do(self) -> bool:
        """Whether the rope that is reckoned with is too short, too weak or damaged."""
        return self._rope_is(Result.FAILED)

    @property
    def rope_may_not_do(self) -> bool:
        """Whether nobody can tell of that rope, for want of a fact or of what was seen on it."""
        return self._rope_is(Result.CANT_TELL)

    def _rope_is(self, result: Result) -> bool:
        return any(fit.number == (self.rope or ROPE) and fit.result is result for fit in self.rope_fits)

    @property
    def is_done(self) -> bool:
        """Whether so many parts do it for certain, with the rope and the kit that there are."""
        reaches = not (self.line and self.line.enough is False)
        doubts = self.rope_wont_do or self.rope_may_not_do or self.bare or self.untold
        return self.sure and reaches and not doubts


def estimate(asked: Asked, book: Rulebook) -> Estimate:
    """Work the question out, by the limits that the rulebook has in force."""
    figures = ResistanceTable(LOAD, body_of(asked.data)).at(0.0, from_rest=True, sets_out=True)
    load_n = None if figures.hauling is None else figures.hauling.high
    keeps, factors = book.limits["drum-wraps"], book.limits["working-load"]
    ropes = list(_ropes(asked))
    tried = [_with_rope(asked, number, rope, figures, load_n, keeps, factors) for number, rope in ropes]
    best = min(tried, key=_short) if tried else _with_rope(asked, None, None, figures, load_n, keeps, factors)
    fitted = tuple(fit for one in tried for fit in one.rope_fits)
    return best._replace(rope_fits=fitted, missing=tuple(_missing(best)))


def body_of(data: dict[str, Any]) -> Body:
    """The load as a plan has it."""
    entry: dict[str, Any] = {key: data[key] for key in _BODY if key in data}
    if "resistance" in data:
        entry["resistance"] = {"steady": data["resistance"]}
    return Body.model_validate(entry)


def _ropes(asked: Asked) -> Iterator[tuple[str | None, Piece]]:
    """The rope that is named, or those of the kit, the shortest first."""
    if asked.question.rope is not None:
        yield asked.question.rope.from_kit, asked.question.rope
        return
    gear = asked.kit.gear.values() if asked.kit else ()
    ropes = [(one.number, one.record) for one in gear if isinstance(one.record, PieceGear) and not one.record.retired]
    yield from sorted(ropes, key=lambda rope: (rope[1].length.low if rope[1].length else 0.0, rope[0]))


def _short(one: Estimate) -> tuple[int, int, int, float]:
    """What tells a rope that serves from one that doesn't: the pull, the length, the strength; then what is short."""
    enough = {True: 0, None: 1, False: 2}[one.line.enough if one.line else None]
    order = (Result.PASSED, Result.CANT_TELL, Result.FAILED)
    fit = order.index(one.rope_fits[0].result) if one.rope_fits else 1
    short_m = (one.line.needed_m or one.line.out_m) - (one.line.there_m or 0.0) if one.line and enough == 2 else 0.0
    return int(one.serves is None), enough, fit, short_m


def _with_rope(
    asked: Asked, number: str | None, rope: Piece | None, figures: ResistanceFigures, load_n: float | None,
    keeps: Limits, factors: Limits,
) -> Estimate:  # fmt: skip
    question = asked.question
    rungs = _rungs(question, rope, load_n, _loss(asked))
    by_doctrine = max((part.force.high for part in figures.doctrine), default=0.0)
    doubted = load_n is not None and figures.used.startswith(_ROLLING) and by_doctrine > load_n
    further = _rungs(question, rope, by_doctrine, _loss(asked)) if doubted else ()
    stall_n = most_n(question, rope)
    chosen = rungs[-1] if rungs else None
    found = Estimate(
        asked, figures, load_n, number, rope, (), rungs,
        line_needed(question, rope, chosen.parts, keeps) if chosen else None, stall_n, (), None, (), (),
        Doctrine(by_doctrine, further[-1]) if further else None,
    )  # fmt: skip
    if chosen is None or not chosen.serves:
        return found
    pull = Load(chosen.line_n, stall_n)
    places, others = _places(asked, chosen.parts, pull, rope, factors)
    total = Load(chosen.line_n * chosen.parts, None if stall_n is None else stall_n * chosen.parts)
    own = (_rope_fit(found, pull, factors),) if rope else ()
    return found._replace(places=places, others=others, total=total, rope_fits=own)


def _rope_fit(found: Estimate, pull: Load, factors: Limits) -> Fit:
    name = found.rope or ROPE
    if found.line and found.line.enough is False:
        return Fit(name, Result.FAILED, "it is too short")
    gear = found.asked.kit.gear.get(name) if found.asked.kit else None
    return dated(rope_fit(name, found.rope_facts or Piece(), pull, factors), gear, found.asked.day)


def _rungs(question: Question, rope: Piece | None, load_n: float | None, loss: float | None) -> tuple[Rung, ...]:
    if load_n is None or question.winch is None or question.winch.rated_pull is None:
        return ()

    def given(parts: int) -> Any:
        return gives(question, rope, parts)

    return ladder(load_n, first_n(question, rope), given, loss)


def _loss(asked: Asked) -> float | None:
    """The worst loss stated of the kit's redirects that are in use."""
    gear = asked.kit.gear.values() if asked.kit else ()
    blocks = [g.record for g in gear if isinstance(g.record, Redirect) and not g.record.retired]
    losses = [loss for block in blocks if (loss := _loss_of(block)) is not None]
    return max(losses, default=None)


def _loss_of(block: Any) -> float | None:
    seat = block.running(seat_of(block))
    stated = (seat.loss if seat else None) or block.loss
    return None if stated is None else float(stated.high)


def _places(
    asked: Asked, parts: int, pull: Load, rope: Piece | None, factors: Limits
) -> tuple[tuple[Place, ...], tuple[tuple[str, tuple[Fit, ...]], ...]]:
    """From the winch along the line: blocks on the load and on anchors by turns, then the dead end."""
    taken: set[str] = set()
    double = _times(pull, 2)
    of = {
        ("block", 2): fits(asked.kit, "block", double, rope, factors, asked.day),
        ("connector", 2): fits(asked.kit, "connector", double, rope, factors, asked.day),
        ("connector", 1): fits(asked.kit, "connector", pull, rope, factors, asked.day),
        ("anchor", 2): fits(asked.kit, "anchor", double, rope, factors, asked.day),
        ("anchor", 1): fits(asked.kit, "anchor", pull, rope, factors, asked.day),
    }
    made = [Place("winch", False, 1, pull)]
    for turn in range(1, parts + 1):
        on_load, last = turn % 2 == 1, turn == parts
        lines = 1 if last else 2
        made.append(Place(
            "dead end" if last else f"block_{turn}", on_load, lines, _times(pull, lines),
            None if last else pick(of["block", 2], taken), pick(of["connector", lines], taken),
            None if on_load else pick(of["anchor", lines], taken),
        ))  # fmt: skip
    needed = {("anchor", 2)} if parts > 2 else {("anchor", 1)} if parts == 2 else set()
    needed |= {("block", 2), ("connector", 2)} if parts > 1 else set()
    needed.add(("connector", 1))
    rows = ((f"{kind} with {_PARTS[lines]} on it", of[kind, lines]) for kind, lines in sorted(needed))
    return tuple(made), tuple((what, found) for what, found in rows if found)


def _times(load: Load, lines: int) -> Load:
    return Load(dead_line_n(load.expected_n, lines), None if load.stall_n is None else dead_line_n(load.stall_n, lines))


def _missing(found: Estimate) -> Iterator[str]:
    """What isn't stated and something hangs on, in the words of the question."""
    question = found.asked.question
    yield from (fact.removeprefix(f"/bodies/{LOAD}/") for fact in found.resistance.missing)
    for key in ("distance", "reach", "winch"):
        if getattr(question, key) is None:
            yield key
    if question.winch is not None:
        for key in ("rated_pull", "rated_layer", "stall_pull", "drum"):
            if getattr(question.winch, key) is None:
                yield f"winch/{key}"
    if found.rope_facts is None:
        yield "rope"
        return
    for key in ("rope", "diameter", "length"):
        if getattr(found.rope_facts, key) is None:
            yield f"rope/{key}"
