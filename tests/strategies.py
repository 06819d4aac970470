"""Random rig plans that are valid and that could stand in the field: the load pulled toward anchors ahead of it.

- `made_plan(random)` makes one plan, as plain data, from any `random.Random`: the same seed, the same plan.
- `plans(...)` is the Hypothesis strategy over it.
- `plan_text(plan)` writes a plan as YAML.

Every plan loads. With `complete`, every fact is stated that mechanics needs (lengths, losses, strengths, drum);
without, some optional facts are left out. `shape` fixes the kind of rig: one of SHAPES.
"""

import json
from copy import deepcopy
from dataclasses import dataclass, field
from itertools import pairwise
from math import atan2, cos, degrees, dist, hypot, radians, sin
from random import Random
from typing import Any

from hypothesis import strategies as st

Data = dict[str, Any]
Vec = tuple[float, float, float]
SHAPES = ("straight", "parts", "bent", "self", "compound")


def plans(*, complete: bool = False, shape: str | None = None, stages: bool | None = None) -> st.SearchStrategy[Data]:
    """Valid plans as plain data."""
    randoms = st.randoms(use_true_random=False)
    return randoms.map(lambda random: made_plan(random, complete=complete, shape=shape, stages=stages))


def plan_text(plan: Data) -> str:
    """A plan as YAML in block style, its innermost mappings and lists in flow style."""
    return "\n".join(_block(plan, 0)) + "\n"


def made_plan(random: Random, *, complete: bool = False, shape: str | None = None, stages: bool | None = None) -> Data:
    """One valid plan. `stages` says whether the job is done in two; by chance if None."""
    make = _Maker(random, complete)
    return make.plan(shape or random.choice(SHAPES), random.random() < 0.2 if stages is None else stages)


@dataclass
class _Maker:
    """Gathers the entries of one plan."""

    random: Random
    complete: bool
    points: Data = field(default_factory=dict)
    redirects: Data = field(default_factory=dict)
    connectors: Data = field(default_factory=dict)
    at: dict[str, Vec] = field(default_factory=dict)
    count: int = 0

    def plan(self, shape: str, staged: bool) -> Data:
        random = self.random
        self.way = radians(random.choice((0, 0, random.randrange(360))))
        self.north = random.choice((None, None, None, 90.0, 0.0))
        self.level = random.random() < 0.6
        self.reach = random.uniform(12, 40)
        self.travel = round(random.uniform(0.5, self.reach / 5), 2)
        lines = self.compound() if shape == "compound" else {"haul": self.line("haul", self.path(shape))}
        plan: Data = {"rig_plan": 1, "title": f"{shape} pull"}
        plan |= self.some(notes="made by chance", reports_in=random.choice(("metric", "imperial")), works="hauling")
        if self.north is not None:
            plan["north"] = self.angle(self.north)
        plan |= {"bodies": self.bodies(), "points": self.points, "winch": self.winch(), "lines": lines}
        plan |= {"redirects": self.redirects, "connectors": self.connectors}
        plan |= self.crew(plan, lines)
        if staged:
            self.stage(plan)
        if not self.complete:
            self.thin(plan)
        return {key: value for key, value in plan.items() if value not in ({}, [])}

    def thin(self, plan: Data) -> None:
        """Leave out some facts that mechanics would like to have."""
        entries = [*plan["redirects"].values(), *plan["connectors"].values(), plan["winch"], *plan["points"].values()]
        entries += [facts for line in plan["lines"].values() for entry in line["pieces"] for facts in entry.values()]
        for facts in entries:
            for key in ("loss", "length", "breaking", "working_load", "rated", "drum", "rope", "diameter"):
                if key in facts and self.random.random() < 0.1:
                    del facts[key]

    # The shape of the rig

    def path(self, shape: str) -> list[Any]:
        """The way of one line, from the winch to its dead end, to and fro between anchors and load."""
        on_load = shape == "self"
        self.place("mount", ahead=not on_load, kind="winch mount")
        path: list[Any] = ["winch"]
        turns = {"straight": 0, "bent": 1, "self": self.random.randrange(4)}.get(shape, self.random.randrange(1, 5))
        ahead = shape in ("bent", "self")
        for _ in range(turns):
            path.append(self.redirect(ahead))
            ahead = not ahead
        path.append(self.end(ahead))
        return path

    def compound(self) -> Data:
        """A hauling line through a floating block, which pulls a second line's end."""
        self.place("mount", ahead=True, kind="winch mount")
        self.redirects["floater"] = self.redirect_facts("block", None)
        haul = self.line("haul", ["winch", "floater.sheave", self.end(ahead=True)])
        path = ["floater", self.redirect(ahead=False), self.end(ahead=True)]
        second = self.line("second", path)
        slack = self.random.uniform(1.0, self.reach / 8)
        length = self.reach_of(path[1:]) + slack
        second["pieces"] = [{"second_rope": self.piece(length)}]
        self.travel = round(min(self.travel, (self.reach - slack) / 6), 2)
        return {"haul": haul, "second": second}

    def place(self, name: str, *, ahead: bool, kind: str | None = None) -> str:
        """A new point, on the load or ahead of it."""
        random = self.random
        x = random.uniform(self.reach, self.reach * 1.4) if ahead else random.uniform(-1, 1)
        y = random.uniform(-5, 5) if ahead else random.uniform(-1.2, 1.2)
        # However alike the draws, no two points stand at one place.
        x += 0.4 * len(self.points) if ahead else -0.1 * len(self.points)
        z = 0.0 if self.level else random.uniform(0.2, 2.0)
        turned = (x * cos(self.way) - y * sin(self.way), x * sin(self.way) + y * cos(self.way), z)
        at = tuple(round(c, 4) for c in turned)
        on = "load" if not ahead else ("tender" if name == "mount" else random.choice(("ground", "tender")))
        kinds = ("tree", "rock", "ground anchor") if on == "ground" else ("tow eye", "recovery point", "drawbar")
        facts: Data = {"on": on, "at": self.written_place(at), "kind": kind or random.choice(kinds)}
        facts["rated"] = self.force(60, 200)
        facts |= self.some(rated_direction="0 deg", cone="30 deg", basis="its plate", strap_height="0.4 m")
        self.points[name] = facts
        self.at[name] = at
        return name

    def redirect(self, ahead: bool) -> str:
        """A new redirect, hung from a new point; gives the word for a path."""
        kind = self.random.choice(("block", "ring"))
        name = self.name(kind)
        hanger = self.hanger(ahead)
        self.redirects[name] = self.redirect_facts(kind, hanger)
        self.at[name] = self.at[self.held_by(hanger)]
        seat = "sheave" if kind == "block" else next(s for s in ("groove", "bore") if s in self.redirects[name])
        return f"{name}.{seat}"

    def redirect_facts(self, kind: str, hanger: list[str] | None) -> Data:
        random = self.random
        seat = "sheave" if kind == "block" else random.choice(("groove", "bore"))
        loss = random.choice(("0 %", "4 %", "10 %", "4 % to 8 %", "12 % ± 2 %"))
        facts: Data = {"kind": kind, "loss": loss} | ({} if hanger is None else {"hung_from": hanger})
        facts[seat] = {"tread": self.length(0.06, 0.2), "rated": self.force(80, 250)}
        facts[seat]["rated_for"] = random.choice(("line", "resultant"))
        facts[seat] |= self.some(opening="60 mm", groove_for="8 mm to 16 mm", passes=["splice"], open_side=False)
        return facts | self.some(weight="4 kg", material="steel")

    def hanger(self, ahead: bool) -> list[str]:
        """Connectors and the point, or a bridle, that hold a redirect."""
        chain = [self.connector(k) for k in self.random.sample(("bow shackle", "strap", "soft shackle"), 2)]
        chain = chain[: self.random.randrange(3)]
        if self.random.random() < 0.12:
            return [*chain, self.bridle(ahead)]
        return [*chain, self.place(self.name("point"), ahead=ahead)]

    def bridle(self, ahead: bool) -> str:
        ends = [self.place(self.name("point"), ahead=ahead) for _ in range(self.random.choice((2, 3)))]
        name = self.connector("bridle")
        length = max(dist(self.at[a], self.at[b]) for a in ends for b in ends) + 1.0
        legs = [{"to": end, "length": metres_text(length), "breaking": self.force(100, 300)} for end in ends]
        self.connectors[name] |= {"legs": legs, "equalised": self.random.random() < 0.5}
        return name

    def connector(self, kind: str) -> str:
        name = self.name(kind.replace(" ", "_"))
        facts: Data = {"kind": kind, "length": self.length(0.05, 1.5)}
        facts[self.random.choice(("working_load", "breaking"))] = self.force(60, 250)
        self.connectors[name] = facts | self.some(wrapped="single", condition="good")
        return name

    def end(self, ahead: bool) -> Any:
        """What a dead end is made fast to: a point, or connectors and a point."""
        chain = self.hanger(ahead)
        return chain if len(chain) > 1 or chain[0] not in self.points else chain[0]

    def held_by(self, chain: list[str]) -> str:
        last = self.connectors.get(chain[-1])
        return str(last["legs"][0]["to"]) if last else chain[-1]

    # Lines

    def line(self, name: str, path: list[Any]) -> Data:
        total = self.reach_of(path) + self.random.uniform(8, 20)
        count = self.random.choice((1, 1, 2, 3))
        pieces: list[Data] = [{f"{name}_rope_1": self.piece(total / count)}]
        for i in range(2, count + 1):
            pieces += [{f"{name}_join_{i}": self.join()}, {f"{name}_rope_{i}": self.piece(total / count)}]
        return {"pieces": pieces, "path": path}

    def reach_of(self, path: list[Any]) -> float:
        """About how long a path is, by the points that hold it."""
        names = [self.held_by(w) if isinstance(w, list) else w.partition(".")[0] for w in path]
        places = [self.at["mount" if n == "winch" else n] for n in names if n != "floater"]
        return sum(dist(a, b) + 2.0 for a, b in pairwise(places))

    def piece(self, length: float) -> Data:
        rope = self.random.choice(("hmpe", "polyester", "wire", "wire, steel core"))
        facts: Data = {"rope": rope, "diameter": self.length(0.008, 0.02), "length": metres_text(length)}
        return facts | {"breaking": self.force(80, 200)} | self.some(condition=["flattened", "fuzzy"], ends="thimble")

    def join(self) -> Data:
        kind = self.random.choice(("splice", "shackle", "loop-to-loop square knot"))
        return {"kind": kind} | self.some(keeps="85 %", width="30 mm", set="parallel legs", twist="none")

    # The rest of the plan

    def bodies(self) -> Data:
        load: Data = {"moves": {"distance": metres_text(self.travel), "bearing": self.bearing(self.way)}}
        load["weight"] = self.random.choice(("5.8 t to 6.4 t", "6 t", "13 000 lb", "60 kN ± 2 kN"))
        load["ground"] = {"surface": self.random.choice(("grass", "gravel", "sand"))} | self.some(
            mired="wheel depth", slope="4 deg up", side_slope="2 deg", grip=0.6
        )
        if self.random.random() < 0.2:
            zone = {"begins_at": metres_text(self.travel / 2), "surface": "gravel", "slope": "10 % down"}
            load["ground"]["zones"] = [zone]
        load |= self.some(outline={"length": "5.2 m", "width": "2.1 m"}, running_gear="wheels", wheels_locked="0 %")
        tender: Data = {"weight": "7.5 t", "ground": {"surface": "gravel"}, "secured": ["brakes", "chocks"]}
        return {"load": load, "tender": tender}

    def winch(self) -> Data:
        winch: Data = {"mounted": "mount", "rated_pull": "53 kN", "rated_layer": 1, "stall_pull": "60 kN"}
        winch["drum"] = {"diameter": "65 mm", "width": "225 mm", "flange": "190 mm"}
        fairlead = {"ahead": "0.3 m", "kind": "hawse", "radius": "25 mm"}
        return winch | self.some(brake_hold="65 kN", fairlead=fairlead, drive="electric", spooled="under tension")

    def crew(self, plan: Data, lines: Data) -> Data:
        """People, stops, signals and dampers, some of each."""
        watched = [*self.redirects, *(n for line in lines.values() for n in names_of(line) if "_join_" in n)]
        people: list[Data] = [{"who": "winch operator", "in": "tender cab"}]
        people.append({"who": "spotter", "at": self.written_place((round(self.reach / 2, 2), 14.0, 0.0))})
        if watched:
            people[1]["watches"] = [self.random.choice(watched)]
        about = self.random.choice(watched) if watched else "the rig"
        stop = {"after": metres_text(self.travel / 2), "do": f"look at {about}", "load_held_by": "chocks"}
        second = lines["haul"]["path"][1]
        end = second if isinstance(second, str) else self.end_name(second)
        damper = {"line": "haul", "between": ["winch", end.partition(".")[0]]}
        signals = {"by": "radio", "agreed": True}
        return self.some(people=people, stops=[stop], signals=signals, dampers=[damper])

    def end_name(self, chain: list[str]) -> str:
        return chain[-1]

    def stage(self, plan: Data) -> None:
        """Do the job in two stages: the second with another line path where there is one."""
        half = round(self.travel / 2, 3)
        way = self.bearing(self.way)
        first: Data = {"name": "first pull", "moves": {"distance": metres_text(half), "bearing": way}}
        second: Data = {"name": "second pull", "moves": {"distance": metres_text(self.travel - half), "bearing": way}}
        second |= {"load_held_by": "chocks", "signals": {"by": "hand"}}
        if "stops" in plan:
            first["stops"] = [plan.pop("stops")[0] | {"after": "0.1 m"}]
        turns = plan["lines"]["haul"]["path"][1:-1]
        if len(plan["lines"]) == 1 and len(turns) > 1:
            # A re-rig with two turns fewer: the dead end stays on its side.
            second["lines"] = {"haul": {"path": ["winch", *turns[2:], plan["lines"]["haul"]["path"][-1]]}}
            second["dampers"] = []
        plan["stages"] = [first, second]

    # How values are written

    def some(self, **facts: Any) -> Data:
        """Some of these facts; all of them for a complete plan."""
        return {key: value for key, value in facts.items() if self.complete or self.random.random() < 0.5}

    def name(self, kind: str) -> str:
        self.count += 1
        return f"{kind}_{self.count}"

    def length(self, low: float, high: float) -> str:
        metres = self.random.uniform(low, high)
        return self.random.choice((f"{metres * 1000:.0f} mm", metres_text(metres), f"{metres / 0.0254:.2f} in"))

    def force(self, low: float, high: float) -> str:
        kilonewtons = self.random.uniform(low, high)
        pounds = kilonewtons / 4.4482216152605 * 1000
        return self.random.choice((f"{kilonewtons:.0f} kN", f"{pounds:.0f} lbf", f"{kilonewtons / 9.80665:.2f} t"))

    def angle(self, turn_deg: float) -> str:
        return f"{round(turn_deg, 6) % 360:.10g} deg"

    def bearing(self, angle_rad: float) -> str:
        turn = degrees(angle_rad)
        return self.angle(turn if self.north is None else self.north - turn)

    def written_place(self, at: Vec) -> Any:
        """The same place by coordinates, or level ones by tape and compass."""
        if at[2] == 0.0 and self.random.random() < 0.3:
            return f"{metres_text(hypot(at[0], at[1]))} bearing {self.bearing(atan2(at[1], at[0]))}"
        return [metres_text(c) for c in (at if at[2] else at[:2])]


def metres_text(metres: float) -> str:
    """A length as text, to a tenth of a millimetre, without idle zeros: `1.000 m` could be read two ways."""
    return f"{round(metres, 4):.10g} m"


def names_of(line: Data) -> list[str]:
    """The names of a line's pieces and joins."""
    return [name for entry in line["pieces"] for name in entry]


def _block(value: Any, depth: int) -> list[str]:
    """A mapping as lines, `key: value` or `key:` with its lines below."""
    lines = []
    for key, inner in value.items():
        if isinstance(inner, dict) and inner and any(isinstance(v, dict | list) for v in inner.values()):
            lines += [f"{'  ' * depth}{key}:", *_block(inner, depth + 1)]
        elif isinstance(inner, list) and inner and all(isinstance(v, dict) for v in inner):
            lines += [f"{'  ' * depth}{key}:", *(f"{'  ' * depth}  - {_flow(v)}" for v in inner)]
        else:
            lines.append(f"{'  ' * depth}{key}: {_flow(inner)}")
    return lines


def _flow(value: Any) -> str:
    if isinstance(value, dict):
        return "{" + ", ".join(f"{key}: {_flow(inner)}" for key, inner in value.items()) + "}"
    if isinstance(value, list):
        return "[" + ", ".join(map(_flow, value)) + "]"
    if isinstance(value, str) and (not value or set(value) & set(",:[]{}#&*!|>'\"%@`") or not value[0].isalnum()):
        return json.dumps(value, ensure_ascii=False)
    return json.dumps(value) if isinstance(value, bool) or value is None else str(value)


def on_one_ground(plan: Data) -> Data:
    """The plan without what happens at a place of its travel."""
    out = {key: value for key, value in deepcopy(plan).items() if key != "stops"}
    for body in out["bodies"].values():
        body.get("ground", {}).pop("zones", None)
    return out


def ending_sooner(plan: Data, travel_m: float) -> Data:
    """The same pull ended at a place of its travel."""
    out = deepcopy(plan)
    load = next(body for body in out["bodies"].values() if "moves" in body)
    load["moves"]["distance"] = f"{travel_m:.6f} m"
    return out
