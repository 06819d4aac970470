"""A stage as numbers: nodes, legs, turns, and for everything that carries load the leg ends that pull on it.

Built once a stage; the stations then only look places up. A leg end is (leg, sign): the leg's tension pulls the
thing at its begin along the leg's direction (+1) and the thing at its end against it (-1). A redirect that hangs
by its connectors hands its leg ends on to what holds it, so that every load is one vector sum of legs.
"""

from itertools import pairwise
from typing import Any, NamedTuple

from riglint.mechanics.balance import Network, Tether, network
from riglint.mechanics.vectors import Vec
from riglint.rig.model import Chain, Line, Redirect, RigStage, Turn
from riglint.solve.solution import Component, Kind

LegEnds = tuple[tuple[int, int], ...]

GONE = 1e-4  # a tether shorter than this has no length: the redirect stands at its point


class WiredLeg(NamedTuple):
    """One leg: the line (its place among the stage's lines, -1 for a bridle's leg) and its two nodes."""

    line: int
    begin: int
    end: int


class WiredTurn(NamedTuple):
    """One turn: the legs before and beyond it."""

    line: int
    index: int  # type: ignore[assignment]  # nothing here calls tuple.index
    turn: Turn
    node: int
    before: int
    beyond: int


class Wiring(NamedTuple):
    """Everything about forces and places that the stations of a stage share."""

    net: Network
    names: tuple[str, ...]  # of the nodes
    moves: tuple[int, ...]  # of the nodes: 1 for what goes with the load, itself or by what it hangs from
    legs: tuple[WiredLeg, ...]  # the hauling line's first, then other lines', then bridles'
    line_legs: tuple[range, ...]  # each line's legs
    turns: tuple[WiredTurn, ...]  # in the order of the legs
    strings: tuple[tuple[int, ...], ...]  # for each string of the network, its legs
    components: tuple[Component, ...]  # whose load is a vector sum of leg ends
    sums: tuple[LegEnds, ...]  # the sums that there are, each once
    sum_of: tuple[int, ...]  # for each component, which sum it carries
    load_ends: LegEnds
    balances: tuple[LegEnds, ...]  # at each floating node, the leg ends that must sum to nothing
    held: tuple[tuple[int, LegEnds], ...]  # tethers whose nodes alone balance a string, and the leg ends there
    hangers: dict[str, tuple[int, int]]  # redirect: its node and the node that holds it


class _Builder:
    def __init__(self, stage: RigStage) -> None:
        self.stage = stage
        self.fixed: list[tuple[Vec, bool]] = []
        self.names: list[str] = []
        self.free_names: list[str] = []
        self.tethers: list[tuple[str, str, float]] = []
        self.where: dict[str, str] = {}  # name to the node that it shares
        self.legs: list[tuple[int, str, str]] = []
        self.strings: list[tuple[list[str], float, list[int]]] = []
        self.turns: list[tuple[int, int, Turn, int]] = []
        self.bridles: list[tuple[str, Chain]] = []
        self.hubs: dict[str, list[int]] = {}  # bridle hub: its legs


def wire(stage: RigStage) -> Wiring:
    """Number the nodes and legs of a stage."""
    build = _Builder(stage)
    _place_points(build)
    for redirect in stage.redirects.values():
        if _in_use(stage, redirect):
            _hang(build, redirect)
    line_legs = [_lay(build, i, line) for i, line in enumerate(stage.lines)]
    _lay_bridles(build)
    names = build.names + build.free_names
    number = {name: i for i, name in enumerate(names)}
    legs = tuple(WiredLeg(line, number[a], number[b]) for line, a, b in build.legs)
    net = network(
        tuple(build.fixed),
        len(build.free_names),
        stage.direction,
        tuple(number[n] for n in _nodes(build, stage.haul)),
        tuple(Tether(number[a], number[b], length) for a, b, length in build.tethers),
        tuple((tuple(number[n] for n in nodes), length) for nodes, length, _ in build.strings),
    )
    turns = tuple(
        WiredTurn(line, index, turn, legs[before].end, before, before + 1) for line, index, turn, before in build.turns
    )
    pulls = collect_pulls(stage, build, line_legs)
    components, ends = _components(stage, pulls, build)
    sums = tuple(dict.fromkeys(ends))
    place = {own: i for i, own in enumerate(sums)}
    floating = _floating(build, pulls)
    return Wiring(
        net=net,
        names=tuple(names),
        moves=_moves(net, legs),
        legs=legs,
        line_legs=tuple(line_legs),
        turns=turns,
        strings=tuple(tuple(own) for _, _, own in build.strings),
        components=components,
        sums=sums,
        sum_of=tuple(place[own] for own in ends),
        load_ends=tuple(pulls.bodies.get(stage.load.name, ())),
        balances=floating,
        held=_held(build, pulls, floating),
        hangers=_hanger_nodes(build, number),
    )


def _moves(net: Network, legs: tuple[WiredLeg, ...]) -> tuple[int, ...]:
    """Which nodes go with the load; a bridle's hub goes with its points, what floats counts as standing still."""
    moves = [int(own) for _, own in net.fixed] + [0] * net.free
    for leg in legs:
        if leg.line < 0:
            moves[leg.begin] = moves[leg.end]
    for _ in net.tethers:  # as often as there are tethers: one may hang from another
        for tether in net.tethers:
            moves[tether.node] = moves[tether.anchor]
    return tuple(moves)


def _in_use(stage: RigStage, redirect: Redirect) -> bool:
    """Gear that a stage has lying about is not part of its rig."""
    chains = [c for line in stage.lines for c in (line.first, line.dead_end) if c]
    chains += [r.hanger for r in stage.redirects.values() if r.hanger and r is not redirect]
    return any(t.redirect == redirect.name for line in stage.lines for t in line.turns) or any(
        c.redirect == redirect.name for c in chains
    )


def _place_points(build: _Builder) -> None:
    build.names.append("winch")
    build.fixed.append((build.stage.winch.fairlead, build.stage.winch.mount.body.moves))
    build.where["winch"] = "winch"
    for point in build.stage.points.values():
        build.names.append(point.name)
        build.fixed.append((point.at, point.body.moves))
        build.where[point.name] = point.name


def _hang(build: _Builder, redirect: Redirect) -> None:
    if redirect.name in build.where:
        return
    hanger = redirect.hanger
    if hanger is not None and hanger.redirect:
        _hang(build, build.stage.redirects[hanger.redirect])
    if hanger is not None and sits_on_its_point(hanger):
        build.where[redirect.name] = build.where[_holder(hanger)]
        return
    build.free_names.append(redirect.name)
    build.where[redirect.name] = redirect.name
    if hanger is not None:
        _tie(build, redirect.name, hanger)


def sits_on_its_point(hanger: Chain) -> bool:
    """Whether a redirect hangs by nothing that has a length, so that it stands where it is held."""
    return not hanger.arms and hanger.length_m < GONE


def _holder(chain: Chain) -> str:
    return chain.point.name if chain.point else str(chain.redirect)


def _tie(build: _Builder, name: str, chain: Chain) -> None:
    """Tie a node to what its chain ends at; a bridle's hub is a node of its own where connectors lead to it."""
    if not chain.arms:
        build.tethers.append((name, build.where[_holder(chain)], chain.length_m))
        return
    hub = name
    if chain.length_m >= GONE:
        hub = chain.connectors[-1].name
        build.free_names.append(hub)
        build.tethers.append((name, hub, chain.length_m))
    _spread(build, hub, chain)


def _spread(build: _Builder, hub: str, chain: Chain) -> None:
    """Note a bridle for later: its legs come after all lines', since the hauling line's come first."""
    build.bridles.append((hub, chain))


def _lay_bridles(build: _Builder) -> None:
    """The legs of bridles: strings of their own, or one through all of them where it equalises."""
    for hub, chain in build.bridles:
        own = list(range(len(build.legs), len(build.legs) + len(chain.arms)))
        build.legs.extend((-1, hub, arm.point.name) for arm in chain.arms)
        build.hubs[hub] = own
        if chain.equalised:
            first, second, *third = (arm.point.name for arm in chain.arms)
            nodes, times = [first, hub, second], 1
            if third:  # a path through three legs takes each of them alike only if it goes to and fro
                nodes, times = [*nodes, hub, *third, hub, first], 2
            build.strings.append((nodes, times * sum(arm.length_m for arm in chain.arms), own))
            continue
        for leg, arm in zip(own, chain.arms, strict=True):
            build.strings.append(([hub, arm.point.name], arm.length_m, [leg]))


def _end_node(build: _Builder, chain: Chain) -> str:
    """The node that a line's end pulls towards; its chain lies along the last leg."""
    if not chain.arms:
        return build.where[_holder(chain)]
    hub = chain.connectors[-1].name
    if hub not in build.where:
        build.where[hub] = hub
        build.free_names.append(hub)
        _spread(build, hub, chain)
    return hub


def _nodes(build: _Builder, line: Line) -> list[str]:
    first = "winch" if line.first is None else _end_node(build, line.first)
    return [first, *(build.where[t.redirect] for t in line.turns), _end_node(build, line.dead_end)]


def _lay(build: _Builder, number: int, line: Line) -> range:
    nodes = _nodes(build, line)
    begin = len(build.legs)
    build.legs.extend((number, a, b) for a, b in pairwise(nodes))
    build.turns.extend((number, k, turn, begin + k) for k, turn in enumerate(line.turns))
    own = range(begin, len(build.legs))
    if number > 0:
        ends = sum(c.length_m for c in (line.first, line.dead_end) if c)
        build.strings.append((nodes, line.length.mid + ends, list(own)))
    return own


def _hanger_nodes(build: _Builder, number: dict[str, int]) -> dict[str, tuple[int, int]]:
    return {name: (number[name], number[anchor]) for name, anchor, _ in build.tethers if name in number}


class Pulls:
    """Leg ends by what they pull on: each redirect with all that it must hold, its rope alone, and so on."""

    def __init__(self) -> None:
        self.turns: dict[str, list[tuple[int, int]]] = {}
        self.redirects: dict[str, list[tuple[int, int]]] = {}
        self.connectors: dict[str, list[tuple[int, int]]] = {}
        self.points: dict[str, list[tuple[int, int]]] = {}
        self.bodies: dict[str, list[tuple[int, int]]] = {}

    def hand(self, chain: Chain, ends: list[tuple[int, int]]) -> None:
        """Hand leg ends on along a chain to the point that holds it."""
        for connector in chain.connectors:
            self.connectors.setdefault(connector.name, []).extend(ends)
        if chain.point:
            self.points.setdefault(chain.point.name, []).extend(ends)
        if chain.redirect:
            self.redirects.setdefault(chain.redirect, []).extend(ends)


def collect_pulls(stage: RigStage, build: _Builder, line_legs: list[range]) -> Pulls:
    """Follow every leg end to what holds it."""
    pulls = Pulls()
    for _, _, turn, before in build.turns:
        own = [(before, -1), (before + 1, 1)]
        pulls.turns.setdefault(turn.redirect, []).extend(own)
        pulls.redirects.setdefault(turn.redirect, []).extend(own)
    pulls.points[stage.winch.mount.name] = [(line_legs[0].start, 1)]
    for line, legs in zip(stage.lines, line_legs, strict=True):
        if line.first:
            pulls.hand(line.first, [(legs.start, 1)])
        pulls.hand(line.dead_end, [(legs.stop - 1, -1)])
    for redirect in _hung_last(stage):
        if redirect.hanger and redirect.name in build.where:
            pulls.hand(redirect.hanger, pulls.redirects.get(redirect.name, []))
    for line_number, begin, end in build.legs:
        if line_number < 0:
            pulls.points.setdefault(end, []).append((build.legs.index((line_number, begin, end)), -1))
    for point in stage.points.values():
        if point.name in pulls.points:
            pulls.bodies.setdefault(point.body.name, []).extend(pulls.points[point.name])
    return pulls


def _hung_last(stage: RigStage) -> list[Redirect]:
    """Redirects with those that hang from another before the one that they hang from."""

    def depth(redirect: Redirect) -> int:
        above = redirect.hanger.redirect if redirect.hanger else None
        return 1 + depth(stage.redirects[above]) if above else 0

    return sorted(stage.redirects.values(), key=depth, reverse=True)


def _floating(build: _Builder, pulls: Pulls) -> tuple[LegEnds, ...]:
    """The leg ends at each node that nothing but legs holds, hubs of bridles included."""
    tied = {name for name, _, _ in build.tethers}
    out = []
    for name in build.free_names:
        if name not in tied:
            on_it = pulls.redirects.get(name) or pulls.connectors.get(name) or []
            out.append((*on_it, *((leg, 1) for leg in build.hubs.get(name, ()))))
    return tuple(out)


def _held(build: _Builder, pulls: Pulls, floating: tuple[LegEnds, ...]) -> tuple[tuple[int, LegEnds], ...]:
    """The tethered nodes that a string pulls on which pulls on nothing that floats: such as a guy to a hung block."""
    shared = {leg for ends in floating for leg, _ in ends}
    alone = {leg for _, _, own in build.strings if shared.isdisjoint(own) for leg in own}
    ends_at = [tuple(pulls.redirects.get(name, ())) for name, _, _ in build.tethers]
    return tuple((i, ends) for i, ends in enumerate(ends_at) if any(leg in alone for leg, _ in ends))


def _components(stage: RigStage, pulls: Pulls, build: _Builder) -> tuple[tuple[Component, ...], list[LegEnds]]:
    """Everything whose load is a sum of leg ends, in a fixed order, and those ends."""
    out: list[Component] = []
    ends: list[LegEnds] = []
    kinds: tuple[tuple[Kind, dict[str, Any], dict[str, list[tuple[int, int]]]], ...] = (
        ("redirect", stage.redirects, pulls.turns),
        ("connector", stage.connectors, pulls.connectors),
        ("point", stage.points, pulls.points),
        ("body", stage.bodies, pulls.bodies),
    )
    for kind, items, own in kinds:
        for item in items.values():
            if own.get(item.name):
                is_load = kind == "body" and item.moves
                out.append(Component("load" if is_load else kind, item.name, item.pointer, item))
                ends.append(tuple(own[item.name]))
    for chain in _bridles(stage):
        bridle = chain.connectors[-1]
        for i, (arm, leg) in enumerate(zip(chain.arms, build.hubs.get(_hub_name(build, chain), ()), strict=False)):
            pointer = f"{bridle.pointer}/legs/{i}"
            out.append(Component("bridle leg", f"{bridle.name} to {arm.point.name}", pointer, arm))
            ends.append(((leg, 1),))
    return tuple(out), ends


def _bridles(stage: RigStage) -> list[Chain]:
    chains = [r.hanger for r in stage.redirects.values() if r.hanger]
    chains += [c for line in stage.lines for c in (line.first, line.dead_end) if c]
    seen: dict[str, Chain] = {}
    for chain in chains:
        if chain.arms:
            seen.setdefault(chain.connectors[-1].name, chain)
    return list(seen.values())


def _hub_name(build: _Builder, chain: Chain) -> str:
    own = chain.connectors[-1].name
    if own in build.hubs:
        return own
    return next((r.name for r in build.stage.redirects.values() if r.hanger is chain), own)
