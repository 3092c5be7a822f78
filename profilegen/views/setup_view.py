"""The set-up as the machinist sees it: along the wheel axis, from the free end towards the head.

Owns the picture of wheel and cutter at first touch and at depth, with offset and infeed, and the
words at its edges: operator, column, up.
"""

from __future__ import annotations

import math

from profilegen.cutting.poses import SILHOUETTE_TOP, Cut
from profilegen.cutting.touch import infeed_from
from profilegen.drawing.boxes import Box
from profilegen.drawing.dimensions import linear
from profilegen.drawing.lettering import text_box
from profilegen.drawing.marks import (
    CHAINED,
    DASHED,
    NARROW,
    THIN,
    WIDE,
    Block,
    Fill,
    Text,
    line,
    outline_of,
    stroke,
    together,
)
from profilegen.drawing.symbols import arrow, centre_cross
from profilegen.drawing.view import View
from profilegen.figures import Figures
from profilegen.geometry.chain import circle
from profilegen.geometry.moves import Move, moved
from profilegen.job import Job
from profilegen.topics.lap_words import formed
from profilegen.topics.zero_words import from_zero
from profilegen.views.lettering_sizes import CUTTER_GREY, LETTERS

OFFSET_ROOM = 9.0
"""mm on the page beyond the cutter, for the dimension of the offset."""


def setup_view(job: Job, figures: Figures, room: Box, cut: Cut | None) -> Block:
    """The set-up view of one lap's cut, seen from the free end.

    Args:
        job: the wheel on the blank at hand is drawn.
        figures: how sizes are written.
        room: mm on the page.
        cut: of `job.plan`; None draws the wheel alone.
    """
    view = _placed(job, room, cut)
    blocks = [_edges(job, room, cut)]
    if cut is None:
        front = Move() if job.plan.frame.front == "free end" else Move(-1.0 + 0j, flip=True)
        outline = view.stroke(*(moved(curve, front) for curve in job.made.contours), width=WIDE)
        return together((*blocks, Block((outline,))))
    blocks.append(_wheel(job, view, cut))
    blocks.append(_cutter(job, view, cut))
    blocks.append(_dimensions(job, figures, view, cut))
    return together(blocks)


def pictured(box: Box, picture: Block) -> Block:
    """A picture of the sheet with a thin frame round its box (mm)."""
    return Block((outline_of(box.grown(-0.5), THIN),)) + picture


def _placed(job: Job, room: Box, cut: Cut | None) -> View:
    """As large as the room allows, the cutter's side with space for the offset's dimension."""
    radius = job.made.radius
    inner = Box(room.x0 + 8.0, room.y0 + 9.5, room.x1 - 5.0, room.y1)
    if cut is None:
        return View(min(inner.width, inner.height) / (2.1 * radius), inner.centre)
    near, beside = _far_end(job, cut), 1.06 * radius
    towards = job.plan.frame.view_from_setup.direction(1j)
    along, across = (
        (inner.height, inner.width) if abs(towards.imag) > 0.5 else (inner.width, inner.height)
    )
    scale = min((along - OFFSET_ROOM) / (near + 1.06 * radius), (across - 16.0) / (2 * beside))
    middle = (scale * (1.06 * radius - near) - OFFSET_ROOM) / 2
    return View(scale, inner.centre + middle * towards)


def _far_end(job: Job, cut: Cut) -> float:
    """Distance from the axis to the top of the cutter at the offset zero, mm."""
    return SILHOUETTE_TOP * cut.blank_radius + _drawn_back(job, cut)


def _drawn_back(job: Job, cut: Cut) -> float:
    """How far the cutter comes in from the offset zero, through the feeler, mm."""
    return infeed_from(cut, "offset", job.part.setup.feeler or 0.0)


def _wheel(job: Job, view: View, cut: Cut) -> Block:
    """The finished wheel in its first stop, the blank's circle round it, and its axis."""
    view_from_wheel = job.plan.frame.view_from_setup.after(cut.wheel_from_setup(job.made).inverse())
    curves = tuple(view.curve(moved(curve, view_from_wheel)) for curve in job.made.contours)
    radius = view.scale * job.made.radius
    blank = stroke(circle(view.point(0), radius), width=NARROW, dash=DASHED)
    return Block(
        (stroke(*curves, width=WIDE, name="part"), blank, centre_cross(view.point(0), radius + 2.5))
    )


def _cutter(job: Job, view: View, cut: Cut) -> Block:
    """The cutter at depth, filled grey, and where it first touches, dashed."""
    to_view = job.plan.frame.view_from_setup
    deep = view.curve(moved(cut.silhouette(), to_view))
    lifted = Move(shift=1j * _drawn_back(job, cut))
    touch = view.curve(moved(moved(cut.silhouette(), lifted), to_view))
    return Block(
        (
            Fill((deep,), CUTTER_GREY, "cutter at depth"),
            stroke(deep, width=NARROW),
            stroke(touch, width=NARROW, dash=DASHED, name="cutter at first touch"),
        )
    )


def _dimensions(job: Job, figures: Figures, view: View, cut: Cut) -> Block:
    """Offset of the apex from the axis, and infeed from first touch to depth."""
    to_view, radius = job.plan.frame.view_from_setup, job.made.radius

    def at(x: float, y: float) -> complex:
        return view.point(to_view(complex(x, y)))

    blocks = []
    out = 1.0 if cut.offset >= 0 else -1.0
    infeed_told = _drawn_back(job, cut)
    tip, touch = cut.tip, cut.tip + 1j * infeed_told
    beyond = out * (1.03 * radius + 6.0 / view.scale)
    infeed = linear(
        at(tip.real, tip.imag),
        at(touch.real, touch.imag),
        at(beyond, touch.imag),
        f"infeed {figures.size(infeed_told)}",
        manner=LETTERS,
        beside=-1,
    )
    blocks.append(infeed)
    if abs(cut.offset) * view.scale > 0.2:
        blocks.append(
            linear(
                at(0, 0),
                at(cut.offset, cut.apex_height),
                at(0, _far_end(job, cut) + 5.5 / view.scale),
                f"offset {figures.size(abs(cut.offset))}",
                along=to_view.direction(1.0 + 0j),
                manner=LETTERS,
                beside=-1,
            )
        )
        axis = line(
            at(cut.offset, cut.apex_height - 2 / view.scale),
            at(cut.offset, _far_end(job, cut)),
            dash=CHAINED,
        )
        blocks.append(Block((axis,)))
    return together(blocks)


def _edges(job: Job, room: Box, cut: Cut | None) -> Block:
    """Operator and column at the sides, up with its arrow, and what the view is."""
    frame = job.plan.frame
    left, right = ("COLUMN", "OPERATOR") if frame.column_at == "left" else ("OPERATOR", "COLUMN")
    middle = room.centre.imag
    texts = (
        Text(complex(room.x0 + 3.0, middle), left, LETTERS.size, "middle", "middle", math.pi / 2),
        Text(
            complex(room.x1 - 1.0, middle), right, LETTERS.size, "middle", "baseline", math.pi / 2
        ),
        Text(complex(room.centre.real, room.y0 + 3.8), _title(job, cut), LETTERS.size, "middle"),
        Text(
            complex(room.centre.real, room.y0 + 0.6),
            f"infeed {from_zero('offset')} (dashed) to depth (grey)" if cut else "no cut is set up",
            LETTERS.size,
            "middle",
        ),
        Text(complex(room.x0 + 6.5, room.y1 - 9.5), "UP", LETTERS.size, "left", "baseline"),
    )
    up = arrow(complex(room.x0 + 4.5, room.y1 - 11.0), complex(room.x0 + 4.5, room.y1 - 1.0))
    return Block((*up.marks, *texts), tuple(text_box(text) for text in texts))


def _title(job: Job, cut: Cut | None) -> str:
    if cut is None or len(job.plan.cuts) == 1:
        return "from the free end towards the head"
    lap = f"lap {cut.lap}, {formed(job.wheel, cut)}"
    return f"from the free end towards the head; {lap}"
