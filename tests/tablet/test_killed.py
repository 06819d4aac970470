"""A browser that is killed right after an act has lost nothing of it."""

from pathlib import Path

import pytest
from playwright.sync_api import Page, Playwright

from tests.tablet.browser import checked, go, lone, ready, until, with_example, written_down

pytestmark = pytest.mark.browser


@pytest.mark.parametrize("form", ["folder", pytest.param("file", marks=pytest.mark.slow)])
def test_a_browser_killed_right_after_an_act(
    driver: Playwright, address: str, tablet_file: Path, tmp_path: Path, form: str
) -> None:
    """An edit typed in the form, a tick, a signature."""
    url = address if form == "folder" else tablet_file.as_uri()
    with lone(driver, tmp_path) as page:
        page.goto(url)
        ready(page)
        with_example(page)
        go(page, "Rig")
        page.evaluate("riglint.form.show('/winch/rated_pull')")
        with written_down(page):
            page.locator('[data-at="/winch/rated_pull"]').fill("54.321")
    with lone(driver, tmp_path) as page:
        page.goto(url)
        ready(page)
        checked(page)
        assert page.evaluate("riglint.session.data.winch.rated_pull") == "54.321 kN"
        assert "rated_pull: 54.321 kN" in page.evaluate("riglint.session.record.text")
        go(page, "Checks")
        with written_down(page):
            page.locator(".tick input").first.check()
    with lone(driver, tmp_path) as page:
        reopened(page, url)
        assert page.locator(".tick input:checked").count() == 1
        page.get_by_label("Name", exact=True).fill("A. Foreman")
        page.get_by_label("Stopped, because").fill("block sits crooked")
        with written_down(page):
            page.get_by_role("button", name="Stopped", exact=True).click()
    with lone(driver, tmp_path) as page:
        reopened(page, url)
        page.get_by_text("STOPPED, because block sits crooked").wait_for()


def reopened(page: Page, url: str) -> None:
    """The checklist as it was left, before the engine is there."""
    page.goto(url)
    until(page, "Boolean(globalThis.riglint?.session)")
    go(page, "Checks")
