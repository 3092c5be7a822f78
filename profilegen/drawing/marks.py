"""Marks: the three things that can stand on paper, and the sheet that holds them.

Owns strokes, fills, texts and `Sheet`, in mm on paper, y up, the origin at the bottom left corner
of the page. Meaning is carried by shape, line width, dashes and grey; there is no hue. Refuses
styles, nested groups, transforms and layers: every number here is final.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Literal, TypeAlias

from profilegen.drawing.boxes import Box
from profilegen.geometry.chain import Contour, Curve, chain, contour

NARROW = 0.25
"""mm. Dimension, leader, hatch and centre lines; narrow line of the 0.5 group (ISO 128-2)."""

WIDE = 0.5
"""mm. Visible outlines; wide line of the 0.5 group (ISO 128-2: wide to narrow as 2 to 1)."""

THIN = 0.18
"""mm. Table rules and details that must stand back; the next width down in ISO 128-2."""

HAIR = 0.13
"""mm. The thinnest line of ISO 128-2: an edge that a part is laid on and compared with."""

SMALL = 2.5
"""mm. Capital height of ordinary lettering (ISO 3098 series)."""

MEDIUM = 3.5
"""mm. Capital height of headings and of dimensions on open drawings (ISO 3098 series)."""

LARGE = 5.0
"""mm. Capital height of titles (ISO 3098 series)."""

DASHED: tuple[float, ...] = (3.0, 1.0)
"""mm on, mm off: a hidden edge or a path (ISO 128-2 type 02: 12 d and 3 d, d 0.25)."""

CHAINED: tuple[float, ...] = (6.0, 0.75, 0.5, 0.75)
"""mm: a centre line (ISO 128-2 type 04: dash 24 d, gap 3 d; the dot drawn 2 d, to be seen)."""

_APART = 1e-6
"""mm. Nearer points of a line are one point."""

Anchor: TypeAlias = Literal["left", "middle", "right"]
Level: TypeAlias = Literal["baseline", "middle", "top"]


@dataclass(frozen=True, slots=True)
class Stroke:
    """Black lines drawn along curves, all with one pen; ends are cut square, joins rounded.

    Attributes:
        curves: what to draw along, mm on the page.
        width: line width, mm.
        dash: lengths of marks and gaps in turn, mm; empty for an unbroken line.
        name: a word by which readers find the mark, or empty.
    """

    curves: tuple[Curve, ...]
    width: float = NARROW
    dash: tuple[float, ...] = ()
    name: str = ""


@dataclass(frozen=True, slots=True)
class Fill:
    """An area without an edge; where contours overlap, every second layer is open (even-odd).

    Attributes:
        contours: closed curves, mm on the page.
        grey: 0 is black, 1 is white.
        name: a word by which readers find the mark, or empty.
    """

    contours: tuple[Contour, ...]
    grey: float = 0.0
    name: str = ""


@dataclass(frozen=True, slots=True)
class Text:
    """One line of black lettering.

    Attributes:
        at: the point it is fixed at, mm on the page.
        string: what it says; line breaks count as spaces, other control characters are dropped.
        size: height of its capitals, mm (ISO 3098: 2.5, 3.5, 5 ...).
        anchor: which end of the line of text is at `at`.
        level: whether the baseline, the capitals' middle or their top is at `at`.
        turn: direction of reading from +x, rad, counter-clockwise positive.
        bold: whether the heavier face is used.
        name: a word by which readers find the mark, or empty.
    """

    at: complex
    string: str
    size: float = SMALL
    anchor: Anchor = "left"
    level: Level = "baseline"
    turn: float = 0.0
    bold: bool = False
    name: str = ""


Mark: TypeAlias = Stroke | Fill | Text
Marks: TypeAlias = tuple[Mark, ...]


@dataclass(frozen=True, slots=True)
class Block:
    """Marks that belong together, with the boxes of their labels.

    Attributes:
        marks: in the order they are drawn, later ones on top.
        boxes: the box of every label, for tests of overlap and for layout.
    """

    marks: Marks
    boxes: tuple[Box, ...] = ()

    def __add__(self, other: Block) -> Block:
        """Both, the second one on top."""
        return Block(self.marks + other.marks, self.boxes + other.boxes)


@dataclass(frozen=True, slots=True)
class Sheet:
    """One page.

    Attributes:
        width: of the page, mm.
        height: of the page, mm.
        marks: in the order they are drawn, later ones on top.
        boxes: the box of every label on it.
        title: what the document is called; shown by viewers, not drawn.
    """

    width: float
    height: float
    marks: Marks
    boxes: tuple[Box, ...] = ()
    title: str = ""


def together(blocks: Sequence[Block]) -> Block:
    """Blocks as one, in order."""
    return Block(
        tuple(mark for block in blocks for mark in block.marks),
        tuple(box for block in blocks for box in block.boxes),
    )


def stroke(
    *curves: Curve,
    width: float = NARROW,
    dash: tuple[float, ...] = (),
    name: str = "",
) -> Stroke:
    """A stroke along curves given one after the other.

    Args:
        curves: mm on the page.
        width: of the line, mm.
        dash: lengths of marks and gaps in turn, mm; empty for an unbroken line.
        name: a word by which readers find the mark, or empty.
    """
    return Stroke(curves, width, dash, name)


def line(
    *points: complex,
    width: float = NARROW,
    dash: tuple[float, ...] = (),
    name: str = "",
) -> Stroke:
    """A straight or broken line through points.

    Args:
        points: mm on the page; doubled points are merged, and fewer than two leave an empty stroke.
        width: of the line, mm.
        dash: lengths of marks and gaps in turn, mm; empty for an unbroken line.
        name: a word by which readers find the mark, or empty.
    """
    kept = points[:1] + tuple(b for a, b in pairwise(points) if abs(b - a) > _APART)
    curves = (chain(kept),) if len(kept) > 1 else ()
    return Stroke(curves, width, dash, name)


def outline_of(box: Box, width: float = NARROW) -> Stroke:
    """The edge of a box as a stroke; half of its width, in mm, lies outside of the box."""
    return Stroke((contour(box.corners),), width)


def paper(width: float, height: float) -> Fill:
    """The page itself, white, so that the drawing reads on any ground (mm)."""
    return Fill((contour(Box(0.0, 0.0, width, height).corners),), 1.0, "paper")
