"""The shared vocabulary of the property tests: chains, contours, moves, as hypothesis strategies.

All lengths in mm. Everything drawn is valid; contours are simple and run counter-clockwise.
"""

from __future__ import annotations

import cmath
import math

import numpy as np
from hypothesis import strategies as st

from profilegen.geometry.chain import Chain, Contour, Points, chain, circle, contour
from profilegen.geometry.moves import Move
from profilegen.geometry.validity import why_invalid


def _rounded(low: float, high: float) -> st.SearchStrategy[float]:
    """Floats to six decimals: two of them are equal, or differ by more than any tolerance."""
    return st.floats(low, high, allow_nan=False).map(lambda value: round(value, 6) + 0.0)


lengths = _rounded(0.05, 20.0)
places = _rounded(-20.0, 20.0)
angles = _rounded(-math.pi, math.pi)
QUARTER = math.tan(math.pi / 8)
bulges = st.one_of(
    st.just(0.0), st.sampled_from([1.0, -1.0, 1e-7, -1e-7]), st.floats(-1.0, 1.0, allow_nan=False)
)


def points() -> st.SearchStrategy[complex]:
    """Points of a 40 mm square round the origin."""
    return st.builds(complex, places, places)


def moves(flip: bool = True) -> st.SearchStrategy[Move]:
    """Rigid moves, mirrored ones among them unless `flip` is False."""
    turns = angles.map(lambda angle: complex(math.cos(angle), math.sin(angle)))
    return st.builds(Move, turns, points(), st.booleans() if flip else st.just(False))


@st.composite
def chains(draw: st.DrawFn, most: int = 6) -> Chain:
    """Open chains of lines and arcs that may cross themselves; flat arcs and half turns occur."""
    count = draw(st.integers(1, most))
    start = draw(points())
    steps = [cmath.rect(draw(lengths), draw(angles)) for _ in range(count)]
    at: Points = start + np.cumsum([0j, *steps])
    if (np.abs(np.diff(at)) < 1e-3).any():
        at = np.asarray(start + np.arange(count + 1), dtype=np.complex128)
    return chain(at.tolist(), [draw(bulges) for _ in range(count)], draw(st.integers(0, 10)))


@st.composite
def contours(draw: st.DrawFn, most: int = 7) -> Contour:
    """Simple counter-clockwise contours of lines and arcs, star-like about a centre."""
    if draw(st.integers(0, 5)) == 0:
        return circle(draw(points()), draw(lengths), start_angle=draw(angles))
    count = draw(st.integers(3, most))
    size = draw(lengths)
    shares = np.array([draw(st.floats(1.0, 3.0)) for _ in range(count)])
    turn = np.cumsum(shares) / np.sum(shares) * 2 * math.pi + draw(angles)
    radius = np.array([draw(st.floats(0.4, 1.0)) for _ in range(count)]) * size
    at = draw(points()) + radius * np.exp(1j * turn)
    bend = [draw(bulges) for _ in range(count)]
    for _ in range(12):
        found = contour(at.tolist(), bend)
        if why_invalid(found) is None:
            return found
        bend = [bulge / 2 for bulge in bend]
    return contour(at.tolist())


@st.composite
def discs_and_wedges(draw: st.DrawFn) -> tuple[Contour, Contour]:
    """A disc and a wedge that cuts into its edge, as a cutter cuts a tooth space."""
    radius = draw(st.floats(2.0, 20.0))
    disc = circle(0j, radius, start_angle=draw(angles))
    apex = radius * draw(st.floats(0.3, 0.95)) * np.exp(1j * draw(angles))
    lean, half = draw(st.floats(-0.5, 0.5)), draw(st.floats(0.1, 0.7))
    out = apex / abs(apex) * np.exp(1j * lean) * 3 * radius
    right, left = apex + out * np.exp(-1j * half), apex + out * np.exp(1j * half)
    return disc, contour([complex(apex), complex(right), complex(left)])


@st.composite
def grid_contours(draw: st.DrawFn) -> Contour:
    """Contours on whole millimetres with few kinds of arcs: they share edges and touch often."""
    bend = st.sampled_from([0.0, 0.0, 0.0, QUARTER, -QUARTER, 1.0, -1.0])
    corner = complex(draw(st.integers(0, 4)), draw(st.integers(0, 4)))
    width, height = draw(st.integers(1, 3)), 1j * draw(st.integers(1, 3))
    if draw(st.booleans()):
        return circle(corner, width, start_angle=draw(st.integers(0, 3)) * math.pi / 2)
    at = [corner, corner + width, corner + width + height, corner + height]
    found = contour(at, [draw(bend) for _ in at])
    return found if why_invalid(found) is None else contour(at)
