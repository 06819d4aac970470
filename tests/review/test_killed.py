"""Runs that are killed at any moment leave the last report or a whole new one, and a cache that isn't broken."""

import os
import shutil
import signal
import subprocess
import sys
import time
from collections import Counter
from random import Random

import pytest

from tests.review.rigs import COMMAND, ROOT, folder_of_plans, report

TIMES = 50
LAST = b"the last report"


def killed(words, after_s, env):
    """A run in a group of its own, killed with all its processes; False: it had ended by then."""
    words = [sys.executable, "-c", COMMAND, *words]
    run = subprocess.Popen(
        words, cwd=ROOT, env=env, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, start_new_session=True
    )
    try:
        run.wait(after_s)
        return False
    except subprocess.TimeoutExpired:
        os.killpg(run.pid, signal.SIGKILL)
        run.wait()
        return True


@pytest.mark.slow
def test_killed_at_fifty_moments(tmp_path):
    plans, out, cache = folder_of_plans(tmp_path / "plans", 24), tmp_path / "report", tmp_path / "cache"
    env = os.environ | {"PYTHONPATH": str(ROOT)}
    whole = {form: report([plans], form).encode() for form in ("json", "sarif", "html", "text")}
    began = time.monotonic()
    words = [str(plans), "--on", "2026-06-01", "--jobs", "2", "--cache", str(cache), "--out", str(out), "--as"]
    killed([*words, "json"], 600, env)
    takes_s = time.monotonic() - began
    random, outcomes = Random(0), Counter()
    while outcomes["killed"] < TIMES:
        if outcomes.total() % 10 == 0:
            shutil.rmtree(cache, ignore_errors=True)
        out.write_bytes(LAST)
        form = random.choice(sorted(whole))
        was_killed = killed([*words, form], random.uniform(0.02, 0.8) * takes_s, env)
        held = out.read_bytes()
        assert held in (LAST, whole[form])
        outcomes["killed" if was_killed else "ended"] += 1
        assert report([plans], form, cache=cache).encode() == whole[form]
