"""The parts of others that the tablet runs on: got with the ordinary clients, held to a lock file, kept in a cache."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from hashlib import sha256
from pathlib import Path
from shutil import which
from tempfile import TemporaryDirectory
from typing import Any, Final, NamedTuple

LOCK: Final = Path(__file__).with_name("lock.json")
CACHE_VARIABLE: Final = "RIGLINT_CACHE"
_PATIENCE_S: Final = 300


class Part(NamedTuple):
    """One file of the lock: what it is, who hands it out, and the digest that it must have."""

    name: str
    source: str  # npm or pip
    version: str
    file: str
    sha256: str
    licence: str
    wanted_for: dict[str, str]


class MissingPartsError(Exception):
    """Parts that are neither in the cache nor to be had, or that aren't what the lock says: a line each."""


def locked(lock: Path = LOCK) -> tuple[Part, ...]:
    """The parts that the lock file names."""
    entries: list[dict[str, Any]] = json.loads(lock.read_text("utf-8"))["parts"]
    return tuple(
        Part(e["name"], e["from"], e["version"], e["file"], e["sha256"], e["licence"], e.get("for", {}))
        for e in entries
    )


def cache_folder(chosen: Path | None = None) -> Path:
    """Where parts are kept: as told, as the environment says, or in the user's own cache."""
    told = chosen or os.environ.get(CACHE_VARIABLE)
    return Path(told) if told else _users_cache() / "riglint" / "tablet"


def _users_cache() -> Path:
    if sys.platform == "win32":
        return Path(os.environ.get("LOCALAPPDATA") or Path.home() / "AppData" / "Local")
    if sys.platform == "darwin":
        return Path.home() / "Library" / "Caches"
    return Path(os.environ.get("XDG_CACHE_HOME") or Path.home() / ".cache")


def gathered(cache: Path, parts: tuple[Part, ...] | None = None) -> dict[str, Path]:
    """Each part's file by name; what the cache lacks is got first. Raises MissingPartsError."""
    wanted = locked() if parts is None else parts
    cache.mkdir(parents=True, exist_ok=True)
    faults = [fault for part in wanted if (fault := _fault(part, cache))]
    if faults:
        raise MissingPartsError("\n".join(faults))
    return {part.name: cache / part.file for part in wanted}


def _fault(part: Part, cache: Path) -> str:
    """What keeps a part from being used; nothing once it is in the cache as the lock says."""
    kept = cache / part.file
    if kept.is_file() and _digest(kept) == part.sha256:
        return ""
    with TemporaryDirectory(dir=cache) as room:
        reason = _get(part, Path(room))
        got = Path(room) / part.file
        if not got.is_file():
            return f"{part.name} {part.version} is missing: {reason}"
        if _digest(got) != part.sha256:
            return f"{part.name} {part.version} isn't what the lock file says: its digest differs"
        got.replace(kept)  # whole or not at all
    return ""


def _digest(file: Path) -> str:
    return sha256(file.read_bytes()).hexdigest()


def _get(part: Part, room: Path) -> str:
    """Run the client; gives the reason where it fails."""
    client = _npm(part, room) if part.source == "npm" else _pip(part, room)
    if which(client[0]) is None:
        return f"it isn't in the cache, and `{part.source}` isn't here to get it"
    try:
        done = subprocess.run(  # noqa: S603 -- our own words and the lock file's, no shell
            client, cwd=room, capture_output=True, text=True, timeout=_PATIENCE_S, check=False
        )
    except (OSError, subprocess.TimeoutExpired) as error:
        return f"it isn't in the cache, and `{part.source}` failed: {type(error).__name__}"
    said = [line for line in done.stderr.splitlines() if "error" in line.lower()]
    return f"it isn't in the cache, and `{part.source}` could not get it" + (f" ({said[-1].strip()})" if said else "")


def _npm(part: Part, room: Path) -> list[str]:
    return ["npm", "pack", f"{part.name}@{part.version}", "--pack-destination", str(room)]


def _pip(part: Part, room: Path) -> list[str]:
    words = [sys.executable, "-m", "pip", "download", "--no-deps", "--only-binary=:all:", "--dest", str(room)]
    if part.wanted_for:
        wanted = part.wanted_for
        words += ["--platform", wanted["platform"], "--python-version", wanted["python"]]
        words += ["--implementation", "cp", "--abi", wanted["abi"]]
    return [*words, f"{part.name}=={part.version}"]
