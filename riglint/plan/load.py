"""From a plan's text to its rig, or every problem that stands in the way, each with its place."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import TYPE_CHECKING, Any, NamedTuple

from pydantic import ValidationError

from riglint.plan.plan import Plan
from riglint.plan.quick import make_ready
from riglint.reading.document import Document, HalfRead, read_document
from riglint.reading.problems import Problem, ReadingFailed
from riglint.rig.faults import RigFaults
from riglint.rig.model import Rig
from riglint.rig.resolve import resolve

if TYPE_CHECKING:
    from datetime import date

    from riglint.kit.lend import Filled
    from riglint.kit.read import Kit

KitFor = Callable[[str | None], "Kit | None"]
"""The kit for a plan, by what the plan's own `kit` says. Raises KitRefused, or ReadingFailed for a bad kit."""


class LoadedPlan(NamedTuple):
    """A plan that could be read: its entries, the rig that they make, and where each stands in the text."""

    plan: Plan
    rig: Rig
    document: Document


def load_plan(text: bytes | str, file: str, kit_for: KitFor | None = None, today: date | None = None) -> LoadedPlan:
    """Read, check and resolve one plan. Raises ReadingFailed with every problem that could be found.

    `kit_for` finds the kit that the plan's gear comes from; `today` is for rules on inspections.
    """
    try:
        document = read_document(text, file)
    except HalfRead as half:
        raise ReadingFailed(_with_further(half, kit_for, today)) from None
    return _loaded(document, kit_for, today)


def _with_further(half: HalfRead, kit_for: KitFor | None, today: date | None) -> Iterator[Problem]:
    """Faults of the writing, and what else is wrong with the plan at places that they have nothing to do with."""
    from riglint.plan.sound import elsewhere  # noqa: PLC0415 -- only for messages

    yield from half.problems
    try:
        _loaded(half.document, kit_for, today)
    except ReadingFailed as further:
        yield from elsewhere(further.problems, half.problems)


def _loaded(document: Document, kit_for: KitFor | None, today: date | None) -> LoadedPlan:
    if "from_kit" in document.text or (isinstance(document.data, dict) and "kit" in document.data and kit_for):
        return _load_with_kit(document, kit_for, today)
    return _load(document, today)


def _load_with_kit(document: Document, kit_for: KitFor | None, today: date | None) -> LoadedPlan:
    from riglint.kit.lend import fill  # noqa: PLC0415 -- only for plans that name gear of a kit
    from riglint.kit.twice import used_twice  # noqa: PLC0415

    kit, problems = _kit(document, kit_for)
    filled = fill(document, kit)
    if problems:  # these say why there is no kit, which each entry need not say again
        filled = filled._replace(problems=problems)
    loaded = _load(filled.document, today, filled)
    rig = loaded.rig.on_paper(filled.kit, today)
    twice = used_twice(rig, filled.document)
    if twice:
        raise ReadingFailed(twice)
    return loaded._replace(rig=rig)


def _kit(document: Document, kit_for: KitFor | None) -> tuple[Kit | None, list[Problem]]:
    """The plan's kit, or why it can't be had."""
    from riglint.kit.find import KitRefused  # noqa: PLC0415

    data = document.data
    named = data.get("kit") if isinstance(data, dict) else None
    try:
        return (kit_for(named if isinstance(named, str) else None) if kit_for else None), []
    except KitRefused as refused:
        return None, [document.problem("/kit", refused.found, refused.serves)]
    except ReadingFailed as unread:
        return None, list(unread.problems)


def _load(document: Document, today: date | None, filled: Filled | None = None) -> LoadedPlan:
    plan = _checked(document, filled)
    try:
        rig = resolve(plan)
    except RigFaults as error:
        raise ReadingFailed(
            document.problem(fault.pointer, fault.what, fault.serves, key=fault.key) for fault in error.faults
        ) from None
    return LoadedPlan(plan, rig.on_paper({}, today), document)


def _checked(document: Document, filled: Filled | None) -> Plan:
    make_ready()
    refused: ValidationError | None = None
    try:
        plan = Plan.model_validate(document.data)
    except ValidationError as error:
        refused = error
    if refused or _has_nothing(document.data) or (filled and filled.problems):
        from riglint.plan.faults import problems_of  # noqa: PLC0415 -- only for messages
        from riglint.plan.further import further_problems  # noqa: PLC0415

        further = further_problems(document, filled.unfilled if filled else ())
        raise ReadingFailed(_told(problems_of(refused, document), filled) + further) from None
    return plan


def _told(problems: list[Problem], filled: Filled | None) -> list[Problem]:
    """With the kit's own problems; what a kit would have filled in isn't said to be missing, too."""
    if filled is None:
        return problems
    return filled.problems + [p for p in problems if not filled.would_fill(p)] or problems


def _has_nothing(data: Any) -> bool:
    """Whether a key or an entry has nothing behind it, which the models would take for a fact left out."""
    if isinstance(data, dict):
        return any(map(_has_nothing, data.values()))
    return any(map(_has_nothing, data)) if isinstance(data, list) else data is None
