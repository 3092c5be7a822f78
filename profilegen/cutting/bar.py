"""Lengths along the wheel axis: run-in and run-out of the cut, neck, stick-out, reach.

Owns what follows from the sweep of the cutter, the depth and the widths along the bar. X is along
the table. Formulas: half chords of the circle the tip runs on, derived here; the clearances are
common practice, no published source.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from profilegen.cutting.engagement import end_chord
from profilegen.cutting.frame import Frame
from profilegen.cutting.poses import Cut
from profilegen.wheels.wheel import Wheel

if TYPE_CHECKING:
    from profilegen.part.part import Part

CLEAR = 1.0
"""mm between a turning cutter and what it must not touch."""

NECK_BELOW = 0.5
"""mm that the neck behind the wheel is turned below the roots, on the radius."""


@dataclass(frozen=True, slots=True)
class Bar:
    """Lengths along the wheel axis, mm. `None` where they need a sweep that is not given.

    Attributes:
        sweep: diameter of the circle that the tip runs on, or None.
        approach: from where the turning cutter at full depth first touches the end face to where
            its axis is level with it.
        overrun: of the cutter's axis past the far face, so that the whole width is formed.
        feed: whole way of the cutter's axis: from clear before the work to `overrun` past it.
        cut_length: over all wheels on the bar, from end face to far face.
        neck_diameter: greatest, of the neck behind the wheel.
        neck_length: least, so that the cutter runs out over it and clears the bar.
        stick_out: from the jaws to the free end: wheels, neck and overrun.
        cutter_to_jaws: from the cutter to the jaws when it stands at the end of its overrun.
        reach: from the tip to whatever holds the cutter, least.
        feed_direction: the way the cutter goes along the work in a conventional cut.
    """

    sweep: float | None
    approach: float | None
    overrun: float | None
    feed: float | None
    cut_length: float
    neck_diameter: float
    neck_length: float | None
    stick_out: float | None
    cutter_to_jaws: float | None
    reach: float
    feed_direction: str


def bar_for(
    part: Part, wheel: Wheel, frame: Frame, cuts: tuple[Cut, ...], sweep: float | None
) -> Bar:
    """The lengths for the deepest of the cuts (at least one) and a tip circle of `sweep` mm."""
    tip, root = min(cut.tip.imag for cut in cuts), min(cut.root_radius for cut in cuts)
    behind = max(wheel.radius, (part.blank.bar_diameter or 0.0) / 2)
    length = part.blank.count * part.pitch_on_bar
    cut_length = length - part.blank.lapping_allowance - part.blank.parting_width
    neck = max(2 * (root - NECK_BELOW), root)
    shared = (cut_length, neck)
    reach, along = behind - tip + CLEAR, feed_words(frame)
    if sweep is None:
        return Bar(None, None, None, None, *shared, None, None, None, reach, along)
    approach = max(end_chord(cut, sweep) for cut in cuts)
    run_out = half_chord(sweep / 2, behind - tip) + CLEAR
    neck_length = max(run_out, sweep / 2 + CLEAR)
    stick_out = length + neck_length + CLEAR
    return Bar(
        sweep,
        approach,
        CLEAR,
        approach + CLEAR + cut_length + CLEAR,
        *shared,
        run_out,
        stick_out,
        stick_out - length - CLEAR - sweep / 2,
        reach,
        along,
    )


def half_chord(radius: float, above: float) -> float:
    """Half the chord of a circle `above` mm over its lowest point, mm; its radius from there up.

    `sqrt(b (2 r - b))`.
    """
    if above >= radius:
        return radius
    return math.sqrt(max(above, 0.0) * (2 * radius - above))


def feed_words(frame: Frame) -> str:
    """The way the cutter goes along the work in a conventional cut, seen by the operator."""
    to_head = frame.enters_at == "free end"
    way = frame.head if to_head else ("right" if frame.head == "left" else "left")
    return f"{way}, {'towards' if to_head else 'away from'} the head"
