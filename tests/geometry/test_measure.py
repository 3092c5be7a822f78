"""Measures of curves against hand-worked values, invariances and polygons of fine chords."""

from __future__ import annotations

import math

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from profilegen.geometry.arcs import points_at
from profilegen.geometry.chain import Chain, Contour, chain, circle, contour, reverse
from profilegen.geometry.distance import distance
from profilegen.geometry.measure import (
    area,
    bounds,
    contains,
    farthest,
    length,
    nearest,
    nearest_each,
    segment_boxes,
    tessellate,
    windings,
)
from profilegen.geometry.moves import SPECK, Move, moved, scaled
from tests import strategies as own
from tests.geometry.oracles import line, polygon

steady = settings(derandomize=True, deadline=None, max_examples=60)

HALF_DISC = contour([1, -1], [1, 0])


def test_circle_has_the_standard_area_and_length() -> None:
    """A disc of radius r has area pi r^2 and length 2 pi r (standard formulas)."""
    disc = circle(3 - 2j, 2.5)
    assert area(disc) == pytest.approx(math.pi * 2.5**2, rel=1e-15)
    assert length(disc) == pytest.approx(2 * math.pi * 2.5, rel=1e-15)
    assert area(HALF_DISC) == pytest.approx(math.pi / 2, rel=1e-15)


def test_bounds_reach_the_crest_of_an_arc() -> None:
    """An arc's box holds its crest, not only its ends."""
    assert bounds(HALF_DISC) == pytest.approx((-1, 0, 1, 1), abs=1e-15)
    quarter = chain([1, 1j], [math.tan(math.pi / 8)])
    assert bounds(quarter) == pytest.approx((0, 0, 1, 1), abs=1e-15)
    leaning = chain([np.exp(0.25j * math.pi), np.exp(0.75j * math.pi)], [math.tan(math.pi / 8)])
    assert bounds(leaning)[3] == pytest.approx(1, abs=1e-15)


@pytest.mark.parametrize("bulge", [1e-3, 1e-5, 2.5e-8, 1e-8, -2.5e-8])
def test_flat_arcs_keep_every_digit(bulge: float) -> None:
    """An arc of sweep 1e-7 has its mid-arc point, area and distance good to 1e-14 mm."""
    cap = contour([10, -10 + 0j, -10j], [bulge, 0, 0])
    rise = 10 * bulge
    assert area(cap) - 100 == pytest.approx(rise * 20 * 2 / 3, rel=1e-5, abs=2e-14)
    gap, place, segment = nearest(cap, 5j)
    assert gap == pytest.approx(5 - rise, abs=1e-14)
    assert place == pytest.approx(rise * 1j, abs=1e-14)
    assert segment == 0
    assert contains(cap, np.array([1j * rise * 0.9999, 1j * rise * 1.0001])).tolist() == [
        bulge > 0,
        bulge < 0,
    ]
    assert bounds(cap)[3] == pytest.approx(max(rise, 0), rel=1e-14, abs=1e-20)


def test_centre_of_a_circle_is_inside_although_it_lies_on_both_chords() -> None:
    """A point on the chord between two half turns is inside whichever way the chord runs."""
    for angle in np.linspace(0, 2 * math.pi, 97):
        disc = circle(0.3 + 0.1j, 1.7, start_angle=float(angle))
        along = 0.3 + 0.1j + np.exp(1j * angle) * np.array([-1.8, -1.6, -0.4, 0, 0.4, 1.6, 1.8])
        assert windings(disc, along).tolist() == [0, 1, 1, 1, 1, 1, 0]


def test_clockwise_contours_have_negative_area_and_winding() -> None:
    """A hole counts negative and still contains its inside."""
    hole = reverse(circle(0, 2.0))
    assert area(hole) == pytest.approx(-4 * math.pi)
    assert windings(hole, np.array([0j])).tolist() == [-1]
    assert contains(hole, np.array([0j])).tolist() == [True]


def test_distance_of_circles_is_known() -> None:
    """Circles apart, nested and crossing are as far apart as centres and radii say."""
    assert distance(circle(0, 2), circle(3 + 4j, 1)) == pytest.approx(2, abs=1e-14)
    assert distance(circle(0, 5), circle(1 + 1j, 2)) == pytest.approx(3 - math.sqrt(2), abs=1e-14)
    assert distance(circle(0, 2), circle(1, 2)) == 0
    assert distance(circle(0, 2), chain([-5 + 3j, 5 + 3j])) == pytest.approx(1, abs=1e-15)
    assert distance(chain([-5, 5]), chain([-1j, 1j])) == 0


def test_farthest_place_of_a_circle_is_across_the_centre() -> None:
    """From a point at distance d from the centre the farthest place of a circle is at d + r."""
    gap, place, _ = farthest(circle(0, 2), 3 + 4j)
    assert gap == pytest.approx(7, abs=1e-15)
    assert place == pytest.approx(-(3 + 4j) / 5 * 2, abs=1e-15)
    assert farthest(chain([0, 3, 3 + 4j]), 0)[0] == 5


def test_tessellation_keeps_vertices_and_stays_within_its_error() -> None:
    """Chords have no more sagitta than asked, and not many more points than needed."""
    disc = circle(0, 10.0)
    for error in (1.0, 1e-2, 1e-4):
        at = tessellate(disc, error)
        middles = (at + np.roll(at, -1)) / 2
        assert np.max(10 - np.abs(middles)) <= error * (1 + 1e-9)
        assert len(at) <= 2 * math.ceil(math.pi / (2 * math.acos(1 - error / 10)))
    open_ = chain([0, 1, 2 + 1j], [0, 0.5])
    assert tessellate(open_)[[0, 1, -1]].tolist() == open_.points.tolist()


@steady
@given(own.contours(), own.moves())
def test_measures_are_those_of_the_thing_wherever_it_lies(shape: Contour, move: Move) -> None:
    """Turning, shifting and mirroring change no area or length; a scale counts twice in area."""
    there = moved(shape, move)
    assert area(there) == pytest.approx(area(shape), rel=1e-10)
    assert length(there) == pytest.approx(length(shape), rel=1e-12)
    assert area(scaled(shape, 3.0)) == pytest.approx(9 * area(shape), rel=1e-10)


@steady
@given(own.contours(), own.moves(), st.floats(-10.0, 0.0))
def test_a_curve_drawn_small_keeps_its_place(shape: Contour, move: Move, power: float) -> None:
    """However small, it can be stored and moved, and its bounds are those of the thing, but for
    segments that are left out: each shifts them by less than its own length."""
    run = chain([*shape.points.tolist(), complex(shape.points[0])], shape.bulges.tolist())
    for curve in (shape, run):
        small = scaled(curve, 10.0**power)
        assert type(small) is type(curve)
        assert type(moved(small, move)) is type(curve)
        wanted = np.array(bounds(curve)) * 10.0**power
        assert np.array(bounds(small)) == pytest.approx(wanted, abs=SPECK * (1 + len(shape)))


@steady
@given(own.contours())
def test_area_agrees_with_a_polygon(shape: Contour) -> None:
    """The area is that of a polygon of chords within 1e-5 mm, to that error."""
    assert area(shape) == pytest.approx(polygon(shape).area, abs=1e-5 * length(shape))


@steady
@given(own.chains())
def test_bounds_agree_with_chords(curve: Chain) -> None:
    """Exact bounds enclose the chords and exceed them by no more than their error."""
    at = tessellate(curve, 1e-7)
    exact = np.array(bounds(curve))
    rough = np.array([at.real.min(), at.imag.min(), at.real.max(), at.imag.max()])
    assert np.all(np.abs(exact - rough) <= 2e-7)
    boxes = segment_boxes(curve)
    assert boxes[:, 0].min() == pytest.approx(exact[0])


@steady
@given(own.chains(), own.points())
def test_nearest_and_farthest_agree_with_chords(curve: Chain, point: complex) -> None:
    """Nearest and farthest place are on the curve and as near or far as the chords say."""
    gap, place, segment = nearest(curve, point)
    assert abs(place - point) == pytest.approx(gap, abs=1e-12)
    assert gap == pytest.approx(
        shapely.distance(line(curve), shapely.Point(point.real, point.imag)), abs=2e-5
    )
    assert nearest(curve, place)[0] <= 1e-12
    assert 0 <= segment < len(curve)
    far, there, _ = farthest(curve, point)
    assert far == pytest.approx(np.max(np.abs(tessellate(curve, 1e-6) - point)), abs=1e-5)
    assert nearest(curve, there)[0] <= 1e-10


@steady
@given(own.chains(), st.lists(own.points(), min_size=1, max_size=5))
def test_many_points_get_the_answers_of_one(curve: Chain, points: list[complex]) -> None:
    """`nearest_each` is `nearest` for each point."""
    gaps, places, segments = nearest_each(curve, np.array(points))
    for k, point in enumerate(points):
        assert (gaps[k], places[k], segments[k]) == nearest(curve, point)


@steady
@given(own.contours(), st.lists(own.points(), min_size=1, max_size=20))
def test_inside_agrees_with_a_polygon(shape: Contour, points: list[complex]) -> None:
    """A point clear of the contour by the chord error is inside just when the polygon says so."""
    at = np.array(points)
    clear = nearest_each(shape, at)[0] > 2e-5
    other = shapely.contains_xy(polygon(shape), at.real, at.imag)
    assert np.array_equal(contains(shape, at)[clear], other[clear])


@steady
@given(own.contours(), st.floats(1e-9, 1e-3), st.floats(0.05, 0.95))
def test_inside_is_exact_close_to_the_contour(shape: Contour, gap: float, share: float) -> None:
    """A billionth of a millimetre left of the contour is inside, right of it is not."""
    part = shape.starts, shape.ends, shape.bulges
    on = points_at(*part, np.full(len(shape), share))
    near = points_at(*part, np.full(len(shape), share + 1e-6))
    normal = 1j * (near - on) / np.abs(near - on)
    clear = np.array([nearest(shape, complex(p))[0] > gap / 2 for p in on + gap * normal])
    assert contains(shape, on + gap * normal)[clear].all() or gap > 1e-5
    assert not contains(shape, on - gap * normal)[clear].any() or gap > 1e-5


@steady
@given(own.chains(), own.chains())
def test_distance_agrees_with_chords(a: Chain, b: Chain) -> None:
    """The distance of two curves is that of their chords, to the chord error, both ways round."""
    gap = distance(a, b)
    assert gap == pytest.approx(shapely.distance(line(a), line(b)), abs=3e-5)
    assert distance(b, a) == pytest.approx(gap, abs=1e-9)
