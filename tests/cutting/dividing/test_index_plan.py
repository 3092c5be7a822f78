"""The stops on the hardware: errors, drift, readings and findings."""

from __future__ import annotations

import math
from fractions import Fraction

import pytest

from profilegen.cutting.dividing.index_plan import again, index_findings, index_plan
from profilegen.errors import CannotMakeError
from tests.cutting.dividing.hardware import SPIN, head, made


@pytest.mark.parametrize(
    ("teeth", "place", "pitch"),
    [(11, 0.4545, 0.7273), (13, 0.4615, 0.6923), (16, 0.5, 0.5), (25, 0.4, 0.6), (32, 0.5, 0.75)],
)
def test_spin_indexer_rounded_to_degrees(teeth: int, place: float, pitch: float) -> None:
    """IDX-100, 101, 103, 105, 106 (derived, no published source): worst position and pitch."""
    plan = index_plan(SPIN, teeth, [0.0], 12.5)
    assert float(plan.worst * 360) == pytest.approx(place, abs=5e-5)
    assert float(plan.worst_between * 360) == pytest.approx(pitch, abs=5e-5)


@pytest.mark.parametrize("start", [0.0, 0.1234, -0.7])
def test_no_stop_drifts(start: float) -> None:
    """Every stop of every lap is within half a position of where it should be, N = 2 to 1000."""
    for table in (head(), made("motor", steps=1600), made("table", ratio=90, graduation="1 min")):
        for teeth in range(2, 1001, 83):
            plan = index_plan(table, teeth, [0.0, start], 19.0)
            assert all(abs(stop.error) <= plan.step / 2 for stop in plan.stops)
            assert again(plan, 1).reading == plan.stops[0].reading


def test_second_lap_starts_where_the_plan_says() -> None:
    """The second lap's first stop stands nearest to its turn; reversed, to the turn back."""
    turn = math.radians(4.5)
    for reverse, degrees in ((False, 4.5), (True, 355.5)):
        plan = index_plan(head(), 30, [0.0, turn], 19.0, reverse=reverse)
        assert float(plan.stops[30].wanted * 360) == pytest.approx(degrees)
        assert plan.exact


def test_readings() -> None:
    """Holes count from 0; a dial shows degrees, minutes, seconds; a motor shows steps."""
    assert index_plan(SPIN, 8, [0.0], 19.0).stops[1].reading == "hole 4, vernier 5"
    dial = made("table", ratio=90, graduation="1 min", vernier="10 sec")
    assert index_plan(dial, 7, [0.0], 19.0).stops[1].reading == "51° 25' 40\""
    assert index_plan(made("motor", steps=400), 8, [0.0], 19.0).stops[3].reading == "150 steps"
    assert index_plan(head(), 28, [0.0], 19.0).stops[1].reading == "1 turn, hole 9 of 21"


def test_inexact_is_refused_until_allowed() -> None:
    """The finding is in mm; allowed it is a note within the land tolerance, else a caution."""
    fine, coarse = index_plan(head(), 127, [0.0], 19.0), index_plan(SPIN, 127, [0.0], 19.0)
    assert [f.severity for f in index_findings(fine)] == ["refused"]
    assert [f.severity for f in index_findings(fine, True)] == ["note"]
    assert [f.severity for f in index_findings(coarse, True)] == ["caution"]
    assert fine.nearest == (124, 128)


def test_more_stops_than_positions() -> None:
    """A plate with fewer holes than stops is refused with what it has."""
    with pytest.raises(CannotMakeError, match="only 24 positions"):
        index_plan(made("notched", notches=24), 30, [0.0], 19.0)


def test_compound_gathers_no_error_when_exact() -> None:
    """Taken by its number, the exact compound way of 77 stands at every stop."""
    plan = index_plan(head(), 77, [0.0], 19.0, way=2)
    assert (plan.method, plan.exact, plan.worst) == ("compound", True, Fraction(0))
