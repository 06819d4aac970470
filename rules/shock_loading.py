"""What puts a jerk into a winch line.

Everything in the rig is judged for a steady pull. A jerk puts a multiple of it in for a
moment, and the weakest part decides.

How it is judged: a load that takes much more to break away than to keep moving leaps when
it comes free, and the line goes slack and catches it again: breakaway may be at most 2
times the steady resistance. Where a resistance is stated without its breakaway, that
can't be told. Straps that are made to stretch, and rope wound on loose, have rules of
their own.

    ratio = breakaway / steady

Doctrine says that rigging is never shock loaded (FM 4-30.31, read second hand), without a
figure. 2 times is common practice.

What to do: take up slack by hand and by inches; dig the load free first, so that it
starts gently.

Worked example: 38 kN to break away, 20 kN to keep moving.
breakaway = 38 kN; steady = 20 kN; ratio = breakaway / steady = 1.9
"""

from riglint.outcome import Formula, Where
from riglint.rulebook.author import Basis, Checks, Grade, Limit, Limits, Solution, StageSolution, Worse, place, rule
from riglint.rulebook.judge import Words, at_most
from riglint.solve.rope import stages

_BASIS = Basis("handbook", "no shock loading", "fm-4-30-31", "safety of rigging", "winching", "read second hand")
_LEAP = Basis("common practice", "breakaway of more than 2 times the steady pull makes a load leap", scope="winching")

_RATIO = Formula("ratio", "breakaway / steady", (("breakaway", "N"), ("steady", "N")), "1")
_WORDS = Words(
    "{name} takes {measured} times as much to break away as to keep moving, more than {limit}: it will leap",
    "{name} takes {measured} times as much to break away as to keep moving",
    "whether {name} leaps when it breaks away can't be told",
    "Dig it free or break it out first, and take up the pull slowly",
)


@rule(
    title="Shock loading", grade=Grade.CAUTION, guards="line", basis=(_BASIS, _LEAP),
    limits=(Limit("leap", 2.0, "1", "breakaway over steady resistance", _LEAP, "higher"),),
    worse=Worse.by(higher="bodies/*/resistance/breakaway", taken_away="bodies/*/resistance/breakaway"),
)  # fmt: skip
def shock_loading(solution: Solution, limits: Limits) -> Checks:
    hauling = [stage for stage in stages(solution) if stage.stage.works == "hauling"]
    yield from _leap(hauling[0], limits["leap"]) if hauling else ()


def _leap(stage: StageSolution, limit: float) -> Checks:
    load = stage.stage.load
    stated = load.facts.resistance
    if stated is None:
        return
    where = Where("load", load.name, f"{load.pointer}/resistance", "expected", stage.stage.index, 0.0)
    if stated.breakaway is None:
        missing = (place(where.pointer, "breakaway"),)
        yield at_most(None, limit, "1", where, _WORDS, missing=missing, grade=Grade.NOTICE)
        return
    ratio = stated.breakaway.high / stated.steady.low
    working = (_RATIO.step(ratio, stated.breakaway.high, stated.steady.low),)
    yield at_most(ratio, limit, "1", where, _WORDS, working=working, basis=_LEAP)
