"""A review as SARIF 2.1.0 (OASIS): one run, one result a line, in the order of the plans and of their findings.

EARL's results become SARIF's kinds: passed `pass`, failed `fail`, can't tell `open` where facts are missing and
`review` where a person must look, inapplicable `notApplicable`; a rule that broke, and a plan that can't be read,
are notifications. Nothing of the machine or the day gets in, and no place is absolute.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any, Final

from riglint.outcome import Grade, Result
from riglint.report.compact import compact
from riglint.report.reviewed import Record, Reviewed, Whole
from riglint.report.sarif_rules import BASE, LEVELS, driver, taxonomies
from riglint.report.spool import Spool

SCHEMA: Final = "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json"
FINGERPRINT: Final = "riglint/v1"
_RANKS: Final = {grade.value: rank for grade, rank in zip(Grade, (100.0, 75.0, 50.0, 25.0), strict=True)}
_STATES: Final = {"new": "new", "worse": "updated", "better": "updated", "unchanged": "unchanged"}
_QUIET: Final = {"passed": ("pass", "Passed."), "inapplicable": ("notApplicable", "Nothing here that it applies to.")}
_KEPT: Final = ("use", "measured", "limit", "unit", "case", "stage", "travel_m", "missing", "remedy")


class SarifForm:
    """The form `sarif`. Sections: results, the artifact, notifications; each entry ends with a comma and a newline."""

    def part(self, one: Reviewed, rule_index: dict[str, int]) -> tuple[str, ...]:
        """One plan's part of the log."""
        if one.record["verdict"] == "gone":
            return _lines(map(_absent, one.record["gone"])), "", ""
        if one.record["verdict"] == "no plan":
            return "", "", ""
        made = _Maker(one, rule_index)
        return _lines(made.results()), _lines([made.artifact()]), _lines(made.notifications())

    def whole(self, whole: Whole, spool: Spool) -> Iterator[str]:
        """The log, piece by piece."""
        about = whole.about
        named = taxonomies(about)
        run: Record = {
            "tool": {"driver": driver(about, named)},
            "automationDetails": {"id": f"riglint review/{whole.slice.replace('/', ' of ')}"},
            "columnKind": "unicodeCodePoints",
            "originalUriBaseIds": {BASE: {"description": {"text": "The folder that the plans' names count from."}}},
            "taxonomies": named,
            "properties": _of_run(whole),
        }
        yield compact({"$schema": SCHEMA, "version": "2.1.0"})[:-1] + ',"runs":[' + compact(run)[:-1]
        yield ',"results":[\n'
        yield from _joined(spool.in_order(0))
        yield '],"artifacts":[\n'
        yield from _joined(spool.in_order(1))
        done = whole.tally.code <= 1
        yield f'],"invocations":[{{"executionSuccessful":{compact(done)},"exitCode":{whole.tally.code}'
        yield ',"toolExecutionNotifications":[\n'
        yield from _joined(spool.in_order(2))
        yield "]}]}]}\n"


class _Maker:
    """Makes the entries of one plan; what all its results share is written once."""

    def __init__(self, one: Reviewed, rule_index: dict[str, int]) -> None:
        self.one, self.rules = one, rule_index
        self.record = one.record
        self.file = {"uri": one.uri, "uriBaseId": BASE}
        self.compared = "known" in one.record
        self.known = frozenset(one.record.get("known", ()))

    def results(self) -> Iterator[str]:
        for finding in self.record["findings"]:
            yield self._opening(finding["rule"]) + compact(self._finding(finding))[1:]
        where = compact([{"physicalLocation": {"artifactLocation": self.file}}])
        for result, (kind, text) in _QUIET.items():
            for rule in self.record[result]:
                yield (
                    f'{self._opening(rule)}"kind":"{kind}","level":"none","message":{{"text":"{text}"}},'
                    f'"locations":{where},"suppressions":[]{self._quiet_state(rule)}}}'
                )
        yield from map(_absent, self.record.get("gone", ()))

    def artifact(self) -> str:
        hashes = {"hashes": {"sha-256": self.record["sha256"]}} if self.record["sha256"] else {}
        about = {"verdict": self.record["verdict"]}
        if self.record["most_used"]:
            about["most_used"] = {k: self.record["most_used"][k] for k in ("component", "use")}
        entry = {"location": self.file, "mimeType": "application/yaml", "roles": ["analysisTarget"], **hashes}
        title = {"description": {"text": self.record["title"]}} if self.record["title"] else {}
        return compact(entry | title | {"properties": about})

    def notifications(self) -> Iterator[str]:
        record, level = self.record, {"level": "error"}
        if record["reason"]:
            yield compact({"message": {"text": record["reason"]}, **level, "locations": [self._place()]})
        for problem in record["problems"]:
            text = f"{problem['pointer']}: " if problem["pointer"] else ""
            text += f"{problem['what']}; {problem['serves']}"
            if problem["file"]:  # of another file, whose name need not be below the base
                text, place = f"{problem['file']}:{problem['line']}:{problem['column']}: {text}", self._place()
            else:
                place = self._place([problem["line"], problem["column"]])
            yield compact({"message": {"text": text}, **level, "locations": [place]})
        for broke in record["untested"]:
            index = self.rules.get(broke["rule"])
            rule = {"id": broke["rule"]} | ({} if index is None else {"index": index})
            text = f"The rule broke and was not applied: {broke['reason']}"
            yield compact({"associatedRule": rule, "message": {"text": text}, **level, "locations": [self._place()]})

    def _opening(self, rule: str) -> str:
        index = self.rules.get(rule)
        return f'{{"ruleId":{compact(rule)},' + ("" if index is None else f'"ruleIndex":{index},')

    def _finding(self, finding: Record) -> Record:
        failed = finding["result"] == Result.FAILED.value
        text = finding["message"] + (f" Put right: {finding['remedy']}" if finding["remedy"] else "")
        entry: Record = {
            "kind": "fail" if failed else "open" if finding["missing"] else "review",
            "level": LEVELS[finding["grade"]] if failed else "none",
            "message": {"text": text},
            "locations": [self._place(finding["region"], finding)],
            "partialFingerprints": {FINGERPRINT: finding["fingerprint"]},
            "suppressions": _suppressions(finding["waived"]),
        }
        if failed:
            entry["rank"] = _RANKS[finding["grade"]]
        if finding["related"]:
            entry["relatedLocations"] = [
                {"id": i, **self._place(r["region"]), "message": {"text": r["note"]}}
                for i, r in enumerate(finding["related"], 1)
            ]
        if finding["basis"]:
            basis = finding["basis"]
            named = {"name": basis["source"] or basis["kind"]}
            entry["taxa"] = [{"id": basis["locator"] or basis["claim"], "toolComponent": named}]
        if fixes := [fix for remedy in finding.get("remedies", ()) for fix in self._fix(remedy)]:
            entry["fixes"] = fixes
        if "state" in finding:
            entry["baselineState"] = _STATES[finding["state"]]
        return entry | {"properties": _figures(finding)}

    def _place(self, region: list[int] | None = None, finding: Record | None = None) -> Record:
        physical: Record = {"artifactLocation": self.file}
        if region:
            physical["region"] = _region(region)
        place: Record = {"physicalLocation": physical}
        if finding:
            logical = {"name": finding["component"], "kind": finding["kind"]}
            place["logicalLocations"] = [logical | {"fullyQualifiedName": finding["pointer"] or "/"}]
        return place

    def _fix(self, remedy: Record) -> Iterator[Record]:
        """A remedy whose change of the text is certain."""
        if remedy["edits"]:
            replaced = [
                {"deletedRegion": _region(edit["region"]), "insertedContent": {"text": edit["text"]}}
                for edit in remedy["edits"]
            ]
            change = {"artifactLocation": self.file, "replacements": replaced}
            yield {"description": {"text": f"{remedy['says']} Then {remedy['then']}."}, "artifactChanges": [change]}

    def _quiet_state(self, rule: str) -> str:
        if not self.compared:
            return ""
        return ',"baselineState":"unchanged"' if rule in self.known else ',"baselineState":"new"'


def _region(region: list[int]) -> Record:
    return dict(zip(("startLine", "startColumn", "endLine", "endColumn"), region, strict=False))


def _figures(finding: Record) -> Record:
    """The figures as they are; what isn't known is left out, so that nobody reads a zero for it."""
    kept = {key: finding[key] for key in _KEPT if finding[key] not in (None, "", [])}
    changed = {"change": finding["state"]} if finding.get("state") in ("worse", "better") else {}
    return {"grade": finding["grade"], "result": finding["result"], **kept, **changed}


def _suppressions(waived: Record | None) -> list[Record]:
    if waived is None:
        return []
    about = {"allowed_by": waived["allowed_by"]} | ({"until": waived["until"]} if waived["until"] else {})
    return [{"kind": "external", "status": "accepted", "justification": waived["reason"], "properties": about}]


def _absent(result: Record) -> str:
    """A result of the earlier review that is gone. Its rule's place in that log's list says nothing here."""
    kept: dict[str, Any] = {key: value for key, value in result.items() if key != "ruleIndex"}
    return compact({"ruleId": "", **kept, "suppressions": kept.get("suppressions", []), "baselineState": "absent"})


def _lines(entries: Any) -> str:
    return "".join(f"{entry},\n" for entry in entries)


def _joined(sections: Iterator[str]) -> Iterator[str]:
    """The sections one after another, without the last comma."""
    before = ""
    for text in sections:
        if text:
            yield before
            before = text
    yield before.removesuffix(",\n") + "\n" if before else ""


def _of_run(whole: Whole) -> Record:
    about = {key: whole.about[key] for key in ("halting_grade", "rulebooks", "day")}
    return about | ({"slice": whole.slice} if whole.slice else {})
