"""The question to ask oneself, by rule: it leads to what is wrong and never says it. No number, no remedy."""

from __future__ import annotations

from typing import Final

from riglint.rulebook.rule import Guards

ANY_QUESTION: Final = "What could go wrong here, how would the crew notice, and what in the plan shows that it won't?"

WHERE: Final[dict[Guards, str]] = {
    "line": "the line: its rope, its joins, and what it runs over",
    "drum": "the winch: its drum, its pull and its brake",
    "redirects": "the blocks and rings, and the seats that rope runs through",
    "connectors": "the shackles, slings and straps",
    "anchors": "what the rig is made fast to, on the load and off it",
    "load": "the load: what it resists with, which way it goes, what holds it",
    "people": "the people: where they stand and what they see",
    "paper": "where the plan's numbers come from",
}

QUESTIONS: Final[dict[str, str]] = {
    "anchor-rating": "How many parts pull on this point, what is that if the winch stalls, and who says that it holds?",
    "bend-under-load": "How sharply is the rope bent here for its thickness, and how hard is it pulled where it bends?",
    "between-load-and-anchor": "If the load comes free and keeps going, who is in its way?",
    "block-mark": "What does the mark on this block count: the pull in the line, or all that its head carries?",
    "brake-holds": "When the winch stops on this slope, what holds the load, and how well on the layer in use?",
    "deadman-anchor": "What does the ground before this deadman hold, and which way does its dead line rise?",
    "drum-overfilled": "When the load has arrived, how much rope is on the drum, and how high does it lie?",
    "drum-wraps": "What holds the rope's end on the drum, and when over the pull is least rope left there?",
    "enough-line": "How far is it along every leg, from the fairlead to the dead end, when that way is longest?",
    "enough-pull": "What does the load resist with, what do sheaves add, and what does the winch give on its layer?",
    "fleet-angle": "From which side does the rope come to the drum, and where on the drum will it pile up?",
    "forbidden-point": "What was this point made for?",
    "friction-heat": "Where does the loaded rope slide and not roll, and what does that do to its fibre?",
    "gear-condition": "What was seen on this gear, and would you hang your own weight on it?",
    "gear-overdue": "When did anybody last look this gear over, and for how long is that good?",
    "gear-retired": "What does the kit say about this piece of gear?",
    "gear-unrated": "Who rated this gear, and where is that written down?",
    "groove-fit": "What size of rope was this seat made for?",
    "join-at-drum": "How far does each join travel before the load has arrived, and what does it come to at the winch?",
    "join-at-redirect": "Follow each join along the rope while the load moves: what does it come to first, and when?",
    "join-strength": "What does this join leave of the rope's strength, and what comes on it?",
    "join-stops-short": "If the winch is stopped a moment late, what does each join come to?",
    "join-watched": "Who sees this join come to the redirect, and can that person have the winch stopped in time?",
    "line-end-drawn-in": "What does the shackle at the line's end come up against by the end of the travel?",
    "load-held": "When the line goes slack here, what holds the load?",
    "load-overruns": "Does it need the line to go that way, or would it go by itself, and what stops it then?",
    "methods-disagree": "By what other method could this be reckoned, and which of them fits what is on the ground?",
    "mixed-rope": "What happens where two unlike ropes meet under load?",
    "operator-place": "If the line parts, where is the operator in relation to it?",
    "over-laden": "What was this body made to weigh at the most, and what is in it and on it as it stands?",
    "overturning": "How high and from which side is this body pulled, and about which edge would it tip?",
    "part-adds-nothing": "What does the last part add to the pull, once every redirect has taken its share?",
    "people-clear": "If any one thing in the rig lets go, where does the rest of it fly, and who is there?",
    "picket-holdfast": "What do the manuals give a holdfast like this one in ground like this, and what hangs on it?",
    "pin-bears-on-rope": "What turns this pin when the line moves, and which way?",
    "point-direction": "Which way is this point pulled over the whole travel, and which way was it made to be pulled?",
    "pull-off-line": "Which way is the load pulled, which way must it go, and what does the difference do to it?",
    "rated-layer": "On which layer of the drum does the winch pull what its plate says?",
    "rating-basis": "Where was this number read, and could the foreman go and read it there?",
    "recovery-strap": "What was this strap made to do, and what does it do with what the winch puts into it?",
    "redirects-meet": "How near does one redirect come to the next by the end of the travel?",
    "resistance-method": "How was the resistance found, and could somebody else find it again?",
    "rig-stands": "With the line taut, where does each thing that hangs free come to rest, and what pulls it each way?",
    "righting-held": "Once it is past its balance, what comes down with it, and what lets it down?",
    "rope-condition": "What was seen on this rope, and what does that leave of it?",
    "rope-leaves-groove": "What keeps the rope in this groove when the pull goes slack?",
    "rope-twice-winch-pull": "If the load doesn't move and the winch is kept on, what does the rope have in hand?",
    "seat-loading": "Which way does the load bear on this seat, which way is it rated for, and what else lies in it?",
    "shackle-bow-angle": "How wide apart do the two legs stand in this bow?",
    "shackle-off-line": "Which way is this shackle pulled, and which way was it made to be pulled?",
    "sharp-edge": "What does this bear on under load, how round is that, and what lies between?",
    "shock-loading": "Where could slack be taken up with a jerk, and what then comes on the line?",
    "signals-agreed": "Who tells the operator to stop, by what means, and has everybody tried it?",
    "sling-angle": "How wide apart do the legs stand, and what does each of them then carry?",
    "slings-end-to-end": "What does one sling do to the other where they cross?",
    "soft-shackle-on-edge": "What does this soft connector bear on, and how round is that?",
    "spooled-loose": "How was the rope wound on, and what does its outer layer do under load?",
    "stall-gives": "If the load catches on a root and the winch is kept on, what gives way first?",
    "stand-off": "How long is the line, and how far off does everybody on foot stand?",
    "steel-in-path": "If the line parts, what heavy thing does it take along, and to whom?",
    "towing-device": "What does the law ask of this eye, and what does this pull ask of it?",
    "travel-room": "How far could the load go before it meets something?",
    "tree-anchor": "How thick and how sound is this tree, how high does the strap sit, and where would the tree fall?",
    "twisted-join": "Look along this join with the legs drawn out: does each lie as it should?",
    "unequal-anchors": "If one leg is a hand's breadth longer than the other, what does each of the points carry?",
    "vehicle-slides": "What keeps this vehicle where it is, on this ground, against all that pulls on it together?",
    "weak-link": "What breaks first in this rig, and where does it go then?",
    "wire-with-fibre": "What ran over this seat, or lies on this drum, beside the rope that is there now?",
    "working-load": "How many parts pull on this, and what may it carry, as expected and if the winch stalls?",
}


def question(slug: str) -> str:
    """The question that goes with a rule; for a rule of a company's own, the one that always serves."""
    return QUESTIONS.get(slug, ANY_QUESTION)
