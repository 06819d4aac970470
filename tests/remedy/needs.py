"""A need that a remedy states in words, met by means of the tests' own: read from the sentence as it is printed.

Nothing is taken from the change that the engine tried, and the figure is the one that people read.
"""

import json
import re
from math import atan2, cos, radians, sin

from riglint.reading.document import read_document
from riglint.reading.quantity import parse_quantity
from riglint.report.text_remedies import says

_FACTS = {
    "a working load of": "working_load", "a breaking strength of": "breaking", "a rating of": "rated",
    "a tread of": "tread", "a brake that holds": "brake_hold", "a rated pull of": "rated_pull",
}  # fmt: skip
_POINT = r"a second point (?P<far>\S+ \w+) to the left of {}, looking the way of the pull"


def met(case, remedy, times=1.0):
    """The plan as text with the need met: gear of exactly the stated figure, or of so many times that."""
    said = says(remedy, case.loaded.rig.reports_in)
    finding = case.inspection.findings[remedy.finding]
    plan = _Plan(case, case.solution.rig.stages[finding.check.where.stage], times)
    for pattern, meet in _MEETS:
        words = re.fullmatch(pattern, said)
        if words:
            meet(plan, **words.groupdict())
            return json.dumps(plan.data)
    raise AssertionError(f"these tests don't know how to meet: {said}")


class _Plan:
    """The plan's data as its writer has it; gear that is changed no longer comes from the kit."""

    def __init__(self, case, stage, times):
        self.data = read_document(case.document.text, "plan.yaml").data
        self.filled, self.stage, self.times = case.document.data, stage, times

    def much(self, figure):
        """A printed figure in the plan's grammar."""
        number, unit = figure.replace(",", "").split()
        return f"{float(number) * self.times:.9f} {unit}"

    def gear(self, name):
        """The facts of a component by its name as reports print it."""
        for way in _ways(self.data, name):
            own, filled = self.data, self.filled
            for step in way:
                own, filled = own[step], filled[step]
                if "from_kit" in own:
                    own.clear()
                    own.update({k: v for k, v in filled.items() if k != "from_kit"})
            return own
        raise AssertionError(f"there is no {name}")


def _ways(data, name):
    """The steps to what has a name: the plan's own first, then those of its stages."""
    leg, seat = re.fullmatch(r"the leg of (\S+) to (\S+)", name), name.rpartition(".")
    if name == "the winch":
        yield ("winch",)
    elif leg:
        legs = data["connectors"][leg[1]]["legs"]
        yield ("connectors", leg[1], "legs", next(i for i, one in enumerate(legs) if one["to"] == leg[2]))
    elif seat[0]:
        yield from ((*way, seat[2]) for way in _ways(data, seat[0]))
    else:
        yield from _named(data, name)
        for i, stage in enumerate(data.get("stages", ())):
            yield from (("stages", i, *way) for way in _named(stage, name))


def _named(data, name):
    yield from ((kind, name) for kind in ("connectors", "points", "redirects") if name in data.get(kind, {}))
    for line, facts in data.get("lines", {}).items():
        for i, entry in enumerate(facts.get("pieces", ())):
            if name in entry:
                yield ("lines", line, "pieces", i, name)


def _stronger(plan, name, what, figure):
    facts, key = plan.gear(name), _FACTS[what]
    facts[key] = plan.much(figure)
    for other in {"breaking", "stall_pull"} & facts.keys() - {key} if key != "tread" else ():
        if _newtons(facts[other]) < _newtons(facts[key]):  # no gear breaks or stalls below what it is rated for
            del facts[other]
    if key == "rated_pull":
        facts.setdefault("stall_pull", facts[key])


def _newtons(text):
    return parse_quantity(text, "mass or force").low


def _fitting(plan, name, figure):
    key = "opening" if name.endswith(".bore") else "groove_for"
    plan.gear(name)[key] = plan.much(figure) if key == "opening" else figure


def _same(plan, piece, like):
    own, other = plan.gear(piece), plan.gear(like)
    kept = {k: own[k] for k in ("length",) if k in own}
    own.clear()
    own.update({k: v for k, v in other.items() if k not in ("notes", "length")} | kept)


def _tie(plan, name, figure):
    body = plan.data["bodies"][name]
    body["held_by"] = plan.much(figure)
    body["secured"] = [*body.get("secured", ()), "tied back"]


def _second(plan, what, near, far, figure):
    _beside(plan, near, far, figure)
    _refasten(plan.data, what, near, "another")


def _shared(plan, what, near, far, leg, figure):
    _beside(plan, near, far, figure)
    facts = {"length": leg, "working_load": plan.much(figure)}
    legs = [facts | {"to": near}, facts | {"to": "another"}]
    bridle = {"kind": "bridle", "length": "0 m", "equalised": True, "legs": legs}
    plan.data.setdefault("connectors", {})["other_bridle"] = bridle
    _refasten(plan.data, what, near, "other_bridle")


def _beside(plan, near, far, figure):
    """`another`: as far off as is said, square to the way of the pull."""
    point, off = plan.stage.points[near], parse_quantity(far, "length").low
    way = atan2(plan.stage.direction[1], plan.stage.direction[0]) + radians(90.0)
    at = (point.at[0] + off * cos(way), point.at[1] + off * sin(way), point.at[2])
    kind = "ground anchor" if point.body.name == "ground" else "recovery point"
    entry = {"on": point.facts.on, "at": [f"{c:.6f} m" for c in at], "kind": kind, "rated": plan.much(figure)}
    plan.data["points"]["another"] = entry | {"basis": "pull test"}


def _refasten(data, what, old, new):
    leg, end = re.fullmatch(r"a leg of (\S+)", what), re.fullmatch(r"the end of (\S+)", what)
    if leg:
        next(one for one in data["connectors"][leg[1]]["legs"] if one["to"] == old)["to"] = new
    elif end:
        path = data["lines"][end[1]]["path"]
        index = next(i for i in (-1, 0) if old in _chain(path[i]))
        path[index] = [new if word == old else word for word in _chain(path[index])]
    else:
        redirect = data["redirects"][what]
        redirect["hung_from"] = [new if word == old else word for word in _chain(redirect["hung_from"])]


def _chain(words):
    return [words] if isinstance(words, str) else words


_MEETS = (
    (rf"(?P<name>.+) needs (?P<what>{'|'.join(_FACTS)}) at least (?P<figure>.+)", _stronger),
    (r"(?P<name>\S+) needs (?:an opening|a groove) for rope of (?P<figure>.+)", _fitting),
    (r"take (?P<piece>\S+) of the same rope as (?P<like>\S+)", _same),
    (r"tie (?P<name>.+) back with something rated for at least (?P<figure>.+)", _tie),
    (rf"make (?P<what>.+) fast to {_POINT.format('(?P<near>[^ ,]+)')}, rated for at least (?P<figure>.+)", _second),
    (
        rf"share (?P<what>.+) between (?P<near>\S+) and {_POINT.format('it')}, by an equalised bridle with legs of "
        r"(?P<leg>.+); the second point and each leg rated for at least (?P<figure>.+)",
        _shared,
    ),
)
