"""Whether the legs of a rig swing so evenly from one place to the next that no load peaks in between."""

from riglint.mechanics.vectors import Vec, dot, sub
from riglint.solve.geometry import Geometry
from riglint.solve.wiring import LegEnds, Wiring

TINY = 1e-9


def swings_evenly(wiring: Wiring, low: Geometry, high: Geometry, worth: float) -> bool:
    """Whether legs' unit vectors change so evenly between two places that no load is more there by a share of `worth`.

    A resultant of vectors that change evenly is convex in the travel, and over a gain that does so has no peak. A leg
    that turns by an angle x while its length goes from p to q is off the even way by x^2 / 8 along itself and by
    x |p - q| / min(p, q) / 4 across, of which a resultant feels what lies along it. Source: derivation (geometry).
    """
    across: list[Vec] = []
    along = 0.0
    for one, other, p, q in zip(low.ways, high.ways, low.lengths, high.lengths, strict=True):
        turned = sub(other, one)
        share = 0.25 * abs(p - q) / (min(p, q) or TINY)
        across.append((share * turned[0], share * turned[1], share * turned[2]))
        along += 0.125 * dot(turned, turned)
    if along > worth:
        return False
    gain = sum([sign * dot(high.ways[leg], wiring.net.direction) for leg, sign in wiring.load_ends])
    bends = sum([abs(dot(across[leg], wiring.net.direction)) for leg, _ in wiring.load_ends]) + along
    left = worth - bends / abs(gain or TINY)
    return left > 0.0 and all(_bends(ends, low.ways, across) + along < left for ends in wiring.sums)


def _bends(ends: LegEnds, ways: tuple[Vec, ...], across: list[Vec]) -> float:
    """What vectors across the legs make of a resultant of equal pulls at the most, as a share of it."""
    if len(ends) == 1:
        return 0.0
    x = y = z = 0.0
    for leg, sign in ends:
        ux, uy, uz = ways[leg]
        x, y, z = x + sign * ux, y + sign * uy, z + sign * uz
    square = x * x + y * y + z * z
    return sum([abs(x * a + y * b + z * c) for a, b, c in [across[leg] for leg, _ in ends]]) / (square or TINY)
