"""Headroom: how far the resistance, the slope, the way of the load or an angle can change before the verdict does."""

from __future__ import annotations

from riglint.outcome import Inspection
from riglint.reading.document import Document
from riglint.remedy.room.model import Headroom
from riglint.remedy.room.of_angle import angles
from riglint.remedy.room.of_load import resistance, slope, swing
from riglint.remedy.workshop import Engine, Workshop
from riglint.solve.solution import Solution


def headroom(document: Document, solution: Solution, inspection: Inspection, engine: Engine) -> tuple[Headroom, ...]:
    """That of the load's resistance, its slope and the swing of its way, and of the angle at each anchored redirect."""
    shop = Workshop(document, solution, inspection, engine)
    return (resistance(shop), slope(shop), swing(shop), *angles(shop))
