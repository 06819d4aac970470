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


def ran(hook, folder, *words):
    """The hook's own command in a repository, as the tool calls it: with no file named."""
    command, *own = shlex.split(hook["entry"])
    script = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["project"]["scripts"][command]
    module, _, function = script.partition(":")
    start = f"import sys; sys.argv[0] = {command!r}; from {module} import {function}; {function}()"
    return subprocess.run(
        [sys.executable, "-c", start, *own, *words],
        cwd=folder, capture_output=True, check=False, env={"PYTHONPATH": str(ROOT)},
    )  # fmt: skip


@pytest.mark.parametrize(("plan", "ends"), [("straight-pull.yaml", 0), ("twisted-join.yaml", 1)])
def test_its_command_reviews_the_repository_that_it_stands_in(hook, plan, ends, tmp_path):
    (tmp_path / "rigs").mkdir()
    shutil.copy(EXAMPLES / plan, tmp_path / "rigs")
    came = ran(hook, tmp_path, "--no-cache")
    assert (came.returncode, came.stderr) == (ends, b"")
    assert f"rigs/{plan}".encode() in came.stdout


@pytest.mark.parametrize(
    ("gone", "ends"),
    [
        ("kit.yaml", 3),
        ("house.yaml", 3),  # with which the kit and the rulebook go
        ("rulebook", 3),
        ("plans/hay-trailer.yaml", 0),
    ],
)
def test_what_is_only_taken_out_is_seen_though_every_plan_was_reviewed_before(hook, gone, ends, tmp_path):
    """A commit that takes something out changes no plan: nothing kept from the last time may stand for it."""
    shutil.copytree(EXAMPLES / "company", tmp_path / "rigs")
    kept = ("--cache", str(tmp_path / "kept"))
    assert ran(hook, tmp_path, *kept).returncode == 0
    out = tmp_path / "rigs" / gone
    if out.is_dir():
        shutil.rmtree(out)
    else:
        out.unlink()
    assert ran(hook, tmp_path, *kept).returncode == ends
