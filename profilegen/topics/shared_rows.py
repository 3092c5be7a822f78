"""Rows that text, sheet and JSON share: sizes of the wheel, hub and holes, and which way round
work, head and cutter stand."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from profilegen.figures import Figure, Style, mm, text
from profilegen.forms.wheel import Size
from profilegen.job import Job
from profilegen.topics.topic import Line, Row

if TYPE_CHECKING:
    from profilegen.part.part import Part

WAY_ROUND = "Which way round"
"""The heading."""


def row_of(size: Size) -> Row:
    """A size of the wheel; the outside diameter in both units, so that a slip of 25.4 shows."""
    style: Style = "both" if size.key == "outside_diameter" else "plain"
    return Row(size.label, Figure(size.value, size.quantity, style), size.key, size.source)


def hub_rows(part: Part) -> Iterator[Row]:
    """The hub, mm, where the part has one."""
    if part.hub is not None:
        yield Row("Hub diameter", mm(part.hub.diameter), source="given")
        yield Row(f"Hub length, on the {part.hub.side}", mm(part.hub.length), source="given")


def hole_rows(part: Part) -> Iterator[Row]:
    """Each ring of holes: their diameter, and that of the circle of their middles, mm."""
    for ring in part.holes:
        sizes = (ring.diameter, ring.circle_diameter)
        yield Row(f"{ring.count} holes", Figure(sizes, "length", words="Ø {} on Ø {}"), "", "given")


def way_round(job: Job) -> Iterator[Row]:
    """A row for each key of JSON's `setup`; without a value where the wheel has no hand, or the
    cutter no steep flank."""
    frame, flat = job.plan.frame, job.plan.flat
    hand = None if job.wheel.hand is None else frame.hand_at_free_end
    pushed = "out of the chuck" if frame.pushes == "pulls out" else "{}"
    beside = " the work" if frame.cutter_side == "behind" else ""
    seen = "by the operator" if frame.cutter_side == "above" else "from above"
    yield Row("Seen from the free end", text(hand, "a {} wheel"), "hand_at_free_end")
    yield Row("Front of the wheel", text(frame.front, "at the {}"), "front")
    yield Row("Head, cutter", text(frame.head, f"on the {{}}, {frame.cutter_side}{beside}"), "head")
    yield Row("", text(frame.cutter_side), "cutter_side")
    yield Row(
        "The cutter's steep flank looks", text(flat, frame.looks(flat) if flat else ""), "flat"
    )
    yield Row(f"Spindle, seen {seen}", text(frame.spindle), "spindle")
    yield Row("A conventional cut enters", text(frame.enters_at, "at the {}"), "enters_at")
    yield Row("It pushes the work", text(frame.pushes, pushed), "pushes")


def way_round_lines(job: Job) -> Iterator[Line]:
    """The same, and whether the wheel serves turned over."""
    yield from way_round(job)
    if job.part.hub is None and job.wheel.hand is not None:
        yield "Both faces are alike: turned over, it serves as the other hand."
