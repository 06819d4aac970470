"""The page as a file: alone, strict, inert, complete, and never clear where the verdict halts."""

import json
import re
from base64 import b64encode
from datetime import date
from hashlib import sha256
from pathlib import Path

import pytest

from riglint.outcome import Grade, Result, Verdict
from riglint.remedy.remedies import remedies
from riglint.remedy.workshop import Engine
from riglint.report.text_remedies import comes_of, says
from riglint.report.words import sentence
from riglint.sheet.page import sheet
from tests.sheet.sheets import CONTEXT, EXAMPLES, PLANS, STRINGS, Seen, example, inspected, made, with_words

SVG = {"svg", "title", "desc", "defs", "pattern", "clippath", "rect", "path", "text", "tspan", "circle", "g", "ellipse"}


@pytest.fixture(scope="module")
def pages() -> dict[str, str]:
    return {plan.stem: made(plan.read_text("utf-8"), plan.name) for plan in PLANS}


def data(page: str) -> dict[str, object]:
    found: dict[str, object] = json.loads(Seen(page).raw["script"][0])
    return found


@pytest.mark.parametrize("name", [p.stem for p in PLANS])
def test_a_sheet_stands_alone(pages: dict[str, str], name: str) -> None:
    seen = Seen(pages[name])
    assert all(link.startswith("#") for link in seen.links)
    assert {link[1:] for link in seen.links} <= set(seen.ids)
    assert set(seen.ids.values()) == {1}
    assert not re.search(r"url\((?!#)|@import|https?://(?!www\.w3\.org/2000/svg)", pages[name])
    assert seen.tags["h1"] == seen.tags["main"] == seen.tags["title"] == 1
    assert {"verdict", "picture", "checklist", "sign-off", "findings", "run", "gear", "cautions"} <= set(seen.ids)


def test_the_policy_lets_in_the_page_s_own_style_and_script_and_nothing_else(pages: dict[str, str]) -> None:
    seen = Seen(pages["two-parts"])
    block, script = seen.raw["script"]
    assert json.loads(block)
    digests = {what: b64encode(sha256(text.encode()).digest()).decode() for what, text in
               (("script", script), ("style", seen.raw["style"][0]))}  # fmt: skip
    rules = dict(rule.strip().split(" ", 1) for rule in seen.policy.split(";"))
    assert rules["default-src"] == rules["base-uri"] == rules["form-action"] == "'none'"
    assert rules["script-src"] == f"'sha256-{digests['script']}'"
    assert rules["style-src"] == f"'sha256-{digests['style']}'"
    assert not [name for tag, name in seen.attributes if name.startswith("on") or name == "style"]


@pytest.mark.parametrize("words", STRINGS)
def test_texts_of_a_plan_never_become_markup(words: str) -> None:
    plain, injected = Seen(made(with_words("a b"), "p.yaml")), Seen(made(with_words(words), f"{words}.yaml"))
    assert injected.tags == plain.tags
    assert injected.attributes == plain.attributes
    assert injected.ids == plain.ids
    assert injected.drawn - plain.drawn <= SVG
    assert not [name for name in injected.drawn if name.startswith(("@on", "@href", "@xlink"))]
    assert data(made(with_words(words), "p.yaml"))["stages"] == [words, words]
    shown = "".join(c if c.isprintable() else " " for c in words)
    assert " ".join(shown.split()) in injected.text


def test_a_file_s_name_cannot_turn_the_reading_direction() -> None:
    page = made(example("two-parts"), "\u202e\u2066<b>lmy.yaml")
    assert not re.search("[\u202a-\u202e\u2066-\u2069]", page)


@pytest.mark.parametrize("name", [p.stem for p in PLANS])
def test_a_plan_that_halts_cannot_be_signed_as_clear(pages: dict[str, str], name: str) -> None:
    verdict = inspected(example(name)).inspection.verdict
    clear = re.search(r'<input type="radio" name="decision" value="clear"[^>]*>', pages[name])
    assert clear
    assert ("disabled" in clear[0]) is (verdict is not Verdict.CLEAR)
    told = data(pages[name])
    assert told["may_be_clear"] is (verdict is Verdict.CLEAR)
    assert bool(told["why_not"]) is (verdict is not Verdict.CLEAR)
    assert ("can't be signed off as clear" in Seen(pages[name]).text) is (verdict is not Verdict.CLEAR)


def test_a_sterner_halting_grade_takes_the_signature_away() -> None:
    text = example("bridle")
    assert data(made(text))["may_be_clear"] is True
    assert data(made(text, halting=Grade.NOTICE))["may_be_clear"] is False


def test_the_record_names_plan_program_and_rulebook(pages: dict[str, str]) -> None:
    told = data(pages["re-rig"])
    digest = sha256((EXAMPLES / "re-rig.yaml").read_bytes()).hexdigest()
    assert told["plan"] == {
        "file": "re-rig.yaml", "sha256": digest,
        "title": "Milk tanker out of soft ground and along a track, re-rigged once",
    }  # fmt: skip
    assert {"program", "rulebooks", "verdict", "findings", "limits_set"} <= set(told)
    assert digest in Seen(pages["re-rig"]).text


def test_any_change_of_the_plan_is_another_sheet_and_another_path_is_not() -> None:
    text = example("two-parts")
    first, noted, moved = data(made(text)), data(made(text + "# a remark\n")), data(made(text, "elsewhere/plan.yaml"))
    assert first["sheet"] != noted["sheet"]
    assert first["sheet"] == moved["sheet"]
    assert first["sheet"] != data(made(text, halting=Grade.DANGER))["sheet"]


def test_the_day_is_told_and_midnight_takes_no_tick_away() -> None:
    first, second = (made(example("two-parts"), day=date(2026, 3, day)) for day in (14, 15))
    assert "For a pull on" in Seen(first).text
    assert "2026-03-14" in Seen(first).text
    assert (data(first)["day"], data(second)["day"]) == ("2026-03-14", "2026-03-15")
    assert data(first)["sheet"] == data(second)["sheet"]


def test_findings_come_with_what_puts_them_right(pages: dict[str, str]) -> None:
    text = Seen(pages["fruit-truck"]).text
    found = inspected(example("fruit-truck")).inspection.findings
    for finding in found:
        assert finding.grade.value in text
        assert finding.title in text or finding.check.missing
    assert "Put right: Have somebody keep ring_a in sight" in text


def test_remedies_that_were_tried_stand_with_their_findings() -> None:
    text = example("fruit-truck")
    seen = inspected(text)
    engine = Engine(CONTEXT.rulebook, CONTEXT.load, CONTEXT.inspect, CONTEXT.kit_for)
    tried = remedies(seen.document, seen.solution, seen.inspection, engine)
    shown = Seen(sheet(seen, text.encode(), tried)).text
    for remedy in tried:
        assert sentence(says(remedy, "metric")) in shown
        assert comes_of(remedy, seen) in shown
    bare = {f.rule for i, f in enumerate(seen.inspection.findings) if f.result is Result.FAILED}
    bare -= {seen.inspection.findings[r.finding].rule for r in tried}
    assert shown.count("Nothing that was tried") == len(bare) > 0
    assert "tried on a copy" not in Seen(made(text)).text.lower()  # where nothing was tried nothing is said


def test_the_run_tells_where_to_stop_what_to_watch_and_who_takes_over(pages: dict[str, str]) -> None:
    text = Seen(pages["join-planned-stop"]).text
    assert "STOP Slack off and take join_1 through ring_a by hand." in text
    assert "Load to chocks under both rear wheels; line slack only then." in text
    assert "spotter: ring_a" in text
    assert "Load to parking brake, and chocks at two wheels while it is re-rigged." in Seen(pages["re-rig"]).text


def test_gear_without_a_rating_is_not_known_and_over_is_said(pages: dict[str, str]) -> None:
    def row(page: str, name: str) -> str:
        found = re.search(rf'<th scope="row">{re.escape(name)}</th>(.*?)</tr>', page)
        assert found
        return " ".join(re.sub("<[^>]+>", " ", found[1]).replace("&nbsp;", " ").split())

    assert row(pages["ten-lines"], "mainline").endswith("not known not known")
    assert row(pages["fruit-truck"], "bow_b").endswith("198 % OVER")
    assert "80 kN" in row(pages["re-rig"], "fairlead")


def _luminance(colour: str) -> float:
    parts = [int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5)]
    return sum(w * (p / 12.92 if p <= 0.04045 else ((p + 0.055) / 1.055) ** 2.4)
               for w, p in zip((0.2126, 0.7152, 0.0722), parts, strict=True))  # fmt: skip


def _contrast(one: str, other: str) -> float:
    low, high = sorted((_luminance(one), _luminance(other)))
    return (high + 0.05) / (low + 0.05)


@pytest.mark.parametrize("look", [0, 1])
def test_letters_stand_out_in_sun_and_dark(look: int) -> None:
    style = (
        (Path(__file__).parents[2] / "riglint" / "sheet" / "style.css").read_text("utf-8").replace("#fff;", "#ffffff;")
    )
    first, *others = (dict(re.findall(r"--([\w-]+): (#[0-9a-f]{6})", block)) for block in
                      re.findall(r"\{([^{}]*--ink[^{}]*)\}", style))  # fmt: skip
    assert others[0] == others[1], "dark by choice is dark by the device"
    now = first | (others[0] if look else {})
    for ink in ("ink", "soft", "link", "tick", "focus"):
        assert _contrast(now[ink], now["paper"]) >= 7, ink
    assert _contrast(now["soft"], now["panel"]) >= 7
    assert _contrast(now["ink"], now["tick-paper"]) >= 7
    assert _contrast(now["soft"], now["tick-paper"]) >= 7
    for ground, ink in (
        ("red", "#ffffff"),
        ("orange", "#000000"),
        ("yellow", "#000000"),
        ("blue", "#ffffff"),
        ("green", "#ffffff"),
    ):
        assert _contrast(first[ground], ink) >= 7, ground
    assert _contrast(now["alert"], now["paper"]) >= 3
    assert _contrast(now["hair"], now["paper"]) >= 3
