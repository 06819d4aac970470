"""The picture in words, for those who hear it: everything that it shows, names in full."""

from __future__ import annotations

from collections.abc import Iterator

from riglint.outcome import Inspection
from riglint.picture.labels import Row, Words
from riglint.picture.scene import Knot, Scene
from riglint.report.numbers import travel


def heading(title: str, scene: Scene | None, system: str, *, several: bool) -> str:
    """The job, the stage and the place of the travel."""
    parts = [title] if title else []
    if scene is not None:
        if several:
            parts.append(f"stage {scene.stage.name}")
        here = f"after {travel(scene.station.travel_m, system)} of {travel(scene.stage.travel.high, system)}"
        event = scene.station.title
        parts.append(f"{here} ({event})" if event else here)
    return " · ".join(parts)


def described(scene: Scene, words: Words, inspection: Inspection | None) -> str:
    """One sentence a thing."""
    return " ".join(f"{sentence}." for sentence in _sentences(scene, words, inspection))


def _sentences(scene: Scene, words: Words, inspection: Inspection | None) -> Iterator[str]:
    yield f"Verdict: {inspection.verdict.value}" if inspection else "Not checked by any rule"
    yield "Seen from above, the load goes to the right"
    if scene.solution.refused:
        yield f"This rig can't stand as planned: {scene.solution.refused}"
    for rope in scene.legs:
        yield f"Leg {_said(words.leg(rope, ()))}, from {rope.leg.begins} to {rope.leg.ends}"
    for name in scene.stage.redirects:
        if name in scene.station.places:
            yield f"{scene.stage.redirects[name].facts.kind} {_said(words.redirect(name))}"
    for name in scene.stage.points:
        yield f"Point {_said(words.point(name))}"
    for knot in scene.knots:
        yield f"Join {_said(words.join(knot))}, {_where(scene, knot)}"
    for shape in scene.shapes:
        yield f"Body {_said(words.body(shape.body))}"
    for person in scene.stage.people:
        where = f"in {person.body.name}" if person.body else "at a place" if person.at else "place not stated"
        yield f"Person {_said(words.person(person))}, {where}"


def _where(scene: Scene, knot: Knot) -> str:
    if knot.leg is None:
        return "on the drum" if knot.on_drum else "where it lies isn't known"
    return f"on leg {scene.legs[knot.leg].number}"


def _said(rows: tuple[Row, ...]) -> str:
    return ", ".join(" ".join(run.text for run in row) for row in rows)
