"""Speed and feed to start with, from the words of the material and the sweep of the cutter.

Owns the share for forming and what holds a speed back; the metals are in `metals`. Starting values
only: the cutter's and the machine's own limits come first. What is not known is not guessed.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from profilegen.setting.metals import is_hardened, metal_of

FORM_SHARE = 0.4
"""of the plain surface speed for a form that cuts on both flanks (a milling text: 60 % less)."""

SINGLE_POINT_CAP = 500
"""Turns a minute: a tool made to stand still is run no faster until its limit is stated. Common
practice, no published source."""

FEED_SINGLE, FEED_TOOTHED = 0.02, 0.025
"""mm a tooth: single point 0.01 to 0.05 (common practice); 0.025 for an angle cutter (a shop
book)."""


@dataclass(frozen=True, slots=True)
class Speed:
    """Starting values.

    Attributes:
        metal: the metal they are taken for, in words; empty when the part gives the surface speed.
        surface: m/min at the tip.
        turns: a minute of the spindle; None when the sweep is not known.
        capped_from: the turns a minute that the table alone would give, when a limit holds them
            back; else None.
        feed_per_tooth: mm.
        feed: mm a minute; None when the sweep is not known.
        teeth: cutting edges counted on.
    """

    metal: str
    surface: float
    turns: float | None
    capped_from: float | None
    feed_per_tooth: float
    feed: float | None
    teeth: int


def speed_for(
    material: str,
    sweep: float | None,
    teeth: int | None,
    limit: int | None = None,
    surface: float | None = None,
) -> Speed | None:
    """Speed and feed to start with: `1000 v / (pi d)` turns a minute.

    None for a metal that is not known, or too hard for high-speed steel, and of which the part does
    not say how fast it is cut.

    Args:
        material: of the wheel, in words; may be empty.
        sweep: diameter of the circle that the tip runs on, mm, or None.
        teeth: cutting edges; a cutter that does not say counts as single-point, to be safe.
        limit: turns a minute that cutter, holder and machine allow, or None when not stated.
        surface: m/min at the tip as the part gives it, taken as it is; else by the metal.
    """
    found = _surface(material, surface)
    if found is None:
        return None
    at_tip, metal = found
    edges = teeth or 1
    feed_per_tooth = FEED_SINGLE if edges == 1 else FEED_TOOTHED
    if sweep is None:
        return Speed(metal, at_tip, None, None, feed_per_tooth, None, edges)
    wanted = 1000 * at_tip / (math.pi * sweep)
    cap = limit or (SINGLE_POINT_CAP if edges == 1 else math.inf)
    turns = min(wanted, float(cap))
    capped = wanted if turns < wanted else None
    feed = turns * edges * feed_per_tooth
    return Speed(metal, at_tip, turns, capped, feed_per_tooth, feed, edges)


def _surface(material: str, given: float | None) -> tuple[float, str] | None:
    """Surface speed for forming teeth, m/min, and the metal it is taken for, empty when given."""
    if given is not None:
        return given, ""
    metal = metal_of(material)
    if metal is None or metal.surface is None or is_hardened(material):
        return None
    return FORM_SHARE * metal.surface, metal.name
