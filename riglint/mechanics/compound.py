"""Balance of rigs whose redirects float between lines, hang from one another or hang in a bridle.

The same convex problem as in `balance`, solved in full: a penalty on stretch, made stiffer step by step, tells
which fixed lengths are taut, then Newton's method on the Kuhn-Tucker equations finds places and tensions
together. Source: derivation (convex programming).
"""

from __future__ import annotations

from itertools import pairwise
from math import dist, isfinite, sqrt

from riglint.mechanics.linear import solve_linear
from riglint.mechanics.vectors import Vec

PathLength = tuple[tuple[int, ...], float]

STIFFNESSES = (1.0, 10.0, 100.0, 1e3, 1e4)
TAUT = 1e-6  # tension over the hauling line's below which a fixed length is taken as slack
NEWTON_STEPS = 60
CLOSE_M = 1e-7  # two nodes nearer than this have met
MET_M = 1e-3  # two nodes of a balanced rig nearer than this stand in each other's way
SOFT = 1e-6  # holds still along a straight path, where a redirect may stand anywhere


class NoBalance(ValueError):
    """The rig can't stand as planned; `reason` says why."""

    def __init__(self, reason: str) -> None:
        super().__init__(reason)
        self.reason = reason


def balance_compound(
    known: list[Vec],
    free: int,
    haul: tuple[int, ...],
    paths: list[PathLength],
    near: tuple[list[Vec], tuple[float, ...]] | None = None,
) -> tuple[list[Vec], list[float]]:
    """Places of all nodes and each path's tension over the hauling line's.

    Equation: min |haul| subject to |path_j| <= length_j. Symbols: known, places in metres; free, how many
    nodes are not known; paths, node numbers and length in metres; near, free places and ratios of a balance nearby.
    Raises NoBalance where a length is too short for its ends, where nothing holds a node, or where two nodes meet.
    Source: derivation.
    """
    problem = _Problem(known, free, haul, paths)
    if near is not None:
        try:
            places = known + near[0]
            return places, problem.polish(places, list(near[1]))
        except NoBalance:
            pass  # something has gone taut or slack on the way: look afresh
    places = known + _start(known, free, haul, paths)
    refusal = NoBalance("the rig finds no balance")
    for stiffness in STIFFNESSES:
        stretch = problem.relax(places, stiffness)
        # The problem is convex: whatever satisfies the Kuhn-Tucker equations is its one answer, so the first to do
        # so will serve, however soft the penalty that led there.
        found = places[:]
        try:
            return found, problem.polish(found, [stiffness * s for s in stretch])
        except NoBalance as error:
            refusal = error
    if any(s > 0.01 for s in stretch):
        raise NoBalance("a line of fixed length, or a bridle, is too short for where its ends stand")
    raise refusal


def _start(known: list[Vec], free: int, haul: tuple[int, ...], paths: list[PathLength]) -> list[Vec]:
    """A first guess: each free node amid its neighbours, by a few rounds of averaging."""
    count = len(known)
    near: list[list[int]] = [[] for _ in range(free)]
    for nodes in (haul, *(p for p, _ in paths)):
        for a, b in pairwise(nodes):
            if a >= count:
                near[a - count].append(b)
            if b >= count:
                near[b - count].append(a)
    if any(not n for n in near):
        raise NoBalance("nothing holds a redirect")
    middle = tuple(sum(p[i] for p in known) / count for i in range(2))
    places = known + [(middle[0], middle[1], known[0][2])] * free
    for _ in range(20):
        for k, neighbours in enumerate(near):
            n = len(neighbours)
            x, y, z = (sum(places[o][i] for o in neighbours) / n for i in range(3))
            places[count + k] = (x, y, z)
    return places[count:]


class _Problem:
    """The objective, its constraints and their derivatives over the free nodes' coordinates."""

    def __init__(self, known: list[Vec], free: int, haul: tuple[int, ...], paths: list[PathLength]) -> None:
        self.count = len(known)
        # Where all that is known lies at one height, so does the rest, and two coordinates will do.
        self.axes = range(3 if len({z for _, _, z in known}) > 1 else 2)
        self.size = len(self.axes) * free
        self.haul = haul
        self.paths = paths

    def _all(self) -> list[tuple[int, ...]]:
        return [self.haul, *(nodes for nodes, _ in self.paths)]

    def length(self, places: list[Vec], nodes: tuple[int, ...]) -> float:
        return sum([dist(places[a], places[b]) for a, b in pairwise(nodes)])

    def gradient(self, places: list[Vec], nodes: tuple[int, ...]) -> list[float]:
        grad = [0.0] * self.size
        for a, b, unit, _ in self._legs(places, nodes):
            for node, sign in ((a, -1.0), (b, 1.0)):
                if node >= self.count:
                    at = len(self.axes) * (node - self.count)
                    for i in self.axes:
                        grad[at + i] += sign * unit[i]
        return grad

    def add_curvature(self, hessian: list[list[float]], places: list[Vec], nodes: tuple[int, ...], by: float) -> None:
        """Add by * the second derivative of the path's length: (I - u u') / |leg| at each free end."""
        for a, b, unit, size in self._legs(places, nodes):
            rows = [
                (len(self.axes) * (node - self.count), sign)
                for node, sign in ((a, -1.0), (b, 1.0))
                if node >= self.count
            ]
            for at, sign in rows:
                for other, sign_other in rows:
                    weight = by * sign * sign_other / size
                    for i in self.axes:
                        row = hessian[at + i]
                        for j in self.axes:
                            row[other + j] += weight * ((i == j) - unit[i] * unit[j])

    def _legs(self, places: list[Vec], nodes: tuple[int, ...]) -> list[tuple[int, int, Vec, float]]:
        legs = []
        for a, b in pairwise(nodes):
            (ax, ay, az), (bx, by, bz) = places[a], places[b]
            x, y, z = bx - ax, by - ay, bz - az
            size = max(sqrt(x * x + y * y + z * z), CLOSE_M)
            legs.append((a, b, (x / size, y / size, z / size), size))
        return legs

    def relax(self, places: list[Vec], stiffness: float) -> list[float]:
        """Newton with line search on length + stiffness/2 * stretch^2; returns each path's stretch."""
        for _ in range(NEWTON_STEPS):
            grad, hessian = self._penalised(places, stiffness)
            step = solve_linear(hessian, [-g for g in grad])
            slope = sum(g * s for g, s in zip(grad, step, strict=True))
            if slope > -1e-12:
                break
            self._descend(places, step, slope, stiffness)
        return [max(0.0, self.length(places, nodes) - limit) for nodes, limit in self.paths]

    def _penalised(self, places: list[Vec], stiffness: float) -> tuple[list[float], list[list[float]]]:
        grad = self.gradient(places, self.haul)
        hessian = [[SOFT if i == j else 0.0 for j in range(self.size)] for i in range(self.size)]
        self.add_curvature(hessian, places, self.haul, 1.0)
        for nodes, limit in self.paths:
            stretch = self.length(places, nodes) - limit
            if stretch <= 0.0:
                continue
            own = self.gradient(places, nodes)
            for i, gi in enumerate(own):
                grad[i] += stiffness * stretch * gi
                if gi:
                    row = hessian[i]
                    for j, gj in enumerate(own):
                        row[j] += stiffness * gi * gj
            self.add_curvature(hessian, places, nodes, stiffness * stretch)
        return grad, hessian

    def _value(self, places: list[Vec], stiffness: float) -> float:
        total = self.length(places, self.haul)
        for nodes, limit in self.paths:
            stretch = self.length(places, nodes) - limit
            if stretch > 0.0:
                total += 0.5 * stiffness * stretch * stretch
        return total

    def _descend(self, places: list[Vec], step: list[float], slope: float, stiffness: float) -> None:
        before = self._value(places, stiffness)
        start = places[self.count :]
        share = 1.0
        while share > 1e-10:
            self._place(places, start, step, share)
            if self._value(places, stiffness) <= before + 1e-4 * share * slope:
                return
            share *= 0.5
        places[self.count :] = start

    def _place(self, places: list[Vec], start: list[Vec], step: list[float], share: float) -> None:
        flat = len(self.axes) == 2
        for k, (x, y, z) in enumerate(start):
            if flat:
                dx, dy = step[2 * k : 2 * k + 2]
                places[self.count + k] = (x + share * dx, y + share * dy, z)
            else:
                dx, dy, dz = step[3 * k : 3 * k + 3]
                places[self.count + k] = (x + share * dx, y + share * dy, z + share * dz)

    def polish(self, places: list[Vec], ratios: list[float]) -> list[float]:
        """Newton on the Kuhn-Tucker equations of the taut paths."""
        taut = [j for j, r in enumerate(ratios) if r > TAUT]
        tension = [ratios[j] for j in taut]
        for _ in range(NEWTON_STEPS):
            matrix, residual = self._kuhn_tucker(places, taut, tension)
            if max(map(abs, residual), default=0.0) < 1e-12:
                break
            step = solve_linear(matrix, [-r for r in residual])
            if not all(map(isfinite, step)):
                raise NoBalance("the rig has no one place to stand in: lines lie over one another")
            self._place(places, places[self.count :], step, 1.0)
            tension = [t + d for t, d in zip(tension, step[self.size :], strict=True)]
        self._check(places, taut, tension)
        full = [0.0] * len(ratios)
        for j, t in zip(taut, tension, strict=True):
            full[j] = t
        return full

    def _kuhn_tucker(
        self, places: list[Vec], taut: list[int], tension: list[float]
    ) -> tuple[list[list[float]], list[float]]:
        n, m = self.size, len(taut)
        matrix = [[SOFT if i == j and i < n else 0.0 for j in range(n + m)] for i in range(n + m)]
        residual = self.gradient(places, self.haul)
        self.add_curvature(matrix, places, self.haul, 1.0)
        for k, (j, t) in enumerate(zip(taut, tension, strict=True)):
            nodes, limit = self.paths[j]
            own = self.gradient(places, nodes)
            self.add_curvature(matrix, places, nodes, t)
            for i, g in enumerate(own):
                residual[i] += t * g
                matrix[i][n + k] = g
                matrix[n + k][i] = g
            residual.append(self.length(places, nodes) - limit)
        return matrix, residual

    def _check(self, places: list[Vec], taut: list[int], tension: list[float]) -> None:
        grad, stretch = (
            self._kuhn_tucker(places, taut, tension)[1][: self.size],
            [self.length(places, nodes) - limit for nodes, limit in self.paths],
        )
        if max(map(abs, grad), default=0.0) > 1e-6 or any(s > 1e-6 for s in stretch):
            raise NoBalance("the forces on a floating redirect do not balance anywhere within its lines' reach")
        # A redirect that nothing draws aside may stand anywhere along the straight line, at its end too.
        drawn = {node for j, t in zip(taut, tension, strict=True) if t > TAUT for node in self.paths[j][0]}
        legs = [leg for nodes in self._all() for leg in self._legs(places, nodes)]
        if any(size < MET_M and (a in drawn or b in drawn) for a, b, _, size in legs):
            raise NoBalance("a floating redirect, or a bridle's middle, runs into what it is pulled towards")
        if any(t < -TAUT for t in tension):
            raise NoBalance("a line would have to push: the rig does not hold its shape under load")
