"""The small plan view: the machine from above.

The work is drawn to one scale, with its hubs, its bar and what is known of jaws and chuck; head and
cutter are signs. It shows the cutter's side, the spindle's turn and the feed of a conventional cut.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from profilegen.drawing.boxes import Box
from profilegen.drawing.lettering import text_box
from profilegen.drawing.marks import (
    CHAINED,
    NARROW,
    WIDE,
    Anchor,
    Block,
    Fill,
    Mark,
    Text,
    line,
    outline_of,
    stroke,
    together,
)
from profilegen.drawing.symbols import arrow, turn_arrow
from profilegen.geometry.chain import Contour, circle, contour
from profilegen.job import Job
from profilegen.setting.along import Piece, pieces
from profilegen.views.lettering_sizes import LETTERS

HIGHEST, LONGEST = 7.0, 30.0
"""mm on paper. The rim's radius at most, and the work's length from the chuck."""

ARBOR = 5.0
"""mm on paper. Half the width of a cutter above the work."""

LIMITS = {"jaws": 8.0, "chuck": 9.0}
"""mm on paper. They are drawn no larger in radius, whatever they measure."""

UNKNOWN = 4.0
"""mm on paper. Radius of a chuck whose size is not given."""

THINNEST = 0.01
"""mm on paper. What is shorter or thinner, as jaws flush with the chuck, is not drawn."""

HEAD, CHUCK = 14.0, 4.0
"""mm on paper. Lengths of the head and of the chuck."""


@dataclass(frozen=True, slots=True)
class _Placed:
    """Where the work stands on paper.

    Attributes:
        free: the free end, on the axis, mm.
        side: -1.0 with the head on the left, else 1.0.
        scale: paper over work, along the axis and across it.
        pieces: of the work, the free end at 0, mm.
    """

    free: complex
    side: float
    scale: float
    pieces: tuple[Piece, ...]

    def at(self, along: float) -> complex:
        """A place on the axis, so far from the free end, mm."""
        return self.free + self.side * self.scale * along

    @property
    def rims(self) -> complex:
        """The middle of all rims, on the axis."""
        ends = [end for one in self.pieces if one.name == "rim" for end in (one.start, one.end)]
        return self.at((min(ends) + max(ends)) / 2)

    @property
    def face(self) -> complex:
        """The face of the chuck, on the axis."""
        return self.at(self.pieces[-1].start)


def plan_view(job: Job, room: Box) -> Block:
    """Head, chuck, what stands in it, cutter, turn and feed, seen from above.

    The work is to one scale; head and cutter are signs.

    Args:
        job: for the blank at hand and all that is held.
        room: mm on the page.
    """
    placed = _placed(job, room)
    side, free = placed.side, placed.free
    head_x = placed.face.real + side * (CHUCK + HEAD / 2)
    above = ARBOR + 2.0 if job.plan.frame.cutter_side == "above" else 0.0
    beyond = side * min(side * free.real - 2.0, side * placed.rims.real - above)
    texts = (
        Text(complex(head_x, room.y1 - 3.0), "COLUMN", LETTERS.size, "middle"),
        Text(complex(head_x, room.y0 + 0.8), "OPERATOR", LETTERS.size, "middle"),
        Text(complex(head_x, free.imag - 9.5), "head", LETTERS.size, "middle"),
        Text(complex(beyond, free.imag + 2.0), "free end", LETTERS.size, _away(side)),
    )
    blocks = [
        _work(placed, head_x),
        _cutter(job, placed.rims),
        _feed(job, side, placed.rims, beyond),
    ]
    return together([*blocks, Block(texts, tuple(text_box(text) for text in texts))])


def _placed(job: Job, room: Box) -> _Placed:
    """The work as large as the room for it allows, its free end right of or left of the middle."""
    found = pieces(job.part, job.made, job.plan.frame, job.setting.bar)
    side = -1.0 if job.plan.frame.head == "left" else 1.0
    scale = min(HIGHEST / job.made.radius, LONGEST / found[-1].start)
    free = complex(room.centre.real - side * 9.0, (room.y0 + room.y1) / 2)
    return _Placed(free, side, scale, found)


def _work(placed: _Placed, head_x: float) -> Block:
    """The head, and everything in its chuck, rims and hubs over what holds them."""
    middle = placed.free.imag
    marks: list[Mark] = []
    for one in placed.pieces:
        start, end, half = placed.at(one.start), placed.at(one.end), UNKNOWN
        if one.name == "chuck":
            end = start + placed.side * CHUCK
        if one.radius is not None:
            half = placed.scale * one.radius
        if one.name in LIMITS:
            half = min(half, LIMITS[one.name])
        left, right = sorted((start.real, end.real))
        if min(right - left, half) < THINNEST:
            continue
        box = Box(left, middle - half, right, middle + half)
        width = NARROW if one.name in ("bar", "neck") else WIDE
        marks += [Fill((_corners(box),), 1.0), outline_of(box, width)]
    head = Box(head_x - HEAD / 2, middle - 6.0, head_x + HEAD / 2, middle + 6.0)
    start, end = complex(head_x, middle), placed.free - placed.side * 4
    return Block((*marks, outline_of(head, WIDE), line(start, end, dash=CHAINED)))


def _corners(box: Box) -> Contour:
    """The outline of a box."""
    low, high = complex(box.x0, box.y0), complex(box.x1, box.y1)
    return contour([low, complex(box.x1, box.y0), high, complex(box.x0, box.y1)])


def _cutter(job: Job, at: complex) -> Block:
    """The cutter's swept circle at its side, or its arbor across the work, with the turn of the
    spindle."""
    frame = job.plan.frame
    clockwise = frame.spindle == "clockwise"
    sweep = -1.6 if clockwise else 1.6
    if frame.cutter_side == "above":
        body = Box(at.real - ARBOR, at.imag - 1.8, at.real + ARBOR, at.imag + 1.8)
        shaft = (
            line(complex(at.real, at.imag + 1.8), complex(at.real, at.imag + 12.0), dash=CHAINED),
        )
        note = Text(
            complex(at.real, at.imag - 14.0),
            f"cutter above, {frame.spindle}",
            LETTERS.size,
            "middle",
        )
        return Block((outline_of(body, NARROW), *shaft, note), (text_box(note),))
    up = 1.0 if frame.cutter_side == "behind" else -1.0
    centre = at + 1j * up * 12.0
    turn = turn_arrow(centre, 7.0, math.pi / 2 * up - sweep / 2, sweep, length=3.0)
    cross = (line(centre - 1.5, centre + 1.5), line(centre - 1.5j, centre + 1.5j))
    name = Text(centre + 11.0, "cutter", LETTERS.size, "left", "middle")
    return Block((stroke(circle(centre, 5.0), width=WIDE), *cross, name), (text_box(name),)) + turn


def _feed(job: Job, side: float, at: complex, beyond: float) -> Block:
    """The way the table carries the work in a conventional cut.

    The cutter enters at the named end, so the work travels towards that end's own direction.
    """
    frame = job.plan.frame
    way = -side if frame.enters_at == "free end" else side
    up = -1.0 if frame.cutter_side == "behind" else 1.0
    y = at.imag + up * 11.5
    if frame.cutter_side == "above":
        y = at.imag + 11.0
    start, end = complex(at.real - way * 7.0, y), complex(at.real + way * 7.0, y)
    clear = min(beyond, at.real - 9.5) if side > 0 else max(beyond, at.real + 9.5)
    text = Text(complex(clear, y), "feed of the work", LETTERS.size, _away(side), "middle")
    moved_arrow = arrow(start, end, length=3.5)
    return Block((*moved_arrow.marks, text), (text_box(text),))


def _away(side: float) -> Anchor:
    """How a text is anchored that runs away from the head."""
    return "left" if side < 0 else "right"
