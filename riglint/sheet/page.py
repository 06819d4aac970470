"""The sheet as one file: nothing is fetched, nothing runs but its own script, no text of the plan is markup."""

from __future__ import annotations

import json
from base64 import b64encode
from collections.abc import Sequence
from hashlib import sha256
from pathlib import Path
from typing import Any, Final

from riglint.outcome import Finding
from riglint.remedy.model import Remedy
from riglint.report.material import Inspected
from riglint.report.words import message
from riglint.sheet import sign
from riglint.sheet.checklist import Section, checklist
from riglint.sheet.findings import findings
from riglint.sheet.gear import gear
from riglint.sheet.head import form_head, verdict
from riglint.sheet.markup import Html, data_block, el, trusted, void
from riglint.sheet.picture import picture
from riglint.sheet.run import run
from riglint.sheet.words import part, why_not
from riglint.version import VERSION

_HERE: Final = Path(__file__).resolve().parent
_PARTS: Final = (
    ("verdict", "Verdict"), ("picture", "Picture"), ("checklist", "Checklist"), ("sign-off", "Sign-off"),
    ("findings", "Findings"), ("run", "Run"), ("gear", "Gear"), ("cautions", "Cautions"),
)  # fmt: skip


def sheet(inspected: Inspected, source: bytes, remedies: Sequence[Remedy] | None = None) -> str:
    """The whole page. `source` is the plan's file, byte for byte: its SHA-256 is what the signed record names.

    `remedies` stand with the findings that they put right; None where none were tried.
    """
    digest = sha256(source).hexdigest()
    sections = checklist(inspected.solution, inspected.inspection)
    body = _body(inspected, digest, sections, remedies)
    return f"<!doctype html>\n{el('html', _head(inspected), body, lang='en')}\n"


def _head(inspected: Inspected) -> Html:
    style, script = _text("style.css"), _text("script.js")
    policy = (
        f"default-src 'none'; script-src {_hash(script)}; style-src {_hash(style)}; base-uri 'none';"
        " form-action 'none'; require-trusted-types-for 'script'; trusted-types 'none'"
    )
    return el(
        "head",
        void("meta", charset="utf-8"),
        trusted(f'<meta http-equiv="Content-Security-Policy" content="{policy}">'),
        void("meta", name="viewport", content="width=device-width, initial-scale=1"),
        void("meta", name="color-scheme", content="light dark"),
        void("meta", name="referrer", content="no-referrer"),
        el("title", f"Pre-pull sheet: {inspected.solution.rig.title}"),
        trusted(f"<style>{style}</style>"),
    )


def _body(inspected: Inspected, digest: str, sections: tuple[Section, ...], remedies: Sequence[Remedy] | None) -> Html:
    links = [el("a", name, href=f"#{place}") for place, name in _PARTS]
    look = el("button", "Light or dark", type="button", id="look", class_="quiet")
    return el(
        "body",
        el("nav", links, look, aria_label="Parts of the sheet", id="top"),
        el(
            "main",
            el("p", id="other-day", class_="other-day", role="alert", hidden=True),
            el(
                "div",
                form_head(inspected, digest),
                verdict(inspected),
                el("section", part("Picture"), picture(inspected, 0), id="picture"),
                class_="front",
            ),
            sign.checklist(sections, inspected),
            sign.sign_off(inspected),
            findings(inspected, remedies),
            run(inspected),
            gear(inspected),
            sign.cautions(),
        ),
        data_block(record_data(inspected, digest, sections), "sheet"),
        trusted(f"<script>{_text('script.js')}</script>"),
    )


def record_data(inspected: Inspected, digest: str, sections: tuple[Section, ...]) -> dict[str, Any]:
    """What the script and the record need. `sheet` stands for all that the ticks were made on."""
    reasons = why_not(inspected)
    data: dict[str, Any] = {
        "plan": {"file": inspected.file, "title": inspected.solution.rig.title, "sha256": digest},
        "program": {"name": "riglint", "version": VERSION},
        "rulebooks": [{"name": o.name, "title": o.title, "version": o.version} for o in inspected.rulebook.origins],
        "verdict": inspected.inspection.verdict.value,
        "halting_grade": inspected.inspection.halting.value,
        "day": inspected.solution.rig.day,
        "may_be_clear": not reasons,
        "why_not": reasons,
        "findings": [_finding(finding, inspected) for finding in inspected.inspection.findings],
        "limits_set": [
            {"rule": one.rule, "limit": one.limit, "set_by": one.set_by, "milder": one.milder}
            for one in inspected.inspection.changed
        ],
        "stages": [stage.stage.name for stage in inspected.solution.stages],
        "items": [
            {"id": item.id, "text": item.text, "note": item.note, "stage": section.stage}
            for section in sections
            for item in section.items
        ],
    }
    # The same plan under another path is the same plan, and midnight alone takes no tick away.
    named = data | {"plan": digest, "day": None}
    made_of = json.dumps(named, sort_keys=True, ensure_ascii=True).encode("ascii")
    return data | {"sheet": sha256(made_of).hexdigest()}


def _finding(finding: Finding, inspected: Inspected) -> dict[str, Any]:
    """What was known when it was signed."""
    check = finding.check
    return {
        "rule": finding.rule, "grade": finding.grade.value, "result": finding.result.value,
        "component": check.where.component, "says": message(check, inspected.system),
        "waived": finding.waived.words if finding.waived else None,
    }  # fmt: skip


def _text(name: str) -> str:
    return (_HERE / name).read_text(encoding="utf-8")


def _hash(text: str) -> str:
    return f"'sha256-{b64encode(sha256(text.encode('utf-8')).digest()).decode('ascii')}'"
