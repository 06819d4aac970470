"""How much of what rules and mechanics say is held by a test: `python -m tests.mutation [--only GLOB] [--sample N]`."""

import argparse
import os
import random
import sys
import time
from fnmatch import fnmatch

from tests.mutation import quick
from tests.mutation.mutants import Mutant, mutants
from tests.mutation.run import ROOT, caught, copy_of_the_tree, tests_for

FOLDERS = ("rules", "riglint/mechanics")


def main() -> int:
    """Try mutants and list those that no test catches."""
    asked = _asked()
    os.nice(10)
    _warm()
    chosen = _chosen(asked.only, asked.sample, asked.seed)
    survivors = []
    began = time.monotonic()
    with copy_of_the_tree() as tree:
        for file in dict.fromkeys(file for file, _ in chosen):
            rounds, text = tests_for(tree, file), (tree / file).read_text()
            if caught(tree, rounds) or (file.startswith("rules/") and quick.caught(file, text)):
                print(f"{file}: its tests fail as it is; left out", flush=True)  # noqa: T201
                chosen = [one for one in chosen if one[0] != file]
                continue
            for mutant in [mutant for own, mutant in chosen if own == file]:
                (tree / file).write_text(mutant.of(text))
                if not (file.startswith("rules/") and quick.caught(file, mutant.of(text))) and not caught(tree, rounds):
                    survivors.append((file, mutant))
                    print(_told(file, mutant, text), flush=True)  # noqa: T201
            (tree / file).write_text(text)
    held = len(chosen) - len(survivors)
    share = held / len(chosen) if chosen else 1.0
    print(f"{held} of {len(chosen)} mutants caught, {share:.1%}, in {time.monotonic() - began:.0f} s")  # noqa: T201
    return 0 if share >= asked.least else 1


def _asked() -> argparse.Namespace:
    parser = argparse.ArgumentParser(prog="python -m tests.mutation", description=__doc__)
    parser.add_argument("--only", default="*", help="files, such as `rules/drum_*`")
    parser.add_argument("--sample", type=int, help="so many mutants, drawn by chance")
    parser.add_argument("--seed", type=int, default=1, help="of the draw")
    parser.add_argument("--least", type=float, default=0.0, help="fail below this share caught")
    return parser.parse_args()


def _warm() -> None:
    """Import what every child would import, and nothing that is mutated."""
    import hypothesis
    import jsonschema
    import numpy
    import pint
    import pydantic
    import pytest
    import scipy.optimize  # type: ignore[import-untyped]
    import syrupy
    import yaml

    assert all((hypothesis, jsonschema, numpy, pint, pydantic, pytest, scipy, syrupy, yaml))
    assert not any(name.partition(".")[0] == "riglint" for name in sys.modules)


def _chosen(only: str, sample: int | None, seed: int) -> list[tuple[str, Mutant]]:
    files = sorted(str(file.relative_to(ROOT)) for folder in FOLDERS for file in (ROOT / folder).glob("*.py"))
    every = [(file, mutant) for file in files if fnmatch(file, only) for mutant in mutants((ROOT / file).read_text())]
    if sample is None or sample >= len(every):
        return every
    return sorted(random.Random(seed).sample(every, sample))


def _told(file: str, mutant: Mutant, text: str) -> str:
    line = text.splitlines()[mutant.line - 1].strip()
    return f"{file}:{mutant.line}: `{mutant.was}` -> `{mutant.now}` in  {line}"


if __name__ == "__main__":
    sys.exit(main())
