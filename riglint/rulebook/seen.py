"""What was seen when gear was looked over, as a check. For rules."""

from typing import Final

from riglint.outcome import Check, Grade, Where
from riglint.rulebook.judge import Words, holds
from riglint.solve.rope import DAMAGED, DOUBTFUL

_GRADES: Final = dict.fromkeys(DAMAGED, Grade.WARNING) | dict.fromkeys(DOUBTFUL, Grade.CAUTION)


def damage(seen: tuple[str, ...], where: Where, words: Words) -> Check | None:
    """A failed check, graded by the worst that was seen, which `{seen}` names; None where it is no damage."""
    bad = [word for word in seen if word in _GRADES]
    if not bad:
        return None
    grade = min((_GRADES[word] for word in bad), key=lambda g: g.rank)
    return holds(False, where, words, grade=grade, terms=(("seen", ", ".join(bad)),))
