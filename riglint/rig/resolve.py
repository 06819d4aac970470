"""Plan to rig: every name becomes the object it stands for, stage by stage.

What can't be is a `Fault`; all faults of a plan are found before `RigFaults` is raised.
"""

from __future__ import annotations

from riglint.mechanics.vectors import ZERO, along
from riglint.plan.plan import Plan
from riglint.rig.checks import check_names, check_stages, load_name
from riglint.rig.faults import Faults
from riglint.rig.model import Rig, RigStage
from riglint.rig.places import Places
from riglint.rig.stage import GROUND, SoFar, StageResolver

__all__ = ["GROUND", "resolve"]


def resolve(plan: Plan) -> Rig:
    """The rig of a plan. Raises RigFaults with everything that does not fit together."""
    faults = Faults()
    check_names(plan, faults)
    load = load_name(plan, faults)
    check_stages(plan, load, faults)
    north = plan.north.low if plan.north else None
    places = Places(plan.points, lambda name: f"/points/{name}", north, faults)
    stages: list[RigStage] = []
    so_far = SoFar(ZERO, 0.0)
    for i, stage in enumerate(plan.stages or (None,)):
        resolved = StageResolver(plan, stage, i, load, places, so_far, faults).resolve()
        if resolved is not None:
            stages.append(resolved)
            way = resolved.travel.high
            so_far = SoFar(along(so_far.shift, resolved.direction, way), so_far.done_m + way)
    faults.stop_if_any()
    return Rig(plan.title, plan.reports_in, north, tuple(stages))
