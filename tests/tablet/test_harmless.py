"""A plan with script in its names and notes runs nothing, and the page's policy would stop it if it did."""

import pytest
from playwright.sync_api import Browser

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
PLACES = (
    "/title", "/notes", "/people/1/who", "/stops/0/do", "/points/ash/notes", "/bodies/tender/ground/surface",
    "/points/ash/basis",
)  # fmt: skip


@pytest.mark.parametrize("form", ["folder", "file"])
def test_injected_text_is_inert_in_every_view(chromium: Browser, address: str, tablet_file, form: str) -> None:  # type: ignore[no-untyped-def]
    context = chromium.new_context()
    page = opened(context, address if form == "folder" else tablet_file.as_uri())
    asked: list[str] = []
    page.on("request", lambda request: asked.append(request.url))
    text = (EXAMPLES / "fruit-truck.yaml").read_text("utf-8")
    page.evaluate("([text]) => riglint.take({name: 'x.yaml', text, data: null})", [text])
    checked(page)
    for k, string in enumerate(STRINGS):
        edits = [{"op": "set", "at": at, "value": string} for at in PLACES]
        key = string.replace("~", "~0").replace("/", "~1")
        edits.append({"op": "set", "at": f"/{key}" if k % 2 else "/points/ash/on", "value": string})
        for clean in (True, False):
            page.evaluate("edits => riglint.session.edit(...edits)", edits[:-1] if clean else edits[-1:])
            checked(page)
            for view in ("Plans", "Findings", "Picture", "Pull", "Checks", "Text", "Rig"):
                go(page, view)
        page.evaluate("text => riglint.session.write(text)", text)
        checked(page)
        assert page.evaluate("globalThis.hit") is None, string
    assert [url for url in asked if "invalid" in url] == []
    assert page.complaints == []  # type: ignore[attr-defined]
    context.close()


def test_the_policy_stops_what_is_not_ours(chromium: Browser, address: str) -> None:
    context = chromium.new_context()
    page = opened(context, address)
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
    page.wait_for_timeout(300)
    assert page.evaluate("globalThis.hit") is None
    until(page, "fetch('http://127.0.0.1:1/').then(() => false, () => true)")
    context.close()
