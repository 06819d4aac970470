"""Checking a rulebook's own YAML files against their JSON Schema. Needs jsonschema: not on the hot path."""

from __future__ import annotations

import json
from collections.abc import Iterable

from jsonschema import Draft202012Validator

from riglint.reading.document import Document
from riglint.reading.problems import Problem
from riglint.shipped import shipped


def faults(document: Document, schema: str) -> list[Problem]:
    """Everything in the document that its schema (`rulebook`, `sources`) doesn't take, by place."""
    text = (shipped("schemas") / f"{schema}.schema.json").read_text("utf-8")
    validator = Draft202012Validator(json.loads(text))
    return sorted(
        document.problem(
            _pointer(error.absolute_path), error.message, f"`riglint schemas {schema}` shows what it takes"
        )
        for error in validator.iter_errors(document.data)
    )


def _pointer(path: Iterable[object]) -> str:
    steps = [str(step).replace("~", "~0").replace("/", "~1") for step in path]
    return "".join(f"/{step}" for step in steps)
