"""A solution to try rules on, and folders with rulebooks of one's own."""

from functools import cache
from pathlib import Path

from riglint.plan.load import load_plan
from riglint.rulebook.find import MANIFEST
from riglint.solve.solution import Solution
from riglint.solve.solve import solve

EXAMPLE = Path(__file__).parents[2] / "examples" / "straight-pull.yaml"

RULE = '''"""A rule to try things with.

Its page.
"""

from riglint.outcome import Basis, Check, Grade, Result, Where
from riglint.rulebook.judge import Words, at_least, at_most, holds
from riglint.rulebook.limits import Limit
from riglint.rulebook.rule import rule

BASIS = Basis("derivation", "for trying")
WHERE = Where("winch", "winch", "/winch")
WORDS = Words("{component} has {measured}, over {limit}", "{component} is right", "not known", "Mend {component}")


@rule(
    title="Trial", grade=Grade.WARNING, guards="drum", basis=(BASIS,),
    limits=(Limit("most", 10.0, "m", "most of it", BASIS, "higher"),),
)
def NAME(solution, limits):
    BODY
'''


@cache
def solution() -> Solution:
    return solve(load_plan(EXAMPLE.read_bytes(), "plan.yaml").rig)


def rulebook_folder(folder: Path, bodies: dict[str, str], manifest: str = "", name: str = "trial") -> Path:
    """A folder with one rule for each name, whose generator has the body."""
    folder.mkdir(parents=True, exist_ok=True)
    (folder / MANIFEST).write_text(f'name: {name}\ntitle: A trial\nversion: "1"\n{manifest}')
    for rule, body in bodies.items():
        (folder / f"{rule}.py").write_text(RULE.replace("NAME", rule).replace("BODY", body))
    return folder


CHECK = 'yield at_most({measured}, limits["most"], "m", WHERE, WORDS)'


def checking(measured: float | None) -> str:
    """The body of a rule that checks this length against its limit of 10 m."""
    return CHECK.format(measured=measured)
