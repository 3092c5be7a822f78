"""Clipping to rectangles and discs, against fine polygons in shapely."""

from __future__ import annotations

import cmath
import math
from collections.abc import Iterable

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import Polygon, box

from profilegen.drawing.boxes import Box
from profilegen.drawing.clipping import clip_area, clip_curve
from profilegen.drawing.view import View
from profilegen.geometry.arcs import lengths, points_at
from profilegen.geometry.chain import Contour, Curve, chain, circle, contour, reverse


def fine(curve: Contour) -> Polygon:
    """A contour as a polygon of 200 chords an arc."""
    points = list[complex]()
    for a, b, k in zip(curve.starts, curve.ends, curve.bulges, strict=True):
        count = 200 if k else 1
        one = np.full(count, a), np.full(count, b), np.full(count, k), np.arange(count) / count
        points += points_at(*one).tolist()
    return Polygon([(z.real, z.imag) for z in points])


def area(contours: Iterable[Contour]) -> float:
    """Signed area by chords and segments of circles."""
    total = 0.0
    for each in contours:
        total += float(np.sum((each.starts.conj() * each.ends).imag)) / 2
        sweep, chord = 4 * np.arctan(each.bulges), np.abs(each.ends - each.starts)
        with np.errstate(divide="ignore", invalid="ignore"):
            radius = chord / 2 / np.abs(np.sin(sweep / 2))
            cap = radius**2 / 2 * (sweep - np.sin(sweep))
        total += float(np.sum(np.where(each.bulges == 0, 0.0, cap)))
    return total


def length(curves: Iterable[Curve]) -> float:
    """Total length of curves."""
    return sum(float(np.sum(lengths(c.starts, c.ends, c.bulges))) for c in curves)


STAR = contour(
    [20 * cmath.exp(2j * math.pi * k / 12) * (1.0 if k % 2 else 0.7) for k in range(12)],
    [0.2, -0.1] * 6,
)
HOLE = reverse(circle(0.5 + 0j, 6.0))
WINDOWS = st.builds(
    lambda x, y, w, h: Box(x, y, x + w, y + h),
    *(
        st.floats(low, high).map(lambda size: round(size, 6))
        for low, high in ((-22, 20), (-22, 20), (1, 30), (1, 30))
    ),
)
"""Rounded to a millionth: of a window that begins at 1e-323 the outside library loses 0.03 mm2."""


@given(WINDOWS)
def test_clipped_area_is_the_true_one(window: Box) -> None:
    """The area inside any window is that of fine polygons cut by an outside library."""
    got = area(clip_area((STAR, HOLE), window))
    want = (
        fine(STAR)
        .difference(fine(HOLE))
        .intersection(box(window.x0, window.y0, window.x1, window.y1))
        .area
    )
    assert got == pytest.approx(want, abs=0.02)


@given(WINDOWS)
def test_clipped_length_is_the_true_one(window: Box) -> None:
    """The length inside any window is that of fine chords cut by an outside library."""
    got = length(clip_curve(STAR, window))
    want = fine(STAR).exterior.intersection(box(window.x0, window.y0, window.x1, window.y1)).length
    assert got == pytest.approx(want, abs=0.02)


def test_whole_contour_stays_a_contour() -> None:
    """A contour inside the window comes back closed; one outside does not come back."""
    assert isinstance(clip_curve(STAR, Box(-30, -30, 30, 30))[0], Contour)
    assert clip_curve(STAR, Box(40, 40, 50, 50)) == ()


def test_window_inside_the_metal_is_full() -> None:
    """A window that no edge passes is full when it lies in the metal, empty when in the hole."""
    inside, hollow = Box(9, -1, 11, 1), Box(-1, -1, 1, 1)
    assert area(clip_area((STAR, HOLE), inside)) == pytest.approx(4.0)
    assert clip_area((STAR, HOLE), hollow) == ()


def test_cut_curves_stay_what_they_are() -> None:
    """A line is cut on the edge itself, an arc stays the same arc."""
    (line,) = clip_curve(chain([-10 + 1j, 10 + 1j]), Box(-5, 0, 5, 5))
    assert line.points == pytest.approx([-5 + 1j, 5 + 1j], abs=1e-12)
    (arc,) = clip_curve(chain([-8 + 0j, 8 + 0j], [1.0]), Box(-5, -20, 5, 20))
    assert np.abs(arc.points) == pytest.approx(8.0, abs=1e-9)


def test_view_places_points_and_curves_alike() -> None:
    """A point of a curve goes where the view puts the point."""
    view = View(5.0, 100 + 80j, 18 + 1j)
    placed = view.curve(STAR)
    assert placed.points[3] == pytest.approx(view.point(complex(STAR.points[3])), abs=1e-9)
    assert view.point(18 + 1j) == pytest.approx(100 + 80j)


def test_view_shows_only_its_window() -> None:
    """All that a view draws lies in its window, areas and lines."""
    window = Box(70, 80, 130, 120)
    view = View(5.0, window.centre, 18 + 1j, window)
    drawn = [*view.stroke(STAR, HOLE).curves, *view.area((STAR,))]
    assert drawn
    points = np.concatenate([curve.points for curve in drawn])
    assert points.real == pytest.approx(np.clip(points.real, 70, 130), abs=1e-9)
    assert points.imag == pytest.approx(np.clip(points.imag, 80, 120), abs=1e-9)
