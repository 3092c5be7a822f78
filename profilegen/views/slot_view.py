"""The picture of a bore's first corner on the cutter line: from above, the head tilted up.

It is the set-up view with the work turned on from stop 1, so that sense and place can be compared
with the machine before anything is slotted.
"""

from __future__ import annotations

import cmath
import math

from profilegen.dividing.bore_stops import BoreStops
from profilegen.drawing.boxes import Box
from profilegen.drawing.lettering import text_box
from profilegen.drawing.marks import (
    CHAINED,
    NARROW,
    WIDE,
    Block,
    Fill,
    Mark,
    Text,
    line,
    stroke,
)
from profilegen.drawing.symbols import centre_cross, turn_arrow
from profilegen.drawing.view import View
from profilegen.figures import Figures
from profilegen.geometry.chain import Contour, contour
from profilegen.geometry.moves import moved, rotation
from profilegen.job import Job
from profilegen.views.lettering_sizes import CUTTER_GREY, LETTERS

CORNERS = 4
"""Of the bore that a tool with a corner of 90 deg makes."""

BEYOND = 1.22
"""of the blank's radius, to the end of the cutter line."""

ARROW_AT = 1.12
"""of the blank's radius, to the arrow of the turn."""

SHORTEST = 6.0
"""mm on paper. A shorter turn gets no arrow."""


def slot_view(job: Job, found: BoreStops, figures: Figures, room: Box) -> Block:
    """The work at the first place of the bore, as it is slotted.

    Args:
        job: for the wheel on the blank at hand and how it stands.
        found: every place of the bore, turns of the work from stop 1 of lap 1.
        figures: how sizes are written.
        room: mm on the page.
    """
    inner = Box(room.x0 + 8.0, room.y0 + 9.0, room.x1 - 5.0, room.y1 - 4.5)
    radius, frame = job.made.radius, job.plan.frame
    view = View(min(inner.width, inner.height) / (2 * BEYOND * radius), inner.centre)
    towards = frame.view_from_setup.direction(1j)
    turn = math.tau * float(found.stops[0].wanted)
    turn = turn if job.index.turn == "counter-clockwise" else -turn
    marks: list[Mark] = [
        view.stroke(*_work(job, turn), width=WIDE, name="part"),
        line(view.point(0), view.point(BEYOND * radius * towards), dash=CHAINED),
        centre_cross(view.point(0), view.scale * radius + 2.0),
    ]
    if len(found.stops) == CORNERS:
        marks[:0] = _tool(view, found.reach * towards)
    block = Block(tuple(marks)) + _words(job, found, figures, room)
    size = ARROW_AT * radius * view.scale
    if abs(turn) * size < SHORTEST:
        return block
    return block + turn_arrow(view.point(0), size, cmath.phase(towards) - turn, turn, length=3.0)


def _work(job: Job, turn: float) -> tuple[Contour, ...]:
    """The finished wheel turned on from stop 1 of lap 1 (rad, as seen), in the view."""
    wheel, cut = job.made, job.plan.cuts[0]
    at_stop_1 = job.plan.frame.view_from_setup.after(cut.wheel_from_setup(wheel).inverse())
    placed = rotation(turn).after(at_stop_1)
    return tuple(moved(each, placed) for each in wheel.contours)


def _tool(view: View, corner: complex) -> tuple[Mark, ...]:
    """The corner tool in the finished corner, from its 90 deg corner half way to the axis."""
    back = corner / 2
    half = 1j * (corner - back)
    shape = view.curve(contour([corner, back + half, back - half]))
    return Fill((shape,), CUTTER_GREY, "corner tool"), stroke(shape, width=NARROW)


def _words(job: Job, found: BoreStops, figures: Figures, room: Box) -> Block:
    """The machine's sides at the edges, and what is shown."""
    frame, middle = job.plan.frame, room.centre
    left, right = ("COLUMN", "OPERATOR") if frame.column_at == "left" else ("OPERATOR", "COLUMN")
    angle = figures.angle(math.tau * float(found.stops[0].wanted))
    what = found.place if len(found.stops) == 1 else f"{found.place} 1"
    said = f"{what} on the cutter line, {angle} {job.index.turn} from stop 1"
    size = LETTERS.size
    texts = (
        Text(complex(room.x0 + 3.0, middle.imag), left, size, "middle", "middle", math.pi / 2),
        Text(complex(room.x1 - 1.0, middle.imag), right, size, "middle", "baseline", math.pi / 2),
        Text(complex(middle.real, room.y1 - 2.0), frame.head.upper(), size, "middle"),
        Text(complex(middle.real, room.y0 + 3.8), "from above, the free end up", size, "middle"),
        Text(complex(middle.real, room.y0 + 0.6), said, size, "middle"),
    )
    return Block(texts, tuple(text_box(text) for text in texts))
