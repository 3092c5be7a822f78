"""Sections of words set in columns, as large as their room allows.

Owns the size of the lettering and the places of the sections. Refuses what they say.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

from profilegen.drawing.boxes import Box
from profilegen.drawing.layout import even_room, flow
from profilegen.drawing.marks import Block, together
from profilegen.drawing.tables import Laid, heading, pairs, paragraph
from profilegen.topics.topic import Pair, Section

SIZES = (2.5, 2.2, 2.0, 1.8, 1.7, 1.6, 1.5, 1.4, 1.2)
"""mm. Capital heights tried for the words, largest first; 1.8 is the smallest of ISO 3098."""

COLUMNS, GUTTER = 3, 4.0


@dataclass(frozen=True, slots=True)
class Words:
    """The words set at one size, not yet placed.

    Attributes:
        size: capital height, mm.
        width: of a column, mm.
        room: height of the columns, mm.
    """

    size: float
    width: float
    room: float


def set_words(said: tuple[Section, ...], room: Box, rest: float) -> Words:
    """The largest lettering with which the words leave enough of the room free; the smallest where
    none does.

    Args:
        said: the sections, in order.
        room: for the columns, mm on the page.
        rest: height that is to stay free, mm.
    """
    width = (room.width - (COLUMNS - 1) * GUTTER) / COLUMNS
    words = Words(SIZES[0], width, 0.0)
    for size in SIZES:
        words = Words(size, width, even_room(_heights(said, width, size), COLUMNS, 1.6 * size))
        if words.room + rest <= room.height:
            break
    return words


def columns(said: tuple[Section, ...], words: Words, x: float, top: float) -> Block:
    """The sections down the columns.

    Args:
        said: the sections, in order.
        words: as `set_words` found them for these sections.
        x: left edge of the first column, mm on the page.
        top: its upper edge, mm.
    """
    gap = 1.6 * words.size
    places = flow(_heights(said, words.width, words.size), words.room, gap)
    return together(
        [
            _set(
                section,
                complex(x + column * (words.width + GUTTER), top - down),
                words.width,
                words.size,
            ).block
            for section, (column, down) in zip(said, places, strict=True)
        ]
    )


@lru_cache(maxsize=64)
def _heights(said: tuple[Section, ...], width: float, size: float) -> tuple[float, ...]:
    """How high each section is, mm; asked for again while places are tried."""
    return tuple(_set(section, 0j, width, size).height for section in said)


def _set(section: Section, at: complex, width: float, size: float) -> Laid:
    """One section, its top left corner at `at`."""
    head = heading(at, section.heading, width, size * 1.15)
    blocks, used = [head.block], head.height + 0.1 * size
    for said in section.lines:
        top = at - 1j * used
        match said:
            case Pair(label, value):
                laid = pairs(top, [(label, value or "…" * 9)], width, size)
            case str(text):
                laid = paragraph(top, text, width, size)
        blocks.append(laid.block)
        used += laid.height + 0.35 * size
    return Laid(together(blocks), used)
