"""The JSON Schemas: listed, printed, and those that are generated from the models written or checked."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

from riglint.commands.exits import Exit
from riglint.commands.output import complain, emit
from riglint.shipped import shipped

_END = ".schema.json"


def run(name: str | None, *, write: bool, check: bool) -> Exit:
    """Do what was asked for and give the code to end with."""
    folder = shipped("schemas")
    if write or check:
        return _generate(folder, write=write)
    if name is None:
        emit("".join(f"{known}\n" for known in _known(folder)))
        return Exit.CLEAR
    if name not in _known(folder):
        return complain(f"there is no schema `{name}`; there is {', '.join(_known(folder))}", Exit.WRONG_CALL)
    emit((folder / f"{name}{_END}").read_text("utf-8"))
    return Exit.CLEAR


def generated() -> dict[str, Callable[[], dict[str, Any]]]:
    """Schemas that are made from the models; the others are written by hand."""
    from riglint.debrief.schema import task_schema  # noqa: PLC0415 -- only to generate
    from riglint.estimate.schema import estimate_schema  # noqa: PLC0415
    from riglint.house.schema import house_schema  # noqa: PLC0415
    from riglint.kit.schema import kit_schema  # noqa: PLC0415
    from riglint.plan.schema import plan_schema  # noqa: PLC0415

    return {
        "estimate": estimate_schema, "house": house_schema, "kit": kit_schema, "plan": plan_schema, "task": task_schema,
    }  # fmt: skip


def as_text(schema: dict[str, Any]) -> str:
    """A schema as it stands in its file."""
    return json.dumps(schema, indent=2, ensure_ascii=False) + "\n"


def _generate(folder: Path, *, write: bool) -> Exit:
    stale = []
    for name, made in generated().items():
        file, text = folder / f"{name}{_END}", as_text(made())
        if not file.exists() or file.read_text("utf-8") != text:
            stale.append(name)
            if write:
                file.write_text(text, "utf-8")
    if stale and not write:
        return complain(f"not current: {', '.join(stale)}; run `riglint schemas --write`", Exit.HALTED)
    return Exit.CLEAR


def _known(folder: Path) -> list[str]:
    return sorted(file.name.removesuffix(_END) for file in folder.glob(f"*{_END}"))
