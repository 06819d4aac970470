"""The picture of a rig: what stands in it, that labels keep off each other, and that nothing in it runs."""

import re
import xml.etree.ElementTree as ET
from itertools import combinations, pairwise
from math import hypot
from time import process_time

import pytest

from riglint.outcome import Grade
from riglint.picture.draw import Picture, draw, picture
from riglint.picture.ink import SIGNAL
from riglint.picture.lanes import APART, lanes
from riglint.picture.metrics import width
from riglint.picture.stops import NoSuchPlaceError, station_at
from riglint.picture.svg import escaped
from riglint.picture.uses import use_words
from riglint.picture.view import WIDTH, from_above
from tests.picture.plans import EXAMPLES, FOLDER, MADE, checked, example, made

NS = "{http://www.w3.org/2000/svg}"
KNOWN = {"svg", "title", "desc", "defs", "pattern", "clipPath", "g", "path", "rect", "circle", "text", "tspan"}


def every_picture(name: str) -> list[Picture]:
    """Each stage at its start, in the middle of the travel and at its end."""
    solution, inspection = example(name)
    out = []
    for k, stage in enumerate(solution.stages):
        half = f"{stage.stations[-1].travel_m / 2:.4f} m"
        out += [picture(solution, k, place, inspection) for place in ("start", half, "end")]
    return out


def texts(svg: str) -> list[str]:
    return ["".join(element.itertext()) for element in ET.fromstring(svg).iter(f"{NS}text")]


def test_labels_of_examples_lie_in_the_frame_and_apart() -> None:
    for name in EXAMPLES:
        for drawn in every_picture(name):
            apart(drawn, name)
            assert drawn.below == (), f"{name}: labels that found no room: {drawn.below}"


@pytest.mark.parametrize("seed", MADE)
def test_labels_of_made_plans_lie_apart(seed: int) -> None:
    solution, inspection = made(seed)
    for k in range(len(solution.stages)):
        apart(picture(solution, k, "start", inspection), f"seed {seed}")


def apart(drawn: Picture, name: str) -> None:
    root = ET.fromstring(drawn.svg)
    height = float(root.attrib["height"])
    for boxes in drawn.labels:
        assert boxes, name
        for box in boxes:
            assert 0 <= box.left < box.right <= WIDTH, name
            assert 0 <= box.top < box.bottom <= height, name
        for one, other in combinations(boxes, 2):
            assert not one.meets(other), f"{name}: {one} lies on {other}"


def test_texts_fit_their_boxes_by_the_widest_usual_font() -> None:
    """Widths of DejaVu Sans, in thousandths of its size, read from the font: none is wider than reckoned."""
    read = {
        "i": 278, "n": 634, "m": 974, "W": 989, "w": 818, "0": 636, "%": 950, " ": 318, "_": 500, "A": 684, "M": 863,
        "/": 337, "\u00b7": 318, "t": 392, "r": 411, "f": 352, "Q": 787, "O": 787, "+": 838, "\u2026": 1000,
        "-": 361, "G": 775, "N": 748, "D": 770, "s": 521, "b": 635, "@": 1000, "H": 752, "U": 732,
    }  # fmt: skip
    for char, wide in read.items():
        assert width(char * 20, 10.0) >= 20 * wide / 100, char


def test_every_leg_redirect_point_body_and_person_is_named() -> None:
    for name in EXAMPLES:
        solution, inspection = example(name)
        for k, stage in enumerate(solution.stages):
            svg = draw(solution, k, "start", inspection)
            shown = " | ".join(texts(svg))
            here = stage.stage
            names = [*here.points, *(n for n in here.redirects if n in stage.stations[0].places)]
            names += [b.name for b in here.bodies.values() if b.name != "ground"] + [p.who for p in here.people]
            for wanted in names:
                assert wanted in shown, f"{name}: {wanted} is not in the picture"
            numbers = [t for t in texts(svg) if re.fullmatch(r"[A-Z]?\d+", t)]
            assert len(numbers) == len(stage.stations[0].legs) * (2 if "side" in svg and "url(#rig-side)" in svg else 1)


def test_legs_are_numbered_in_reeving_order_with_their_pulls() -> None:
    solution, inspection = example("ten-parts")
    shown = texts(draw(solution, 0, "start", inspection))
    legs = solution.stages[0].stations[0].legs
    at = [shown.index(str(leg.index + 1)) for leg in legs]
    pulls = [shown[i + 1] for i in at]
    assert pulls[0].startswith("11.7 / 14.6 kN")
    assert pulls[-1].startswith("7.82 / 11.1 kN")


def test_ten_legs_are_drawn_apart() -> None:
    solution, inspection = example("ten-parts")
    svg = draw(solution, 0, "start", inspection)
    assert "drawn side by side" in svg
    root = ET.fromstring(svg)
    tops = sorted(float(e.attrib["y"]) for e in root.iter(f"{NS}text") if re.fullmatch(r"\d+", "".join(e.itertext())))
    assert all(b - a > 15 for a, b in pairwise(tops))


def test_a_straight_pull_says_nothing_of_spreading() -> None:
    assert "drawn side by side" not in draw(*example("straight-pull")[:1])


def test_the_load_goes_to_the_right_whatever_its_bearing() -> None:
    text = (FOLDER / "self-recovery.yaml").read_text(encoding="utf-8")
    drawn = ET.fromstring(draw(checked(text)[0]))
    assert drawn.attrib["width"] == "840"
    numbers = {"".join(e.itertext()): float(e.attrib["x"]) for e in drawn.iter(f"{NS}text")}
    willow = next(x for t, x in numbers.items() if t.startswith("willow"))
    truck = next(x for t, x in numbers.items() if t.startswith("survey_truck"))
    assert willow > truck + 200


def test_heights_give_a_view_from_the_side() -> None:
    assert "from the side" in draw(example("up-the-bank")[0])
    assert "from the side" not in draw(example("fruit-truck")[0])
    assert "from the side" not in draw(example("straight-pull")[0])


def test_north_is_shown_where_the_plan_gives_it_and_said_to_be_missing_where_not() -> None:
    text = (FOLDER / "straight-pull.yaml").read_text(encoding="utf-8")
    assert "north not stated" in draw(checked(text)[0])
    with_north = text.replace("\nbodies:", "\nnorth: 90 deg\nbodies:", 1)
    shown = texts(draw(checked(with_north)[0]))
    assert "north" in shown
    assert "north not stated" not in shown


def test_strokes_and_words_tell_use_without_colour() -> None:
    solution, inspection = example("fruit-truck")
    shown = " | ".join(texts(draw(solution, 0, "start", inspection)))
    assert "over: 119 %" in shown
    assert "WARNING" in shown
    untold = draw(*example("ten-lines")[:1], inspection=example("ten-lines")[1])
    assert "can't tell" in " | ".join(texts(untold))
    assert 'stroke-dasharray="11 6"' in untold


def test_what_was_not_inspected_says_so() -> None:
    shown = " | ".join(texts(draw(example("fruit-truck")[0])))
    assert "not checked by any rule" in shown
    assert "%" not in shown.replace("50 %", "")


def test_signal_words_stand_on_their_colours() -> None:
    assert {SIGNAL[g][0] for g in Grade} == {"#ba2120", "#e37700", "#eac600", "#005898"}
    for name in EXAMPLES:
        solution, inspection = example(name)
        root = ET.fromstring(draw(solution, 0, "start", inspection))
        words = [e for e in root.iter(f"{NS}text") if "".join(e.itertext()) in {g.value for g in Grade}]
        grounds = [e for e in root.iter(f"{NS}rect") if e.attrib.get("fill") in {SIGNAL[g][0] for g in Grade}]
        assert len(words) == len(grounds)


def test_events_numbers_start_and_end_choose_the_station() -> None:
    solution, _ = example("fruit-truck")
    stage = solution.stages[0]
    assert station_at(solution, stage, "start").index == 0
    assert station_at(solution, stage, "end") is stage.stations[-1]
    assert station_at(solution, stage, "stop").travel_m == pytest.approx(3.5)
    assert station_at(solution, stage, "join_1 reaches ring_a").travel_m == pytest.approx(3.9, abs=0.05)
    assert station_at(solution, stage, "6 ft").travel_m == pytest.approx(1.8288)
    assert station_at(solution, stage, "3.5 m") is station_at(solution, stage, "stop")


@pytest.mark.parametrize("asked", ["7 m", "nowhere", "3.5", "-1 m", "1 kN"])
def test_a_place_that_the_travel_does_not_have_is_refused(asked: str) -> None:
    solution, _ = example("fruit-truck")
    with pytest.raises(NoSuchPlaceError, match=re.escape(asked)):
        draw(solution, 0, asked)


def test_between_events_the_loads_lie_between_those_of_the_stations_around() -> None:
    solution, _ = example("up-the-bank")
    stage = solution.stages[0]
    pulls = [station_at(solution, stage, place).legs[1].tension["expected"] for place in ("start", "3 m", "6 m")]
    assert pulls[0] < pulls[1] < pulls[2]


def test_the_frame_stays_while_the_load_goes() -> None:
    solution, inspection = example("fruit-truck")
    frames = []
    for place in ("start", "3.5 m", "end"):
        root = ET.fromstring(draw(solution, 0, place, inspection))
        frames.append(next(root.iter(f"{NS}clipPath"))[0].attrib)
    assert frames[0] == frames[1] == frames[2]


def test_equal_plans_give_equal_pictures() -> None:
    text = (FOLDER / "compound-rig.yaml").read_text(encoding="utf-8")
    one, other = checked(text), checked(text)
    assert draw(one[0], 0, "end", one[1]) == draw(other[0], 0, "end", other[1])


def test_a_rig_that_cannot_stand_is_drawn_with_the_reason() -> None:
    text = (FOLDER / "compound-rig.yaml").read_text(encoding="utf-8").replace("length: 42 m", "length: 4 m")
    solution, inspection = checked(text)
    assert solution.stages[0].refused
    svg = draw(solution, 0, "start", inspection)
    assert "can&#39;t stand as planned" in svg
    ET.fromstring(svg)


EVIL = (
    "<script>alert(1)</script>", '"><img src=x onerror=alert(1)>', "</text></svg><script>x()</script>", "]]><script/>",
    "&lt;script&gt;", "<!-- --><svg onload=alert(1)>", "javascript:alert(1)", "{{7*7}}", "' onmouseover='alert(1)",
    "<a xlink:href='https://example.org'>x</a>", "url(https://example.org/x.svg#y)",
    "<?xml-stylesheet href='x'?>", "&xxe;",
    "<style>@import 'https://example.org'</style>", "x" * 1900,
)  # fmt: skip


@pytest.mark.parametrize("evil", EVIL)
def test_markup_in_a_plan_is_text_in_the_picture(evil: str) -> None:
    quoted = evil.replace("\\", "\\\\").replace('"', '\\"')
    text = (FOLDER / "fruit-truck.yaml").read_text(encoding="utf-8")
    text = text.replace("title: Fruit truck off a soft verge, three parts and one extension", f'title: "{quoted}"')
    text = text.replace("who: spotter", f'who: "{quoted}"')
    text = text.replace("do: take join_1 past ring_a", f'do: "{quoted} join_1 ring_a"')
    solution, inspection = checked(text)
    drawn = picture(solution, 0, "3.5 m", inspection)
    inert(drawn.svg)
    apart(drawn, evil)


def inert(svg: str) -> None:
    """Known elements alone, no handler, no address but the namespace's, no references but within."""
    root = ET.fromstring(svg)
    for element in root.iter():
        assert element.tag.removeprefix(NS) in KNOWN
        for key, value in element.attrib.items():
            assert not key.lower().startswith("on")
            assert "href" not in key.lower()
            assert key.lower() != "style"
            for address in re.findall(r"url\((.*?)\)", value):
                assert address.startswith("#")
            assert "://" not in value


def test_every_example_is_inert_and_told_in_words() -> None:
    for name in EXAMPLES:
        for drawn in every_picture(name):
            inert(drawn.svg)
            root = ET.fromstring(drawn.svg)
            assert root.attrib["role"] == "img"
            ids = {e.attrib["id"] for e in root.iter() if "id" in e.attrib}
            assert set(root.attrib["aria-labelledby"].split()) <= ids
            assert root[0].tag == f"{NS}title"
            assert root[1].tag == f"{NS}desc"
            assert "nan" not in re.sub(r"<desc.*</desc>", "", drawn.svg).lower()
            assert "Leg 1" in (root[1].text or "") or "Leg A1" in (root[1].text or "")


def test_ids_of_two_pictures_on_a_page_can_be_kept_apart() -> None:
    solution, _ = example("fruit-truck")
    one, other = (set(re.findall(r'id="([^"]+)"', draw(solution, 0, "start", None, p))) for p in ("a-", "b-"))
    assert one
    assert not one & other


def test_a_far_person_is_told_at_the_edge_with_the_distance() -> None:
    solution, inspection = example("compound-rig")
    shown = " | ".join(texts(draw(solution, 0, "start", inspection)))
    off_m = hypot(12.0 - -2.05, -75.0)
    assert f"{off_m:.1f} m from the load" in shown


def test_a_picture_is_quick_enough_to_be_drawn_on_each_edit() -> None:
    solution, inspection = example("ten-parts")
    times = []
    for _ in range(5):
        begun = process_time()
        draw(solution, 0, "start", inspection)
        times.append(process_time() - begun)
    assert min(times) < 0.06  # 15 to 20 ms where this was written


def test_a_use_on_the_limit_is_not_over_it_and_one_past_it_is() -> None:
    assert use_words(1.0, untold=False) == "100 %"
    assert use_words(1.0 + 1e-13, untold=False) == "100 %"
    assert use_words(1.0001, untold=False) == "over: 100.01 %"
    assert use_words(0.4, untold=True) == "40 %, rest can't tell"
    assert use_words(None, untold=True) == "can't tell"
    assert use_words(None, untold=False) == ""


def test_text_that_would_break_xml_or_turn_its_direction_is_taken_out() -> None:
    assert escaped("a\x00b\x1b[31m\u202ec\ud800\ufffe\n<&'\">") == "a b [31m c &lt;&amp;&#39;&quot;&gt;"


def test_north_on_the_sheet_follows_the_turn_of_the_view() -> None:
    view = from_above([(0.0, 0.0, 0.0), (0.0, 20.0, 0.0)], [], (0.0, 1.0, 0.0), 0.0, 200.0, 0.0)
    assert view.way((0.0, 1.0, 0.0)) == pytest.approx((1.0, 0.0))
    assert view.way((1.0, 0.0, 0.0)) == pytest.approx((0.0, 1.0))  # +x lies to the right hand of a travel along +y


def test_lanes_keep_ends_and_part_what_lies_upon_each_other() -> None:
    legs = [((0.0, 0.0), (300.0, 0.0)), ((300.0, 0.0), (0.0, 0.0)), ((0.0, 3.0), (300.0, 3.0))]
    spread = lanes(legs)
    assert spread.spread
    for leg, way in zip(legs, spread.ways, strict=True):
        assert (way[0], way[-1]) == leg
    heights = sorted(way[1][1] for way in spread.ways)
    assert all(b - a >= APART - 1e-9 for a, b in pairwise(heights))
    apart_already = [((0.0, 0.0), (300.0, 0.0)), ((0.0, 40.0), (300.0, 40.0))]
    assert lanes(apart_already).ways == tuple(apart_already)
