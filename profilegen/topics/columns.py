"""Topics, sentences and rows in straight columns, for a terminal or a plain text file."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence
from itertools import groupby
from textwrap import wrap

from profilegen.topics.topic import Grid, Pair, Section

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


def text_lines(said: Iterable[Section], hang: str = "  ") -> Iterator[str]:
    """Sections, each under its heading after an empty line; so are sentences below a table.

    Rows one below the other share their columns; where their source is told their values end in
    one line. Lines of a sentence after the first stand `hang` further in.
    """
    for one in said:
        yield from ("", one.heading)
        before: type = Section
        for kind, run in groupby(one.lines, type):
            if kind is str and before is Grid:
                yield ""
            yield from _run(list(run), hang)
            before = kind


def _run(lines: Sequence[str | Pair | Grid], hang: str) -> Iterator[str]:
    """Lines of one kind."""
    if pairs := [line for line in lines if isinstance(line, Pair)]:
        has_source = any(pair.source for pair in pairs)
        cells = [pair[: 2 + has_source] for pair in pairs]
        yield from columns(cells, frozenset({1} if has_source else ()))
    for line in lines:
        if isinstance(line, Grid):
            yield from columns(line.rows, line.right)
        elif isinstance(line, str):
            yield from paragraph(line, "  ", hang)
