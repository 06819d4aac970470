"""What the ground holds in front of a deadman, and a vehicle by its grip, from facts at their adverse ends."""

from math import atan, hypot
from typing import Final, NamedTuple

from riglint.mechanics.anchors import vehicle_grip_n
from riglint.mechanics.constants import M_PER_FOOT
from riglint.mechanics.deadman import TRENCH_FM, deadman_capacity_n, deadman_holding_pa
from riglint.plan.points import Deadman
from riglint.rig.model import Body
from riglint.solve.solution import Peak

LOCKED: Final = frozenset({"brakes", "chocks", "spades"})
TIED: Final = frozenset({"anchored", "tied back"})

_SOILS = {"undisturbed loam": "loam", "rock or hardpan": "rock or hardpan"}
_WET = "wet fine-grained or sandy"
_SHALLOW_M, _DEEP_M, _FLAT_RAD = 3.0 * M_PER_FOOT, 7.0 * M_PER_FOOT, atan(0.25)
_EDGE_M = 1e-9


class DeadmanHolding(NamedTuple):
    """What the ground holds, by its holding power, the face, the length and what the trench takes of it."""

    holds_n: float
    ground_pa: float
    face_m: float
    length_m: float
    trench_m: float


def holding_of(facts: Deadman) -> tuple[DeadmanHolding | None, tuple[str, ...]]:
    """What the ground holds, or would hold at the table's least depth, and what keeps that from being told."""
    missing = [fact for fact in ("soil", "pull_slope") if getattr(facts, fact) is None]
    if missing or facts.pull_slope is None:
        return None, tuple(missing)
    if facts.depth.low < _SHALLOW_M - _EDGE_M:
        missing.append("depth, at least 3 ft, where the table begins")
    depth_m = min(max(facts.depth.low, _SHALLOW_M), _DEEP_M)
    ground = deadman_holding_pa(depth_m, max(_FLAT_RAD, facts.pull_slope.high), _SOILS.get(str(facts.soil), _WET))
    trench_m = facts.trench.high if facts.trench else TRENCH_FM.value
    bears_m = facts.length.low - trench_m
    if ground is None or bears_m <= 0.0:
        return None, (*missing, "length, more than the trench takes")
    holds_n = deadman_capacity_n(ground.value, facts.face.low, bears_m)
    return DeadmanHolding(holds_n, ground.value, facts.face.low, facts.length.low, trench_m), tuple(missing)


class VehicleHolding(NamedTuple):
    """What a vehicle holds along the ground, by grip and by what it is tied back to, against what pulls it."""

    pull_n: float
    holds_n: float
    mu: float
    weight_n: float
    slope_rad: float
    uplift_n: float
    tied_n: float


def missing_for_grip(body: Body) -> tuple[str, ...]:
    """The facts without which it can't be told what a vehicle holds."""
    facts, ground = body.facts, body.facts.ground
    there: tuple[tuple[str, object], ...] = (
        ("weight", facts.weight), ("secured", facts.secured),
        ("ground/grip", ground and ground.grip), ("ground/slope", ground and ground.slope),
    )  # fmt: skip
    if facts.secured and not LOCKED & set(facts.secured):
        there = (("held_by", facts.held_by),)
    return tuple(fact for fact, value in there if value is None)


def vehicle_holding(body: Body, peak: Peak, grass: float) -> VehicleHolding:
    """What a vehicle with all its facts holds, on a slope that falls towards the pull; `grass` caps its grip there."""
    facts, ground = body.facts, body.facts.ground
    secured = set(facts.secured or ())
    pull_n, uplift_n = hypot(peak.force[0], peak.force[1]), max(0.0, peak.force[2])
    tied_n = facts.held_by.low if facts.held_by and TIED & secured else 0.0
    if not (LOCKED & secured and facts.weight and ground and ground.grip and ground.slope):
        return VehicleHolding(pull_n, tied_n, 0.0, 0.0, 0.0, uplift_n, tied_n)
    mu = min(ground.grip.low, grass) if ground.surface and "grass" in ground.surface else ground.grip.low
    slope_rad = max(map(abs, ground.slope))
    grip_n = vehicle_grip_n(facts.weight.low, mu, slope_rad, uplift_n)
    return VehicleHolding(pull_n, grip_n + tied_n, mu, facts.weight.low, slope_rad, uplift_n, tied_n)
