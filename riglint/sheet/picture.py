"""The picture of each stage, in its own section of the sheet."""

from __future__ import annotations

from riglint.picture.draw import draw
from riglint.report.material import Inspected
from riglint.sheet.markup import Html, el, trusted


def picture(inspected: Inspected, stage: int) -> Html:
    """One stage as it begins. The drawing escapes its own texts."""
    svg = draw(inspected.solution, stage, "start", inspected.inspection, f"stage-{stage + 1}-")
    name = inspected.solution.stages[stage].stage.name
    several = len(inspected.solution.stages) > 1
    caption = el("figcaption", f"Stage {stage + 1}, {name}, as it begins") if several else None
    return el("figure", trusted(svg), caption, class_="picture")
