"""Every remedy of so many failing plans made by chance, tried: `python -m tests.remedy LOG [HOW_MANY]`.

One line of JSON in the log for each plan, written when it is done, so that a run that was stopped goes on where it
was. Ends with 1 if a remedy doesn't do what it says.
"""

import json
import sys
import traceback
from collections import Counter
from itertools import count
from pathlib import Path

from tests.remedy import cases
from tests.remedy.chance import held

MANY = 1000


def run(log: Path, many: int) -> int:
    done = {row["seed"]: row for row in map(json.loads, log.read_text().splitlines())} if log.exists() else {}
    rows = []
    with log.open("a") as out:
        for seed in count():
            if seed not in done:
                done[seed] = _row(seed)
                print(json.dumps(done[seed]), file=out, flush=True)
            rows.append(done[seed])
            if sum(row["told"].get("failing", 0) for row in rows) >= many:
                return _report(rows)
    raise AssertionError("seeds don't end")


def _row(seed: int) -> dict:
    try:
        told, wrong = held(seed)
    except Exception:
        told, wrong = Counter(), [traceback.format_exc()]
    cases.forget()
    return {"seed": seed, "told": dict(told), "wrong": wrong}


def _report(rows: list[dict]) -> int:
    total, wrong = Counter(plans=len(rows)), 0
    for row in rows:
        total.update(row["told"])
        wrong += len(row["wrong"])
        for words in row["wrong"]:
            print(f"seed {row['seed']}: {words}")  # noqa: T201
    counts = ", ".join(f"{what} {number}" for what, number in sorted(total.items()))
    print(f"{counts}; wrong {wrong}")  # noqa: T201
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(run(Path(sys.argv[1]), int(sys.argv[2]) if len(sys.argv) > 2 else MANY))
