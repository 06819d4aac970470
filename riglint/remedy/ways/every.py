"""Every way to put something right, the cheapest first: what a crew does with its hands before what it must fetch."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Final, NamedTuple

from riglint.outcome import Finding
from riglint.remedy.model import Proposal
from riglint.remedy.ways import anchors, bodies, crew, gear, joins, parts, people, rope, seats, shared
from riglint.remedy.workshop import Workshop

_LOADED: Final = frozenset({"connector", "bridle leg", "piece", "join", "point", "seat", "redirect", "winch", "body"})
_GEAR: Final = frozenset({"connector", "piece", "join", "seat", "redirect", "winch", "drum", "line"})
_LENGTHS: Final = frozenset({"drum", "line", "stage"})
_PLACED: Final = frozenset({"point", "load", "winch", "seat", "redirect", "connector", "bridle leg", "drum", "line",
                            "body", "stage", "fairlead"})  # fmt: skip


class Way(NamedTuple):
    """A way: its name, the kinds of component that it serves, how often it is tried, and its proposals.

    Of a `clean` one what brings nothing else goes before what is nearer: nobody is sent from one danger to a lesser.
    """

    name: str
    kinds: frozenset[str]
    most: int
    propose: Callable[[Workshop, Finding], Iterator[Proposal]]
    clean: bool = False


WAYS: Final[tuple[Way, ...]] = (
    Way("watch", frozenset({"join"}), 4, people.watch),
    Way("move person", frozenset({"person"}), 80, people.move, clean=True),
    Way("damper", frozenset({"person"}), 2, crew.damper),
    Way("set join right", frozenset({"join"}), 1, joins.set_right),
    Way("secure pin", frozenset({"connector"}), 2, bodies.mouse),
    Way("secure vehicle", frozenset({"body"}), 1, bodies.secure),
    Way("stop", frozenset({"join"}), 6, joins.stop),
    Way("other seat", _LOADED, 4, seats.other_seat),
    Way("double", frozenset({"connector"}), 1, gear.double),
    Way("other point", frozenset({"point", "bridle leg"}), 16, anchors.other_point),
    Way("pieces in another order", frozenset({"join"}), 6, joins.order),
    Way("wind on again", frozenset({"drum"}), 1, bodies.rewind),
    Way("dig free", frozenset({"winch"}), 3, crew.dig_free),
    Way("more pickets", frozenset({"point"}), 5, crew.more_pickets),
    Way("gear from kit", _GEAR, 16, gear.from_kit),
    Way("splice", frozenset({"join"}), 1, joins.splice),
    Way("move vehicle", _PLACED, 20, anchors.move_vehicle),
    Way("longer piece from kit", _LENGTHS, 12, rope.other),
    Way("piece from kit", _LENGTHS, 12, rope.further),
    Way("longer piece", _LENGTHS, 5, rope.longer),
    Way("other piece", frozenset({"join"}), 12, joins.other_length),
    Way("less rope", frozenset({"drum", "winch", "join"}), 8, rope.shorter),
    Way("part more", _LOADED | {"load"}, 18, parts.one_more),
    Way("part fewer", _LENGTHS | {"point", "connector", "redirect", "seat", "part"}, 1, parts.one_fewer),
    Way("end sooner", _PLACED | _LOADED, 4, bodies.end_sooner),
    Way("stronger gear", _LOADED, 3, gear.need),
    Way("same rope", frozenset({"join"}), 2, crew.same_rope),
    Way("fitting seat", frozenset({"seat"}), 1, crew.fitting_seat),
    Way("second anchor", frozenset({"point"}), 12, shared.second_anchor),
    Way("tie back", frozenset({"body"}), 4, bodies.tie_back),
)
