"""What the ground holds in front of a deadman, and a vehicle by its grip, from facts at their adverse ends."""

from math import atan, cos, hypot, inf, sin
from re import findall
from typing import Final, NamedTuple

from riglint.mechanics.anchors import pressing_share, vehicle_grip_n
from riglint.mechanics.constants import M_PER_FOOT
from riglint.mechanics.deadman import TRENCH_FM, deadman_capacity_n, deadman_holding_pa
from riglint.mechanics.rounding import first_greatest
from riglint.plan.points import Deadman
from riglint.reading.problems import quoted
from riglint.rig.model import Body
from riglint.solve.ratings import place
from riglint.solve.solution import Case, Component, Peak, StageSolution

LOCKED: Final = frozenset({"brakes", "chocks", "spades"})
TIED: Final = frozenset({"anchored", "tied back"})

_BARE = frozenset({
    "road", "roads", "roadway", "track", "tracks", "trackway", "gravel", "gravelled", "gravelly", "sand", "sandy",
    "mud", "muddy", "dirt", "clay", "chalk", "chalky", "rock", "rocky", "stone", "stony", "concrete", "asphalt",
    "tarmac", "paved", "paving", "slab", "slabs", "hard", "hardcore", "hardstanding", "yard", "farmyard", "snow",
    "snowy", "ice", "icy",
})  # fmt: skip
"""What no grass grows on."""
_GREEN = frozenset({
    "verge", "verges", "turf", "lawn", "meadow", "meadows", "pasture", "pastures", "paddock", "field", "fields",
    "orchard", "vineyard", "churchyard",
})  # fmt: skip
"""Where grass may grow, whatever else is said of it."""
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
    trench_m, length_m, face_m = min(trench_m, facts.length.low), facts.length.low, facts.face.low
    if ground is None:
        return None, tuple(missing)
    # All of it in the trench, it holds nothing: that fails, for a longer one holds more and may fail, too.
    holds_n = deadman_capacity_n(ground.value, face_m, length_m - trench_m) if length_m > trench_m else 0.0
    return DeadmanHolding(holds_n, ground.value, face_m, length_m, trench_m), tuple(missing)


def is_grass(surface: str | None) -> bool | None:
    """Whether a surface is grass; None where it isn't stated, or in words that may mean it."""
    text = (surface or "").lower()
    if "grass" in text:
        return True
    words = set(findall("[a-z]+", text))  # whole ones: an orchard is not hard, and a vineyard is no yard
    return False if words & _BARE and not words & _GREEN else None


def lacks_for_grass(body: Body) -> tuple[str, ...]:
    """What isn't stated that would settle whether a vehicle stands on grass, with the words that do."""
    surface = body.facts.ground.surface if body.facts.ground else None
    if is_grass(surface) is not None:
        return ()
    if surface is None:
        return (place(body.pointer, "ground/surface"),)
    settles = "write `grass`, or what bare ground it is, such as `mud`, `gravel` or `concrete`, and no more"
    return (place(f"{body.pointer}/ground", f"whether {quoted(surface)} is grass: {settles}"),)


class VehicleHolding(NamedTuple):
    """What a vehicle holds along the ground, by grip and by what it is tied back to, against what pulls it."""

    pull_n: float
    holds_n: float
    mu: float
    weight_n: float
    slope_rad: float
    uplift_n: float
    tied_n: float
    side_slope_rad: float

    @property
    def pressed_n(self) -> float:
        """What presses it on the ground."""
        share = pressing_share(self.slope_rad, self.side_slope_rad)
        return max(0.0, self.weight_n * share - self.uplift_n)

    @property
    def use(self) -> float:
        """Pull over what is held; without end where nothing is."""
        return self.pull_n / self.holds_n if self.holds_n > 0.0 else inf if self.pull_n > 0.0 else 0.0


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


def slides_most(
    stage: StageSolution, component: Component, body: Body, case: Case, grass: float
) -> tuple[VehicleHolding, Peak]:
    """The pull that most nearly drags a vehicle, over the stations: a lesser pull may lift more. As vehicle_holding."""
    found = [(vehicle_holding(body, peak, grass), peak) for peak in stage.pulls[case][component.key]]
    return first_greatest(found, lambda one: one[0].use)


def vehicle_holding(body: Body, peak: Peak, grass: float) -> VehicleHolding:
    """What a vehicle with all its facts holds, on a slope that falls towards the pull and, where one is stated, on a
    side slope; `grass` caps its grip where it may stand on grass.

    Equation: pulled with h and lifted with v as the plan has them, or h cos(a) - v sin(a) and h sin(a) + v cos(a),
    whichever use is greater. Units: forces [N], slope a [rad].
    Source: derivation (statics). A plan's places may be taped along the slope or level, and it doesn't tell which.
    """
    facts, ground = body.facts, body.facts.ground
    secured = set(facts.secured or ())
    level_n, up_n = hypot(peak.force[0], peak.force[1]), peak.force[2]
    tied_n = facts.held_by.low if facts.held_by and TIED & secured else 0.0
    if not (LOCKED & secured and facts.weight and ground and ground.grip and ground.slope):
        return VehicleHolding(level_n, tied_n, 0.0, 0.0, 0.0, max(0.0, up_n), tied_n, 0.0)
    mu = ground.grip.low if is_grass(ground.surface) is False else min(ground.grip.low, grass)
    weight_n, slope_rad = facts.weight.low, max(map(abs, ground.slope))
    side_rad = max(map(abs, ground.side_slope)) if ground.side_slope else 0.0
    down, off = sin(slope_rad), cos(slope_rad)
    readings = ((level_n, up_n), (level_n * off - up_n * down, level_n * down + up_n * off))
    found = []
    for pull_n, up_n in readings:
        lift_n = max(0.0, up_n)
        grip_n = vehicle_grip_n(weight_n, mu, slope_rad, lift_n, side_rad)
        found.append(VehicleHolding(pull_n, grip_n + tied_n, mu, weight_n, slope_rad, lift_n, tied_n, side_rad))
    return first_greatest(found, lambda one: one.use)
