"""The hook file for pre-commit use: what it runs is there, and sees every plan whatever was changed."""

import shlex
import shutil
import subprocess
import sys
import tomllib

import pytest
import yaml

from tests.review.rigs import EXAMPLES, ROOT

KNOWN = {  # https://pre-commit.com/#new-hooks, read from the tool's own check of a manifest
    "id", "name", "description", "entry", "language", "always_run", "pass_filenames", "require_serial", "files",
    "types", "stages", "args", "exclude", "minimum_pre_commit_version", "verbose", "fail_fast", "language_version",
}  # fmt: skip


@pytest.fixture
def hook():
    [hook] = yaml.safe_load((ROOT / ".pre-commit-hooks.yaml").read_text("utf-8"))
    return hook


def test_the_hook_says_what_the_tool_asks_for(hook):
    assert hook.keys() <= KNOWN
    assert {"id", "name", "entry", "language"} <= hook.keys()
    assert hook["language"] == "python"  # the tool installs the repository itself, which brings the command along
    assert (hook["always_run"], hook["pass_filenames"], hook["require_serial"]) == (True, False, True)
    assert hook["id"] in (ROOT / "README.md").read_text("utf-8")


@pytest.mark.parametrize(("plan", "ends"), [("straight-pull.yaml", 0), ("twisted-join.yaml", 1)])
def test_its_command_reviews_the_repository_that_it_stands_in(hook, plan, ends, tmp_path):
    (tmp_path / "rigs").mkdir()
    shutil.copy(EXAMPLES / plan, tmp_path / "rigs")
    command, *words = shlex.split(hook["entry"])
    script = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["project"]["scripts"][command]
    module, _, function = script.partition(":")
    start = f"import sys; sys.argv[0] = {command!r}; from {module} import {function}; {function}()"
    ran = subprocess.run(
        [sys.executable, "-c", start, *words, "--no-cache"],
        cwd=tmp_path, capture_output=True, check=False, env={"PYTHONPATH": str(ROOT)},
    )  # fmt: skip
    assert (ran.returncode, ran.stderr) == (ends, b"")
    assert f"rigs/{plan}".encode() in ran.stdout
