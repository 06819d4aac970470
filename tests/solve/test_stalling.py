"""Where hauling comes to take all that the winch can pull, a load that rises as it is hauled meets one that falls.

The load goes by a corner block, so that the line gains less and less and turns less and less. What the anchors bear
rises with the resistance until the winch stalls, and from there on falls with the turn. Stops that change nothing are
stations in between: none may show more than the plan without them.
"""

from hypothesis import example, given, settings
from hypothesis import strategies as st

from riglint.plan.load import load_plan
from riglint.solve.solution import StageSolution
from riglint.solve.solve import solve

TRAVEL_M = 6.0
STALL_N = 50e3


def hauled(aside_m: float, far_m: float, back_m: float, gain: float, loss: int, stops: int) -> StageSolution | None:
    planned = "\n".join(f"  - {{after: {TRAVEL_M * i / (stops + 1):.4f} m, do: look}}" for i in range(1, stops + 1))
    plan = f"""
rig_plan: 1
title: By a corner
bodies:
  load: {{moves: {{distance: {TRAVEL_M} m, bearing: 0 deg}}, weight: 6 t,
         resistance: {{steady: {gain * STALL_N} N, found_by: gauge}}, ground: {{slope: 0 deg}}}}
points:
  eye: {{on: load, at: [0 m, 0 m]}}
  post: {{on: ground, at: [{far_m} m, {aside_m} m]}}
  stake: {{on: ground, at: [{far_m + 2} m, {-0.5 * aside_m} m]}}
  mount: {{on: ground, at: [{-back_m} m, {aside_m + 4} m], kind: winch mount}}
winch: {{mounted: mount, rated_pull: {STALL_N} N, rated_layer: 1, stall_pull: {STALL_N} N}}
lines:
  haul: {{pieces: [rope: {{rope: hmpe}}], path: [winch, corner.bore, on_load.bore, stake]}}
redirects:
  corner: {{kind: ring, loss: 0 % to {loss} %, hung_from: [post], bore: {{}}}}
  on_load: {{kind: ring, loss: 0 % to {loss} %, hung_from: [eye], bore: {{}}}}
stops:
{planned}
"""
    [stage] = solve(load_plan(plan if stops else plan.replace("stops:\n", ""), "plan.yaml").rig).stages
    return None if stage.refused else stage


@given(
    aside=st.floats(1, 6), far=st.floats(3, 9), back=st.floats(-2, 12), gain=st.floats(0.4, 1.9),
    loss=st.sampled_from([5, 15, 30]),
)  # fmt: skip
@example(aside=3.0, far=7.0, back=5.0, gain=1.2, loss=30)
@settings(max_examples=50, deadline=None)
def test_no_stop_shows_more_than_the_peaks(aside: float, far: float, back: float, gain: float, loss: int) -> None:
    args = (round(aside, 2), round(far, 2), round(back, 2), round(gain, 2), loss)
    bare, stopping = hauled(*args, 0), hauled(*args, 20)
    assert bare is not None
    assert stopping is not None
    for case in ("expected", "stall"):
        for key, peak in stopping.peaks[case].items():
            assert peak.load_n <= bare.peaks[case][key].load_n * 1.003, (case, key)
