"""What every part of a plan has in common: unknown keys are refused, values are frozen, text and names have a form."""

from collections.abc import Iterator
from typing import Annotated, NamedTuple, Self

from pydantic import BaseModel, ConfigDict, Field, Strict, StringConstraints, model_validator
from pydantic_core import PydanticCustomError

LONGEST_TEXT = 2000

NAME_PATTERN = r"^[A-Za-z][A-Za-z0-9_-]{0,63}$"
# A name is used in paths as `name.seat` and read aloud on the ground: letters, digits, `_` and `-`.
Name = Annotated[str, StringConstraints(pattern=NAME_PATTERN)]
GEAR_PATTERN = r"^[A-Za-z0-9][A-Za-z0-9_.-]{0,63}$"
# The number of a piece of gear, as it is stamped or painted on.
TEXT_PATTERN = r"\S"
Text = Annotated[str, StringConstraints(pattern=TEXT_PATTERN, max_length=LONGEST_TEXT)]
Flag = Annotated[bool, Strict()]  # `yes` and `1` are no truth values here
Notes = Annotated[Text | None, Field(description="anything else worth knowing; read by people only")]
FromKit = Annotated[
    Text | None, Field(description="the gear's number in the kit, which then gives what is left out here")
]
Basis = Annotated[Text | None, Field(description="where the rating comes from: a mark, a test, a maker's sheet")]


class Misfit(NamedTuple):
    """Values that are each right but can't stand together: where, what was found and what would serve.

    `at` is a key of the mapping, or several on the way down, with `/` between them.
    """

    at: str
    found: str
    serves: str


class PlanPart(BaseModel):
    """A mapping in a plan. Frozen; a key that is not known is an error, never ignored."""

    model_config = ConfigDict(extra="forbid", frozen=True, defer_build=True)


class CheckedPart(PlanPart):
    """A mapping whose values must also fit each other."""

    def misfits(self) -> Iterator[Misfit]:
        """Every way in which the values don't fit each other."""
        yield from ()

    @model_validator(mode="after")
    def _fitting(self) -> Self:
        found = tuple(self.misfits())
        if found:
            raise PydanticCustomError("plan_misfits", "values that do not fit each other", {"misfits": found})
        return self
