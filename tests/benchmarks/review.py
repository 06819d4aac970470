"""How long a review takes beside merely reading the same files, what a cache saves, and whether memory grows.

`python tests/benchmarks/review.py [PLANS]` makes so many plans by chance (10,000 if not told), reviews them on one
core in processes of their own, and prints ratios of processor time. All of it in one run, since only ratios taken
together say anything.
"""

import os
import subprocess
import sys
import time
from collections.abc import Callable
from pathlib import Path
from random import Random
from tempfile import TemporaryDirectory

import yaml

ROOT = Path(__file__).parents[2]
sys.path.insert(0, str(ROOT))

from tests.strategies import made_plan, plan_text  # noqa: E402 -- found by the line above

MIB = 1024.0
PER_FOLDER = 500


def main() -> None:
    """Measure and print."""
    count = int(sys.argv[1]) if len(sys.argv) > 1 else 10_000
    with TemporaryDirectory() as name:
        folder = Path(name)
        plans, few = folder / "plans", folder / "few"
        write_plans(plans, count)
        write_plans(few, count // 10)
        measure(folder, plans, few, count)


def measure(folder: Path, plans: Path, few: Path, count: int) -> None:
    files = sorted(plans.rglob("*.yaml"))
    cache = ("--cache", str(folder / "cache"))
    before_s = cpu_of(lambda: read_all(files))
    bare_s, memory_kb = review(plans, "--no-cache")
    after_s = cpu_of(lambda: read_all(files))
    yaml_s = (before_s + after_s) / 2
    tell(f"{count} plans; reading them with PyYAML's C loader", f"{yaml_s / count * 1e3:.2f} ms a plan")
    tell("review, one core, no cache", f"{bare_s / yaml_s:.2f} times that ({bare_s / count * 1e3:.2f} ms a plan)")
    few_kb = review(few, "--no-cache")[1]
    tell(f"its memory, at {count // 10} and {count} plans", f"{few_kb / MIB:.1f} and {memory_kb / MIB:.1f} MiB")
    first_s, _ = review(plans, *cache)
    second_s, cached_kb = review(plans, *cache)
    tell("filling the cache", f"{first_s / bare_s:.2f} times a review without")
    tell("a second run with cache", f"{bare_s / second_s:.1f} times faster ({second_s / yaml_s:.2f} times reading)")
    tell("its memory", f"{cached_kb / MIB:.1f} MiB")
    for form in ("json", "sarif", "html"):
        once_s, form_kb = review(plans, *cache, "--as", form)
        again_s, _ = review(plans, *cache, "--as", form)
        took = f"{once_s / yaml_s:.2f}, then {again_s / yaml_s:.2f} times reading; {form_kb / MIB:.1f} MiB"
        tell(f"--as {form} from kept records", took)


def write_plans(folder: Path, count: int) -> None:
    for number in range(count):
        below = folder / f"yard_{number // PER_FOLDER}"
        below.mkdir(parents=True, exist_ok=True)
        (below / f"plan_{number}.yaml").write_text(plan_text(made_plan(Random(number))), "utf-8")


def read_all(files: list[Path]) -> None:
    for file in files:
        yaml.load(file.read_bytes(), Loader=yaml.CSafeLoader)


def cpu_of(work: Callable[[], None]) -> float:
    begun = time.process_time()
    work()
    return time.process_time() - begun


def review(folder: Path, *words: str) -> tuple[float, int]:
    """Processor time and the most memory of one review in a process of its own, in seconds and KiB."""
    call = [sys.executable, "-m", "riglint", "review", str(folder), "--jobs", "1", "--quiet", *words]
    child = subprocess.Popen(call, cwd=ROOT, stdout=subprocess.DEVNULL)
    _, status, used = os.wait4(child.pid, 0)
    child.returncode = os.waitstatus_to_exitcode(status)
    if child.returncode > 1:
        tell(f"review {' '.join(words)}", f"ended with {child.returncode}: some plan or rule failed")
    return used.ru_utime + used.ru_stime, used.ru_maxrss


def tell(what: str, text: str) -> None:
    sys.stdout.write(f"{what + ':':<58} {text}\n")
    sys.stdout.flush()


if __name__ == "__main__":
    main()
