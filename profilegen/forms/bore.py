"""Bores and other holes, as clockwise contours about the wheel's axis.

Owns the outlines of the round, square, hexagon, keyed and D bores and of a circle of holes. Angles
count counter-clockwise from +x (the face tip of tooth 1), seen from the front. Refuses sizes that
make no closed outline with an `ImpossibleBore` that names the key.
"""

from __future__ import annotations

import cmath
import math

import numpy as np

from profilegen.geometry.chain import Contour, Role, circle, contour, reverse
from profilegen.geometry.moves import Move, moved


class ImpossibleBore(ValueError):
    """The sizes of a bore contradict each other.

    Attributes:
        key: the key to change, without its table.
        limit: the size it must stay under, mm.
    """

    def __init__(self, key: str, limit: float) -> None:
        super().__init__(key)
        self.key = key
        self.limit = limit


def round_bore(diameter: float) -> Contour:
    """A round bore about the wheel axis, clockwise, mm."""
    return reverse(circle(0, diameter / 2, Role.BORE))


def polygon_bore(sides: int, across_flats: float, corner_radius: float, angle: float) -> Contour:
    """A square or hexagon about the wheel axis, clockwise, mm.

    Args:
        sides: 4 or 6.
        across_flats: mm.
        corner_radius: mm; 0 for sharp corners.
        angle: from +x to the middle of a flat, rad, counter-clockwise positive.

    Raises:
        ImpossibleBore: the corner radii meet before the flat has any length.
    """
    inradius, half = across_flats / 2, math.pi / sides
    if corner_radius >= inradius:
        raise ImpossibleBore("corner_radius", inradius)
    corners = inradius / math.cos(half) * np.exp(1j * (2 * np.arange(sides) + 1) * half)
    if corner_radius == 0.0:
        return _placed(contour(corners, None, Role.BORE), angle)
    setback = corner_radius * math.tan(half)
    along = np.exp(1j * (2 * np.arange(sides) * half + math.pi / 2))
    into, out_of = corners - setback * along, corners + setback * np.roll(along, -1)
    points = np.column_stack((into, out_of)).ravel()
    bulges = np.tile([math.tan(half / 2), 0.0], sides)
    return _placed(contour(points, list(bulges), Role.BORE), angle)


def keyed_bore(diameter: float, key_width: float, key_depth: float, angle: float) -> Contour:
    """A round bore with one keyway, clockwise, mm.

    `diameter / 2 + key_depth` is the distance from the axis to the keyway's floor, so that the
    floor lies `diameter + key_depth` from the far side of the bore, as keyway tables give it.

    Args:
        diameter: of the bore, mm.
        key_width: mm.
        key_depth: from the bore's wall, at the middle of the keyway, into the hub, mm.
        angle: from +x to the middle of the keyway, rad, counter-clockwise positive.

    Raises:
        ImpossibleBore: the key is as wide as the bore, or its floor lies inside the bore.
    """
    radius, half = diameter / 2, key_width / 2
    if half >= radius:
        raise ImpossibleBore("key_width", diameter)
    mouth, floor = math.sqrt(radius**2 - half**2), radius + key_depth
    points = [complex(floor, -half), complex(floor, half), complex(mouth, half), -radius + 0j]
    quarter = math.tan((math.pi - math.asin(half / radius)) / 4)
    shape = contour([*points, complex(mouth, -half)], [0, 0, quarter, quarter, 0], Role.BORE)
    return _placed(shape, angle)


def d_bore(diameter: float, flat_to_far_side: float, angle: float) -> Contour:
    """A round bore with one flat, clockwise, mm.

    Args:
        diameter: of the bore, mm.
        flat_to_far_side: over flat and far side, mm.
        angle: from +x to the middle of the flat, rad, counter-clockwise positive.

    Raises:
        ImpossibleBore: the flat lies outside the bore, or leaves less than half of it.
    """
    radius, flat = diameter / 2, flat_to_far_side - diameter / 2
    if not 0 <= flat < radius:
        raise ImpossibleBore("flat_to_far_side", diameter)
    half = math.sqrt(radius**2 - flat**2)
    sweep = math.pi - math.atan2(half, flat)
    bulge = math.tan(sweep / 4)
    points = [complex(flat, half), -radius + 0j, complex(flat, -half)]
    return _placed(contour(points, [bulge, bulge, 0], Role.BORE), angle)


def hole_circle(
    count: int, circle_diameter: float, diameter: float, angle: float
) -> tuple[Contour, ...]:
    """Equal round holes on a circle about the wheel axis, each clockwise, mm.

    Args:
        count: of holes, evenly spaced.
        circle_diameter: through their middles, mm.
        diameter: of each, mm.
        angle: from +x to the first one, rad, counter-clockwise positive.
    """
    step = np.exp(1j * (angle + math.tau * np.arange(count) / count)) * circle_diameter / 2
    return tuple(reverse(circle(centre, diameter / 2, Role.HOLE)) for centre in step)


def _placed(shape: Contour, angle: float) -> Contour:
    """Turned to its angle and run clockwise."""
    return reverse(moved(shape, Move(turn=cmath.exp(1j * angle))))
