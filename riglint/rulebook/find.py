"""Finding rulebooks: a folder with a manifest, rule modules and sources. The standard one is no other.

A rulebook's code runs only when the user names its folder, never because a plan does.
"""

import re
import sys
from collections.abc import Iterable, Mapping
from importlib.machinery import SourceFileLoader
from importlib.util import module_from_spec, spec_from_file_location
from pathlib import Path
from types import CodeType
from typing import Any, Final, NamedTuple

from riglint.reading.document import read_document
from riglint.reading.problems import ReadingFailed
from riglint.rulebook.book import Broken, Origin, Rulebook, RulebookError, bound
from riglint.rulebook.rule import Rule
from riglint.shipped import shipped

MANIFEST: Final = "rulebook.yaml"
_PATH: Final = re.compile(r" \([^()]*[/\\][^()]*\)")  # where a failed import looked, which differs by machine


class _Found(NamedTuple):
    book: Rulebook
    limits: Mapping[str, Mapping[str, str | float]]


def standard_rulebook() -> Rulebook:
    """The rulebook that comes with riglint."""
    return rulebooks(())


def rulebooks(folders: Iterable[Path], *, standard: bool = True) -> Rulebook:
    """The standard rulebook and those in the folders as one, each one's limits set in turn.

    Raises RulebookError for a folder that holds none, a bad manifest, a clash of names or a bad limit.
    """
    found = [_load(shipped("rules"), checked=True)] if standard else []
    found += [_load(folder, checked=False) for folder in folders]
    book = bound(one.book for one in found)
    for one in found:
        book = book.setting(one.limits, one.book.origins[0].name)
    return book


def read_manifest(folder: Path, *, checked: bool = False) -> dict[str, Any]:
    """A rulebook's manifest; `checked` for one that is known to follow its schema. Raises RulebookError."""
    file = folder / MANIFEST
    try:
        document = read_document(file.read_bytes(), str(file))
    except OSError as error:
        raise RulebookError(f"{folder} is no rulebook: {MANIFEST} can't be read ({error.strerror})") from None
    except ReadingFailed as error:
        raise RulebookError(str(error)) from None
    if not checked:
        from riglint.rulebook.manifest import faults  # noqa: PLC0415 -- jsonschema is slow to import

        problems = faults(document, "rulebook")
        if problems:
            raise RulebookError("\n".join(problem.text() for problem in problems))
    data: dict[str, Any] = document.data
    return data


def _load(folder: Path, *, checked: bool) -> _Found:
    manifest = read_manifest(folder, checked=checked)
    origin = Origin(manifest["name"], manifest["title"], manifest["version"], folder)
    rules: list[Rule] = []
    broken: list[Broken] = []
    for file in _rule_files(folder, manifest.get("rules")):
        loaded = _load_rule(file, origin.name)
        if isinstance(loaded, Rule):
            rules.append(loaded)
        else:
            broken.append(loaded)
    return _Found(Rulebook((origin,), tuple(rules), tuple(broken)), manifest.get("limits") or {})


def _rule_files(folder: Path, listed: list[str] | None) -> list[Path]:
    """The modules of the listed rules, or every module of the folder; `_name.py` is a helper, not a rule."""
    if listed is None:
        return sorted(file for file in folder.glob("*.py") if not file.name.startswith("_"))
    return [folder / f"{slug.replace('-', '_')}.py" for slug in sorted(set(listed))]


def _load_rule(file: Path, book: str) -> Rule | Broken:
    """The one rule of a module; anything wrong with it breaks this rule alone."""
    slug = file.stem.replace("_", "-")
    try:
        module = _run(file, f"{book} rulebook: {file.stem}")
    except (Exception, SystemExit) as error:  # whatever a module does, the other rules must still load
        words = _PATH.sub("", " ".join(str(error).split()).replace(f"{file.parent}/", ""))
        return Broken(slug, f"it can't be loaded: {type(error).__name__}: {words}")
    own = str(vars(module).get("__file__"))  # absolute, where the folder may be named from here
    rules = [value for value in vars(module).values() if isinstance(value, Rule) and value.file == own]
    if [rule.slug for rule in rules] != [slug]:
        return Broken(slug, f"{file.name} must hold one rule, the function `{file.stem}`")
    return rules[0]


class _FromItsText(SourceFileLoader):
    """Compiles a rule from its text, always.

    Python takes a compiled file for current by its age in whole seconds and its size: a limit changed from 11 to 30
    in the second in which it was first run would be judged as 11.
    """

    def get_code(self, fullname: str) -> CodeType:
        return self.source_to_code(self.get_data(self.path), self.path)


def _run(file: Path, name: str) -> object:
    # The shipped rules change with the program alone, and compiling them anew would double the time to start.
    loader = SourceFileLoader if file.parent == shipped("rules") else _FromItsText
    spec = spec_from_file_location(name, file, loader=loader(name, str(file)))
    if spec is None or spec.loader is None:
        raise ImportError(f"{file.name} is no Python module")
    module = module_from_spec(spec)
    sys.modules[name] = module  # dataclasses and pickle look modules up there
    try:
        spec.loader.exec_module(module)
    except BaseException:
        del sys.modules[name]
        raise
    return module
