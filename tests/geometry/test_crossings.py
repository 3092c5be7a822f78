"""Crossings against hand-worked cases, chords, and the pairs of a plain comparison."""

from __future__ import annotations

import math

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from profilegen.geometry.arcs import points_at
from profilegen.geometry.chain import Chain, Curve, chain, circle, contour
from profilegen.geometry.crossings import Crossings, candidate_pairs, crossings, self_crossings
from profilegen.geometry.moves import Move, moved
from tests import strategies as own
from tests.geometry.oracles import line

steady = settings(derandomize=True, deadline=None, max_examples=60)


def on_both(found: Crossings, a: Curve, b: Curve) -> float:
    """Greatest distance between a told point and the places told on the two curves, mm."""
    worst = 0.0
    for curve, segment, fraction in (
        (a, found.segment_a, found.fraction_a),
        (b, found.segment_b, found.fraction_b),
    ):
        part = curve.starts[segment], curve.ends[segment], curve.bulges[segment]
        gaps = np.abs(points_at(*part, fraction) - found.points)
        worst = max(worst, float(np.max(gaps, initial=0.0)))
    return worst


def test_two_lines_cross_where_they_must() -> None:
    """Lines cross at the fractions of their lengths."""
    found = crossings(chain([0, 4]), chain([1 - 1j, 1 + 3j]))
    assert found.points.tolist() == [1 + 0j]
    assert (found.fraction_a.tolist(), found.fraction_b.tolist()) == ([0.25], [0.25])


def test_two_circles_cross_where_the_radical_line_says() -> None:
    """Circles of radii r and R at distance d cross at x = (d^2 + r^2 - R^2) / 2d."""
    found = crossings(circle(0, 2), circle(3, 1.5))
    x = (9 + 4 - 2.25) / 6
    expected = x + 1j * math.sqrt(4 - x * x) * np.array([1, -1])
    assert found.points == pytest.approx(expected, abs=1e-14)


def test_line_through_a_circle_crosses_twice() -> None:
    """A chord cuts a circle at both its ends."""
    found = crossings(chain([-5 + 1j, 5 + 1j]), circle(0, 2, start_angle=0.3))
    assert found.points == pytest.approx(np.array([-1, 1]) * math.sqrt(3) + 1j, abs=1e-14)


@pytest.mark.parametrize("angle", np.linspace(0, 6, 25))
def test_tangents_touch_once(angle: float) -> None:
    """A line and a circle, and circles outside and inside each other, touch at one point."""
    turn = Move(turn=complex(np.exp(1j * angle)), shift=3 - 7j)
    blank = moved(circle(0, 2), turn)
    straight = moved(chain([2 - 5j, 2 + 4j]), turn)
    circles = (circle(3, 1, start_angle=1), circle(0.5, 1.5, start_angle=1))
    others: list[Curve] = [straight, *(moved(each, turn) for each in circles)]
    for other in others:
        found = crossings(blank, other)
        assert len(found) == 1
        assert abs(found.points[0] - turn(2 + 0j)) < 2e-7


def test_curves_a_hair_apart_do_not_touch() -> None:
    """What is 2e-9 mm apart does not meet; what is 1e-10 mm apart does."""
    assert len(crossings(circle(0, 2), circle(4 + 2e-9, 2))) == 0
    assert len(crossings(circle(0, 2), circle(4 + 1e-10, 2))) == 1


def test_overlapping_lines_tell_the_ends_of_the_overlap() -> None:
    """Lines on each other meet where the common stretch begins and ends, and nowhere between."""
    found = crossings(chain([0, 10]), chain([3 + 1j, 3, 5, 5 - 1j]))
    assert found.points.tolist() == [3, 5]
    assert len(crossings(chain([0, 4]), chain([6, 2]))) == 2


def test_overlapping_arcs_tell_the_ends_of_the_overlap() -> None:
    """Arcs of one circle meet where the common stretch begins and ends."""
    a, b = circle(0, 2), moved(chain([2, 2j], [math.tan(math.pi / 8)]), Move(turn=0.6 + 0.8j))
    found = crossings(a, b)
    assert found.points == pytest.approx(np.array([1.2 + 1.6j, -1.6 + 1.2j]), abs=1e-14)
    assert len(crossings(a, circle(0, 2, start_angle=1.0))) == 4


def test_vertex_is_told_once() -> None:
    """A curve through a vertex meets it once, at the start of the segment that begins there."""
    found = crossings(chain([0, 1 + 1j, 2]), chain([1 - 5j, 1 + 1j, 1 + 5j]))
    assert found.segment_a.tolist() == [1]
    assert found.fraction_a.tolist() == [0]
    assert (found.segment_b.tolist(), found.fraction_b.tolist()) == ([1], [0])
    end = crossings(chain([0, 1 + 1j]), chain([1 - 5j, 1 + 5j]))
    assert (end.segment_a.tolist(), end.fraction_a.tolist()) == ([0], [1])


@pytest.mark.parametrize("bulge", [1e-3, 1e-6, 2.5e-8, -2.5e-8])
def test_flat_arcs_cross_as_exactly_as_lines(bulge: float) -> None:
    """An arc of sweep 1e-7 crosses a line at the height of its rise, to 1e-14 mm."""
    found = crossings(chain([10, -10 + 0j], [bulge]), chain([-3j, 3j]))
    assert found.points == pytest.approx(np.array([10j * bulge]), abs=1e-14)
    two = crossings(chain([10, -10 + 0j], [bulge]), chain([10, -10 + 0j], [-bulge]))
    assert two.points.tolist() == [10, -10]


def test_figure_of_eight_crosses_itself() -> None:
    """A bow tie crosses itself in its middle; a square and a circle do not."""
    found = self_crossings(contour([0, 2 + 2j, 2, 2j]))
    assert found.points.tolist() == [1 + 1j]
    assert (found.segment_a.tolist(), found.segment_b.tolist()) == ([0], [2])
    assert len(self_crossings(contour([0, 2, 2 + 2j, 2j]))) == 0
    assert len(self_crossings(circle(0, 1))) == 0


def test_neighbours_are_crossings_where_they_meet_again() -> None:
    """Neighbours' joint is no crossing, their second meeting is; so is a turn straight back."""
    arc = chain([0, 4, 1.5j], [-1.0, 0.0])
    assert len(self_crossings(arc)) == 1
    assert self_crossings(chain([0, 4, 1])).points.tolist() == [1]
    assert self_crossings(contour([0, 4, 4 + 4j, 4 + 2j])).points.tolist() == [4 + 2j]


def test_smooth_joint_of_line_and_arc_is_no_crossing() -> None:
    """A line that runs into an arc without a corner shares only the joint with it."""
    for angle in np.linspace(0, 6, 50):
        smooth = chain([-5, 0, 1 + 1j, 1 + 4j], [0, math.tan(math.pi / 8), 0])
        assert len(self_crossings(moved(smooth, Move(complex(np.exp(1j * angle)), 30 - 7j)))) == 0


@steady
@given(own.chains(), own.chains(), own.moves())
def test_crossings_lie_on_both_curves(a: Chain, b: Chain, move: Move) -> None:
    """Each told point is at the told fraction of both curves."""
    a, b = moved(a, move), moved(b, move)
    found = crossings(a, b)
    assert on_both(found, a, b) <= 1e-9
    again = crossings(b, a)
    assert on_both(again, b, a) <= 1e-9


@steady
@given(own.chains(), own.chains())
def test_crossings_are_those_of_chords(a: Chain, b: Chain) -> None:
    """Every clear crossing of fine chords is told, and nothing that the chords keep apart."""
    found = crossings(a, b).points
    rough = shapely.get_coordinates(shapely.intersection(line(a), line(b)))
    for x, y in rough:
        gap = np.min(np.abs(found - complex(x, y)), initial=np.inf)
        assert gap < 0.05 or shapely.distance(line(a), line(b)) < 1e-4
    for point in found:
        spot = shapely.Point(point.real, point.imag)
        assert max(shapely.distance(line(a), spot), shapely.distance(line(b), spot)) <= 2e-5


@steady
@given(st.integers(0, 2**32 - 1))
def test_swept_pairs_are_those_of_a_plain_comparison(seed: int) -> None:
    """The sorted sweep finds the very pairs that comparing all with all finds, in order."""
    random = np.random.default_rng(seed)
    low = np.round(random.uniform(0, 100, (2, 300, 2)), 1)
    size = np.round(random.exponential(0.5, (2, 300, 2)) * random.choice([1, 40], (2, 300, 1)), 1)
    boxes = np.concatenate((low, low + size), axis=2)
    assert len(boxes[0]) * len(boxes[1]) > 1 << 15
    found = candidate_pairs(boxes[0], boxes[1])
    a, b = boxes[0][:, None], boxes[1][None]
    meet = (a[..., :2] <= b[..., 2:]).all(axis=2) & (b[..., :2] <= a[..., 2:]).all(axis=2)
    assert np.array_equal(np.stack(found), np.stack(np.nonzero(meet)))
