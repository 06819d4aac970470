"""Spoilt plans, the same for the same seed: slips of the hand in the text, and odd values in the data."""

import json
from copy import deepcopy
from pathlib import Path
from random import Random
from typing import Any

from riglint.reading.document import read_document
from riglint.reading.problems import ReadingFailed
from tests.strategies import made_plan, plan_text

SHIPPED = sorted((Path(__file__).parents[2] / "examples").glob("*.yaml"))
SOURCES = [path.read_bytes() for path in [*SHIPPED, Path(__file__).parent / "outline.yaml"]]

SCRAPS = [
    b"", b" ", b"\n", b"\n  ", b": ", b"- ", b"#", b"{", b"}", b"[", b"]", b",", b"'", b'"', b"|\n", b">", b"&a ",
    b"*a",
    b"!!python/object ", b"<<: ", b"? ", b"%YAML 1.1\n", b"---\n", b"...\n", b"\t", b"\r", b"\x00", b"\xff",
    b"\xef\xbb\xbf",
    b"\xc2\x85", b"\xe2\x80\xa8", b"0", b"-", b"1e999", b".nan", b"null", b"true", b"~", b"9" * 400,
    b"[" * 70, b"{a: " * 70,
    "±".encode(), "\u2032".encode(), "😀".encode(), b" to ", b" m", b" kN", b" deg", b"winch", b"ground",
    b".bore", b"\\ud800",
]  # fmt: skip
VALUES: list[Any] = [
    None, True, False, 0, -1, 1e308, 10**30, 0.1, "", " ", "0 m", "-3 m", "1 m to 2 m", "1e9 m", "5 kN", "0 %", "100 %",
    "9 t", "360 deg", "winch", "ground", "x.bore", [], {}, [[]], [None], {"": 1}, {"a": {"a": {}}}, ["winch", "winch"],
    "block", "ring", "bridle", "a" * 3000, "17 m bearing 3 deg from ash", ["0 m", "0 m"], ["1 m", "2 m", "3 m"],
]  # fmt: skip


def mutant(seed: int) -> bytes:
    """One spoilt plan; now and then several spoils at once, and now and then none that shows."""
    random = Random(seed)
    source = random.choice(SOURCES) if random.random() < 0.6 else plan_text(made_plan(random)).encode()
    for _ in range(random.choice((1, 1, 1, 2, 5))):
        source = (spoilt_text if random.random() < 0.5 else spoilt_data)(source, random)
    return source


def spoilt_text(source: bytes, random: Random) -> bytes:
    """A slice of the bytes cut out, doubled, moved, or replaced by a scrap."""
    start = random.randrange(len(source) + 1)
    end = min(len(source), start + random.choice((0, 1, 2, 5, 40)))
    cut = source[start:end]
    kept = source[:start] + source[end:]
    way = random.randrange(4)
    if way == 0:
        return kept
    if way == 1:
        return source[:end] + cut * random.choice((1, 2, 30)) + source[end:]
    if way == 2:
        to = random.randrange(len(kept) + 1)
        return kept[:to] + cut + kept[to:]
    return source[:start] + random.choice(SCRAPS) + source[end:]


def spoilt_data(source: bytes, random: Random) -> bytes:
    """A value replaced, dropped, renamed or swapped with another, written as JSON, which is YAML as well."""
    try:
        data = deepcopy(read_document(source, "plan.yaml").data)
    except ReadingFailed:  # already spoilt: then only the text can be spoilt further
        return spoilt_text(source, random)
    places = list(holders(data))
    if not places:
        return spoilt_text(source, random)
    (holder, key), (other, other_key) = random.choice(places), random.choice(places)
    way = random.randrange(4)
    if way == 0:
        holder[key] = deepcopy(random.choice(VALUES))
    elif way == 1:
        holder[key], other[other_key] = deepcopy(other[other_key]), deepcopy(holder[key])
    elif way == 2 and isinstance(holder, dict):
        holder[random.choice([str(other_key), f"{key}s", "", "kind", "winch"])] = holder.pop(key)
    else:
        del holder[key]
    return json.dumps(data, ensure_ascii=random.random() < 0.5).encode("utf-8", "surrogatepass")


def holders(data: Any) -> Any:
    """Every place of a value: its mapping or list, and its key there."""
    for key, value in data.items() if isinstance(data, dict) else enumerate(data) if isinstance(data, list) else ():
        yield data, key
        yield from holders(value)
