"""Whatever stands in a kit, a house file or a plan that names gear, reading it ends with problems or a rig."""

import random

from riglint.house.context import Contexts
from riglint.kit.read import read_kit
from riglint.plan.load import load_plan
from riglint.reading.problems import ReadingFailed
from tests.house.rigs import house, waiver
from tests.kit.rigs import KIT, PLAN

ODD = (
    "null", "[]", "{}", "true", "7", "''", "[[1]]", "{from_kit: S-1}", "from_kit", "-1", "1e9", "~", "S-1",
    "[a, {b: c}]",
)  # fmt: skip


def spoilt(text: str, seed: int) -> str:
    """Some words of the text, or pieces of them, put in place of others."""
    chance = random.Random(seed)
    words = text.split(" ")
    for _ in range(chance.choice((1, 1, 2))):
        at = chance.randrange(len(words))
        put = chance.choice([*ODD, chance.choice(words), ""])
        words[at] = put + (words[at][-1:] if chance.random() < 0.6 and words[at][-1:] in ",}]\n" else "")
    return " ".join(words)


def told(failed: ReadingFailed) -> bool:
    return all(p.line >= 1 and p.what and p.serves and "\n" not in p.text() for p in failed.problems)


def test_spoilt_kits_and_plans():
    loaded = untold = 0
    for seed in range(600):
        plan, text = (PLAN, spoilt(KIT, seed)) if seed % 2 else (spoilt(PLAN, seed), KIT)
        try:
            load_plan(plan, "plan.yaml", lambda _, text=text: read_kit(text, "kit.yaml"))
            loaded += 1
        except ReadingFailed as failed:
            untold += not told(failed)
    assert untold == 0
    assert 0 < loaded < 600


def test_spoilt_house_files(tmp_path):
    text = "limits: {warning: {most: 9 m}}\nset_aside: {good: measured by hand}\nkit: kit.yaml\n" + waiver()
    loaded = untold = 0
    for seed in range(60):
        plan = house(tmp_path, spoilt(text, seed))
        try:
            Contexts(standard=False).of(plan)
            loaded += 1
        except ReadingFailed as failed:
            untold += not told(failed)
    assert untold == 0
    assert 0 < loaded < 60
