"""What holds for every function of the mechanics: it names its source and units, and it refuses rubbish."""

import ast
import inspect
from collections.abc import Callable, Iterator
from importlib import import_module
from math import inf, nan, pi
from pathlib import Path
from typing import Any

import pytest

import riglint.mechanics as package
from riglint.mechanics import (
    anchors,
    angles,
    bend,
    capacity,
    danger,
    deadman,
    drum,
    friction,
    heat,
    pickets,
    resistance,
    resistance_sum,
    strength,
    tackle,
    thumb,
)

FOLDER = Path(next(iter(package.__path__)))
UNITS = (
    *("_n", "_m", "_rad", "_kg", "_s", "_pa", "_j", "_k", "_nm", "_m2", "_m_s"),
    *("_kg_m", "_kg_m3", "_j_m", "_j_kgk"),
    *("_ratio", "_fraction", "_factor", "_count"),
)
SYMBOLS = {
    *("mu", "factor", "ratio", "fraction", "count"),  # dimensionless, and named as the trade names them
    *("at_low", "at_high", "at_start", "at_end", "slope_start", "slope_end"),  # of any function: root finding
    *("a", "b", "figure"),  # of any unit: whether figures differ by more than rounding
}


def _public_functions() -> Iterator[tuple[str, ast.FunctionDef]]:
    for path in sorted(FOLDER.glob("[!_]*.py")):
        for node in ast.parse(path.read_text(encoding="utf-8")).body:
            if isinstance(node, ast.FunctionDef) and not node.name.startswith("_"):
                yield f"{path.stem}.{node.name}", node


FUNCTIONS = dict(_public_functions())


@pytest.mark.parametrize("name", FUNCTIONS)
def test_each_function_names_its_source(name: str) -> None:
    assert "Source:" in (ast.get_docstring(FUNCTIONS[name]) or "")


@pytest.mark.parametrize("name", FUNCTIONS)
def test_each_float_argument_carries_its_unit(name: str) -> None:
    arguments = FUNCTIONS[name].args
    bare = [
        argument.arg
        for argument in (*arguments.posonlyargs, *arguments.args, *arguments.kwonlyargs)
        if argument.annotation is not None
        and ast.unparse(argument.annotation) == "float"
        and argument.arg not in SYMBOLS
        and not argument.arg.endswith(UNITS)
    ]
    assert bare == []


@pytest.mark.parametrize("path", sorted(FOLDER.glob("*.py")), ids=lambda path: path.stem)
def test_mechanics_knows_nothing_of_the_stages_after_it(path: Path) -> None:
    tree = ast.parse(path.read_text(encoding="utf-8"))
    imported = {node.module for node in ast.walk(tree) if isinstance(node, ast.ImportFrom) and node.module}
    imported |= {alias.name for node in ast.walk(tree) if isinstance(node, ast.Import) for alias in node.names}
    ours = {name for name in imported if name.startswith("riglint")}
    assert all(name.startswith("riglint.mechanics") for name in ours)


A_DRUM = drum.Drum(barrel_m=0.065, width_m=0.225, rope_m=0.011)
# A good call of each function with a float argument: each float in turn is then made rubbish.
GOOD: dict[Callable[..., Any], dict[str, Any]] = {
    resistance.mire_resistance_n: {"weight_n": 1e4, "depth": "wheel depth", "reduction_fraction": 0.1},
    resistance.overturn_resistance_n: {"weight_n": 1e4},
    resistance.doctrine_grade_resistance_n: {"weight_n": 1e4},
    resistance.rolling_fraction_by_penetration: {"penetration_m": 0.05},
    resistance.grade_component_n: {"weight_n": 1e4, "slope_rad": 0.1},
    resistance.rolling_resistance_n: {"weight_n": 1e4, "friction_fraction": 0.1},
    resistance_sum.doctrine_resistance: {"weight_n": 1e4, "depth": "wheel depth", "reduction_fraction": 0.1},
    resistance_sum.surface_resistance: {"weight_n": 1e4, "slope_rad": 0.1, "surface": "hard road"},
    resistance_sum.penetration_resistance: {"weight_n": 1e4, "slope_rad": 0.1, "penetration_m": 0.05},
    tackle.required_ratio_count: {"load_n": 1e4, "winch_n": 5e3},
    tackle.tackle_resistance_n: {"load_n": 1e4, "sheave_count": 2},
    tackle.total_resistance_n: {"load_n": 1e4, "sheave_count": 2},
    tackle.fall_line_n: {"total_n": 1e4, "ratio_count": 2},
    tackle.dead_line_n: {"line_n": 1e4, "lines_count": 2},
    tackle.effort_available_n: {"winch_n": 1e4, "ratio_count": 2},
    tackle.doctrine_tackle: {"load_n": 1e4, "winch_n": 5e3},
    tackle.lead_line_factor: {"parts_count": 4, "sheave_factor": 1.04},
    tackle.tackle_ratio: {"parts_count": 4, "sheave_factor": 1.04},
    tackle.ideal_pull_n: {"load_n": 1e4, "parts_count": 4},
    friction.mu_from_half_turn_loss: {"half_turn_loss_fraction": 0.1},
    friction.half_turn_loss_fraction: {"mu": 0.1},
    friction.sliding_ratio: {"mu": 0.1, "wrap_rad": 1.0},
    friction.turning_ratio: {"half_turn_loss_fraction": 0.1, "wrap_rad": 1.0},
    friction.capstan_hold_n: {"load_n": 1e4, "mu": 0.1, "wrap_rad": 1.0},
    friction.fastening_tension_n: {"tension_n": 1e4, "mu": 0.1, "wraps_count": 5.0},
    friction.v_groove_mu: {"mu": 0.1, "half_angle_rad": 0.3},
    angles.redirect_factor: {"included_rad": 1.0},
    angles.resultant_n: {"first_n": 1e3, "second_n": 2e3, "included_rad": 1.0},
    angles.sling_leg_factor: {"from_level_rad": 1.0},
    angles.sling_leg_tension_n: {"load_n": 1e4, "length_m": 3.0, "height_m": 2.0},
    angles.equalised_leg_n: {"load_n": 1e4, "included_rad": 1.0},
    angles.bridle_loads: {"load_n": 1e4, "first_rad": 0.3, "second_rad": 0.4},
    angles.bridle_worst_leg_n: {"load_n": 1e4, "first_rad": 0.3, "second_rad": 0.4},
    drum.Drum: {"barrel_m": 0.065, "width_m": 0.225, "rope_m": 0.011, "stack_factor": 1.0},
    drum.wraps_per_layer_count: {"width_m": 0.225, "rope_m": 0.011},
    drum.layer_of: {"drum": A_DRUM, "length_m": 8.0},
    drum.wraps_left_count: {"drum": A_DRUM, "length_m": 8.0},
    drum.length_of_wraps_m: {"drum": A_DRUM, "wraps_count": 8.0},
    drum.layers_under_flange_count: {"drum": A_DRUM, "flange_m": 0.19, "freeboard_m": 0.01},
    drum.drum_capacity_m: {"drum": A_DRUM, "flange_m": 0.19, "freeboard_m": 0.01},
    drum.overfill_m: {"drum": A_DRUM, "length_m": 8.0, "flange_m": 0.19, "freeboard_m": 0.01},
    drum.handbook_capacity_m: {"width_m": 0.225, "depth_m": 0.05, "barrel_m": 0.065, "rope_m": 0.011},
    drum.pull_at_layer_n: {"drum": A_DRUM, "rated_n": 5e4, "rated_layer": 1, "layer": 2},
    drum.layer_pull_ratio: {"layer_growth_ratio": 0.1, "layer": 2},
    capacity.working_load_n: {"breaking_n": 1e5, "design_factor": 5.0},
    capacity.use_ratio: {"load_n": 1e4, "capacity_n": 2e4},
    capacity.hitch_factor: {"hitch": "basket", "from_level_rad": 1.0},
    capacity.shackle_side_factor: {"off_line_rad": 0.1},
    capacity.block_head_load_n: {"line_n": 1e4},
    capacity.block_resultant_rating_n: {"mark_n": 1e4, "marked_for": "line"},
    thumb.thumb_working_n: {"item": "wire", "diameter_m": 0.01},
    thumb.thumb_breaking_n: {"fibre": "manila", "girth_m": 0.05},
    thumb.clips_count: {"diameter_m": 0.01},
    thumb.clips_by_table_count: {"diameter_m": 0.01, "forged": True},
    thumb.clip_spacing_m: {"diameter_m": 0.01},
    strength.nominal_wire_strength_n: {"diameter_m": 0.0127},
    strength.wire_breaking_n: {"diameter_m": 0.01, "grade_pa": 1.77e9, "fibre_core": False},
    bend.wire_bend_efficiency_fraction: {"bend_ratio": 5.0},
    bend.wire_bend_for_efficiency_ratio: {"efficiency_fraction": 0.8},
    bend.fibre_bend_demand: {"load_ratio": 0.5, "moving": True},
    bend.wire_bend_demand: {"load_ratio": 0.5, "moving": False},
    bend.bend_demand: {"rope": "fibre", "load_ratio": 0.5, "moving": False},
    heat.slip_heat_j_m: {"incoming_n": 2e4, "outgoing_n": 1e4},
    heat.slip_heat_j: {"incoming_n": 2e4, "outgoing_n": 1e4, "slip_m": 2.0},
    heat.rope_mass_kg_m: {"diameter_m": 0.011, "density_kg_m3": 970.0, "fill_fraction": 0.6},
    heat.temperature_rise_k: {"heat_j_m": 2e3, "mass_kg_m": 0.06, "specific_heat_j_kgk": 1850.0},
    deadman.deadman_holding_pa: {"depth_m": 1.5, "slope_rad": 0.4, "soil": "loam"},
    deadman.deadman_capacity_n: {"holding_pa": 1e5, "face_m": 0.5, "effective_m": 2.0},
    deadman.deadman_length_m: {"breaking_n": 3e5, "holding_pa": 1e5, "face_m": 0.5, "trench_m": 0.3},
    deadman.deadman_slenderness_ratio: {"length_m": 2.0, "thickness_m": 0.3},
    anchors.vehicle_grip_n: {"weight_n": 3e4, "mu": 0.4, "slope_rad": 0.1, "uplift_n": 1e3},
    anchors.vehicle_holding_pull_n: {"weight_n": 3e4, "mu": 0.4, "slope_rad": 0.1, "lift_rad": 0.2},
    anchors.tree_holding_n: {"diameter_m": 0.4},
    anchors.pressing_share: {"slope_rad": 0.1, "across_rad": 0.05},
    anchors.tipping: {
        **{"weight_n": 3e4, "half_base_m": 0.8, "cg_height_m": 1.0, "slope_rad": 0.1},
        **{"pull_n": 1e4, "pull_height_m": 0.8, "uplift_n": 1e3, "uplift_arm_m": 0.5},
    },
    danger.recoil: {"place": (1.0, 1.0), "start": (0.0, 0.0), "end": (5.0, 0.0), "reach_m": 5.0},
    danger.in_recoil_cone: {
        **{"place": (1.0, 1.0), "start": (0.0, 0.0), "end": (5.0, 0.0)},
        **{"reach_m": 5.0, "half_angle_rad": 0.3},
    },
    danger.flight: {
        **{"place": (1.0, 1.0), "seat": (0.0, 0.0), "before": (5.0, 0.0), "after": (0.0, 5.0)},
        **{"before_n": 1e4, "after_n": 1e4},
    },
    danger.stand_off_m: {"length_m": 20.0, "multiple_factor": 2.0},
}
FLOATS = [(function, name) for function, good in GOOD.items() for name, v in good.items() if type(v) is float]


@pytest.mark.parametrize("function", GOOD, ids=lambda function: function.__name__)
def test_the_good_call_is_good(function: Callable[..., Any]) -> None:
    assert function(**GOOD[function]) is not None


@pytest.mark.parametrize("rubbish", [nan, inf, -inf], ids=str)
@pytest.mark.parametrize(("function", "name"), FLOATS, ids=lambda x: x if isinstance(x, str) else x.__name__)
def test_rubbish_is_refused_by_name(function: Callable[..., Any], name: str, rubbish: float) -> None:
    with pytest.raises(ValueError, match=rf"^{name} must be"):
        function(**{**GOOD[function], name: rubbish})


def test_no_function_of_these_modules_was_left_out() -> None:
    modules = {function.__module__ for function in GOOD} | {pickets.__name__}
    taking_floats = {
        function
        for module in modules
        for name, function in inspect.getmembers(import_module(module), inspect.isfunction)
        if function.__module__ == module and not name.startswith("_")
        if "float"
        in {str(getattr(p.annotation, "__name__", "")) for p in inspect.signature(function).parameters.values()}
    }
    assert taking_floats - set(GOOD) == set()


NEVER_BELOW_0 = (
    "weight_n",
    "load_n",
    "total_n",
    "line_n",
    "first_n",
    "second_n",
    "tension_n",
    "rated_n",
    "pull_n",
)
FROM_0 = (
    *NEVER_BELOW_0,
    *(
        "penetration_m",
        "friction_fraction",
        "mu",
        "wrap_rad",
        "wraps_count",
        "length_m",
        "depth_m",
        "freeboard_m",
    ),
    *("incoming_n", "outgoing_n", "slip_m", "heat_j_m", "uplift_n", "uplift_arm_m", "trench_m", "reach_m"),
    *("before_n", "after_n", "load_ratio", "layer_growth_ratio", "half_turn_loss_fraction", "included_rad"),
)
ABOVE_0 = (
    *(
        "winch_n",
        "breaking_n",
        "capacity_n",
        "mark_n",
        "barrel_m",
        "rope_m",
        "diameter_m",
        "girth_m",
        "grade_pa",
    ),
    *(
        "density_kg_m3",
        "fill_fraction",
        "mass_kg_m",
        "specific_heat_j_kgk",
        "holding_pa",
        "face_m",
        "effective_m",
    ),
    *("thickness_m", "half_angle_rad", "from_level_rad", "height_m"),
)
# Where a name's range is not the usual one.
ABOVE_0_HERE = {
    (angles.sling_leg_tension_n, "length_m"),
    (deadman.deadman_slenderness_ratio, "length_m"),
}
FROM_0_HERE = {(danger.in_recoil_cone, "half_angle_rad")}
EITHER_WAY_HERE = {(anchors.tipping, "pull_n")}


def _edge(function: Callable[..., Any], name: str) -> bool | None:
    """Whether 0 is good for an argument; None where its range does not end at 0."""
    if (function, name) in EITHER_WAY_HERE:
        return None
    if (function, name) in ABOVE_0_HERE:
        return False
    if (function, name) in FROM_0_HERE or name in FROM_0:
        return True
    return False if name in ABOVE_0 else None


ENDS_AT_0 = [(function, name) for function, name in FLOATS if _edge(function, name) is not None]


@pytest.mark.parametrize(("function", "name"), ENDS_AT_0, ids=lambda x: x if isinstance(x, str) else x.__name__)
def test_a_range_that_ends_at_0(function: Callable[..., Any], name: str) -> None:
    with pytest.raises(ValueError, match=rf"^{name} must be"):
        function(**{**GOOD[function], name: -1e-12})
    if _edge(function, name):
        function(**{**GOOD[function], name: 0.0})
    else:
        with pytest.raises(ValueError, match=rf"^{name} must be"):
            function(**{**GOOD[function], name: 0.0})


TOPS: list[tuple[Callable[..., Any], str, float]] = [
    (resistance.mire_resistance_n, "reduction_fraction", 0.5),
    (resistance.grade_component_n, "slope_rad", pi / 2),
    (tackle.tackle_ratio, "sheave_factor", 2.0),
    (friction.turning_ratio, "wrap_rad", 2 * pi),
    (friction.v_groove_mu, "half_angle_rad", pi / 2),
    (angles.redirect_factor, "included_rad", pi),
    (angles.resultant_n, "included_rad", pi),
    (angles.sling_leg_factor, "from_level_rad", pi / 2),
    (angles.sling_leg_tension_n, "height_m", 3.0),
    (capacity.hitch_factor, "from_level_rad", pi / 2),
    (capacity.shackle_side_factor, "off_line_rad", pi),
    (bend.wire_bend_for_efficiency_ratio, "efficiency_fraction", 1.0),
    (heat.rope_mass_kg_m, "fill_fraction", 1.0),
    (deadman.deadman_holding_pa, "slope_rad", pi / 2),
    (anchors.vehicle_holding_pull_n, "lift_rad", pi / 2),
    (danger.in_recoil_cone, "half_angle_rad", pi / 2),
    (drum.Drum, "stack_factor", 1.0),
    (drum.Drum, "rope_m", 0.225),
    (drum.layer_of, "length_m", 100_000.0),
    (drum.length_of_wraps_m, "wraps_count", 100_000.0),
]
BOTTOMS: list[tuple[Callable[..., Any], str, float]] = [
    (resistance.grade_component_n, "slope_rad", -pi / 2),
    (tackle.tackle_ratio, "sheave_factor", 1.0),
    (capacity.working_load_n, "design_factor", 1.0),
    (bend.wire_bend_efficiency_fraction, "bend_ratio", 1.0),
    (anchors.vehicle_holding_pull_n, "lift_rad", -pi / 2),
    (danger.stand_off_m, "multiple_factor", 1.0),
    (drum.Drum, "stack_factor", 0.8),
    (drum.layers_under_flange_count, "flange_m", 0.065),
]
ENDS = [(*row, 1e-6) for row in TOPS] + [(*row, -1e-6) for row in BOTTOMS]


@pytest.mark.parametrize(("function", "name", "end", "past"), ENDS, ids=lambda x: getattr(x, "__name__", str(x)))
def test_the_other_end_of_a_range(function: Callable[..., Any], name: str, end: float, past: float) -> None:
    function(**{**GOOD[function], name: end})
    with pytest.raises(ValueError, match=rf"^{name} must be"):
        function(**{**GOOD[function], name: end + past})


@pytest.mark.parametrize("function", [anchors.vehicle_grip_n, anchors.vehicle_holding_pull_n, anchors.tipping])
@pytest.mark.parametrize("slope_rad", [pi / 2, -pi / 2])
def test_a_wall_is_no_slope(function: Callable[..., Any], slope_rad: float) -> None:
    with pytest.raises(ValueError, match="slope_rad"):
        function(**{**GOOD[function], "slope_rad": slope_rad})


@pytest.mark.parametrize("function", [anchors.vehicle_grip_n, anchors.vehicle_holding_pull_n, anchors.tipping])
@pytest.mark.parametrize("slope_rad", [pi / 2 - 1e-6, -pi / 2 + 1e-6])
def test_the_steepest_slope_is_one(function: Callable[..., Any], slope_rad: float) -> None:
    function(**{**GOOD[function], "slope_rad": slope_rad})


SMALLEST = [(function, name) for function, name in ENDS_AT_0 if not _edge(function, name)]


@pytest.mark.parametrize(("function", "name"), SMALLEST, ids=lambda x: x if isinstance(x, str) else x.__name__)
def test_a_range_begins_just_above_0(function: Callable[..., Any], name: str) -> None:
    refused = ""
    try:
        function(**{**GOOD[function], name: 1e-6})
    except ValueError as error:
        refused = str(error)
    assert not refused.startswith(f"{name} ")  # another argument may be too large beside it


@pytest.mark.parametrize("function", [friction.mu_from_half_turn_loss, friction.turning_ratio])
def test_a_seat_that_takes_all_the_pull_is_none(function: Callable[..., Any]) -> None:
    function(**{**GOOD[function], "half_turn_loss_fraction": 1.0 - 1e-6})
    with pytest.raises(ValueError, match="half_turn_loss_fraction"):
        function(**{**GOOD[function], "half_turn_loss_fraction": 1.0})


def test_a_bridle_s_legs_are_angles_of_less_than_a_half_turn() -> None:
    angles.bridle_loads(load_n=1e4, first_rad=0.0, second_rad=0.4)
    angles.bridle_loads(load_n=1e4, first_rad=0.4, second_rad=0.0)
    for name in ("first_rad", "second_rad"):
        with pytest.raises(ValueError, match=rf"^{name} must be"):
            angles.bridle_loads(**{**GOOD[angles.bridle_loads], name: pi})
        with pytest.raises(ValueError, match=rf"^{name} must be"):
            angles.bridle_loads(**{**GOOD[angles.bridle_loads], name: -1e-9})
