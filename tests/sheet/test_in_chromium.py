"""The sheet in real Chromium from file://: what is ticked and signed stays, what halts isn't signed, nothing runs."""

import json
import subprocess
from collections.abc import Iterator
from datetime import date
from pathlib import Path
from shutil import which
from typing import Any

import pytest
from playwright.sync_api import Browser, BrowserContext, Page, Playwright, expect

from tests.accessible import OUTDOORS, faults
from tests.sheet.sheets import STRINGS, example, made, with_words
from tests.tablet.browser import LEVEL, SIZES_AND_LOOKS, UPRIGHT, lone, written_down

pytestmark = pytest.mark.browser
SIZES = pytest.mark.parametrize("size", [UPRIGHT, LEVEL], ids=["upright", "level"])
LEAST_PX = 48
FULLEST = ("fruit-truck", "re-rig", "up-the-bank", "small-winch-tow-eye", "ten-lines", "compound-rig")


class Crew:
    """One tablet: pages opened from files, with all that they complain of or ask for."""

    def __init__(self, context: BrowserContext, folder: Path) -> None:
        self.context, self.folder = context, folder
        self.complaints: list[str] = []
        self.asked: list[str] = []

    def open(self, page: str, name: str = "sheet.html") -> Page:
        file = self.folder / name
        file.write_text(page, encoding="utf-8")
        opened = self.context.new_page()
        opened.on("pageerror", lambda error: self.complaints.append(str(error)))
        opened.on("console", lambda said: self.complaints.append(said.text))
        opened.on("dialog", lambda dialog: self.complaints.append(dialog.message))
        opened.on("request", lambda request: self.asked.append(request.url))
        opened.goto(file.as_uri())
        return opened


@pytest.fixture
def crew(chromium: Browser, tmp_path: Path) -> Iterator[Crew]:
    context = chromium.new_context(viewport={"width": 768, "height": 1024})
    crew = Crew(context, tmp_path)
    yield crew
    context.close()
    assert crew.complaints == []
    assert [url for url in crew.asked if not url.startswith(("file:", "blob:"))] == []


def tick_all(page: Page) -> None:
    page.evaluate("document.querySelectorAll('label.tick').forEach(row => row.click())")


def tick_all_left(page: Page) -> None:
    for box in page.locator("input[data-id]:not(:checked)").all()[::-1]:  # those that are left change with each tick
        box.check()


def sign(page: Page, decision: str, name: str, because: str = "") -> None:
    page.get_by_label(decision).check()
    if because:
        page.get_by_label("Why it was stopped").fill(because)
    page.get_by_label("Name", exact=True).fill(name)
    page.get_by_role("button", name="Sign, with the time now").click()


def standing(page: Page) -> str:
    return page.locator("#standing").inner_text()


def saved(page: Page) -> dict[str, Any]:
    with page.expect_download() as coming:
        page.get_by_role("button", name="Save the record as a file").click()
    found: dict[str, Any] = json.loads(Path(coming.value.path()).read_text("utf-8"))
    return found


def test_ticks_and_signature_outlive_the_page(crew: Crew) -> None:
    text = made(example("two-parts"))
    page = crew.open(text)
    rows = page.get_by_role("checkbox").count()
    tick_all(page)
    sign(page, "Clear to pull", "A. Foreman")
    assert standing(page).startswith("CLEAR TO PULL, signed A. Foreman")
    page.close()
    page = crew.open(text)
    expect(page.locator("#ticked")).to_have_text(f"{rows} of {rows} ticked")  # a busy browser hands it out late
    assert page.get_by_role("checkbox", checked=True).count() == rows
    expect(page.locator("#standing")).to_contain_text("CLEAR TO PULL, signed A. Foreman")


def test_two_windows_tick_and_untick_together(crew: Crew) -> None:
    text = made(example("two-parts"))
    second, first = crew.open(text), crew.open(text)
    first.locator("label.tick").nth(0).click()
    expect(second.get_by_role("checkbox", checked=True)).to_have_count(1)
    second.bring_to_front()  # as whoever works there does; a window behind is drawn but once a second
    second.locator("label.tick").nth(1).click()
    expect(first.get_by_role("checkbox", checked=True)).to_have_count(2)
    first.bring_to_front()
    tick_all_left(first)
    sign(first, "Clear to pull", "A. Foreman")
    expect(second.locator("#standing")).to_contain_text("CLEAR TO PULL")
    second.locator("label.tick").nth(2).click()
    expect(first.locator("#standing")).to_contain_text("NOT CLEAR ANY MORE")


def test_pages_shut_right_after_each_tick_lose_none(crew: Crew) -> None:
    text = made(example("two-parts"))
    rows = 12
    for k in range(rows):
        page = crew.open(text)
        page.locator("label.tick").nth(k).click()  # whether or not the others were handed out by now
        page.close()
    page = crew.open(text)
    expect(page.get_by_role("checkbox", checked=True)).to_have_count(rows)


_NO_DATABASE = "Object.defineProperty(globalThis, 'indexedDB', { value: undefined });"
_LATE = """
    const [get, set, key] = ["getItem", "setItem", "key"].map(name => Storage.prototype[name]);
    const own = new Set();
    globalThis.late = true;
    Storage.prototype.getItem = function (place) { return globalThis.late && !own.has(place) ? null : get.call(this, place); };
    Storage.prototype.setItem = function (place, text) { own.add(place); set.call(this, place, text); };
    Storage.prototype.key = function (i) { const place = key.call(this, i); return globalThis.late && !own.has(place) ? "" : place; };
"""  # noqa: E501


@pytest.mark.parametrize("signed_late", [False, True], ids=["ticked meanwhile", "signed meanwhile"])
def test_storage_that_answers_late_is_never_written_over(crew: Crew, signed_late: bool) -> None:
    text = made(example("two-parts"))
    page = crew.open(text)
    page.locator("label.tick").nth(0).click()
    sign(page, "Stopped, because", "A. Foreman", "block sits crooked")
    page.close()
    crew.context.add_init_script(_NO_DATABASE)
    crew.context.add_init_script(_LATE)
    page = crew.open(text)
    assert standing(page) == "NOT SIGNED"  # nothing was handed out yet
    page.locator("label.tick").nth(1).click()
    if signed_late:
        sign(page, "Stopped, because", "B. Spotter", "people in the way")
    page.evaluate("globalThis.late = false")
    page.evaluate("dispatchEvent(new Event('focus'))")
    expect(page.get_by_role("checkbox", checked=True)).to_have_count(2)
    signatures = ["A. Foreman", "B. Spotter"] if signed_late else ["A. Foreman"]
    assert sorted(one["name"] for one in saved(page)["signed"]) == signatures


def test_clear_asks_for_every_tick_and_a_name(crew: Crew) -> None:
    page = crew.open(made(example("two-parts")))
    sign(page, "Clear to pull", "A. Foreman")
    assert "not ticked yet" in page.locator("#said").inner_text()
    assert page.evaluate("document.activeElement.dataset.id") == page.locator("input[data-id]").first.get_attribute(
        "data-id"
    )
    assert standing(page) == "NOT SIGNED"
    tick_all(page)
    sign(page, "Clear to pull", "   ")
    assert page.locator("#said").inner_text() == "Write your name."
    sign(page, "Stopped, because", "A. Foreman")
    assert page.locator("#said").inner_text() == "Say why it was stopped."
    sign(page, "Stopped, because", "A. Foreman", "block sits crooked")
    assert standing(page) == "STOPPED, because block sits crooked"


def test_a_tick_taken_off_undoes_clear(crew: Crew) -> None:
    page = crew.open(made(example("two-parts")))
    tick_all(page)
    sign(page, "Clear to pull", "A. Foreman")
    page.locator("label.tick").first.click()
    assert standing(page).startswith("NOT CLEAR ANY MORE")


@pytest.mark.parametrize("name", ["fruit-truck", "ten-lines"])
def test_a_plan_that_halts_is_only_ever_stopped(crew: Crew, name: str) -> None:
    page = crew.open(made(example(name)))
    tick_all(page)
    assert page.get_by_label("Clear to pull").is_disabled()
    assert "can't be signed off as clear" in page.locator("#refusal").inner_text()
    page.evaluate("document.querySelector('input[value=clear]').disabled = false")
    sign(page, "Clear to pull", "A. Foreman")
    assert standing(page) == "NOT SIGNED"
    sign(page, "Stopped, because", "A. Foreman", "as the sheet says")
    assert standing(page) == "STOPPED, because as the sheet says"
    record = saved(page)
    assert (record["may_be_clear"], record["signed"][0]["decision"]) == (False, "stopped")


def test_a_changed_plan_voids_the_ticks_and_says_so(crew: Crew) -> None:
    text = example("two-parts")
    page = crew.open(made(text))
    tick_all(page)
    sign(page, "Clear to pull", "A. Foreman")
    page = crew.open(made(text + "# one more shackle\n"), "changed.html")
    assert page.get_by_role("checkbox", checked=True).count() == 0
    assert standing(page) == "NOT SIGNED"
    expect(page.locator("#memory")).to_contain_text("has changed since it was ticked")
    page.locator("label.tick").first.click()
    page = crew.open(made(text))
    expect(page.locator("#memory")).to_contain_text("Another version of this plan was ticked")


def test_each_stage_is_signed_for_itself(crew: Crew) -> None:
    page = crew.open(made(example("re-rig")))
    for box in page.locator("input[data-stage='0']").all():
        box.check()
    sign(page, "Clear to pull", "A. Foreman")
    page.locator("select[name=stage]").select_option("1")
    sign(page, "Clear to pull", "A. Foreman")
    first, second = standing(page).split("\n")[0], standing(page).split("\n")[-1]
    assert first.startswith("Stage 1, out of the mud: CLEAR TO PULL")
    assert second == "Stage 2, along the track: NOT SIGNED"


def test_the_record_is_a_file_that_names_what_was_signed(crew: Crew) -> None:
    page = crew.open(made(example("two-parts")))
    tick_all(page)
    sign(page, "Clear to pull", "Zoë <b>O'Neil</b>")
    record = saved(page)
    sheet = json.loads(page.locator("#sheet").text_content() or "")
    assert record["plan"] == sheet["plan"]
    assert record["program"] == sheet["program"]
    assert record["rulebooks"] == sheet["rulebooks"]
    assert record["signed"][0]["name"] == "Zoë <b>O'Neil</b>"
    assert record["signed"][0]["ticked"] == [item["id"] for item in sheet["items"]]
    assert all(item["ticked"] for item in record["items"])
    assert page.locator("#signed b").count() == 0


def test_beginning_again_asks_first(crew: Crew) -> None:
    page = crew.open(made(example("two-parts")))
    tick_all(page)
    page.get_by_role("button", name="Begin again").click()
    page.get_by_role("button", name="Keep them").click()
    assert page.get_by_role("checkbox", checked=True).count() > 0
    page.get_by_role("button", name="Begin again").click()
    page.get_by_role("button", name="Throw them away").click()
    expect(page.get_by_role("checkbox", checked=True)).to_have_count(0)


MADE_FOR = date(2026, 3, 14)
REASON = "Why it is signed on another day than 2026-03-14"


def at_time(page: Page, time: str) -> None:
    page.clock.set_fixed_time(time)
    page.evaluate("dispatchEvent(new Event('focus'))")


@pytest.mark.parametrize(
    ("now", "why"), [("2026-03-16T08:00:00", "fallen due"), ("2026-03-13T18:00:00", "may not hold yet")]
)
def test_on_another_day_it_says_so_and_is_signed_with_a_reason(crew: Crew, now: str, why: str) -> None:
    crew.context.clock.set_fixed_time(now)
    page = crew.open(made(example("two-parts"), day=MADE_FOR))
    told = page.locator("#other-day")
    expect(told).to_contain_text(f"Worked out for a pull on 2026-03-14. By this device's clock today is {now[:10]}.")
    expect(told).to_contain_text(why)
    assert page.evaluate("document.querySelector('main').firstElementChild.id") == "other-day"
    tick_all(page)
    sign(page, "Clear to pull", "A. Foreman")
    assert standing(page) == "NOT SIGNED"
    assert page.locator("#said").inner_text() == f"Say why it is signed on {now[:10]}: the sheet is for 2026-03-14."
    page.get_by_label(REASON).fill("  ")
    sign(page, "Clear to pull", "A. Foreman")
    assert standing(page) == "NOT SIGNED"
    page.get_by_label(REASON).fill("night shift, gear looked at")
    sign(page, "Clear to pull", "A. Foreman")
    assert standing(page).startswith("CLEAR TO PULL, signed A. Foreman")
    assert standing(page).endswith("on a sheet for 2026-03-14, because night shift, gear looked at.")
    [one] = saved(page)["signed"]
    assert (one["day"], one["at"][:10], one["other_day_because"]) == (
        "2026-03-14",
        now[:10],
        "night shift, gear looked at",
    )
    page.emulate_media(media="print")
    assert told.is_visible()


def test_on_its_own_day_nothing_is_asked_and_over_midnight_the_pull_goes_on(crew: Crew) -> None:
    crew.context.clock.set_fixed_time("2026-03-14T23:50:00")
    page = crew.open(made(example("two-parts"), day=MADE_FOR))
    assert page.locator("#other-day").is_hidden()
    assert page.get_by_label(REASON).is_hidden()
    tick_all(page)
    sign(page, "Clear to pull", "A. Foreman")
    assert standing(page).startswith("CLEAR TO PULL, signed A. Foreman")
    at_time(page, "2026-03-15T00:10:00")
    expect(page.locator("#standing")).to_contain_text("SIGNED ON ANOTHER DAY as clear to pull: A. Foreman")
    expect(page.locator("#standing")).to_contain_text("A pull that has begun may be ended. Sign anew before the next.")
    expect(page.locator("#other-day")).to_be_visible()
    rows = page.get_by_role("checkbox").count()
    assert page.get_by_role("checkbox", checked=True).count() == rows  # midnight alone takes no tick away
    sign(page, "Stopped, because", "A. Foreman", "fog")  # to stop needs no other reason
    assert standing(page) == "STOPPED, because fog"
    assert [(one["day"], one["at"][:10]) for one in saved(page)["signed"]] == [
        ("2026-03-14", "2026-03-14"),
        ("2026-03-14", "2026-03-15"),
    ]


_FULL = "Storage.prototype.setItem = () => { throw new DOMException('full', 'QuotaExceededError') };"
_FULL_TOO = "IDBObjectStore.prototype.put = () => { throw new DOMException('full', 'QuotaExceededError') };"


@pytest.mark.parametrize("database", [_NO_DATABASE, _FULL_TOO], ids=["no database", "database full"])
@pytest.mark.parametrize(("storage", "told"), [(_FULL, "does not keep ticks"), ("", "some seconds late")])
def test_a_browser_that_keeps_less_is_told_of(crew: Crew, database: str, storage: str, told: str) -> None:
    crew.context.add_init_script(storage + database)
    page = crew.open(made(example("two-parts")))
    page.locator("label.tick").first.click()
    expect(page.locator("#memory")).to_contain_text(told)
    assert page.locator("#ticked").inner_text().startswith("1 of")


def test_the_database_will_do_where_the_storage_is_full(crew: Crew) -> None:
    crew.context.add_init_script(_FULL)
    text = made(example("two-parts"))
    page = crew.open(text)
    page.locator("label.tick").first.click()
    page.wait_for_timeout(200)
    page.close()
    page = crew.open(text)
    expect(page.get_by_role("checkbox", checked=True)).to_have_count(1)
    expect(page.locator("#memory")).to_be_hidden()


def test_a_browser_killed_right_after_a_tick(driver: Playwright, tmp_path: Path) -> None:
    """By the kernel, with all its processes, so that nothing gets to put its things in order."""
    file = tmp_path / "sheet.html"
    file.write_text(made(example("two-parts")), "utf-8")
    with lone(driver, tmp_path / "profile") as page:
        page.goto(file.as_uri())
        with written_down(page):
            tick_all(page)
            page.locator("label.tick").nth(1).click()  # ticked off again
    with lone(driver, tmp_path / "profile") as page:
        page.goto(file.as_uri())
        rows = page.get_by_role("checkbox").count()
        expect(page.get_by_role("checkbox", checked=True)).to_have_count(rows - 1)
        assert not page.get_by_role("checkbox").nth(1).is_checked()
        with written_down(page):
            page.locator("label.tick").nth(1).click()
            sign(page, "Clear to pull", "A. Foreman")
    with lone(driver, tmp_path / "profile") as page:
        page.goto(file.as_uri())
        expect(page.locator("#standing")).to_contain_text("CLEAR TO PULL, signed A. Foreman")


@pytest.mark.parametrize(
    "some", [STRINGS[::2], pytest.param(STRINGS[1::2], marks=pytest.mark.slow)], ids=["every other", "the rest"]
)
def test_words_of_a_plan_run_nothing_and_fetch_nothing(chromium: Browser, tmp_path: Path, some: tuple[str]) -> None:
    context = chromium.new_context(bypass_csp=True)  # inert by itself, not for the policy's sake alone
    crew = Crew(context, tmp_path)
    for k, words in enumerate(some):
        page = crew.open(made(with_words(words), f"{words}.yaml"), f"{k}.html")
        tick_all(page)
        sign(page, "Stopped, because", words[:100], words)
        assert "STOPPED" in standing(page), page.locator("#said").inner_text()
        page.reload()
        expect(page.locator("#standing")).to_contain_text("STOPPED")
        page.emulate_media(media="print")
        assert page.evaluate("globalThis.hit") is None, words
        page.close()
    context.close()
    assert crew.complaints == []
    assert [url for url in crew.asked if not url.startswith("file:")] == []


def test_the_policy_stops_what_is_not_the_page_s_own(crew: Crew) -> None:
    page = crew.open(made(example("two-parts")).replace("</main>", "</main><script>globalThis.hit = 1</script>"))
    assert page.evaluate("globalThis.hit") is None
    assert len(crew.complaints) == 1
    crew.complaints.clear()


@SIZES
@pytest.mark.parametrize("name", ["fruit-truck", "re-rig", "ten-lines"])
def test_targets_serve_gloves_and_nothing_runs_off_the_side(crew: Crew, size: dict[str, int], name: str) -> None:
    page = crew.open(made(example(name), day=MADE_FOR))  # long ago: with all that is said on another day
    page.set_viewport_size({"width": size["width"], "height": size["height"]})
    page.evaluate("document.querySelectorAll('details').forEach(d => { d.open = true })")
    small = page.evaluate(
        """least => [...document.querySelectorAll('a, button, input, select, textarea, summary, label')]
            .filter(e => e.checkVisibility() && e.getBoundingClientRect().height < least)
            .map(e => e.outerHTML.slice(0, 120))""",
        LEAST_PX,
    )
    assert small == []
    assert page.evaluate("document.documentElement.scrollWidth") <= size["width"]


@pytest.mark.parametrize(("size", "dark"), SIZES_AND_LOOKS)
@pytest.mark.parametrize("name", ["fruit-truck", "re-rig", "straight-pull"])
def test_axe_finds_nothing(chromium: Browser, tmp_path: Path, size: Any, dark: bool, name: str) -> None:
    context = chromium.new_context(viewport=size, color_scheme="dark" if dark else "light", bypass_csp=True)
    page = Crew(context, tmp_path).open(made(example(name), day=MADE_FOR))
    page.locator("label.tick").first.click()
    page.get_by_label("Stopped, because").check()
    page.evaluate("document.querySelectorAll('details').forEach(d => { d.open = true })")
    found = faults(page, OUTDOORS)
    context.close()
    assert found == []


@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_verdict_picture_and_checklist_print_on_the_first_two_pages(crew: Crew, tmp_path: Path, paper: str) -> None:
    assert which("pdftotext"), "this test reads the printed pages: install poppler-utils, as .ci/browser does"
    for name in FULLEST:
        page = crew.open(made(example(name)))
        printed = tmp_path / "sheet.pdf"
        page.pdf(path=printed, format=paper, prefer_css_page_size=True)
        page.close()
        told = subprocess.run(["pdftotext", "-layout", printed, "-"], capture_output=True, text=True, check=True).stdout
        first, second, *_ = told.split("\f")
        assert ": do not pull" in first or ": nothing found" in first, name
        assert "from above" in first, name
        assert "Checklist" in second, name
        assert "No anchor and no anchor vehicle" in second, name


def test_print_is_light_and_says_what_was_signed(crew: Crew) -> None:
    page = crew.open(made(example("two-parts")))
    page.emulate_media(color_scheme="dark")
    tick_all(page)
    sign(page, "Clear to pull", "A. Foreman")
    page.emulate_media(media="print", color_scheme="dark")
    assert page.evaluate("getComputedStyle(document.body).backgroundColor") == "rgb(255, 255, 255)"
    assert page.locator("#signed li").is_visible()
    assert page.locator(".paper").is_visible()
    assert not page.locator("#sign").is_visible()


def test_it_can_be_worked_by_keyboard_alone(crew: Crew) -> None:
    page = crew.open(made(example("two-parts")))
    page.locator("input[data-id]").first.focus()
    for _ in range(page.locator("input[data-id]").count()):
        page.keyboard.press("Space")
        page.keyboard.press("Tab")
    while page.evaluate("document.activeElement.value") != "clear":
        page.keyboard.press("Tab")
    page.keyboard.press("Space")
    page.keyboard.press("Tab")
    page.keyboard.type("A. Foreman")
    page.keyboard.press("Enter")
    assert standing(page).startswith("CLEAR TO PULL, signed A. Foreman")
