"""Clipping to rectangles and discs, against fine polygons in shapely."""

from __future__ import annotations

import cmath
import math
from collections.abc import Iterable

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import Point, Polygon, box
from shapely.ops import unary_union

from profilegen.drawing.boxes import Box
from profilegen.drawing.clipping import Disc, Window, clip_area, clip_curve, window_edge
from profilegen.drawing.view import View, detail
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


def shape_of(window: Window) -> Polygon:
    """A window as shapely sees it."""
    if isinstance(window, Disc):
        return Point(window.centre.real, window.centre.imag).buffer(window.radius, quad_segs=2000)
    return box(window.x0, window.y0, window.x1, window.y1)


STAR = contour(
    [20 * cmath.exp(2j * math.pi * k / 12) * (1.0 if k % 2 else 0.7) for k in range(12)],
    [0.2, -0.1] * 6,
)
HOLE = reverse(circle(0.5 + 0j, 6.0))
WINDOWS = st.one_of(
    st.builds(
        lambda x, y, w, h: Box(x, y, x + w, y + h),
        st.floats(-22, 20),
        st.floats(-22, 20),
        st.floats(1, 30),
        st.floats(1, 30),
    ),
    st.builds(Disc, st.builds(complex, st.floats(-22, 22), st.floats(-22, 22)), st.floats(1, 25)),
)


@given(WINDOWS)
def test_clipped_area_is_the_true_one(window: Window) -> None:
    """The area inside any window is that of fine polygons cut by an outside library."""
    got = area(clip_area((STAR, HOLE), window))
    want = fine(STAR).difference(fine(HOLE)).intersection(shape_of(window)).area
    assert got == pytest.approx(want, abs=0.02)


@given(WINDOWS)
def test_clipped_length_is_the_true_one(window: Window) -> None:
    """The length inside any window is that of fine chords cut by an outside library."""
    got = length(clip_curve(STAR, window))
    want = fine(STAR).exterior.intersection(shape_of(window)).length
    assert got == pytest.approx(want, abs=0.02)


def test_whole_contour_stays_a_contour() -> None:
    """A contour inside the window comes back closed; one outside does not come back."""
    assert isinstance(clip_curve(STAR, Box(-30, -30, 30, 30))[0], Contour)
    assert clip_curve(STAR, Box(40, 40, 50, 50)) == ()


def test_window_inside_the_metal_is_full() -> None:
    """A window that no edge passes is full when it lies in the metal, empty when in the hole."""
    inside, hollow = Disc(10 + 0j, 1.0), Box(-1, -1, 1, 1)
    assert area(clip_area((STAR, HOLE), inside)) == pytest.approx(math.pi)
    assert clip_area((STAR, HOLE), hollow) == ()


def test_cut_ends_lie_on_the_circle() -> None:
    """A line is cut on the circle itself, an arc stays the same arc."""
    (line,) = clip_curve(chain([-10 + 1j, 10 + 1j]), Disc(0j, 5.0))
    assert np.abs(line.points) == pytest.approx(5.0, abs=1e-12)
    (arc,) = clip_curve(chain([-8 + 0j, 8 + 0j], [1.0]), Box(-5, -20, 5, 20))
    assert np.abs(arc.points) == pytest.approx(8.0, abs=1e-9)


def test_window_edges_are_closed() -> None:
    """The edge of a window has the window's area."""
    assert area([window_edge(Disc(1j, 2.0))]) == pytest.approx(4 * math.pi)
    assert area([window_edge(Box(0, 0, 2, 3))]) == pytest.approx(6.0)


def test_view_places_points_and_curves_alike() -> None:
    """A point of a curve goes where the view puts the point."""
    view = View(5.0, 100 + 80j, 18 + 1j, 0.3)
    placed = view.curve(STAR)
    assert placed.points[3] == pytest.approx(view.point(complex(STAR.points[3])), abs=1e-9)
    assert view.point(18 + 1j) == pytest.approx(100 + 80j)
    assert view.length(2.0) == pytest.approx(10.0)


def test_detail_shows_only_its_window() -> None:
    """All that an enlarged detail draws lies in its window."""
    window = Disc(100 + 100j, 30.0)
    view = detail(5.0, 18 + 1j, window)
    drawn = view.stroke(STAR, HOLE)
    reach = [np.abs(curve.points - window.centre).max() for curve in drawn.curves]
    assert max(reach) <= 30.0 + 1e-9
    assert view.shows(18 + 1j)
    assert not view.shows(0j)
    assert unary_union([fine(c) for c in view.area((STAR,))]).area < math.pi * 900
