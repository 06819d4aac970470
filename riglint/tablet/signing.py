"""The checks to tick and what a signed record names: the sheet's own, for the page."""

from __future__ import annotations

from typing import Any

from riglint.report.material import Inspected
from riglint.sheet.checklist import checklist
from riglint.sheet.page import record_data


def checks(inspected: Inspected, digest: str) -> dict[str, Any]:
    """All that the sheet's record names (`may_be_clear` and `why_not` too), and the sections with their items."""
    sections = checklist(inspected.solution, inspected.inspection)
    shown = [{"title": s.title, "stage": s.stage, "items": [item._asdict() for item in s.items]} for s in sections]
    return {"sections": shown, "sheet": record_data(inspected, digest, sections)}
