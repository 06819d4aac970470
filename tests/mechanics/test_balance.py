"""The balance of taut rigs, held against virtual work and against a general-purpose optimiser."""

from __future__ import annotations

from itertools import pairwise
from math import dist, isclose

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from scipy.optimize import minimize

from riglint.mechanics.balance import Balance, Network, NoBalance, Tether, balance, network
from riglint.mechanics.compound import balance_compound
from riglint.mechanics.linear import solve_linear
from riglint.mechanics.vectors import Vec, distance, dot, sub, unit
from tests.mechanics.networks import compound, path_m, tethered

RIGS = st.one_of(tethered(), compound())
TRAVEL = st.floats(0.2, 4.0)


def pull_on_load(net: Network, found: Balance) -> float:
    """The vector sum of the leg tensions on what moves, along the travel, per unit of line pull."""
    places = found.places
    tethers = {t.node: t.anchor for t in net.tethers}

    def moves(node: int) -> bool:
        node = tethers.get(node, node)
        return node < len(net.fixed) and net.fixed[node][1]

    total = 0.0
    paths = [(net.haul, 1.0)] + [(n, r) for (n, _), r in zip(net.strings, found.string_ratios, strict=True)]
    for nodes, tension in paths:
        for a, b in pairwise(nodes):
            along = dot(unit(sub(places[b], places[a])), net.direction)
            total += tension * along * (moves(a) - moves(b))
    return total


@given(net=RIGS, travel=TRAVEL)
@settings(max_examples=150, deadline=None)
def test_pull_is_the_fall_of_path_length(net: Network, travel: float) -> None:
    """Virtual work: the pull on the load is -dL/ds, whatever the vector sums say (independent derivative)."""
    try:
        here = balance(net, travel)
        step = 1e-3
        before, after = (path_m(net, balance(net, travel + d, here).places) for d in (-step, step))
    except NoBalance:
        assume(False)
    assert pull_on_load(net, here) == pytest.approx(-(after - before) / (2 * step), abs=2e-4)


@given(net=RIGS)
@settings(max_examples=60, deadline=None)
def test_path_length_is_convex_in_the_travel(net: Network) -> None:
    try:
        lengths = [path_m(net, balance(net, s).places) for s in (0.5, 1.5, 2.5, 3.5)]
    except NoBalance:
        assume(False)
    assert lengths[0] + lengths[2] >= 2 * lengths[1] - 1e-6
    assert lengths[1] + lengths[3] >= 2 * lengths[2] - 1e-6


@given(net=tethered(), travel=TRAVEL)
@settings(max_examples=60, deadline=None)
def test_both_ways_of_solving_agree(net: Network, travel: float) -> None:
    paths = [((t.node, t.anchor), t.length_m) for t in net.tethers]
    assume(all(t.length_m > 0.0 for t in net.tethers))
    quick = balance(net, travel)
    velocity = [net.direction if moves else (0.0, 0.0, 0.0) for _, moves in net.fixed]
    slow = balance_compound(net.known(travel), velocity, net.free, net.haul, paths)
    for a, b in zip(quick.places, slow.places, strict=True):
        assert distance(a, b) < 1e-5


@given(net=tethered(flat=True), travel=TRAVEL)
@settings(max_examples=25, deadline=None)
def test_no_better_place_is_found_by_a_general_optimiser(net: Network, travel: float) -> None:
    """Reference: scipy's SLSQP on the same convex problem."""
    found = balance(net, travel)
    known = net.known(travel)
    held = {t.node: t for t in net.tethers}
    start = np.array([c for p in found.places[len(known) :] for c in p[:2]]) + 0.05

    def places(x: np.ndarray) -> list[tuple[float, float, float]]:
        return known + [(x[2 * i], x[2 * i + 1], 0.0) for i in range(net.free)]

    def slack(x: np.ndarray) -> np.ndarray:
        at = places(x)
        return np.array([t.length_m**2 - distance(at[n], at[t.anchor]) ** 2 for n, t in held.items()])

    best = minimize(lambda x: path_m(net, tuple(places(x))), start, constraints={"type": "ineq", "fun": slack})
    assert path_m(net, found.places) <= best.fun + 1e-4


def test_a_redirect_stands_off_along_its_resultant() -> None:
    """Two parallel legs from one side: the redirect hangs straight towards them by its connectors' length."""
    net = network(
        (((10.0, 0.2, 0.0), False), ((0.0, 0.0, 0.0), False), ((10.0, -0.2, 0.0), True)),
        1, (1.0, 0.0, 0.0), (0, 3, 2), (Tether(3, 1, 1.5),), (),
    )  # fmt: skip
    x, y, z = balance(net, 0.0).places[3]
    assert (x, y, z) == pytest.approx((1.5, 0.0, 0.0), abs=1e-9)


def test_a_slack_tether_leaves_the_line_straight() -> None:
    """Where the straight line passes within the tether's reach, the redirect carries nothing."""
    net = network(
        (((10.0, 0.0, 0.0), False), ((5.0, 0.5, 0.0), False), ((0.0, 0.0, 0.0), True)),
        1, (1.0, 0.0, 0.0), (0, 3, 2), (Tether(3, 1, 1.0),), (),
    )  # fmt: skip
    found = balance(net, 0.0)
    assert path_m(net, found.places) == pytest.approx(10.0, abs=1e-6)


def test_a_line_too_short_is_refused() -> None:
    net = network(
        (((20.0, 0.0, 0.0), False), ((20.0, 1.0, 0.0), False), ((0.0, 0.0, 0.0), True), ((20.0, -1.0, 0.0), False)),
        1, (1.0, 0.0, 0.0), (0, 4, 1), (), (((2, 4, 3), 5.0),),
    )  # fmt: skip
    with pytest.raises(NoBalance, match="too short"):
        balance(net, 0.0)


def test_piggyback_of_two_purchases_multiplies() -> None:
    """Two 2:1 purchases, one on the other, in line: 4:1 (definition of compound tackle, rigging textbooks)."""
    far = 1000.0
    net = network(
        (((far, 0.0, 0.0), False), ((far, 0.1, 0.0), False), ((0.0, 0.0, 0.0), True), ((far, -0.1, 0.0), False)),
        1, (1.0, 0.0, 0.0), (0, 4, 1), (), (((4, 2, 3), 1200.0),),
    )  # fmt: skip
    found = balance(net, 0.0)
    assert isclose(pull_on_load(net, found), 4.0, rel_tol=1e-3)
    assert isclose(found.string_ratios[0], 2.0, rel_tol=1e-3)


def test_lengths_with_a_kink_near_by_are_found_past_it() -> None:
    """A rig found by chance: near its balance two nodes come together, where a length has a kink and Newton stalls.

    The hauling line's lengths must be those of scipy's SLSQP on the same convex problem in the plane.
    """
    still, goes = (0.0, 0.0, 0.0), (1.0, 0.0, 0.0)
    known = [
        (16.446636465113535, -1.4934033194009262, 0.0), (16.446636465113535, -1.4934033194009262, 0.0),
        (13.96115415062347, 1.9341936388399916, 0.0), (-0.0754, -0.9179, 0.0),
        (18.38483915351807, 2.6859056757952176, 0.0), (19.0037, -2.5814, 0.0),
        (17.90188790838344, 0.7501993572876482, 0.0), (-0.0754, 1.0821, 0.0),
    ]  # fmt: skip
    velocity = [goes if i in (3, 7) else still for i in range(8)]
    paths = [((9, 10), 0.488), ((8, 9, 11), 22.2544), ((3, 10, 7), 6.0),
             ((11, 4), 6.3035), ((11, 5), 6.3035), ((11, 6), 6.3035)]  # fmt: skip
    found = balance_compound(known, velocity, 4, (0, 8, 2), paths)
    free = [place[:2] for place in found.places[8:]]

    def at(x: np.ndarray) -> list[tuple[float, float, float]]:
        return known + [(x[2 * i], x[2 * i + 1], 0.0) for i in range(4)]

    def length(x: np.ndarray, nodes: tuple[int, ...]) -> float:
        return sum(distance(at(x)[a], at(x)[b]) for a, b in pairwise(nodes))

    limits = [{"type": "ineq", "fun": lambda x, n=nodes, m=limit: m - length(x, n)} for nodes, limit in paths]
    start = np.array(free).ravel() + np.tile([0.05, -0.03], 4)
    best = minimize(lambda x: length(x, (0, 8, 2)), start, constraints=limits, tol=1e-12)
    assert length(np.array(free).ravel(), (0, 8, 2)) == pytest.approx(float(best.fun), abs=1e-5)
    assert all(length(np.array(free).ravel(), nodes) <= limit + 1e-6 for nodes, limit in paths)


@given(net=tethered(), travel=TRAVEL)
@settings(max_examples=100, deadline=None)
def test_each_tethered_redirect_hangs_along_its_resultant(net: Network, travel: float) -> None:
    """Statics, without the solver: a redirect stands off its point along the sum of its legs' ways, and is still."""
    found = balance(net, travel)
    assert found.whole is None  # the quick way was enough
    for t in net.tethers:
        here, place = found.places[t.node], net.haul.index(t.node)
        legs = [unit(sub(found.places[net.haul[i]], here)) for i in (place - 1, place + 1)]
        way = unit((legs[0][0] + legs[1][0], legs[0][1] + legs[1][1], legs[0][2] + legs[1][2]))
        stands = [a + t.length_m * w for a, w in zip(found.places[t.anchor], way, strict=True)]
        assert here == pytest.approx(stands, abs=1e-6)


@given(net=RIGS, travel=TRAVEL, by=st.floats(-0.2, 0.2))
@settings(max_examples=60, deadline=None)
def test_a_guess_from_near_by_changes_nothing(net: Network, travel: float, by: float) -> None:
    try:
        here, near = balance(net, travel), balance(net, travel + by)
    except NoBalance:
        assume(False)
    again = balance(net, travel, near)
    assert again.string_ratios == pytest.approx(here.string_ratios, abs=1e-6)
    assert path_m(net, again.places) == pytest.approx(path_m(net, here.places), abs=1e-6)
    assert (again.whole is None) == (here.whole is None)


def beside_the_line(past_m: float) -> Network:
    """A redirect on half a metre of tether, its point beside a straight line of 10 m and so much farther off."""
    return network(
        (((5.0, 0.0, 0.0), False), ((0.0, 0.5 + past_m, 0.0), False), ((-5.0, 0.0, 0.0), True)),
        1, (1.0, 0.0, 0.0), (0, 3, 2), (Tether(3, 1, 0.5),), (),
    )  # fmt: skip


@pytest.mark.parametrize(("pull", "quick"), [(1.008e-3, True), (0.992e-3, False)])
def test_what_hardly_pulls_is_balanced_as_a_whole(pull: float, quick: bool) -> None:
    """By statics: drawn aside by d amid 10 m the line pulls back with 2 d / 5; both ways it is the same place."""
    net = beside_the_line(2.5 * pull)
    found = balance(net, 0.0)
    assert (found.whole is None) == quick
    assert found.places[3] == pytest.approx((0.0, 2.5 * pull, 0.0), abs=1e-6)


def test_a_redirect_that_hangs_from_a_redirect_is_balanced_as_a_whole() -> None:
    """In line, each turns the line back: the outer's tether draws with two parts, the inner's with those and its own.

    Statics: parallel parts add up; 1 m aside in 1,000 m is parallel to a millionth.
    """
    far = 1000.0
    known = (((far, 1.0, 0.0), False), ((0.0, 0.0, 0.0), False), ((far, -1.0, 0.0), True), ((far, 1.0, 0.0), False))
    net = network(known, 2, (1.0, 0.0, 0.0), (0, 5, 2, 4, 3), (Tether(4, 1, 1.0), Tether(5, 4, 0.5)), ())
    found = balance(net, 0.0)
    assert found.whole is not None
    assert found.whole.ratios == pytest.approx([4.0, 2.0], rel=2e-6)
    assert found.places[4] == pytest.approx((1.0, 0.0, 0.0), abs=1e-5)
    assert found.places[5] == pytest.approx((1.5, 0.0, 0.0), abs=1e-5)


@given(net=compound())
@settings(max_examples=20, deadline=None)
def test_a_balance_is_followed_along_the_travel_in_a_step(net: Network) -> None:
    """From how a balance moves, one a tenth of a millimetre on is known to some 1e-8: a Newton step is enough.

    Each step, and how the new one moves, is a linear system solved.
    """
    try:
        near = balance(net, 1.0)
        balance(net, 1.0001)
    except NoBalance:
        assume(False)
    assert near.whole is not None
    assume(all(ratio > 0.05 for ratio in near.whole.ratios))
    with pytest.MonkeyPatch.context() as patch:
        solved: list[int] = []

        def count(matrix: list[list[float]], right: list[float]) -> list[float]:
            solved.append(len(right))
            return solve_linear(matrix, right)

        patch.setattr("riglint.mechanics.compound.solve_linear", count)
        balance(net, 1.0001, near)
    assert len(solved) <= 2


def test_a_guess_that_is_no_use_is_given_up() -> None:
    """As it stood 20 m away, a redirect on a second line would be far beyond where that line reaches."""
    net = network(
        (((24.0, 0.0, 0.0), False), ((23.0, 1.0, 0.0), False), ((0.0, 0.0, 0.0), True), ((22.0, -1.0, 0.0), False)),
        1, (1.0, 0.0, 0.0), (0, 4, 1), (), (((4, 2), 10.0),),
    )  # fmt: skip
    here = balance(net, 2.0)
    assert balance(net, 2.0, balance(net, -60.0)).places[4] == pytest.approx(here.places[4], abs=1e-6)


def sweeps(net: Network, travel: float, guess: Balance | None = None) -> float:
    """How often the quick way goes over all the redirects: each asks for the length of its two legs."""
    asked: list[float] = []

    def length(a: Vec, b: Vec) -> float:
        asked.append(dist(a, b))
        return asked[-1]

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr("riglint.mechanics.balance.dist", length)
        assert balance(net, travel, guess).whole is None
    return len(asked) / (2 * net.free)


@given(net=tethered(), travel=TRAVEL)
@settings(max_examples=100, deadline=None, derandomize=True)
def test_a_few_sweeps_find_the_balance(net: Network, travel: float) -> None:
    """Steps cut back as they should be are nearly Newton's: of 1,500 rigs drawn by chance none took more than six."""
    assert sweeps(net, travel) <= 7


@given(net=tethered(), travel=TRAVEL)
@settings(max_examples=40, deadline=None)
def test_what_goes_along_as_a_whole_is_followed_as_a_whole(net: Network, travel: float) -> None:
    """Where every point goes with the load the redirects keep their places among them: one sweep sees that."""
    every = tuple((place, True) for place, _ in net.fixed)
    going = network(every, net.free, unit((0.8, -0.5, 0.3)), net.haul, net.tethers, ())
    assert sweeps(going, travel, balance(going, travel + 3.0)) == 1


def test_a_redirect_that_nothing_holds_lies_on_the_straight_line() -> None:
    """Wherever the axes begin."""
    net = network(
        (((5.0, 1.0, 0.0), False), ((-5.0, 1.0, 0.0), True)), 1, (1.0, 0.0, 0.0), (0, 2, 1), (), ()
    )  # fmt: skip
    assert path_m(net, balance(net, 0.0).places) == pytest.approx(10.0, abs=1e-6)


def test_with_no_redirect_at_all_a_guess_changes_nothing() -> None:
    """A second line made fast at both ends, and nothing that floats: 10 m of it between ends 9 m apart at 1 m."""
    net = network(
        (((24.0, 0.0, 0.0), False), ((10.0, 1.0, 0.0), False), ((0.0, 0.0, 0.0), True), ((0.0, 1.0, 0.0), True)),
        0, (1.0, 0.0, 0.0), (0, 2), (), (((1, 3), 10.0),),
    )  # fmt: skip
    here = balance(net, 1.0, balance(net, 0.0))
    assert here.places[2] == pytest.approx((1.0, 0.0, 0.0))
    assert here.string_ratios == (0.0,)
