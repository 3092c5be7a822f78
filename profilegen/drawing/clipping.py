"""Curves and areas cut to a window, exactly, lines staying lines and arcs arcs.

Owns the cutting to an upright rectangle. Refuses other windows, and the joining of areas with each
other (`geometry`).
"""

from __future__ import annotations

import cmath
from bisect import bisect_left
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from math import atan, isclose, pi, sqrt, tan

import numpy as np

from profilegen.drawing.boxes import Box
from profilegen.drawing.scan import is_inside
from profilegen.geometry.arcs import centres, points_at, radii
from profilegen.geometry.chain import Contour, Curve, Points, Reals, chain, contour

_SAME = 1e-6
"""mm on paper. Points nearer than this are one point of a cut curve."""


@dataclass(frozen=True, slots=True)
class _Run:
    """Consecutive segments inside a window: points, bulges, and whether it closes on itself."""

    points: tuple[complex, ...]
    bulges: tuple[float, ...]
    whole: bool = False


def clip_curve(curve: Curve, window: Box) -> tuple[Curve, ...]:
    """The parts of a curve inside a window, in order; a contour wholly inside stays a contour.

    Args:
        curve: mm on the page; its roles are not kept, for paper has no use for them.
        window: what of it is to be seen.
    """
    return tuple(
        contour(run.points[:-1], run.bulges) if run.whole else chain(run.points, run.bulges)
        for run in _runs(curve, window)
    )


def clip_area(contours: Sequence[Contour], window: Box) -> tuple[Contour, ...]:
    """The part of an area inside a window, as contours along the area's edge and the window's.

    Where its edge leaves the window, the cut area goes on counter-clockwise along the window's edge
    to the next place where it comes back in.

    Args:
        contours: outer ones counter-clockwise, holes clockwise, none crossing another, mm on the
            page.
        window: what of it is to be seen.
    """
    runs = [run for each in contours for run in _runs(each, window)]
    whole = [contour(run.points[:-1], run.bulges) for run in runs if run.whole]
    parts = [run for run in runs if not run.whole]
    if parts:
        return (*whole, *_closed(parts, window))
    if is_inside(contours, window.corners[0]):
        return (contour(window.corners), *whole)
    return tuple(whole)


def _runs(curve: Curve, window: Box) -> list[_Run]:
    """The runs of a curve inside a window; the first and last of a contour are joined."""
    points, bulges = _split(curve, window)
    middle = points_at(points[:-1], points[1:], bulges, np.full(len(bulges), 0.5))
    keep = [_holds(window, complex(z)) for z in middle]
    if keep and all(keep) and isinstance(curve, Contour):
        return [_Run(tuple(points.tolist()), tuple(bulges.tolist()), whole=True)]
    if isinstance(curve, Contour) and any(keep):
        first = keep.index(False) + 1
        points = np.concatenate((np.roll(points[:-1], -first), [points[first % len(bulges)]]))
        bulges = np.roll(bulges, -first)
        keep = keep[first:] + keep[:first]
    return list(_gathered(points.tolist(), bulges.tolist(), keep))


def _gathered(points: list[complex], bulges: list[float], keep: list[bool]) -> Iterator[_Run]:
    start = None
    for index, inside in enumerate([*keep, False]):
        if inside and start is None:
            start = index
        elif not inside and start is not None:
            yield _Run(tuple(points[start : index + 1]), tuple(bulges[start:index]))
            start = None


def _split(curve: Curve, window: Box) -> tuple[Points, Reals]:
    """Points (one more than bulges) and bulges with a point wherever the curve meets the edge."""
    starts, ends, bulges = curve.starts, curve.ends, curve.bulges
    points, parts = [complex(starts[0])], list[float]()
    for a, b, k in zip(starts.tolist(), ends.tolist(), bulges.tolist(), strict=True):
        cuts = sorted(t for t in _crossings(a, b, k, window) if 0.0 < t < 1.0)
        last = 0.0
        for t in cuts:
            at = _along(a, b, k, t)
            if abs(at - points[-1]) > _SAME and abs(at - b) > _SAME:
                points.append(at)
                parts.append(tan(atan(k) * (t - last)))
                last = t
        points.append(b)
        parts.append(tan(atan(k) * (1.0 - last)))
    return np.array(points), np.array(parts)


def _along(a: complex, b: complex, bulge: float, fraction: float) -> complex:
    one = np.array([a]), np.array([b]), np.array([bulge]), np.array([fraction])
    return complex(points_at(*one)[0])


def _crossings(a: complex, b: complex, bulge: float, window: Box) -> Iterable[float]:
    """Fractions of a segment's length at which it meets the window's edge, or its lines."""
    lines = [(complex(window.x0, 0), 1.0 + 0j), (complex(window.x1, 0), 1.0 + 0j)]
    lines += [(complex(0, window.y0), 1j), (complex(0, window.y1), 1j)]
    return (t for foot, normal in lines for t in _meets_line(a, b, bulge, foot, normal))


def _meets_line(
    a: complex, b: complex, bulge: float, foot: complex, normal: complex
) -> list[float]:
    """Fractions at which a segment meets the line through `foot` square to the unit `normal`."""
    high = ((a - foot) * normal.conjugate()).real, ((b - foot) * normal.conjugate()).real
    if bulge == 0.0:
        return [] if high[0] == high[1] else [high[0] / (high[0] - high[1])]
    centre, radius = _round(a, b, bulge)
    away = ((foot - centre) * normal.conjugate()).real
    if abs(away) >= radius:
        return []
    half = sqrt(radius**2 - away**2)
    return _fractions(a, b, bulge, centre, [normal * complex(away, s * half) for s in (-1, 1)])


def _fractions(
    a: complex, b: complex, bulge: float, centre: complex, arms: Sequence[complex]
) -> list[float]:
    """Fractions of an arc at which its arm from the centre points along each of `arms`."""
    sweep = 4.0 * atan(bulge)
    turns = [cmath.phase(arm / (a - centre)) for arm in arms]
    sense = 1.0 if sweep > 0 else -1.0
    found = [((turn * sense) % (2 * pi)) / abs(sweep) for turn in turns]
    return [t for t in found if t <= 1.0]


def _round(a: complex, b: complex, bulge: float) -> tuple[complex, float]:
    one = np.array([a]), np.array([b]), np.array([bulge])
    return complex(centres(*one)[0]), float(radii(*one)[0])


def _holds(window: Box, at: complex) -> bool:
    return window.x0 <= at.real <= window.x1 and window.y0 <= at.imag <= window.y1


def _place(window: Box, at: complex) -> float:
    """Where a point of the edge lies along it, counter-clockwise: from 0 up to 4."""
    u, v = at.real - window.x0, at.imag - window.y0
    sides = [
        (abs(v), u / window.width),
        (abs(u - window.width), 1 + v / window.height),
        (abs(v - window.height), 3 - u / window.width),
        (abs(u), 4 - v / window.height),
    ]
    return min(sides)[1] % 4.0


def _closed(parts: Sequence[_Run], window: Box) -> Iterator[Contour]:
    """Runs joined along the window's edge: from where one leaves to the next that comes in."""
    entries = sorted((_place(window, run.points[0]), i) for i, run in enumerate(parts))
    places = [place for place, _ in entries]
    unused = set(range(len(parts)))
    while unused:
        first = index = min(unused)
        points, bulges = list[complex](), list[float]()
        while True:
            unused.discard(index)
            points += parts[index].points
            bulges += parts[index].bulges
            leave = _place(window, parts[index].points[-1])
            rank = bisect_left(places, leave - 1e-12) % len(entries)
            arrive, index = entries[rank]
            if index not in unused:
                index, arrive = first, _place(window, parts[first].points[0])
            corners = _corners_between(window, leave, arrive)
            points += corners
            bulges += [0.0] * (len(corners) + 1)
            if index == first:
                break
        made = _tidy(points, bulges)
        if made is not None:
            yield made


def _corners_between(window: Box, leave: float, arrive: float) -> list[complex]:
    """The window's corners strictly between two places on its edge, counter-clockwise."""
    span = (arrive - leave) % 4.0
    if isclose(span, 4.0, abs_tol=1e-12):
        span = 0.0
    stops = [s for s in (int(leave) + k for k in range(1, 6)) if leave < s < leave + span]
    return [window.corners[stop % 4] for stop in stops]


def _tidy(points: list[complex], bulges: list[float]) -> Contour | None:
    """A contour without its shortest segments; None when nothing with an area is left."""
    kept, bends = list[complex](), list[float]()
    for index, (at, bend) in enumerate(zip(points, bulges, strict=True)):
        after = points[(index + 1) % len(points)]
        if abs(after - at) > _SAME:
            kept.append(at)
            bends.append(bend)
    if len(kept) < 2 or (len(kept) == 2 and not any(bends)):
        return None
    return contour(kept, bends)
