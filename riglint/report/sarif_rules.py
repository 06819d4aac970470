"""The rules of a review in SARIF: full text, help, level, and what they rest on as taxonomies.

Each published source is a taxonomy, and each place in it that a rule or a limit cites one of its taxa;
derivations and common practice have a taxonomy each, so that nothing is dressed up as a citation.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from riglint.report.reviewed import Record

BASE: Final = "%SRCROOT%"
LEVELS: Final = {"DANGER": "error", "WARNING": "error", "CAUTION": "warning", "NOTICE": "note"}


def driver(about: Record, named: list[Record]) -> Record:
    """The tool and all rules that ran."""
    program = about["program"]
    index = {taxonomy["name"]: i for i, taxonomy in enumerate(named)}
    return {
        "name": program["name"],
        "version": program["version"],
        "semanticVersion": program["version"],
        "shortDescription": {"text": "Checks a vehicle-recovery rig plan: mechanics, cited rules, graded warnings."},
        "supportedTaxonomies": [{"name": name, "index": i} for name, i in index.items()],
        "rules": [_rule(rule, index) for rule in about["rules"]],
    }


def taxonomies(about: Record) -> list[Record]:
    """Every source that a rule or one of its limits rests on, by name."""
    taxa: dict[str, dict[str, set[str]]] = {}
    for rule in about["rules"]:
        for basis in _bases(rule):
            taxa.setdefault(_name(basis), {}).setdefault(_id(basis), set()).add(basis["claim"])
    return [_taxonomy(name, found, about["sources"].get(name)) for name, found in sorted(taxa.items())]


def _taxonomy(name: str, found: dict[str, set[str]], source: Record | None) -> Record:
    entry: Record = {"name": name, "shortDescription": {"text": source["title"] if source else name}}
    if source:
        entry["organization"] = source["publisher"]
        edition = ", ".join(filter(None, (source["edition"], source["year"])))
        entry["fullDescription"] = {"text": f"{source['title']}; {edition}" if edition else source["title"]}
        entry["properties"] = {"seen": source["seen"]}
    taxa = sorted(found.items())
    return entry | {"taxa": [{"id": key, "shortDescription": {"text": "; ".join(sorted(c))}} for key, c in taxa]}


def _rule(rule: Record, index: dict[str, int]) -> Record:
    first = rule["page"].split("\n\n")[0]
    return {
        "id": rule["rule"],
        "name": "".join(word.capitalize() for word in rule["rule"].split("-")),
        "shortDescription": {"text": rule["title"]},
        "fullDescription": {"text": " ".join(first.split()) or rule["title"]},
        "help": {"text": rule["page"] or rule["title"], "markdown": _markdown(rule)},
        "defaultConfiguration": {"level": LEVELS[rule["grade"]]},
        "relationships": list(_relationships(rule, index)),
        "properties": {"grade": rule["grade"], "guards": rule["guards"], "tags": [rule["guards"]],
                       "limits": [_limit(limit) for limit in rule["limits"]]},
    }  # fmt: skip


def _markdown(rule: Record) -> str:
    """The page; what is indented in it is a formula and stays so."""
    cited = dict.fromkeys(basis["citation"] for basis in _bases(rule))
    lines = [f"# {rule['title']}", "", rule["page"], "", "## Basis", "", *(f"- {citation}" for citation in cited)]
    return "\n".join(lines)


def _relationships(rule: Record, index: dict[str, int]) -> Iterator[Record]:
    seen: set[tuple[str, str]] = set()
    for basis in _bases(rule):
        target = _name(basis), _id(basis)
        if target in seen:
            continue
        seen.add(target)
        component = {"name": target[0], "index": index[target[0]]}
        about = {"text": basis["citation"]}
        yield {"target": {"id": target[1], "toolComponent": component}, "kinds": ["relevant"], "description": about}


def _limit(limit: Record) -> Record:
    return {key: limit[key] for key in ("name", "says", "own", "unit")}


def _bases(rule: Record) -> Iterator[Record]:
    yield from rule["basis"]
    yield from (limit["basis"] for limit in rule["limits"])


def _name(basis: Record) -> str:
    return str(basis["source"] or basis["kind"])


def _id(basis: Record) -> str:
    return str(basis["locator"] or basis["claim"])
