"""Polygons of another library, made of fine chords: an independent answer at a stated error."""

from __future__ import annotations

import numpy as np
import shapely

from profilegen.geometry.chain import Chain, Contour, Curve
from profilegen.geometry.measure import tessellate


def polygon(contour: Contour, error: float = 1e-5) -> shapely.Polygon:
    """The contour as a polygon whose chords lie within `error` mm of it."""
    at = tessellate(contour, error)
    return shapely.Polygon(np.stack((at.real, at.imag), axis=1))


def line(curve: Curve, error: float = 1e-5) -> shapely.LineString:
    """The curve as a string of chords within `error` mm of it."""
    at = tessellate(curve, error)
    at = at if isinstance(curve, Chain) else np.append(at, at[0])
    return shapely.LineString(np.stack((at.real, at.imag), axis=1))


def travel_by_chords(
    moving: Curve, fixed: Curve, direction: complex, error: float = 1e-5
) -> float | None:
    """First contact of the chords of two curves: every vertex against every chord, both ways."""
    along = direction / abs(direction)
    (m0, m1), (f0, f1) = (_chords(curve, along, error) for curve in (moving, fixed))
    best = min(_ahead(m0, f0, f1, 1.0), _ahead(m1, f0, f1, 1.0))
    best = min(best, _ahead(f0, m0, m1, -1.0), _ahead(f1, m0, m1, -1.0))
    return None if np.isinf(best) else best


def _chords(curve: Curve, along: complex, error: float) -> tuple[np.ndarray, np.ndarray]:
    at = tessellate(curve, error) / along
    if isinstance(curve, Contour):
        return at, np.roll(at, -1)
    return at[:-1], at[1:]


def _ahead(vertex: np.ndarray, start: np.ndarray, end: np.ndarray, sign: float) -> float:
    """Least travel between vertices and the chords that their level lines meet."""
    v = vertex[:, None]
    rise = np.where(end.imag == start.imag, np.nan, end.imag - start.imag)
    t = (v.imag - start.imag) / rise
    x = start.real + t * (end.real - start.real)
    travel = np.where((t >= 0) & (t <= 1), sign * (x - v.real), np.inf)
    return float(np.min(travel))
