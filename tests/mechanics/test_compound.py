"""Rigs balanced as a whole: how they move with the travel, turned in space, written the other way round."""

from __future__ import annotations

from itertools import pairwise
from math import cos, sin

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from riglint.mechanics.balance import Network, Tether, network
from riglint.mechanics.compound import NoBalance, PathLength, Settled, balance_compound
from riglint.mechanics.linear import solve_linear
from riglint.mechanics.vectors import Vec, distance
from tests.mechanics.networks import compound, tethered

RIGS = st.one_of(compound(), tethered())
TRAVEL = st.floats(0.2, 4.0)
STILL = (0.0, 0.0, 0.0)


def paths(net: Network) -> list[PathLength]:
    return [((t.node, t.anchor), t.length_m) for t in net.tethers if t.length_m] + list(net.strings)


def settled(net: Network, travel_m: float) -> Settled:
    return balance_compound(net.known(travel_m), net.velocity(), net.free, net.haul, paths(net))


@given(net=RIGS, travel=TRAVEL)
@settings(max_examples=60, deadline=None)
def test_the_drift_is_the_derivative_by_the_travel(net: Network, travel: float) -> None:
    """Reference: central differences over a centimetre, of what is found afresh on both sides."""
    assume(all(t.length_m > 0.0 for t in net.tethers))
    step = 0.005
    try:
        before, here, after = (settled(net, travel + by) for by in (-step, 0.0, step))
    except NoBalance:
        assume(False)
    assume(all(ratio > 0.02 for ratio in here.ratios))
    for node, way in enumerate(here.drift, start=len(net.fixed)):
        change = [(b - a) / (2.0 * step) for a, b in zip(before.places[node], after.places[node], strict=True)]
        assert way == pytest.approx(change, abs=2e-4)
    for was, now, way in zip(before.ratios, after.ratios, here.ratio_drift, strict=True):
        assert way == pytest.approx((now - was) / (2.0 * step), abs=2e-4)


def test_the_drift_of_a_redirect_on_a_long_tether_to_a_millionth() -> None:
    """A winch on the load, a redirect on 4 m of tether to the side: central differences over 2 mm."""
    points = (((0.0, 0.0, 0.0), True), ((8.0, 6.0, 0.0), False), ((3.0, -7.0, 1.0), False))
    net = network(points, 1, (1.0, 0.0, 0.0), (0, 3, 2), (Tether(3, 1, 4.0),), ())
    before, here, after = (settled(net, travel) for travel in (0.999, 1.0, 1.001))
    change = [(b - a) / 0.002 for a, b in zip(before.places[3], after.places[3], strict=True)]
    assert max(map(abs, change)) > 0.1
    assert here.drift[0] == pytest.approx(change, abs=1e-6)
    assert here.ratio_drift == pytest.approx([(after.ratios[0] - before.ratios[0]) / 0.002], abs=1e-6)


@given(net=RIGS, travel=TRAVEL, about_x=st.floats(-0.6, 0.6), about_y=st.floats(-0.6, 0.6))
@settings(max_examples=60, deadline=None)
def test_turned_in_space_a_rig_pulls_the_same(net: Network, travel: float, about_x: float, about_y: float) -> None:
    """What lies flat is worked out in the plane and what does not in space: to the same ratios and lengths."""
    assume(all(t.length_m > 0.0 for t in net.tethers))

    def turned(place: Vec) -> Vec:
        x, y, z = place
        y, z = y * cos(about_x) - z * sin(about_x), y * sin(about_x) + z * cos(about_x)
        return (x * cos(about_y) + z * sin(about_y), y, z * cos(about_y) - x * sin(about_y))

    known, velocity = net.known(travel), net.velocity()
    try:
        here = balance_compound(known, velocity, net.free, net.haul, paths(net))
    except NoBalance:
        assume(False)
    there = balance_compound([*map(turned, known)], [*map(turned, velocity)], net.free, net.haul, paths(net))
    assert there.ratios == pytest.approx(here.ratios, abs=1e-6)
    assert there.ratio_drift == pytest.approx(here.ratio_drift, abs=1e-4)
    if all(ratio > 0.02 for ratio in here.ratios):
        for a, b in zip(map(turned, here.places), there.places, strict=True):
            assert distance(a, b) < 1e-5


@given(net=RIGS, travel=TRAVEL)
@settings(max_examples=40, deadline=None)
def test_a_path_may_be_written_from_either_end(net: Network, travel: float) -> None:
    assume(all(t.length_m > 0.0 for t in net.tethers))
    try:
        here = settled(net, travel)
    except NoBalance:
        assume(False)
    back = [(nodes[::-1], length) for nodes, length in paths(net)]
    there = balance_compound(net.known(travel), net.velocity(), net.free, net.haul[::-1], back)
    assert there.ratios == pytest.approx(here.ratios, abs=1e-6)


@pytest.mark.parametrize("out", [True, False])
@pytest.mark.parametrize("height", [0.0, 0.7])
def test_a_bridle_shares_a_pull_as_its_arms_lie(out: bool, height: float) -> None:
    """By statics: arms at 30 degrees to either side of the pull carry 1/(2 cos 30), written from or to their middle."""
    known = [(10.0, 0.0, height), (0.0, 2.0, height), (0.0, -2.0, 0.0)]
    along = (known[1][2] + known[2][2]) / 2.0
    known[0] = (10.0, 0.0, along)
    arm = distance(known[1], known[2]) / 2.0 / sin(0.5235987755982988)
    arms = [(3, 1), (3, 2)] if out else [(1, 3), (2, 3)]
    found = balance_compound(known, [STILL] * 3, 1, (3, 0) if out else (0, 3), [(nodes, arm) for nodes in arms])
    assert found.ratios == pytest.approx([0.5 / cos(0.5235987755982988)] * 2, abs=1e-9)
    assert found.places[3] == pytest.approx((arm * cos(0.5235987755982988), 0.0, along), abs=1e-9)
    assert found.drift == [STILL]


@pytest.mark.parametrize(("apart_m", "stands"), [(1.005e-3, True), (0.995e-3, False)])
def test_what_stands_within_a_millimetre_of_what_it_is_pulled_towards_has_met_it(apart_m: float, stands: bool) -> None:
    """A redirect at 0 on a tether of 1 m to (-1, 0), its legs 60 degrees to either side: the tension is 2 cos 60."""
    turn = 1.0471975511965976
    known = [(apart_m * cos(turn), apart_m * sin(turn), 0.0), (-1.0, 0.0, 0.0), (5 * cos(turn), -5 * sin(turn), 0.0)]
    near = ([STILL], [1.0])
    if stands:
        found = balance_compound(known, [STILL] * 3, 1, (0, 3, 2), [((3, 1), 1.0)], near)
        assert found.ratios == pytest.approx([1.0], abs=1e-9)
        assert found.places[3] == pytest.approx(STILL, abs=1e-9)
    else:
        with pytest.raises(NoBalance, match="runs into"):
            balance_compound(known, [STILL] * 3, 1, (0, 3, 2), [((3, 1), 1.0)], near)


@pytest.mark.parametrize(("over_m", "taut"), [(1.005e-6, True), (0.995e-6, False)])
def test_what_is_a_micrometre_too_long_is_taut(over_m: float, taut: bool) -> None:
    """A tether whose point lies beside a straight line, as far from it as the tether is long and a little more."""
    known = [(5.0, 0.0, 0.0), (0.0, 2.0, 0.0), (-5.0, 0.0, 0.0)]
    found = balance_compound(known, [STILL] * 3, 1, (0, 3, 2), [((3, 1), 2.0 - over_m)], ([STILL], [0.0]))
    # by statics: drawn aside by d amid 10 m the line pulls back with 2 d / 5
    assert found.ratios == pytest.approx([0.4 * over_m if taut else 0.0], rel=1e-3, abs=1e-12)
    assert taut or found.ratio_drift == [0.0]


# short by a centimetre less what the stiffest penalty lets it stretch
@pytest.mark.parametrize(("short_m", "why"), [(0.5, "too short"), (0.0099, "too short"), (0.0095, "do not balance")])
def test_a_line_that_cannot_reach_is_told_to_be_too_short(short_m: float, why: str) -> None:
    known = [(5.0, 3.0, 0.0), (0.0, 0.0, 0.0), (10.0, 0.0, 0.0)]
    with pytest.raises(NoBalance, match=why):
        balance_compound(known, [STILL] * 3, 1, (0, 3), [((1, 3, 2), 10.0 - short_m)])


def test_nothing_holds_what_no_line_runs_over() -> None:
    with pytest.raises(NoBalance, match="nothing holds"):
        balance_compound([STILL, (1.0, 0.0, 0.0)], [STILL] * 2, 1, (0, 1), [])


def test_three_ropes_to_a_knot_pull_as_lami_says() -> None:
    """Lami: of three pulls on a knot each is as the sine of the angle between the other two (textbooks of statics)."""
    known = [(8.0, 1.0, 2.0), (-3.0, 4.0, 0.0), (-2.0, -5.0, -1.0)]
    found = balance_compound(known, [STILL] * 3, 1, (0, 3), [((3, 1), 5.0), ((3, 2), 5.6)])
    ways = [tuple((b - a) / distance(found.places[3], end) for a, b in zip(found.places[3], end, strict=True))
            for end in known]  # fmt: skip
    for i in range(3):
        assert ways[0][i] + found.ratios[0] * ways[1][i] + found.ratios[1] * ways[2][i] == pytest.approx(0.0, abs=1e-8)
    angle = [(1.0 - sum(p * q for p, q in zip(a, b, strict=True)) ** 2) ** 0.5 for a, b in pairwise([*ways, ways[0]])]
    assert found.ratios == pytest.approx([angle[2] / angle[1], angle[0] / angle[1]], rel=1e-8)


@pytest.mark.parametrize(
    ("heights", "climb", "unknowns"), [((1.5, 1.5, 1.5), 0.0, 2), ((1.5, 1.5, 1.2), 0.0, 3), ((1.5, 1.5, 1.5), 0.1, 3)]
)
def test_what_lies_flat_is_worked_out_in_the_plane(
    heights: tuple[float, float, float], climb: float, unknowns: int
) -> None:
    """Two unknowns of a place and a tension, in place of three and a tension."""
    x_y = ((9.0, 1.0), (0.0, 0.0), (9.0, -1.0))
    known = [(x, y, z) for (x, y), z in zip(x_y, heights, strict=True)]
    velocity = [STILL, STILL, (1.0, 0.0, climb)]
    with pytest.MonkeyPatch.context() as patch:
        sizes: set[int] = set()

        def note(matrix: list[list[float]], right: list[float]) -> list[float]:
            sizes.add(len(right))
            return solve_linear(matrix, right)

        patch.setattr("riglint.mechanics.compound.solve_linear", note)
        balance_compound(known, velocity, 1, (0, 3, 2), [((3, 1), 1.0)])
    assert sizes == {unknowns, unknowns + 1}  # with a penalty for the tether, and with its tension


def solves(net: Network, travel: float, near: tuple[list[Vec], list[float]]) -> int:
    """How many linear systems it takes from a guess: one a step, and one for how the balance moves."""
    with pytest.MonkeyPatch.context() as patch:
        sizes: list[int] = []

        def note(matrix: list[list[float]], right: list[float]) -> list[float]:
            sizes.append(len(right))
            return solve_linear(matrix, right)

        patch.setattr("riglint.mechanics.compound.solve_linear", note)
        balance_compound(net.known(travel), net.velocity(), net.free, net.haul, paths(net), near)
    return len(sizes)


@given(net=RIGS, travel=TRAVEL)
@settings(max_examples=60, deadline=None, derandomize=True)
def test_a_millimetre_off_is_put_right_in_a_few_steps(net: Network, travel: float) -> None:
    """Newton squares what is off: a millimetre, a micrometre, nothing. A wrong curvature or step only shrinks it."""
    assume(all(t.length_m > 0.2 for t in net.tethers))
    try:
        here = settled(net, travel)
    except NoBalance:
        assume(False)
    assume(all(ratio > 0.05 for ratio in here.ratios))
    off = [(x + 0.001, y - 0.001, z) for x, y, z in here.places[len(net.fixed) :]]
    assert solves(net, travel, (off, here.ratios)) <= 5


@pytest.mark.parametrize("second", [(4, 5, 3), (3, 5, 4)])
@pytest.mark.parametrize("height", [0.0, 1.0])
def test_in_the_plane_and_in_space_it_takes_as_few(height: float, second: tuple[int, ...]) -> None:
    """A second line over a redirect on the load, its end on the redirect that the hauling line turns at."""
    points = ((24.0, 3.0, 0.0), (21.0, -3.0, 0.0), (0.0, 0.5, height), (20.0, 2.0, 0.0))
    fixed = tuple((place, i == 2) for i, place in enumerate(points))
    net = network(fixed, 2, (1.0, 0.0, 0.0), (0, 4, 1), (Tether(5, 2, 0.6),), ((second, 30.0),))
    here = settled(net, 1.0)
    off = [(x + 0.02, y - 0.02, z) for x, y, z in here.places[4:]]
    assert solves(net, 1.0, (off, here.ratios)) <= 4


def test_what_nothing_draws_aside_may_stand_at_an_end() -> None:
    """Two redirects on a straight line, one of them at the winch, and beyond the load one that draws on its tether."""
    known = [(0.0, 0.0, 0.0), (10.0, 0.0, 0.0), (10.0, -5.0, 0.0)]
    near = ([(5.0, 0.0, 0.0), (0.0, 0.0, 0.0), (10.0, -3.0, 0.0)], [2.0])
    found = balance_compound(known, [STILL] * 3, 3, (0, 4, 3, 1, 5, 1), [((5, 2), 2.0)], near)
    assert found.ratios == pytest.approx([2.0], abs=1e-9)
    assert found.places[4] == pytest.approx((0.0, 0.0, 0.0), abs=1e-6)
    assert found.places[5] == pytest.approx((10.0, -3.0, 0.0), abs=1e-6)


def test_where_how_it_moves_has_no_one_answer_none_is_given() -> None:
    """The same tether twice: any two tensions that add up will do."""
    known = [(9.0, 0.0, 0.0), (0.0, 0.0, 0.0), (9.0, 0.0, 0.0)]
    near = ([(1.0, 0.0, 0.0)], [1.2, 0.8])
    found = balance_compound(known, [STILL] * 3, 1, (0, 3, 2), [((3, 1), 1.0), ((3, 1), 1.0)], near)
    assert found.ratios == pytest.approx([1.2, 0.8], abs=1e-9)
    assert found.drift == [STILL]
    assert found.ratio_drift == [0.0, 0.0]


def test_with_nothing_to_place_all_stands_where_it_is() -> None:
    known = [(9.0, 0.0, 0.0), (0.0, 0.0, 0.0)]
    found = balance_compound(known, [STILL] * 2, 0, (0, 1), [])
    assert found == Settled(known, [], [], [])
