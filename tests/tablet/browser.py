"""Chromium, the tablet built once, and ways to it."""

import os
import signal
import subprocess
import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path

import pytest
from playwright.sync_api import Browser, BrowserContext, Error, Page, Playwright

from riglint.tablet.serve import server

FLAGS = (
    "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
    "--disable-component-update", "--disable-sync",
)  # fmt: skip
EXAMPLES = Path(__file__).parents[2] / "examples"
UPRIGHT, LEVEL = {"width": 768, "height": 1024}, {"width": 1280, "height": 800}
# Each size and each look of a page once, and both of both in a long run.
SIZES_AND_LOOKS = [
    pytest.param(UPRIGHT, False, id="upright-bright"),
    pytest.param(LEVEL, True, id="level-dark"),
    pytest.param(UPRIGHT, True, id="upright-dark", marks=pytest.mark.slow),
    pytest.param(LEVEL, False, id="level-bright", marks=pytest.mark.slow),
]
PATIENCE_MS = 90_000


def chromium_path() -> str:
    """The shell without windows and menus first: it is the same browser, and takes a third less of this machine."""
    from shutil import which

    names = ("chromium-headless-shell", "chromium", "chromium-browser", "google-chrome")
    found = next(filter(None, map(which, names)), None)
    assert found, "these tests drive Chromium: install it, or leave out `-m browser`"
    return found


def launched(playwright: Playwright) -> Browser:
    return playwright.chromium.launch(executable_path=chromium_path(), args=list(FLAGS))


_KEPT = """async () => {
    const found = [];
    for (const { name } of await indexedDB.databases()) {
        const base = await new Promise((resolve, reject) => {
            const request = indexedDB.open(name);
            request.onsuccess = () => resolve(request.result);
            request.onerror = () => reject(request.error);
        });
        const stores = [...base.objectStoreNames];
        const reading = stores.length ? base.transaction(stores) : null;
        for (const store of stores) {
            found.push(await new Promise(resolve => {
                reading.objectStore(store).getAll().onsuccess = event => resolve(event.target.result);
            }));
        }
        base.close();
    }
    return JSON.stringify(found);
}"""


@contextmanager
def written_down(page: Page) -> Iterator[None]:
    """Waits, after what is done within, until the page's databases hold something new and no more is coming.

    A reading waits for the writings before it; a fixed time would ask how busy this machine is.
    """
    before = last = str(page.evaluate(_KEPT))
    yield
    deadline = time.monotonic() + PATIENCE_MS / 1000
    while (now := str(page.evaluate(_KEPT))) == before or now != last:
        assert time.monotonic() < deadline, "nothing was written down"
        last = now
        page.wait_for_timeout(100)


def until_written(page: Page, words: str) -> None:
    """Until the page's databases hold these words."""
    deadline = time.monotonic() + PATIENCE_MS / 1000
    while words not in str(page.evaluate(_KEPT)):
        assert time.monotonic() < deadline, words
        page.wait_for_timeout(50)


@contextmanager
def lone(playwright: Playwright, profile: Path) -> Iterator[Page]:
    """A page of a browser of its own, which the kernel kills with all its processes at the end, whatever it is at."""
    port_file = profile / "DevToolsActivePort"
    port_file.unlink(missing_ok=True)
    flags = [*FLAGS, "--headless", f"--user-data-dir={profile}", "--remote-debugging-port=0", "about:blank"]
    process = subprocess.Popen(
        [chromium_path(), *flags], stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, start_new_session=True
    )
    try:
        deadline = time.monotonic() + PATIENCE_MS / 1000
        while not (port_file.exists() and port_file.read_text().count("\n")):
            assert time.monotonic() < deadline, "the browser did not start"
            time.sleep(0.05)
        port = port_file.read_text().split("\n", 1)[0]
        browser = playwright.chromium.connect_over_cdp(f"http://127.0.0.1:{port}")
        page = browser.contexts[0].new_page()
        page.set_default_timeout(PATIENCE_MS)
        yield page
    finally:
        os.killpg(process.pid, signal.SIGKILL)
        process.wait()
    with suppress(Error):
        browser.close()


@contextmanager
def serving(folder: Path) -> Iterator[str]:
    running = server(folder, port=0)
    thread = threading.Thread(target=running.serve_forever, daemon=True)
    thread.start()
    try:
        yield f"http://127.0.0.1:{running.server_address[1]}/"
    finally:
        running.shutdown()
        running.server_close()
        thread.join()


def opened(context: BrowserContext, url: str) -> Page:
    """A page whose engine is up; whatever it complains of fails the test at its end."""
    page = context.new_page()
    page.set_default_timeout(PATIENCE_MS)
    page.complaints = []  # type: ignore[attr-defined]
    page.on("pageerror", lambda error: page.complaints.append(str(error)))  # type: ignore[attr-defined]
    page.on("console", lambda m: page.complaints.append(m.text) if m.type == "error" else None)  # type: ignore[attr-defined]
    page.goto(url)
    ready(page)
    return page


def cleared(page: Page) -> None:
    """Every plan and every message gone, by the page's own ways."""
    page.evaluate(
        """async () => {
            for (const { id } of [...riglint.plans]) await riglint.drop(id);
            for (const box of [...riglint.said.children]) box.remove();
        }"""
    )
    assert page.evaluate("[riglint.plans.length, riglint.session, riglint.view]") == [0, None, "plans"]


def ready(page: Page) -> None:
    page.wait_for_selector("html[data-engine=ready]", timeout=PATIENCE_MS)


def until(page: Page, words: str) -> None:
    """Until something is true in the page, whose policy lets nobody wait there by a text of code."""
    deadline = time.monotonic() + PATIENCE_MS / 1000
    while not _holds(page, words):
        assert time.monotonic() < deadline, words
        page.wait_for_timeout(50)


def _holds(page: Page, words: str) -> bool:
    try:
        return bool(page.evaluate(words))
    except Error as error:
        if "context was destroyed" in str(error):  # the page is opening anew
            return False
        raise


def checked(page: Page) -> None:
    """Until the plan is checked as it stands."""
    until(page, "globalThis.riglint?.session?.fresh && !riglint.session.record.edits.length")


def go(page: Page, view: str) -> None:
    """Until the view is drawn: the browser tells a page of its new address only after the click."""
    page.get_by_role("link", name=view, exact=True).click()
    page.wait_for_selector(f"html[data-view={view.lower()}]", timeout=PATIENCE_MS)


def kept_offline(page: Page) -> None:
    page.get_by_text("Ready offline").first.wait_for(timeout=PATIENCE_MS)


def with_example(page: Page, name: str = "fruit-truck") -> None:
    imported(page, EXAMPLES / f"{name}.yaml")
    until(page, f"riglint.session?.record.name.startsWith('{name}')")
    checked(page)


def imported(page: Page, file: Path) -> None:
    go(page, "Plans")
    with page.expect_file_chooser() as choosing:
        page.get_by_role("button", name="Import a plan").click()
    choosing.value.set_files(file)


def saved(page: Page, button: str) -> bytes:
    """What a button saves as a file."""
    with page.expect_download() as coming:
        page.get_by_role("button", name=button, exact=True).first.click()
    return Path(coming.value.path()).read_bytes()
