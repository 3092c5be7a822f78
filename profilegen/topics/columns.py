"""Topics, sentences and rows in straight columns, for a terminal or a plain text file."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence
from itertools import groupby
from textwrap import wrap

from profilegen.topics.topic import Pair, Section

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


def text_lines(said: Iterable[Section]) -> Iterator[str]:
    """Sections, each under its heading after an empty line.

    Rows one below the other share their columns; where their source is told their values end in
    one line.
    """
    for one in said:
        yield from ("", one.heading)
        for is_pair, run in groupby(one.lines, lambda line: isinstance(line, Pair)):
            if not is_pair:
                yield from (line for text in run for line in paragraph(str(text), "  ", "  "))
                continue
            pairs = [pair for pair in run if isinstance(pair, Pair)]
            has_source = any(pair.source for pair in pairs)
            yield from columns([pair[: 2 + has_source] for pair in pairs], RIGHT[has_source])


RIGHT = {True: frozenset({1}), False: frozenset[int]()}
