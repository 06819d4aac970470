"""Why a mutant may survive: it changes nothing that can be seen."""

import re
from dataclasses import dataclass
from fnmatch import fnmatch

from tests.mutation.mutants import Mutant
from tests.mutation.run import ROOT


@dataclass(frozen=True)
class Explained:
    """An entry of `survivors.yaml`: one mutated line of a file, or all mutants of one kind.

    For a kind, `file` may be a pattern of names and `change` is an expression that all of `was -> now` matches;
    `line`, if given, is one that is found in the line as it stands.
    """

    file: str
    why: str
    mutated: str = ""
    change: str = ""
    line: str = ""

    def __post_init__(self) -> None:
        """Refuse an entry that would explain everything, or nothing."""
        if bool(self.mutated) == bool(self.change) or not self.why.strip():
            raise ValueError(f"an entry for {self.file} needs a reason, and a mutated line or a change")

    def covers(self, file: str, mutant: Mutant) -> bool:
        """Whether it is about that mutant."""
        if not fnmatch(file, self.file):
            return False
        text = (ROOT / file).read_text()
        if self.mutated:
            return mutant.of(text).splitlines()[mutant.line - 1].strip() == self.mutated
        found = re.search(self.line, text.splitlines()[mutant.line - 1])
        return found is not None and re.fullmatch(self.change, f"{mutant.was} -> {mutant.now}") is not None
