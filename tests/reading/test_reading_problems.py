"""Problems: one line each, in order, never none."""

import pytest

from riglint.reading.problems import Problem, ReadingFailed, quoted


def problem(line, what="it is wrong"):
    return Problem("plan.yaml", line, 2, "/a", what, "mend it")


def test_a_problem_reads_as_one_line():
    assert problem(3).text() == "plan.yaml:3:2: /a: it is wrong; mend it"
    assert Problem("plan.yaml", 1, 1, "", "w", "s").text() == "plan.yaml:1:1: w; s"


def test_problems_come_sorted_and_once():
    assert ReadingFailed([problem(9), problem(2), problem(9)]).problems == (problem(2), problem(9))


def test_a_failure_without_problems_can_t_be_raised():
    with pytest.raises(ValueError, match="problems is empty"):
        ReadingFailed([])


@pytest.mark.parametrize(
    ("text", "shown"),
    [("a", "`a`"), ("a\nb\x1b", "`a\\nb\\x1b`"), ("é", "`é`"), ("x" * 60, "`" + "x" * 47 + "…`")],
)
def test_a_quote_stays_short_and_on_its_line(text, shown):
    assert quoted(text) == shown
