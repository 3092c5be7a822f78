"""Single segments, many at a time: arrays of starts, ends and bulges.

Owns the closed forms of one line or arc. Tangents and mid points come from chord and sweep, never
from a derived centre, which is ill-conditioned for flat arcs. All lengths in mm, angles in radians.
"""

from __future__ import annotations

import numpy as np

from profilegen.geometry.chain import Points, Reals


def sweeps(bulges: Reals) -> Reals:
    """Signed sweep of each arc, rad; 0 for a line."""
    return 4.0 * np.arctan(bulges)


def radii(starts: Points, ends: Points, bulges: Reals) -> Reals:
    """Radius of each arc, mm; infinite for a line.

    Args:
        starts: start points, mm, shape (n,).
        ends: end points, mm, the same shape or one that broadcasts.
        bulges: `tan(sweep / 4)`, 0 for a line.
    """
    with np.errstate(divide="ignore"):
        return np.abs(ends - starts) * (1.0 + bulges**2) / (4.0 * np.abs(bulges))


def centres(starts: Points, ends: Points, bulges: Reals) -> Points:
    """Centre of each arc, mm; not finite for a line. Good to rounding only for stout arcs.

    The centre of a flat arc lies far off, and every rounding of the bulge moves it: use
    `middles`, the tangents or `measure` where the arc itself is meant.
    """
    with np.errstate(divide="ignore", invalid="ignore"):
        rise = (1.0 - bulges**2) / (4.0 * bulges)
        centre = (starts + ends) / 2 + 1j * (ends - starts) * rise
    return np.asarray(np.where(bulges == 0.0, complex(np.nan, np.nan), centre))


def middles(starts: Points, ends: Points, bulges: Reals) -> Points:
    """Point half way along each segment, mm."""
    return (starts + ends) / 2 - 0.5j * bulges * (ends - starts)


def start_tangents(starts: Points, ends: Points, bulges: Reals) -> Points:
    """Unit direction of travel at each start, complex, shape (n,): no mm, its length is 1."""
    chord = ends - starts
    return np.asarray(chord / np.abs(chord) * np.exp(-0.5j * sweeps(bulges)))


def end_tangents(starts: Points, ends: Points, bulges: Reals) -> Points:
    """Unit direction of travel at each end, complex, shape (n,): no mm, its length is 1."""
    chord = ends - starts
    return np.asarray(chord / np.abs(chord) * np.exp(0.5j * sweeps(bulges)))


def points_at(starts: Points, ends: Points, bulges: Reals, fractions: Reals) -> Points:
    """Point at a fraction of the length of each segment, mm.

    Args:
        starts: start points, mm.
        ends: end points, mm; at fraction 1 they come back bit for bit.
        bulges: `tan(sweep / 4)`, 0 for a line.
        fractions: 0 at the start to 1 at the end, by length. The four shapes broadcast.
    """
    sweep = sweeps(bulges)
    with np.errstate(divide="ignore", invalid="ignore"):
        ratio = np.sin(sweep * fractions / 2) / np.sin(sweep / 2)
    ratio = np.where(np.abs(sweep) < 1e-9, fractions, ratio)
    points = starts + (ends - starts) * ratio * np.exp(0.5j * sweep * (fractions - 1.0))
    return np.asarray(np.where(fractions == 1.0, ends, points))


def lengths(starts: Points, ends: Points, bulges: Reals) -> Reals:
    """Length of each segment, mm."""
    sweep = np.abs(sweeps(bulges))
    half = np.maximum(np.sin(sweep / 2), 1e-300)
    stretch = np.where(sweep < 1e-8, 1.0, sweep / 2 / half)
    return np.abs(ends - starts) * stretch
