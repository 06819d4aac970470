"""Checks are signed for the day for which they were worked out: on another one they are worked out anew first."""

import json
from collections.abc import Iterator

import pytest
from playwright.sync_api import Browser, Page, expect

from tests.tablet.browser import LEVEL, checked, cleared, go, opened, saved, until, with_example

pytestmark = pytest.mark.browser
FIRST, SECOND = "2026-03-14", "2026-03-15"
_STUCK = """() => {
    globalThis.work = riglint.engine.work;
    globalThis.held = [];
    riglint.engine.work = (...asked) => new Promise((resolve) => held.push([asked, resolve]));
}"""
_FREED = """() => {
    riglint.engine.work = globalThis.work;
    for (const [asked, resolve] of held) riglint.engine.work(...asked).then(resolve);
}"""


@pytest.fixture(scope="module")
def night(chromium: Browser, address: str) -> Iterator[Page]:
    """A page with a clock that can be set."""
    context = chromium.new_context(viewport=LEVEL)
    context.clock.install(time=f"{FIRST}T12:00:00")
    page = opened(context, address)
    yield page
    assert page.complaints == []  # type: ignore[attr-defined]
    context.close()


@pytest.fixture
def ticked(night: Page) -> Page:
    """A plan that may be signed as clear, every check ticked, late on the first day."""
    night.clock.set_system_time(f"{FIRST}T23:50:00")
    cleared(night)
    with_example(night, "two-parts")
    go(night, "Checks")
    for box in night.locator(".tick input").all():
        box.check()
    night.get_by_label("Name", exact=True).fill("A. Foreman")
    return night


def test_over_midnight_it_is_worked_out_anew_and_both_signatures_tell_their_day(ticked: Page) -> None:
    record = json.loads(saved(ticked, "Clear to pull"))
    assert [(one["day"], one["at"][:10]) for one in record["signed"]] == [(FIRST, FIRST)]
    ticked.evaluate(_STUCK)
    ticked.clock.set_system_time(f"{SECOND}T00:10:00")
    ticked.get_by_role("button", name="Clear to pull").dispatch_event("click")  # no timer has told it yet
    expect(ticked.locator(".state")).to_contain_text(f"Worked out for {FIRST}, not for today")
    expect(ticked.locator(".barred")).to_contain_text(
        f"worked out for {FIRST}, and by this device's clock today is {SECOND}"
    )
    expect(ticked.locator(".signed")).to_contain_text("Signed on another day: a pull that has begun may be ended")
    ticked.get_by_role("button", name="Clear to pull").dispatch_event("click")
    assert len(ticked.evaluate("riglint.session.record.signed")) == 1
    ticked.evaluate(_FREED)
    checked(ticked)
    expect(ticked.locator(".state")).to_contain_text("Checked as it stands")
    assert ticked.locator(".tick input:not(:checked)").count() == 0  # midnight alone takes no tick away
    record = json.loads(saved(ticked, "Clear to pull"))
    assert [(one["day"], one["at"][:10]) for one in record["signed"]] == [(FIRST, FIRST), (SECOND, SECOND)]
    assert record["day"] == SECOND


def test_to_stop_waits_for_no_engine_and_tells_both_days(ticked: Page) -> None:
    ticked.evaluate(_STUCK)
    ticked.clock.set_system_time(f"{SECOND}T00:10:00")
    ticked.get_by_label("Stopped, because").fill("fog")
    record = json.loads(saved(ticked, "Stopped"))
    assert [(one["day"], one["at"][:10]) for one in record["signed"]] == [(FIRST, SECOND)]
    expect(ticked.locator(".signed")).to_contain_text(f"Signed A. Foreman, {SECOND} 00:10, on checks for {FIRST}.")
    ticked.evaluate(_FREED)


def test_it_finds_the_new_day_by_itself(ticked: Page) -> None:
    assert ticked.evaluate("riglint.session.sheet.day") == FIRST
    ticked.clock.fast_forward("15:00")
    until(ticked, f"riglint.session.sheet.day === '{SECOND}'")
    checked(ticked)
