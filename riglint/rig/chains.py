"""Chains of connectors: from gear to the point, the redirect or the bridle that holds it."""

from __future__ import annotations

from riglint.rig.faults import Faults
from riglint.rig.model import BridleArm, Chain, Connector, Point, Redirect


class Chains:
    """Resolves lists of names such as `[bow_b, strap_b, ash]`."""

    def __init__(
        self,
        connectors: dict[str, Connector],
        points: dict[str, Point],
        redirect_names: set[str],
        faults: Faults,
    ) -> None:
        self.connectors = connectors
        self.points = points
        self.redirects: dict[str, Redirect] = {}
        self._redirect_names = redirect_names
        self._faults = faults
        self._beyond: dict[str, tuple[str, ...]] = {}  # what each connector in use is made fast to

    def resolve(self, end: str | tuple[str, ...], pointer: str) -> Chain | None:
        """The chain of one name or a list of them, or None with the fault noted."""
        if isinstance(end, str):
            return self._chain((end,), (pointer,))
        return self._chain(end, tuple(f"{pointer}/{i}" for i in range(len(end))))

    def _chain(self, words: tuple[str, ...], pointers: tuple[str, ...]) -> Chain | None:
        names, held = self._connectors_and_end(words)
        found = [self._connector(name, words[i + 1 :], pointers[i]) for i, name in enumerate(names)]
        connectors = tuple(c for c in found if c is not None)
        if held is not None:
            end = self._end(held, pointers[-1])
            if end is None or len(connectors) < len(names):
                return None
            return Chain(connectors, _length(connectors), point=end[0], redirect=end[1])
        if len(connectors) < len(names):
            return None
        bridle = connectors[-1]
        arms = self._arms(bridle)
        if not arms:
            return None
        equalised = bridle.facts.equalised is True
        return Chain(connectors, _length(connectors[:-1]), arms=arms, equalised=equalised)

    def _connectors_and_end(self, words: tuple[str, ...]) -> tuple[tuple[str, ...], str | None]:
        """The connectors' names, and what the last is made fast to: None where it is a bridle, with its own."""
        last = self.connectors.get(words[-1])
        if last is not None and last.facts.kind == "bridle":
            return words, None
        return words[:-1], words[-1]

    def _end(self, name: str, pointer: str) -> tuple[Point | None, str | None] | None:
        if name in self.points:
            return self.points[name], None
        if name in self._redirect_names:
            return None, name
        if name in self.connectors:
            what = f"the connector `{name}` is made fast to nothing"
            self._faults.add(pointer, what, f"write `[{name}, ...]`, with a point at the end")
        else:
            self._faults.unknown(pointer, name, "point or redirect", [*self.points, *sorted(self._redirect_names)])
        return None

    def _connector(self, name: str, beyond: tuple[str, ...], pointer: str) -> Connector | None:
        found = self.connectors.get(name)
        if found is None:
            self._not_a_connector(name, pointer)
        elif self._beyond.setdefault(name, beyond) != beyond:
            what = f"`{name}` is made fast in two places"
            self._faults.add(pointer, what, "give each connector its own name", of_whole=True)
        elif found.facts.kind == "bridle" and beyond:
            self._faults.add(pointer, f"something stands behind the bridle `{name}`", "its `legs` say what holds it")
        else:
            return found
        return None

    def _not_a_connector(self, name: str, pointer: str) -> None:
        if name in self.points or name in self._redirect_names:
            what = f"`{name}` stands in the middle of the list and is no connector"
            self._faults.add(pointer, what, "write connectors in order, then the one thing that holds them")
        else:
            self._faults.unknown(pointer, name, "connector", list(self.connectors))

    def _arms(self, bridle: Connector) -> tuple[BridleArm, ...]:
        if not bridle.facts.legs:
            what = f"the bridle `{bridle.name}` has no legs"
            self._faults.add(bridle.pointer, what, "write `legs: [{to: point, length: 2 m}, ...]`", key=True)
            return ()
        arms = []
        for i, leg in enumerate(bridle.facts.legs):
            point = self.points.get(leg.to)
            if point is None:
                self._faults.unknown(f"{bridle.pointer}/legs/{i}/to", leg.to, "point", list(self.points))
                return ()
            arms.append(BridleArm(leg, point, leg.length.high))
        return tuple(arms)


def _length(connectors: tuple[Connector, ...]) -> float:
    return sum(c.length_m for c in connectors)
