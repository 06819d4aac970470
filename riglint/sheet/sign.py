"""Checklist, sign-off and usual cautions: what is done on the sheet itself."""

from __future__ import annotations

from typing import Final

from riglint.report.material import Inspected
from riglint.report.words import sentence
from riglint.sheet.checklist import Item, Section
from riglint.sheet.markup import Html, el, void
from riglint.sheet.words import part, why_not

CAUTIONS: Final = (
    "Arithmetic on what the plan says, not leave to pull. Makers' ratings and instructions, local rules and the"
    " licensed person in charge on the ground come first.",
    "If anything looks, sounds or moves other than planned: stop, ease the line, look.",
    "Anybody may call stop. Only the one who was named gives the signal to go on.",
    "Never step over a line that is tight or may become tight. Hands off running rope, clear of drum and fairlead.",
    "Take up slack slowly. No jerks, no run-ups.",
    "Nothing is opened, moved or struck while it is under load.",
    "A rig that is changed on the ground is another rig: change the plan, check it again, make a new sheet.",
)


def checklist(sections: tuple[Section, ...], inspected: Inspected) -> Html:
    """Every item as a row to tick."""
    several = len(inspected.solution.stages) > 1
    parts: list[Html] = []
    for number, section in enumerate(sections):
        if several and (number == 0 or sections[number - 1].stage != section.stage):
            name = inspected.solution.stages[section.stage].stage.name
            parts.append(el("h3", f"Stage {section.stage + 1}: {name}", class_="stage"))
        parts.append(_group(section))
    return el(
        "section",
        part("Checklist"),
        el("p", "Go and look at each, then tick it. ", el("output", id="ticked", role="status"), class_="how"),
        el("p", id="memory", class_="memory", role="status", hidden=True),
        el("noscript", el("p", "Scripts are off: ticks are lost when this page is closed. Print it, or turn them on.")),
        el("div", parts, class_="checks"),
        id="checklist",
    )


def _group(section: Section) -> Html:
    legend = el("legend", section.title)
    return el("fieldset", legend, [_item(item, section.stage) for item in section.items], class_="checks-of")


def _item(item: Item, stage: int) -> Html:
    box = void("input", type="checkbox", data_id=item.id, data_stage=str(stage), autocomplete="off")
    note = el("small", item.note) if item.note else None
    return el("label", box, el("span", item.text, " ", note), class_="tick")


def sign_off(inspected: Inspected) -> Html:
    """The form, what was signed so far, and the lines to sign on paper."""
    reasons = why_not(inspected)
    return el("section", part("Sign-off"), _refusal(reasons),
              el("div", id="standing", role="status"), _form(inspected, halts=bool(reasons)), _signed(),
              _sure(), _paper(inspected, halts=bool(reasons)), id="sign-off")  # fmt: skip


def _refusal(reasons: list[str]) -> Html | None:
    if not reasons:
        return None
    return el(
        "div",
        el("p", el("strong", "This plan can't be signed off as clear. "), "What stands against it:"),
        el("ul", [el("li", sentence(reason)) for reason in reasons]),
        el("p", "Change the plan, check it again and make a new sheet."),
        class_="refusal", id="refusal",
    )  # fmt: skip


def _form(inspected: Inspected, *, halts: bool) -> Html:
    told = "refusal" if halts else "not-yet"
    clear = void("input", type="radio", name="decision", value="clear", disabled=halts, aria_describedby=told)
    stopped = void("input", type="radio", name="decision", value="stopped")
    return el(
        "form",
        _stage_choice(inspected),
        el("fieldset", el("legend", "Decision"),
           el("label", clear, el("span", "Clear to pull"), class_="choice" + (" barred" if halts else "")),
           el("label", stopped, el("span", "Stopped, because"), class_="choice")),
        el("p", id="not-yet", class_="not-yet"),
        el("label", el("span", "Why it was stopped"), el("textarea", name="because", rows="3", maxlength="1000"),
           class_="field", id="because-field"),
        el("label", el("span", f"Why it is signed on another day than {inspected.solution.rig.day}"),
           el("textarea", name="other_day", rows="2", maxlength="1000"), class_="field", id="other-day-field",
           hidden=True),
        el("label", el("span", "Name"), void("input", name="name", type="text", maxlength="120", autocomplete="name"),
           class_="field"),
        el("div", el("button", "Sign, with the time now", type="submit"),
           el("button", "Save the record as a file", type="button", id="save"),
           el("button", "Begin again", type="button", id="again", class_="quiet"), class_="buttons"),
        el("p", id="said", role="status", class_="said"),
        id="sign", novalidate=True, autocomplete="off",
    )  # fmt: skip


def _stage_choice(inspected: Inspected) -> Html | None:
    stages = inspected.solution.stages
    if len(stages) < 2:
        return None
    options = [el("option", f"{i + 1}: {s.stage.name}", value=str(i)) for i, s in enumerate(stages)]
    return el("label", el("span", "Stage"), el("select", options, name="stage"), class_="field")


def _signed() -> Html:
    nothing = el("p", "Nothing yet.", id="nothing-signed")
    return el("div", el("h3", "Signed"), nothing, el("ol", id="signed"), class_="signed")


def _sure() -> Html:
    """Asked before ticks and signatures are thrown away."""
    return el(
        "dialog",
        el("h3", "Begin again?", id="sure-title"),
        el("p", "Every tick and signature of this plan goes from this device. Save the record first if it is needed."),
        el("form", el("div", el("button", "Keep them", value="keep"), el("button", "Throw them away", value="again"),
                      class_="buttons"), method="dialog"),
        id="sure", aria_labelledby="sure-title",
    )  # fmt: skip


def _paper(inspected: Inspected, *, halts: bool) -> Html:
    """For print alone: one row a stage, with boxes and lines to write on."""
    stages = inspected.solution.stages
    rows = []
    for stage in stages:
        name = el("td", f"Stage {stage.stage.name}") if len(stages) > 1 else None
        clear = el("td", "Can't be signed as clear" if halts else "☐ Clear to pull")
        rows.append(el("tr", name, clear, el("td", "☐ Stopped, because"), el("td", "Name"), el("td", "Date, time"),
                       el("td", "Signature")))  # fmt: skip
    day = inspected.solution.rig.day
    if day:
        other = el("td", f"Signed on another day than {day}, because", colspan=str(6 if len(stages) > 1 else 5))
        rows.append(el("tr", other))
    return el("table", el("tbody", rows), class_="paper", aria_hidden="true")


def cautions() -> Html:
    """Usual cautions: common practice, no source."""
    return el("section", part("Usual cautions"), el("ul", [el("li", text) for text in CAUTIONS]), id="cautions")
