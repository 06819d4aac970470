"""Faults that only the whole plan can show: names that don't exist, circles, things that can't be."""

from typing import NamedTuple

from riglint.reading.nearest import nearest, one_of
from riglint.reading.problems import quoted

MOST_FAULTS = 100
"""After so many the search stops: they will have one cause."""

MOST_LISTED = 12
"""Names that a message lists; a longer list helps nobody."""

MOST_COMPARED = 1000
"""Names among which the nearest is looked for."""


class Fault(NamedTuple):
    """A fault at a place of the plan (RFC 6901 pointer), what was found there and what would serve."""

    pointer: str
    what: str
    serves: str
    key: bool = False
    """Whether the key is at fault, not its value."""
    name: str | None = None
    """The name that stands for nothing, where that is the fault."""
    of_whole: bool = False
    """Whether it is a fault of how the entries stand together, so that any of them may be the reason."""


class RigFaults(ValueError):
    """The plan's names and shapes do not make a rig. `faults` holds every one that was found."""

    def __init__(self, faults: list[Fault]) -> None:
        super().__init__("; ".join(f.what for f in faults))
        self.faults = tuple(faults)


class Faults:
    """Collects faults while a plan is resolved, so that all are told at once.

    `told` is how often one was noted, again ones counted: what has told one since must not be used.
    """

    def __init__(self) -> None:
        self.found: list[Fault] = []
        self.told = 0

    def add(self, pointer: str, what: str, serves: str, *, key: bool = False, of_whole: bool = False) -> None:
        """Note one fault, once."""
        self._add(Fault(pointer, what, serves, key, of_whole=of_whole))

    def _add(self, fault: Fault) -> None:
        self.told += 1
        if fault not in self.found:
            self.found.append(fault)
        if len(self.found) >= MOST_FAULTS:
            raise RigFaults(self.found)

    def unknown(self, pointer: str, name: str, kind: str, known: list[str], *, key: bool = False) -> None:
        """A name that stands for nothing in this plan."""
        near = nearest(name, known) if len(known) <= MOST_COMPARED else None
        hint = f"did you mean `{near}`?" if near else _listed(known, kind)
        self._add(Fault(pointer, f"{quoted(name)} names no {kind} of this plan", hint, key, name))

    def stop_if_any(self) -> None:
        """Raise what was found, if anything was."""
        if self.found:
            raise RigFaults(self.found)


def _listed(known: list[str], kind: str) -> str:
    if not known:
        return f"name a {kind} first"
    return f"use {one_of(known)}" if len(known) <= MOST_LISTED else f"use the name of a {kind} that the plan has"
