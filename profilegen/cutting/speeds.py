"""Speed and feed to start with, from the words of the material and the sweep of the cutter.

Owns the table of surface speeds and what holds them back. Starting values only: the cutter's and
the machine's own limits come first.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final

FORM_SHARE = 0.4
"""of the plain surface speed for a form that cuts on both flanks (a milling text: 60 % less)."""

SINGLE_POINT_CAP = 500
"""Turns a minute: a tool made to stand still is run no faster until its limit is stated. Common
practice, no published source."""

FEED_SINGLE, FEED_TOOTHED = 0.02, 0.025
"""mm a tooth: single point 0.01 to 0.05 (common practice); 0.025 for an angle cutter (a shop
book)."""

SURFACE: Final[tuple[tuple[tuple[str, ...], float, str], ...]] = (
    (("stainless",), 9.0, "stainless steel"),
    (("silver steel", "tool steel", "gauge plate", "drill rod", "o1", "o2"), 14.0, "tool steel"),
    (("carbon steel",), 18.0, "carbon steel"),
    (("cast iron", "iron"), 18.0, "iron"),
    (("steel",), 25.0, "mild steel"),
    (("bronze", "gunmetal"), 45.0, "bronze"),
    (("brass",), 60.0, "brass"),
    (("aluminium", "aluminum", "alloy"), 60.0, "aluminium"),
)
"""Words of the material -> m/min for a high-speed steel cutter, the low end: shop charts for
stainless, tool steel, mild steel, bronze and brass; the others are remembered, no source."""

UNKNOWN: Final = (9.0, "a metal not named: the slowest of the table")


@dataclass(frozen=True, slots=True)
class Speed:
    """Starting values.

    Attributes:
        metal: the metal they are taken for, in words.
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
    material: str, sweep: float | None, teeth: int | None, limit: int | None = None
) -> Speed:
    """Speed and feed to start with: `1000 v / (pi d)` turns a minute.

    Args:
        material: of the wheel, in words; may be empty.
        sweep: diameter of the circle that the tip runs on, mm, or None.
        teeth: cutting edges; a cutter that does not say counts as single-point, to be safe.
        limit: turns a minute that cutter, holder and machine allow, or None when not stated.
    """
    surface, metal = surface_speed(material)
    edges = teeth or 1
    feed_per_tooth = FEED_SINGLE if edges == 1 else FEED_TOOTHED
    if sweep is None:
        return Speed(metal, surface, None, None, feed_per_tooth, None, edges)
    wanted = 1000 * surface / (math.pi * sweep)
    cap = limit or (SINGLE_POINT_CAP if edges == 1 else math.inf)
    turns = min(wanted, float(cap))
    capped = wanted if turns < wanted else None
    return Speed(
        metal, surface, turns, capped, feed_per_tooth, turns * edges * feed_per_tooth, edges
    )


def surface_speed(material: str) -> tuple[float, str]:
    """Surface speed for forming teeth, m/min, and the metal it is taken for."""
    text = material.lower().replace("-", " ")
    for words, speed, metal in SURFACE:
        if any(word in text for word in words):
            return FORM_SHARE * speed, metal
    return FORM_SHARE * UNKNOWN[0], UNKNOWN[1]
