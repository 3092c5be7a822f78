"""The least distance between two curves of lines and arcs, exact to rounding."""

from __future__ import annotations

import numpy as np

from profilegen.geometry.arcs import points_at
from profilegen.geometry.chain import Curve, Indices
from profilegen.geometry.crossings import candidate_pairs, crossings
from profilegen.geometry.measure import (
    chord_centres,
    foot_fractions,
    fraction_facing,
    nearest,
    segment_boxes,
)


def distance(a: Curve, b: Curve) -> float:
    """Least distance between two curves, mm; 0 when they cross or touch. Neither is filled.

    Args:
        a: a chain or a contour, mm.
        b: in the same frame; inside of contour a it is as far off as outside of it.
    """

    bound = _bound(a, b)
    boxes = segment_boxes(a) + np.array([-bound, -bound, bound, bound]) * (1 + 1e-12)
    i, j = candidate_pairs(boxes, segment_boxes(b))
    gap = min(bound, _pair_gaps(a, b, i, j), _pair_gaps(b, a, j, i))
    return 0.0 if gap > 0.0 and len(crossings(a, b).points) else gap


def _bound(a: Curve, b: Curve) -> float:
    """A distance between two places of the curves: projected to and fro a few times, mm."""
    gap, place = np.inf, complex(a.points[0])
    for curve in (b, a, b, a):
        gap, place, _ = nearest(curve, place)
    return gap


def _pair_gaps(a: Curve, b: Curve, i: Indices, j: Indices) -> float:
    """Least distance over candidate places of segments `a[i]` to segments `b[j]`, mm.

    Places of `a`: its ends, and where its normal runs along the line of centres, or square to a
    line of `b`. The distance is stationary there, so that a flat arc's centre need not be exact.
    """
    if len(i) == 0:
        return np.inf
    s, e, bulge = a.starts[i], a.ends[i], a.bulges[i]
    other = (b.starts[j], b.ends[j], b.bulges[j])
    along = 1j * (other[1] - other[0])
    curved = (bulge != 0.0) & (other[2] != 0.0)
    apart = chord_centres(*other) - chord_centres(s, e, bulge)
    normal = np.where(curved & (apart != 0.0), apart, along)
    best = np.inf
    places = [s, e]
    for side in (normal, -normal):
        fraction = fraction_facing(s, e, bulge, side)
        places.append(points_at(s, e, bulge, np.where(np.isnan(fraction), 0.0, fraction)))
    for place in places:
        feet = points_at(*other, foot_fractions(place, *other))
        best = min(best, float(np.min(np.abs(feet - place))))
    return best
