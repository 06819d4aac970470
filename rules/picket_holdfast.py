"""Picket holdfasts: what the manuals give them against what hangs on them.

Pickets hold little and let go all at once. Two manuals give figures, and they disagree: wooden pickets 3 in by
5 ft, 3 to 4 ft deep and leaned 15 deg (US: 700 lb single, 1,800 lb as 1-1-1, 4,000 lb as 3-2-1) and steel ones
1.5 m by 25 mm driven at 45 deg (AU: 350 kg each, to 2 t in all). The lower of the two counts, whatever the
pickets are made of, since a plan does not say how they were driven. For 1-1 and 2-1 that is 1,400 and 2,000 lb of
FM 5-125, from memory. Wet clay and gravel keeps 0.9 of it, river clay and sand 0.5 (FM 5-125, from memory). The
manuals name no factor, and none is put on their figures here.

    use = load / (table * soil)

Rows stand at least 1 m apart (AU; the US manual has 3 to 6 ft), and pickets lean at least 15 deg away from the pull
(US). Less is a CAUTION, and where it isn't stated can't be told: what stands otherwise has no figure. Over the figure
as expected, or at rest on a slope, is a DANGER; at stall a WARNING, and a DANGER past twice the figure. Arrangements
that no table has can't be told.

What to do: more rows, better ground, or another anchor; a stop at the line pull that the report names.

Worked example: 3-2-1 in wet clay and gravel.
table = 1814 kg; soil = 0.9; holds = table * soil = 1633 kg
"""

from math import radians

from riglint.mechanics.pickets import SOIL_FACTORS, safer_picket_holdfast
from riglint.mechanics.provenance import AU_DISASTER_RESCUE, FM_5_125, NAVEDTRA_14251
from riglint.rig.model import Point
from riglint.rulebook.author import Basis, Checks, Grade, Limit, Limits, Solution, StageSolution, Worse, place, rule
from riglint.rulebook.judge import Words, at_least, here
from riglint.rulebook.loads import against
from riglint.solve.solution import Component
from riglint.solve.worst import points

_US = Basis("handbook", "wooden pickets by arrangement", NAVEDTRA_14251, "picket holdfasts", "general", "read")
_BETWEEN = Basis("handbook", "1-1, 2-1 and wet earth", FM_5_125, "ch. 4", "general", "from memory")
_AU = Basis("handbook", "steel pickets 350 kg each, 1 m apart", AU_DISASTER_RESCUE, "8.3", "general", "read")
_WORDS = Words(
    "{component} carries {measured}; the manuals give such a holdfast {limit}",
    "{component} carries {measured} of the {limit} that the manuals give such a holdfast",
    "whether {component} holds can't be told",
    "Drive more rows, share the load with a second anchor, or pull with less")  # fmt: skip
_SPACING = Words("rows of {name} stand {measured} apart, {limit} at least", "rows of {name} stand {measured} apart",
                 "whether the rows of {name} stand far enough apart can't be told",
                 "Drive the rows farther apart")  # fmt: skip
_LEAN = Words("pickets of {name} lean {measured} away from the pull, {limit} at least",
              "pickets of {name} lean {measured}", "whether the pickets of {name} lean enough can't be told",
              "Drive them anew, leaning away")  # fmt: skip
_KNOWN = ("1", "1-1", "2-1", "1-1-1", "3-2-1")


@rule(
    title="Picket holdfasts", grade=Grade.DANGER, guards="anchors", basis=(_US, _AU, _BETWEEN),
    limits=(
        Limit("spacing", 1.0, "m", "least distance from row to row", _AU, "lower"),
        Limit("lean", radians(15.0), "rad", "least lean of a picket away from the pull", _US, "lower"),
    ),
    worse=Worse.by(higher="winch/stall_pull", lower="points/*/pickets/spacing points/*/pickets/lean",
                   taken_away="points/*/pickets/soil,spacing,lean points/*/pickets"))  # fmt: skip
def picket_holdfast(solution: Solution, limits: Limits) -> Checks:
    for stage in solution.stages:
        for component, point in points(stage, "picket holdfast"):
            yield from _holdfast(stage, component, point, limits)


def _holdfast(stage: StageSolution, component: Component, point: Point, limits: Limits) -> Checks:
    pickets = point.facts.pickets
    if pickets:
        rows = (("spacing", pickets.spacing, "m", _SPACING),) if "-" in pickets.arrangement else ()
        for key, stated, unit, words in (*rows, ("lean", pickets.lean, "rad", _LEAN)):
            where = here(stage, component)._replace(pointer=f"{component.pointer}/pickets")
            lacks = () if stated else (place(component.pointer, f"pickets/{key}"),)
            low = stated.low if stated else None
            yield at_least(low, limits[key], unit, where, words, missing=lacks, grade=Grade.CAUTION)
    missing = _missing(point)
    holds_n = safer_picket_holdfast(pickets.arrangement, str(pickets.soil)).value if pickets and not missing else None
    yield from against(stage, component, lambda _: (holds_n, ()), (_WORDS, _WORDS), "manuals' figure", missing=missing,
                       steady=Grade.DANGER)  # fmt: skip


def _missing(point: Point) -> tuple[str, ...]:
    pickets, at = point.facts.pickets, point.pointer
    if pickets is None:
        return (place(at, "pickets"),)
    missing = [] if pickets.arrangement in _KNOWN else [place(at, "pickets/arrangement, one that the manuals have")]
    if pickets.soil not in SOIL_FACTORS:
        missing.append(place(at, "pickets/soil, one that the manuals have"))
    return tuple(missing)
