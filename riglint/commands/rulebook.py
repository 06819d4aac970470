"""Printing the rulebook: every rule with its grade, basis and limits, or one rule's page."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

from riglint.commands.exits import Exit
from riglint.commands.output import complain, emit
from riglint.house.context import Contexts
from riglint.reading.nearest import nearest
from riglint.reading.problems import ReadingFailed
from riglint.report.rule_pages import entry, listing, page
from riglint.rulebook.book import RulebookError


def show(slug: str | None, form: str, folders: tuple[Path, ...], house: Path | None = None) -> Exit:
    """Print what was asked for and give the code to end with."""
    try:
        context = Contexts(folders, house).of(None)
        book, sources = context.rulebook, context.sources
    except (RulebookError, ReadingFailed) as error:
        return complain(str(error), Exit.WRONG_CALL)
    rule = book.rule(slug) if slug else None
    if slug and rule is None:
        near = nearest(slug, [known.slug for known in book.rules])
        hint = f"; perhaps `{near}`" if near else ""
        return complain(f"there is no rule `{slug}`{hint}", Exit.WRONG_CALL)
    if form == "json":
        rules = [entry(one, book, sources) for one in ((rule,) if rule else book.rules)]
        emit(_json({"rulebook": 1, "rules": rules}))
    else:
        emit(page(rule, book, sources) if rule else listing(book, sources))
    return Exit.BROKEN if book.broken and not rule else Exit.CLEAR


def _json(data: dict[str, Any]) -> str:
    return json.dumps(data, sort_keys=True, ensure_ascii=False, separators=(",", ":")) + "\n"
