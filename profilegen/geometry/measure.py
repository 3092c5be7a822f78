"""Measures of chains and contours: length, area, bounds, distance, inside or outside.

Owns every number that a curve has by itself or towards a point or another curve. All of it is
exact on lines and arcs to rounding: formulas work in the frame of the chord, where a flat arc is
as well conditioned as a line. Refuses to fill open chains: area and inside are for contours.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

import numpy as np

from profilegen.geometry.arcs import lengths, middles, points_at, radii, sweeps
from profilegen.geometry.chain import Contour, Curve, Flags, Indices, Points, Reals
from profilegen.geometry.tolerance import CHORD_ERROR

if TYPE_CHECKING:
    import numpy.typing as npt

CHUNK = 1 << 18
"""Greatest number of point and segment pairs held in memory at a time."""


def length(curve: Curve) -> float:
    """Length along the curve, mm."""
    return float(np.sum(lengths(curve.starts, curve.ends, curve.bulges)))


def area(contour: Contour) -> float:
    """Enclosed area, mm2, positive when the contour runs counter-clockwise.

    Polygon of the chords plus `r^2 (sweep - sin sweep) / 2` for each arc (standard formula; mm).
    """
    middle = complex(np.mean(contour.points))
    starts, ends = contour.starts - middle, contour.ends - middle
    polygon = np.sum((starts.conj() * ends).imag) / 2
    return float(polygon + np.sum(sliver_areas(starts, ends, contour.bulges)))


def sliver_areas(starts: Points, ends: Points, bulges: Reals) -> Reals:
    """Signed area between each arc and its chord, mm2, positive for a positive bulge.

    Args:
        starts: start points, mm, shape (n,).
        ends: end points, mm.
        bulges: `tan(sweep / 4)`; 0 gives 0. Flat arcs go by a series, which does not cancel.
    """
    sweep = sweeps(bulges)
    square = sweep**2
    small = np.abs(sweep) < 0.3
    tail = 1 - square / 42 * (1 - square / 72 * (1 - square / 110 * (1 - square / 156)))
    series = sweep**3 / 6 * (1 - square / 20 * tail)
    excess = np.where(small, series, sweep - np.sin(sweep))
    steep = np.where(bulges == 0.0, 1.0, bulges)
    return (np.abs(ends - starts) * (1 + bulges**2) / steep) ** 2 / 32 * excess


def segment_boxes(curve: Curve) -> Reals:
    """Exact bounds of each segment, float64, shape (n, 4): xmin, ymin, xmax, ymax, mm."""
    starts, ends, bulges = curve.starts, curve.ends, curve.bulges
    side = np.array([[-1.0], [-1j], [1.0], [1j]])
    reach = np.maximum((starts / side).real, (ends / side).real)
    bent = np.flatnonzero(bulges)
    if len(bent):
        arcs = starts[bent], ends[bent], bulges[bent]
        fraction = fraction_facing(*arcs, side)
        top = points_at(*arcs, np.where(np.isnan(fraction), 0.0, fraction))
        reach[:, bent] = np.maximum(reach[:, bent], (top / side).real)
    return np.stack((-reach[0], -reach[1], reach[2], reach[3]), axis=1)


def fraction_facing(
    starts: Points, ends: Points, bulges: Reals, outward: complex | Points
) -> Reals:
    """Fraction of each arc at which its outward normal is `outward`; nan when there is none.

    The outward normal points away from the centre. Lines have none.

    Args:
        starts: start points, mm.
        ends: end points, mm.
        bulges: `tan(sweep / 4)`, 0 for a line.
        outward: a direction, or an array of them that broadcasts; of any length but 0.
    """
    chord = ends - starts
    turn = np.angle(1j * np.sign(bulges) * outward * np.conj(chord))
    sweep = sweeps(bulges)
    with np.errstate(all="ignore"):
        fraction = 0.5 + turn / sweep
    found = (bulges != 0.0) & (fraction >= 0.0) & (fraction <= 1.0)
    return np.where(found, fraction, np.nan)


def bounds(curve: Curve) -> tuple[float, float, float, float]:
    """Exact bounds of the curve, arcs included: `(xmin, ymin, xmax, ymax)`, mm."""
    boxes = segment_boxes(curve)
    low, high = boxes[:, :2].min(axis=0), boxes[:, 2:].max(axis=0)
    return float(low[0]) + 0.0, float(low[1]) + 0.0, float(high[0]) + 0.0, float(high[1]) + 0.0


def foot_fractions(points: Points, starts: Points, ends: Points, bulges: Reals) -> Reals:
    """Fraction (0 to 1) of each segment that is nearest to each point; shapes broadcast.

    Args:
        points: mm, such as shape (k, 1).
        starts: start points, mm, such as shape (n,).
        ends: end points, mm.
        bulges: `tan(sweep / 4)`. At the very centre of an arc every place is as near: one is told.
    """
    turn, place = _polar(points, starts, ends, bulges)
    with np.errstate(all="ignore"):
        fraction = 0.5 + turn / sweeps(bulges)
    return np.clip(np.where(bulges == 0.0, 0.5 + place, fraction), 0.0, 1.0)


def _polar(points: Points, starts: Points, ends: Points, bulges: Reals) -> tuple[Reals, Reals]:
    """Angle about each arc's centre from its middle, rad, and place along its chord.

    With `u` the point in the frame of the chord (middle 0, ends at -1/2 and 1/2), the direction
    from the centre is `1 - b^2 + 4 i b u` up to a positive factor: finite for flat arcs.
    """
    u = ((points - starts) + (points - ends)) / (2 * (ends - starts))
    return np.angle((1 - bulges**2) + 4j * bulges * u), u.real


def nearest(curve: Curve, point: complex) -> tuple[float, complex, int]:
    """Nearest place of the curve to a point: `(distance mm, place, segment index)`.

    Args:
        curve: mm; not filled, so that a point inside a contour has a distance too.
        point: mm, in the frame of the curve.
    """
    at = np.asarray([point], dtype=np.complex128)
    distance, place, segment = nearest_each(curve, at)
    return float(distance[0]), complex(place[0]), int(segment[0])


def nearest_each(curve: Curve, points: Points) -> tuple[Reals, Points, Indices]:
    """`nearest` for many points: arrays of distance (mm), place (mm) and segment index.

    Args:
        curve: mm.
        points: complex128, shape (k,), mm. Each of the three arrays has this shape.
    """
    starts, ends, bulges = curve.starts, curve.ends, curve.bulges
    distance = np.empty(len(points))
    place = np.empty(len(points), dtype=np.complex128)
    segment = np.empty(len(points), dtype=np.intp)
    for part in _chunks(len(points), len(curve)):
        at = points[part, None]
        feet = points_at(starts, ends, bulges, foot_fractions(at, starts, ends, bulges))
        gap = np.abs(feet - at)
        best = np.argmin(gap, axis=1)
        row = np.arange(len(best))
        distance[part], place[part], segment[part] = gap[row, best], feet[row, best], best
    return distance, place, segment


def farthest(curve: Curve, point: complex) -> tuple[float, complex, int]:
    """Farthest place of the curve from a point: `(distance mm, place, segment index)`.

    Args:
        curve: mm. Round the origin it gives the outside radius of a wheel.
        point: mm, in the frame of the curve.
    """
    starts, ends, bulges = curve.starts, curve.ends, curve.bulges
    turn, _ = _polar(np.asarray(point), starts, ends, bulges)
    with np.errstate(all="ignore"):
        fraction = 0.5 + (turn - np.copysign(np.pi, turn)) / sweeps(bulges)
    found = (bulges != 0.0) & (fraction > 0.0) & (fraction < 1.0)
    back = points_at(starts, ends, bulges, np.where(found, fraction, 0.0))
    places = np.stack((starts, ends, back))
    gap = np.abs(places - point)
    row, segment = np.unravel_index(int(np.argmax(gap)), gap.shape)
    return float(gap[row, segment]), complex(places[row, segment]), int(segment)


def chord_centres(starts: Points, ends: Points, bulges: Reals) -> Points:
    """Centres of arcs, mm; 0 for lines, where `arcs.centres` is not finite."""
    with np.errstate(all="ignore"):
        rise = np.where(bulges == 0.0, 0.0, (1 - bulges**2) / (4 * bulges))
    return np.where(bulges == 0.0, 0.0, (starts + ends) / 2 + 1j * (ends - starts) * rise)


def tessellate(curve: Curve, error: float = CHORD_ERROR) -> Points:
    """Points on the curve whose chords stay within a distance of it, complex128, mm.

    Every vertex is kept as it is. A chain's last point is included; a contour's first point is
    not repeated at the end.

    Args:
        curve: mm.
        error: greatest sagitta of a chord, mm. The points lie on the curve, so a convex shape comes
            out smaller, never larger.
    """
    starts, ends, bulges = curve.starts, curve.ends, curve.bulges
    half = np.sqrt(np.minimum(error / (2 * radii(starts, ends, bulges)), 1.0))
    with np.errstate(all="ignore"):
        pieces = np.ceil(np.abs(sweeps(bulges)) / (4 * np.arcsin(half)))
    count = np.where(bulges == 0.0, 1, np.maximum(np.nan_to_num(pieces), 1)).astype(np.intp)
    segment = np.repeat(np.arange(len(curve)), count)
    step = np.arange(len(segment)) - np.repeat(np.cumsum(count) - count, count)
    fraction = step / count[segment]
    points = points_at(starts[segment], ends[segment], bulges[segment], fraction)
    return points if isinstance(curve, Contour) else np.append(points, ends[-1])


def contains(contour: Contour, points: Points) -> Flags:
    """Whether each point lies inside the contour (winding number not 0); exact for arcs.

    A point on the contour itself, to rounding, may come out either way.

    Args:
        contour: either way round, mm.
        points: shape (k,), mm, in the same frame.
    """
    return np.asarray(windings(contour, points) != 0)


def windings(contour: Contour, points: Points) -> npt.NDArray[np.int64]:
    """How many times the contour runs round each point, counter-clockwise positive.

    Counts the chords that a ray to +x meets, and adds the slivers between arcs and their chords.

    Args:
        contour: mm.
        points: complex128, shape (k,), mm; a single point gives shape (1,).
    """
    at = np.atleast_1d(np.asarray(points, dtype=np.complex128))
    count = np.empty(len(at), dtype=np.int64)
    for part in _chunks(len(at), len(contour)):
        count[part] = np.sum(_turns(contour, at[part, None]), axis=1)
    return count


def _turns(contour: Contour, at: Points) -> npt.NDArray[np.int64]:
    """What each segment adds to the winding number of each point."""
    starts, ends, bulges = contour.starts, contour.ends, contour.bulges
    chord, lean = ends - starts, at - starts
    side = chord.real * lean.imag - chord.imag * lean.real
    rises = (starts.imag <= at.imag) & (at.imag < ends.imag)
    falls = (ends.imag <= at.imag) & (at.imag < starts.imag)
    turns = (rises & (side > 0)).astype(np.int64) - (falls & (side < 0))
    if not bulges.any():
        return turns
    to_left = (chord.imag < 0) | ((chord.imag == 0) & (chord.real > 0))
    left = (side > 0) | ((side == 0) & to_left)
    cut = lean * np.conj(at - ends)
    beyond = 2 * bulges * cut.real + (1 - bulges**2) * cut.imag
    sliver = np.where(bulges > 0, ~left & (beyond < 0), left & (beyond > 0))
    return turns + np.where(sliver, np.sign(bulges).astype(np.int64), 0)


def _chunks(rows: int, columns: int) -> Iterator[slice]:
    """Slices of rows such that rows times columns stays within `CHUNK`."""
    size = max(1, CHUNK // max(columns, 1))
    for start in range(0, rows, size):
        yield slice(start, start + size)


def middle_of(curve: Curve) -> complex:
    """The point half way along the longest chord of the curve, mm: a place well off both ends."""
    at = int(np.argmax(np.abs(curve.ends - curve.starts)))
    part = slice(at, at + 1)
    return complex(middles(curve.starts[part], curve.ends[part], curve.bulges[part])[0])
