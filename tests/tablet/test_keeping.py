"""Nothing that was typed is lost: a full device, two windows, a bad file, a new form of the page."""

import json
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page

from riglint.tablet.command import Wanted, run
from tests.tablet.browser import (
    PATIENCE_MS,
    checked,
    cleared,
    go,
    imported,
    kept_offline,
    opened,
    ready,
    serving,
    until,
    until_written,
    with_example,
)
from tests.tablet.conftest import EXAMPLES

pytestmark = pytest.mark.browser


def test_an_edit_before_the_engine_is_there_is_kept(desk: Page) -> None:
    page = desk
    with_example(page)
    until_written(page, r"\"verdict\":\"not clear\"")
    page.reload()
    page.locator(".tab").first.wait_for()
    until(page, "Boolean(riglint.session)")
    assert page.evaluate("riglint.session.answer.verdict") == "not clear"  # the last result shows at once
    page.evaluate("riglint.session.edit({op: 'set', at: '/title', value: 'Renamed at once'})")
    page.reload()
    ready(page)
    checked(page)
    assert page.evaluate("riglint.session.record.text").count("title: Renamed at once") == 1
    assert "# A fruit truck is wheel-deep" in page.evaluate("riglint.session.record.text")


@contextmanager
def full_device(page: Page) -> Iterator[None]:
    page.evaluate(
        """() => {
            globalThis.put = IDBObjectStore.prototype.put;
            IDBObjectStore.prototype.put = () => { throw new DOMException("no room", "QuotaExceededError"); };
        }"""
    )
    try:
        yield
    finally:
        page.evaluate("() => { IDBObjectStore.prototype.put = globalThis.put; }")


def test_full_storage_is_said_and_the_plan_can_be_exported(desk: Page) -> None:
    page = desk
    with_example(page)
    with full_device(page):
        page.evaluate("riglint.session.edit({op: 'set', at: '/title', value: 'Typed on a full device'})")
        page.get_by_text("the device's storage is full").wait_for()
        checked(page)
        with page.expect_download() as coming:
            page.get_by_role("button", name="Export the plan").click()
        assert "Typed on a full device" in Path(coming.value.path()).read_text("utf-8")


def test_two_windows_on_one_plan_lose_nothing(desk: Page, address: str) -> None:
    with_example(desk)
    second = opened(desk.context, address)
    checked(second)
    for page, title in ((desk, "by the first"), (second, "by the second")):
        page.evaluate(f"riglint.session.edit({{op: 'set', at: '/title', value: 'Changed {title}'}})")
        checked(page)
        until(page, "riglint.keeper.writing === null")
    second.goto("about:blank")  # its own answer is no more: what is left is what was kept
    second.goto(address)
    for title in ("by the first", "by the second"):
        until(second, f"globalThis.riglint?.plans.some(p => p.data?.title === 'Changed {title}')")
    second.close()


# Writes that never end, as on a device that is about to give up; what they held is undone when the page is shut.
_STUCK_WRITES = """() => {
    const { transaction } = IDBDatabase.prototype;
    IDBDatabase.prototype.transaction = function (store, mode, ...rest) {
        const one = transaction.call(this, store, mode, ...rest);
        const on = () => { one.objectStore(store).count().onsuccess = on; };
        if (mode === "readwrite") on();
        return one;
    };
}"""
_UNKEPT = "Object.keys(localStorage).filter(key => key.startsWith('riglint-unkept'))"


def test_a_write_torn_off_by_a_reload_comes_back_in_its_own_plan(desk: Page) -> None:
    page = desk
    with_example(page)
    until_written(page, r"\"verdict\":\"not clear\"")
    for n in range(2):
        page.evaluate(_STUCK_WRITES)
        go(page, "Checks")
        page.get_by_label("Name", exact=True).fill("A. Foreman")
        page.get_by_label("Stopped, because").fill(f"rain {n}")
        with page.expect_download():
            page.get_by_role("button", name="Stopped", exact=True).click()
        page.reload()
        until(page, "Boolean(globalThis.riglint?.session)")
        signed = page.evaluate("riglint.session.record.signed.map(s => s.one.because)")
        assert signed == [f"rain {k}" for k in range(n + 1)]
        assert page.evaluate("riglint.plans.length") == 1
        assert page.locator(".message").count() == 0
    checked(page)
    until(page, f"{_UNKEPT}.length === 0")


def test_what_the_database_has_long_had_is_not_brought_back(desk: Page) -> None:
    """A killed browser may find again what was struck out before: it lies on the disk some seconds longer."""
    page = desk
    with_example(page)
    until(page, "riglint.keeper.writing === null")
    found = page.evaluate(
        """async () => {
            const store = await import(new URL("store.js", document.baseURI).href);
            const [kept] = await store.plans();
            const before = { ...kept, rev: 0, turn: 1, text: "long ago" };
            localStorage.setItem(`riglint-unkept/${kept.id}`, JSON.stringify(before));
            const { plans, again, apart } = store.recovered([kept]);
            return [plans[0].text === kept.text, again.length, apart.length];
        }"""
    )
    assert found == [True, 0, 0]


def test_a_plan_that_is_taken_away_in_mid_write_stays_away(desk: Page) -> None:
    page = desk
    with_example(page)
    page.evaluate(
        """async () => {
            const { record } = riglint.session;
            for (let n = 0; n < 3; n += 1) riglint.session.keep(); // one under way, one that waits
            await riglint.drop(record.id);
        }"""
    )
    page.evaluate("riglint.keeper.writing")
    assert page.evaluate("riglint.plans.length") == 0
    page.reload()
    until(page, "globalThis.riglint?.engine")
    until(page, "document.querySelector('.plans')")
    assert page.evaluate("[riglint.plans.length, riglint.session]") == [0, None]
    ready(page)


def test_what_was_torn_off_before_another_window_wrote_stands_beside_that(desk: Page) -> None:
    page = desk
    with_example(page)
    until(page, "riglint.keeper.writing === null")
    page.evaluate(
        """async () => {
            const store = await import(new URL("store.js", document.baseURI).href);
            const { record } = riglint.session;
            const tornOff = { ...record, rev: record.rev - 1, hand: "a page before", text: `${record.text}# torn off` };
            localStorage.setItem(`riglint-unkept/${record.id}`, JSON.stringify(tornOff));
            const { again, apart } = store.recovered(await store.plans());
            if (again.length || apart.length !== 1) throw new Error(`${again.length} again, ${apart.length} apart`);
            await riglint.apart(apart[0]);
        }"""
    )
    page.get_by_text("What you did here is kept as fruit-truck (2).yaml").wait_for()
    for _ in range(2):
        until(page, f"{_UNKEPT}.length === 0")
        ends = page.evaluate("riglint.plans.map(p => [p.name, p.text.endsWith('# torn off')]).sort()")
        assert ends == [["fruit-truck (2).yaml", True], ["fruit-truck.yaml", False]]
        page.reload()
        ready(page)
    assert page.locator(".message").count() == 0


@pytest.fixture(scope="module")
def with_plans(started: Page) -> Page:
    """A page with a plan on it, for all files that are refused."""
    cleared(started)
    with_example(started)
    return started


@pytest.mark.parametrize(
    ("name", "content", "why"),
    [
        ("photo.yaml", b"\xff\xd8\xff\xe0 no text", "it isn't text in UTF-8"),
        ("broken.yaml", b"rig_plan: 1\ntitle: [never closed\n", "line"),
        ("letter.yaml", b"dear: crew\n", "it isn't a rig plan"),
        ("twice.yaml", b"rig_plan: 1\na: 1\na: 2\n", "line 3"),
        ("huge.yaml", b"# " + b"x" * 1_100_000, "more than any plan needs"),
    ],
)
def test_an_unreadable_file_is_refused_and_nothing_lost(
    with_plans: Page, tmp_path: Path, name: str, content: bytes, why: str
) -> None:
    page = with_plans
    before = page.evaluate("riglint.plans.map(p => [p.name, p.text])")
    (tmp_path / name).write_bytes(content)
    imported(page, tmp_path / name)
    said = page.locator(".message.fault").filter(has_text=f"{name} was not imported")
    said.wait_for()
    assert why in said.inner_text()
    assert page.evaluate("riglint.plans.map(p => [p.name, p.text])") == before


def test_a_newer_form_waits_for_the_checklist(chromium: Browser, tmp_path: Path) -> None:
    folder = tmp_path / "folder"
    assert run(Wanted(out=folder)) == 0
    with serving(folder) as url:
        context = chromium.new_context()
        page = opened(context, url)
        kept_offline(page)
        with_example(page)
        go(page, "Checks")
        page.locator(".tick input").first.check()
        old = json.loads((folder / "build.json").read_text())["store"]
        assert run(Wanted(out=folder, examples=EXAMPLES)) == 0
        new = json.loads((folder / "build.json").read_text())["store"]
        assert new != old
        page.reload()
        page.get_by_text("A newer riglint waits").wait_for(timeout=PATIENCE_MS)
        assert page.evaluate("caches.keys()") == [old, new]
        assert page.locator(".tick input:checked").count() == 1
        go(page, "Plans")
        page.get_by_role("button", name="Change over").click()
        page.get_by_text("A checklist is under way").wait_for()
        go(page, "Checks")
        page.locator(".tick input:checked").first.click()
        until(page, "!riglint.plans.some(p => Object.keys(p.ticks?.at ?? {}).length)")
        go(page, "Plans")
        page.get_by_role("button", name="Change over").click()
        until(page, f"caches.keys().then(k => k.length === 1 && k[0] === '{new}')")
        ready(page)
        assert page.evaluate("riglint.plans.length") == 1  # the device's plans are still there
        context.close()
