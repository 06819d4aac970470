"""Edges that gear or rope bears on."""

from pydantic import Field

from riglint.plan.base import Flag, PlanPart
from riglint.plan.quantities import Length


class Edge(PlanPart):
    """The sharpest edge that something under load bears on: of a frame, a beam, a kerb, a rock."""

    radius: Length | None = Field(None, description="to which the edge is rounded; nothing where it is as cut")
    protected: Flag | None = Field(None, description="whether sleeves, pipe or corner pieces keep it off the edge")
