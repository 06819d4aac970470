"""The tablet's report is the command's, byte for byte."""

import json
import subprocess
import sys
from pathlib import Path
from random import Random

import pytest
from playwright.sync_api import Browser, Page

from riglint.tablet.command import Wanted, run
from tests.strategies import made_plan, plan_text
from tests.tablet.browser import checked, opened, serving
from tests.tablet.conftest import EXAMPLES

pytestmark = pytest.mark.browser
ROOT = EXAMPLES.parent
FEW, MANY = 24, 500
DAY = "2026-03-14"


def by_command(folder: Path, names: list[str]) -> dict[str, str]:
    """Each plan's entry as the command writes it, from one run over all of them."""
    words = [sys.executable, "-m", "riglint", "prepull", "--as", "json", "--on", DAY, *names]
    done = subprocess.run(words, cwd=folder, env={"PYTHONPATH": str(ROOT)}, capture_output=True, check=False)
    plans = json.loads(done.stdout)["plans"]
    assert [plan["file"] for plan in plans] == names
    return {plan["file"]: _text(plan) for plan in plans}


def _text(plan: object) -> str:
    return json.dumps(plan, sort_keys=True, separators=(",", ":"), ensure_ascii=False)


def by_tablet(page: Page, folder: Path, names: list[str]) -> dict[str, str]:
    entries = {}
    for name in names:
        text = (folder / name).read_text("utf-8")
        given = [text, {"name": name, "today": DAY, "report": True}]
        answer = page.evaluate("([text, options]) => riglint.engine.work(text, options)", given)
        report = json.loads(answer["report"])
        whole = json.dumps(report, sort_keys=True, separators=(",", ":"), ensure_ascii=False) + "\n"
        assert whole == answer["report"]
        entries[name] = _text(report["plans"][0])
    return entries


def made(folder: Path, count: int) -> list[str]:
    for seed in range(count):
        (folder / f"made-{seed:03}.yaml").write_text(plan_text(made_plan(Random(seed))), "utf-8")
    return [f"made-{seed:03}.yaml" for seed in range(count)]


@pytest.mark.parametrize("form", ["folder", "file"])
def test_every_example(chromium: Browser, address: str, tablet_file: Path, form: str) -> None:
    page = opened(chromium.new_context(), address if form == "folder" else tablet_file.as_uri())
    names = sorted(p.name for p in EXAMPLES.glob("*.yaml"))
    assert by_tablet(page, EXAMPLES, names) == by_command(EXAMPLES, names)
    assert page.complaints == []  # type: ignore[attr-defined]
    page.context.close()


def test_with_house_file_kit_and_rulebook_built_in(chromium: Browser, tmp_path: Path) -> None:
    company = EXAMPLES / "company"
    assert run(Wanted(out=tmp_path / "folder", house=company / "house.yaml")) == 0
    names = sorted(p.relative_to(company).as_posix() for p in company.glob("plans/*.yaml"))
    with serving(tmp_path / "folder") as url:
        page = opened(chromium.new_context(), url)
        assert by_tablet(page, company, names) == by_command(company, names)
        page.context.close()


@pytest.mark.parametrize("count", [FEW, pytest.param(MANY, marks=pytest.mark.slow)])
def test_made_plans(chromium: Browser, address: str, tmp_path: Path, count: int) -> None:
    page = opened(chromium.new_context(), address)
    names = made(tmp_path, count)
    ours, theirs = by_tablet(page, tmp_path, names), by_command(tmp_path, names)
    assert [name for name in names if ours[name] != theirs[name]] == []
    page.context.close()


def test_the_one_file_keeps_plans_and_asks_for_nothing(chromium: Browser, tablet_file: Path) -> None:
    context = chromium.new_context(offline=True)
    page = opened(context, tablet_file.as_uri())
    asked: list[str] = []
    page.on("request", lambda request: asked.append(request.url))
    text = (EXAMPLES / "fruit-truck.yaml").read_text("utf-8")
    page.evaluate("text => riglint.take({name: 'x.yaml', text, data: null})", text)
    checked(page)
    page.reload()
    checked(page)
    assert page.evaluate("riglint.session.record.text") == text
    assert [url for url in asked if not url.startswith(("file:", "data:", "blob:"))] == []
    page.get_by_text("One file: needs no network").first.wait_for()
    context.close()
