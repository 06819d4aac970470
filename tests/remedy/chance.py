"""Plans made by chance, with remedies held to what they say; every other one with a kit to take gear from."""

from collections import Counter
from random import Random

from riglint.outcome import Result
from tests.remedy.cases import does_what_it_says, worked_out
from tests.remedy.kits import lends, made_kit
from tests.strategies import made_plan, plan_text


def case_of(seed):
    random = Random(seed)
    plan = made_plan(random, complete=seed % 3 > 0)
    if seed % 2:
        return worked_out(plan_text(plan | {"kit": "kit.yaml"}), lends(made_kit(random)))
    return worked_out(plan_text(plan))


def held(seed):
    """All remedies of one plan, each tried; gives how many there were, by their ways and by what was wrong."""
    case = case_of(seed)
    told = Counter(failing=any(f.result is Result.FAILED for f in case.inspection.findings))
    wrong = []
    for remedy in case.remedies():
        told["patch" if remedy.patch else "need"] += 1
        told[f"way {remedy.way}"] += 1
        try:
            does_what_it_says(case, remedy)
        except AssertionError as error:
            finding = case.inspection.findings[remedy.finding]
            wrong.append(f"{remedy.way} for {finding.rule}, {finding.check.where.name}: {error}")
    return told, wrong
