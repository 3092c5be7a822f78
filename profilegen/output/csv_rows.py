"""Rows as CSV.

Owns the spelling of RFC 4180: commas, quotes only where needed, every line ended by CR LF; UTF-8
without a byte-order mark. Refuses to touch what the cells say.
"""

from __future__ import annotations

import csv
from collections.abc import Sequence
from io import StringIO


def csv_bytes(rows: Sequence[Sequence[str]]) -> bytes:
    """Rows, the header first if there is one, as a CSV file."""
    text = StringIO(newline="")
    csv.writer(text, lineterminator="\r\n").writerows(rows)
    return text.getvalue().encode("utf-8", "replace")
