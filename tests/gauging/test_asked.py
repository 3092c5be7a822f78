"""What the part file asks of measuring that cannot be: told by every command, and all at once."""

from __future__ import annotations

from typing import Any

import pytest

from profilegen.errors import InputError
from profilegen.job import job_for
from profilegen.part.load import loads
from tests.parts import job, ratchet, vee

KEYED = {"kind": "keyed", "diameter": 12, "key_width": 4, "key_depth": 1.8}


def problems_of(**tables: Any) -> list[str]:
    """Where each problem of a part stands."""
    wheel = tables.pop("wheel", None) or ratchet()
    with pytest.raises(InputError) as error:
        job(wheel, vee(), **tables)
    return [problem.where for problem in error.value.problems]


@pytest.mark.parametrize(
    ("tables", "where"),
    [
        ({"gauge": {"span_teeth": 30}}, "gauge.span_teeth"),
        ({"tolerance": {"land": "0.5"}}, "tolerance.land"),
        ({"tolerance": {"land": "+2.2 -0"}}, "tolerance.land"),
        ({"tolerance": {"root_diameter": "2"}}, "tolerance.root_diameter"),
        ({"tolerance": {"general": "ISO 2768-v"}}, "tolerance.general"),
        ({"tolerance": {"thickness": "ISO 2768-v"}}, "tolerance.thickness"),
        ({"tolerance": {"thickness": "3"}}, "tolerance.thickness"),
        ({"tolerance": {"space_angle": "60 deg"}}, "tolerance.space_angle"),
        ({"tolerance": {"hook_angle": "100 deg"}}, "tolerance.hook_angle"),
        (
            {"tolerance": {"outside_diameter": "h7"}, "wheel": ratchet(outside_diameter=510)},
            "tolerance.outside_diameter",
        ),
        (
            {"tolerance": {"bore_diameter": "8"}, "bore": {"kind": "round", "diameter": 8}},
            "tolerance.bore_diameter",
        ),
        ({"tolerance": {"bore_diameter": "K10"}, "bore": KEYED}, "tolerance.bore_diameter"),
        ({"tolerance": {"key_width": "+8.5 -0"}, "bore": KEYED}, "tolerance.key_width"),
        ({"tolerance": {"bore_diameter": "+0 -8"}, "bore": KEYED}, "tolerance.bore_diameter"),
        ({"tolerance": {"key_depth": "2"}, "bore": KEYED}, "tolerance.key_depth"),
        (
            {"tolerance": {"across_flats": "9"}, "bore": {"kind": "square", "across_flats": 9}},
            "tolerance.across_flats",
        ),
    ],
)
def test_what_cannot_be_measured_is_refused_with_the_part(
    tables: dict[str, Any], where: str
) -> None:
    """Solving the part refuses it, so that no output is the first to find it."""
    assert problems_of(**tables) == [where]


def test_all_of_it_is_told_at_once_with_its_lines() -> None:
    """Every tolerance and the span, each with its line of the text."""
    text = """units = "mm"
[wheel]
kind = "ratchet"
teeth = 30
outside_diameter = 25.4
thickness = 3.0
space_angle = 60
land = 0.4
[gauge]
span_teeth = 30
[tolerance]
thickness = "5"
land = "0.5"
"""
    with pytest.raises(InputError) as error:
        job_for(loads(text))
    assert [problem.where for problem in error.value.problems] == [
        "gauge.span_teeth, line 10",
        "tolerance.thickness, line 12",
        "tolerance.land, line 13",
    ]


def test_a_keyway_nearly_as_wide_as_its_bore() -> None:
    """Where its class would make the keyway as wide as the bore its limit is less, and it is told
    so: 0.1998 in a bore of 0.2 in."""
    bore = {"kind": "keyed", "diameter": 0.2, "key_width": 0.1998, "key_depth": 0.05}
    wheel = {**ratchet(land=0.015, root_radius=0.008), "outside_diameter": 1, "thickness": 0.1}
    found = job(wheel, units="in", bore=bore).gauges
    width, wide = found.feature("key_width"), found.feature("bore_diameter")
    assert width is not None
    assert wide is not None
    assert width.limits.nominal < width.limits.high < wide.limits.low
    assert "less for so small a bore" in width.limits.source


@pytest.mark.parametrize(("size", "words"), [(0.4, "under 0.5 mm"), (4500, "over 4000 mm")])
def test_sizes_without_a_general_tolerance(size: float, words: str) -> None:
    """Past both ends of ISO 2768-1 the nearest step stands in, and it is told so."""
    found = job(ratchet(thickness=size)).gauges.feature("thickness")
    assert found is not None
    assert words in found.limits.source
    assert 0 < found.limits.low < size < found.limits.high
