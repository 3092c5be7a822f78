"""One entity of a drawing as lines and arcs, mm.

Owns what LINE, ARC, CIRCLE and both kinds of polylines mean, and every check of their numbers.
Refuses splines, ellipses and blocks: a curve that is not lines and arcs would have to be guessed
at. Source of the codes: the published DXF reference.
"""

from __future__ import annotations

import cmath
import math
from collections.abc import Iterator
from itertools import pairwise

import numpy as np

from profilegen.dxf.tags import DxfError, Entity
from profilegen.geometry.arcs import middles
from profilegen.geometry.chain import Chain, Contour, Curve, chain, circle, close
from profilegen.geometry.moves import Move, moved
from profilegen.geometry.tolerance import SHORTEST_CHORD

FARTHEST = 1e6
"""mm. Nothing of a workshop lies or reaches farther from the origin; a rounding there is 1e-10."""

FLAT = 1e-9
"""Greatest slope of a plane, and mm of height, that count as none."""

_WORDS = {
    "INSERT": "a block (explode it)",
    "SPLINE": "a spline",
    "ELLIPSE": "an ellipse",
    "XLINE": "an endless line",
    "RAY": "an endless line",
    "VERTEX": "a point that belongs to no polyline",
}

_SMOOTHED, _IN_SPACE = 2 | 4, 8 | 16 | 64
"""Flags (code 70) of a polyline: smoothed into a curve; in space or a mesh."""

_OF_SPLINE = 16
"""Flag (code 70) of a vertex that only steers a spline."""

_OVER = Move(turn=-1.0 + 0j, flip=True)
"""From the back of the plane to its front: x the other way."""

Row = tuple[complex, float]
"""A point in mm and the bulge of the arc to the next point."""


def curve_of(entity: Entity, scale: float) -> Curve | None:
    """The curve of an entity; None when it has no length.

    Args:
        entity: as it stands in the file.
        scale: mm per unit of the drawing.

    Raises:
        DxfError: it is not lines and arcs, does not lie in the plane, or a number is missing, not
            finite or too big. The message names the entity.
    """
    try:
        return _curve(entity, scale)
    except DxfError as error:
        raise DxfError(f"{entity}: {error}") from None


def _curve(entity: Entity, scale: float) -> Curve | None:
    match entity.kind:
        case "LINE":
            curve = _line(_Numbers(entity, scale))
        case "ARC":
            curve = _from_behind(entity, _arc(_Numbers(entity, scale)))
        case "CIRCLE":
            numbers = _Numbers(entity, scale)
            curve = _from_behind(entity, circle(numbers.point(10, "centre"), numbers.radius()))
        case "LWPOLYLINE":
            curve = _from_behind(entity, _light(entity, scale))
        case "POLYLINE":
            curve = _from_behind(entity, _old(entity, scale))
        case kind:
            raise DxfError(f"this is {_WORDS.get(kind, 'not a line, an arc or a polyline')}")
    if curve is not None and _reach(curve) > FARTHEST:
        raise DxfError("an arc of it reaches farther than 1 km from the origin")
    return curve


def _reach(curve: Curve) -> float:
    """A length that no point of a curve is farther from the origin than, mm."""
    return float(np.abs(curve.points).max() + np.abs(curve.ends - curve.starts).max())


class _Numbers:
    """The numbers of an entity by code."""

    def __init__(self, entity: Entity, scale: float) -> None:
        self.values = dict(entity.pairs)
        self.scale = scale

    def point(self, code: int, words: str) -> complex:
        """The point whose x stands at a code and whose y stands at the next ten, mm."""
        return _place(self.values, code, words, self.scale)

    def radius(self) -> float:
        """The radius, mm."""
        radius = _number(self.values, 40, "the radius") * self.scale
        if not SHORTEST_CHORD <= radius <= FARTHEST:
            raise DxfError("its radius is 0, less than 0 or more than 1 km")
        return radius

    def angle(self, code: int, words: str) -> float:
        """An angle, rad."""
        return math.radians(_number(self.values, code, words))


def _number(values: dict[int, str], code: int, words: str, otherwise: float | None = None) -> float:
    """The number at a code; `otherwise` when there is none.

    Raises:
        DxfError: it is missing and must not be, or is no finite number.
    """
    text = values.get(code)
    if text is None:
        if otherwise is None:
            raise DxfError(f"{words} is missing")
        return otherwise
    try:
        number = math.nan if "_" in text else float(text)
    except ValueError:
        number = math.nan
    if not math.isfinite(number):
        raise DxfError(f"{words} is not a number")
    return number


def _place(values: dict[int, str], code: int, words: str, scale: float) -> complex:
    x = _number(values, code, f"x of the {words}") * scale
    y = _number(values, code + 10, f"y of the {words}") * scale
    if max(abs(x), abs(y)) > FARTHEST:
        raise DxfError(f"the {words} lies farther than 1 km from the origin")
    return complex(x, y)


def _line(numbers: _Numbers) -> Curve | None:
    heights = [_number(numbers.values, code, "z of an end", 0.0) for code in (30, 31)]
    if abs(heights[0] - heights[1]) * numbers.scale > FLAT:
        raise DxfError("it does not lie in the plane of the drawing")
    start, end = numbers.point(10, "start"), numbers.point(11, "end")
    return _run([(start, 0.0), (end, 0.0)], closed=False)


def _arc(numbers: _Numbers) -> Curve | None:
    """Counter-clockwise from the start angle to the end angle, in pieces under a third turn."""
    centre, radius = numbers.point(10, "centre"), numbers.radius()
    start = numbers.angle(50, "the start angle")
    end = numbers.angle(51, "the end angle")
    sweep = (end - start) % math.tau or math.tau
    count = max(1, math.ceil(sweep / (math.pi / 1.5)))
    step = sweep / count
    points = [centre + cmath.rect(radius, start + k * step) for k in range(count + 1)]
    if abs(points[1] - points[0]) < SHORTEST_CHORD:
        return None
    return chain(points, [math.tan(step / 4)] * count)


def _light(entity: Entity, scale: float) -> Curve | None:
    """A light polyline: each code 10 begins a point."""
    rows: list[dict[int, str]] = []
    whole: dict[int, str] = {}
    for code, value in entity.pairs:
        if code == 10:
            rows.append({})
        (rows[-1] if rows and code in (10, 20, 42) else whole)[code] = value
    return _run([_row(row, scale) for row in rows], closed=bool(_flags(whole) & 1))


def _old(entity: Entity, scale: float) -> Curve | None:
    """A polyline whose points are entities of their own."""
    flags = _flags(dict(entity.pairs))
    if flags & (_SMOOTHED | _IN_SPACE):
        raise DxfError("it is a polyline smoothed into a curve, or one in space")
    vertices = [dict(vertex.pairs) for vertex in entity.vertices]
    rows = [_row(values, scale) for values in vertices if not _flags(values) & _OF_SPLINE]
    return _run(rows, closed=bool(flags & 1))


def _row(values: dict[int, str], scale: float) -> Row:
    return _place(values, 10, "point", scale), _number(values, 42, "a bulge", 0.0)


def _flags(values: dict[int, str]) -> int:
    flags = _number(values, 70, "its flag", 0.0)
    if not 0 <= flags <= 32767 or flags % 1:
        raise DxfError("its flag is not a number")
    return int(flags)


def _from_behind(entity: Entity, curve: Curve | None) -> Curve | None:
    """A curve that may be drawn on the back of the plane (extrusion 0, 0, -1)."""
    values = dict(entity.pairs)
    usual = zip((210, 220, 230), (0.0, 0.0, 1.0), strict=True)
    x, y, z = (_number(values, code, "the direction of its plane", one) for code, one in usual)
    if max(abs(x), abs(y)) > FLAT * abs(z) or z == 0.0:
        raise DxfError("it does not lie in the plane of the drawing")
    match curve:
        case Contour() if z < 0:
            return moved(curve, _OVER)
        case Chain() if z < 0:
            return moved(curve, _OVER)
    return curve


def _run(rows: list[Row], closed: bool) -> Curve | None:
    """A polyline as a chain, closed by its first point; doubled points merged, big arcs halved."""
    if not rows:
        return None
    rows = [*rows, (rows[0][0], 0.0)] if closed else rows
    at = rows[0][0]
    points, bulges = [at], list[float]()
    for (_, bulge), (end, _) in pairwise(rows):
        for stop, bend in _steps(at, end, bulge):
            points.append(stop)
            bulges.append(bend)
            at = stop
    if not bulges:
        return None
    whole = chain(points, bulges)
    back = whole.points[0] == whole.points[-1] and len(whole) > 1
    return close(whole) if back else whole


def _steps(start: complex, end: complex, bulge: float) -> Iterator[tuple[complex, float]]:
    """End point and bulge of each piece of one segment, none when it has no length."""
    chord = abs(end - start)
    if chord < SHORTEST_CHORD:
        return
    if abs(bulge) <= 1.0:
        yield end, bulge
        return
    if abs(bulge) * chord > FARTHEST:
        raise DxfError("an arc of it reaches farther than 1 km from the origin")
    middle = complex(middles(np.array([start]), np.array([end]), np.array([bulge]))[0])
    half = math.tan(math.atan(bulge) / 2)
    yield middle, half
    yield end, half
