"""Rows of words in straight columns, for a terminal or a plain text file.

Owns alignment only.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from textwrap import wrap

WIDTH = 96
"""Characters in a line."""


_SIZE = re.compile(r"(\d) (?=(?:mm|in)\b)")


def columns(rows: Sequence[Sequence[str]], right: frozenset[int] = frozenset()) -> list[str]:
    """The rows as lines, two blanks between columns and two before the first.

    Args:
        rows: the cells; all rows have as many.
        right: the columns whose words end in one line, counted from 0.
    """
    widths = [max(map(len, column)) for column in zip(*rows, strict=True)]
    return [
        "  "
        + "  ".join(
            cell.rjust(width) if place in right else cell.ljust(width)
            for place, (cell, width) in enumerate(zip(row, widths, strict=True))
        ).rstrip()
        for row in rows
    ]


def paragraph(text: str, indent: str, hang: str = "") -> list[str]:
    """A sentence in lines of at most `WIDTH` characters.

    Keys and numbers are never broken, and a number keeps its unit. Lines after the first stand
    `hang` further in.
    """
    lines = wrap(
        _SIZE.sub("\\1\u00a0", text),
        WIDTH,
        initial_indent=indent,
        subsequent_indent=indent + hang,
        break_long_words=False,
        break_on_hyphens=False,
    )
    return [line.replace("\u00a0", " ") for line in lines]
