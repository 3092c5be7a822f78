"""The record sheet: every feature with its limits, and blank columns for ten pieces.

Owns where the table stands on the page, its rows' height for handwriting, and the boxes to tick.
A list that is too long goes on on further pages.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from profilegen.drawing.boxes import Box
from profilegen.drawing.frame import Framed, Paper, frame
from profilegen.drawing.lettering import text_box
from profilegen.drawing.marks import (
    NARROW,
    THIN,
    WIDE,
    Anchor,
    Block,
    Mark,
    Sheet,
    Text,
    line,
    outline_of,
    together,
)
from profilegen.drawing.tables import Laid, bullets, fitted, heading, wrap
from profilegen.job import Job
from profilegen.sheets.page import page_of, titles_of
from profilegen.topics import gauge_words as words

KIND = "record sheet"

PIECES = 10
"""Blank columns."""

ROWS, HEAD = (7.2, 6.4), 8.0
"""mm. Heights of a row, to write in, and of the header; the lower rows where they save a page."""

SIZE, SMALLEST = 2.0, 1.8
"""mm. Capital heights of the words; 1.8 is the smallest of ISO 3098."""

SHARES = (50.0, 19.0, 19.0, 19.0, 44.0, *((10.0,) * PIECES), 11.0)
"""Widths of the columns: feature, nominal, low, high, instrument, ten pieces, pass; of 262."""

BOX = 3.2
"""mm. Side of a box to tick."""


@dataclass(frozen=True, slots=True)
class _Grid:
    """The table's place: top left corner, the left edge of every column and the right end, and
    the height of a row."""

    top: complex
    edges: tuple[float, ...]
    row: float


def record_sheets(job: Job, paper: str | None = None) -> tuple[Sheet, ...]:
    """The record sheet on A4, or Letter for inch parts, on its side, unless a paper is named.

    Raises:
        InputError: a tolerance of the part file amounts to nothing at its size.
    """
    page = page_of(job.part, paper).landscape()
    figures = job.part.figures
    rows = words.measured(job).written(figures)
    room = frame(page, titles_of(job.part, KIND, "1 / 1", "not drawn")).room
    notes = tuple(_notes(job))
    said = tuple(words.head_lines(job))
    above, below = _head(0j, said, room.width).height, _height(notes, room.width)
    row, parts = min(
        ((row, _parted(rows, row, room.height - above, below)) for row in ROWS),
        key=lambda found: len(found[1]),
    )
    return tuple(
        _page(job, page, said, part, notes if part is parts[-1] else (), f"{n} / {len(parts)}", row)
        for n, part in enumerate(parts, start=1)
    )


def _head(at: complex, said: Sequence[str], width: float) -> Laid:
    """What comes before every size, over the table of each page; with its gap, nothing for none."""
    laid = bullets(at, said, width, bullet="!", size=SIZE, gap=0.8)
    return Laid(laid.block, laid.height + 3.0 if said else 0.0)


def _parted(
    rows: Sequence[tuple[str, ...]], row: float, height: float, below: float
) -> list[Sequence[tuple[str, ...]]]:
    """The rows of each page; none on the last where only the notes stand on it."""
    fit = max(1, int((height - HEAD - 2 * row) // row))
    parts = [rows[at : at + fit] for at in range(0, len(rows), fit)]
    if HEAD + row * (len(parts[-1]) + 1) + below > height:
        parts.append([])
    return parts


def _page(
    job: Job,
    paper: Paper,
    said: Sequence[str],
    rows: Sequence[tuple[str, ...]],
    notes: Sequence[str],
    number: str,
    row: float,
) -> Sheet:
    framed = frame(paper, titles_of(job.part, KIND, number, "not drawn"))
    room = framed.room
    head = _head(complex(room.x0, room.y1), said, room.width)
    blocks, used = [framed.block, head.block], head.height
    if rows:
        blocks.append(_table(framed, used, rows, row))
        used += HEAD + row * (len(rows) + 1) + 3.0
    if notes:
        top = complex(room.x0, room.y1 - used)
        title = heading(top, "How, and within which limits", room.width, 1.15 * SIZE)
        under = top - 1j * (title.height + 0.5)
        blocks += [title.block, bullets(under, notes, room.width, size=SMALLEST, gap=0.8).block]
    whole = together(blocks)
    name = f"{job.part.title}: {KIND}"
    return Sheet(paper.width, paper.height, whole.marks, whole.boxes, name)


def _height(notes: Sequence[str], width: float) -> float:
    """Height of the notes with their heading, mm."""
    head = heading(0j, "How", width, 1.15 * SIZE).height
    return head + bullets(0j, notes, width, size=SMALLEST, gap=0.8).height + 4.0


def _table(framed: Framed, used: float, rows: Sequence[tuple[str, ...]], row: float) -> Block:
    """Header, a row a feature, and a last row of boxes for each piece as a whole, under what is
    used of the page, mm."""
    room = framed.room
    scale = room.width / sum(SHARES)
    edges = [room.x0]
    for share in SHARES:
        edges.append(edges[-1] + share * scale)
    grid = _Grid(complex(room.x0, room.y1 - used), tuple(edges), row)
    titles = ("feature", "nominal", "low", "high", "with")
    pieces = tuple(str(piece) for piece in range(1, PIECES + 1))
    blocks = [_row(grid, 0.0, HEAD, (*titles, *pieces, "pass"), bold=True)]
    for number, cells in enumerate(rows):
        down = HEAD + number * row
        blocks.append(_row(grid, down, row, cells))
        blocks.append(Block((_tick(grid, len(SHARES) - 1, down),)))
    foot = HEAD + len(rows) * row
    blocks.append(_row(grid, foot, row, ("piece within all limits",)))
    ticks = tuple(_tick(grid, column, foot) for column in range(5, len(SHARES)))
    return together([*blocks, Block(ticks), Block(tuple(_rules(grid, len(rows))))])


def _row(
    grid: _Grid, down: float, height: float, cells: Sequence[str], bold: bool = False
) -> Block:
    """Words in a row, figures to the right, made to fit their columns."""
    texts: list[Text] = []
    for column, cell in enumerate(cells):
        left, right = grid.edges[column], grid.edges[column + 1]
        anchor: Anchor = "left" if column in (0, 4) else "right" if column < 4 else "middle"
        x = {"left": left + 1.0, "right": right - 1.0, "middle": (left + right) / 2}[anchor]
        lines = wrap(cell, right - left - 2.0, SMALLEST if column == 4 else SIZE, bold)
        size = SIZE if len(lines) == 1 and column != 4 else SMALLEST
        lines = wrap(cell, right - left - 2.0, size, bold)[:2]
        middle = grid.top.imag - down - height / 2
        for n, said in enumerate(lines):
            y = middle + 1.6 * size * ((len(lines) - 1) / 2 - n)
            text = Text(complex(x, y), said, size, anchor, "middle", bold=bold)
            texts.append(fitted(text, right - left - 1.0))
    shown = tuple(text for text in texts if text.string.strip())
    return Block(shown, tuple(text_box(text) for text in shown))


def _tick(grid: _Grid, column: int, down: float) -> Mark:
    """A box to tick in the middle of a cell."""
    x = (grid.edges[column] + grid.edges[column + 1]) / 2
    y = grid.top.imag - down - grid.row / 2
    half = BOX / 2
    return outline_of(Box(x - half, y - half, x + half, y + half), NARROW)


def _rules(grid: _Grid, rows: int) -> Iterator[Mark]:
    """The table's lines: wide round it and under the header, thin between."""
    left, right, top = grid.edges[0], grid.edges[-1], grid.top.imag
    foot = top - HEAD - (rows + 1) * grid.row
    yield outline_of(Box(left, foot, right, top), NARROW)
    yield line(complex(left, top - HEAD), complex(right, top - HEAD), width=WIDE)
    for number in range(1, rows + 1):
        y = top - HEAD - number * grid.row
        width = NARROW if number == rows else THIN
        yield line(complex(left, y), complex(right, y), width=width)
    for x in grid.edges[1:-1]:
        yield line(complex(x, foot), complex(x, top), width=THIN)


def _notes(job: Job) -> Iterator[str]:
    yield from words.how_lines(job)
    said = (line[0].upper() + line[1:] for line in words.default_lines(job.gauges))
    yield "Limits. " + ". ".join(said) + "."
    yield " ".join(words.SAFETY)
