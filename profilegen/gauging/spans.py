"""Sizes over crests and corners: chords, spans, polygons, the levelled face.

Owns plane trigonometry that stands in any handbook; mm and radians.
"""

from __future__ import annotations

import math


def chord(diameter: float, divisions: int) -> float:
    """Straight distance between neighbouring points of equal divisions of a circle, mm.

    Args:
        diameter: of the circle, mm.
        divisions: how many points, 2 or more.
    """
    return diameter * math.sin(math.pi / divisions)


def crest_span(radius: float, teeth: int, land: float, spanned: int) -> float:
    """Over the outer corners of the crests of neighbouring teeth, mm.

    Args:
        radius: of the blank, mm.
        teeth: of the whole wheel.
        land: chord across one crest, mm.
        spanned: teeth between the jaws; one gives the land itself.
    """
    turn = (spanned - 1) * math.tau / teeth + 2 * math.asin(land / (2 * radius))
    return 2 * radius * math.sin(turn / 2)


def usual_span(teeth: int) -> int:
    """How many teeth a caliper is laid over: about a fifth of all, two at least."""
    return max(2, round(teeth / 5))


def greatest_span(radius: float, teeth: int, land: float) -> int:
    """The most teeth that lie within half a turn, corner to corner.

    Args:
        radius: of the blank, mm.
        teeth: of the whole wheel.
        land: chord across one crest, mm.
    """
    spare = math.pi - 2 * math.asin(land / (2 * radius))
    return 1 + math.floor(spare / (math.tau / teeth) + 1e-9)


def levelled_face(radius: float, hook: float) -> float:
    """Height of a face over the wheel axis once it is horizontal and looks up, mm.

    Minus is below the axis, towards the face's own tooth: so it is for a positive hook angle.

    Args:
        radius: of the blank, where the face's tip is, mm.
        hook: angle of the face against the radius through its tip, rad, positive when the tip
            overhangs the root.
    """
    return -radius * math.sin(hook) + 0.0


def across_corners(sides: int, across_flats: float, corner_radius: float = 0.0) -> float:
    """Across opposite corners of a polygon, mm: `AF / cos(h) - 2 r (1 / cos(h) - 1)`, h half the
    angle of a side.

    Args:
        sides: an even count.
        across_flats: AF, mm.
        corner_radius: r, mm; 0 for sharp corners.
    """
    stretch = 1 / math.cos(math.pi / sides)
    return across_flats * stretch - 2 * corner_radius * (stretch - 1)


def keyway_rise(diameter: float, key_width: float) -> float:
    """Height of the bore's arc over the keyway's width (sagitta), mm.

    Args:
        diameter: of the bore, mm.
        key_width: mm, not more than the diameter.
    """
    return diameter / 2 - math.sqrt(diameter**2 - key_width**2) / 2


def keyway_to_far_side(diameter: float, key_depth: float) -> float:
    """From the keyway's floor to the far side of the bore, mm: `d + t2` of keyway tables.

    Args:
        diameter: d, of the bore, mm.
        key_depth: t2, from the bore's wall at the middle of the keyway, mm.
    """
    return diameter + key_depth


def keyway_wall(diameter: float, key_width: float, key_depth: float) -> float:
    """From the keyway's floor to where its side meets the bore, mm.

    Args:
        diameter: of the bore, mm.
        key_width: mm.
        key_depth: from the bore's wall at the middle of the keyway, mm; so the side is longer
            than that by `keyway_rise`.
    """
    return key_depth + keyway_rise(diameter, key_width)
