"""Reports as a machine would write them whose mathematical functions differ in the last place.

    python -m tests.report.last_bit SEED

The C standard leaves it to each library how near its functions come (ISO/IEC 9899, 5.2.4.2.2), and processors choose
between variants; the libraries in use keep to one unit in the last place (glibc's manual, "Known Maximum Errors in
Math Functions"). So each result here is moved by one unit up, down or not at all, the same for the same argument as a
library would have it, and odd functions stay odd. Sums are moved as well: from Python 3.12 `sum` rounds otherwise.
Seed 0 moves nothing. Writes one line of JSON: the report of each plan by its name.
"""

from __future__ import annotations

import builtins
import json
import math
import sys
from collections.abc import Callable, Iterable
from hashlib import blake2b
from pathlib import Path
from random import Random
from typing import Any

EXAMPLES = Path(__file__).parents[2] / "examples"
# Twenty as they come, and some with ties, sums that cancel out and legs in one line.
MADE = (*range(20), 96, 119, 189, 212, 223, 260, 262, 371, 400, 416)
ODD = ("sin", "tan", "asin", "atan", "atan2")
EVEN = ("cos",)
OTHERS = ("acos", "exp", "log", "log10", "expm1", "log1p", "pow")
LENGTHS = ("hypot", "dist")


class Library:
    """Mathematical functions of another machine."""

    def __init__(self, seed: int) -> None:
        self.seed = seed
        self.sum = builtins.sum

    def moved(self, value: float, size: float, *of: object) -> float:
        if value in (0.0, 1.0) or not math.isfinite(value):
            return value  # sin 0, exp 0: exact in every library
        way = blake2b(repr((self.seed, *of)).encode(), digest_size=1).digest()[0] % 3 - 1
        return value + way * math.ulp(size)

    def function(self, name: str) -> Callable[..., float]:
        exact: Callable[..., float] = getattr(math, name)
        most = 1.0 if name in ("sin", "cos") else math.inf

        def moved(*of: float) -> float:
            """Even in the first argument as it stands here, with its sign put back where the function is odd."""
            if name in EVEN or name in ODD:
                value = exact(abs(of[0]), *of[1:])
                value = max(-most, min(most, self.moved(value, value, name, abs(float(of[0])), *of[1:])))
                return math.copysign(1.0, of[0]) * value if name in ODD else value
            value = exact(*of)
            return self.moved(value, value, name, *map(float, of))

        return moved

    def length(self, name: str) -> Callable[..., float]:
        exact: Callable[..., float] = getattr(math, name)

        def moved(*of: Any) -> float:
            parts = [abs(a - b) for a, b in zip(*of, strict=True)] if name == "dist" else [abs(a) for a in of]
            value = exact(*of)
            return self.moved(value, value, name, *sorted(parts)) if self.sum(map(bool, parts)) > 1 else value

        return moved

    def added(self, items: Iterable[Any], start: Any = 0) -> Any:
        terms = list(items)
        total = self.sum(terms, start)
        if not isinstance(total, float) or len(terms) < 3 or not math.isfinite(total):
            return total
        return self.moved(total, max(map(abs, terms)), *terms)

    def put_in(self) -> None:
        """In place of this machine's; to be called before riglint is imported."""
        for name in (*ODD, *EVEN, *OTHERS):
            setattr(math, name, self.function(name))
        for name in LENGTHS:
            setattr(math, name, self.length(name))
        builtins.sum = self.added  # type: ignore[assignment]


def reports() -> dict[str, str]:
    from riglint.tablet.engine import Engine
    from tests.strategies import made_plan, plan_text

    texts = {path.name: path.read_text("utf-8") for path in sorted(EXAMPLES.glob("*.yaml"))}
    texts |= {f"made-{seed}.yaml": plan_text(made_plan(Random(seed))) for seed in MADE}
    engine = Engine(EXAMPLES)
    options = {"today": "2026-03-14", "report": True}
    return {
        name: json.loads(engine.work(text, json.dumps({"name": name, **options})))["report"]
        for name, text in texts.items()
    }


if __name__ == "__main__":
    if int(sys.argv[1]):
        Library(int(sys.argv[1])).put_in()
    sys.stdout.write(json.dumps(reports()) + "\n")
