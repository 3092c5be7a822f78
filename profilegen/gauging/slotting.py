"""A square slotted with the part still on the bar, the spindle of the mill standing still.

Owns travel and strokes of the corner tool, the four stops, and how deep the pilot goes. The tool's
corner of 90 deg works out each corner of the square in turn, from the wall of the pilot outwards;
the next corner is a quarter turn of the head. Formula of the travel: plane geometry, derived here,
no published source. mm and radians; corners counter-clockwise from the face tip of tooth 1, seen
from the front.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from typing import Final

from profilegen.figures import ANGLE
from profilegen.units import Unit

STEP: Final[dict[Unit, float]] = {"mm": 0.05, "in": 0.0508}
"""mm a stroke, 0.05 mm or two thou; 0.02 to 0.075 mm are usual (open pages of the trade)."""

CHIPS = 3.0
"""mm. Room for chips below the stroke, common practice."""


@dataclass(frozen=True, slots=True)
class Slotting:
    """How a square is slotted.

    Attributes:
        corner_radius: of the tool's corner, which it leaves, mm; 0 is sharp.
        travel: from the tool's corner touching the pilot's wall to the finished corner, mm.
        sharp_travel: as much of a sharp tool, for the same flats, mm.
        step: infeed a stroke, mm.
        strokes: in each corner.
        corners: where the four corners lie, rad.
        stroke: least length of the stroke, mm: through all wheels and the last parting groove.
        pilot_depth: least depth of the pilot, full diameter, mm.
    """

    corner_radius: float
    travel: float
    sharp_travel: float
    step: float
    strokes: int
    corners: tuple[float, float, float, float] = field(metadata=ANGLE)
    stroke: float
    pilot_depth: float


def corner_travel(across_flats: float, corner_radius: float, pilot: float) -> float:
    """From the pilot's wall out to the finished corner, mm: `s / sqrt 2 - c (sqrt 2 - 1) - p / 2`.

    A sharp corner needs `c (sqrt 2 - 1)` more for the same flats.

    Args:
        across_flats: s, mm.
        corner_radius: c, of the tool's corner, mm; 0 is sharp.
        pilot: p, its diameter, mm; one that reaches the corners leaves nothing to slot, and 0 is
            told.
    """
    root = math.sqrt(2)
    return max(0.0, across_flats / root - corner_radius * (root - 1) - pilot / 2)


def flats_after(travel: float, pilot: float) -> float:
    """Size across the flats that a sharp tool has made, mm: to measure by on the way.

    Args:
        travel: of the tool past the pilot's wall, mm.
        pilot: diameter, mm.
    """
    return math.sqrt(2) * (travel + pilot / 2)


def strokes_for(travel: float, step: float) -> int:
    """Strokes in one corner; the last one may be smaller.

    Args:
        travel: in all, mm.
        step: infeed a stroke, mm.
    """
    return math.ceil(travel / step - 1e-9)


def slotting_for(
    across_flats: float,
    corner_radius: float,
    pilot: float,
    stroke: float,
    angle: float,
    step: float,
) -> Slotting:
    """The plan for one square.

    Args:
        across_flats: mm.
        corner_radius: that stays in the corners, the tool's own, mm.
        pilot: diameter, mm.
        stroke: least length of the stroke, mm.
        angle: from the face tip of tooth 1 to the middle of a flat, rad.
        step: infeed a stroke, mm.
    """
    travel = corner_travel(across_flats, corner_radius, pilot)
    first, second, third, fourth = (
        (angle + math.pi / 4 + quarter * math.pi / 2) % math.tau for quarter in range(4)
    )
    corners = (first, second, third, fourth)
    sharp, strokes = corner_travel(across_flats, 0.0, pilot), strokes_for(travel, step)
    deep = stroke + CHIPS
    return Slotting(corner_radius, travel, sharp, step, strokes, corners, stroke, deep)
