"""`[gauge]` and `[tolerance]`: the notation of tolerances and the keys."""

from __future__ import annotations

import math

import pytest

from profilegen.errors import InputError
from profilegen.part.allowance import read_angle, read_length
from profilegen.part.fields import FieldError
from profilegen.part.part import Part
from profilegen.units import Unit
from tests.part.samples import take_up


@pytest.mark.parametrize(
    ("value", "unit", "deviations"),
    [
        ("+0.02 -0", "mm", (0.0, 0.02)),
        ("-0 +0.02", "mm", (0.0, 0.02)),
        ("+0.02/-0", "mm", (0.0, 0.02)),
        ("0.05", "mm", (-0.05, 0.05)),
        (0.05, "mm", (-0.05, 0.05)),
        ("±0.1", "mm", (-0.1, 0.1)),
        ("+/-0.1", "mm", (-0.1, 0.1)),
        ("0 -0.1", "mm", (-0.1, 0.0)),
        ("-0.02 -0.05", "mm", (-0.05, -0.02)),
        ("+.001 +.003", "in", (0.0254, 0.0762)),
        ("+0.002 -0 in", "mm", (0.0, 0.0508)),
        ("1/64 in", "mm", (-0.396875, 0.396875)),
        ("+0,02 \u22120,01", "mm", (-0.01, 0.02)),
    ],
)
def test_plus_and_minus(value: object, unit: Unit, deviations: tuple[float, float]) -> None:
    """Two signed sizes in either order, or one both ways; a last unit counts for both."""
    assert read_length(value, unit).deviations == pytest.approx(deviations, abs=1e-12)


def test_classes() -> None:
    """Classes of both standards, with or without a blank."""
    assert read_length("H7", "mm").fit == "H7"
    assert read_length("js 9", "mm").fit == "js9"
    assert read_length("ISO 2768-m", "mm").general == "m"
    assert read_length("iso 2768-1-F", "mm").general == "f"


@pytest.mark.parametrize(
    ("value", "words"),
    [
        ("H12", "grade 12"),
        ("z7", "letter z"),
        ("ISO 2768-x", "no class x"),
        ("nonsense", "no tolerance"),
        ("", "no tolerance"),
        ("+0.1", "leaves the other open"),
        ("0", "no room between the limits"),
        ("+0.1 +0.1", "no room between the limits"),
        ("0.1 -0.1", "no sign"),
        (True, "true or false"),
        ([0.1], "a list"),
        ("60 deg", "angle where a length"),
    ],
)
def test_what_is_no_tolerance(value: object, words: str) -> None:
    """Each slip is told with what is wrong."""
    with pytest.raises(FieldError, match=words):
        read_length(value, "mm")


def test_angles() -> None:
    """Degrees and minutes; a class of ISO 286 is for lengths."""
    assert read_angle(1).deviations == pytest.approx((-math.radians(1), math.radians(1)))
    assert read_angle("+1 deg -0.5 deg").deviations == pytest.approx(
        (-math.radians(0.5), math.radians(1))
    )
    assert read_angle("0°30'").deviations == pytest.approx((-math.radians(0.5), math.radians(0.5)))
    assert read_angle("ISO 2768-c").general == "c"
    for value, words in (("H7", "for lengths"), ("x", "no tolerance"), ("1 mm", "length")):
        with pytest.raises(FieldError, match=words):
            read_angle(value)


def test_the_tables_of_a_part() -> None:
    """Both tables are read; a part without them has none."""
    bare = Part.from_dict(take_up())
    assert (bare.gauge, bare.tolerance) == (None, None)
    tables = {"gauge": {"pin": "3/32 in", "span_teeth": 5}, "tolerance": {"land": "+0.1 -0"}}
    part = Part.from_dict(take_up(**tables))
    assert part.gauge is not None
    assert (part.gauge.pin, part.gauge.span_teeth) == (2.38125, 5)
    assert part.tolerance is not None
    assert part.tolerance.general == "ISO 2768-m"


@pytest.mark.parametrize(
    ("key", "fit"),
    [
        ("bore_diameter", "H7"),
        ("key_width", "JS9"),
        ("key_width", "P9"),
        ("key_width", "js9"),
        ("key_depth", "h11"),
        ("key_depth", "H11"),
        ("flat_to_far_side", "F8"),
        ("outside_diameter", "h11"),
        ("thickness", "JS9"),
        ("root_diameter", "e9"),
    ],
)
def test_classes_on_their_own_side(key: str, fit: str) -> None:
    """Capitals for holes, small letters for what stands outside; JS is the same on both."""
    part = Part.from_dict(take_up(tolerance={key: fit}))
    assert getattr(part.tolerance, key).fit == fit


@pytest.mark.parametrize(
    ("tables", "where", "words"),
    [
        ({"gauge": {"wire": 2}}, "gauge.wire", "write pin"),
        ({"gauge": {"pin": -2}}, "gauge.pin", "more than 0"),
        ({"gauge": {"span_teeth": 1}}, "gauge.span_teeth", "2 to 1000"),
        ({"gauge": {"span_teeth": "5"}}, "gauge.span_teeth", "a count is wanted"),
        ({"gauge": {"span": 5}}, "gauge.span", "write span_teeth"),
        ({"tolerance": {"od": "h9"}}, "tolerance.od", "write outside_diameter"),
        ({"tolerance": {"general": "ISO 2768"}}, "tolerance.general", "ISO 2768-m"),
        ({"tolerance": {"general": "coarse"}}, "tolerance.general", 'write "ISO 2768-c"'),
        ({"tolerance": {"land": "H99"}}, "tolerance.land", "grades 5 to 11"),
        ({"tolerance": {"bore_diameter": "h7"}}, "tolerance.bore_diameter", 'write "H7"'),
        ({"tolerance": {"across_flats": "g6"}}, "tolerance.across_flats", "is a class of shafts"),
        ({"tolerance": {"key_width": "p9"}}, "tolerance.key_width", 'write "P9"'),
        ({"tolerance": {"key_width": "D10"}}, "tolerance.key_width", "holes E F G H JS K N P"),
        ({"tolerance": {"outside_diameter": "H7"}}, "tolerance.outside_diameter", 'write "h7"'),
        ({"tolerance": {"thickness": "K7"}}, "tolerance.thickness", "is a class of holes"),
        ({"tolerances": {"land": "0.1"}}, "tolerances", "write [tolerance]"),
    ],
)
def test_slips(tables: dict[str, object], where: str, words: str) -> None:
    """A slip is one problem at its key path with the next step."""
    with pytest.raises(InputError) as told:
        Part.from_dict(take_up(**tables))
    assert [problem.where for problem in told.value.problems] == [where]
    assert words in str(told.value)
