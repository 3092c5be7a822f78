"""Where two curves, or one curve and itself, meet.

Owns the meeting of two segments (crossing, touching, lying on each other) and the index that
finds which pairs of segments can meet at all. One formula serves lines and arcs alike: a segment
is `z(t) = (s (1-t) w' + e t w) / ((1-t) w' + t w)` with `w = exp(-i sweep / 4)` and `w'` its
conjugate, and a point is on another segment's line or circle when
`Im((z - s)(z - e)' exp(i sweep / 2)) = 0` (inscribed angle): a quadratic in `t` without a centre.
Refuses fuzzy answers: what lies within `SAME_POINT` meets, what does not does not.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise
from typing import NamedTuple

import numpy as np

from profilegen.geometry.arcs import lengths, points_at, sweeps
from profilegen.geometry.chain import Contour, Curve, Flags, Indices, Points, Reals
from profilegen.geometry.measure import foot_fractions, segment_boxes
from profilegen.geometry.tolerance import SAME_POINT

BROADCAST = 1 << 15
"""Up to this many pairs are all compared at once; beyond it they come from a sorted sweep."""

SWEEP = 1 << 20
"""Greatest number of pairs that the sweep holds in memory at a time."""


@dataclass(frozen=True, eq=False, slots=True)
class Crossings:
    """Where curve a meets curve b, in order along a.

    A meeting at a vertex is told once, at the start (fraction 0) of the segment that begins there;
    only a chain's last point is fraction 1. Where the curves lie on each other, the ends of the
    common stretch are told.

    Attributes:
        points: complex128, shape (k,), mm.
        segment_a: segment of a, shape (k,).
        fraction_a: where on that segment, 0 to 1 by length, shape (k,).
        segment_b: segment of b, shape (k,).
        fraction_b: where on that segment, 0 to 1 by length, shape (k,).
    """

    points: Points
    segment_a: Indices
    fraction_a: Reals
    segment_b: Indices
    fraction_b: Reals

    def __len__(self) -> int:
        return len(self.points)


class Segments(NamedTuple):
    """Segments side by side: arrays of one shape, or shapes that broadcast."""

    starts: Points
    ends: Points
    bulges: Reals

    def wide(self) -> Segments:
        """The same with one more axis at the end."""
        return Segments(self.starts[..., None], self.ends[..., None], self.bulges[..., None])

    def at(self, fractions: Reals) -> Points:
        """Points at fractions (0 to 1) of the lengths, mm; the shapes broadcast."""
        return points_at(self.starts, self.ends, self.bulges, fractions)

    def foot(self, points: Points) -> Reals:
        """Fraction (0 to 1) of each segment that is nearest to each point; the shapes broadcast.

        Args:
            points: mm.
        """
        return foot_fractions(points, self.starts, self.ends, self.bulges)

    def gap(self, points: Points) -> Reals:
        """Least distance of each point from each segment, mm, never negative; the shapes
        broadcast.
        """
        return np.abs(self.at(self.foot(points)) - points)


def crossings(a: Curve, b: Curve) -> Crossings:
    """Every place where two curves cross, touch, or begin or cease to lie on each other.

    Args:
        a: in the order of this curve the places come.
        b: in the same frame, mm. Neither is filled: one curve wholly within another meets it
            nowhere.
    """
    i, j = candidate_pairs(_grown(segment_boxes(a)), segment_boxes(b))
    row, points, fraction_a, fraction_b = _meet(_take(a, i), _take(b, j))
    return _told(a, b, points, (i[row], fraction_a), (j[row], fraction_b))


def self_crossings(curve: Curve) -> Crossings:
    """Every place (mm) where a curve meets itself; neighbours' shared joints are left out.

    Each place is told once, with `segment_a` before `segment_b`.
    """
    boxes = segment_boxes(curve)
    i, j = candidate_pairs(_grown(boxes), boxes)
    i, j = i[i < j], j[i < j]
    left, right = _take(curve, i), _take(curve, j)
    row, points, fraction_a, fraction_b = _meet(left, right, _joints(curve, i, j))
    return _told(curve, curve, points, (i[row], fraction_a), (j[row], fraction_b))


def candidate_pairs(boxes_a: Reals, boxes_b: Reals) -> tuple[Indices, Indices]:
    """Which boxes overlap or touch: index arrays `(i, j)`, ordered by `i`, then `j`.

    Large sets are swept along x, boxes of b of like width together, so that one wide box does not
    spoil the sweep.

    Args:
        boxes_a: shape (n, 4): xmin, ymin, xmax, ymax, mm.
        boxes_b: shape (m, 4), alike. Boxes that are to meet across a gap are grown first.
    """
    if len(boxes_a) * len(boxes_b) <= BROADCAST:
        i, j = np.nonzero(_overlap(boxes_a[:, None], boxes_b[None]))
        return i, j
    width = np.maximum(boxes_b[:, 2] - boxes_b[:, 0], 1e-12)
    size = np.floor(np.log2(width)).astype(np.intp)
    found = [_swept(boxes_a, boxes_b, np.flatnonzero(size == each)) for each in np.unique(size)]
    i = np.concatenate([pair[0] for pair in found])
    j = np.concatenate([pair[1] for pair in found])
    order = np.lexsort((j, i))
    return i[order], j[order]


def _overlap(a: Reals, b: Reals) -> Flags:
    low = np.maximum(a[..., :2], b[..., :2])
    high = np.minimum(a[..., 2:], b[..., 2:])
    return np.asarray(np.all(low <= high, axis=-1))


def _swept(boxes_a: Reals, boxes_b: Reals, members: Indices) -> tuple[Indices, Indices]:
    """Overlapping pairs of all boxes of a with some of b, by sorting the latter along x."""
    order = members[np.argsort(boxes_b[members, 0], kind="stable")]
    left = boxes_b[order, 0]
    widest = np.max(boxes_b[order, 2] - left)
    first = np.searchsorted(left, boxes_a[:, 0] - widest * (1 + 1e-12), side="left")
    count = np.searchsorted(left, boxes_a[:, 2], side="right") - first
    parts = [_expand(first, count, part) for part in _portions(count)]
    found_i, found_j = [], []
    for i, at in parts:
        j = order[at]
        real = _overlap(boxes_a[i], boxes_b[j])
        found_i.append(i[real])
        found_j.append(j[real])
    return np.concatenate(found_i), np.concatenate(found_j)


def _portions(count: Indices) -> Iterator[slice]:
    """Slices of rows whose counts add up to about `SWEEP` each."""
    share = np.cumsum(count) // SWEEP
    edges = [0, *(np.flatnonzero(np.diff(share)) + 1).tolist(), len(count)]
    for start, stop in pairwise(edges):
        yield slice(start, stop)


def _expand(first: Indices, count: Indices, part: slice) -> tuple[Indices, Indices]:
    """Row numbers and running positions of ranges that begin at `first` and hold `count`."""
    many = np.maximum(count[part], 0)
    i = np.repeat(np.arange(part.start, part.stop), many)
    within = np.arange(len(i)) - np.repeat(np.cumsum(many) - many, many)
    return i, first[i] + within


def _grown(boxes: Reals) -> Reals:
    edge = 2 * SAME_POINT
    return np.asarray(boxes + np.array([-edge, -edge, edge, edge]))


def _take(curve: Curve, at: Indices) -> Segments:
    return Segments(curve.starts[at], curve.ends[at], curve.bulges[at])


def _joints(curve: Curve, i: Indices, j: Indices) -> Flags:
    """Which of the four ends (start and end of i, start and end of j) are joints of the pair."""
    last = len(curve) - 1
    after = j == i + 1
    round_ = isinstance(curve, Contour) & (i == 0) & (j == last)
    return np.stack((round_, after, after, round_), axis=-1)


def _meet(
    a: Segments, b: Segments, joints: Flags | None = None
) -> tuple[Indices, Points, Reals, Reals]:
    """Meetings of segments side by side: pair number, point, fraction on a, fraction on b.

    Ends that lie on the other segment come first; a root of the quadratic is new only when the
    curves part between it and every such end. Ends that are joints count as known, not as found.
    """
    wide_a, wide_b = a.wide(), b.wide()
    ends = np.stack((a.starts, a.ends, b.starts, b.ends), axis=-1)
    gaps = wide_b.gap(ends[:, :2]), wide_a.gap(ends[:, 2:])
    hit = np.concatenate(gaps, axis=1) <= SAME_POINT
    on_a = _snapped(wide_a.foot(ends), wide_a, ends)
    on_b = _snapped(wide_b.foot(ends), wide_b, ends)
    on_a[:, :2], on_b[:, 2:] = (0.0, 1.0), (0.0, 1.0)
    roots, points, valid = _roots(a, b)
    valid &= ~_linked(wide_a, wide_b, roots, on_a, hit)
    on_root = wide_b.foot(points)
    if joints is not None:
        hit &= ~joints
        known = np.where(joints, ends, complex(np.inf))
        hit &= ~(np.abs(ends[:, :, None] - known[:, None, :]) <= SAME_POINT).any(axis=2)
    row, column = np.nonzero(np.concatenate((hit, valid), axis=1))
    fractions_a = np.concatenate((on_a, roots), axis=1)[row, column]
    fractions_b = np.concatenate((on_b, on_root), axis=1)[row, column]
    return row, np.concatenate((ends, points), axis=1)[row, column], fractions_a, fractions_b


def _snapped(fractions: Reals, on: Segments, points: Points) -> Reals:
    """Fractions set to 0 or 1 where the point is the segment's start or end."""
    at_start = np.abs(points - on.starts) <= SAME_POINT
    at_end = np.abs(points - on.ends) <= SAME_POINT
    return np.where(at_start, 0.0, np.where(at_end, 1.0, fractions))


def _linked(a: Segments, b: Segments, roots: Reals, ends: Reals, hit: Flags) -> Flags:
    """Roots that the curves reach from an end found already without parting, shape (k, 2).

    The stretch of a between the two is looked at half way: two curves of this kind that agree at
    both ends are farthest apart about there.
    """
    half = (roots[:, :, None] + ends[:, None, :]) / 2
    a, b = a.wide(), b.wide()
    return np.asarray(((b.gap(a.at(half)) <= SAME_POINT) & hit[:, None, :]).any(axis=2))


def _quadratic(a: Segments, b: Segments) -> tuple[Reals, Reals, Reals]:
    """`c0 (1-t)^2 + 2 c1 t (1-t) + c2 t^2` is 0 where a meets the line or circle of b."""
    w = np.exp(-0.25j * sweeps(a.bulges))
    turn = np.exp(0.5j * sweeps(b.bulges))
    p0, p1 = (a.starts - b.starts) * np.conj(w), (a.ends - b.starts) * w
    q0, q1 = (a.starts - b.ends) * np.conj(w), (a.ends - b.ends) * w
    c0, c2 = (turn * p0 * np.conj(q0)).imag, (turn * p1 * np.conj(q1)).imag
    return c0, (turn * (p0 * np.conj(q1) + p1 * np.conj(q0))).imag / 2, c2


def _roots(a: Segments, b: Segments) -> tuple[Reals, Points, Flags]:
    """Up to two inner meetings a pair: fraction on a, point, and whether it is one; shape (k, 2).

    Two roots between which the curves do not part are one touch, half way between them.
    """
    c0, c1, c2 = _quadratic(a, b)
    rest = np.sqrt(np.maximum(c1**2 - c0 * c2, 0.0))
    mixed = -(c1 + np.copysign(rest, c1))
    with np.errstate(all="ignore"):
        t = np.stack((mixed / (mixed + c2), c0 / (c0 + mixed)), axis=-1)
        t = np.where(np.isfinite(t), t, -1.0)
    wide_a, wide_b = a.wide(), b.wide()
    fraction = _polished(wide_a, wide_b, _by_length(t, a.bulges[:, None]))
    inside = (fraction > 0.0) & (fraction < 1.0)
    middle = np.mean(fraction, axis=-1, keepdims=True)
    touch = inside.all(axis=-1) & (wide_b.gap(wide_a.at(middle))[:, 0] <= SAME_POINT)
    fraction = np.where(touch[:, None], middle, fraction)
    inside[touch, 1] = False
    safe = np.where(inside, fraction, 0.0)
    points = wide_a.at(safe)
    return safe, points, inside & (wide_b.gap(points) <= SAME_POINT)


def _by_length(t: Reals, bulges: Reals) -> Reals:
    """From the parameter of the quadratic to the fraction by length; beyond the ends: outside.

    The angle of the denominator `(1-t) w' + t w` runs from `sweep/4` to `-sweep/4` along the arc.
    """
    with np.errstate(all="ignore"):
        curved = 0.5 + np.arctan(bulges * (2 * t - 1)) * 2 / sweeps(bulges)
    inside = (t > 0.0) & (t < 1.0)
    return np.where(inside & (bulges != 0.0), curved, t)


def _polished(a: Segments, b: Segments, fractions: Reals) -> Reals:
    """One Newton step along a towards b, where the two cross at a fair angle."""
    kept = np.clip(fractions, 0.0, 1.0)
    points = a.at(kept)
    lean = points - b.at(b.foot(points))
    chord = (a.ends - a.starts) / np.abs(a.ends - a.starts)
    heading = chord * np.exp(1j * sweeps(a.bulges) * (kept - 0.5))
    closing = (lean * np.conj(heading)).real
    fair = closing**2 > 0.01 * np.abs(lean) ** 2
    with np.errstate(all="ignore"):
        step = np.abs(lean) ** 2 / closing / lengths(a.starts, a.ends, a.bulges)
    small = fair & (np.abs(lean) < 1e-6) & (np.abs(step) < 1e-3)
    return np.where(small & (kept == fractions), fractions - np.where(small, step, 0.0), fractions)


def _told(
    a: Curve, b: Curve, points: Points, on_a: tuple[Indices, Reals], on_b: tuple[Indices, Reals]
) -> Crossings:
    """Meetings in order along a, each vertex told once and with the vertex's own point."""
    i, fraction_a = _canonical(a, *on_a)
    j, fraction_b = _canonical(b, *on_b)
    points = _at_vertices(a, i, fraction_a, _at_vertices(b, j, fraction_b, points))
    if a is b:
        swap = (j < i) | ((j == i) & (fraction_b < fraction_a))
        i, j = np.where(swap, j, i), np.where(swap, i, j)
        fraction_a, fraction_b = (
            np.where(swap, fraction_b, fraction_a),
            np.where(swap, fraction_a, fraction_b),
        )
    order = np.lexsort((fraction_b, j, fraction_a, i))
    keys = np.stack((i, fraction_a, j, fraction_b))[:, order]
    new = np.ones(len(order), dtype=np.bool_)
    new[1:] = np.any(np.abs(np.diff(keys, axis=1)) > 1e-13, axis=0)
    kept = order[new]
    return Crossings(points[kept], i[kept], fraction_a[kept], j[kept], fraction_b[kept])


def _at_vertices(curve: Curve, segment: Indices, fraction: Reals, points: Points) -> Points:
    """Points replaced by the curve's own vertex where they are one."""
    points = np.where(fraction == 0.0, curve.starts[segment], points)
    return np.where(fraction == 1.0, curve.ends[segment], points)


def _canonical(curve: Curve, segment: Indices, fraction: Reals) -> tuple[Indices, Reals]:
    """A segment's end told as the next segment's start, but for a chain's last point."""
    last = len(curve) - 1
    move = (fraction == 1.0) & (isinstance(curve, Contour) | (segment < last))
    following = np.where(segment == last, 0, segment + 1)
    return np.where(move, following, segment), np.where(move, 0.0, fraction)
