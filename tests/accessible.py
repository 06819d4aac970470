"""What a page keeps from people who can't see or point well, as axe-core finds it: WCAG 2.2 A and AA, and more."""

from functools import cache
from pathlib import Path
from tarfile import open as open_tar
from typing import Any

from playwright.sync_api import Page

from riglint.tablet.parts import cache_folder, gathered, locked

# On a page that is read in the sun and worked with gloves: the contrast of level AAA, and the size of what is touched.
OUTDOORS = """, rules: {"color-contrast-enhanced": {enabled: true}, "target-size": {enabled: true}}"""
_RUN = """axe.run(document, {
    runOnly: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"] RULES
}).then(r => r.violations.map(v => [
    v.id, v.nodes.slice(0, 3).map(n => n.html.slice(0, 200) + " " + n.failureSummary.slice(0, 200)),
]))"""


@cache
def _axe() -> str:
    parts = locked(Path(__file__).parent / "tablet" / "lock.json")
    with open_tar(gathered(cache_folder(), parts)["axe-core"]) as packed:
        member = packed.extractfile("package/axe.min.js")
        assert member
        return member.read().decode()


def faults(page: Page, rules: str = "") -> list[Any]:
    """Each rule broken, with the first places; the page must be open without its policy (`bypass_csp`)."""
    if not page.evaluate("'axe' in globalThis"):
        page.evaluate(_axe())
    found: list[Any] = page.evaluate(_RUN.replace("RULES", rules))
    return found
