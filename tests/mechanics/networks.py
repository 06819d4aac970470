"""Random taut rigs as bare networks: straight, many-part, three-dimensional, winch on the load, compound."""

from __future__ import annotations

from hypothesis import strategies as st

from riglint.mechanics.balance import Network, Tether, network
from riglint.mechanics.vectors import Vec, distance, unit

_across = st.floats(-3.0, 3.0)
_height = st.sampled_from([0.0, 0.0, 0.3, 1.1, -0.4])
_tether = st.sampled_from([0.0, 0.1, 0.25, 0.8, 1.6])


@st.composite
def tethered(draw: st.DrawFn, flat: bool = False) -> Network:
    """A hauling line back and forth between points on the load and points that stay, every redirect tethered."""
    height = st.just(0.0) if flat else _height
    turns = draw(st.integers(1, 5))
    winch_moves = draw(st.booleans())
    fixed: list[tuple[Vec, bool]] = []
    tethers: list[Tether] = []
    haul: list[int] = []
    known = turns + 2
    for i in range(known):
        moves = winch_moves if i % 2 == 0 else not winch_moves
        x = draw(st.floats(-1.0, 1.0)) if moves else draw(st.floats(14.0, 22.0))
        fixed.append(((x, draw(_across), draw(height)), moves))
    for i in range(turns):
        tethers.append(Tether(known + i, i + 1, draw(_tether)))
    haul = [0, *range(known, known + turns), turns + 1]
    climb = 0.0 if flat else draw(st.sampled_from([0.0, 0.1]))
    direction = unit((1.0, draw(st.floats(-0.2, 0.2)), climb))
    return network(tuple(fixed), turns, direction, tuple(haul), tuple(tethers), ())


@st.composite
def compound(draw: st.DrawFn) -> Network:
    """A second line whose end is made fast to a redirect that the hauling line moves, and that runs to the load."""
    nodes: list[tuple[Vec, bool]] = [
        ((draw(st.floats(22.0, 26.0)), draw(_across), draw(_height)), False),  # winch
        ((draw(st.floats(22.0, 26.0)), draw(_across), draw(_height)), False),  # dead end of the hauling line
        ((0.0, draw(_across), draw(_height)), True),  # point on the load
        ((draw(st.floats(20.0, 24.0)), draw(_across), draw(_height)), False),  # dead end of the second line
    ]
    turn_on_load = draw(st.booleans())
    length = draw(st.floats(26.0, 32.0)) if turn_on_load else draw(st.floats(8.0, 14.0))
    if turn_on_load:
        tether = Tether(5, 2, draw(st.sampled_from([0.2, 0.6])))
        return network(tuple(nodes), 2, (1.0, 0.0, 0.0), (0, 4, 1), (tether,), (((4, 5, 3), length),))
    return network(tuple(nodes), 1, (1.0, 0.0, 0.0), (0, 4, 1), (), (((4, 2), length),))


def path_m(net: Network, places: tuple[Vec, ...]) -> float:
    """Length of the hauling line's path."""
    return sum(distance(places[a], places[b]) for a, b in zip(net.haul, net.haul[1:], strict=False))
