"""Text to millimetres and radians and back: tables of shop notation, and properties."""

from __future__ import annotations

import contextlib
import math
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from profilegen.units import (
    DecimalMark,
    Number,
    Unit,
    UnitsError,
    both_units,
    format_angle,
    format_length,
    format_number,
    parse_angle,
    parse_length,
    parse_speed,
)

# 1 in = 25.4 mm exactly: the international yard and pound agreement, 1959.
LENGTHS: list[tuple[Number, Unit, float]] = [
    ("0.325 in", "mm", 8.255),
    ('0.325"', "mm", 8.255),
    ("0.325″", "mm", 8.255),
    ("0.325''", "mm", 8.255),
    ("3/32 in", "mm", 2.38125),
    ("3 / 32 in", "mm", 2.38125),
    ("1-1/4 in", "mm", 31.75),
    ("1–1/4 in", "mm", 31.75),
    ("1 1/4 in", "mm", 31.75),
    ("1 3/8 in", "mm", 34.925),
    ("1¼ in", "mm", 31.75),
    ("½ in", "mm", 12.7),
    ("8,26 mm", "in", 8.26),
    ("8,26", "mm", 8.26),
    ("0,250 mm", "mm", 0.25),
    ("1234,567 mm", "mm", 1234.567),
    ("1.250", "mm", 1.25),
    ("5 thou", "mm", 0.127),
    ("25.4mm", "in", 25.4),
    (".015 in", "mm", 0.381),
    ("15. mm", "in", 15.0),
    ("5 in.", "mm", 127.0),
    ("5 INCHES", "mm", 127.0),
    ("2.5 cm", "mm", 25.0),
    ("20 µm", "mm", 0.02),
    ("20 microns", "mm", 0.02),
    ("  7  mm ", "mm", 7.0),
    ("7\u00a0mm", "mm", 7.0),
    ("-0.2 mm", "mm", -0.2),
    ("\u22120.2 mm", "mm", -0.2),
    ("+0.2 mm", "mm", 0.2),
    ("0", "in", 0.0),
    ("1.5", "in", 38.1),
    (1.5, "in", 38.1),
    (2, "in", 50.8),
    (38.0, "mm", 38.0),
    (0.1, "mm", 0.1),
    (Fraction(3, 32), "in", 2.38125),
]


@pytest.mark.parametrize(("value", "unit", "mm"), LENGTHS)
def test_shop_notation_of_a_length_is_read_exactly(value: Number, unit: Unit, mm: float) -> None:
    """Each spelling gives the very float of its size in mm."""
    assert parse_length(value, unit) == mm


BAD_LENGTHS: list[tuple[object, str]] = [
    ("1,250", "1250 or as 1.250"),
    ("12,345 mm", "12345 or as 12.345"),
    ("1,234.5", "more than one way"),
    ("1.234,5", "more than one way"),
    ("1,234,567", "more than one way"),
    ("1.2.3", "not one number"),
    ("12 34 mm", "not one number"),
    ("1 - 1/4 in", "not one number"),
    ("3/0 in", "divides by nothing"),
    ("1 5/4 in", "fraction over one"),
    ("1/2/3 in", "not one number"),
    ("5 mil", "a mil is a thou to some"),
    ("3 tenths", "a tenth is 0.1 mm to some"),
    ("5 m", "may be meant for mm"),
    ("1'", "feet"),
    ("2 ft", "feet"),
    ("1' 3\"", "not a length"),
    ("5 deg", "an angle where a length"),
    ("5°", "an angle where a length"),
    ("5 furlongs", "not a length"),
    ("mm", "not a length"),
    ("abc", "not a length"),
    ("--5", "not a length"),
    ("1e3 mm", "not a length"),
    ("٣ mm", "not a length"),
    ("", "empty"),
    ("   ", "empty"),
    ("9" * 60, "too long"),
    ("nan", "not a size"),
    ("-inf", "not a size"),
    (math.nan, "not a size"),
    (math.inf, "not a size"),
    (1e300, "far too big"),
    ("10001 mm", "far too big"),
    (10**400, "hundreds of digits"),
    (1e-300, "far too small"),
    (True, "not a number"),
    (None, "not a number"),
    ([1], "not a number"),
]


@pytest.mark.parametrize("text", ["1/8", "1-1/4", "- 3/32"])
def test_a_bare_fraction_is_an_inch_size(text: str) -> None:
    """In a part in inches it is read; in one in mm it is refused, with both values to write."""
    assert parse_length(text, "in") == parse_length(f"{text} in", "mm")
    with pytest.raises(UnitsError, match="fractions are inch sizes") as caught:
        parse_length(text, "mm")
    assert text.lstrip("- ") + " in" in caught.value.hint


@pytest.mark.parametrize(("value", "words"), BAD_LENGTHS)
def test_what_is_no_length_is_refused_by_name(value: object, words: str) -> None:
    """What is no length, or two lengths, is refused with the reason in the message."""
    with pytest.raises(UnitsError) as caught:
        parse_length(value, "mm")  # type: ignore[arg-type]
    assert words in caught.value.message
    assert caught.value.allowed


def test_an_exponent_in_text_is_answered_with_the_next_step() -> None:
    """Text with an exponent is told to be written out."""
    with pytest.raises(UnitsError) as caught:
        parse_length("1e300", "mm")
    assert "without an exponent" in caught.value.hint


ANGLES: list[tuple[Number, float]] = [
    (60, 60),
    (60.0, 60),
    ("60", 60),
    ("60 deg", 60),
    ("60°", 60),
    ("60º", 60),
    ("60 Degrees", 60),
    ("12°30'", 12.5),
    ("12° 30′", 12.5),
    ("12 deg 30 min", 12.5),
    ("12deg30min", 12.5),
    ("12°30'15\"", 12 + 30 / 60 + 15 / 3600),
    ("12 deg 30 min 15 sec", 12 + 30 / 60 + 15 / 3600),
    ("12°30'15''", 12 + 30 / 60 + 15 / 3600),
    ("12°30.5'", 12 + 30.5 / 60),
    ("30'", 0.5),
    ("12,5°", 12.5),
    ("22-1/2 deg", 22.5),
    ("22½°", 22.5),
    ("-5 deg", -5),
    ("-12°30'", -12.5),
    (".5°", 0.5),
    (0, 0),
]


@pytest.mark.parametrize(("value", "degrees"), ANGLES)
def test_shop_notation_of_an_angle_is_read(value: Number, degrees: float) -> None:
    """Each spelling gives the radians of its degrees."""
    assert parse_angle(value) == math.radians(degrees)


def test_radians_may_be_named() -> None:
    """Radians are taken as they are."""
    assert parse_angle("0.5 rad") == 0.5
    assert parse_angle("-1,5 radians") == -1.5


BAD_ANGLES: list[tuple[object, str]] = [
    ("12.5°30'", "not an angle"),
    ("12°75'", "not an angle"),
    ("12°30", "not an angle"),
    ("30' 12°", "not an angle"),
    ("5 mm", "a length where an angle"),
    ("5 in", "a length where an angle"),
    ("5 degs off", "not an angle"),
    ("1,250 deg", "1250 or as 1.250"),
    ("5 gon", "not an angle"),
    ("1e3", "not an angle"),
    ("--5", "not an angle"),
    ("-", "not an angle"),
    ("", "empty"),
    ("nan", "not a size"),
    (math.nan, "not a size"),
    (1e300, "far too big"),
    ("4000 deg", "far too big"),
    ("100 rad", "far too big"),
    (False, "not a number"),
]


@pytest.mark.parametrize(("value", "words"), BAD_ANGLES)
def test_what_is_no_angle_is_refused_by_name(value: object, words: str) -> None:
    """What is no angle, or two angles, is refused with the reason in the message."""
    with pytest.raises(UnitsError) as caught:
        parse_angle(value)  # type: ignore[arg-type]
    assert words in caught.value.message


NUMBERS: list[tuple[float, int, str]] = [
    (0.0, 3, "0.000"),
    (-0.0, 3, "0.000"),
    (-0.0001, 3, "0.000"),
    (-0.0006, 3, "-0.001"),
    (0.125, 2, "0.12"),
    (0.375, 2, "0.38"),
    (2.675, 2, "2.68"),
    (2.665, 2, "2.66"),
    (1e22, 0, "10000000000000000000000"),
    (1e-9, 4, "0.0000"),
    (0.5, 0, "0"),
    (1.5, 0, "2"),
    (38, 1, "38.0"),
]


@pytest.mark.parametrize(("value", "places", "text"), NUMBERS)
def test_a_number_is_written_half_to_even_without_minus_zero(
    value: float, places: int, text: str
) -> None:
    """Numbers are rounded on the digits that are read, never `-0`, never an exponent."""
    assert format_number(value, places) == text


@pytest.mark.parametrize("value", [math.nan, math.inf, -math.inf])
def test_what_is_no_number_is_never_written(value: float) -> None:
    """NaN and infinity never reach paper."""
    with pytest.raises(UnitsError):
        format_number(value, 3)
    with pytest.raises(UnitsError):
        format_length(value, "in")
    with pytest.raises(UnitsError):
        format_angle(value)


def test_a_length_is_written_in_either_unit() -> None:
    """Three places in mm and four in inches, unless asked, with the unit behind."""
    assert format_length(38.0, "mm") == "38.000 mm"
    assert format_length(38.1, "in") == "1.5000 in"
    assert format_length(38.1, "in", places=2, with_unit=False) == "1.50"
    assert format_length(38.0, "mm", decimal="comma") == "38,000 mm"
    assert both_units(38.0) == "38.000 mm (1.4961 in)"
    assert both_units(38.0, first="in", decimal="comma") == "1,4961 in (38,000 mm)"


@pytest.mark.parametrize(
    ("degrees", "places", "text"),
    [(60, None, "60.000°"), (12.0005, None, "12.000°"), (-0.0001, None, "0.000°"), (12, 0, "12°")],
)
def test_an_angle_is_written_in_degrees(degrees: float, places: int | None, text: str) -> None:
    """Degrees are rounded to even and never show `-0`."""
    assert format_angle(math.radians(degrees), places=places) == text


@given(st.integers(-9_999_999, 9_999_999), st.sampled_from(["mm", "in"]))
def test_a_written_length_reads_back(steps: int, unit: Unit) -> None:
    """A length of whole written steps gives the same float after writing and reading."""
    places = 3 if unit == "mm" else 5
    mm = parse_length(Fraction(steps, 10**places), unit)
    assert parse_length(format_length(mm, unit, places=places), "mm") == mm


@given(
    st.floats(-9000, 9000),
    st.sampled_from(["mm", "in"]),
    st.sampled_from([0, 1, 2, 4, 5]),
    st.sampled_from(["point", "comma"]),
)
def test_a_written_length_is_within_half_a_step(
    mm: float, unit: Unit, places: int, decimal: DecimalMark
) -> None:
    """Whatever the decimal mark, reading what was written is off by half its last place."""
    text = format_length(mm, unit, places=places, decimal=decimal)
    step = (25.4 if unit == "in" else 1.0) * 10.0**-places
    assert abs(parse_length(text, "mm") - mm) <= step / 2 + 1e-9
    assert "e" not in text.lower()
    assert not text.startswith("-0 ")


@given(st.integers(-10_000_000, 10_000_000))
def test_inch_and_mm_spellings_agree_to_the_last_bit(tenths: int) -> None:
    """A size in inches and the same size in mm are one float: 0.0001 in is 0.00254 mm."""
    inches = Fraction(tenths, 10_000) / 10
    mm = inches * Fraction(254, 10)
    assert parse_length(f"{float(inches)!r}", "in") == parse_length(mm, "mm")
    assert parse_length(f"{abs(tenths)}/100000 in", "mm") == abs(parse_length(mm, "mm"))


@given(st.integers(-359 * 3600, 359 * 3600))
def test_a_written_angle_reads_back(seconds: int) -> None:
    """An angle of whole seconds is the same after writing and reading, to a rounding."""
    angle = math.radians(seconds / 3600)
    text = format_angle(angle, places=9)
    assert math.isclose(parse_angle(text), angle, rel_tol=0, abs_tol=1e-11)


def _read_or_refuse(text: str) -> None:
    for read in (lambda value: parse_length(value, "mm"), parse_angle):
        with contextlib.suppress(UnitsError):
            assert math.isfinite(read(text))


@given(st.text(max_size=30))
def test_any_text_is_read_or_refused(text: str) -> None:
    """No text makes the converter fail in another way than by refusing."""
    _read_or_refuse(text)


@given(st.text("0123456789.,/-+ °'\"edgminrad", max_size=16))
def test_any_near_miss_is_read_or_refused(text: str) -> None:
    """No text of the signs of shop notation makes the converter fail in another way."""
    _read_or_refuse(text)


@pytest.mark.parametrize(
    ("text", "unit", "metres"),
    [
        ("12 m/min", "in", 12.0),
        ("40 ft/min", "mm", 12.192),
        ("40 fpm", "mm", 12.192),
        ("40 SFM", "mm", 12.192),
        (40, "in", 12.192),
        (12.5, "mm", 12.5),
        ("12,5", "mm", 12.5),
    ],
)
def test_surface_speeds(text: str | float, unit: Unit, metres: float) -> None:
    """Metres or feet a minute; a foot is 0.3048 m, exact by definition (international foot)."""
    assert parse_speed(text, unit) == metres


@pytest.mark.parametrize("text", ["fast", "12 m", "12 mm/min", "1,200", "", "12 rpm"])
def test_what_is_no_surface_speed(text: str) -> None:
    """Told, never guessed."""
    with pytest.raises(UnitsError):
        parse_speed(text, "mm")


@pytest.mark.parametrize("value", [-5e-324, -0.0, "-0", "-0 rad"])
def test_an_angle_of_nothing_has_no_sign(value: Number) -> None:
    """An angle too small to be told from zero is zero, without a minus."""
    assert math.copysign(1.0, parse_angle(value)) == 1.0
