"""Sharp bends: what cases can't say. Of what kind the place is that a check names, as a report in JSON tells it."""

from __future__ import annotations

from pathlib import Path

from tests.rules.says import judged

CASE = Path(__file__).parent / "bend_under_load" / "fail-single-soft-shackle.yaml"


def test_a_hanger_is_bent_at_its_redirect_and_rope_in_its_seat() -> None:
    kinds = {check.where.name: check.where.kind for check in judged(CASE)[0].checks}
    assert kinds == {"block_a": "redirect", "block_a.sheave": "seat"}
