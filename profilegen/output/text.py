"""Rows as plain text in columns, for a terminal.

Owns padding. Refuses wrapping: a terminal or a pager does that better.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Sequence


def text_table(
    rows: Sequence[Sequence[str]], right: frozenset[int] = frozenset(), header: bool = True
) -> str:
    """Rows as lines of columns two spaces apart, without blanks at the ends of lines.

    Args:
        rows: strings, as many in each row; line breaks inside a cell become spaces.
        right: numbers of the columns that stand to the right, from 0.
        header: whether the first row is underlined.

    Returns:
        the text with a line break at its end, or nothing for no rows.

    Raises:
        ValueError: rows of unlike length.
    """
    cells = [[" ".join(cell.split()) for cell in row] for row in rows]
    if not cells:
        return ""
    if any(len(row) != len(cells[0]) for row in cells):
        raise ValueError("a table needs as many cells in every row")
    widths = [max(map(columns_of, column)) for column in zip(*cells, strict=True)]
    lines = [_line(row, widths, right) for row in cells]
    if header:
        lines.insert(1, "  ".join("-" * width for width in widths))
    return "\n".join(lines) + "\n"


def columns_of(string: str) -> int:
    """How many places a string takes in a terminal: marks over letters none, wide signs two."""
    return sum(
        0 if unicodedata.combining(c) else 1 + (unicodedata.east_asian_width(c) in "FW")
        for c in string
    )


def _line(row: Sequence[str], widths: Sequence[int], right: frozenset[int]) -> str:
    padded = []
    for index, (cell, width) in enumerate(zip(row, widths, strict=True)):
        blank = " " * (width - columns_of(cell))
        padded.append(blank + cell if index in right else cell + blank)
    return "  ".join(padded).rstrip()
