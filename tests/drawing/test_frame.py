"""Frames and notes: margins, room, title block."""

from __future__ import annotations

import pytest

from profilegen.drawing.boxes import Box, bounds
from profilegen.drawing.frame import A4, LETTER, PAPERS, Paper, Titles, frame
from profilegen.drawing.layout import overlaps
from profilegen.drawing.marks import WIDE, Stroke, Text
from profilegen.drawing.notes import Note, note_column

LONG = Titles(
    'Cloth take-up ratchet <&"> 🙂 ' * 6, "LM-07" * 12, "set-up sheet" * 9, "brass " * 20,
    "1:1000", "millimetres", "10 / 12", "profilegen " * 9,
)  # fmt: skip


@pytest.mark.parametrize("paper", [A4, LETTER, A4.landscape(), LETTER.landscape()])
@pytest.mark.parametrize("titles", [Titles("x"), LONG])
def test_title_block_fits_its_cells(paper: Paper, titles: Titles) -> None:
    """Whatever the title block must say, nothing overlaps or leaves the frame."""
    framed = frame(paper, titles)
    assert overlaps(framed.block.boxes) == ()
    inner = Box(20.0, 10.0, paper.width - 10.0, paper.height - 10.0)
    assert all(inner.holds(each) for each in framed.block.boxes)
    assert not any(framed.room.overlaps(each) for each in framed.block.boxes)


@pytest.mark.parametrize("letter", ["n", "W"])
def test_the_longest_title_is_told_whole(letter: str) -> None:
    """A title of 120 characters takes more lines and smaller lettering, not an ellipsis."""
    title = f"{(letter * 11 + ' ') * 10}"[:119] + "."
    block = frame(A4, Titles(title)).block
    said = [mark for mark in block.marks if isinstance(mark, Text)]
    assert not any("…" in text.string for text in said)
    values = [text for text in said if 9 * letter in text.string]
    assert " ".join(text.string for text in sorted(values, key=lambda t: -t.at.imag)) == title
    assert all(text.size >= 1.8 for text in values)


def test_a_short_title_stays_large() -> None:
    """A title that fits stands on one line in capitals of 5 mm."""
    said = [
        m for m in frame(A4, Titles("Cloth take-up ratchet")).block.marks if isinstance(m, Text)
    ]
    assert [text.size for text in said if text.string == "Cloth take-up ratchet"] == [5.0]


def test_margins_are_those_of_the_standard() -> None:
    """ISO 5457: 20 mm on the left for filing, 10 mm elsewhere; the A4 frame is 180 mm wide."""
    framed = frame(A4, Titles("x"))
    room = framed.room.grown(2.0)
    assert (room.x0, room.x1, room.y1) == pytest.approx((20.0, 200.0, 287.0))
    edges = [mark for mark in framed.block.marks if isinstance(mark, Stroke) and mark.width == WIDE]
    (block,) = (bounds(edge.curves[0].points.tolist()) for edge in edges)
    assert (block.x1, block.y0, block.width) == pytest.approx((200.0, 10.0, 180.0))


def test_paper_sizes() -> None:
    """A4 is 210 by 297 mm (ISO 216); Letter is 8.5 by 11 in (ANSI Y14.1)."""
    assert (PAPERS["A4"].width, PAPERS["A4"].height) == (210.0, 297.0)
    letter = PAPERS["Letter"]
    assert (letter.width, letter.height) == pytest.approx((8.5 * 25.4, 11 * 25.4))


def test_blank_fields_stay_blank() -> None:
    """Date, maker and checker are left to be filled in by hand: captions without values."""
    said = [m.string for m in frame(A4, Titles("x")).block.marks if isinstance(m, Text)]
    assert {"date", "made by", "checked"} <= set(said)
    assert "" not in said


@pytest.mark.parametrize("side", ["left", "right"])
def test_notes_stay_in_their_room(side: str) -> None:
    """Notes are set inside their room, in whole words, none over another."""
    at = [60 + 80j, 70 + 82j, 65 + 84j, 66 + 20j]
    notes = [Note(z, f"note number {k} about a flank") for k, z in enumerate(at)]
    room = Box(110, 10, 140, 100) if side == "right" else Box(10, 10, 40, 100)
    block = note_column(notes, room, side)  # type: ignore[arg-type]
    assert overlaps(block.boxes) == ()
    assert all(room.grown(0.2).holds(each) for each in block.boxes)
