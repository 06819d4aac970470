"""How a mechanics function turns down an argument."""

from collections.abc import Iterable


def refuse(name: str, value: object, wanted: str) -> ValueError:
    """The error for an argument outside its range: it names the argument and its value."""
    return ValueError(f"{name} must be {wanted}, got {value!r}")


def unknown(name: str, value: object, known: Iterable[str]) -> ValueError:
    """The error for a word that a table does not hold."""
    return ValueError(f"{name} must be one of {', '.join(known)}, got {value!r}")
