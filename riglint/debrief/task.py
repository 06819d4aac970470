"""A task as its author writes it: the scenario and kit given to a class, what a solution must reach, and the marks."""

from collections.abc import Iterator
from typing import Annotated, Literal

from pydantic import BeforeValidator, Field

from riglint.kit.dates import Day
from riglint.outcome import Grade
from riglint.plan.base import CheckedPart, Flag, Misfit, Notes, PlanPart, Text
from riglint.plan.bodies import MireDepth
from riglint.plan.plan import not_a_truth_value
from riglint.plan.quantities import Form, Share, Size, Slope, Weight, refusal

GradeWord = Literal["DANGER", "WARNING", "CAUTION", "NOTICE"]
MOST_MARKS = 10_000


def _read_marks(value: object) -> float:
    if isinstance(value, int | float) and not isinstance(value, bool) and 0 <= value <= MOST_MARKS:
        return float(value)
    raise refusal(f"`{str(value).lower()}` where marks belong", f"write a number from 0 to {MOST_MARKS}")


Marks = Annotated[float, Form(_read_marks, lambda: {"type": "number", "minimum": 0, "maximum": MOST_MARKS})]


class Given(PlanPart):
    """The load as the scenario has it: a solution that makes it easier is none."""

    weight: Weight | None = Field(None, description="of the load, with cargo")
    mired: MireDepth | None = Field(None, description="how deep it is mired")
    surface: Text | None = Field(None, description="what it stands on, in a plan's words")
    slope: Slope | None = Field(None, description="along the pull, with `up` or `down`")
    running_gear: Literal["wheels", "tracks", "none"] | None = Field(None, description="what it runs on")
    pulled: Literal["forwards", "backwards"] | None = Field(None, description="which way it is to be pulled")
    own_power: Flag | None = Field(None, description="whether it can help with its own engine")


class Goals(PlanPart):
    """What a solution must reach."""

    distance: Size | None = Field(None, description="how far the load must go at the least")
    load: Given | None = Field(None, description="the load as the scenario has it")
    only_the_kit: Flag = Field(False, description="whether all gear must come from the kit; points need not")
    no_finding_above: GradeWord | None = Field(None, description="the gravest grade that a finding may have")


def _usual() -> dict[GradeWord, float]:
    return {"DANGER": 15.0, "WARNING": 8.0, "CAUTION": 4.0, "NOTICE": 1.0}


class Marking(CheckedPart):
    """What is lost, out of `full`: once for a rule, by its own marks or by the grade that it found."""

    full: Marks = Field(100.0, description="for a plan that reaches everything, with nothing found against it")
    goal: Marks = Field(20.0, description="lost for each goal that is missed")
    rules: dict[Text, Marks] = Field({}, description="lost for a rule that fails, by its name")
    grades: dict[GradeWord, Marks] = Field(
        default_factory=_usual,
        description="lost for any other rule that fails, by the gravest grade that it found",
    )
    unsaid: Share | None = Field(None, description="share of that lost where a rule can't tell; half of it if left out")
    pass_mark: Marks | None = Field(None, description="what it takes to pass, along with every goal reached")

    def misfits(self) -> Iterator[Misfit]:
        """A pass that can't be had is a slip, and so is a graver grade that costs less."""
        if self.pass_mark is not None and self.pass_mark > self.full:
            yield Misfit("pass_mark", "it is more than `full`", "write a mark that can be reached")
        cost = [self.lost_by(grade) for grade in Grade]
        if cost != sorted(cost, reverse=True):
            yield Misfit("grades", "a graver grade costs less than a milder one", "write them in order")

    def lost_by(self, grade: Grade) -> float:
        """What a rule costs by its grade; a grade that isn't named costs nothing."""
        return self.grades.get(grade.value, 0.0)


class Task(PlanPart):
    """One task for a class."""

    rig_task: Annotated[Literal[1], BeforeValidator(not_a_truth_value)] = Field(description="the form of this file, 1")
    title: Text = Field(description="what the task is, in a line")
    scenario: Text = Field(description="what the class is told")
    notes: Notes = None
    day: Day | None = Field(None, description="the day that the scenario plays on, for inspections")
    kit: Text | None = Field(None, description="the file of the kit given to the class, from this file's folder on")
    model: Text | None = Field(None, description="the file of a model plan, from this file's folder on")
    must: Goals = Field(default_factory=Goals, description="what a solution must reach")
    marks: Marking = Field(default_factory=Marking, description="what is lost for what")
