"""What may have been seen on gear when it was looked over: one word, or a list of them."""

from typing import Annotated, Literal, TypeVar

from pydantic import Discriminator, Tag

RopeCondition = Literal[
    "good", "flattened", "fuzzy", "cut", "melted", "glazed", "stiff", "pulled strand", "kinked", "crushed",
    "broken wires", "corroded",
]  # fmt: skip
HardwareCondition = Literal[
    "good", "worn", "bent", "stretched", "cracked", "gouged", "corroded", "burnt", "welded on", "thread damaged",
    "mark missing",
]  # fmt: skip
ConnectorCondition = Literal[RopeCondition, HardwareCondition, "broken stitches"]
RedirectCondition = Literal[HardwareCondition, "sheave wobbles"]


def one_or_list(value: object) -> str:
    """A list is told from one word by its look, so that only what was meant is complained of."""
    return "(list)" if isinstance(value, list | tuple) else "(one)"


_T = TypeVar("_T")
_OneOrList = Annotated[
    Annotated[_T, Tag("(one)")] | Annotated[tuple[_T, ...], Tag("(list)")], Discriminator(one_or_list)
]
RopeConditions = _OneOrList[RopeCondition]
ConnectorConditions = _OneOrList[ConnectorCondition]
RedirectConditions = _OneOrList[RedirectCondition]


def words_of(condition: str | tuple[str, ...] | None) -> tuple[str, ...]:
    """The words of a condition; none where nothing is stated."""
    return (condition,) if isinstance(condition, str) else condition or ()
