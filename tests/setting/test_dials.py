"""Moves on dials: marked in mm or inch, of travel or diameter, always to the side of less metal."""

from __future__ import annotations

from typing import Any, Literal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from profilegen.part.dials import Dial
from profilegen.setting.dials import dialled


def dial(unit: str = "mm", **keys: Any) -> Dial:
    """A dial of the z slide; a bare division is in the dial's unit."""
    return Dial.model_validate({"unit": unit, **keys}, context={"units": "mm"})


def test_mm_dial_of_travel() -> None:
    """2.255 mm on divisions of 0.02 mm is 2.254 mm to a tenth of a division, and 0.001 mm."""
    found = dialled(dial(division=0.02, increases="down"), 2.255, "down")
    assert (found.divisions, found.grow, found.turns) == (112.7, True, None)
    assert found.remainder == pytest.approx(0.001)
    assert found.shown == found.reading == pytest.approx(2.254)


def test_inch_dial_in_a_part_in_mm() -> None:
    """A bare division of an inch dial is in inches: 2.54 mm is just 100 divisions of 0.001 in."""
    found = dialled(dial("in", division=0.001, increases="down"), 2.54, "up")
    assert (found.divisions, found.grow) == (100, False)
    assert found.remainder == pytest.approx(0.0, abs=1e-12)


def test_dial_that_reads_diameter() -> None:
    """Marked 0.02 on the diameter a division moves the slide 0.01 mm, and the numbers go twice."""
    found = dialled(dial(division=0.02, reads="diameter"), 1.005, "down")
    assert (found.divisions, found.grow) == (100.5, None)
    assert found.travel == pytest.approx(1.005)
    assert found.shown == pytest.approx(2.01)


def turned_to(turns: int, reading: float, turn: float, falling: bool) -> float:
    """Travel of a hand that turns a dial from 0, lets its 0 go by `turns` times, and stops when it
    shows `reading` (all as the dial is marked): on a falling dial the first figure after 0 is that
    of a whole turn."""
    part = (turn - reading if reading else 0.0) if falling else reading
    return turns * turn + part


@given(
    st.floats(0, 60),
    st.sampled_from([(0.02, 2.0), (0.02, 1.25), (0.05, 5.0), (0.02, 3.175), (0.0254, 1.5875)]),
    st.sampled_from(["travel", "diameter"]),
    st.sampled_from(["short", "over"]),
    st.sampled_from(["up", "down"]),
)
def test_turns_and_figure_lead_to_the_place(
    amount: float, marks: tuple[float, float], reads: str, less: Literal["short", "over"], way: str
) -> None:
    """Turned by hand to what is told, the slide stands within a tenth of a division of the exact
    place, on the side asked for, where a turn is no whole number of divisions too."""
    division, turn = marks
    one = dial(division=division, per_turn=turn, reads=reads, increases="down")
    found, scale = dialled(one, amount, way, less), 2.0 if reads == "diameter" else 1.0
    assert found.turns is not None
    assert 0 <= found.reading < turn * scale
    tenths = found.reading / division * 10
    assert tenths == pytest.approx(round(tenths), abs=1e-6)
    stands = turned_to(found.turns, found.reading, turn * scale, way == "up") / scale
    assert stands == pytest.approx(found.travel, abs=1e-9)
    left = amount - stands if less == "short" else stands - amount
    assert -1e-6 <= left < division / scale / 10 + 1e-6


def test_the_figure_of_a_falling_dial_is_its_own() -> None:
    """8.14 mm backwards on a dial of 2 mm a turn: four turns, and 0.14 below the 0, at 1.86."""
    found = dialled(dial(division=0.02, per_turn=2, increases="down"), 8.14, "up")
    assert (found.turns, found.grow) == (4, False)
    assert found.reading == pytest.approx(1.86)


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
    assert abs(found.remainder) < step / 10
    assert (found.remainder if less == "short" else -found.remainder) >= -1e-9
