"""The runner on mechanics: what changes nothing is not caught, and what changes something is."""

import subprocess
import sys

import pytest

from tests.mutation.run import ROOT

TRY = """
import sys
from tests.mutation import within
from tests.mutation.mutants import mutants
from tests.mutation.run import ROOT

file, was, now = sys.argv[1:]
[mutant] = [one for one in mutants((ROOT / file).read_text()) if one.was == was][:1]
tried = within.left([(file, mutant._replace(now=now))], ("tests/mechanics/test_linear.py",), 5)
print(len(tried))
"""


@pytest.mark.parametrize(
    ("file", "was", "now", "left"),
    [
        ("linear.py", "/", "*", 0),
        ("linear.py", "/", "/", 1),
        ("strength.py", "/", "/", 1),  # a module that these tests don't load
        ("strength.py", "/", "*", 1),
    ],
)
def test_only_what_makes_a_test_fail_is_caught(file: str, was: str, now: str, left: int) -> None:
    tried = subprocess.run(
        [sys.executable, "-c", TRY, f"riglint/mechanics/{file}", was, now],
        cwd=ROOT, capture_output=True, text=True, check=True,
    )  # fmt: skip
    assert int(tried.stdout.split()[-1]) == left
