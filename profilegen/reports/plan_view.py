"""The small plan view: the machine from above, not to scale.

Owns the picture of head, wheel, cutter side, spindle turn and feed of a conventional cut.
"""

from __future__ import annotations

import math

from profilegen.drawing.boxes import Box
from profilegen.drawing.lettering import text_box
from profilegen.drawing.marks import (
    CHAINED,
    NARROW,
    WIDE,
    Anchor,
    Block,
    Text,
    line,
    outline_of,
    stroke,
    together,
)
from profilegen.drawing.symbols import arrow, turn_arrow
from profilegen.geometry.chain import circle
from profilegen.job import Job
from profilegen.reports.manner import LETTERS


def plan_view(job: Job, room: Box) -> Block:
    """Head, arbor, wheel, cutter, turn and feed inside `room` (mm)."""
    frame = job.plan.frame
    side = -1.0 if frame.head == "left" else 1.0
    middle = complex(room.centre.real, (room.y0 + room.y1) / 2)
    head_x = middle.real + side * (room.width / 2 - 14.0)
    wheel_x = middle.real - side * 4.0
    blocks = [
        _work(middle, head_x, wheel_x, side),
        _cutter(job, complex(wheel_x, middle.imag), side),
    ]
    blocks.append(_feed(job, room, side, complex(wheel_x, middle.imag)))
    texts = (
        Text(complex(head_x, room.y1 - 3.0), "COLUMN", LETTERS.size, "middle"),
        Text(complex(head_x, room.y0 + 0.8), "OPERATOR", LETTERS.size, "middle"),
        Text(complex(head_x, middle.imag - 9.5), "head", LETTERS.size, "middle"),
        Text(
            complex(wheel_x - side * 8.0, middle.imag + 2.0), "free end", LETTERS.size, _away(side)
        ),
    )
    blocks.append(Block(texts, tuple(text_box(text) for text in texts)))
    return together(blocks)


def _work(middle: complex, head_x: float, wheel_x: float, side: float) -> Block:
    """Head with its chuck, the arbor, and the wheel edge on."""
    head = Box(head_x - 7.0, middle.imag - 6.0, head_x + 7.0, middle.imag + 6.0)
    face = head_x - side * 7.0
    chuck = Box(
        min(face, face - side * 4), middle.imag - 4.0, max(face, face - side * 4), middle.imag + 4.0
    )
    start = face - side * 4
    end = wheel_x - side * 5.0
    arbor = Box(min(start, end), middle.imag - 1.2, max(start, end), middle.imag + 1.2)
    wheel = Box(wheel_x - 1.6, middle.imag - 7.0, wheel_x + 1.6, middle.imag + 7.0)
    axis = line(complex(head_x, middle.imag), complex(end - side * 4, middle.imag), dash=CHAINED)
    return Block(
        (
            outline_of(arbor, NARROW),
            outline_of(head, WIDE),
            outline_of(chuck, WIDE),
            outline_of(wheel, WIDE),
            axis,
        )
    )


def _cutter(job: Job, at: complex, side: float) -> Block:
    """The cutter's swept circle at its side, or its arbor across the work, with the turn of the
    spindle."""
    frame = job.plan.frame
    clockwise = frame.spindle == "clockwise"
    sweep = -1.6 if clockwise else 1.6
    if frame.cutter_side == "above":
        body = Box(at.real - 5.0, at.imag - 1.8, at.real + 5.0, at.imag + 1.8)
        shaft = (
            line(complex(at.real, at.imag + 1.8), complex(at.real, at.imag + 12.0), dash=CHAINED),
        )
        note = Text(
            complex(at.real - side * 8.0, at.imag - 7.0),
            f"cutter above, {frame.spindle}",
            LETTERS.size,
            _away(side),
        )
        return Block((outline_of(body, NARROW), *shaft, note), (text_box(note),))
    up = 1.0 if frame.cutter_side == "behind" else -1.0
    centre = at + 1j * up * 12.0
    turn = turn_arrow(centre, 7.0, math.pi / 2 * up - sweep / 2, sweep, length=3.0)
    cross = (line(centre - 1.5, centre + 1.5), line(centre - 1.5j, centre + 1.5j))
    name = Text(centre + 11.0, "cutter", LETTERS.size, "left", "middle")
    return Block((stroke(circle(centre, 5.0), width=WIDE), *cross, name), (text_box(name),)) + turn


def _feed(job: Job, room: Box, side: float, at: complex) -> Block:
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
    text = Text(
        complex(at.real - side * 9.5, y), "feed of the work", LETTERS.size, _away(side), "middle"
    )
    moved_arrow = arrow(start, end, length=3.5)
    return Block((*moved_arrow.marks, text), (text_box(text),))


def _away(side: float) -> Anchor:
    """How a text is anchored that runs away from the head."""
    return "left" if side < 0 else "right"
