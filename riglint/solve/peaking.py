"""Where between two stations a load is greatest, though nothing happens there: legs turn, and what they pull with."""

from collections.abc import Iterator
from functools import cached_property, partial
from itertools import chain, pairwise
from math import inf, log

from riglint.mechanics.envelope import CANCELS, NO_GAIN, envelope
from riglint.mechanics.tension import Ratio
from riglint.mechanics.travel import root_between
from riglint.mechanics.vectors import Vec, distance
from riglint.solve.evenly import swings_evenly
from riglint.solve.geometry import Geometry, Walk
from riglint.solve.mark import Mark
from riglint.solve.sharing import Sharing
from riglint.solve.solution import ResistanceFigures, Station
from riglint.solve.station import Scene, gains_of, ratios_at, slip_at, terms_of, wraps_at
from riglint.solve.wiring import LegEnds, Wiring

STILL = 1e-5  # share of a load per metre of travel: one that changes less doesn't change
WORTH = 1e-3  # of a load: what is less is worth no station
WIDE = 0.3  # legs that turn by less between two places, as chords of a unit circle, load nothing in a narrow burst
COARSE = 0.1  # a load that changes by a hundred-thousandth a metre is at its peak: a root is found to a millionth
PLACES = 3  # decimals of a metre: a peak is flat, and every machine shall find the same place
_PEAKS = "the pull on {} peaks"

Level = tuple[float, float]  # logarithm of a load, and how fast that changes per metre of travel; or of two loads


def peaking(scene: Scene, walk: Walk, stations: list[Station]) -> tuple[Mark, ...]:
    """The places between stations, in order, at which a load is greater than at those on either side.

    Looked for are the greatest resultants per unit of line pull, and per unit of pull on the load, hauled and held:
    |sum t_i u_i| and |sum t_i u_i| / sum t_i c_i, with no more than the least loss up to the leg that bears and all of
    it beyond, which is the worst corner of what friction may be. A load's peak is where its rate of change is nothing,
    and where hauling comes to take all that the winch can pull: R / sum t_i c_i = stall.

    Units: travel s [m]. Range: stations in order, rope running one way between two of them. Raises NoBalance.
    Source: derivation (statics).
    """
    found: list[Mark] = []
    for low, high in pairwise(stations):
        stretch = _Stretch(scene, walk, low, high, stations[-1].travel_m)
        if not stretch.is_even():
            found += stretch.peaks(low.travel_m, high.travel_m)
    return tuple(found)


class _Stretch:
    """The travel from one station to the next: rope runs one way over each seat there."""

    def __init__(self, scene: Scene, walk: Walk, low: Station, high: Station, end_m: float) -> None:
        self.scene, self.walk, self.end_m = scene, walk, end_m
        self.low, self.high = walk.at(low.travel_m), walk.at(high.travel_m)
        resists = scene.resistance.at(scene.stage.begins_m + 0.5 * (low.travel_m + high.travel_m), False, False)
        held = resists.holding if scene.hauls else resists.driving
        self.held = held is not None and held.high > 0.0
        self.stalls_at = _stalls_at(scene, resists, low, high)
        self.seen: dict[float, list[Level | None]] = {}
        self.hauled: dict[float, list[Level]] = {}

    def is_even(self) -> bool:
        """Whether no load is worth a station in between."""
        return self.stalls_at is None and swings_evenly(self.scene.wiring, self.low, self.high, WORTH)

    @cached_property
    def slips(self) -> list[int]:
        """Which way rope runs over each seat: toward the first end where the path beyond it shortens."""
        out = []
        for turn in self.scene.wiring.turns:
            grown = self.high.to_end[turn.beyond] - self.low.to_end[turn.beyond]
            out.append(slip_at(grown / (self.high.travel_m - self.low.travel_m)))
        return out

    def peaks(self, low_m: float, high_m: float) -> Iterator[Mark]:
        """In order. Raises NoBalance."""
        own = next(chain(self._stalling(low_m, high_m), self._smooth(low_m, high_m)), None)
        if own is not None:
            yield from self.peaks(low_m, own.travel_m)
            yield own
            yield from self.peaks(own.travel_m, high_m)

    def _stalling(self, low_m: float, high_m: float) -> Iterator[Mark]:
        """Where hauling comes to take all that the winch can pull, or no longer does."""
        if self.stalls_at is None:
            return
        tried: dict[tuple[float, float], float] = {}
        for number, (low, high) in enumerate(zip(self._hauls(low_m), self._hauls(high_m), strict=True)):
            beside = max(min(low), min(high))
            ends = _left(low), _left(high)
            if ends[0] * ends[1] >= 0.0 or max(low[1], high[1]) < beside + WORTH:
                continue
            if ends not in tried:
                left = partial(self._left_at, number)
                tried[ends] = round(root_between(left, low_m, high_m, *ends), PLACES)
            place = tried[ends]
            if low_m < place < high_m and min(self._hauls(place)[number]) > beside + WORTH:
                yield Mark(place, _PEAKS, _name(self.scene.wiring, number))

    def _left_at(self, number: int, travel_m: float) -> float:
        return _left(self._hauls(travel_m)[number])

    def _hauls(self, travel_m: float) -> list[Level]:
        """Of each sum the logarithms of what it carries at the resistance and at stall, per newton of stall pull.

        Over all corners of what friction may be: the worst of the two need not be the same.
        """
        if travel_m not in self.hauled:
            here, wiring, stalls_at = self.walk.at(travel_m), self.scene.wiring, self.stalls_at or 0.0
            wraps = wraps_at(wiring, here)
            corners = Sharing(wiring, here).corners(ratios_at(wiring, wraps, self.slips))
            terms = [terms_of(here, ends) for ends in wiring.sums]
            found = envelope(corners, terms, gains_of(self.scene, here), stalls_at, inf).elements
            self.hauled[travel_m] = [(_log(own.load_n), _log(own.unit_load)) for own in found]
        return self.hauled[travel_m]

    def _smooth(self, low_m: float, high_m: float) -> Iterator[Mark]:
        """Where a load's rate of change is nothing."""
        tame = max(map(distance, self.walk.at(low_m).ways, self.walk.at(high_m).ways)) < WIDE
        for number, (low, high) in enumerate(zip(self._levels(low_m), self._levels(high_m), strict=True)):
            if low is None or high is None or low[1] < STILL or high[1] > -STILL:
                continue
            if tame and _tangents_meet(low, high, high_m - low_m) < max(low[0], high[0]) + WORTH:
                continue
            slope = partial(self._slope, number)
            place = round(root_between(slope, low_m, high_m, COARSE * low[1], COARSE * high[1]), PLACES)
            top = self._levels(place)[number]
            if low_m < place < high_m and top is not None and top[0] > max(low[0], high[0]) + WORTH:
                yield Mark(place, _PEAKS, _name(self.scene.wiring, number % len(self.scene.wiring.sums)))

    def _slope(self, number: int, travel_m: float) -> float:
        level = self._levels(travel_m)[number]
        return COARSE * level[1] if level else 0.0

    def _levels(self, travel_m: float) -> list[Level | None]:
        """Of each sum per unit of line pull, then of each per unit of pull on the load: hauled, and held."""
        if travel_m not in self.seen:
            here, beside = self.walk.at(travel_m), self.walk.beside(travel_m, self.end_m)
            step = beside.travel_m - here.travel_m
            levels, others = self._logs(here), self._logs(beside)
            pairs = zip(levels, others, strict=True)
            self.seen[travel_m] = [None if a == -inf or b == -inf else (a, (b - a) / step) for a, b in pairs]
        return self.seen[travel_m]

    def _logs(self, here: Geometry) -> list[float]:
        """Logarithms of the loads, -inf for those that there are not."""
        wiring, wraps = self.scene.wiring, wraps_at(self.scene.wiring, here)
        running = ratios_at(wiring, wraps, self.slips)
        sharing = Sharing(self.scene.wiring, here)
        line, gains = self._of(here, sharing, running)
        out = line + _per_gain(line, gains)
        if self.held:
            standing = ratios_at(wiring, wraps, [0] * len(wraps))
            out += _per_gain(*self._of(here, sharing, standing))
        return out

    def _of(self, here: Geometry, sharing: Sharing, ratios: list[Ratio]) -> tuple[list[float], list[float]]:
        """Of each sum the logarithm of its load, and the pull on the load, per unit of line pull."""
        wiring, shares = self.scene.wiring, gains_of(self.scene, here)
        known: dict[int, tuple[list[float], float]] = {}
        sizes, gains = [], []
        for ends in wiring.sums:
            last = max([leg for leg, _ in ends], default=0)
            before = sum([turn.beyond <= last for turn in wiring.turns])
            if before not in known:
                tensions = sharing.tensions([r.high for r in ratios[:before]] + [r.low for r in ratios[before:]])
                known[before] = tensions, sum([share * tensions[leg] for leg, share in shares])
            tensions, gain = known[before]
            sizes.append(_size(ends, tensions, here.ways))
            gains.append(gain)
        return sizes, gains


def _per_gain(sizes: list[float], gains: list[float]) -> list[float]:
    return [size - log(gain) if gain > NO_GAIN else -inf for size, gain in zip(sizes, gains, strict=True)]


def _left(hauled: Level) -> float:
    """What the winch can still pull, as a logarithm of its share; within bounds where hauling gets nowhere."""
    return max(-1e3, min(1e3, hauled[1] - hauled[0])) if hauled[1] > -inf else 0.0


def _log(load: float) -> float:
    return log(load) if load > 0.0 else -inf


def _stalls_at(scene: Scene, resists: ResistanceFigures, low: Station, high: Station) -> float | None:
    """The gain at which the winch stalls, where hauling comes to that between two stations; None where it does not."""
    drum = scene.drum.figures(0.5 * (low.path_m + high.path_m))
    stall_n = drum.stall_n if drum else scene.drum.stall_most_n(1)
    if not scene.hauls or not stall_n or resists.hauling is None:
        return None
    at = resists.hauling.high / stall_n
    least, most = min(low.ratio_least, high.ratio_least), max(low.ratio_most, high.ratio_most)
    return at if max(0.0, least) < at < most else None  # what resists with nothing never stalls it


def _tangents_meet(low: Level, high: Level, apart_m: float) -> float:
    """How high the tangents at two places meet: no concave curve goes higher between them."""
    (at_low, rises), (at_high, falls) = low, high
    return at_low + rises * (at_high - at_low - falls * apart_m) / (rises - falls)


def _size(ends: LegEnds, tensions: list[float], ways: tuple[Vec, ...]) -> float:
    """The logarithm of a resultant; -inf where the pulls cancel out."""
    x = y = z = pull = 0.0
    for leg, sign in ends:
        tension, (ux, uy, uz) = tensions[leg], ways[leg]
        pull += tension
        tension *= sign
        x, y, z = x + tension * ux, y + tension * uy, z + tension * uz
    square = x * x + y * y + z * z
    return 0.5 * log(square) if square > (CANCELS * pull) ** 2 else -inf


def _name(wiring: Wiring, number: int) -> str:
    """What carries a sum, by the first name that the plan has for it, a redirect's before others'."""
    those = [c for c, own in zip(wiring.components, wiring.sum_of, strict=True) if own == number]
    return next((c.name for c in those if c.kind == "redirect"), those[0].name)
