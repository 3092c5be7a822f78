"""Pages: paper sizes, the frame, and the title block.

Owns the margins (ISO 5457: 20 mm for filing on the left, 10 mm elsewhere) and the fields of the
title block in the spirit of ISO 7200. Fields for date, maker and checker stay blank: they are
filled in by hand. Refuses what a drawing shows.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from profilegen.drawing import marks
from profilegen.drawing.boxes import Box
from profilegen.drawing.lettering import text_box
from profilegen.drawing.marks import (
    LARGE,
    MEDIUM,
    NARROW,
    SMALL,
    WIDE,
    Block,
    Mark,
    Text,
    line,
    outline_of,
    together,
)
from profilegen.drawing.tables import PITCH, fitted, wrap

FILING = 20.0
"""mm. Left margin, for filing (ISO 5457)."""

MARGIN = 10.0
"""mm. The other margins (ISO 5457)."""

FRAME = 0.7
"""mm. Line width of the frame (ISO 5457)."""

CAPTION = 1.8
"""mm. Capital height of the captions in the title block (ISO 3098 series)."""

BLOCK_WIDTH = 180.0
"""mm. Width of the title block (ISO 7200)."""

SIZES = (LARGE, 4.2, MEDIUM, 3.0, SMALL, 2.2, 2.0, CAPTION)
"""mm. Capital heights that a value is tried in, largest first; 1.8 is the smallest of ISO 3098."""

ROWS = (8.0, 12.0, 8.0)
"""mm. Heights of the title block's rows from the top."""


@dataclass(frozen=True, slots=True)
class Paper:
    """A page.

    Attributes:
        name: `A4` or `Letter`, with `landscape` behind it when it lies on its side.
        width: mm.
        height: mm.
    """

    name: str
    width: float
    height: float

    def landscape(self) -> Paper:
        """The page on its side."""
        return Paper(f"{self.name} landscape", self.height, self.width)


A4 = Paper("A4", 210.0, 297.0)
"""ISO 216."""

LETTER = Paper("Letter", 215.9, 279.4)
"""ANSI Y14.1 size A: 8.5 by 11 in."""

PAPERS = {"A4": A4, "Letter": LETTER}
"""Name -> page, upright."""


@dataclass(frozen=True, slots=True)
class Titles:
    """What the title block says; an empty field is left blank to be filled in by hand.

    Attributes:
        title: of the part.
        number: of the part.
        kind: of document, such as `set-up sheet`.
        material: of the part.
        scale: of the main view, such as `2:1`.
        units: of all lengths on the sheet.
        sheet: number of this sheet and of all, such as `1 / 2`.
        drawn_by: program and version.
    """

    title: str
    number: str = ""
    kind: str = ""
    material: str = ""
    scale: str = ""
    units: str = ""
    sheet: str = ""
    drawn_by: str = ""


@dataclass(frozen=True, slots=True)
class Framed:
    """An empty page with frame and title block.

    Attributes:
        block: what was drawn.
        room: the space over the title block, 2 mm clear of the lines, mm on the page.
    """

    block: Block
    room: Box


def frame(paper: Paper, titles: Titles) -> Framed:
    """The frame and title block of a page, and the room that is left above the block, mm."""
    inner = Box(FILING, MARGIN, paper.width - MARGIN, paper.height - MARGIN)
    width = min(BLOCK_WIDTH, inner.width)
    if inner.width - width < 20.0:
        width = inner.width
    box = Box(inner.x1 - width, inner.y0, inner.x1, inner.y0 + sum(ROWS))
    edge = outline_of(inner, FRAME)
    room = Box(inner.x0, box.y1, inner.x1, inner.y1).grown(-2.0)
    page = marks.paper(paper.width, paper.height)
    block = together([Block((page, edge)), title_block(box, titles)])
    return Framed(block, room)


def title_block(box: Box, titles: Titles) -> Block:
    """The title block: a grid of captions with their values.

    Args:
        box: that it fills, mm on the page.
        titles: what it says; a long value is lettered smaller.
    """
    blocks, marks, top = list[Block](), list[Mark](), box.y1
    for height, cells in zip(ROWS, _cells(titles), strict=True):
        marks.append(line(complex(box.x0, top), complex(box.x1, top), width=NARROW))
        x = box.x0
        for share, caption, value, size in cells:
            cell = Box(x, top - height * box.height / sum(ROWS), x + share * box.width, top)
            blocks.append(_cell(cell, caption, value, size))
            if x > box.x0:
                marks.append(line(complex(x, cell.y0), complex(x, top), width=NARROW))
            x = cell.x1
        top -= height * box.height / sum(ROWS)
    return together([Block((*marks, outline_of(box, WIDE))), *blocks])


def _cells(t: Titles) -> Iterator[tuple[tuple[float, str, str, float], ...]]:
    """Rows of cells from the top: share of the width, caption, value, capital height."""
    yield (
        (0.28, "material", t.material, SMALL),
        (0.12, "scale", t.scale, SMALL),
        (0.12, "units", t.units, SMALL),
        (0.16, "date", "", SMALL),
        (0.16, "made by", "", SMALL),
        (0.16, "checked", "", SMALL),
    )
    yield (0.68, "title", t.title, LARGE), (0.32, "part number", t.number, LARGE)
    yield (
        (0.40, "document", t.kind, SMALL),
        (0.44, "drawn by", t.drawn_by, SMALL),
        (0.16, "sheet", t.sheet, SMALL),
    )


def _cell(cell: Box, caption: str, value: str, size: float) -> Block:
    """A caption at the top left of a cell, its value under it, made to fit."""
    small = Text(complex(cell.x0 + 1.0, cell.y1 - 0.8), caption, CAPTION, level="top")
    if not value.strip():
        return Block((small,), (text_box(small),))
    inside = Box(cell.x0 + 1.0, cell.y0 + 0.5, cell.x1 - 1.0, cell.y1 - 0.8 - 1.2 * CAPTION)
    texts = tuple(_value(value, size, inside))
    return Block((small, *texts), (text_box(small), *(text_box(text) for text in texts)))


def _value(value: str, size: float, inside: Box) -> Iterator[Text]:
    """Words at the foot of a cell: the largest lettering in which they fit, on lines of their own.

    What even the smallest does not hold ends in an ellipsis.
    """
    lines: tuple[str, ...] = ()
    for size in (each for each in SIZES if each <= size):
        most = max(1, int((inside.height / size - 1.35) / PITCH + 1 + 1e-9))
        lines = wrap(value, inside.width, size)
        if len(lines) <= most:
            break
    if len(lines) > most:
        lines = (*lines[: most - 1], " ".join(lines[most - 1 :]))
    for up, said in enumerate(reversed(lines)):
        at = complex(inside.x0, inside.y0 + 0.34 * size + up * PITCH * size)
        yield fitted(Text(at, said, size), inside.width)
