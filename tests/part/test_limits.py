"""Limits of one feature: rows SPL-24 and SQR-18 to SQR-25 written as tolerances of a part file."""

from __future__ import annotations

from typing import Any

import pytest

from profilegen.errors import InputError
from profilegen.gauging.spans import across_corners
from profilegen.part.limits import limits_of
from profilegen.part.measuring import Tolerance
from profilegen.units import Unit
from tests.parts import part, ratchet

INCH = {"outside_diameter": 1, "thickness": 0.1, "land": 0.02, "root_radius": 0.008}


def tolerance(units: Unit = "mm", **keys: Any) -> Tolerance:
    """The table `[tolerance]` of a part."""
    wheel = ratchet(**INCH) if units == "in" else ratchet()
    found = part(wheel, units=units, tolerance=keys).tolerance
    assert found is not None
    return found


@pytest.mark.parametrize(
    ("name", "low", "high"),
    [
        ("JS9", 3.985, 4.015),  # hub, normal fit
        ("P9", 3.958, 3.988),  # hub and shaft, close fit
        ("N9", 3.970, 4.000),  # shaft, normal fit
        ("H9", 4.000, 4.030),  # shaft, free fit
    ],
)
def test_keyway_widths(name: str, low: float, high: float) -> None:
    """SPL-24 (printed): the classes of keyways of DIN 6885; their sizes at 4 mm from ISO 286-2."""
    found = limits_of(tolerance(key_width=name), "key_width", 4.0)
    assert (round(found.low, 6), round(found.high, 6)) == (low, high)


def test_the_free_fit_of_hubs_is_refused() -> None:
    """SPL-24: D10 is not established here, and the refusal says what may be written instead."""
    with pytest.raises(InputError, match="letter D of ISO 286 is not known"):
        tolerance(key_width="D10")


def test_keyway_depths() -> None:
    """SPL-24 (printed): t2 of 1.8 mm is +0.1 -0."""
    found = limits_of(tolerance(key_depth="+0.1 -0"), "key_depth", 1.8)
    assert (found.low, found.high) == pytest.approx((1.8, 1.9))


@pytest.mark.parametrize(
    ("least", "give", "corners"),
    [
        (0.253, 0.005, 0.335),  # SQR-18, 1/4 in
        (0.378, 0.005, 0.505),  # SQR-19, 3/8 in
        (0.628, 0.005, 0.839),  # SQR-21, 5/8 in
        (1.004, 0.005, 1.350),  # SQR-23, 1 in
    ],
)
def test_square_drives_in_inches(least: float, give: float, corners: float) -> None:
    """SQR-18 to SQR-23 (printed, ASA B5.38): holes of least size and its allowance, whose least
    size across corners leaves them room for a radius."""
    found = limits_of(tolerance("in", across_flats=f"+{give} -0"), "across_flats", 25.4 * least)
    assert found.low / 25.4 == pytest.approx(least)
    assert found.high / 25.4 == pytest.approx(least + give)
    assert across_corners(4, found.low) > 25.4 * corners
    radius = (across_corners(4, least) - corners) / (2 * (2**0.5 - 1))
    assert across_corners(4, least, radius) == pytest.approx(corners)


@pytest.mark.parametrize(
    ("sides", "nominal", "low", "high"),
    [
        (4, 6.35, 6.41, 6.63),  # SQR-24, 6.3, remembered
        (4, 9.525, 9.58, 9.80),  # 10
        (4, 12.70, 12.76, 13.03),  # 12.5
        (4, 19.05, 19.11, 19.44),  # 20
        (4, 25.40, 25.46, 25.79),  # 25
        (6, 2.0, 2.02, 2.08),  # SQR-25, remembered
        (6, 4.0, 4.02, 4.095),
        (6, 8.0, 8.025, 8.175),
        (6, 12.0, 12.032, 12.212),
    ],
)
def test_driving_squares_and_hexagon_sockets(
    sides: int, nominal: float, low: float, high: float
) -> None:
    """SQR-24 (ISO 1174-1) and SQR-25 (ISO 23429): both deviations over the nominal size."""
    text = f"+{high - nominal:.3f} +{low - nominal:.3f}"
    found = limits_of(tolerance(across_flats=text), "across_flats", nominal)
    assert (found.low, found.high) == pytest.approx((low, high), abs=1e-9)
    assert found.low > nominal
    assert across_corners(sides, found.low) > across_corners(sides, nominal)


def test_defaults_are_told() -> None:
    """Without a table there are defaults, and they say so."""
    found = limits_of(None, "across_flats", 9.0)
    assert (found.low, found.high) == pytest.approx((9.0, 9.09))
    assert (found.source, found.is_default) == ("H11", True)
