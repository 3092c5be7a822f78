"""Dicts as JSON.

Owns the spelling: unrounded numbers (the shortest decimals that read back as the same number),
keys in the order given, letters as they are. Refuses NaN and infinity, which JSON has not.
"""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence


def json_text(data: Mapping[str, object] | Sequence[object]) -> str:
    """One object or list as JSON text with a line break at its end.

    Raises:
        ValueError: a number is not finite.
    """
    return json.dumps(data, allow_nan=False, ensure_ascii=False, indent=2) + "\n"
