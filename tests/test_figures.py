"""Figures: limits as people read them, against exact fractions of the text."""

from __future__ import annotations

import math
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from profilegen.figures import Figures
from profilegen.units import PLACES, DecimalMark, Unit

NOISE = Fraction(1, 10**9)


def read(text: str) -> Fraction:
    """The number in a written size."""
    return Fraction(text.rstrip("° inm").replace(",", "."))


@given(
    low=st.floats(-50, 700),
    width=st.floats(1e-6, 5),
    unit=st.sampled_from(["mm", "in"]),
    decimal=st.sampled_from(["point", "comma"]),
)
def test_what_reads_within_is_within(
    low: float, width: float, unit: Unit, decimal: DecimalMark
) -> None:
    """The written low is not under the real one, nor the written high over it, nor are they
    crossed; and none is further inwards than its last decimal."""
    high = low + width
    texts = Figures(unit, decimal).limits(low, high)
    scale = Fraction(254, 10) if unit == "in" else Fraction(1)
    least, most = (read(text) * scale for text in texts)
    assert Fraction(low) - NOISE <= least <= most <= Fraction(high) + NOISE
    step = scale / 10 ** (3 if unit == "mm" else 4)
    assert least - Fraction(low) < step + NOISE
    assert Fraction(high) - most < step + NOISE


@given(low=st.floats(-20, 90), width=st.floats(1e-4, 5))
def test_angles_too(low: float, width: float) -> None:
    """Limits of an angle are rounded inwards in degrees."""
    texts = Figures("mm", "point").limits(
        math.radians(low), math.radians(low + width), is_angle=True
    )
    least, most = (read(text) for text in texts)
    assert Fraction(low) - NOISE <= least <= most <= Fraction(low + width) + NOISE


@pytest.mark.parametrize(
    ("unit", "low", "high", "written"),
    [
        ("mm", 39.09918, 39.30098, ("39.100 mm", "39.300 mm")),
        ("mm", -1.98631, -1.32041, ("-1.986 mm", "-1.321 mm")),
        ("mm", 0.4 - 0.05, 0.4 + 0.1, ("0.350 mm", "0.500 mm")),  # noise of arithmetic
        ("mm", -0.0004, 0.0004, ("-0.0004 mm", "0.0004 mm")),
        ("in", 19.05, 19.071, ("0.7500 in", "0.7508 in")),
        ("in", 12.7001, 12.7011, ("0.50001 in", "0.50004 in")),
    ],
)
def test_examples(unit: Unit, low: float, high: float, written: tuple[str, str]) -> None:
    """By hand; limits nearer than the last decimal are written with more of them."""
    assert Figures(unit, "point").limits(low, high) == written


@given(
    low=st.floats(-50, 700),
    width=st.floats(1e-6, 5),
    share=st.one_of(st.sampled_from([0.0, 1.0]), st.floats(0, 1)),
    unit=st.sampled_from(["mm", "in"]),
)
def test_a_nominal_within_its_limits_is_written_within_them(
    low: float, width: float, share: float, unit: Unit
) -> None:
    """Also where it is one of the limits, which are rounded inwards: 14.142 beside low 14.143."""
    figures, high = Figures(unit, "point"), low + width
    nominal = min(high, low + share * width)
    least, most = (read(text) for text in figures.limits(low, high))
    written = read(figures.within(nominal, low, high))
    assert least <= written <= most
    step = Fraction(254, 10) if unit == "in" else Fraction(1)
    assert abs(written * step - Fraction(nominal)) < step / 10 ** PLACES[unit] + NOISE


def test_a_nominal_beside_its_limits() -> None:
    """By hand: on a limit, between them, and outside them, where that is what the class says."""
    figures, corner = Figures("mm", "point"), 10 * math.sqrt(2)
    assert figures.within(corner, corner, corner + 0.127) == "14.143 mm"
    assert figures.within(corner, corner - 0.05, corner + 0.05) == "14.142 mm"
    assert figures.within(10.0126, 10.013, 10.035) == "10.013 mm"
    assert figures.within(10.0, 10.0001, 10.035) == "10.000 mm"
    turn = math.radians(5.00049)
    assert figures.within(turn, turn, turn + 0.1, is_angle=True) == "5.001°"


def test_at_most() -> None:
    """What a setting may be off is rounded down, and never to nothing."""
    figures = Figures("mm", "point")
    assert figures.at_most(0.01199) == "0.011 mm"
    assert figures.at_most(0.0004) == "0.0004 mm"
    assert figures.at_most(math.radians(0.0199), is_angle=True) == "0.019°"
