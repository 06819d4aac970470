"""What gear may carry: design factors, hitches, shackles pulled aside, and what a mark on a block means.

A breaking strength is always divided by a design factor; a working load never is.
"""

from math import inf, pi, radians, sin
from typing import Final, Literal

from riglint.mechanics._refuse import refuse, unknown
from riglint.mechanics.provenance import (
    ASME_B30_26,
    DERIVATION,
    ILO_DOCK_WORK,
    LR_LIFTING_CODE,
    NAVEDTRA_EQUIPMENT,
    OSHA_1918_II,
    Figure,
)

BOW_INCLUDED_MAX_RAD: Final = Figure(radians(120.0), ASME_B30_26, "26-1.9, two legs in the bow", "read second hand")
BLOCK_HEAD_FACTOR: Final = Figure(2.0, LR_LIFTING_CODE, "ch. 8 s. 3.1.5, single sheave", "read")
BLOCK_HEAD_FACTOR_ILO: Final = Figure(2.0, ILO_DOCK_WORK, "App. H.2, single sheave", "read")

_EDGE_RAD = 1e-9  # 45 deg typed as degrees must not fall into the next band
# Up to this angle off the shackle's line, this much of its working load is left.
_SHACKLE_BANDS: Final = ((radians(5.0), 1.00), (radians(45.0), 0.70), (radians(90.0), 0.50))

_HITCHES: Final = {
    "single": Figure(1.0, DERIVATION, "one part carries the load", "derivation"),
    "doubled": Figure(2.0, DERIVATION, "twice the parts, sharing alike", "derivation"),
    "basket": Figure(2.0, OSHA_1918_II, "basket, 1,100 for 550 vertical", "read"),
    "choked": Figure(0.75, NAVEDTRA_EQUIPMENT, "choker hitch, 45 deg or more", "read"),
}

Hitch = Literal["single", "doubled", "basket", "choked"]
MarkedFor = Literal["line", "resultant"]


def working_load_n(breaking_n: float, design_factor: float) -> float:
    """Working load from a breaking strength.

    Equation: WL = BS / f
    Units: BS breaking strength [N], f design factor
    Range: BS > 0, f >= 1
    Source: definition, as in Cordage Institute CI 1401 (DF = MBS / WL), read second hand
    Raises: ValueError outside the range
    """
    if not 0.0 < breaking_n < inf:
        raise refuse("breaking_n", breaking_n, "finite and above 0")
    if not 1.0 <= design_factor < inf:
        raise refuse("design_factor", design_factor, "finite and at least 1")
    return breaking_n / design_factor


def use_ratio(load_n: float, capacity_n: float) -> float:
    """Load over what may be carried: up to 1 is within it.

    Equation: u = F / WL
    Units: F load [N], WL working load after all factors [N]
    Range: F >= 0, WL > 0
    Source: definition
    Raises: ValueError outside the range
    """
    if not 0.0 <= load_n < inf:
        raise refuse("load_n", load_n, "finite and not negative")
    if not 0.0 < capacity_n < inf:
        raise refuse("capacity_n", capacity_n, "finite and above 0")
    return load_n / capacity_n


def hitch_factor(hitch: Hitch, from_level_rad: float | None = None) -> Figure:
    """Working load of a sling in a hitch over its working load single and straight.

    Equation: single 1, doubled 2, choked 0.75, basket 2 sin(a)
    Units: a angle of the basket's legs from level, across the pull [rad]; the other hitches don't ask it
    Range: 0 < a <= pi/2, and a basket must state it. Doubled supposes that all parts share alike;
        choked supposes a choke of 45 deg or more, and a tighter one holds less
    Source: 29 CFR 1918 App II (basket), NAVEDTRA Equipment Operator (choked), read; the rest derivation
    Raises: ValueError for an unknown hitch or an angle outside the range
    """
    figure = _HITCHES.get(hitch)
    if figure is None:
        raise unknown("hitch", hitch, _HITCHES)
    if hitch != "basket":
        return figure
    if from_level_rad is None or not 0.0 < from_level_rad <= pi / 2:
        raise refuse("from_level_rad", from_level_rad, "above 0 and at most pi/2")
    return figure._replace(value=figure.value * sin(from_level_rad))


def shackle_side_factor(off_line_rad: float) -> float | None:
    """Share of a shackle's working load left when it is pulled off its line; None past a right angle.

    Equation: 0-5 deg 1, 6-45 deg 0.70, 46-90 deg 0.50, over 90 deg not allowed
    Units: angle between the pull and the shackle's line, in the plane of the bow [rad]
    Range: 0 to pi. Between two printed bands the next one counts: 5.1 deg is 0.70
    Source: ASME B30.26 fig. 26-1.9.1, percentages read second hand; bands WAC 296-155-33905, read
    Raises: ValueError outside the range
    """
    if not 0.0 <= off_line_rad <= pi + _EDGE_RAD:
        raise refuse("off_line_rad", off_line_rad, "0 to pi")
    for up_to_rad, share in _SHACKLE_BANDS:
        if off_line_rad <= up_to_rad + _EDGE_RAD:
            return share
    return None


def block_head_load_n(line_n: float) -> float:
    """Load on the head fitting of a single-sheave block with parallel parts.

    Equation: F = 2 W
    Units: W tension of the line [N]
    Range: W >= 0
    Source: LR Code for Lifting Appliances ch. 8 s. 3.1.5 and ILO dock work App. H.2, read
    Raises: ValueError outside the range
    """
    if not 0.0 <= line_n < inf:
        raise refuse("line_n", line_n, "finite and not negative")
    return BLOCK_HEAD_FACTOR.value * line_n


def block_resultant_rating_n(mark_n: float, marked_for: MarkedFor) -> float:
    """Resultant that a block may carry by its mark; a mark for the line stands for twice as much.

    Equation: R = 2 W if marked for the line, R = W if marked for the resultant
    Units: W mark [N]
    Range: W > 0
    Source: LR Code for Lifting Appliances ch. 8 s. 3.1.5 and ILO dock work App. H.2, read
    Raises: ValueError outside the range or for another word
    """
    if not 0.0 < mark_n < inf:
        raise refuse("mark_n", mark_n, "finite and above 0")
    if marked_for not in ("line", "resultant"):
        raise unknown("marked_for", marked_for, ("line", "resultant"))
    return BLOCK_HEAD_FACTOR.value * mark_n if marked_for == "line" else mark_n
