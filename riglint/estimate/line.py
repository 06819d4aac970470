"""The line that so many parts need, and on what layer of the drum the winch then pulls."""

from __future__ import annotations

from typing import NamedTuple

from riglint.estimate.ladder import Gives
from riglint.estimate.question import Question
from riglint.mechanics.drum import Drum, layer_length_m, layer_of, length_of_wraps_m, pull_at_layer_n
from riglint.outcome import Formula, Step
from riglint.plan.lines import Piece
from riglint.rulebook.limits import Limits
from riglint.solve.rope import is_wire

_OUT = Formula("line_out", "parts * reach", (("parts", "1"), ("reach", "m")), "m")
_NEEDED = Formula("line_needed", "line_out + stays + run", (("line_out", "m"), ("stays", "m"), ("run", "m")), "m")


class LineNeeded(NamedTuple):
    """The line out at the start, what stays on the drum, and both. None is what can't be told."""

    parts: int
    reach_m: float
    out_m: float
    comes_in_m: float
    stays_m: float | None
    run_m: float
    needed_m: float | None
    there_m: float | None

    def working(self) -> tuple[Step, ...]:
        """The steps with their numbers."""
        steps = (_OUT.step(self.out_m, self.parts, self.reach_m),)
        if self.stays_m is None or self.needed_m is None:
            return steps
        return (*steps, _NEEDED.step(self.needed_m, self.out_m, self.stays_m, self.run_m))

    @property
    def enough(self) -> bool | None:
        """Whether the rope that there is will do."""
        if self.there_m is not None and self.there_m < (self.needed_m or self.out_m):
            return False
        return None if self.there_m is None or self.needed_m is None else True


def drum_of(question: Question, rope: Piece | None) -> Drum | None:
    """The drum with the rope on it, where both are known."""
    facts = question.winch.drum if question.winch else None
    if facts is None or rope is None or rope.diameter is None or rope.diameter.high > facts.width.low:
        return None
    return Drum(facts.diameter.low, facts.width.low, rope.diameter.high)


def line_needed(question: Question, rope: Piece | None, parts: int, keeps: Limits) -> LineNeeded | None:
    """What so many parts need, all of it out at the start; `keeps` are the limits of the rule on wraps.

    Equation: L = N X + what stays on the drum + what lies between drum and fairlead
    Units: N parts, X reach at its top [m]. Connectors' lengths are left out, which errs to the long side
    Source: derivation; what stays: the rule `drum-wraps`
    """
    if question.reach is None:
        return None
    reach_m = question.reach.high
    stays_m = _stays_m(question, rope, keeps)
    fairlead = question.winch.fairlead if question.winch else None
    run_m = fairlead.from_drum.high if fairlead and fairlead.from_drum else keeps["unstated_run"]
    out_m = parts * reach_m
    return LineNeeded(
        parts, reach_m, out_m, parts * question.distance.high if question.distance else 0.0, stays_m, run_m,
        None if stays_m is None else out_m + stays_m + run_m,
        rope.length.low if rope and rope.length else None,
    )  # fmt: skip


def _stays_m(question: Question, rope: Piece | None, keeps: Limits) -> float | None:
    """At the ends of measured drum and rope that leave most on it."""
    facts = question.winch.drum if question.winch else None
    if drum_of(question, rope) is None or facts is None or rope is None or rope.rope is None or rope.diameter is None:
        return None
    stout, roomy = (Drum(facts.diameter.high, facts.width.high, thick_m) for thick_m in reversed(rope.diameter))
    wire_m = length_of_wraps_m(stout, keeps["wire_wraps"])
    layer_m = max(layer_length_m(drum, 1) for drum in (stout, roomy))
    return wire_m if is_wire(rope.rope) else max(wire_m, keeps["fibre_layers"] * layer_m)


def gives(question: Question, rope: Piece | None, parts: int) -> Gives | None:
    """The least that the winch gives over the pull: at its end, when most rope is on the drum. None: not rated.

    Where drum, rope or lengths aren't known it is the rated pull, on a layer that can't be told.
    """
    winch = question.winch
    if winch is None or winch.rated_pull is None:
        return None
    rated_n, drum = winch.rated_pull.low, drum_of(question, rope)
    if drum is None or rope is None or rope.length is None or question.reach is None or question.distance is None:
        return Gives(rated_n, None)
    on_drum_m = max(0.0, rope.length.high - parts * max(0.0, question.reach.low - question.distance.high))
    layer = layer_of(drum, on_drum_m).layer
    return Gives(pull_at_layer_n(drum, rated_n, winch.rated_layer or 1, layer), layer)


def first_n(question: Question, rope: Piece | None) -> float:
    """The most that the winch is rated for: on its first layer where that can be told."""
    winch = question.winch
    if winch is None or winch.rated_pull is None:
        raise ValueError("the winch has no rated pull")
    drum = drum_of(question, rope)
    rated_n: float = winch.rated_pull.low
    return pull_at_layer_n(drum, rated_n, winch.rated_layer or 1, 1) if drum else rated_n


def most_n(question: Question, rope: Piece | None) -> float | None:
    """The most that the winch can pull, on the first layer: what everything carries if the load stays put.

    None where the layer of the stated pull, or the drum that tells the first from it, isn't known.
    """
    winch = question.winch
    if winch is None or winch.stall_pull is None or winch.rated_layer is None:
        return None
    drum = drum_of(question, rope)
    stall_n: float = winch.stall_pull.high
    if drum is None:
        return stall_n if winch.rated_layer == 1 else None
    return pull_at_layer_n(drum, stall_n, winch.rated_layer, 1)
