"""What gives first if the winch is kept on: only what is known of how gear is used counts."""

from pathlib import Path

import pytest

from riglint.plan.load import load_plan
from riglint.solve.first_to_give import Break, first_to_break
from riglint.solve.solve import solve

PLAN = (Path(__file__).parents[2] / "examples" / "fruit-truck.yaml").read_text("utf-8")
SHACKLE = "breaking: 190 kN, wrapped: doubled"


def first(breaking: str, use: str) -> Break:
    assert SHACKLE in PLAN
    text = PLAN.replace(SHACKLE, f"breaking: {breaking}{use}")
    found = first_to_break(solve(load_plan(text, "plan.yaml").rig).stages[0])
    assert found is not None
    return found


def test_it_breaks_at_its_strength_as_it_is_used() -> None:
    single, doubled = first("10 kN", ", wrapped: single"), first("10 kN", ", wrapped: doubled")
    assert (single.component.name, doubled.component.name) == ("soft_a", "soft_a")
    assert single.strength_n == pytest.approx(10e3)
    assert doubled.pull_n == pytest.approx(2 * single.pull_n)  # two parts share alike: derivation


def test_the_weakest_gives_first_and_at_the_lowest_pull() -> None:
    assert first("1000 kN", ", wrapped: single").pull_n > first("10 kN", ", wrapped: single").pull_n


def test_of_gear_whose_use_is_not_stated_nothing_is_known() -> None:
    """A basket whose legs' angle isn't stated holds anything from nothing to twice its strength."""
    found = first("10 kN", ", wrapped: basket")
    assert found.component.name != "soft_a"
    assert "soft_a" in [component.name for component in found.unknown]
