"""A day in the field: loaded once, then no network; a plan by hand, checked, ticked, signed, taken away and back."""

import json
from collections.abc import Iterator
from hashlib import sha256
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Page

from riglint.reading.document import read_document
from tests.tablet.browser import LEVEL, UPRIGHT, checked, cleared, go, imported, opened, ready, saved, until
from tests.tablet.by_hand import Hands
from tests.tablet.conftest import EXAMPLES

pytestmark = pytest.mark.browser
NAMED = ("straight-pull", "fruit-truck")


def data_of(name: str) -> dict[str, Any]:
    """The example's data; level ground is `0 deg up` in the form."""
    text = (EXAMPLES / f"{name}.yaml").read_text("utf-8").replace("slope: 0 deg,", "slope: 0 deg up,")
    text = text.replace("side_slope: 0 deg up,", "side_slope: 0 deg,")
    data: dict[str, Any] = read_document(text, name).data
    return {"reports_in": "metric", **data}


def found(page: Page) -> Any:
    """Findings without their lines, which depend on how the text is laid out."""
    return page.evaluate(
        "riglint.session.answer.findings.map(f => [f.rule, f.grade, f.result, f.check.message, f.check.where.pointer])"
    )


@pytest.fixture(scope="module")
def away(started: Page, address: str) -> Iterator[Page]:
    """A new page of a browser that has had the tablet's page once, and has no network any more."""
    started.context.set_offline(True)
    page = opened(started.context, address)
    yield page
    page.close()
    started.context.set_offline(False)


@pytest.fixture
def offline(away: Page) -> Page:
    cleared(away)
    return away


@pytest.mark.parametrize(
    ("name", "size"),
    [("fruit-truck", UPRIGHT), pytest.param("straight-pull", LEVEL, marks=pytest.mark.slow)],
)
def test_a_plan_by_hand_with_no_network(offline: Page, tmp_path: Path, name: str, size: dict[str, int]) -> None:
    page = offline
    page.set_viewport_size(size)  # type: ignore[arg-type]
    Hands(page).plan(data_of(name))
    checked(page)
    assert page.evaluate("riglint.session.data") == data_of(name)
    by_hand = found(page)

    go(page, "Plans")
    exported = saved(page, f"Export {page.evaluate('riglint.session.record.name')}")
    assert read_document(exported, "x").data == data_of(name)
    file = tmp_path / f"{name}.yaml"
    file.write_bytes(exported)
    imported(page, file)
    until(page, f"riglint.session.record.name === '{name}.yaml'")
    checked(page)
    assert found(page) == by_hand
    sign(page, clear=page.evaluate("riglint.session.answer.verdict") == "clear")
    assert page.complaints == []  # type: ignore[attr-defined]


def sign(page: Page, *, clear: bool) -> None:
    go(page, "Checks")
    page.get_by_label("Name", exact=True).fill("A. Foreman")
    button = page.get_by_role("button", name="Clear to pull")
    assert button.get_attribute("aria-disabled") == "true"
    for box in page.locator(".tick input").all():
        box.check()
    if not clear:
        button.dispatch_event("click")  # told to be disabled, yet a thumb can press it
        assert page.evaluate("riglint.session.record.signed") == []
        page.get_by_label("Stopped, because").fill("the verdict halts it")
    record = json.loads(saved(page, "Clear to pull" if clear else "Stopped"))
    assert [one["decision"] for one in record["signed"]] == ["clear" if clear else "stopped"]
    text = page.evaluate("riglint.session.record.text")
    assert record["plan"]["sha256"] == sha256(text.encode()).hexdigest()
    assert record["program"]["version"]
    assert record["rulebooks"]
    assert all(item["ticked"] for item in record["items"])
    page.reload()
    ready(page)
    assert len(page.evaluate("riglint.session.record.signed")) == 1
    go(page, "Text")
    page.get_by_label("The plan as YAML").press("End")
    page.get_by_label("The plan as YAML").type("\n# changed\n")
    page.get_by_text("the ticks are void").wait_for()
    go(page, "Checks")
    page.get_by_text("void for the plan as it stands").wait_for()
    assert page.locator(".tick input:checked").count() == 0
