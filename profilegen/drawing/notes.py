"""Notes beside a drawing, each with a leader to what it speaks of.

Owns the setting of notes into the places that `layout.column` finds. Refuses choosing what is
noted.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from profilegen.drawing.boxes import Box
from profilegen.drawing.layout import Side, Slot, column
from profilegen.drawing.lettering import text_width
from profilegen.drawing.marks import SMALL, Block, line, together
from profilegen.drawing.symbols import arrowhead
from profilegen.drawing.tables import height_of, paragraph, wrap


@dataclass(frozen=True, slots=True)
class Note:
    """Words about a point of a drawing.

    Attributes:
        anchor: what is meant, mm on the page.
        string: the words.
    """

    anchor: complex
    string: str


def note_column(notes: Sequence[Note], room: Box, side: Side, size: float = SMALL) -> Block:
    """Notes in a column, each with a leader to what it speaks of.

    Args:
        notes: every anchor must lie on the drawing's side of the column, 3 mm or more away from it.
        room: of the column, mm on the page.
        side: on which side of the drawing the column stands.
        size: height of the capitals, mm.

    Raises:
        ValueError: an anchor lies in the column.
    """
    lines = [wrap(note.string, room.width - 1.0, size) for note in notes]
    sizes = [
        (max(text_width(each, size) for each in said) + 1.0, height_of(len(said), size))
        for said in lines
    ]
    x = room.x0 if side == "right" else room.x1
    anchors = [note.anchor for note in notes]
    slots = column(anchors, sizes, x, side, (room.y0, room.y1), port=size / 2)
    return together(
        [_note(note, slot, side, size) for note, slot in zip(notes, slots, strict=True)]
    )


def _note(note: Note, slot: Slot, side: Side, size: float) -> Block:
    tip, knee, port = slot.path
    left = slot.box.x0 + (1.0 if side == "right" else 0.0)
    words = paragraph(complex(left, slot.box.y1), note.string, slot.box.width - 1.0 + 1e-9, size)
    marks = (line(tip, knee, port), arrowhead(tip, tip - knee))
    return Block((*marks, *words.block.marks), words.block.boxes)
