"""Hatching: total length against area, ends on the edge."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import LineString, Polygon, box
from shapely.affinity import rotate

from profilegen.drawing.hatch import GOUGE, LEFT_OVER, hatch, hatch_lines
from profilegen.geometry.chain import circle, contour, reverse


@given(st.floats(-7, 7), st.floats(0.05, 0.4))
def test_length_is_area_over_spacing(angle: float, spacing: float) -> None:
    """The lines' total length times their spacing is the ring's area, pi (5^2 - 2^2)."""
    ring = (circle(30 + 40j, 5.0), reverse(circle(31 + 40j, 2.0)))
    total = sum(abs(each.points[1] - each.points[0]) for each in hatch_lines(ring, angle, spacing))
    assert total * spacing == pytest.approx(math.pi * 21, rel=0.02)


@pytest.mark.parametrize("angle", [GOUGE, LEFT_OVER, 0.0, math.pi / 2])
def test_ends_lie_on_the_circle(angle: float) -> None:
    """Every line ends on the arc itself, not on a chord of it."""
    lines = hatch_lines((circle(3 + 2j, 5.0),), angle, 0.7)
    assert lines
    ends = np.concatenate([each.points for each in lines])
    assert np.abs(np.abs(ends - (3 + 2j)) - 5.0) == pytest.approx(0.0, abs=1e-9)


def test_same_lines_as_a_polygon_clipper() -> None:
    """With vertices on the rows the lines are still those of an outside clipper (shapely)."""
    corners = [0j, 6 + 0j, 6 + 3j, 3 + 1j, 3 + 4j, 1 + 2j, 0 + 5j]
    lines = hatch_lines((contour(corners),), GOUGE, 0.5)
    shape = Polygon([(z.real, z.imag) for z in corners])
    rows = [
        rotate(LineString([(-20, k / 2), (20, k / 2)]), 45, origin=(0, 0)) for k in range(-30, 30)
    ]
    want = sum(row.intersection(shape).length for row in rows)
    got = sum(abs(each.points[1] - each.points[0]) for each in lines)
    assert got == pytest.approx(want, abs=0.2)
    assert all(
        shape.buffer(1e-9).covers(LineString([(z.real, z.imag) for z in x.points])) for x in lines
    )
    assert box(0, 0, 6, 5).covers(shape)


def test_neighbours_share_their_rows() -> None:
    """Two areas that meet are hatched with one family of lines."""
    left = contour([0j, 4 + 0j, 4 + 4j, 4j])
    right = contour([4 + 0j, 9 + 0j, 9 + 4j, 4 + 4j])
    both = contour([0j, 9 + 0j, 9 + 4j, 4j])
    apart = [*hatch_lines((left,), 0.3, 0.5), *hatch_lines((right,), 0.3, 0.5)]
    whole = hatch_lines((both,), 0.3, 0.5)
    lengths = [sum(abs(x.points[1] - x.points[0]) for x in group) for group in (apart, whole)]
    assert lengths[0] == pytest.approx(lengths[1], abs=0.05)


def test_spacing_must_be_positive() -> None:
    """No spacing, no hatching: refused."""
    with pytest.raises(ValueError, match="spacing"):
        hatch((circle(0j, 1.0),), spacing=0.0)
