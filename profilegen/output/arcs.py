"""Curves as steps that a back end can spell: lines and arcs of at most a quarter turn.

Owns the cutting of arcs for output. A half turn written with rounded numbers loses its centre
(sqrt(2 r e) off for an error e), a quarter turn does not. Refuses formats.
"""

from __future__ import annotations

from collections.abc import Iterator
from math import atan, cos, sin, tan
from typing import NamedTuple

import numpy as np

from profilegen.geometry.arcs import middles, radii
from profilegen.geometry.chain import Curve, Points, Reals

QUARTER = tan(np.pi / 8)
"""The bulge of a quarter turn."""


class Step(NamedTuple):
    """One line or arc of a curve.

    Attributes:
        start: mm.
        end: mm.
        bulge: `tan(sweep / 4)`, 0 for a line, at most that of a quarter turn.
        radius: mm, infinite for a line.
    """

    start: complex
    end: complex
    bulge: float
    radius: float


def steps(curve: Curve) -> Iterator[Step]:
    """The segments of a curve in order, mm; arcs over a quarter turn come as two halves."""
    starts, ends, bulges = _halved(curve.starts, curve.ends, curve.bulges)
    rows = zip(starts, ends, bulges, radii(starts, ends, bulges), strict=True)
    return (Step(complex(a), complex(b), float(k), float(r)) for a, b, k, r in rows)


def cubics(step: Step, error: float) -> tuple[tuple[complex, complex, complex], ...]:
    """An arc as cubic curves: two control points and the end point of each, mm.

    The error of the usual cubic (handles of 4/3 tan(sweep / 4) radii) is
    2/27 r sin(sweep/4)^6 / cos(sweep/4)^2: no published source, checked in the tests by sampling.

    Args:
        step: an arc, not a line.
        error: greatest distance from the arc, mm on the page; smaller takes more cubics.
    """
    sweep = 4.0 * atan(step.bulge)
    count = next(n for n in range(1, 100) if _cubic_error(sweep / n, step.radius) <= error)
    part, chord = sweep / count, step.end - step.start
    centre = step.start + chord / 2 + 0.5j * chord / tan(sweep / 2)
    arm = step.start - centre
    handle = 4.0 / 3.0 * tan(part / 4) * 1j
    spin = complex(cos(part), sin(part))
    pieces = []
    for index in range(count):
        tip = arm * spin
        end = step.end if index == count - 1 else centre + tip
        pieces.append((centre + arm * (1 + handle), centre + tip * (1 - handle), end))
        arm = tip
    return tuple(pieces)


def is_flat(step: Step, error: float) -> bool:
    """Whether a step is a line, or an arc that may be drawn as one.

    Args:
        step: a segment, mm on the page.
        error: how far an arc may rise above its chord, mm.
    """
    return abs(step.bulge) * abs(step.end - step.start) / 2 <= error


def _cubic_error(sweep: float, radius: float) -> float:
    return 2.0 / 27.0 * radius * float(sin(sweep / 4) ** 6) / float(cos(sweep / 4) ** 2)


def _halved(starts: Points, ends: Points, bulges: Reals) -> tuple[Points, Points, Reals]:
    big = np.abs(bulges) > QUARTER * (1 + 1e-12)
    if not big.any():
        return starts, ends, bulges
    times = np.where(big, 2, 1)
    first = np.cumsum(times) - times
    mids = middles(starts, ends, bulges)
    half = np.where(big, np.tan(np.arctan(bulges) / 2), bulges)
    out_starts, out_ends = np.repeat(starts, times), np.repeat(ends, times)
    out_ends[first[big]] = mids[big]
    out_starts[first[big] + 1] = mids[big]
    return out_starts, out_ends, np.repeat(half, times)
