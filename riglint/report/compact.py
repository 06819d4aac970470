"""JSON as our reports for machines write it: compact, in UTF-8, keys as given, nothing that isn't JSON."""

from __future__ import annotations

import json
from typing import Any, Final

_ENCODER: Final = json.JSONEncoder(separators=(",", ":"), ensure_ascii=False, allow_nan=False)


def compact(data: Any) -> str:
    """The data as JSON text. The encoder is kept, since making one costs more than a finding."""
    return _ENCODER.encode(data)
