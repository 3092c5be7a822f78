"""Lengths along the wheel axis: run-in and run-out of the cut, neck, stick-out, reach.

Owns what follows from the sweep of the cutter, the depth and the widths along the bar. X is along
the table. Formulas: half chords of the circle the tip runs on, derived here; the clearances are
common practice, no published source.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from profilegen.cutting.frame import Frame
from profilegen.cutting.poses import Cut
from profilegen.forms.wheel import Wheel
from profilegen.geometry.tolerance import SAME_POINT

if TYPE_CHECKING:
    from profilegen.part.base import CutterTable
    from profilegen.part.part import Part

CLEAR = 1.0
"""mm between a turning cutter and what it must not touch."""

NECK_BELOW = 0.5
"""mm that the neck behind the wheel is turned below the roots, on the radius."""


Grip = Literal["bar", "hub"]


@dataclass(frozen=True, slots=True)
class Bar:
    """Lengths along the wheel axis, mm. `None` where they need a sweep that is not given.

    Attributes:
        sweep: diameter of the circle that the tip runs on, or None.
        approach: from where the turning cutter at full depth first touches the end face to where
            its axis is level with it.
        overrun: of the cutter's axis past the far face, so that the whole width is formed.
        feed: whole way of the cutter's axis: from clear before the work to `overrun` past it.
        cut_length: over all toothed rims on the bar, from the end face to the far face.
        gripped_by: the bar or arbor behind the wheels, or the hub of a single wheel.
        neck_diameter: greatest, of the neck behind the wheel.
        neck_length: least, so that the cutter clears the bar.
        behind: least, of neck, hub and parting between the last rim and the jaws, so that the
            whole tool clears the jaws.
        stick_out: from the jaws to the free end; None too for a hub that is not long enough to be
            gripped behind all that the tool runs over.
        cutter_to_jaws: from the tool to the jaws, at their height, when it stands nearest to them;
            None where `stick_out` is.
        reach: from the tip to whatever holds the cutter, least.
        feed_direction: the way the cutter goes along the work in a conventional cut.
    """

    sweep: float | None
    approach: float | None
    overrun: float | None
    feed: float | None
    cut_length: float
    gripped_by: Grip
    neck_diameter: float
    neck_length: float | None
    behind: float | None
    stick_out: float | None
    cutter_to_jaws: float | None
    reach: float
    feed_direction: str


def bar_for(
    part: Part, wheel: Wheel, frame: Frame, cuts: tuple[Cut, ...], cutter: CutterTable | None
) -> Bar:
    """The lengths for the deepest of the cuts.

    Args:
        part: for bar, hub, count, jaws and chuck.
        wheel: on the blank at hand.
        frame: for the end at which the cutter enters and where the hub stands.
        cuts: at least one, all of this cutter.
        cutter: without it, or without its sweep diameter, most lengths are None.

    Returns:
        mm along the wheel axis.
    """
    tip, root = min(cut.tip.imag for cut in cuts), min(cut.root_radius for cut in cuts)
    over = passed_over(part, wheel)
    cut_length = (part.blank.count - 1) * part.pitch_on_bar + part.wheel.thickness
    shared = (cut_length, grip_of(part, frame), max(2 * (root - NECK_BELOW), root))
    reach, along = over - tip + CLEAR, feed_words(frame)
    sweep = cutter.sweep_diameter if cutter else None
    if cutter is None or sweep is None:
        return Bar(None, None, None, None, *shared, None, None, None, None, reach, along)
    from profilegen.cutting.engagement import end_chord

    approach = max(end_chord(cut, sweep) for cut in cuts)
    past = CLEAR if frame.enters_at == "free end" else approach + CLEAR
    neck_length = past + half_chord(sweep / 2, over - tip)
    at_jaws = past + jaw_reach(part, cuts, cutter)
    free, parting = _beside_the_rims(part, frame)
    behind = at_jaws + CLEAR
    if shared[1] == "bar":
        behind = max(behind, neck_length, parting)
    holds = shared[1] == "bar" or (part.hub is not None and part.hub.length > behind + SAME_POINT)
    return Bar(
        sweep,
        approach,
        CLEAR,
        approach + CLEAR + cut_length + CLEAR,
        *shared,
        neck_length,
        behind,
        free + cut_length + behind if holds else None,
        behind - at_jaws if holds else None,
        reach,
        along,
    )


def grip_of(part: Part, frame: Frame) -> Grip:
    """What the jaws hold: the hub of a single wheel where it points to the head and no bar or
    arbor is given, else the bar."""
    alone = part.blank.count == 1 and part.blank.bar_diameter is None
    return "hub" if alone and hub_end(part, frame) == "head" else "bar"


def hub_end(part: Part, frame: Frame) -> Literal["free end", "head"] | None:
    """Where the hub points on the machine; None without one."""
    if part.hub is None:
        return None
    return "free end" if (part.hub.side == "front") == (frame.front == "free end") else "head"


def passed_over(part: Part, wheel: Wheel) -> float:
    """Greatest radius that the holder passes over on its way along the work, mm."""
    hub = part.hub.diameter if part.hub else 0.0
    return max(wheel.radius, (part.blank.bar_diameter or 0.0) / 2, hub / 2)


def jaw_reach(part: Part, cuts: tuple[Cut, ...], cutter: CutterTable) -> float:
    """How far from its own axis the turning tool, at full depth, reaches over jaws and chuck along
    the wheel's axis, mm from the face of the jaws.

    Args:
        part: for jaws and chuck; where the jaws are not given half the sweep is told, to be safe.
        cuts: on the blank at hand, at least one.
        cutter: for sweep and holder; a sweep that is not given counts as 0.
    """
    sweep, setup = cutter.sweep_diameter or 0.0, part.setup
    if setup.jaw_diameter is None:
        return sweep / 2
    over = tool_reach(cuts, cutter, setup.jaw_diameter / 2)
    if setup.chuck_diameter is None:
        return over
    return max(over, tool_reach(cuts, cutter, setup.chuck_diameter / 2) - setup.jaw_length)


def tool_reach(cuts: tuple[Cut, ...], cutter: CutterTable, radius: float) -> float:
    """How far from its axis the turning cutter or its holder, at full depth, reaches along the
    wheel's axis, mm.

    The cutter by its edge; the holder as if it lay across the whole work.

    Args:
        cuts: at least one.
        cutter: for sweep and holder.
        radius: how large in radius the thing is that it must pass, from the wheel axis, mm.
    """
    sweep, holder = cutter.sweep_diameter or 0.0, (cutter.holder_diameter or 0.0) / 2
    from profilegen.cutting.engagement import end_chord

    tip = min(cut.tip.imag for cut in cuts)
    held = half_chord(holder, radius - (tip + sweep / 2 - holder))
    return max(held, *(end_chord(cut, sweep, radius) for cut in cuts))


def _beside_the_rims(part: Part, frame: Frame) -> tuple[float, float]:
    """What stands before the first rim at the free end, and behind the last one, mm: the hub, and
    what parting off and lapping take."""
    hub, at = part.hub.length if part.hub else 0.0, hub_end(part, frame)
    off = part.blank.lapping_allowance + part.blank.parting_width
    return (hub, off) if at == "free end" else (0.0, hub + off)


def half_chord(radius: float, above: float) -> float:
    """Half the chord of a circle, mm: `sqrt(b (2 r - b))`.

    Args:
        radius: of the circle, r, mm.
        above: height of the chord over the circle's lowest point, b, mm; from r up the radius
            itself is told, and 0 for what is not reached.
    """
    if above >= radius:
        return radius
    return math.sqrt(max(above, 0.0) * (2 * radius - above))


def feed_words(frame: Frame) -> str:
    """The way the cutter goes along the work in a conventional cut, seen by the operator."""
    to_head = frame.enters_at == "free end"
    way = frame.head if to_head else ("right" if frame.head == "left" else "left")
    return f"{way}, {'towards' if to_head else 'away from'} the head"
