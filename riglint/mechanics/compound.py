"""Balance of rigs whose redirects float between lines, hang from one another or hang in a bridle.

The same convex problem as in `balance`, solved in full: a penalty on stretch, made stiffer step by step, tells
which fixed lengths are taut, then Newton's method on the Kuhn-Tucker equations finds places and tensions
together. Source: derivation (convex programming).
"""

from itertools import pairwise
from math import dist, hypot, isfinite, sqrt
from typing import NamedTuple

from riglint.mechanics.linear import solve_linear
from riglint.mechanics.vectors import ZERO, Vec, along, dot, sub

PathLength = tuple[tuple[int, ...], float]
Rows = list[list[float]]
Exact = tuple[Rows, list[float]]  # the Kuhn-Tucker equations: their derivative and their residual
Route = list[tuple[int, int, int, int]]  # of each leg its two nodes, and their first unknowns or -1 where known

# Penalties with what blurs short legs under them: where two nodes come together a length has a kink, and Newton stalls.
STIFFNESSES_BLURS_M = ((10.0, 2e-2), (100.0, 5e-3), (1e3, 1e-3), (1e4, 1e-4))
TAUT = 1e-6  # tension over the hauling line's below which a fixed length is taken as slack
RELAX_STEPS = 60
ROUGH_M, FINE_M = 1e-2, 1e-12  # what a further step would shorten by, below which a penalty has done its part
GETS_NOWHERE_M = 1e-9  # what a step must shorten by for another to be worth while
POLISH_STEPS = 25
EXACT = 1e-11  # newtons per newton, and metres
NEAR_ENOUGH = 1e-6
LOST = 1e4  # a residual from which Newton does not come back
CLOSE_M = 1e-7  # two nodes nearer than this have met
MET_M = 1e-3  # two nodes of a balanced rig nearer than this stand in each other's way
SOFT = 1e-6  # holds still along a straight path, where a redirect may stand anywhere
ROUGHLY_SOFT = 1e-2  # keeps the steps of a penalty within a rig's own size where it hardly curves


class NoBalance(ValueError):
    """The rig can't stand as planned; `reason` says why."""

    def __init__(self, reason: str) -> None:
        super().__init__(reason)
        self.reason = reason


class Settled(NamedTuple):
    """A balance: places in metres, each path's tension over the hauling line's, and how both change with travel."""

    places: list[Vec]
    ratios: list[float]
    drift: list[Vec]  # of the free nodes, in metres per metre of travel
    ratio_drift: list[float]  # per metre of travel


def balance_compound(
    known: list[Vec],
    velocity: list[Vec],
    free: int,
    haul: tuple[int, ...],
    paths: list[PathLength],
    near: tuple[list[Vec], list[float]] | None = None,
) -> Settled:
    """Places of all nodes and each path's tension over the hauling line's.

    Equation: min |haul| subject to |path_j| <= length_j. Symbols: known, places in metres; velocity, how they go
    with the travel, in metres a metre; free, how many nodes are not known; paths, node numbers and length in metres;
    near, guesses of the free places and ratios.
    Raises NoBalance where a length is too short for its ends, where nothing holds a node, or where two nodes meet.
    Source: derivation.
    """
    problem = _Problem(known, velocity, free, haul, paths)
    if near is not None:
        try:
            return problem.polish(known + near[0], near[1])
        except NoBalance:
            pass  # too far from it: look afresh
    places = known + _start(known, free, haul, paths)
    refusal = NoBalance("the rig finds no balance")
    enough_m = ROUGH_M
    for stiffness, blur_m in STIFFNESSES_BLURS_M:
        stretch = problem.relax(places, stiffness, blur_m, enough_m)
        # The problem is convex: whatever satisfies the Kuhn-Tucker equations is its one answer, so the first to do
        # so will serve, however soft the penalty that led there.
        try:
            return problem.polish(places[:], [stiffness * s for s in stretch])
        except NoBalance as error:
            refusal, enough_m = error, FINE_M
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
            there = [places[o] for o in neighbours]
            x, y, z = map(sum, zip(*there, strict=True))
            places[count + k] = (x / n, y / n, z / n)
    return places[count:]


class _Problem:
    """The objective, its constraints and their derivatives over the free nodes' coordinates."""

    def __init__(
        self, known: list[Vec], velocity: list[Vec], free: int, haul: tuple[int, ...], paths: list[PathLength]
    ) -> None:
        self.count = len(known)
        self.velocity = velocity
        # Where all that is known lies at one height, so does the rest, and two coordinates will do.
        self.flat = all(z == known[0][2] for _, _, z in known) and not any(z for _, _, z in velocity)
        self.width = 2 if self.flat else 3
        self.size = self.width * free
        self.haul = self._route(haul)
        self.routes = [self._route(nodes) for nodes, _ in paths]
        self.limits = [limit for _, limit in paths]

    def _route(self, nodes: tuple[int, ...]) -> Route:
        first = [self.width * (node - self.count) if node >= self.count else -1 for node in nodes]
        return [(*ends, *unknowns) for ends, unknowns in zip(pairwise(nodes), pairwise(first), strict=True)]

    def relax(self, places: list[Vec], stiffness: float, blur_m: float, enough_m: float) -> list[float]:
        """Newton with line search on length + stiffness/2 * stretch^2; returns each path's stretch."""
        for _ in range(RELAX_STEPS):
            grad, hessian = self._penalised(places, stiffness, blur_m)
            step = solve_linear(hessian, [-g for g in grad])
            slope = sum([g * s for g, s in zip(grad, step, strict=True)])
            if slope > -enough_m or self._descend(places, step, slope, stiffness, blur_m) < GETS_NOWHERE_M:
                break
        return [max(0.0, _length(places, r) - limit) for r, limit in zip(self.routes, self.limits, strict=True)]

    def _add(
        self, places: list[Vec], route: Route, weight: float, gradient: list[float], rows: Rows, blur_m: float = 0.0
    ) -> float:
        """Add a path's gradient, and weight times its curvature; its length."""
        return (_add_flat if self.flat else _add_deep)(places, route, weight, gradient, rows, blur_m * blur_m)

    def _penalised(self, places: list[Vec], stiffness: float, blur_m: float) -> tuple[list[float], Rows]:
        grad = [0.0] * self.size
        hessian = _softened(self.size, self.size, ROUGHLY_SOFT)
        self._add(places, self.haul, 1.0, grad, hessian, blur_m)
        for route, limit in zip(self.routes, self.limits, strict=True):
            stretch = _length(places, route, blur_m) - limit
            if stretch <= 0.0:
                continue
            own = [0.0] * self.size
            self._add(places, route, stiffness * stretch, own, hessian, blur_m)
            for i, gi in enumerate(own):
                if gi:
                    grad[i] += stiffness * stretch * gi
                    hessian[i] = [h + stiffness * gi * gj for h, gj in zip(hessian[i], own, strict=True)]
        return grad, hessian

    def _value(self, places: list[Vec], stiffness: float, blur_m: float) -> float:
        total = _length(places, self.haul, blur_m)
        for route, limit in zip(self.routes, self.limits, strict=True):
            stretch = _length(places, route, blur_m) - limit
            if stretch > 0.0:
                total += 0.5 * stiffness * stretch * stretch
        return total

    def _descend(self, places: list[Vec], step: list[float], slope: float, stiffness: float, blur_m: float) -> float:
        """Go along a step as far as it serves; by how much that shortened."""
        before = self._value(places, stiffness, blur_m)
        start, ways = places[self.count :], self._vectors(step)
        share = 1.0
        while share > 1e-6:
            self._place(places, start, ways, share)
            after = self._value(places, stiffness, blur_m)
            if after <= before + 1e-4 * share * slope:
                return before - after
            share *= 0.5
        places[self.count :] = start
        return 0.0

    def _vectors(self, step: list[float]) -> list[Vec]:
        """A step of the unknowns as one of the free nodes."""
        x, y = step[0 : self.size : self.width], step[1 : self.size : self.width]
        z = [0.0] * len(x) if self.flat else step[2 : self.size : 3]
        return list(zip(x, y, z, strict=True))

    def _place(self, places: list[Vec], start: list[Vec], step: list[Vec], share: float) -> None:
        places[self.count :] = [along(place, way, share) for place, way in zip(start, step, strict=True)]

    def polish(self, places: list[Vec], ratios: list[float]) -> Settled:
        """Newton on the Kuhn-Tucker equations of the taut paths, and those taken as taut that turn out to be."""
        taut = {j: ratio for j, ratio in enumerate(ratios) if ratio > TAUT}  # paths and their tensions
        for _ in range(2 * len(ratios) + 1):
            exact = self._newton(places, taut)
            slackest = min(taut, key=taut.__getitem__, default=None)
            if slackest is not None and taut[slackest] < -TAUT:
                del taut[slackest]
                continue
            longest = self._stretched(places, taut)
            if longest is None:
                self._check(places, taut)
                return self._settled(places, taut, exact)
            taut[longest] = 0.0
        raise NoBalance("a line would have to push: the rig does not hold its shape under load")

    def _newton(self, places: list[Vec], taut: dict[int, float]) -> Exact:
        for _ in range(POLISH_STEPS):
            matrix, residual = self._kuhn_tucker(places, taut)
            off = max(map(abs, residual), default=0.0)
            if off < EXACT or not off < LOST:
                break
            step = solve_linear(matrix, [-r for r in residual])
            if not all(map(isfinite, step)):
                raise NoBalance("the rig has no one place to stand in: lines lie over one another")
            self._place(places, places[self.count :], self._vectors(step), 1.0)
            for j, change in zip(taut, step[self.size :], strict=True):
                taut[j] += change
        if not off < NEAR_ENOUGH:
            raise NoBalance("the forces on a floating redirect do not balance anywhere within its lines' reach")
        return matrix, residual

    def _settled(self, places: list[Vec], taut: dict[int, float], exact: Exact) -> Settled:
        """The balance, and how it moves: as the known go, the free follow so that the same equations hold on."""
        drift = solve_linear(exact[0], [-change for change in self._by_travel(places, taut)])
        if not all(map(isfinite, drift)):
            drift = [0.0] * len(drift)
        ratios, ratio_drift = [0.0] * len(self.routes), [0.0] * len(self.routes)
        for (j, tension), change in zip(taut.items(), drift[self.size :], strict=True):
            ratios[j], ratio_drift[j] = tension, change
        return Settled(places, ratios, self._vectors(drift), ratio_drift)

    def _by_travel(self, places: list[Vec], taut: dict[int, float]) -> list[float]:
        """How the residual of the Kuhn-Tucker equations changes per metre of travel while the free nodes stay.

        In closed form: the rounding of a difference would send a redirect that may stand anywhere astray.
        """
        change = [0.0] * self.size
        self._carry(places, self.haul, 1.0, change)
        return change + [self._carry(places, self.routes[j], tension, change) for j, tension in taut.items()]

    def _carry(self, places: list[Vec], route: Route, weight: float, change: list[float]) -> float:
        """Add how a path's pulls turn as its known nodes go; by how much it gets longer."""
        longer = 0.0
        for a, b, i, j in route:
            ends = (self.velocity[a] if i < 0 else ZERO, self.velocity[b] if j < 0 else ZERO)
            if ends[0] == ends[1]:
                continue
            way, leg = sub(ends[1], ends[0]), sub(places[b], places[a])
            size = max(sqrt(dot(leg, leg)), CLOSE_M)
            stretch = dot(way, leg) / size
            longer += stretch
            for k in range(self.width):
                turn = weight * (way[k] - stretch * leg[k] / size) / size
                if i >= 0:
                    change[i + k] -= turn
                if j >= 0:
                    change[j + k] += turn
        return longer

    def _kuhn_tucker(self, places: list[Vec], taut: dict[int, float]) -> Exact:
        n = self.size
        matrix = _softened(n, n + len(taut), SOFT)
        residual = [0.0] * n
        self._add(places, self.haul, 1.0, residual, matrix)
        for k, (j, tension) in enumerate(taut.items(), start=n):
            own = [0.0] * n
            length = self._add(places, self.routes[j], tension, own, matrix)
            for i, g in enumerate(own):
                if g:
                    residual[i] += tension * g
                    matrix[i][k] = g
            matrix[k][:n] = own
            residual.append(length - self.limits[j])
        return matrix, residual

    def _stretched(self, places: list[Vec], taut: dict[int, float]) -> int | None:
        """Of the paths taken as slack the one that is longest over its length, if any is."""
        worst, at = NEAR_ENOUGH, None
        for j, (route, limit) in enumerate(zip(self.routes, self.limits, strict=True)):
            stretch = 0.0 if j in taut else _length(places, route) - limit
            if stretch > worst:
                worst, at = stretch, j
        return at

    def _check(self, places: list[Vec], taut: dict[int, float]) -> None:
        # A redirect that nothing draws aside may stand anywhere along the straight line, at its end too.
        drawn = {node for j, tension in taut.items() if tension > TAUT for leg in self.routes[j] for node in leg[:2]}
        for route in (self.haul, *self.routes):
            for a, b, _, _ in route:
                if (a in drawn or b in drawn) and dist(places[a], places[b]) < MET_M:
                    raise NoBalance("a floating redirect, or a bridle's middle, runs into what it is pulled towards")


def _softened(unknowns: int, size: int, soft: float) -> Rows:
    rows = [[0.0] * size for _ in range(size)]
    for i in range(unknowns):
        rows[i][i] = soft
    return rows


def _length(places: list[Vec], route: Route, blur_m: float = 0.0) -> float:
    legs = [dist(places[a], places[b]) for a, b, _, _ in route]
    return sum([hypot(leg, blur_m) for leg in legs] if blur_m else legs)


def _add_flat(places: list[Vec], route: Route, weight: float, gradient: list[float], rows: Rows, blur: float) -> float:
    """`_Problem._add` in the plane. A leg's curvature is (I - u u') / |leg| at each free end, and less between them."""
    total = 0.0
    for a, b, i, j in route:
        (ax, ay, _), (bx, by, _) = places[a], places[b]
        x, y = bx - ax, by - ay
        size = sqrt(x * x + y * y + blur) or CLOSE_M
        total += size
        x, y = x / size, y / size
        stiff = weight / max(size, CLOSE_M)
        xx, xy, yy = stiff * (1.0 - x * x), -stiff * x * y, stiff * (1.0 - y * y)
        for at, sign in ((i, -1.0), (j, 1.0)):
            if at >= 0:
                gradient[at] += sign * x
                gradient[at + 1] += sign * y
                own, next_own = rows[at], rows[at + 1]
                own[at] += xx
                own[at + 1] += xy
                next_own[at] += xy
                next_own[at + 1] += yy
        if i >= 0 and j >= 0:
            for at, other in ((i, j), (j, i)):
                own, next_own = rows[at], rows[at + 1]
                own[other] -= xx
                own[other + 1] -= xy
                next_own[other] -= xy
                next_own[other + 1] -= yy
    return total


def _add_deep(places: list[Vec], route: Route, weight: float, gradient: list[float], rows: Rows, blur: float) -> float:
    """`_Problem._add` in space."""
    total = 0.0
    for a, b, i, j in route:
        (ax, ay, az), (bx, by, bz) = places[a], places[b]
        x, y, z = bx - ax, by - ay, bz - az
        size = sqrt(x * x + y * y + z * z + blur) or CLOSE_M
        total += size
        x, y, z = x / size, y / size, z / size
        stiff = weight / max(size, CLOSE_M)
        curve = (
            (stiff * (1.0 - x * x), -stiff * x * y, -stiff * x * z),
            (-stiff * x * y, stiff * (1.0 - y * y), -stiff * y * z),
            (-stiff * x * z, -stiff * y * z, stiff * (1.0 - z * z)),
        )
        ends = [(at, sign) for at, sign in ((i, -1.0), (j, 1.0)) if at >= 0]
        for at, sign in ends:
            gradient[at] += sign * x
            gradient[at + 1] += sign * y
            gradient[at + 2] += sign * z
            for other, sign_other in ends:
                both = sign * sign_other
                for row, (cx, cy, cz) in zip(rows[at : at + 3], curve, strict=True):
                    row[other] += both * cx
                    row[other + 1] += both * cy
                    row[other + 2] += both * cz
    return total
