"""The tablet's report is the command's, byte for byte."""

import json
import subprocess
import sys
from pathlib import Path
from random import Random

import pytest
from playwright.sync_api import Browser, Page

from riglint.report import json_report
from riglint.tablet.command import Wanted, run
from tests.strategies import made_plan, plan_text
from tests.tablet.browser import checked, opened, serving
from tests.tablet.conftest import EXAMPLES

pytestmark = pytest.mark.browser
ROOT = EXAMPLES.parent
BATCH, BATCHES, ALWAYS = 25, 20, 4
DAY = "2026-03-14"
_REPORTS = """async ([plans, today]) => {
    const reports = [];
    for (const [name, text] of plans) {
        const { report } = await riglint.engine.work(text, { name, today, report: true });
        reports.push(report);
    }
    return reports;
}"""


def by_command(folder: Path, names: list[str]) -> "subprocess.Popen[bytes]":
    """The command over all plans, started: the tablet works them out meanwhile."""
    words = [sys.executable, "-m", "riglint", "prepull", "--as", "json", "--on", DAY, *names]
    return subprocess.Popen(words, cwd=folder, env={"PYTHONPATH": str(ROOT)}, stdout=subprocess.PIPE)


def by_tablet(page: Page, folder: Path, names: list[str]) -> list[str]:
    texts = [[name, (folder / name).read_text("utf-8")] for name in names]
    reports: list[str] = page.evaluate(_REPORTS, [texts, DAY])
    return reports


def differ(page: Page, folder: Path, names: list[str]) -> list[str]:
    """Plans whose report by the tablet is another than that by the command; what is beside the plans is the same."""
    command = by_command(folder, names)
    ours = by_tablet(page, folder, names)
    whole = command.communicate()[0].decode()
    theirs = json.loads(whole)["plans"]
    assert [plan["file"] for plan in theirs] == names
    assert json_report.document(theirs) == whole  # so that one plan's own report can be cut out of it
    pairs = zip(names, ours, theirs, strict=True)
    return [name for name, mine, plan in pairs if mine != json_report.document([plan])]


def test_every_example(desk: Page) -> None:
    assert differ(desk, EXAMPLES, sorted(p.name for p in EXAMPLES.glob("*.yaml"))) == []


def test_with_house_file_kit_and_rulebook_built_in(chromium: Browser, tmp_path: Path) -> None:
    company = EXAMPLES / "company"
    assert run(Wanted(out=tmp_path / "folder", house=company / "house.yaml")) == 0
    with serving(tmp_path / "folder") as url:
        page = opened(chromium.new_context(), url)
        assert (
            differ(page, company, sorted(p.relative_to(company).as_posix() for p in company.glob("plans/*.yaml"))) == []
        )
        page.context.close()


@pytest.mark.parametrize(
    "batch", [*range(ALWAYS), *(pytest.param(k, marks=pytest.mark.slow) for k in range(ALWAYS, BATCHES))]
)
def test_made_plans(desk: Page, tmp_path: Path, batch: int) -> None:
    names = [f"made-{seed:03}.yaml" for seed in range(batch * BATCH, (batch + 1) * BATCH)]
    for name in names:
        (tmp_path / name).write_text(plan_text(made_plan(Random(int(name[5:8])))), "utf-8")
    assert differ(desk, tmp_path, names) == []


def test_the_one_file_tells_the_same_keeps_plans_and_asks_for_nothing(chromium: Browser, tablet_file: Path) -> None:
    context = chromium.new_context(offline=True)
    asked: list[str] = []
    context.on("request", lambda request: asked.append(request.url))
    page = opened(context, tablet_file.as_uri())
    assert differ(page, EXAMPLES, sorted(p.name for p in EXAMPLES.glob("*.yaml"))) == []
    text = (EXAMPLES / "fruit-truck.yaml").read_text("utf-8")
    page.evaluate("text => riglint.take({name: 'x.yaml', text, data: null})", text)
    checked(page)
    page.reload()
    checked(page)
    assert page.evaluate("riglint.session.record.text") == text
    assert asked
    assert [url for url in asked if not url.startswith(("file:", "data:", "blob:"))] == []
    page.get_by_text("One file: needs no network").first.wait_for()
    assert page.complaints == []  # type: ignore[attr-defined]
    context.close()
