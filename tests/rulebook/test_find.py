"""Rulebooks in folders, the standard one among them."""

import json
import os
from pathlib import Path

import pytest
from jsonschema import Draft202012Validator

from riglint.mechanics import provenance
from riglint.outcome import CITED, Basis
from riglint.rulebook.book import RulebookError
from riglint.rulebook.find import read_manifest, rulebooks, standard_rulebook
from riglint.rulebook.sources import Sources, citation
from riglint.shipped import shipped
from tests.rulebook.rigs import RULE, checking, rulebook_folder

PASS = checking(5.0)
NO_SOURCE = {provenance.DERIVATION, provenance.COMMON_PRACTICE}


def test_the_standard_rulebook_follows_the_same_schema_as_any_other():
    assert read_manifest(shipped("rules"), checked=False)["name"] == "standard"


def test_the_standard_rulebook_loads_whole():
    book = standard_rulebook()
    assert book.broken == ()
    files = {f.stem for f in shipped("rules").glob("*.py") if not f.name.startswith("_")}
    assert {rule.slug.replace("-", "_") for rule in book.rules} == files


@pytest.mark.parametrize("schema", sorted(f.name for f in shipped("schemas").glob("*.json")))
def test_schemas_are_schemas(schema):
    Draft202012Validator.check_schema(json.loads((shipped("schemas") / schema).read_text()))


def test_every_source_that_is_cited_is_there():
    known = set(Sources([shipped("rules")]).all())
    keys = {value for name, value in vars(provenance).items() if name.isupper() and isinstance(value, str)}
    rules = standard_rulebook().rules
    bases = [b for rule in rules for b in (*rule.basis, *(limit.basis for limit in rule.limits))]
    assert keys - NO_SOURCE <= known
    assert {b.source for b in bases if b.kind in CITED} <= known


def test_the_sources_follow_their_schema():
    from riglint.reading.document import read_document
    from riglint.rulebook.manifest import faults

    file = shipped("rules") / "sources.yaml"
    assert faults(read_document(file.read_bytes(), "sources.yaml"), "sources") == []


def test_a_citation_says_what_kind_and_how_it_was_seen():
    sources = Sources([shipped("rules")])
    cited = citation(Basis("standard", "shackles 5", "asme-b30-26", "26-1.2", "lifting", "from memory"), sources)
    assert "Rigging Hardware" in cited
    assert cited.endswith("(standard, lifting, from memory)")
    assert "no published source" in citation(Basis("common practice", "15 %"), sources)
    assert "no-such-book" in citation(Basis("standard", "x", "no-such-book", "p. 1", "lifting", "read"), sources)


def test_a_rulebook_of_ones_own_stands_beside_the_standard_one(tmp_path):
    book = rulebooks([rulebook_folder(tmp_path, {"trial": PASS})])
    assert book.rule("trial")
    assert [origin.name for origin in book.origins] == ["standard", "trial"]


def test_a_helper_is_no_rule(tmp_path):
    folder = rulebook_folder(tmp_path, {"trial": PASS})
    (folder / "_helper.py").write_text("raise SystemExit")
    assert [rule.slug for rule in rulebooks([folder], standard=False).rules] == ["trial"]


def test_listed_rules_alone_are_loaded(tmp_path):
    folder = rulebook_folder(tmp_path, {"one": PASS, "two": PASS}, "rules: [two, three]\n")
    book = rulebooks([folder], standard=False)
    assert [rule.slug for rule in book.rules] == ["two"]
    assert [broken.slug for broken in book.broken] == ["three"]


@pytest.mark.parametrize(
    ("text", "reason"),
    [("def (", "SyntaxError"), ("import no_such_module", "no_such_module"), ('"""Page."""', "must hold one rule"),
     ("raise SystemExit(0)", "SystemExit"), ("1 / 0", "ZeroDivisionError")],
)  # fmt: skip
def test_a_module_that_cant_be_loaded_breaks_its_own_rule_alone(tmp_path, text, reason):
    folder = rulebook_folder(tmp_path, {"sound": PASS})
    (folder / "broken.py").write_text(text)
    book = rulebooks([folder], standard=False)
    assert [rule.slug for rule in book.rules] == ["sound"]
    assert book.broken[0].slug == "broken"
    assert reason in book.broken[0].reason
    assert str(tmp_path) not in book.broken[0].reason


def test_a_rule_changed_within_the_second_is_the_changed_one(tmp_path, monkeypatch):
    """Python's compiled files are told apart by size and whole seconds alone."""
    monkeypatch.setattr("sys.dont_write_bytecode", False)
    folder = rulebook_folder(tmp_path, {"trial": PASS})
    file = folder / "trial.py"
    for most in ("11.0", "30.0"):
        file.write_text(RULE.replace("NAME", "trial").replace("BODY", PASS).replace('"most", 10.0', f'"most", {most}'))
        os.utime(file, (1_700_000_000, 1_700_000_000))
        book = rulebooks([folder], standard=False)
        assert book.limits["trial"]["most"] == float(most)


def test_a_clash_of_names_is_told(tmp_path):
    folders = [rulebook_folder(tmp_path / n, {"trial": PASS}, name=n) for n in ("one", "two")]
    with pytest.raises(RulebookError, match=r"`trial` stands in two rulebooks, `one` and `two`"):
        rulebooks(folders, standard=False)


def test_a_rulebook_sets_limits_also_of_those_before_it(tmp_path):
    first = rulebook_folder(tmp_path / "one", {"trial": PASS}, name="one")
    second = rulebook_folder(tmp_path / "two", {}, "limits: {trial: {most: 20 m}}\n", name="two")
    book = rulebooks([first, second], standard=False)
    assert book.limits["trial"]["most"] == 20.0
    (changed,) = book.changed
    assert (changed.set_by, changed.milder) == ("two", True)


@pytest.mark.parametrize(
    ("manifest", "complaint"),
    [
        ("limits: {nothing: {most: 20 m}}\n", "no rule here"),
        ("limits: {trial: {least: 20 m}}\n", "no limit `least`"),
        ("limits: {trial: {most: 20 kg}}\n", "most"),
        ("limits: {trial: {most: [1]}}\n", "limits/trial/most"),
        ("colour: red\n", "colour"),
        ("name: again\n", "again"),
    ],
)
def test_a_bad_manifest_is_told_with_its_place(tmp_path, manifest, complaint):
    folder = rulebook_folder(tmp_path, {"trial": PASS}, manifest)
    with pytest.raises(RulebookError, match=complaint):
        rulebooks([folder], standard=False)


def test_a_folder_without_a_manifest_is_no_rulebook(tmp_path):
    with pytest.raises(RulebookError, match=r"rulebook\.yaml"):
        rulebooks([tmp_path])


def test_an_unreadable_sources_file_is_told_when_asked_for(tmp_path):
    (tmp_path / "sources.yaml").write_text("a: [")
    sources = Sources([Path(tmp_path)])
    with pytest.raises(RulebookError, match=r"sources\.yaml"):
        sources.get("a")
