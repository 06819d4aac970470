"""What `survivors.yaml` says: an entry covers what it names, and nothing else."""

import pytest
import yaml

from tests.mutation.__main__ import EXPLAINED
from tests.mutation.explained import Explained
from tests.mutation.mutants import Mutant, mutants
from tests.mutation.run import ROOT

FILE = "riglint/mechanics/drum.py"


def _slack() -> Mutant:
    [one] = [one for one in mutants((ROOT / FILE).read_text()) if (one.was, one.now) == ("1e-9", "1.01e-09")]
    return one


@pytest.mark.parametrize(
    ("entry", "covered"),
    [
        ({"file": FILE, "change": r"1e-9 -> 1\.01e-09"}, True),
        ({"file": "riglint/mechanics/*.py", "change": r"1e-9 -> 1\.01e-09", "line": "_COUNT_SLACK = "}, True),
        ({"file": FILE, "change": r"1e-9 -> 1\.01e-09", "line": "NESTED"}, False),
        ({"file": FILE, "change": r"1e-9 -> 1\.0"}, False),
        ({"file": "riglint/mechanics/heat.py", "change": r"1e-9 -> 1\.01e-09"}, False),
        ({"file": FILE, "mutated": "_COUNT_SLACK = 1e-9"}, False),
    ],
)
def test_an_entry_covers_what_it_names(entry: dict[str, str], covered: bool) -> None:
    assert Explained(why="it is small", **entry).covers(FILE, _slack()) is covered


def test_an_entry_may_name_the_line_as_it_reads_then() -> None:
    line = _slack().of((ROOT / FILE).read_text()).splitlines()[_slack().line - 1]
    assert Explained(FILE, "it is small", mutated=line.strip()).covers(FILE, _slack())


@pytest.mark.parametrize("entry", [{}, {"mutated": "a", "change": "b"}, {"change": "b", "why": " "}])
def test_an_entry_without_a_reason_or_a_place_is_refused(entry: dict[str, str]) -> None:
    with pytest.raises(ValueError, match="needs a reason"):
        Explained(**{"file": FILE, "why": "it is small", **entry})


def test_every_entry_can_be_read() -> None:
    assert [Explained(**entry) for entry in yaml.safe_load(EXPLAINED.read_text())]
