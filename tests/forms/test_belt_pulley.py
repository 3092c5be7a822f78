"""Pulleys for toothed belts against printed catalogue tables."""

from __future__ import annotations

import pytest

from profilegen.job import Job, job_for
from profilegen.part.part import Part


def pulley(belt: str, teeth: int) -> Job:
    """The job of a pulley 10 mm wide."""
    wheel = {"kind": "belt-pulley", "belt": belt, "teeth": teeth, "thickness": 10}
    return job_for(Part.from_dict({"units": "mm", "wheel": wheel}))


@pytest.mark.parametrize(
    ("belt", "teeth", "pitch", "outside", "digits"),
    [
        ("XL", 10, 16.17, 15.66, 0.01),  # XL 037 pulley catalogue, BLT-02 to BLT-11
        ("XL", 12, 19.40, 18.90, 0.01),
        ("XL", 14, 22.64, 22.13, 0.01),
        ("XL", 15, 24.26, 23.75, 0.01),
        ("XL", 17, 27.49, 26.98, 0.01),
        ("XL", 19, 30.72, 30.22, 0.01),
        ("L", 10, 30.319, 29.557, 0.001),  # pulley tables, remembered, BLT-12 to BLT-22
        ("L", 20, 60.638, 59.876, 0.001),
        ("L", 36, 109.148, 108.386, 0.001),
        ("H", 14, 56.595, 55.223, 0.001),
        ("H", 20, 80.851, 79.479, 0.001),
        ("MXL", 12, 7.762, 7.254, 0.001),
        ("MXL", 20, 12.936, 12.428, 0.001),
        ("T5", 10, 15.92, 15.05, 0.05),  # T5 pulley catalogue, outside in steps of 0.05
        ("T5", 14, 22.28, 21.45, 0.05),  # BLT-24 to BLT-32
        ("T5", 16, 25.46, 24.60, 0.05),
        ("T5", 19, 30.24, 29.40, 0.05),
        ("T5", 60, 95.49, 94.65, 0.05),
    ],
)
def test_diameters_are_those_of_the_catalogues(
    belt: str, teeth: int, pitch: float, outside: float, digits: float
) -> None:
    """To the last digit printed; the pitch diameters of T5 are printed to 0.01."""
    told = pulley(belt, teeth).as_dict()["wheel"]
    assert told["pitch_diameter"] == pytest.approx(pitch, abs=0.51 * min(digits, 0.01) + 1e-9)
    assert told["outside_diameter"] == pytest.approx(outside, abs=0.52 * digits)


def test_a_pulley_says_that_its_grooves_are_not_drawn() -> None:
    """A plain disc of the outside diameter, with the stops of its grooves."""
    made = pulley("XL", 20)
    assert made.wheel.toothing is None
    assert [one.code for one in made.findings] == ["groove-unknown"]
    assert (len(made.wheel.outline), made.index.teeth) == (2, 20)
    assert made.plan.cuts == ()
