"""What is said of a job, subject by subject: rows and sentences, their numbers still numbers.

A topic is printed as text (`columns`), on a sheet (`sheets/section_columns`) and, by the keys of
its rows, in JSON; `written` turns its numbers to text, in one part's unit and mark.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import NamedTuple, TypeAlias

from profilegen.figures import Figure, Figures


@dataclass(frozen=True, slots=True)
class Row:
    """One fact: what it is, and its value.

    Attributes:
        label: in the trade's words; empty where only programs are told.
        value: words, or a figure; empty where it is written in by hand.
        key: for programs, its steps parted by dots; empty where they are not told it.
        source: `given` or `solved`; empty where that is not said.
    """

    label: str
    value: str | Figure
    key: str = ""
    source: str = ""

    @property
    def is_told(self) -> bool:
        """Whether people are told it; what has no label or no value is for programs alone."""
        is_known = isinstance(self.value, str) or self.value.value is not None
        return is_known and self.label != ""


@dataclass(frozen=True, slots=True)
class Table:
    """Titles, and rows of as many cells."""

    titles: tuple[str, ...]
    rows: tuple[tuple[str | Figure, ...], ...]

    def written(self, figures: Figures) -> tuple[tuple[str, ...], ...]:
        """The rows with every figure as text.

        Args:
            figures: the unit and the decimal mark of the text; the figures are mm and rad.
        """
        return tuple(tuple(map(figures.told, row)) for row in self.rows)

    @property
    def right(self) -> frozenset[int]:
        """The columns of figures, counted from 0: they end in one line."""
        places = (enumerate(row) for row in self.rows)
        return frozenset(at for row in places for at, cell in row if isinstance(cell, Figure))


Line: TypeAlias = str | Row | Table
"""A sentence, a row, or a table."""


@dataclass(frozen=True, slots=True)
class Topic:
    """One subject: its heading and what stands below it, in order."""

    heading: str
    lines: tuple[Line, ...]


def topics(said: dict[str, Iterable[Line]]) -> tuple[Topic, ...]:
    """Topics by their headings, those left out that say nothing."""
    found = (Topic(heading, tuple(lines)) for heading, lines in said.items())
    return tuple(one for one in found if one.lines)


class Pair(NamedTuple):
    """A row as people read it."""

    label: str
    value: str
    source: str = ""


class Grid(NamedTuple):
    """A table as people read it, its titles first."""

    rows: tuple[tuple[str, ...], ...]
    right: frozenset[int]


class Section(NamedTuple):
    """A topic as people read it: its figures are text."""

    heading: str
    lines: tuple[str | Pair | Grid, ...]


def written(said: Iterable[Topic], figures: Figures) -> tuple[Section, ...]:
    """Topics with every figure as text, in one unit and mark."""
    return tuple(Section(one.heading, told(one.lines, figures)) for one in said)


def told(lines: Iterable[Line], figures: Figures) -> tuple[str | Pair | Grid, ...]:
    """Lines with every figure as text, those left out that only programs are told.

    Args:
        lines: their figures in mm and rad.
        figures: the unit and the decimal mark of the text.
    """
    return tuple(
        _told(line, figures) for line in lines if not isinstance(line, Row) or line.is_told
    )


def _told(line: Line, figures: Figures) -> str | Pair | Grid:
    match line:
        case Row():
            return Pair(line.label, figures.told(line.value), line.source)
        case Table():
            return Grid((line.titles, *line.written(figures)), line.right)
    return line
