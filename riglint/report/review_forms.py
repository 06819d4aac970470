"""The forms of a review's report, by name. Only the one that was asked for is loaded."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Final, Protocol

from riglint.report.reviewed import Reviewed, Whole
from riglint.report.spool import Spool


class Form(Protocol):
    """One form of report: parts are made in any process, the whole is put together in one."""

    def part(self, one: Reviewed, rule_index: dict[str, int]) -> tuple[str, ...]:
        """One plan's part, in sections; every plan's has equally many."""

    def whole(self, whole: Whole, spool: Spool) -> Iterator[str]:
        """The report, piece by piece."""


def _text() -> Form:
    from riglint.report.review_text import TextForm  # noqa: PLC0415 -- loaded when asked for

    return TextForm()


def _json() -> Form:
    from riglint.report.review_json import JsonForm  # noqa: PLC0415 -- as above

    return JsonForm()


def _sarif() -> Form:
    from riglint.report.sarif import SarifForm  # noqa: PLC0415 -- as above

    return SarifForm()


def _html() -> Form:
    from riglint.report.review_html import HtmlForm  # noqa: PLC0415 -- as above

    return HtmlForm()


FORMS: Final[dict[str, Callable[[], Form]]] = {"text": _text, "json": _json, "sarif": _sarif, "html": _html}
