"""The pages of a review and of a class in real Chromium: they fit the screen, and anybody can read them."""

from pathlib import Path

import pytest

from riglint.commands.debrief import DebriefCall, run
from riglint.commands.exits import Exit
from tests.accessible import faults
from tests.review.rigs import EXAMPLES, report
from tests.tablet.browser import LEVEL, UPRIGHT

pytestmark = pytest.mark.browser
CLASS = EXAMPLES / "class"
STUDENT = CLASS / "plans" / "student-2.yaml"


@pytest.fixture(scope="module")
def pages(tmp_path_factory):
    folder = tmp_path_factory.mktemp("pages")
    (folder / "review.html").write_text(report([EXAMPLES], "html"), "utf-8")
    for name, path, level in (("class", CLASS / "plans", 2), ("one", STUDENT, 3)):
        call = DebriefCall((path,), level, brief=CLASS / "task.yaml", form="html", out=folder / f"{name}.html")
        assert run(call) is Exit.CLEAR
    return folder


@pytest.fixture
def opened(chromium, pages):
    contexts, complaints = [], []

    def open_(name, size):
        contexts.append(chromium.new_context(viewport=size, bypass_csp=True))
        page = contexts[-1].new_page()
        page.on("pageerror", lambda error: complaints.append(str(error)))
        page.on("console", lambda said: complaints.append(said.text))
        page.goto(Path(pages / f"{name}.html").as_uri())
        return page

    yield open_
    for context in contexts:
        context.close()
    assert complaints == []


@pytest.mark.parametrize("size", [UPRIGHT, LEVEL], ids=["upright", "level"])
@pytest.mark.parametrize("name", ["review", "class", "one"])
def test_a_page_fits_the_screen_and_axe_finds_nothing(opened, name, size):
    page = opened(name, size)
    assert page.evaluate("document.documentElement.scrollWidth") <= size["width"]
    page.evaluate("document.querySelectorAll('details').forEach(d => { d.open = true })")
    page.evaluate("document.querySelectorAll('button.open').forEach(b => b.click())")
    assert page.evaluate("document.documentElement.scrollWidth") <= size["width"]
    assert faults(page) == []


def test_the_rigs_are_sorted_by_what_is_clicked(opened):
    page = opened("review", LEVEL)
    used = "[...document.querySelectorAll('#rigs > tbody')].map(b => +b.rows[0].cells[9].dataset.key)"
    for order in (sorted, lambda values: sorted(values, reverse=True)):
        page.locator("#rigs thead button").nth(9).click()
        values = page.evaluate(used)
        assert values == order(values)


def test_every_students_debrief_is_printed(opened, tmp_path):
    """Closed on the screen, open on paper, where nobody can click."""
    page = opened("class", LEVEL)
    assert not page.get_by_text("What to ask yourself").first.is_visible()
    page.emulate_media(media="print")
    assert page.get_by_text("What to ask yourself").first.is_visible()
