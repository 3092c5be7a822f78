"""Split, keep, join: areas of lines and arcs put together and taken apart.

Owns the three verbs and what is built on them: `subtract`, `intersect`, `unite`, `clip`. Curves
are split where they meet, so that arcs stay arcs; the pieces wanted are kept by one look at each
side; what is kept is joined at points that are the same bit for bit. A region is one contour or a
tuple of them: outer contours counter-clockwise, holes clockwise, none crossing another.
Refuses contours that cross themselves (see `validity`): the answer would mean nothing.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Literal, TypeAlias

import numpy as np

from profilegen.geometry.arcs import lengths, middles, points_at, radii, start_tangents
from profilegen.geometry.chain import Chain, Contour, Curve, Indices, Points, Reals, Roles, reverse
from profilegen.geometry.crossings import (
    Crossings,
    Segments,
    candidate_pairs,
    crossings,
)
from profilegen.geometry.measure import (
    area,
    bounds,
    length,
    middle_of,
    nearest,
    segment_boxes,
    windings,
)
from profilegen.geometry.tolerance import SAME_ANGLE, SAME_POINT, SHORTEST_CHORD

Region: TypeAlias = Contour | Sequence[Contour]
Where = Literal["inside", "outside", "on"]
_Place = Literal["inside", "outside", "with", "against"]
_Wanted: TypeAlias = dict[_Place, bool]


@dataclass(frozen=True, slots=True)
class _Station:
    """A place where a curve is cut: segment, fraction of its length, and the point to use."""

    segment: int
    fraction: float
    point: complex


def subtract(a: Region, b: Region) -> tuple[Contour, ...]:
    """The part of region `a` that is not in region `b`: outer contours counter-clockwise, holes
    clockwise, mm; none where nothing is left. What is thinner than `SAME_POINT` is left out.
    """
    return _combined(a, b, {"outside": False, "against": False}, {"inside": True})


def intersect(a: Region, b: Region) -> tuple[Contour, ...]:
    """The part common to two regions: outer contours and holes, mm, as `subtract` gives them."""
    return _combined(a, b, {"inside": False, "with": False}, {"inside": False})


def unite(a: Region, b: Region) -> tuple[Contour, ...]:
    """All that is in one region or the other: outer contours and holes, mm, as `subtract` gives
    them.
    """
    return _combined(a, b, {"outside": False, "with": False}, {"outside": False})


def clip(chain: Chain, region: Region, inside: bool = True) -> tuple[Chain, ...]:
    """The parts of an open chain inside (or outside) a region, in order along the chain.

    Args:
        chain: mm; arcs stay arcs, each segment keeps its role.
        region: outer contours counter-clockwise, holes clockwise, in the same frame.
        inside: True for what lies within; what lies on the region's edge counts as inside.
    """
    contours = _contours(region)
    pieces = list(
        _cut(chain, [at for c in contours for at in _stations(chain, crossings(chain, c))])
    )
    wanted = [(where != "outside") == inside for where in map(_sorter(contours), pieces)]
    kept: list[Chain] = []
    for piece, want, before in zip(pieces, wanted, [False, *wanted], strict=False):
        if want and before:
            kept[-1] = _welded(kept[-1], piece)
        elif want:
            kept.append(piece)
    return tuple(kept)


def split(curve: Curve, segments: Sequence[int], fractions: Sequence[float]) -> tuple[Chain, ...]:
    """Cut a curve in pieces; arcs stay arcs, roles stay.

    Pieces come in order along the curve; a contour's first piece begins at its first cut. A
    contour with one cut or none comes back as one chain that ends where it starts. Cuts nearer
    than `SHORTEST_CHORD` to each other or to a vertex are made there once.

    Args:
        curve: a chain or a contour, mm.
        segments: which segment each cut is on, from 0.
        fractions: where on it, 0 to 1 by length; as many as `segments`.
    """
    at = np.asarray(segments, dtype=np.intp)
    points = _points_on(curve, at, np.asarray(fractions, dtype=np.float64))
    stations = [
        _snapped(curve, _Station(int(k), float(f), complex(p)))
        for k, f, p in zip(at, fractions, points, strict=True)
    ]
    return tuple(_cut(curve, stations))


def keep(pieces: Iterable[Chain], region: Region, where: Where) -> tuple[Chain, ...]:
    """Those pieces that lie inside, outside or on the edge of a region.

    Every piece must lie on one side as a whole: `split` them where they cross the region first.
    """
    sort = _sorter(_contours(region))
    return tuple(piece for piece in pieces if sort(piece) == where)


def join(pieces: Iterable[Chain]) -> tuple[Contour, ...]:
    """Pieces (mm, the region on their left) put end to end into contours that do not cross or touch
    themselves.

    Where several pieces leave a point the walk turns as far left as it can: that is round the
    region on its left. Contours thinner than `SAME_POINT` are left out.

    Raises:
        ValueError: the pieces do not close; ends must meet bit for bit.
    """
    left = list(pieces)
    leaving: dict[complex, list[int]] = defaultdict(list)
    for number, piece in enumerate(left):
        leaving[complex(piece.points[0])].append(number)
    loops: list[list[Chain]] = []
    for number in range(len(left)):
        if number in leaving[complex(left[number].points[0])]:
            loops.extend(_parted(_walk(left, leaving, number)))
    contours = (_closed(loop) for loop in loops)
    return tuple(contour for contour in contours if contour is not None)


def _combined(a: Region, b: Region, from_a: _Wanted, from_b: _Wanted) -> tuple[Contour, ...]:
    """Pieces of both regions, those wanted kept (True: run backwards), joined."""
    left, right = _contours(a), _contours(b)
    pieces_a, pieces_b = _split_both(left, right)
    common = _Common(pieces_b)
    kept = [*_wanted(pieces_a, right, common, from_a)]
    kept += _wanted(pieces_b, left, _Common(pieces_a), from_b)
    return join(kept)


def _wanted(
    pieces: list[Chain], other: tuple[Contour, ...], common: _Common, wanted: _Wanted
) -> Iterable[Chain]:
    for piece in pieces:
        place = common.place(piece) or _side(piece, other)
        if place in wanted:
            yield reverse(piece) if wanted[place] else piece


class _Common:
    """Finds whether a piece lies on a piece of the other region, and which way that one runs."""

    def __init__(self, pieces: list[Chain]) -> None:
        self._by_ends: dict[tuple[complex, complex], list[complex]] = defaultdict(list)
        for piece in pieces:
            if len(piece) == 1:
                ends = complex(piece.points[0]), complex(piece.points[1])
                self._by_ends[ends].append(middle_of(piece))

    def place(self, piece: Chain) -> _Place | None:
        """`with` or `against` the other region's piece, or None when there is none."""
        if len(piece) > 1:
            return None
        start, end = complex(piece.points[0]), complex(piece.points[1])
        middle = middle_of(piece)
        if any(abs(middle - m) <= 2 * SAME_POINT for m in self._by_ends.get((start, end), ())):
            return "with"
        if any(abs(middle - m) <= 2 * SAME_POINT for m in self._by_ends.get((end, start), ())):
            return "against"
        return None


def _side(piece: Chain, contours: tuple[Contour, ...]) -> Literal["inside", "outside"]:
    at = np.array([middle_of(piece)])
    return "inside" if sum(int(windings(c, at)[0]) for c in contours) > 0 else "outside"


def _sorter(contours: tuple[Contour, ...]) -> Callable[[Chain], Where]:
    """A function that tells on which side of the contours a piece lies."""

    def sort(piece: Chain) -> Where:
        middle = middle_of(piece)
        if any(nearest(contour, middle)[0] <= SAME_POINT for contour in contours):
            return "on"
        return _side(piece, contours)

    return sort


def _contours(region: Region) -> tuple[Contour, ...]:
    return (region,) if isinstance(region, Contour) else tuple(region)


def _split_both(
    left: tuple[Contour, ...], right: tuple[Contour, ...]
) -> tuple[list[Chain], list[Chain]]:
    """Both regions cut where they meet, with one and the same point for both at each meeting."""
    meetings = [
        _Meeting(crossing, (p, q), k)
        for p, q in _near_pairs(left, right)
        for crossing in (crossings(left[p], right[q]),)
        for k in range(len(crossing))
    ]
    points = _shared_points(meetings, left, right)
    touching = (
        _touching(points, left, right) if len(left) + len(right) > 2 else np.zeros(0, complex)
    )
    pieces: tuple[list[Chain], list[Chain]] = ([], [])
    for side, contours in enumerate((left, right)):
        for number, contour in enumerate(contours):
            stations = [
                _snapped(contour, _Station(*meeting.on(side), point))
                for meeting, point in zip(meetings, points, strict=True)
                if meeting.pair[side] == number
            ]
            pieces[side].extend(_cut(contour, [*_passed(contour, touching), *stations]))
    return pieces


def _near_pairs(left: tuple[Contour, ...], right: tuple[Contour, ...]) -> Iterable[tuple[int, int]]:
    """Numbers of those contours whose bounds overlap, so that they can meet."""
    edge = np.array([-SAME_POINT, -SAME_POINT, SAME_POINT, SAME_POINT]) * 2
    a = np.array([bounds(contour) for contour in left]).reshape(-1, 4) + edge
    i, j = candidate_pairs(a, np.array([bounds(contour) for contour in right]).reshape(-1, 4))
    return zip(i.tolist(), j.tolist(), strict=True)


def _touching(
    points: list[complex], left: tuple[Contour, ...], right: tuple[Contour, ...]
) -> Points:
    """The shared points, and the points where contours of one region touch each other."""
    found = list(dict.fromkeys(points))
    for contours in (left, right):
        for p, q in _near_pairs(contours, contours):
            for point in crossings(contours[p], contours[q]).points.tolist() if p < q else ():
                if all(abs(point - other) > SHORTEST_CHORD for other in found):
                    found.append(point)
    return np.array(found, dtype=np.complex128)


def _passed(contour: Contour, points: Points) -> list[_Station]:
    """Stations at those points that lie on the contour.

    Where contours of one region touch, one that has no meeting there itself may lie on a contour
    of the other region that has: both must be cut there to be seen as one.
    """
    at, edge = np.stack((points.real, points.imag) * 2, axis=1), 2 * SAME_POINT
    k, j = candidate_pairs(at + np.array([-edge, -edge, edge, edge]), segment_boxes(contour))
    near = Segments(contour.starts[j], contour.ends[j], contour.bulges[j])
    on = near.gap(points[k]) <= SAME_POINT
    stations = zip(j[on], near.foot(points[k])[on], points[k][on], strict=True)
    return [_snapped(contour, _Station(int(n), float(f), complex(p))) for n, f, p in stations]


@dataclass(frozen=True, slots=True)
class _Meeting:
    """One crossing of two contours, told by their numbers."""

    crossing: Crossings
    pair: tuple[int, int]
    index: int

    @property
    def point(self) -> complex:
        return complex(self.crossing.points[self.index])

    def on(self, side: int) -> tuple[int, float]:
        """Segment and fraction on the left (0) or right (1) contour."""
        at, k = self.crossing, self.index
        if side == 0:
            return int(at.segment_a[k]), float(at.fraction_a[k])
        return int(at.segment_b[k]), float(at.fraction_b[k])


def _shared_points(
    meetings: list[_Meeting], left: tuple[Contour, ...], right: tuple[Contour, ...]
) -> list[complex]:
    """The point to use at each meeting: a vertex of the left region, or of the right, or itself.

    Meetings nearer to each other than `SHORTEST_CHORD` get the same point.
    """
    points = [
        _vertex_near(left[m.pair[0]], m.on(0)[0], m.point)
        or _vertex_near(right[m.pair[1]], m.on(1)[0], m.point)
        or (2, m.point)
        for m in meetings
    ]
    at = np.array([point for _, point in points], dtype=np.complex128)
    reach = SHORTEST_CHORD
    boxes = np.stack((at.real, at.imag, at.real + reach, at.imag + reach), axis=1)
    for i, j in zip(*candidate_pairs(boxes, boxes), strict=True):
        if abs(points[i][1] - points[j][1]) <= reach:
            points[i] = points[j] = min(points[i], points[j], key=lambda p: (p[0], p[1].real))
    return [point for _, point in points]


def _vertex_near(contour: Contour, segment: int, point: complex) -> tuple[int, complex] | None:
    """The segment's end that lies within `SHORTEST_CHORD` of the point, if one does."""
    ends = complex(contour.starts[segment]), complex(contour.ends[segment])
    best = min(ends, key=lambda end: abs(end - point))
    return (0, best) if abs(best - point) <= SHORTEST_CHORD else None


def _snapped(curve: Curve, at: _Station) -> _Station:
    """The station moved to an end of its segment where that is nearer than `SHORTEST_CHORD`."""
    here = slice(at.segment, at.segment + 1)
    span = float(lengths(curve.starts[here], curve.ends[here], curve.bulges[here])[0])
    if (1.0 - at.fraction) * span <= SHORTEST_CHORD:
        if isinstance(curve, Contour) or at.segment + 1 < len(curve):
            return _Station((at.segment + 1) % len(curve), 0.0, at.point)
        return _Station(at.segment, 1.0, at.point)
    return _Station(at.segment, 0.0, at.point) if at.fraction * span <= SHORTEST_CHORD else at


def _stations(curve: Curve, found: Crossings) -> list[_Station]:
    """Where curve a of the crossings is to be cut, at the very points of the crossings."""
    places = zip(found.segment_a, found.fraction_a, found.points, strict=True)
    return [_snapped(curve, _Station(int(k), float(f), complex(p))) for k, f, p in places]


def _cut(curve: Curve, stations: list[_Station]) -> Iterator[Chain]:
    """The pieces between stations, in order; pieces under `SHORTEST_CHORD` are left out."""
    if isinstance(curve, Chain):
        first = _Station(0, 0.0, complex(curve.points[0]))
        last = _Station(len(curve) - 1, 1.0, complex(curve.points[-1]))
        stations = [first, *stations, last]
    places = {(at.segment, at.fraction): at for at in stations}
    ordered = [places[place] for place in sorted(places)]
    if not ordered:
        yield Chain(np.append(curve.points, curve.points[:1]), curve.bulges, curve.roles)
        return
    if isinstance(curve, Contour):
        ordered.append(ordered[0])
    for first, last in pairwise(ordered):
        piece = _piece(curve, first, last)
        if piece is not None:
            yield piece


def _piece(curve: Curve, first: _Station, last: _Station) -> Chain | None:
    """The part of a curve from one station on to another (round a contour if need be)."""
    count, stop, end = len(curve), last.segment, last.fraction
    if end == 0.0:
        stop, end = (stop - 1) % count, 1.0
    many = (stop - first.segment) % count + 1
    if stop == first.segment and end <= first.fraction:
        many = count + 1
    at = (first.segment + np.arange(many)) % count
    begin = np.zeros(many)
    finish = np.ones(many)
    begin[0], finish[-1] = first.fraction, end
    part = np.tan(np.arctan(curve.bulges[at]) * (finish - begin))
    bulges = np.where(finish - begin == 1.0, curve.bulges[at], part)
    points = np.concatenate(([first.point], curve.starts[at[1:]], [last.point]))
    return _without_crumbs(points, bulges, curve.roles[at])


def _without_crumbs(points: Points, bulges: Reals, roles: Roles) -> Chain | None:
    """A chain without the segments that are too short to be one; None when none is left."""
    good = np.abs(np.diff(points)) >= SHORTEST_CHORD
    if good.all():
        return Chain(points, bulges, roles)
    if not good.any():
        return None
    kept = np.append(points[:-1][good], points[-1])
    kept[0] = points[0]
    return Chain(kept, bulges[good], roles[good])


def _points_on(curve: Curve, segments: Indices, fractions: Reals) -> Points:
    starts, ends = curve.starts[segments], curve.ends[segments]
    return points_at(starts, ends, curve.bulges[segments], fractions)


def _walk(pieces: list[Chain], leaving: dict[complex, list[int]], first: int) -> list[Chain]:
    """Pieces from the first on, each turning as far left as it can, until the first comes again."""
    path = [first]
    leaving[complex(pieces[first].points[0])].remove(first)
    while True:
        end = complex(pieces[path[-1]].points[-1])
        choice = list(leaving.get(end, ()))
        if end == complex(pieces[first].points[0]):
            choice.append(first)
        if not choice:
            raise ValueError(f"the pieces do not close: none leaves {end}")
        onward = choice[0] if len(choice) == 1 else _leftmost(pieces, path[-1], choice)
        if onward == first:
            return [pieces[number] for number in path]
        leaving[end].remove(onward)
        path.append(onward)


def _leftmost(pieces: list[Chain], arriving: int, choice: list[int]) -> int:
    """The piece that leaves with the sharpest turn to the left.

    Directions are taken to where the pieces leave one small circle round the point, so that
    pieces with a common tangent are told apart by their curvature.
    """
    back = reverse(pieces[arriving])
    away = [back, *(pieces[number] for number in choice)]
    reach = min(float(np.abs(piece.points[1] - piece.points[0])) for piece in away) / 2
    angles = [_heading(piece, reach) for piece in away]
    turns = [(angles[0] - angle) % (2 * np.pi) or 2 * np.pi for angle in angles[1:]]
    return choice[int(np.argmin(turns))]


def _heading(piece: Chain, reach: float) -> float:
    """Angle of the direction from a piece's start to where it is `reach` mm away from it, rad."""
    part = piece.starts[:1], piece.ends[:1], piece.bulges[:1]
    tangent = float(np.angle(start_tangents(*part))[0])
    lean = np.arcsin(reach / (2 * radii(*part)[0]))
    return tangent + float(np.copysign(lean, piece.bulges[0]))


def _parted(walk: list[Chain]) -> Iterator[list[Chain]]:
    """A closed walk cut into loops that pass no point twice."""
    open_: list[Chain] = []
    for piece in walk:
        open_.append(piece)
        starts = [complex(each.points[0]) for each in open_]
        if complex(piece.points[-1]) in starts:
            at = starts.index(complex(piece.points[-1]))
            yield open_[at:]
            del open_[at:]


def _closed(loop: list[Chain]) -> Contour | None:
    """A loop of pieces as a contour; None when it is thinner than `SAME_POINT`."""
    whole = loop[0]
    for piece in loop[1:]:
        whole = _welded(whole, piece)
    if len(whole) < 2:
        return None
    whole = _sealed(whole) if len(whole) > 2 else whole
    contour = Contour(whole.points[:-1], whole.bulges, whole.roles)
    return contour if abs(area(contour)) > SAME_POINT * length(contour) else None


def _welded(first: Chain, second: Chain) -> Chain:
    """Two pieces end to end; the two halves of one segment become one again."""
    points = np.concatenate((first.points, second.points[1:]))
    bulges = np.concatenate((first.bulges, second.bulges))
    roles = np.concatenate((first.roles, second.roles))
    at = len(first)
    bulge = _one_bulge(points[at - 1 : at + 2], bulges[at - 1 : at + 1])
    if bulge is None or roles[at - 1] != roles[at]:
        return Chain(points, bulges, roles)
    bulges[at] = bulge
    return Chain(np.delete(points, at), np.delete(bulges, at - 1), np.delete(roles, at - 1))


def _sealed(whole: Chain) -> Chain:
    """A closed chain whose last and first segment are made one where they are halves of one."""
    points = np.array([whole.points[-2], whole.points[0], whole.points[1]])
    bulge = _one_bulge(points, whole.bulges[[-1, 0]])
    if bulge is None or whole.roles[-1] != whole.roles[0]:
        return whole
    bulges = np.append(whole.bulges[1:-1], bulge)
    return Chain(np.append(whole.points[1:-1], whole.points[1]), bulges, whole.roles[1:])


def _one_bulge(points: Points, bulges: Reals) -> float | None:
    """Bulge of the one segment from the first to the last of three points; None if it is two."""
    quarter = float(np.sum(np.arctan(bulges)))
    if abs(quarter) > np.pi / 4 + SAME_ANGLE or abs(points[2] - points[0]) < SHORTEST_CHORD:
        return None
    whole = Segments(points[:1], points[2:], np.clip(np.tan([quarter]), -1.0, 1.0))
    on = np.append(middles(points[:2], points[1:], bulges), points[1])
    forth = np.abs(points[2] - points[0]) > np.max(np.abs(np.diff(points)))
    return float(whole.bulges[0]) if forth and np.all(whole.gap(on) <= SAME_POINT) else None
