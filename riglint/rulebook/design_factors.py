"""Design factors by kind of gear, each with its source and scope, as limits that a rulebook or a house may set.

What breaks is divided by them; what is marked with a working load never is. Lifting factors cry wolf on a winch line:
the rule that uses them grades by their scope.
"""

from __future__ import annotations

from typing import Final

from riglint.outcome import Basis
from riglint.rulebook.limits import Limit

WINCHING = Basis("regulation", "wire rope 3", "wyoming-osha-ch-5", "s. 5-2(c)", "winching", "read")
HALF = Basis(
    "handbook", "rope breaks at 2 times the winch's pull, its stall well below half of the weakest element",
    "mgn-308", "2.1", "mooring", "read second hand",
)  # fmt: skip
_SHACKLE = Basis("standard", "shackles 5", "asme-b30-26", "26-1.2", "lifting", "read second hand")
_FITTING = Basis("common practice", "hooks, links and swivels as shackles", scope="lifting")
_CHAIN = Basis("standard", "chain 4", "en-818-4", "working coefficient", "lifting", "from memory")
_SLING = Basis("standard", "textile slings 7", "en-1492", "working coefficient", "lifting", "from memory")
_STRAP = Basis("standard", "synthetic web 5", "doe-std-1090", "11.3.5", "lifting", "read")
_WIRE_SLING = Basis("standard", "wire rope slings 5", "doe-std-1090", "11.3.1.3", "lifting", "read")
_SOFT = Basis("standard", "fibre rope 5 to 12", "cordage-institute", "s. 4", "general", "read second hand")
_BRIDLE = Basis("common practice", "a bridle's legs as slings of web or wire", scope="lifting")
_BLOCK = Basis("standard", "blocks 5 on the resultant", "lr-lifting-appliances", "ch. 8 s. 3.1.2", "lifting", "read")
_RING = Basis("common practice", "a ring as a block", scope="lifting")
MARK: Final = Basis("derivation", "a working load as marked is not divided again")

DESIGN_FACTORS: Final = (
    Limit("wire_rope", 3.0, "1", "wire rope's breaking strength over its load, as expected", WINCHING, "lower"),
    Limit("fibre_rope", 2.0, "1", "fibre rope's breaking strength over its load, as expected", HALF, "lower"),
    Limit("shackle", 5.0, "1", "design factor of shackles without a mark", _SHACKLE, "lower"),
    Limit("fitting", 5.0, "1", "design factor of hooks, links and swivels without a mark", _FITTING, "lower"),
    Limit("chain", 4.0, "1", "design factor of chain without a mark", _CHAIN, "lower"),
    Limit("sling", 7.0, "1", "design factor of textile slings without a mark", _SLING, "lower"),
    Limit("strap", 5.0, "1", "design factor of straps without a mark", _STRAP, "lower"),
    Limit("wire_sling", 5.0, "1", "design factor of wire slings without a mark", _WIRE_SLING, "lower"),
    Limit("soft_gear", 5.0, "1", "design factor of soft shackles and rope strops without a mark", _SOFT, "lower"),
    Limit("bridle", 5.0, "1", "design factor of bridles' legs without a mark", _BRIDLE, "lower"),
    Limit("block", 5.0, "1", "design factor of blocks without a mark", _BLOCK, "lower"),
    Limit("ring", 5.0, "1", "design factor of rings without a mark", _RING, "lower"),
    Limit("stall", 2.0, "1", "any gear's breaking strength over its load at stall", HALF, "lower"),
)
BASES: Final = {limit.name: limit.basis for limit in DESIGN_FACTORS}
HAULING: Final = ("wire_rope", "fibre_rope")  # the other factors are for lifting, or general ones
