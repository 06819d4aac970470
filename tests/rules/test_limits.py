"""The limits of the standard rulebook, said a second time, in the units in which their sources or crews say them."""

from __future__ import annotations

import pytest

from riglint.rulebook.find import standard_rulebook

LIMITS = {
    "anchor-rating": {"steady": 3, "stall": 2},
    "bend-under-load": {"straight": "5 deg"},
    "between-load-and-anchor": {"clearance": "6 ft", "widest": "4 m"},
    "deadman-anchor": {"log": 5, "timber": 9},
    "drum-wraps": {"wire_wraps": 5, "fibre_layers": 1, "unstated_run": "0.5 m"},
    "fleet-angle": {"lead": "15 deg", "plain": "1.5 deg", "grooved": "2 deg"},
    "friction-heat": {"air": "30 degC"},
    "gear-condition": {"worn": "10 %"},
    "groove-fit": {"least_fit": "85 %"},
    "join-at-drum": {"stop_within": "1 m"},
    "join-at-redirect": {"stop_within": "1 m"},
    "join-stops-short": {"overrun": "30 cm"},
    "join-strength": {"loops": "85 %", "wire_rope": 3, "fibre_rope": 2, "gear": 5, "stall": 2},
    "methods-disagree": {"apart": "25 %"},
    "mixed-rope": {"unlike": "10 %"},
    "operator-place": {"distance": "6 ft", "half_angle": "15 deg"},
    "overturning": {"stability": 1.5},
    "part-adds-nothing": {"worth": "50 %"},
    "people-clear": {"clearance": "6 ft", "half_angle": "15 deg", "floor": 1, "strict": 2},
    "picket-holdfast": {"spacing": "1 m", "lean": "15 deg"},
    "point-direction": {"in_line": "5 deg"},
    "pull-off-line": {"off_line": "15 deg"},
    "recovery-strap": {"least": 2, "most": 3},
    "line-end-drawn-in": {"margin": "0.5 m"},
    "redirects-meet": {"margin": "0.5 m"},
    "rope-condition": {"tail": 60},
    "rope-twice-winch-pull": {"times": 2},
    "shackle-bow-angle": {"bow": "120 deg"},
    "shackle-off-line": {"most": "90 deg", "aside": "45 deg"},
    "shock-loading": {"leap": 2},
    "sharp-edge": {"radius": 1},
    "sling-angle": {"widest": "120 deg", "wide": "90 deg"},
    "soft-shackle-on-edge": {"pin": 1},
    "stand-off": {"floor": 1, "strict": 2},
    "towing-device": {"share": "50 %"},
    "tree-anchor": {"strap_height": "0.5 m"},
    "unequal-anchors": {"apart": "30 deg", "strength": 2},
    "vehicle-slides": {"grass": 0.35},
    "weak-link": {"aside": "15 deg"},
    "working-load": {
        "wire_rope": 3,
        "fibre_rope": 2,
        "shackle": 5,
        "fitting": 5,
        "chain": 4,
        "sling": 7,
        "strap": 5,
        "wire_sling": 5,
        "soft_gear": 5,
        "bridle": 5,
        "block": 5,
        "ring": 5,
        "stall": 2,
    },
}


@pytest.mark.parametrize("rule", [rule for rule in standard_rulebook().rules if rule.limits], ids=lambda r: r.slug)
def test_each_limit_is_what_is_meant(rule) -> None:
    meant = LIMITS[rule.slug]
    assert {limit.name: limit.value for limit in rule.limits} == {
        limit.name: pytest.approx(limit.parse(meant[limit.name]), rel=1e-12) for limit in rule.limits
    }
