"""The checklist is made from the plan: everything that is rigged is on it, and what isn't stated is said."""

from pathlib import Path

import pytest

from riglint.sheet.chains import held, points_used
from riglint.sheet.checklist import Item, Section, checklist
from tests.sheet.sheets import PLANS, example, inspected


def sections(text: str) -> tuple[Section, ...]:
    found = inspected(text)
    return checklist(found.solution, found.inspection)


def items(text: str, stage: int | None = None) -> dict[str, Item]:
    return {i.id: i for s in sections(text) for i in s.items if stage in (None, s.stage)}


@pytest.mark.parametrize("plan", PLANS, ids=lambda p: p.stem)
def test_everything_that_is_rigged_is_on_the_list(plan: Path) -> None:
    found = inspected(plan.read_text("utf-8"))
    listed = [item for section in checklist(found.solution, found.inspection) for item in section.items]
    ids = [item.id for item in listed]
    assert len(ids) == len(set(ids))
    stage = found.solution.stages[0].stage
    wanted = [f"0/connectors/{h.connector.name}" for h in held(stage)] + [f"0/points/{p}" for p in points_used(stage)]
    wanted += [f"0{j.pointer}" for line in stage.lines for j in line.joins]
    wanted += [f"0{p.pointer}" for line in stage.lines for p in line.pieces]
    wanted += [f"0/redirects/{turn.redirect}" for line in stage.lines for turn in line.turns]
    wanted += [f"0/clear/turns/{turn.redirect}" for line in stage.lines for turn in line.turns]
    wanted += [f"0/clear/legs/{line.name}" for line in stage.lines]
    wanted += [f"0/people/{p.pointer.rsplit('/', 1)[-1]}" for p in stage.people]
    wanted += [f"0/stops/{s.pointer.rsplit('/', 1)[-1]}" for s in stage.stops]
    wanted += ["0/signals", "0/signals/stop", "0/winch/brake", "0/clear/others", "0/slack-out/connectors"]
    assert set(wanted) <= set(ids)


def test_the_same_plan_gives_the_same_list() -> None:
    assert sections(example("fruit-truck")) == sections(example("fruit-truck"))


def test_a_later_stage_lists_gear_only_where_it_is_rigged_anew() -> None:
    later = items(example("re-rig"), stage=1)
    assert "1/connectors/bow_a" in later
    assert "1/connectors/bow_b" not in later
    assert "1/winch/brake" not in later
    assert "parking brake, and chocks at two wheels" in later["1/bodies/tanker"].text
    assert {"1/signals", "1/clear/way", "1/slack-out/anchors", "1/people/1"} <= set(later)


def test_what_the_plan_leaves_out_is_said() -> None:
    sketch = items(example("ten-lines"))
    assert sketch["0/bodies/tractor/secured"].note.startswith("the plan does not say what holds it")
    assert sketch["0/winch/brake"].note == "the plan does not say what it holds"
    assert sketch["0/people"].note == "the plan does not say who stands where"
    assert sketch["0/winch/drum"].note == "how many isn't known from the plan"


def test_brakes_chocks_dampers_signals_and_watchers_are_as_planned() -> None:
    text = example("join-planned-stop") + (
        "signals: {by: radio, agreed: true, given_by: the spotter}\n"
        "dampers:\n  - {line: haul, between: [winch, ring_a], weight: 8 kg}\n"
    )
    found = items(text)
    assert found["0/bodies/yard_truck/secured/brakes"].text == "yard_truck: brakes set"
    assert found["0/bodies/yard_truck/secured/chocks"].text == "yard_truck: wheels chocked"
    assert found["0/dampers/0"].text == "Damper lies on haul, between winch and ring_a"
    assert found["0/signals"] == Item(
        "0/signals", "Signals by radio tried, all know them", "given by the spotter alone"
    )
    assert found["0/people/0"].note == "watches join_1"
    assert "chocks under both rear wheels" in found["0/stops/0"].note
    assert "0/dampers/0" not in items(example("join-planned-stop"))


def test_a_twist_in_the_plan_is_not_ticked_away() -> None:
    text = example("join-planned-stop").replace("twist: none", "twist: half turn")
    join = items(text)["0/lines/haul/pieces/1/join_1"]
    assert join.note.startswith("the plan says: half turn")
    assert "no twist" not in join.text
