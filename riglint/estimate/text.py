"""An estimate as text: the ladder rung by rung, the line, what every place carries, and what of the kit serves."""

from __future__ import annotations

from collections.abc import Iterator

from riglint.estimate.estimate import Doctrine, Estimate
from riglint.estimate.ladder import MOST_PARTS, Rung
from riglint.estimate.serves import Fit, Load
from riglint.outcome import Result
from riglint.report.numbers import figures, pair, percent, show
from riglint.report.words import listed, plain, sentence, working, wrapped

_CAUTION = (
    "An estimate by doctrine's rules of thumb, to plan by, not to pull by: makers' ratings and instructions, local"
    " rules and the licensed person in charge come first. Complete the plan, and let `riglint prepull` check it."
)
_SAYS = {Result.PASSED: "serves", Result.CANT_TELL: "can't tell", Result.FAILED: "won't do"}


def report(found: Estimate) -> str:
    """The whole estimate, ending with a newline."""
    system = found.asked.question.reports_in
    title = found.asked.question.title
    parts = [
        [*wrapped(_answer(found, system)), *_but(found, system), *(wrapped(plain(title)) if title else [])],
        _resistance(found, system),
        _ladder(found, system),
        _line(found, system),
        _places(found, system),
        _kit(found, system),
        _missing(found),
        wrapped("Basis: tackle resistance, ratio, fall line and dead line by Army lesson 63H34F01, supplement 1b (read "
                "second hand), and TB 9-2350-292-10, steps 4 and 5 (read)."),
        wrapped(_CAUTION),
    ]  # fmt: skip
    return "\n\n".join("\n".join(lines) for lines in parts if lines) + "\n"


def _answer(found: Estimate, system: str) -> str:
    rung = found.serves
    if rung:
        pull, _ = pair(rung.line_n, rung.gives.pull_n, "N", system)
        least = "" if found.sure else "AT LEAST "
        return f"{least}{_parts(rung.parts).upper()}: line pull {pull}, the winch gives {_gives(rung, system)}."
    if found.rungs:
        return (
            f"NO NUMBER OF PARTS UP TO {MOST_PARTS} DOES IT: each sheave adds a tenth of the resistance. "
            "A stronger winch, or dig it free."
        )
    return "CAN'T TELL how many parts: facts are missing."


def _but(found: Estimate, system: str) -> Iterator[str]:
    """What it can't be done with: what everybody must see at once."""
    line = found.line
    if found.serves and line and line.there_m is not None and line.enough is False:
        needs, there = pair(line.needed_m or line.out_m, line.there_m, "m", system)
        yield from wrapped(f"BUT THE ROPE IS TOO SHORT: it takes {needs}, there is {there}.")
    elif found.rope_wont_do:
        yield from wrapped("BUT THE ROPE WON'T DO: see below what it may carry and what was seen on it.")
    elif found.rope_may_not_do:
        yield from wrapped("BUT WHETHER THE ROPE WILL DO CAN'T BE TOLD: see below what isn't known of it.")
    if found.bare:
        names = listed(place.name.replace("_", " ") for place in found.bare)
        yield from wrapped(f"BUT THE KIT DOESN'T REACH: it has not all that {names} would need.")
    if found.untold:
        names = listed(place.name.replace("_", " ") for place in found.untold)
        yield from wrapped(
            f"BUT WHETHER THE KIT DOES CAN'T BE TOLD: see below what isn't known of its gear for {names}."
        )


def _parts(count: int) -> str:
    return "one part" if count == 1 else f"{count} parts"


def _gives(rung: Rung, system: str) -> str:
    layer = "the layer that it is rated for" if rung.gives.layer is None else f"layer {rung.gives.layer}"
    return f"{pair(rung.line_n, rung.gives.pull_n, 'N', system)[1]} on {layer}"


def _resistance(found: Estimate, system: str) -> list[str]:
    figures_of = found.resistance
    lines = ["Resistance:"]
    for part in (*figures_of.doctrine, *figures_of.surface):
        trust = f", {part.trust}" if part.trust not in ("", "derivation") else ""
        text = f"{part.label}: {show(part.force.high, 'N', system)} ({part.source}, {part.locator}{trust})"
        lines += wrapped(plain(text), "  ", "    ")
    if found.load_n is None:
        return [*lines, "  can't be told"]
    lines += wrapped(f"used: {figures_of.used}: {show(found.load_n, 'N', system)}", "  ", "    ")
    if found.doctrine:
        lines += wrapped(_doctrine(found.doctrine, system), "  ", "    ")
    return lines


def _doctrine(by: Doctrine, system: str) -> str:
    needs, gives = pair(by.rung.line_n, by.rung.gives.pull_n, "N", system)
    if by.rung.serves:
        how = f"which takes {_parts(by.rung.parts)}, at {needs}"
    else:
        how = f"which no number of parts up to {MOST_PARTS} moves: {needs} of {gives}"
    return f"doctrine would have it that it is {show(by.resistance_n, 'N', system)}, {how}: make a trial pull"


def _ladder(found: Estimate, system: str) -> list[str]:
    if not found.rungs or found.load_n is None:
        return []
    lines = ["Ladder:"]
    for rung in found.rungs:
        lines.append(f"  {_parts(rung.parts)}, {rung.sheaves} {'sheave' if rung.sheaves == 1 else 'sheaves'}")
        for step in rung.working(found.load_n):
            lines += wrapped(working(step, system), "    ", "      ")
        lines += wrapped(_compared(rung, system, last=rung is found.rungs[-1]), "    ", "      ")
    return lines


def _compared(rung: Rung, system: str, *, last: bool) -> str:
    needs, _ = pair(rung.line_n, rung.gives.pull_n, "N", system)
    verdict = "less than" if rung.serves else "NOT less than"
    again = "" if rung.serves or last else "; again, with one part more"
    return f"{needs} is {verdict} what the winch gives, {_gives(rung, system)}{again}"


def _line(found: Estimate, system: str) -> list[str]:
    line = found.line
    if line is None or found.serves is None:
        return []
    lines = ["Line:"]
    for step in line.working():
        lines += wrapped(working(step, system), "  ", "    ")
    if line.comes_in_m:
        lines.append(f"  comes in over the pull: {show(line.comes_in_m, 'm', system)}")
    if line.needed_m is None:
        lines += wrapped("what must stay on the drum comes on top, and can't be told", "  ", "    ")
    if line.there_m is not None:
        word = {True: "enough", False: "TOO SHORT", None: "whether that is enough can't be told"}[line.enough]
        lines.append(f"  there is {show(line.there_m, 'm', system)}: {word}")
    return lines


def _places(found: Estimate, system: str) -> list[str]:
    if found.serves is None or found.total is None:
        return []
    lines = ["What each place carries, as expected and if the winch stalls:"]
    for place in found.places:
        where = "on the load" if place.on_load else "on what stays"
        name = place.name.replace("_", " ")
        lines.append(f"  {name}, {where}: {_both(place.load, system)}")
        if place.lines > 1:
            lines += wrapped(working(place.working(found.serves.line_n), system), "    ", "      ")
        chosen = [fit for fit in (place.block, place.connector, place.anchor) if fit]
        if chosen:
            lines.append(f"    from the kit: {', '.join(f'{fit.number} ({_SAYS[fit.result]})' for fit in chosen)}")
    worst = max((p.load for p in found.places if not p.on_load), key=lambda load: load.expected_n)
    lines.append(f"  the worst anchor: {_both(worst, system)}")
    return [*lines, f"  all that stays, together: {_both(found.total, system)}"]


def _both(load: Load, system: str) -> str:
    stall = "can't be told" if load.stall_n is None else show(load.stall_n, "N", system)
    return f"{show(load.expected_n, 'N', system)}; {stall}"


def _kit(found: Estimate, system: str) -> list[str]:
    rows = [("rope", found.rope_fits), *found.others] if found.rope_fits else list(found.others)
    lines = [f"Rope and kit, for {listed(_short(found))}:" if _short(found) else "Rope and kit:"] if rows else []
    for what, fits in rows:
        lines.append(f"  {what}")
        lines += [line for fit in fits for line in wrapped(_fit(fit, system), "    ", "      ")]
    for text in _lacking(found) if found.asked.kit else ():
        lines += wrapped(sentence(text), "  ", "    ")
    return lines


def _short(found: Estimate) -> list[str]:
    return [_parts(found.serves.parts)] if found.serves else []


def _fit(fit: Fit, system: str) -> str:
    text = f"{plain(fit.number)}: {_SAYS[fit.result]}"
    if fit.carries_n is not None and fit.may_n is not None:
        carries, may = show(fit.carries_n, "N", system), show(fit.may_n, "N", system)
        text += f", {carries} of {may}, {percent(fit.use)}"
    overdue = f"its inspection ran out after {fit.overdue}, have it inspected first" if fit.overdue else ""
    return "; ".join(filter(None, (text, plain(fit.why), overdue)))


def _lacking(found: Estimate) -> Iterator[str]:
    """What the kit can't fill."""
    blocks = [place for place in found.places if place.is_block]
    lacking = [place for place in blocks if place.block is None]
    if lacking and found.asked.kit:
        yield f"nothing in the kit for {figures(len(lacking))} of the {'blocks' if len(blocks) > 1 else 'block'} needed"
    bare = [place for place in found.bare if place.connector is None]
    if bare:
        yield f"no connector in the kit for {listed(place.name.replace('_', ' ') for place in bare)}"


def _missing(found: Estimate) -> list[str]:
    if not found.missing:
        return []
    return ["Not stated, and needed to tell:", *(f"  [ ] {plain(fact)}" for fact in dict.fromkeys(found.missing))]
