"""Where floating and tethered redirects stand: the taut rig as a convex problem.

A redirect stands off its point by its connectors, along the resultant of its rope. With no friction that is
where the hauling line is shortest, given that no tether and no line of fixed length can stretch: minimise the
path length over the places of the redirects. Every term is convex, so the place is unique wherever the load
stands, and the path length is a convex function of the travel. The multiplier of each fixed length is its
tension over the hauling line's.

With friction the resultant turns by a few degrees at most and its redirect by centimetres; positions are kept
at the frictionless balance, so that every choice of losses is judged in one and the same geometry.

Source: derivation (principle of minimum potential energy; Kuhn-Tucker conditions).
"""

from math import dist, sqrt
from typing import NamedTuple

from riglint.mechanics.compound import NoBalance, Settled, balance_compound
from riglint.mechanics.vectors import ZERO, Vec, along

__all__ = ["Balance", "Network", "NoBalance", "Tether", "balance", "network"]

SWEEPS = 80
SLACK = 1e-3  # resultant per unit of line tension below which a tether is taken as slack


class Tether(NamedTuple):
    """A free node held within `length_m` of another node."""

    node: int
    anchor: int
    length_m: float


class Network(NamedTuple):
    """Nodes 0.. are places that are known at any travel, then come the free ones.

    `fixed` holds each known node's place at the start and whether it goes with the load, `direction` the unit
    vector of travel, `haul` the hauling line's nodes from the winch, `strings` the paths that keep a length.
    Built by `network`.
    """

    fixed: tuple[tuple[Vec, bool], ...]
    free: int
    direction: Vec
    haul: tuple[int, ...]
    tethers: tuple[Tether, ...]
    strings: tuple[tuple[tuple[int, ...], float], ...]
    tethered: tuple[tuple[int, int, float, tuple[int, ...]], ...]

    def velocity(self) -> list[Vec]:
        """How the known nodes go with the travel, in metres a metre. Source: translation without turning."""
        return [self.direction if moves else ZERO for _, moves in self.fixed]

    def known(self, travel_m: float) -> list[Vec]:
        """The places of the known nodes at a travel, in metres. Source: translation without turning."""
        way = self.direction
        return [along(place, way, travel_m) if moves else place for place, moves in self.fixed]


class Balance(NamedTuple):
    """Places of all nodes in metres, and of each string its tension over the hauling line's (0 if slack)."""

    places: tuple[Vec, ...]
    string_ratios: tuple[float, ...]
    whole: Settled | None = None  # where the rig was balanced as a whole: its ratios are the tethers', the strings'
    travel_m: float = 0.0


def network(
    fixed: tuple[tuple[Vec, bool], ...],
    free: int,
    direction: Vec,
    haul: tuple[int, ...],
    tethers: tuple[Tether, ...],
    strings: tuple[tuple[tuple[int, ...], float], ...],
) -> Network:
    """Put a network together, with the neighbours of each tethered node looked up once.

    Range: node numbers below len(fixed) + free. Source: derivation.
    """
    tethered = tuple((t.node, t.anchor, t.length_m, _neighbours(haul, t.node)) for t in tethers)
    return Network(fixed, free, direction, haul, tethers, strings, tethered)


def _neighbours(path: tuple[int, ...], node: int) -> tuple[int, ...]:
    near: list[int] = []
    for i, here in enumerate(path):
        if here == node:
            near.extend(path[max(i - 1, 0) : i])
            near.extend(path[i + 1 : i + 2])
    return tuple(near)


def balance(net: Network, travel_m: float, guess: Balance | None = None, tolerance_m: float = 1e-7) -> Balance:
    """The rig's balance at a travel.

    Equation: min path length of the hauling line, subject to |tether| <= length and |string| <= length.
    Symbols: travel_m in metres; guess, a balance nearby to start from; tolerance_m, how still the nodes must be.
    Range: any network; raises NoBalance where a fixed length is too short, or nothing holds a redirect.
    Source: derivation.
    """
    places = net.known(travel_m)
    each_on_a_point = len(net.tethered) == net.free and all(anchor < len(places) for _, anchor, _, _ in net.tethered)
    if each_on_a_point and not net.strings:
        tethered = _settle(net, places[:], guess, tolerance_m)
        if tethered is not None:
            return Balance(tethered, ())
    paths = [((t.node, t.anchor), t.length_m) for t in net.tethers] + list(net.strings)
    near = _followed(guess, travel_m) if guess else None
    found = balance_compound(places, net.velocity(), net.free, net.haul, paths, near)
    return Balance(tuple(found.places), tuple(found.ratios[len(net.tethers) :]), found, travel_m)


def _followed(guess: Balance, travel_m: float) -> tuple[list[Vec], list[float]] | None:
    """The free places and ratios to expect at a travel, from how those nearby change."""
    there, by_m = guess.whole, travel_m - guess.travel_m
    if there is None:
        return None
    free = there.places[len(there.places) - len(there.drift) :]  # counted from the front: there may be none
    places = [along(place, way, by_m) for place, way in zip(free, there.drift, strict=True)]
    return places, [ratio + by_m * change for ratio, change in zip(there.ratios, there.ratio_drift, strict=True)]


def _settle(net: Network, places: list[Vec], guess: Balance | None, tolerance_m: float) -> tuple[Vec, ...] | None:
    """Fixed-point sweeps r = anchor + length * unit(sum of leg directions); None where a tether is slack.

    A bare sweep overshoots by length * |sum| / 4 * sum(1 / leg), legs lying evenly about the resultant; each step
    is cut back by that, which makes it nearly Newton's, and put back at the tether's length.
    """
    _begin(net, places, guess)
    for _ in range(SWEEPS):
        moved = 0.0
        for node, anchor, length, near in net.tethered:
            here = places[node]
            x, y, z = here
            fx = fy = fz = stiff = 0.0
            for other in near:
                there = places[other]
                nearness = 1.0 / (dist(here, there) or 1.0)
                fx += (there[0] - x) * nearness
                fy += (there[1] - y) * nearness
                fz += (there[2] - z) * nearness
                stiff += nearness
            pull = sqrt(fx * fx + fy * fy + fz * fz)
            if pull < SLACK:
                return None
            reach = length / pull
            ax, ay, az = places[anchor]
            dx, dy, dz = ax + fx * reach - x, ay + fy * reach - y, az + fz * reach - z
            share = 1.0 / (1.0 + 0.25 * length * pull * stiff)
            x, y, z = x + share * dx - ax, y + share * dy - ay, z + share * dz - az
            stretch = length / (sqrt(x * x + y * y + z * z) or 1.0)
            places[node] = (ax + stretch * x, ay + stretch * y, az + stretch * z)
            step = abs(dx) + abs(dy) + abs(dz)
            moved = max(moved, step)
        if moved < tolerance_m:
            return tuple(places)
    return None


def _begin(net: Network, places: list[Vec], guess: Balance | None) -> None:
    """First places of the tethered nodes: as they hung from their anchors nearby, or at their anchors."""
    places.extend([(0.0, 0.0, 0.0)] * net.free)
    for node, anchor, _, _ in net.tethered:
        ax, ay, az = places[anchor]
        if guess:
            (x, y, z), (bx, by, bz) = guess.places[node], guess.places[anchor]
            places[node] = (x - bx + ax, y - by + ay, z - bz + az)
        else:
            places[node] = (ax, ay, az)
