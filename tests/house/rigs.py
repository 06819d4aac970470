"""Folders with a house file, a rulebook of one rule a result, and a plan."""

from datetime import date
from pathlib import Path

from riglint.house.context import Context, Contexts
from riglint.outcome import Finding, Grade, Inspection
from riglint.solve.solve import solve
from tests.rulebook.rigs import rulebook_folder

TODAY = date(2026, 6, 1)
PLAN = """\
rig_plan: 1
title: Van out of a ditch
bodies:
  van: {moves: {distance: 5 m, bearing: 0 deg}, resistance: {steady: 9 kN}}
points:
  eye: {on: van, at: [0 m, 0 m]}
  anchor: {on: ground, at: [30 m, 0 m]}
winch: {mounted: anchor, stall_pull: 20 kN, rated_layer: 1}
lines: {haul: {pieces: [main: {length: 40 m}], path: [winch, [bow, eye]]}}
connectors: {bow: {kind: bow shackle}}
"""
BOW = 'Where("connector", "bow", "/connectors/bow")'
RULES = {
    "danger": f"yield holds(False, {BOW}, WORDS, grade=Grade.DANGER)",
    "warning": f"yield holds(False, {BOW}, WORDS)",
    "unknown": f'yield holds(None, {BOW}, WORDS, missing=("a fact",))',
    "unknown_danger": f'yield holds(None, {BOW}, WORDS, missing=("a fact",), grade=Grade.DANGER)',
    "good": f"yield holds(True, {BOW}, WORDS)",
    "measure": 'yield at_most(11.0, limits["most"], "m", WHERE, WORDS)',
}


def house(folder: Path, text: str, rules: tuple[str, ...] = ("warning", "good")) -> Path:
    """A house with the rules, and a plan two folders down. Gives the plan's file."""
    rulebook_folder(folder / "rules", {name: RULES[name] for name in rules})
    (folder / "house.yaml").write_text(f"rig_house: 1\ntitle: A house\nrulebooks: [rules]\n{text}")
    plan = folder / "jobs" / "2026" / "ditch.yaml"
    plan.parent.mkdir(parents=True, exist_ok=True)
    plan.write_text(PLAN)
    return plan


def context(plan: Path, today: date | None = TODAY) -> Context:
    """With the house's rules alone: the standard ones would find a lot in so small a plan."""
    return Contexts(today=today, standard=False).of(plan)


def inspection(plan: Path, today: date | None = TODAY, halting: Grade = Grade.WARNING) -> Inspection:
    found = context(plan, today)
    return found.inspect(solve(found.load(plan.read_bytes(), str(plan)).rig), halting)


def waiver(rule: str = "warning", **other: str) -> str:
    facts = {"plan": "jobs/**", "component": "bow", "reason": "tested", "allowed_by": "foreman", "until": "2026-06-01"}
    entry = ", ".join(f"{key}: {value!r}" for key, value in (facts | other).items())
    return f"waivers: [{{rule: {rule}, {entry}}}]\n"


def of(found: Inspection, rule: str) -> list[Finding]:
    return [finding for finding in found.findings if finding.rule == rule]
