"""How much of what rules and mechanics say is held by a test: `python -m tests.mutation [--only GLOB] [--sample N]`.

What survives and changes nothing that can be seen is in `survivors.yaml`, each with the reason; the rest is told.
"""

import argparse
import random
import sys
import time
from collections.abc import Iterator
from fnmatch import fnmatch
from pathlib import Path

import yaml

from tests.mutation import quick, within
from tests.mutation.explained import Explained
from tests.mutation.mutants import Mutant, mutants
from tests.mutation.run import ROOT, caught, copy_of_the_tree, tests_for

FOLDERS = ("rules", "riglint/mechanics")
EXPLAINED = Path(__file__).parent / "survivors.yaml"
Tried = tuple[str, Mutant]


def main() -> int:
    """Try mutants, and tell those that no test catches and nothing explains."""
    asked = _asked()
    chosen = _chosen(asked.only, asked.sample, asked.seed)
    began = time.monotonic()
    left = [one for one in chosen if one[0].startswith("rules/") and not quick.caught(*_text(one))]
    _say(f"{len(left)} mutants of rules are left by the rules' own cases, after {time.monotonic() - began:.0f} s")
    mechanics = [one for one in chosen if not one[0].startswith("rules/")]
    for tests, examples in within.ROUNDS:
        mechanics = within.left(mechanics, tests, examples) if mechanics else []
        _say(f"{len(mechanics)} of mechanics are left by {', '.join(tests)}, after {time.monotonic() - began:.0f} s")
    left += [one for one in mechanics if not within.was_tried_in_full(*one)]
    survivors = [one for one in mechanics if within.was_tried_in_full(*one)] + list(_by_the_tree(left))
    return _report(chosen, sorted(survivors), time.monotonic() - began, asked.least)


def _by_the_tree(tried: list[Tried]) -> Iterator[Tried]:
    """Those that survive in a copy of the tree, which is imported anew for each."""
    with copy_of_the_tree() as tree:
        for file, mutant in tried:
            text = (ROOT / file).read_text()
            (tree / file).write_text(mutant.of(text))
            if not caught(tree, tests_for(tree, file)):
                yield file, mutant
            (tree / file).write_text(text)


def _report(chosen: list[Tried], survivors: list[Tried], seconds: float, least: float) -> int:
    entries = [Explained(**entry) for entry in yaml.safe_load(EXPLAINED.read_text())]
    unexplained = [one for one in survivors if not any(entry.covers(*one) for entry in entries)]
    for file, mutant in unexplained:
        _say(f"{file}:{mutant.line}: `{mutant.was}` -> `{mutant.now}` in  {_line(file, mutant)}")
    files = {file for file, _ in chosen}
    for entry in entries:
        if entry.file in files and not any(entry.covers(*one) for one in survivors):
            _say(f"{entry.file}: explained and not met: {entry.mutated or entry.change}")
    held = len(chosen) - len(survivors)
    share = held / len(chosen) if chosen else 1.0
    explained = len(survivors) - len(unexplained)
    _say(f"{held} of {len(chosen)} mutants caught, {share:.1%}; of those that survive {explained} are explained and"
         f" {len(unexplained)} are not; {seconds:.0f} s")  # fmt: skip
    return 0 if share >= least and not unexplained else 1


def _line(file: str, mutant: Mutant) -> str:
    return (ROOT / file).read_text().splitlines()[mutant.line - 1].strip()


def _text(one: Tried) -> tuple[str, str]:
    return one[0], one[1].of((ROOT / one[0]).read_text())


def _say(text: str) -> None:
    print(text, flush=True)  # noqa: T201


def _asked() -> argparse.Namespace:
    parser = argparse.ArgumentParser(prog="python -m tests.mutation", description=__doc__)
    parser.add_argument("--only", default="*", help="files, such as `rules/drum_*`")
    parser.add_argument("--sample", type=int, help="so many mutants, drawn by chance")
    parser.add_argument("--seed", type=int, default=1, help="of the draw")
    parser.add_argument("--least", type=float, default=0.95, help="fail below this share caught")
    return parser.parse_args()


def _chosen(only: str, sample: int | None, seed: int) -> list[Tried]:
    files = sorted(str(file.relative_to(ROOT)) for folder in FOLDERS for file in (ROOT / folder).glob("*.py"))
    every = [(file, mutant) for file in files if fnmatch(file, only) for mutant in mutants((ROOT / file).read_text())]
    if sample is None or sample >= len(every):
        return every
    return sorted(random.Random(seed).sample(every, sample))


if __name__ == "__main__":
    sys.exit(main())
