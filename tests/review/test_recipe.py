"""The recipe for CI in the README, run in a plain shell as it is written."""

import re
import shutil
import subprocess
import sys

import pytest

from tests.review.rigs import EXAMPLES, ROOT

PARTS = 2


@pytest.fixture
def shell(tmp_path):
    """Runs lines of the recipe in a folder with rigs, two of them not clear."""
    block = re.search(r"```sh\n(# once.*?)```", (ROOT / "README.md").read_text("utf-8"), re.DOTALL)[1]
    once, each, page, log = (line for line in block.splitlines() if line.startswith("riglint"))
    command = tmp_path / "bin" / "riglint"
    command.parent.mkdir()
    command.write_text(f'#!/bin/sh\nexec {sys.executable} -m riglint "$@"\n')
    command.chmod(0o755)
    (tmp_path / "rigs").mkdir()
    for name in ("twisted-join", "straight-pull", "fruit-truck", "two-parts"):
        shutil.copy(EXAMPLES / f"{name}.yaml", tmp_path / "rigs")

    def run(line, **env):
        path = {"PATH": f"{command.parent}:/usr/bin:/bin", "PYTHONPATH": str(ROOT), "XDG_CACHE_HOME": str(tmp_path)}
        return subprocess.run(["sh", "-ec", line], cwd=tmp_path, env=path | env, check=False).returncode

    def review():
        for part in range(1, PARTS + 1):
            assert run(each, PART=str(part), PARTS=str(PARTS)) == 0
        assert run(page) == 0
        return run(log)

    assert run(once) == 0
    return tmp_path, review


def test_the_recipe_halts_on_what_is_new_and_on_nothing_else(shell):
    folder, review = shell
    assert review() == 0
    assert "fruit-truck" in (folder / "review.html").read_text("utf-8")
    shutil.copy(EXAMPLES / "join-meets-ring.yaml", folder / "rigs")
    assert review() == 1
    (folder / "rigs" / "join-meets-ring.yaml").write_text("rig_plan: [", "utf-8")
    assert review() == 3


def test_a_part_that_is_missing_is_no_review(shell):
    folder, review = shell
    assert review() == 0
    (folder / "review-1.json").rename(folder / "lost.json")
    line = re.search(r"riglint review --merge .* --halt-on new.*", (ROOT / "README.md").read_text("utf-8"))[0]
    env = {"PATH": f"{folder}/bin:/usr/bin:/bin", "PYTHONPATH": str(ROOT)}
    assert subprocess.run(["sh", "-ec", line], cwd=folder, env=env, check=False).returncode == 2
