"""The stops on the hardware: errors, drift, readings and findings."""

from __future__ import annotations

import math
from fractions import Fraction

import pytest

from profilegen.cutting.dividing.index_plan import again, cost_words, index_findings, index_plan
from profilegen.errors import CannotMakeError
from tests.cutting.dividing.hardware import SPIN, head, made
from tests.parts import job, ratchet, single, vee

DIAL = made("table", ratio=90, graduation="1 min", vernier="10 sec")


@pytest.mark.parametrize(
    ("teeth", "place", "pitch"),
    [(11, 0.4545, 0.7273), (13, 0.4615, 0.6923), (16, 0.5, 0.5), (25, 0.4, 0.6), (32, 0.5, 0.75)],
)
def test_spin_indexer_rounded_to_degrees(teeth: int, place: float, pitch: float) -> None:
    """IDX-100, 101, 103, 105, 106 (derived, no published source): worst position and pitch."""
    plan = index_plan(SPIN, teeth, [0.0], 12.5)
    assert float(plan.spread.worst * 360) == pytest.approx(place, abs=5e-5)
    assert float(plan.spread.between * 360) == pytest.approx(pitch, abs=5e-5)


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
    assert (plan.method, plan.exact, plan.spread.worst) == ("compound", True, Fraction(0))


def test_spin_indexer_at_every_count() -> None:
    """N = 2 to 360 against the list of all its positions: exact just when every k/N is among them,
    every stop on one of them and the nearest there is, and no two stops on one."""
    places = [Fraction(k, 360) for k in range(361)]
    known = set(places)
    for teeth in range(2, 361):
        plan = index_plan(SPIN, teeth, [0.0], 19.0)
        assert plan.exact == all(Fraction(k, teeth) in known for k in range(teeth))
        stands = [stop.stands for stop in plan.stops]
        assert set(stands) <= known
        assert len(set(stands)) == teeth
        assert all(abs(stop.error) <= Fraction(1, 720) for stop in plan.stops)
        if teeth % 40 == 7:
            least = [min(abs(each - stop.wanted) for each in places) for stop in plan.stops]
            assert [abs(stop.error) for stop in plan.stops] == least


@pytest.mark.parametrize("teeth", range(2, 1001, 37))
def test_dials_and_motors_against_remainders(teeth: int) -> None:
    """Exact just when N divides the positions, and the errors do not grow from stop to stop."""
    for table, count in ((made("motor", steps=51200), 51200), (DIAL, 129600)):
        plan = index_plan(table, teeth, [0.0], 19.0)
        assert plan.exact == (count % teeth == 0)
        assert plan.spread.worst <= Fraction(1, 2 * count)
        assert plan.spread.between <= Fraction(1, count)


def test_two_laps_tell_what_the_land_can_lose() -> None:
    """When one lap stands half a degree off the other, lands are half a degree off, though the
    spaces of each lap are even."""
    plan = index_plan(SPIN, 30, [0.0, math.radians(4.5)], 19.0)
    assert plan.spread.between == 0
    assert plan.spread.space == Fraction(1, 720)
    (finding,) = index_findings(plan, True)
    assert finding.value == pytest.approx(math.radians(0.5) * 19.0)
    assert finding.severity == "caution"


def test_slips_and_their_cost() -> None:
    """On a wheel of radius 12.5 mm one degree is 0.218 mm, ten are 2.182 mm (arc, no published
    source); a whole turn of a crank at 40:1 is 9 degrees."""
    words = cost_words(index_plan(SPIN, 30, [0.0], 12.5))
    assert "one vernier position wrong costs 60.00 arc minutes, 0.218 mm" in words
    assert "one hole of the plate wrong costs 600.00 arc minutes, 2.182 mm" in words
    assert "one turn of the crank wrong costs 540.00" in cost_words(
        index_plan(head(), 30, [0.0], 12.5)
    )
    assert cost_words(index_plan(None, 30, [0.0], 12.5)) == ""


def test_whole_turns_are_one_way_on_the_circle_that_suits_the_laps() -> None:
    """20 stops at 40:1 are two turns on any circle: one way, and the second lap's start is as near
    as the finest circle that suits allows."""
    one = index_plan(head(), 20, [0.0], 19.0)
    assert [way.method for way in one.ways] == ["plain"]
    two = index_plan(head(), 20, [0.0, math.radians(1.0)], 19.0)
    assert two.exact
    assert two.way is not None
    assert two.way.scale.circle in (18, 27)


@pytest.mark.parametrize(
    ("front", "dial", "turn", "second"),
    [
        ("free end", "counter-clockwise", "counter-clockwise", 1),
        ("free end", "clockwise", "clockwise", -1),
        ("head", "clockwise", "clockwise", 1),
        ("head", "counter-clockwise", "counter-clockwise", -1),
    ],
)
def test_the_work_turns_the_way_the_dial_increases(
    front: str, dial: str, turn: str, second: int
) -> None:
    """Readings grow from stop to stop; the second lap lies on the side where it was, so that its
    turn changes sign when the list runs the other way round."""
    hardware = {"kind": "motor", "steps": 360000, "dial_increases": dial}
    made_of = job(ratchet(), single(45), dividing=hardware, setup={"front": front})
    index = made_of.plan.index
    assert index is not None
    assert index.turn == turn
    start = made_of.plan.stops[30].start
    assert start != 0
    assert float(index.stops[30].wanted) == pytest.approx((second * start / math.tau) % 1)
    counts = [int(stop.reading.split()[0]) for stop in index.stops[:30]]
    assert counts == sorted(counts)


def test_too_little_hardware_is_a_refusal_of_the_job() -> None:
    """The wheel is solved, the plan has no stops on the hardware, and the finding says so."""
    made_of = job(ratchet(), vee(), dividing={"kind": "notched", "notches": 24})
    assert made_of.plan.index is None
    assert "index-too-coarse" in {f.code for f in made_of.findings if f.severity == "refused"}


@pytest.mark.parametrize(("land", "severity"), [("+0.1 -0.3", "note"), ("+0.1 -0.01", "caution")])
def test_the_tolerance_of_the_land_is_what_counts(land: str, severity: str) -> None:
    """The error is held against what `[tolerance] land` lets a land lose."""
    hardware = {"kind": "notched", "notches": 360}
    wheel = ratchet(teeth=32, land=0.4)
    made_of = job(wheel, vee(), dividing=hardware, tolerance={"land": land})
    (found,) = [f for f in made_of.findings if f.code == "index-inexact"]
    assert (found.severity, found.limit) == (severity, -float(land.split()[1]))
