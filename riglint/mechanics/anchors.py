"""Bodies that must stay: a vehicle's grip and its standing against tipping, and a tree."""

from math import cos, inf, pi, sin, sqrt
from typing import Final, NamedTuple

from riglint.mechanics._refuse import refuse
from riglint.mechanics.constants import N_PER_TONNE
from riglint.mechanics.provenance import AU_TREE_RESCUE, FOREST_TEXT, Figure

TYRE_ON_GRASS: Final = Figure(0.35, AU_TREE_RESCUE, "p. 214, tyres on grass", "read")


class Tipping(NamedTuple):
    """Moments about the edge that a body would tip over; `use` is None where it tips by itself."""

    overturning_nm: float
    restoring_nm: float
    use: float | None


def vehicle_grip_n(weight_n: float, mu: float, slope_rad: float, uplift_n: float, side_slope_rad: float = 0.0) -> float:
    """Force along the ground that a standing vehicle can take before it slides; 0 where it slides by itself.

    Equation: F = max(0, sqrt((mu N)^2 - (W sin(s))^2) - W sin(a)), N = max(0, W sqrt(cos(a)^2 - sin(s)^2) - U)
    Units: W weight [N], mu tyre on ground, a slope [rad], positive where the line pulls it DOWN the slope,
        U share of the line's pull that lifts it off the ground [N], s slope across the pull [rad]: grip that keeps it
        from sliding down there is not left for the pull
    Range: W >= 0, mu >= 0, -pi/2 < a, s < pi/2, U >= 0. Take the low end of W and mu: both help here
    Source: derivation (statics); grass 0.35: tree rescue manual p. 214, read
    Raises: ValueError outside the range
    """
    if not 0.0 <= weight_n < inf:
        raise refuse("weight_n", weight_n, "finite and not negative")
    if not 0.0 <= mu < inf:
        raise refuse("mu", mu, "finite and not negative")
    if not -pi / 2 < slope_rad < pi / 2:
        raise refuse("slope_rad", slope_rad, "between -pi/2 and pi/2")
    if not 0.0 <= uplift_n < inf:
        raise refuse("uplift_n", uplift_n, "finite and not negative")
    if not -pi / 2 < side_slope_rad < pi / 2:
        raise refuse("side_slope_rad", side_slope_rad, "between -pi/2 and pi/2")
    on_ground_n = max(0.0, weight_n * pressing_share(slope_rad, side_slope_rad) - uplift_n)
    left_n2 = (mu * on_ground_n) ** 2 - (weight_n * sin(side_slope_rad)) ** 2
    if left_n2 < 0.0:
        return 0.0  # it slides down sideways, whatever holds it along the pull
    return max(0.0, sqrt(left_n2) - weight_n * sin(slope_rad))


def pressing_share(slope_rad: float, across_rad: float) -> float:
    """The share of a weight that presses square on ground which falls along and across.

    Equation: sqrt(cos(a)^2 - sin(s)^2)
    Units: a slope along [rad], s across [rad]
    Range: -pi/2 < a, s < pi/2; nothing where the two are steeper than there is any ground
    Source: geometry: the weight along the one slope, the other and square to both add up to 1 by squares
    Raises: ValueError outside the range
    """
    for name, slope in (("slope_rad", slope_rad), ("across_rad", across_rad)):
        if not -pi / 2 < slope < pi / 2:
            raise refuse(name, slope, "between -pi/2 and pi/2")
    return sqrt(max(0.0, cos(slope_rad) ** 2 - sin(across_rad) ** 2)) if across_rad else cos(slope_rad)


def vehicle_holding_pull_n(weight_n: float, mu: float, slope_rad: float, lift_rad: float) -> float:
    """Largest line pull that a vehicle holds by grip, its own lift on the vehicle counted.

    Equation: T = max(0, W (mu cos(a) - sin(a)) / (cos(b) + mu sin(b)))
    Units: W weight [N], mu tyre on ground, a slope [rad], positive where the line pulls it DOWN the slope,
        b angle of the line above the ground [rad]
    Range: W >= 0, mu >= 0, -pi/2 < a < pi/2, -pi/2 <= b <= pi/2; a line that presses down (b < 0) is counted
        as level, which is the safe side. T never exceeds what would lift the vehicle
    Source: derivation (statics); 0.35 on grass, 3 t to about 10 kN: tree rescue manual p. 214, read
    Raises: ValueError outside the range
    """
    if not 0.0 <= weight_n < inf:
        raise refuse("weight_n", weight_n, "finite and not negative")
    if not 0.0 <= mu < inf:
        raise refuse("mu", mu, "finite and not negative")
    if not -pi / 2 < slope_rad < pi / 2:
        raise refuse("slope_rad", slope_rad, "between -pi/2 and pi/2")
    if not -pi / 2 <= lift_rad <= pi / 2:
        raise refuse("lift_rad", lift_rad, "-pi/2 to pi/2")
    rise_rad = max(0.0, lift_rad)
    denominator = cos(rise_rad) + mu * sin(rise_rad)
    level_n = weight_n * (mu * cos(slope_rad) - sin(slope_rad))
    if level_n <= 0.0 or denominator < 1e-12:
        return 0.0
    pull_n = level_n / denominator
    lifting = sin(rise_rad)
    return pull_n if lifting == 0.0 else min(pull_n, weight_n * cos(slope_rad) / lifting)


def tree_holding_n(diameter_m: float) -> Figure:
    """Pull that a sound tree or stump might stand. ONLY to make a verdict worse, never to let one pass.

    Equation: T = D^2 / 3, D in decimetres, T in tonnes-force
    Units: D diameter at the strap [m], result [N]
    Range: D > 0
    Source: forest engineering texts (a rule of 1961), from memory, low confidence
    Raises: ValueError outside the range
    """
    if not 0.0 < diameter_m < inf:
        raise refuse("diameter_m", diameter_m, "finite and above 0")
    value = (10.0 * diameter_m) ** 2 / 3.0 * N_PER_TONNE
    return Figure(value, FOREST_TEXT, "stump anchors, D squared over 3", "from memory, low confidence")


def tipping(
    *,
    weight_n: float,
    half_base_m: float,
    cg_height_m: float,
    slope_rad: float,
    pull_n: float,
    pull_height_m: float,
    uplift_n: float,
    uplift_arm_m: float,
    across_rad: float = 0.0,
) -> Tipping:
    """Whether a pull tips a body over one of its edges.

    Equation: M_o = max(0, P h + U c), M_r = W (b sqrt(cos(a)^2 - sin(s)^2) - H sin(a)), use = M_o / M_r
    Units: W weight [N], b distance of the centre of gravity from the edge (half the track or wheelbase) [m],
        H its height [m], a slope down towards the edge, below nothing where it rises [rad], P pull along the ground
        towards the edge, below nothing where it goes away from it [N], h its height [m], U lift by the line [N], c
        distance of its point from the edge, inwards [m], s slope along the edge [rad]
    Range: all >= 0 but a, s and P, -pi/2 < a, s < pi/2
    Source: derivation (statics)
    Raises: ValueError outside the range
    """
    sizes = (
        ("weight_n", weight_n),
        ("half_base_m", half_base_m),
        ("cg_height_m", cg_height_m),
        ("pull_height_m", pull_height_m),
        ("uplift_n", uplift_n),
        ("uplift_arm_m", uplift_arm_m),
    )
    if not -inf < pull_n < inf:
        raise refuse("pull_n", pull_n, "finite")
    for name, value in sizes:
        if not 0.0 <= value < inf:
            raise refuse(name, value, "finite and not negative")
    if not -pi / 2 < slope_rad < pi / 2:
        raise refuse("slope_rad", slope_rad, "between -pi/2 and pi/2")
    if not -pi / 2 < across_rad < pi / 2:
        raise refuse("across_rad", across_rad, "between -pi/2 and pi/2")
    overturning_nm = max(0.0, pull_n * pull_height_m + uplift_n * uplift_arm_m)
    restoring_nm = weight_n * (half_base_m * pressing_share(slope_rad, across_rad) - cg_height_m * sin(slope_rad))
    use = overturning_nm / restoring_nm if restoring_nm > 0.0 else None
    return Tipping(overturning_nm, restoring_nm, use)
