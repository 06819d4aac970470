"""For each thing that a plan's schema leaves to the models: edits of the outline plan that break it.

An edit is (what stands there, what stands there instead, the place of the problem, part of what was found).
`→` in an edit's text parts several replacements.
"""

Edit = tuple[str, str, str, str]

STAGES = (
    "stages:\n  - {name: one, moves: {distance: 2 m, bearing: 0 deg}}\n"
    "  - {name: two, moves: {distance: 4 m, bearing: 0 deg}}\n"
)
BLOCK_B = "hung_from: [bow_b, strap_b, ash]"
LAST = "\nstops:"

# By the beginning of the entry in `schema.MODEL_ONLY`.
EDITS: dict[str, list[Edit]] = {
    "a range goes from": [
        ("5.8 t to 6.4 t", "6.4 t to 5.8 t", "/bodies/fruit_truck/weight", "higher to the lower"),
    ],
    "a quantity lies within": [
        ("distance: 6 m", "distance: 0 m", "/bodies/fruit_truck/moves/distance", "out of range"),
        ("rated: 110 kN", "rated: 0 kN", "/points/tender_nose/rated", "out of range"),
        ("loss: 10 %", "loss: 100 %", "/redirects/ring_a/loss", "out of range"),
        ("loss: 10 %", "loss: 90 % to 110 %", "/redirects/ring_a/loss", "out of range"),
        ("slope: 4 deg up", "slope: 61 deg up", "/bodies/fruit_truck/ground/slope", "out of range"),
        ("surface: gravel", "grip: 0.6 to 60", "/bodies/tender/ground/grip", "out of range"),
        ("cone: 30 deg", "cone: 181 deg", "/points/truck_left/cone", "out of range"),
        ("twist: none", "twist: none, keeps: 101 %", "/lines/haul/pieces/1/join_1/keeps", "out of range"),
        ("diameter: 65 mm", "diameter: 20 km", "/winch/drum/diameter", "out of range"),
        ("at: [12 m, 0 m]", "at: [12 km, 0 m]", "/points/tender_nose/at", "out of range"),
        ("at: 17.6 m", "at: 17.6 km", "/points/ash/at", "out of reach"),
    ],
    "bearings, travels' climbs": [
        ("bearing: 0 deg", "bearing: 0 deg to 5 deg", "/bodies/fruit_truck/moves/bearing", "is a range"),
        ("bearing: 0 deg", "bearing: 0 deg, climb: 1 deg ± 1 deg", "/bodies/fruit_truck/moves/climb", "is a range"),
        (
            "rated_direction: 0 deg", "rated_direction: 0 deg to 9 deg",
            "/points/truck_left/rated_direction", "is a range",
        ),
        ("at: [12 m, 0 m]", "at: [12 m to 13 m, 0 m]", "/points/tender_nose/at", "is a range"),
        (
            "soft shackle, length: 0.25 m", "soft shackle, length: 0.25 m to 0.3 m",
            "/connectors/soft_a/length", "is a range",
        ),
        (
            "kind: strap, ", "kind: bridle, legs: [{to: ash, length: 1 m}, {to: ash, length: 1 m ± 0.1 m}], ",
            "/connectors/strap_b/legs/1/length", "is a range",
        ),
        ("ahead: 0.3 m", "ahead: 0.3 m to 0.4 m", "/winch/fairlead/ahead", "is a range"),
        ("at: 17.6 m bearing", "at: 17 m to 18 m bearing", "/points/ash/at", "isn't a place"),
    ],
    "a mixed fraction": [
        ("diameter: 65 mm", "diameter: 2 5/4 in", "/winch/drum/diameter", "a fraction of one or more"),
    ],
    "a working load or rating": [
        ("breaking: 190 kN", "breaking: 190 kN, working_load: 200 kN", "/connectors/soft_a/working_load", "more than"),
        ("rated: 110 kN", "rated: 110 kN, breaking: 100 kN", "/points/tender_nose/rated", "more than"),
        ("rated: 60 kN", "rated: 60 kN, breaking: 50 kN", "/redirects/block_b/sheave/rated", "more than"),
        (
            "28 m, breaking: 115 kN", "28 m, breaking: 115 kN, working_load: 12 t",
            "/lines/haul/pieces/0/mainline/working_load", "more than",
        ),
        (
            "twist: none", "twist: none, breaking: 9 kN, working_load: 10 kN",
            "/lines/haul/pieces/1/join_1/working_load", "more than",
        ),
        (
            "kind: strap, ", "kind: bridle, legs: [{to: ash, length: 1 m, breaking: 1 t, working_load: 2 t},"
            " {to: ash, length: 1 m}], ", "/connectors/strap_b/legs/0/working_load", "more than",
        ),
    ],
    "a winch's stall pull": [("stall_pull: 60 kN", "stall_pull: 50 kN", "/winch/stall_pull", "less than `rated_pull`")],
    "a drum's flange": [("flange: 190 mm", "flange: 65 mm", "/winch/drum/flange", "no larger than the barrel")],
    "a load's room": [
        ("bearing: 0 deg", "bearing: 0 deg, room: 5 m", "/bodies/fruit_truck/moves/room", "less than the distance"),
        (
            "weight: 5.8 t", "resistance: {steady: 9 kN, breakaway: 8 kN}\n    weight: 5.8 t",
            "/bodies/fruit_truck/resistance/breakaway", "less than `steady`",
        ),
    ],
    "a body's weight": [
        (
            "weight: 7.5 t", "centre_of_gravity: {height: 1 m, left: -0.4 m to 0.9 m}\n    track: 1.8 m",
            "/bodies/tender/centre_of_gravity/left", "outside of the wheels",
        ),
        (
            "weight: 7.5 t", "centre_of_gravity: {height: 1 m, ahead: -1.5 m}\n    wheelbase: 3 m",
            "/bodies/tender/centre_of_gravity/ahead", "outside of the wheels",
        ),
        (
            "outline: {length: 5.2 m,", "centre_of_gravity: {height: 3.1 m}\n    outline: {height: 3 m, length: 5.2 m,",
            "/bodies/fruit_truck/centre_of_gravity/height", "over the body's top",
        ),
        (
            "outline: {length: 5.2 m,", "track: 2.2 m\n    outline: {length: 5.2 m,",
            "/bodies/fruit_truck/track", "more than the outline's width",
        ),
        (
            "outline: {length: 5.2 m,", "wheelbase: 5.3 m\n    outline: {length: 5.2 m,",
            "/bodies/fruit_truck/wheelbase", "more than the outline's length",
        ),
    ],
    "ground zones": [
        (
            "slope: 4 deg up", "zones: [{begins_at: 3 m}, {begins_at: 2 m}]",
            "/bodies/fruit_truck/ground/zones/1/begins_at", "doesn't begin beyond",
        ),
        (
            "slope: 4 deg up", "zones: [{begins_at: 6 m}]",
            "/bodies/fruit_truck/ground/zones/0/begins_at", "where the travel is over",
        ),
        ("after: 3.5 m", "after: 6.5 m", "/stops/0/after", "after the end of the travel"),
    ],
    "a person is": [("at: [8 m, 14 m]", "at: [8 m, 14 m], in: tender", "/people/1/in", "is both")],
    "a ring has no sheave": [
        ("loss: 10 %", "loss: 10 %, head: {tread: 45 mm}", "/redirects/ring_a/head", "a ring has no head"),
        ("hung_through: groove", "hung_through: head", "/redirects/ring_a/hung_through", "a ring has no head"),
        ("sheave: {tread", "groove: {tread", "/redirects/block_b/groove", "a block has no groove"),
        ("kind: ring", "kind: ring, sheaves: 2", "/redirects/ring_a/sheaves", "a ring has no sheaves"),
    ],
    "`pickets` and `deadman`": [
        (
            "weight: 5.8 t", "outriggers: {across: 4 m}\n    weight: 5.8 t", "/bodies/fruit_truck/outriggers",
            "the load moves",
        ),
        ("strap_height: 0.4 m", "pickets: {arrangement: 3-2-1}", "/points/ash/pickets", "belongs to a point"),
        (
            "strap_height: 0.4 m", "deadman: {material: log, length: 2 m, face: 0.3 m, depth: 1 m}",
            "/points/ash/deadman", "belongs to a point",
        ),
        (
            "wrapped: basket", "legs: [{to: ash, length: 1 m}, {to: ash, length: 2 m}]",
            "/connectors/strap_b/legs", "only a bridle",
        ),
        ("wrapped: basket", "equalised: true", "/connectors/strap_b/equalised", "only a bridle"),
        ("surface: gravel", "zones: [{begins_at: 1 m}]", "/bodies/tender/ground/zones", "zones lie along a travel"),
    ],
    "every name that is referred to": [
        ("on: tender", "on: tenders", "/points/tender_nose/on", "names no body"),
        ("358 deg", "358 deg from oak", "/points/ash/at", "names no point"),
        ("mounted: tender_nose", "mounted: tender_tail", "/winch/mounted", "names no point"),
        ("ring_a.bore", "ring_x.bore", "/lines/haul/path/1", "names no redirect"),
        ("ring_a.bore", "ring_a.groove", "/lines/haul/path/1", "names no seat"),
        ("ring_a.bore", "ring_a", "/lines/haul/path/1", "doesn't say which seat"),
        ("block_b.sheave, truck_right", "block_b.sheave, truck_rigt", "/lines/haul/path/3", "names no point or"),
        ("[soft_a, truck_left]", "[soft_x, truck_left]", "/redirects/ring_a/hung_from/0", "names no connector"),
        ("[soft_a, truck_left]", "[soft_a, truck_lef]", "/redirects/ring_a/hung_from/1", "names no point or redirect"),
        ("[soft_a, truck_left]", "[soft_a]", "/redirects/ring_a/hung_from/0", "made fast to nothing"),
        (BLOCK_B, "hung_from: [bow_b, strap_b, ring_a, ash]", "/redirects/block_b/hung_from/2", "is no connector"),
        (
            "kind: strap, ", "kind: bridle, legs: [{to: ash, length: 1 m}, {to: ash, length: 1 m}], ",
            "/redirects/block_b/hung_from/1", "something stands behind the bridle",
        ),
        ("kind: strap, →strap_b, ash]", "kind: bridle, →strap_b]", "/connectors/strap_b", "has no legs"),
        ("[soft_a, truck_left]", "[truck_right, truck_left]", "/redirects/ring_a/hung_from/0", "is no connector"),
        ("in: tender cab", "in: tenders cab", "/people/0/in", "names no body"),
        ("in: tender cab", "in: tender bed", "/people/0/in", "names no body"),
        ("in: tender cab", "in: ground", "/people/0/in", "names no body"),
        ("at: [8 m, 14 m]", "watches: [join_2]", "/people/1/watches/0", "names no join or redirect"),
        ("at: [8 m, 14 m]", "at: 8 m bearing 0 deg from elm", "/people/1/at", "names no point"),
        (LAST, "\ndampers: [{line: hall, between: [winch, ring_a]}]\nstops:", "/dampers/0/line", "names no line"),
        (LAST, "\ndampers: [{line: haul, between: [winch, ring]}]\nstops:", "/dampers/0/between/1", "names no end"),
        (
            "length: 5.2 m,", "length: 5.2 m, middle: 1 m bearing 0 deg from elm,",
            "/bodies/fruit_truck/outline/middle", "names no point",
        ),
        (
            "kind: strap, →strap_b, ash]",
            "kind: bridle, legs: [{to: elm, length: 1 m}, {to: ash, length: 1 m}], →strap_b]",
            "/connectors/strap_b/legs/0/to", "names no point",
        ),
    ],
    "nothing goes in a circle": [
        ("358 deg", "358 deg from ash", "/points/ash/at", "places go in a circle"),
        ("[bow_b, strap_b, ash]", "[bow_b, strap_b, block_b]", "/redirects/block_b/hung_from", "hang in a circle"),
    ],
    "a name stands for": [
        ("  soft_a:  {", "  ash: {}\n  soft_a:  {", "/connectors/ash", "is already a name"),
        ("  soft_a:  {", "  winch: {}\n  soft_a:  {", "/connectors/winch", "stands for the winch"),
        ("- join_1:", "- mainline:", "/lines/haul/pieces/1/mainline", "already the name of a piece"),
        ("- join_1:", "- ring_a:", "/lines/haul/pieces/1/ring_a", "already the name of a point, redirect"),
        (BLOCK_B, "hung_from: [soft_a, strap_b, ash]", "/redirects/block_b/hung_from/0", "made fast in two places"),
    ],
    "exactly one body moves": [
        ("    moves: {distance: 6 m, bearing: 0 deg}", "    own_power: false", "/bodies", "no body has `moves`"),
        (
            "    weight: 7.5 t", "    moves: {distance: 6 m, bearing: 0 deg}", "/bodies/tender/moves",
            "`tender` moves, and so does `fruit_truck`",
        ),
        ("path: [winch,", "path: [ash,", "/lines", "no line begins at the winch"),
        (
            "\nredirects:", "\n  more: {pieces: [{rope_2: {}}], path: [winch, ash]}\nredirects:", "/lines",
            "more than one line begins at the winch",
        ),
        ("truck_right]", "winch]", "/lines/haul/path/3", "ends at the winch"),
    ],
    "pieces and joins": [
        (
            "kind: loop-to-loop square knot, set: parallel legs, twist: none", "",
            "/lines/haul/pieces/1/join_1", "a piece right",
        ),
        ("- mainline:    {", "- mainline: {kind: splice} #", "/lines/haul/pieces/0/mainline", "a join where a piece"),
        (
            "      - extension_1: {rope: hmpe, diameter: 11 mm, length: 24 m, breaking: 115 kN}\n", "",
            "/lines/haul/pieces", "doesn't end with a piece",
        ),
    ],
    "a join is no narrower": [
        ("twist: none", "twist: none, width: 10 mm", "/lines/haul/pieces/1/join_1/width", "narrower than the rope"),
    ],
    "a redirect takes no more": [
        ("truck_right]", "ring_a.bore, block_b.sheave, truck_right]", "/lines/haul/path", "which has room for 1"),
        (
            "ring_a.bore, block_b.sheave, truck_right]", "ring_a.bore, ring_a.bore, truck_right]",
            "/lines/haul/path/2", "straight to itself",
        ),
    ],
    "a redirect that hangs from nothing": [
        ("loss: 4 %, hung_from: [bow_b, strap_b, ash]", "loss: 4 %", "/redirects/block_b", "hangs from nothing"),
        (
            "loss: 4 %, hung_from: [bow_b, strap_b, ash]→truck_right]", "loss: 4 %→block_b]", "/redirects/block_b",
            "hangs from nothing",
        ),
    ],
    "the load and something": [
        ("path: [winch, ring_a.bore, block_b.sheave, truck_right]", "path: [winch, ash]", "/lines", "to the load"),
        (
            "mounted: tender_nose→path: [winch, ring_a.bore, block_b.sheave, truck_right]",
            "mounted: truck_left→path: [winch, truck_right]", "/lines", "everything is made fast",
        ),
    ],
    "each stage says": [
        ("\nstops:", f"\n{STAGES}stops:", "/stops", "isn't clear when"),
        (
            "\nstops:                         # halts that are planned, with what is done there\n"
            "  - {after: 3.5 m, do: take join_1 past ring_a, load_held_by: chocks}",
            "\n" + STAGES.replace("4 m", "5 m"), "/bodies/fruit_truck/moves/distance", "move the load 7 m in all",
        ),
        (
            "\nstops:                         # halts that are planned, with what is done there\n"
            "  - {after: 3.5 m, do: take join_1 past ring_a, load_held_by: chocks}",
            "\nstages: [{name: one}]", "/stages/0", "doesn't say how far",
        ),
    ],
    "a winch pays out": [
        ("reports_in: metric ", "works: paying out ", "/bodies/fruit_truck/ground/slope", "goes uphill here"),
        (
            "bearing: 0 deg}", "bearing: 0 deg, climb: 6 deg}", "/bodies/fruit_truck/moves/climb",
            "otherwise than the slope",
        ),
    ],
    "a damper lies": [
        (
            LAST, "\ndampers: [{line: haul, between: [winch, block_b]}]\nstops:", "/dampers/0/between",
            "no leg of `haul` goes between",
        ),
        (LAST, "\ndampers: [{line: haul, between: [winch, winch]}]\nstops:", "/dampers/0/between", "one name"),
    ],
}  # fmt: skip


def edited(text: str, old: str, new: str) -> str:
    for before, after in zip(old.split("→"), new.split("→"), strict=True):
        assert text.count(before) == 1, f"{before!r} stands {text.count(before)} times"
        text = text.replace(before, after)
    return text
