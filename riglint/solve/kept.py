"""Figures of a stage that several rules ask for, worked out once in an inspection and forgotten at its end."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from contextvars import ContextVar
from typing import Any, Concatenate, Final, ParamSpec, TypeVar

from riglint.solve.solution import StageSolution

P = ParamSpec("P")
T = TypeVar("T")
_KEPT: Final[ContextVar[dict[tuple[object, ...], Any] | None]] = ContextVar("kept", default=None)


@contextmanager
def keeping() -> Iterator[None]:
    """Keep figures as long as this lasts, and the solution with it: stages are told apart by their place in memory."""
    before = _KEPT.set({})
    try:
        yield
    finally:
        _KEPT.reset(before)


def kept(figure: Callable[Concatenate[StageSolution, P], T]) -> Callable[Concatenate[StageSolution, P], T]:
    """A figure that is worked out once a stage while figures are being kept, and each time otherwise."""

    def of(stage: StageSolution, /, *args: P.args, **named: P.kwargs) -> T:
        book = _KEPT.get()
        if book is None:
            return figure(stage, *args, **named)
        key = (id(stage), figure, args)
        if key not in book:
            book[key] = figure(stage, *args, **named)
        found: T = book[key]
        return found

    of.__doc__, of.__name__ = figure.__doc__, figure.__name__
    return of
