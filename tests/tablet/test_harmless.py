"""A plan with script in its names and notes runs nothing, and the page's policy would stop it if it did."""

import json
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, Page

from riglint.reading.document import read_document
from riglint.tablet.site import CSP
from tests.tablet.browser import checked, go, opened, until
from tests.tablet.conftest import EXAMPLES

pytestmark = pytest.mark.browser

STRINGS = (
    "<script>globalThis.hit = 1</script>",
    "<img src=x onerror='globalThis.hit = 1'>",
    "</title><script>globalThis.hit = 1</script>",
    "\"'><svg onload=globalThis.hit=1>",
    "]]><script>globalThis.hit=1</script>",
    "javascript:globalThis.hit=1",
    "{{constructor.constructor('globalThis.hit=1')()}}",
    "${globalThis.hit = 1}",
    "&lt;script&gt;globalThis.hit=1&lt;/script&gt;",
    "<iframe srcdoc='<script>parent.hit=1</script>'></iframe>",
    "<a href='javascript:globalThis.hit=1'>x</a>",
    "<style>@import 'http://elsewhere.invalid/x';</style>",
    "\u202e<script>globalThis.hit=1</script>",
)
READABLE = tuple(string for string in STRINGS if string.isprintable())  # what turns the reading direction is refused
VIEWS = ("Plans", "Findings", "Picture", "Pull", "Checks", "Text", "Rig")


def with_words() -> dict[str, Any]:
    """A plan with the strings in its notes and in the names of people, stops and grounds, that can be checked."""
    data: dict[str, Any] = read_document((EXAMPLES / "fruit-truck.yaml").read_text("utf-8"), "x.yaml").data
    data["people"] = [data["people"][0], *({**data["people"][1], "who": s, "notes": s} for s in READABLE)]
    data["stops"] = [{"after": f"{k / 5 + 0.1} m", "do": s} for k, s in enumerate(READABLE)]
    entries = [*data["points"].values(), *data["connectors"].values(), *data["redirects"].values()]
    for entry, string in zip(entries, READABLE * 9, strict=False):
        entry["notes"] = string
    for point, string in zip(data["points"].values(), READABLE[::-1], strict=False):
        point["basis"] = string
    data["notes"] = data["bodies"]["tender"]["ground"]["surface"] = " ".join(READABLE)
    return data


def with_keys() -> dict[str, Any]:
    """A plan with the strings as names and as values that can't be read: all of them come back in what is wrong."""
    data = with_words()
    for string in READABLE:
        data[string] = string
        data["points"][string] = {"on": string, "at": string, "kind": string}
    return data


def visited(page: Page) -> None:
    for view in VIEWS:
        go(page, view)
        page.evaluate("document.querySelectorAll('details').forEach(d => { d.open = true })")


def test_injected_text_is_inert_in_every_view(desk: Page) -> None:
    inert(desk)


@pytest.mark.slow
def test_injected_text_is_inert_in_the_one_file(chromium: Browser, tablet_file: Path) -> None:
    context = chromium.new_context()
    page = opened(context, tablet_file.as_uri())
    inert(page)
    assert page.complaints == []  # type: ignore[attr-defined]
    context.close()


def inert(page: Page) -> None:
    asked: list[str] = []
    page.on("request", lambda request: asked.append(request.url))
    turned = with_words() | {"works": STRINGS[-1]}
    for data, reads in ((with_keys(), False), (turned, False), (with_words(), True)):
        text = "\n".join(f"{json.dumps(k)}: {json.dumps(v, ensure_ascii=False)}" for k, v in data.items())
        page.evaluate("([text, data]) => riglint.take({name: 'x.yaml', text, data})", [text, data])
        checked(page)
        assert (page.evaluate("riglint.session.answer.verdict") == "can't be read") is not reads
        visited(page)
    small = (EXAMPLES / "straight-pull.yaml").read_text("utf-8")  # on the large one each title takes seconds to check
    page.evaluate("text => riglint.take({name: 'x.yaml', text, data: null})", small)
    checked(page)
    for title in READABLE:
        page.evaluate("title => riglint.session.edit({op: 'set', at: '/title', value: title})", title)
        go(page, "Plans")
        go(page, "Rig")
        assert page.evaluate("document.title") == f"{' '.join(title.split())}: riglint"
    checked(page)
    assert page.evaluate("globalThis.hit") is None
    assert [url for url in asked if "invalid" in url] == []


def test_the_policy_stops_what_is_not_ours(chromium: Browser, address: str) -> None:
    context = chromium.new_context()
    page = context.new_page()
    page.goto(address)  # the policy is there before the engine
    answer = page.request.get(address)
    assert answer.headers["content-security-policy"].startswith(CSP)
    page.evaluate(
        """() => {
            const script = document.createElement("script");
            script.textContent = "globalThis.hit = 1";
            document.body.append(script);
            document.body.insertAdjacentHTML("beforeend", "<img src=x onerror='globalThis.hit = 1'>");
        }"""
    )
    until(page, "document.querySelector('body > img').complete")  # it was refused, and what hangs on that was not run
    assert page.evaluate("globalThis.hit") is None
    until(page, "fetch('http://127.0.0.1:1/').then(() => false, () => true)")
    context.close()
