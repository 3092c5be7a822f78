"""The moments that the kernel's are compared with, against standard formulas."""

from __future__ import annotations

import math

import pytest

from profilegen.geometry.chain import circle, contour
from tests.oracles.moments import centroid, second_moments

HALF_DISC = contour([1, -1], [1, 0])


def test_half_disc_has_the_standard_centroid() -> None:
    """The centroid of a half disc lies 4 r / (3 pi) from its diameter (standard formula)."""
    assert centroid(HALF_DISC) == pytest.approx(1j * 4 / (3 * math.pi), abs=1e-15)


def test_disc_has_the_standard_second_moments() -> None:
    """A disc about its centre has Ixx = Iyy = pi r^4 / 4 and Ixy = 0 (standard formula)."""
    ixx, iyy, ixy = second_moments(circle(0, 3.0, start_angle=0.7))
    assert (ixx, iyy) == pytest.approx((math.pi * 81 / 4,) * 2, rel=1e-14)
    assert ixy == pytest.approx(0, abs=1e-13)


def test_rectangle_has_the_standard_second_moments() -> None:
    """A rectangle about its middle has Ixx = b h^3 / 12, about its corner b h^3 / 3."""
    middle = contour([-2 - 1.5j, 2 - 1.5j, 2 + 1.5j, -2 + 1.5j])
    assert second_moments(middle) == pytest.approx((4 * 27 / 12, 3 * 64 / 12, 0), abs=1e-13)
    corner = contour([0, 4, 4 + 3j, 3j])
    assert second_moments(corner) == pytest.approx((4 * 27 / 3, 3 * 64 / 3, 36), rel=1e-14)


def test_half_disc_has_the_standard_second_moments() -> None:
    """A half disc about its diameter has Ixx = Iyy = pi r^4 / 8 (standard formula)."""
    assert second_moments(HALF_DISC) == pytest.approx((math.pi / 8, math.pi / 8, 0), abs=1e-15)
