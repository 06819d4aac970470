"""The known word that was most likely meant, for messages."""

from __future__ import annotations

from collections.abc import Iterable

LONGEST_WORD = 64
"""A longer word isn't compared: it is no slip of the fingers."""


def _slips(a: str, b: str) -> int:
    """How many letters to add, drop, change or swap with their neighbour to make a into b."""
    before: list[int] = []
    row = list(range(len(b) + 1))
    for i, letter in enumerate(a, 1):
        before, last, row = row, before, [i]
        for j, other in enumerate(b, 1):
            steps = min(before[j] + 1, row[-1] + 1, before[j - 1] + (letter != other))
            if i > 1 and j > 1 and letter == b[j - 2] and a[i - 2] == other:
                steps = min(steps, last[j - 2] + 1)
            row.append(steps)
    return row[-1]


def nearest(word: str, known: Iterable[str]) -> str | None:
    """The known word nearest to this one, if any is near: about one slip in three letters.

    Case, spaces, `-` and `_` weigh nothing. Of several equally near, the first in the alphabet.
    """
    plain = _plain(word)
    if not plain or len(plain) > LONGEST_WORD:
        return None
    likely = (name for name in set(known) if _could_be(plain, _plain(name)))
    ranked = sorted((_slips(plain, _plain(name)), name) for name in likely)
    return ranked[0][1] if ranked and ranked[0][0] <= _allowed(plain) else None


def one_of(known: Iterable[str]) -> str:
    """The known words as a phrase: `a`, `b` or `c`, in the order given."""
    words = [f"`{word}`" for word in known]
    return " or ".join(filter(None, [", ".join(words[:-1]), *words[-1:]]))


def _plain(word: str) -> str:
    return word.casefold().replace("_", "").replace("-", "").replace(" ", "")


def _allowed(plain: str) -> int:
    return (len(plain) + 1) // 3


def _could_be(plain: str, other: str) -> bool:
    return abs(len(plain) - len(other)) <= _allowed(plain)
