"""First contact: how far a curve can travel along a direction before it touches another.

Owns the closed forms: a vertex of one curve against a segment of the other, both ways, and the
places where an arc runs alongside an arc or a line. In the frame whose x axis is the direction of
travel, two places touch when they have the same y, and the travel is the difference of their x;
the first contact is the least of all such differences, and it lies at one of these places.
Curves are curves, not filled. Refuses iteration: every candidate is exact to rounding.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal, NamedTuple

import numpy as np

from profilegen.geometry.arcs import points_at, radii, sweeps
from profilegen.geometry.chain import Curve, Flags, Indices, Points, Reals
from profilegen.geometry.crossings import Segments
from profilegen.geometry.measure import chord_centres, fraction_facing
from profilegen.geometry.tolerance import SAME_POINT

What = Literal["vertex", "edge", "tangent"]

BLOCK = 1 << 17
"""Greatest number of poses times pairs of segments held in memory at a time."""


@dataclass(frozen=True, slots=True)
class Contact:
    """Where a travelling curve first touches a fixed one.

    Attributes:
        travel: mm along the direction from where the moving curve was given; negative when it was
            given beyond the first touch.
        point: the place of contact, on the fixed curve, mm.
        what: `vertex` when a vertex of the moving curve touches, `edge` when its segment meets a
            vertex of the fixed curve, `tangent` when the two run alongside each other.
    """

    travel: float
    point: complex
    what: What


class _Group(NamedTuple):
    """Candidates of one kind: arrays of shape (poses, rows, columns) or broadcastable to it."""

    what: What
    travel: Reals
    place: Points
    rows: Indices
    columns: Indices


def first_contact(moving: Curve, fixed: Curve, direction: complex) -> Contact | None:
    """The first touch of `moving`, come from infinitely far, travelling along `direction`.

    Args:
        moving: the curve that travels, where it stands at travel 0, mm.
        fixed: the curve that stays, mm.
        direction: the way of travel; its length does not count.

    Returns:
        The contact of least travel, or None when the curves never touch on the way. Curves that
        graze within `SAME_POINT` count as touching.
    """
    along = direction / abs(direction)
    pose = _posed(moving, along, np.ones(1, np.complex128), np.zeros(1, np.complex128))
    picks = [
        _pick(group, along)
        for block, first in _blocks(pose, _turned(fixed, along))
        for group in _groups(pose, block, first)
    ]
    travel = min((pick.travel for pick in picks), default=np.inf)
    if travel == np.inf:
        return None
    order: dict[What, int] = {"vertex": 0, "edge": 1, "tangent": 2}
    tied = [pick for pick in picks if pick.travel <= travel + 1e-12]
    return min(tied, key=lambda pick: order[pick.what])


def first_contacts(
    moving: Curve, fixed: Curve, direction: complex, turns: Points, shifts: Points
) -> Reals:
    """Travel to the first contact for many poses of the moving curve.

    Args:
        moving: the curve that travels, mm.
        fixed: the curve that stays, mm.
        direction: the way of travel; its length does not count.
        turns: unit complex numbers; pose k takes a point z to `turns[k] * z + shifts[k]`.
        shifts: mm; `turns` and `shifts` broadcast against each other.

    Returns:
        float64, mm, in the broadcast shape: travel from the pose along the direction, nan where
        the curves never touch.
    """
    along = direction / abs(direction)
    turn, shift = np.broadcast_arrays(
        np.asarray(turns, dtype=np.complex128), np.asarray(shifts, dtype=np.complex128)
    )
    travel = np.full(turn.size, np.inf)
    target = _turned(fixed, along)
    step = max(1, BLOCK // ((len(moving) + 1) * (len(fixed) + 1)))
    for start in range(0, turn.size, step):
        part = slice(start, start + step)
        pose = _posed(moving, along, turn.ravel()[part], shift.ravel()[part])
        for block, first in _blocks(pose, target):
            for group in _groups(pose, block, first):
                np.minimum(travel[part], np.min(group.travel, axis=(1, 2)), out=travel[part])
    return np.where(np.isinf(travel), np.nan, travel).reshape(turn.shape)


def _turned(curve: Curve, along: complex) -> Segments:
    """Segments in the frame whose x axis is the way of travel, shape (n,)."""
    return Segments(curve.starts / along, curve.ends / along, curve.bulges)


def _posed(curve: Curve, along: complex, turns: Points, shifts: Points) -> Segments:
    """Segments in the frame of travel, shape (poses, m, 1)."""
    starts, ends = (
        (turns[:, None] * at + shifts[:, None])[..., None] / along
        for at in (curve.starts, curve.ends)
    )
    return Segments(starts, ends, curve.bulges[:, None])


def _blocks(pose: Segments, fixed: Segments) -> Iterator[tuple[Segments, Indices]]:
    """The fixed segments that lie in the moving curve's shadow, in bounded blocks.

    Each block comes with the numbers of its segments.
    """
    low, high = _shadow(pose)
    fixed_low, fixed_high = _shadows(fixed)
    near = np.flatnonzero((fixed_low <= high + SAME_POINT) & (fixed_high >= low - SAME_POINT))
    size = max(1, BLOCK // (pose.starts.shape[0] * (pose.starts.shape[1] + 1)))
    for start in range(0, len(near), size):
        part = near[start : start + size]
        yield _some(fixed, part), part


def _shadows(on: Segments) -> tuple[Reals, Reals]:
    """Lower and upper limit of y of each segment, arcs with their full rise, mm."""
    rise = np.abs(on.bulges) * np.abs(on.ends - on.starts) / 2
    low = np.minimum(on.starts.imag, on.ends.imag) - rise
    return low, np.maximum(on.starts.imag, on.ends.imag) + rise


def _shadow(pose: Segments) -> tuple[float, float]:
    low, high = _shadows(pose)
    return float(np.min(low)), float(np.max(high))


def _groups(pose: Segments, fixed: Segments, numbers: Indices) -> Iterator[_Group]:
    """All candidates of first contact between posed segments (poses, m, 1) and fixed ones (n,)."""
    rows = np.arange(pose.starts.shape[1])
    ends = np.concatenate((pose.starts, pose.ends[:, -1:]), axis=1)
    travel = _reach(ends.imag, fixed, 1.0) - ends.real
    yield _Group("vertex", travel, ends, np.minimum(np.arange(len(rows) + 1), rows[-1]), numbers)
    corners, first = np.unique(np.concatenate((fixed.starts, fixed.ends)), return_index=True)
    travel = _reach(corners.imag, pose, -1.0) + corners.real
    yield _Group("edge", travel, corners - _finite(travel), rows, numbers[first % len(numbers)])
    yield from _tangents(pose, fixed, rows, numbers)


def _tangents(pose: Segments, fixed: Segments, rows: Indices, numbers: Indices) -> Iterator[_Group]:
    """Candidates where an arc runs alongside an arc or a line."""
    curved, bent = pose.bulges[:, 0] != 0.0, fixed.bulges != 0.0
    arcs, lines = _some(pose, curved), _some(pose, ~curved)
    fixed_arcs, fixed_lines = _some(fixed, bent), _some(fixed, ~bent)
    for side in (1j, -1j):
        if curved.any() and not bent.all():
            place = _facing(arcs, side * (fixed_lines.ends - fixed_lines.starts))
            travel = _reach(place.imag, fixed_lines, 1.0) - place.real
            yield _Group("tangent", _or_never(travel), place, rows[curved], numbers[~bent])
        if bent.any() and not curved.all():
            place = _facing(fixed_arcs, side * (lines.ends - lines.starts))
            travel = _or_never(_reach(place.imag, lines, -1.0) + place.real)
            yield _Group("tangent", travel, place - _finite(travel), rows[~curved], numbers[bent])
    if curved.any() and bent.any():
        for normal in _common_normals(arcs, fixed_arcs):
            place = _facing(arcs, normal)
            travel = _reach(place.imag, fixed_arcs, 1.0) - place.real
            yield _Group("tangent", _or_never(travel), place, rows[curved], numbers[bent])


def _common_normals(moving: Segments, fixed: Segments) -> Iterator[Points]:
    """Outward normals of the moving arcs where two arcs at the same y have parallel tangents.

    From `y = cm + rm ny = cf -+ rf ny`: `ny = (cf - cm) / (rm +- rf)`, outer and inner contact.
    """
    rise = chord_centres(*fixed).imag - chord_centres(*moving).imag
    inner, outer = radii(*moving), radii(*fixed)
    for spread in (inner + outer, inner - outer):
        with np.errstate(all="ignore"):
            steep = rise / spread
            graze = np.abs(steep) <= 1.0 + SAME_POINT / np.abs(spread)
        steep = np.where(graze, np.clip(np.nan_to_num(steep), -1.0, 1.0), np.nan)
        for side in (1.0, -1.0):
            yield side * np.sqrt(1.0 - steep**2) + 1j * steep


def _facing(arcs: Segments, outward: Points) -> Points:
    """The point of each arc with this outward normal; nan where there is none."""
    fraction = fraction_facing(*arcs, outward)
    return points_at(*arcs, fraction)


def _reach(level: Reals, on: Segments, sign: float) -> Reals:
    """Least `sign * x` at which the line y = level meets each segment; inf where it does not."""
    straight = on.bulges == 0.0
    if straight.all():
        return _reach_lines(level, on, sign)
    if not straight.any():
        return _reach_arcs(level, on, sign)
    shape = np.broadcast_shapes(level.shape, on.starts.shape)
    level = np.broadcast_to(level, shape)
    result = np.empty(shape)
    for kind, reach in ((straight, _reach_lines), (~straight, _reach_arcs)):
        of = np.flatnonzero(kind)
        if on.bulges.ndim == 1:
            result[..., of] = reach(level[..., of], _some(on, of), sign)
        else:
            result[:, of] = reach(level[:, of], _some(on, of), sign)
    return result


def _some(on: Segments, keep: Indices | Flags) -> Segments:
    """Those segments, along the axis that counts them."""
    if on.bulges.ndim == 1:
        return Segments(on.starts[keep], on.ends[keep], on.bulges[keep])
    return Segments(on.starts[:, keep], on.ends[:, keep], on.bulges[keep])


def _reach_lines(level: Reals, on: Segments, sign: float) -> Reals:
    """`_reach` of lines."""
    low, high = on.starts.imag - level, on.ends.imag - level
    with np.errstate(all="ignore"):
        t = low / (low - high)
    x = on.starts.real + (on.ends.real - on.starts.real) * t
    inner = np.where((t >= 0.0) & (t <= 1.0), sign * x, np.inf)
    return np.minimum(inner, _reach_ends(low, high, on, sign))


def _reach_ends(low: Reals, high: Reals, on: Segments, sign: float) -> Reals:
    """`_reach` of the segments' ends alone, given their heights over the level."""
    start = np.where(np.abs(low) <= SAME_POINT, sign * on.starts.real, np.inf)
    return np.minimum(start, np.where(np.abs(high) <= SAME_POINT, sign * on.ends.real, np.inf))


def _reach_arcs(level: Reals, on: Segments, sign: float) -> Reals:
    """`_reach` of arcs, by the quadratic of `crossings` with a level line: no centre needed.

    A line that passes the arc's crest by no more than `SAME_POINT` still meets it there.
    """
    half = np.exp(-0.5j * sweeps(on.bulges))
    cosine, sine = half.real, half.imag
    low, high = on.starts.imag - level, on.ends.imag - level
    spread = on.ends.real - on.starts.real
    mean = ((low + high) * cosine + spread * sine) / 2
    found = mean**2 - low * high
    give = SAME_POINT * np.abs(low + high - 2 * mean * cosine)
    mixed = -(mean + np.copysign(np.sqrt(np.maximum(found, 0.0)), mean))
    best = _reach_ends(low, high, on, sign)
    for over, under in ((mixed, high), (low, mixed)):
        with np.errstate(all="ignore"):
            t = over / (over + under)
        inner = (t >= 0.0) & (t <= 1.0) & (found >= -give)
        best = np.minimum(best, np.where(inner, sign * _x_at(t, half, on), np.inf))
    return best


def _x_at(t: Reals, half: Points, on: Segments) -> Reals:
    """x of the arc at the parameter of the quadratic.

    `z = s + (e - s) t w^2 / ((1 - t) + t w^2)` with `w^2 = exp(-i sweep / 2)`, written `half`.
    """
    t = np.where((t >= 0.0) & (t <= 1.0), t, 0.0)
    step = t * half / ((1.0 - t) + t * half)
    chord = on.ends - on.starts
    return np.asarray(on.starts.real + chord.real * step.real - chord.imag * step.imag)


def _finite(travel: Reals) -> Reals:
    return np.where(np.isfinite(travel), travel, 0.0)


def _or_never(travel: Reals) -> Reals:
    """Travel with "no such place" (nan) as "never" (inf)."""
    return np.where(np.isnan(travel), np.inf, travel)


def _pick(group: _Group, along: complex) -> Contact:
    """The best candidate of a group in a single pose, back in the frame of the curves."""
    at = np.unravel_index(int(np.argmin(group.travel)), group.travel.shape)
    travel = float(group.travel[at])
    place = complex(np.broadcast_to(group.place, group.travel.shape)[at])
    point = (place + travel) * along if np.isfinite(travel) else 0j
    return Contact(travel, point, group.what)
