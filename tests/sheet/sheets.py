"""Sheets made for tests, and what a browser would see of one without running it."""

from collections import Counter
from datetime import date
from html.parser import HTMLParser
from pathlib import Path

from riglint.house.context import Contexts
from riglint.outcome import Grade
from riglint.report.material import Inspected
from riglint.sheet.page import sheet
from riglint.solve.solve import solve

EXAMPLES = Path(__file__).parents[2] / "examples"
PLANS = sorted(EXAMPLES.glob("*.yaml"))
CONTEXT = Contexts().of(None)

STRINGS = (
    "<script>globalThis.hit = 1</script>",
    "</script><script>globalThis.hit = 1</script>",
    "<!--<script>globalThis.hit = 1//-->",
    "<img src=x onerror='globalThis.hit = 1'>",
    "</title></style></svg></textarea><script>globalThis.hit = 1</script>",
    "\"'><svg onload=globalThis.hit=1>",
    "' onfocus='globalThis.hit=1' autofocus='",
    "]]><script>globalThis.hit=1</script>",
    "javascript:globalThis.hit=1",
    "${globalThis.hit = 1} {{globalThis.hit = 1}}",
    "&lt;script&gt;globalThis.hit=1&lt;/script&gt; &#60;b&#62;",
    "<iframe srcdoc='<script>parent.hit=1</script>'></iframe>",
    "<a href='javascript:globalThis.hit=1'>x</a>",
    "<style>@import 'http://elsewhere.invalid/x';</style>",
    "<meta http-equiv=refresh content='0;url=http://elsewhere.invalid/'>",
    "<ScRiPt >globalThis.hit=1</sCrIpT ><details open ontoggle=globalThis.hit=1>",
    "{measured} {limit} %s {0}",
)


def inspected(text: str, file: str = "plan.yaml", halting: Grade = Grade.WARNING, day: date | None = None) -> Inspected:
    loaded = CONTEXT._replace(today=day).load(text.encode(), file)
    solution = solve(loaded.rig)
    inspection = CONTEXT.inspect(solution, halting)
    return Inspected(file, loaded.document, solution, inspection, CONTEXT.rulebook, CONTEXT.sources)


def made(text: str, file: str = "plan.yaml", halting: Grade = Grade.WARNING, day: date | None = None) -> str:
    return sheet(inspected(text, file, halting, day), text.encode())


def example(name: str) -> str:
    return (EXAMPLES / f"{name}.yaml").read_text("utf-8")


def with_words(words: str) -> str:
    """A plan of two stages in which every free text is these words."""
    import json

    quoted = json.dumps(words)
    text = example("re-rig")
    for old in (
        "Milk tanker out of soft ground and along a track, re-rigged once", "look again at the frame and the wraps",
        "parking brake, and chocks at two wheels", "out of the mud", "along the track", "deep mud", "plate",
    ):  # fmt: skip
        assert f": {old}" in text
        text = text.replace(f": {old}", f": {quoted}")
    text = text.replace("load_held_by: chocks}", f"load_held_by: {quoted}}}").replace(
        "who: spotter,", f"who: {quoted}, notes: {quoted},"
    )
    return text + f"\nnotes: {quoted}\nsignals: {{by: radio, agreed: true, given_by: {quoted}}}\n"


VOID = {"meta", "input", "col"}


class Seen(HTMLParser):
    """Elements, attributes and texts, the picture's apart."""

    def __init__(self, page: str) -> None:
        super().__init__(convert_charrefs=True)
        self.tags: Counter[str] = Counter()
        self.attributes: Counter[tuple[str, str]] = Counter()
        self.drawn: set[str] = set()
        self.ids: Counter[str] = Counter()
        self.links: list[str] = []
        self.texts: list[str] = []
        self.raw: dict[str, list[str]] = {"script": [], "style": [], "title": []}
        self.policy = ""
        self._open: list[str] = []
        self.feed(page)
        self.close()
        assert self._open == [], "every element is closed"

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        given = {name: value or "" for name, value in attrs}
        if "id" in given:
            self.ids[given["id"]] += 1
        if "svg" in self._open or tag == "svg":
            self.drawn |= {tag, *(f"@{name}" for name in given)}
        else:
            self.tags[tag] += 1
            self.attributes.update((tag, name) for name in given)
        self.links += [value for name, value in given.items() if name in ("href", "src", "action", "srcset", "data")]
        if given.get("http-equiv") == "Content-Security-Policy":
            self.policy = given["content"]
        if tag not in VOID:
            self._open.append(tag)

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.handle_starttag(tag, attrs)
        if tag not in VOID:
            self._open.pop()

    def handle_endtag(self, tag: str) -> None:
        assert self._open.pop() == tag

    def handle_data(self, data: str) -> None:
        if self._open and self._open[-1] in self.raw:
            self.raw[self._open[-1]].append(data)
        elif data.strip():
            self.texts.append(data)

    @property
    def text(self) -> str:
        return " ".join(" ".join(self.texts).split())
