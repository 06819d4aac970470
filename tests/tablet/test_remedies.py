"""What puts a finding right, tried on asking in a worker of its own, and put into the plan's own text by a tap."""

import re

import pytest
from playwright.sync_api import Page

from tests.tablet.browser import checked, go, until
from tests.tablet.conftest import EXAMPLES

pytestmark = pytest.mark.browser
ASK = "Try what puts it right"


@pytest.fixture
def page(desk: Page) -> Page:
    text = (EXAMPLES / "fruit-truck.yaml").read_text("utf-8")
    desk.evaluate("text => riglint.take({name: 'fruit-truck.yaml', text, data: null})", text)
    checked(desk)
    go(desk, "Findings")
    return desk


def test_what_was_tried_stands_with_its_finding_and_goes_in_with_comments_kept(page: Page) -> None:
    page.get_by_role("button", name=f"{ASK}: join_1").click()
    page.get_by_text(re.compile(r"Trying changes on a copy of the plan: \d+ so far")).first.wait_for()
    put_in = page.get_by_role("button", name="Put it in the plan: have spotter watch join_1")
    put_in.wait_for(timeout=180_000)
    assert page.evaluate("document.activeElement.closest('li').textContent").count("join_1")  # the focus stays there
    watched = page.locator("article.finding").filter(has_text="join-watched")
    assert "Then not clear" in watched.inner_text()
    tree = page.locator("article.finding").filter(has_text="tree-anchor")
    assert "tried" not in tree.inner_text()  # nobody asked for that
    tree.get_by_role("button", name=ASK).click()
    tree.get_by_text("Nothing that was tried").wait_for(timeout=180_000)
    assert put_in.is_visible()  # what was found for the other finding stays
    before = page.evaluate("riglint.session.record.text")
    put_in.click()
    checked(page)
    after = page.evaluate("riglint.session.record.text")
    changed = [(a, b) for a, b in zip(before.split("\n"), after.split("\n"), strict=True) if a != b]
    assert [a for a, _ in changed] == ["  - {who: spotter, at: [8 m, 14 m]}"]
    assert page.locator("article.finding").filter(has_text="join-watched").count() == 0
    page.get_by_role("button", name="Take it back").click()
    checked(page)
    assert page.evaluate("riglint.session.record.text") == before


def test_typing_goes_on_while_it_tries_and_breaks_it_off(page: Page) -> None:
    page.get_by_role("button", name=f"{ASK}: join_1").click()
    until(page, "riglint.session.tries?.now?.tried > 0")
    page.get_by_role("button", name=f"{ASK}: point ash").click(force=True)  # it says that it is off
    page.get_by_text("Another finding is being tried. Ask again when that is done.").wait_for()
    page.evaluate("riglint.session.edit({op: 'set', at: '/title', value: 'Changed meanwhile'})")
    assert page.evaluate("riglint.session.tries") is None
    checked(page)  # by the engine that is there: no other is waited for
    assert "Changed meanwhile" in page.evaluate("riglint.session.record.text")
    page.get_by_role("button", name=f"{ASK}: join_1").wait_for()
