"""Moves on dials: marked in mm or inch, of travel or diameter, always to the side of less metal."""

from __future__ import annotations

from typing import Any, Literal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from profilegen.cutting.dials import dialled
from profilegen.part.dials import Dial


def dial(unit: str = "mm", **keys: Any) -> Dial:
    """A dial of the z slide; a bare division is in the dial's unit."""
    return Dial.model_validate({"unit": unit, **keys}, context={"units": "mm"})


def test_mm_dial_of_travel() -> None:
    """2.25 mm on divisions of 0.02 mm is 112 divisions and 0.01 mm."""
    found = dialled(dial(division=0.02, increases="down"), 2.25, "down")
    assert (found.divisions, found.grow) == (112, True)
    assert found.remainder == pytest.approx(0.01)
    assert found.shown == pytest.approx(2.24)


def test_inch_dial_in_a_part_in_mm() -> None:
    """A bare division of an inch dial is in inches: 2.54 mm is just 100 divisions of 0.001 in."""
    found = dialled(dial("in", division=0.001, increases="down"), 2.54, "up")
    assert (found.divisions, found.remainder, found.grow) == (100, 0.0, False)


def test_dial_that_reads_diameter() -> None:
    """Marked 0.02 on the diameter a division moves the slide 0.01 mm, and the numbers go twice."""
    found = dialled(dial(division=0.02, reads="diameter"), 1.005, "down")
    assert (found.divisions, found.grow) == (100, None)
    assert found.travel == pytest.approx(1.0)
    assert found.shown == pytest.approx(2.0)


@given(
    st.floats(0, 60),
    st.sampled_from([0.01, 0.02, 0.025, 0.05, "0.001 in", "0.0005 in"]),
    st.sampled_from(["travel", "diameter"]),
    st.sampled_from(["short", "over"]),
)
def test_rounding_goes_to_the_side_asked_for(
    amount: float, division: float | str, reads: str, less: Literal["short", "over"]
) -> None:
    """Short never goes beyond the exact place, over never stops before it, both within a step."""
    one = dial(division=division, reads=reads)
    step = one.division / (2 if reads == "diameter" else 1)
    found = dialled(one, amount, "down", less)
    assert found.travel + found.remainder == pytest.approx(amount, abs=1e-9)
    assert abs(found.remainder) < step
    assert (found.remainder if less == "short" else -found.remainder) >= -1e-9
