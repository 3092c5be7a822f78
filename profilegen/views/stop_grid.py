"""Every stop with a box to tick, set down columns.

Owns the size and the paging of the grid. A label that does not start with a number is a heading and
gets no box.
"""

from __future__ import annotations

from profilegen.drawing.boxes import Box
from profilegen.drawing.lettering import text_box, text_width
from profilegen.drawing.marks import THIN, Block, Mark, Text, outline_of

PITCH = 1.75
"""Line pitch, in capital heights: boxes must not touch."""


def height(labels: tuple[str, ...], size: float, width: float) -> float:
    """Height of the grid, mm.

    Args:
        labels: of all stops; the longest decides how many columns there are.
        size: height of the capitals, mm.
        width: of the grid, mm.
    """
    return _shape(labels, size, width)[1] * PITCH * size + 2.0


def pages(labels: tuple[str, ...], size: float, room: Box) -> tuple[tuple[str, ...], ...]:
    """The labels in runs that each fill one page at most.

    Args:
        labels: in the order of the stops.
        size: height of the capitals, mm.
        room: of a page, mm; a heading above it is left out.
    """
    most = max(1, fitting(labels, size, room.width, room.height - 8.0))
    return tuple(labels[at : at + most] for at in range(0, len(labels), most))


def fitting(labels: tuple[str, ...], size: float, width: float, height: float) -> int:
    """How many labels at least go into a room.

    Args:
        labels: of all stops.
        size: height of the capitals, mm.
        width: of the room, mm.
        height: of the room, mm.
    """
    return _shape(labels, size, width)[0] * max(0, int(height / (PITCH * size)))


def grid(labels: tuple[str, ...], size: float, top: complex, width: float) -> Block:
    """The labels down the columns, a box to tick before each stop.

    Args:
        labels: one that begins with a digit is a stop; any other is a bold heading.
        size: height of the capitals, mm.
        top: left corner at the top, mm on the page.
        width: mm.
    """
    across, rows = _shape(labels, size, width)
    cell = width / across
    marks: list[Mark] = []
    for index, label in _placed(labels, rows):
        column, row = divmod(index, rows)
        corner = top + complex(column * cell, -(row + 1) * PITCH * size)
        is_stop = label[0].isdigit()
        if is_stop:
            side = 1.1 * size
            edge = Box(corner.real, corner.imag, corner.real + side, corner.imag + side)
            marks.append(outline_of(edge, THIN))
        at = corner + complex(1.8 * size if is_stop else 0.0, 0.1 * size)
        marks.append(Text(at, label, size, bold=not is_stop))
    texts = [mark for mark in marks if isinstance(mark, Text)]
    return Block(tuple(marks), tuple(text_box(text) for text in texts))


def _shape(labels: tuple[str, ...], size: float, width: float) -> tuple[int, int]:
    """Columns and rows of the grid."""
    widest = max((text_width(label, size) for label in labels), default=0.0)
    across = max(1, int(width / (widest + 3.2 * size)))
    rows = -(-len(labels) // across)
    while labels and _placed(labels, rows)[-1][0] >= across * rows:
        rows += 1
    return across, rows


def _placed(labels: tuple[str, ...], rows: int) -> list[tuple[int, str]]:
    """Each label with its place down the columns; no heading stands last in a column of several."""
    placed, place = list[tuple[int, str]](), 0
    for label in labels:
        if not label[0].isdigit() and rows > 1 and place % rows == rows - 1:
            place += 1
        placed.append((place, label))
        place += 1
    return placed
