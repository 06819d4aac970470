"""What to look at on each kind of gear before a pull: the words behind the name on the checklist.

Common practice, no source. Each reads as something that is seen to be true, since that is what a tick says.
"""

from __future__ import annotations

from typing import Final

_STEEL: Final = "sound: not bent, cracked or worn"
_FLAT: Final = "lies flat, no twist, no cut, off sharp edges"

CONNECTORS: Final = {
    "bow shackle": "pin right home and secured; sound, pulled in line",
    "dee shackle": "pin right home and secured; sound, pulled in line",
    "soft shackle": "closed over its knot and drawn snug; no cut, no fuzz, off sharp edges",
    "strap": _FLAT,
    "sling": _FLAT,
    "wire sling": "no kink, no broken wires, sleeves sound",
    "chain": "no twist, no knot; no link stretched or worn",
    "rope strop": "no cut, no fuzz, off sharp edges",
    "recovery strap": _FLAT,
    "hook": "latch shut, load right in the bowl",
    "link": f"closed; {_STEEL}",
    "swivel": f"turns freely; {_STEEL}",
    "bridle": "no leg twisted or caught; each leg takes up as planned",
}
UNSTATED: Final = "the plan does not say what it is: closed, sound, made to carry this"

PINS: Final = {
    "screw": "screw pin",
    "bolt, nut and cotter": "bolt, with nut and cotter",
    "round": "round pin, with its cotter",
}

POINTS: Final = {
    "tree": "alive and firmly rooted, no rot; strap low and padded",
    "stump": "firmly rooted, no rot; strap low, can't slip off",
    "rock": "does not rock, no edge that cuts",
    "picket holdfast": "driven right in, lashed row to row; nothing moves",
    "deadman": "filled in and tamped; its line runs clear in the trench",
    "ground anchor": "driven right in; nothing moves",
    "structure": "sound, and its owner says it may be used",
}
FITTING: Final = "sound: no crack, no rust that eats in, bolts tight"

REDIRECTS: Final = {
    "block": "shut and pinned, sheave turns, free to swing into line",
    "ring": "smooth where the rope slides, no nick, free to swing into line",
}

SECURED: Final = {
    "brakes": "brakes set",
    "chocks": "wheels chocked",
    "spades": "spades dug in",
    "anchored": "made fast to its anchor",
    "in gear": "left in gear",
    "tied back": "tie-back tight",
}
