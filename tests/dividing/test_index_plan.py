"""The stops on the hardware: errors, drift, readings and findings."""

from __future__ import annotations

import math
import re
from collections.abc import Sequence
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from profilegen.dividing.hardware import Scale
from profilegen.dividing.index_plan import degrees_text
from profilegen.dividing.of_part import plan_of
from profilegen.dividing.rounding import worst_rounding
from profilegen.dividing.spread import Lands
from profilegen.dividing.way import Way
from tests.dividing.hardware import SPIN, WHEELS, head, made, number_of, planned
from tests.parts import job, ratchet, single, vee

DIAL = made("table", ratio=90, graduation="1 min", vernier="10 sec")


@pytest.mark.parametrize(
    ("teeth", "place", "pitch"),
    [
        (11, 0.4545, 0.7273),
        (13, 0.4615, 0.6923),
        (16, 0.5, 0.5),
        (25, 0.4, 0.6),
        (32, 0.5, 0.75),
        (50, 0.4, 0.8),
    ],
)
def test_spin_indexer_rounded_to_degrees(teeth: int, place: float, pitch: float) -> None:
    """IDX-100, 101, 103, 105, 106, 108 (derived, no published source): worst position and pitch."""
    plan = planned(SPIN, teeth, [0.0], 12.5)
    assert float(plan.spread.worst * 360) == pytest.approx(place, abs=5e-5)
    assert float(plan.spread.between * 360) == pytest.approx(pitch, abs=5e-5)


@pytest.mark.parametrize("start", [0.0, 0.1234, -0.7])
def test_no_stop_drifts(start: float) -> None:
    """Every stop of every lap is within half a position of where it should be, N = 2 to 1000."""
    for table in (head(), made("motor", steps=1600), made("table", ratio=90, graduation="1 min")):
        for teeth in range(2, 1001, 83):
            plan = planned(table, teeth, [0.0, start], 19.0)
            simple = next(n for n, way in enumerate(plan.ways, 1) if way.move is None)
            if simple > 1:
                plan = planned(table, teeth, [0.0, start], 19.0, simple)
            assert all(abs(stop.error) <= plan.step / 2 for stop in plan.stops)
            assert plan.returns[0].stands == plan.returns[0].error == 0
            assert plan.returns[1].stands == plan.stops[teeth].stands
            assert all(0 <= stop.angle < 360 for stop in (*plan.stops, *plan.returns))


def test_a_second_lap_begins_at_the_first_of_its_stops() -> None:
    """30 stops of 12 degrees: a lap that lies 4.5 on begins there, one that lies 4.5 back 7.5 on,
    and one that lies 9 whole pitches back where the work stands."""
    for turn, reverse, degrees in ((4.5, False, 4.5), (4.5, True, 7.5), (-108.0, False, 0.0)):
        plan = planned(head(), 30, [0.0, math.radians(turn)], 19.0, reverse=reverse)
        assert float(plan.stops[30].wanted * 360) == pytest.approx(degrees)
        assert float(plan.turned_on(2) * 360) == pytest.approx(degrees)
        assert plan.exact
    assert plan.stops[30].reading == plan.returns[0].reading


def test_readings() -> None:
    """Holes count from 0; a motor shows steps; a handwheel of 90 to 1 goes 4 degrees a turn, so
    its dial shows what is over 12 turns, 48 degrees."""
    assert planned(SPIN, 8, [0.0], 19.0).stops[1].reading == "hole 4, vernier 5"
    dial = made("table", ratio=90, graduation="1 min", vernier="10 sec")
    assert planned(dial, 7, [0.0], 19.0).stops[1].reading == (
        "51° 25' 40\", 12 turns, dial 3° 25' 40\""
    )
    assert planned(made("motor", steps=400), 8, [0.0], 19.0).stops[3].reading == "150 steps"
    assert planned(head(), 28, [0.0], 19.0).stops[1].reading == "1 turn, hole 9 of 21"


def test_compound_gathers_no_error_when_exact() -> None:
    """Plain dividing cannot make 77: the compound way that is taken stands at every stop."""
    plan = planned(head(), 77, [0.0], 19.0)
    assert (plan.method, plan.exact, plan.spread.worst) == ("compound", True, Fraction(0))


def test_spin_indexer_at_every_count() -> None:
    """N = 2 to 360 against the list of all its positions: exact just when every k/N is among them,
    every stop on one of them and the nearest there is, and no two stops on one."""
    places = [Fraction(k, 360) for k in range(361)]
    known = set(places)
    for teeth in range(2, 361):
        plan = planned(SPIN, teeth, [0.0], 19.0)
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
        plan = planned(table, teeth, [0.0], 19.0)
        assert plan.exact == (count % teeth == 0)
        assert plan.spread.worst <= Fraction(1, 2 * count)
        assert plan.spread.between <= Fraction(1, count)


def test_two_laps_tell_what_the_land_can_lose() -> None:
    """When one lap stands half a degree off the other, lands are half a degree off, though the
    spaces of each lap are even."""
    plan = planned(SPIN, 30, [0.0, math.radians(4.5)], 19.0, lands=Lands(1, 2, 1))
    assert plan.spread.between == plan.spread.gathered == 0
    assert plan.spread.land == Fraction(1, 720)
    assert plan.spread.spacing == Fraction(1, 720)


def test_even_lands_between_uneven_faces_are_no_good() -> None:
    """24 stops on 40 holes, the second lap a whole hole less than a pitch on: every land has its
    width, and the faces all the same stand 6 degrees wrong. The spacing tells the worse."""
    plan = planned(made("plate", holes=40), 24, [0.0, math.radians(6)], 19.0, lands=Lands(1, 2, 1))
    assert (plan.spread.land, plan.spread.between) == (Fraction(0), Fraction(1, 60))
    assert plan.spread.spacing == Fraction(1, 60)


def test_stops_halfway_between_two_positions_are_rounded_alike() -> None:
    """Three notches a stop, the second lap half a notch on: all its stops go the same way."""
    plan = planned(made("notched", notches=90), 30, [0.0, math.radians(2)], 19.0)
    assert {stop.error for stop in plan.stops[30:]} == {Fraction(1, 180)}


def test_whole_turns_are_one_way_on_the_circle_that_suits_the_laps() -> None:
    """20 stops at 40:1 are two turns on any circle: one way, and the second lap's start is as near
    as the finest circle that suits allows."""
    one = planned(head(), 20, [0.0], 19.0)
    assert [way.method for way in one.ways] == ["plain"]
    two = planned(head(), 20, [0.0, math.radians(1.0)], 19.0)
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
    """Readings grow from stop to stop, into the second lap: it lies, but for whole pitches, where
    its cut does, on the other side when the list runs the other way round."""
    hardware = {"kind": "motor", "steps": 360000, "dial_increases": dial}
    made_of = job(ratchet(), single(45), dividing=hardware, setup={"front": front})
    index = made_of.index
    assert index.turn == turn
    start = made_of.plan.cuts[1].wheel_angle
    assert start != 0
    assert index.stops[30].wanted < Fraction(1, 30)
    off = float(index.stops[30].wanted) - second * start / math.tau
    assert math.remainder(off * 30, 1) == pytest.approx(0, abs=1e-9)
    counts = [int(stop.reading.split()[0]) for stop in index.stops]
    assert counts == sorted(counts)


def test_too_little_hardware_is_a_refusal_of_the_job() -> None:
    """The wheel is solved, the plan has no stops on the hardware, and the finding says so."""
    made_of = job(ratchet(), vee(), dividing={"kind": "notched", "notches": 24})
    assert made_of.index.way is None
    assert "index-too-coarse" in {f.code for f in made_of.findings if f.severity == "refused"}


@pytest.mark.parametrize("rotation", ["clockwise", "counter-clockwise"])
@pytest.mark.parametrize("front", ["free end", "head"])
@pytest.mark.parametrize("first", ["face", "back"])
def test_lands_by_marks_on_the_wheel(rotation: str, front: str, first: str) -> None:
    """Faces and backs marked on a wheel that is turned from stop to stop: the lands between them
    are off by just what the plan says, whichever way round it stands. 17 stops on 100 holes."""
    hardware = {"kind": "plate", "holes": 100}
    wheel = ratchet(teeth=17, hook_angle=5, rotation=rotation)
    made_of = job(wheel, single(45), dividing=hardware, setup={"front": front, "first": first})
    cuts, frame = made_of.plan.cuts, made_of.plan.frame
    index = plan_of(made_of.part, made_of.wheel, frame, cuts)
    hand = 1 if rotation == "clockwise" else -1
    sense = 1 if index.turn == frame.stops_turn else -1
    land = 2 * math.asin(made_of.wheel.fact("land") / 2 / index.radius)
    marks = {}
    for cut, lap in zip(cuts, index.laps, strict=True):
        on = 0.0 if cut.forms == "face" else math.tau / 17 - land
        turned = [sense * math.tau * float(stop.stands) for stop in lap]
        marks[cut.forms] = [on + hand * (cut.wheel_angle - turn) for turn in turned]
    gaps = [
        min((math.remainder(face - back - land, math.tau) for face in marks["face"]), key=abs)
        for back in marks["back"]
    ]
    worst = max(map(abs, gaps))
    assert worst == pytest.approx(math.tau * float(index.spread.land), abs=1e-8)
    assert index.spread.land != index.spread.between


def test_differential_by_turning_the_crank_in_both_laps() -> None:
    """With the train engaged the work turns 1 / (ratio less train) for a turn of the crank against
    the plate: the readings of both laps turn it to where the plan says, and each is the nearest
    hole, though the second lap begins between two."""
    table = head(change_wheels=WHEELS)
    number = number_of(planned(table, 51, [0.0, 0.1], 19.0).ways, "differential")
    plan = planned(table, 51, [0.0, 0.1], 19.0, way=number)
    move = plan.ways[number - 1].move
    assert move is not None
    train = Fraction(*move.wheels[:2]) * (Fraction(*move.wheels[2:]) if move.wheels[2:] else 1)
    hole = 1 / (40 - (train if move.with_crank else -train)) / move.circles[0]
    for stop in plan.stops:
        turns, holes = map(int, re.findall(r"\d+", stop.reading)[:2])
        assert (turns * move.circles[0] + holes) * hole % 1 == stop.stands % 1
        assert abs(stop.error) <= hole / 2
        assert (stop.error == 0) == (stop.lap == 1)


@pytest.mark.parametrize(("teeth", "exact"), [(77, True), (87, True), (106, False), (127, False)])
def test_compound_by_turning_crank_and_plate(teeth: int, exact: bool) -> None:
    """Both readings added up, whole turns of the plate left out, are where the work stands; what
    each move adds has gathered at the last stop, and its return to stop 1 shows all of it."""
    number = number_of(planned(head(), teeth, [0.0, 0.1], 19.0).ways, "compound")
    plan = planned(head(), teeth, [0.0, 0.1], 19.0, number)
    assert plan.way is not None
    assert (plan.method, plan.way.even) == ("compound", exact)
    for stop in (*plan.stops, *plan.returns):
        turns, hole, circle, back, second = map(int, re.findall(r"\d+", stop.reading))
        crank = turns + Fraction(hole, circle) + Fraction(back, second)
        assert (crank - 40 * stop.stands).denominator == 1
    gathered = abs(plan.way.gathers) * (teeth - 1)
    assert plan.spread.gathered == gathered
    assert abs(plan.returns[0].error) == abs(plan.way.gathers) * teeth
    assert (gathered == 0) == exact


def test_a_way_that_is_asked_for_is_taken() -> None:
    """Without a number the circle that suits the second lap is taken, with number 2 the
    finest of those whose middle lies between two holes."""
    starts = [0.0, math.radians(4.5)]
    circles = [
        plan.way.scale.circle
        for plan in (planned(head(), 30, starts, 19.0, way=way) for way in (None, 2))
        if plan.way
    ]
    assert circles == [18, 39]


def test_the_worst_of_a_way_counts_every_lap() -> None:
    """A way that is even in each lap is not exact when the second lap begins between two holes."""
    plan = planned(made("notched", notches=60), 30, [0.0, math.radians(15.0)], 19.0)
    (way,) = plan.ways
    assert (way.even, way.exact, way.worst) == (True, False, Fraction(1, 120))


@given(
    teeth=st.integers(2, 1000),
    count=st.integers(2, 5000),
    begin=st.fractions(0, 1, max_denominator=10**6),
)
def test_worst_rounding_from_anywhere(teeth: int, count: int, begin: Fraction) -> None:
    """The closed form is the greatest error of every stop rounded by itself."""
    scale = Scale("notches", count, count)
    places = ((begin + Fraction(k, teeth)) * count for k in range(teeth))
    worst = max(abs(round(place) - place) for place in places)
    assert worst_rounding(teeth, scale, begin) * count == worst


@pytest.mark.parametrize(
    ("turns", "said"),
    [
        (Fraction(1, 7), "51.4286"),
        (Fraction(-1, 7), "308.5714"),
        (Fraction(10**9 - 1, 10**9), "0.0000"),
        (Fraction(1), "0.0000"),
    ],
)
def test_angles_are_written_within_a_turn(turns: Fraction, said: str) -> None:
    """An angle never reads 360, not even when it is rounded there."""
    assert degrees_text(turns) == said


def made_by(ways: Sequence[Way], method: str, circle: int, holes: int) -> int:
    """The number of the way that goes so many holes of a circle for each stop."""
    return next(
        n
        for n, way in enumerate(ways, 1)
        if (way.method, way.scale.circle) == (method, circle) and way.per_stop == holes
    )


def crank_holes(reading: str) -> Fraction:
    """What a reading of a crank says that it has gone against the plate, turns."""
    turns, hole, circle = map(int, re.findall(r"\d+", reading)[:3])
    return turns + Fraction(hole, circle)


@pytest.mark.parametrize(
    ("teeth", "method", "holes", "circle", "closing"),
    [
        (30, "plain", 20, 15, "40 turns, hole 0 of 15"),
        (127, "differential", 5, 15, "42 turns, hole 5 of 15"),
        (77, "differential", 8, 16, "38 turns, hole 8 of 16"),
    ],
)
def test_readings_add_up_move_by_move(
    teeth: int, method: str, holes: int, circle: int, closing: str
) -> None:
    """By hand: 127 moves of 5/15 are 635 holes, 42 turns and 5; 77 of 8/16 are 38 turns and 8; 30
    of 20/15 are the 40 of the worm. Each stop is a move further than the one before, to the closing
    one; the second lap goes on from there by the third of a move that its start lies on, to the
    nearest hole, and by as many moves again."""
    table, starts = head(change_wheels=WHEELS), [0.0, math.tau / 3 / teeth]
    ways = planned(table, teeth, starts, 19.0).ways
    plan = planned(table, teeth, starts, 19.0, made_by(ways, method, circle, holes))
    assert plan.returns[0].reading == closing
    gone = [crank_holes(stop.reading) for stop in (*plan.stops[:teeth], plan.returns[0])]
    assert gone == [k * Fraction(holes, circle) for k in range(teeth + 1)]
    begin = crank_holes(plan.stops[teeth].reading)
    assert begin == gone[-1] + Fraction(round(Fraction(holes, 3)), circle)
    assert crank_holes(plan.returns[1].reading) == begin + gone[-1]


def test_compound_counts_on_into_the_second_lap() -> None:
    """77 by 2/21 and 14/33: after a lap the crank has gone 7 turns and 7 holes and the plate stands
    in hole 22 of 33. The second lap lies 15 degrees on, which are a turn and 14 holes: there it
    begins, though stops of it that are between two holes lie nearer. Every stop of it is one move
    further on both circles."""
    table, starts = head(), [0.0, math.radians(15)]
    number, move = next(
        (n, way.move)
        for n, way in enumerate(planned(table, 77, starts, 19.0).ways, 1)
        if way.move and way.move.holes == (2, 14) and way.move.circles == (21, 33)
    )
    assert (move.turns, move.spaces) == (0, 1)
    plan = planned(table, 77, starts, 19.0, number)
    assert plan.exact
    assert plan.turned_on(2) == Fraction(1, 24)
    assert plan.returns[0].reading == "7 turns, hole 7 of 21; plate hole 22 of 33"
    assert plan.stops[77].reading == "9 turns, hole 0 of 21; plate hole 22 of 33"
    assert plan.stops[78].reading == "9 turns, hole 2 of 21; plate hole 3 of 33"


def test_what_is_turned_counts_on_and_what_a_plate_shows_begins_again() -> None:
    """Closing a lap, a motor has made all its steps and a handwheel its 90 turns; a plate or ring
    on the spindle shows again what it showed."""
    closings = {
        "hole 0, vernier 0": SPIN,
        "notch 0": made("notched", notches=60),
        "360° 00' 00\", 90 turns, dial 0° 00' 00\"": DIAL,
        "12000 steps": made("motor", steps=12000),
    }
    for reading, table in closings.items():
        assert planned(table, 30, [0.0], 19.0).returns[0].reading == reading


@pytest.mark.parametrize("teeth", [87, 127, 106])
def test_the_worst_of_a_compound_way_is_that_of_its_stops(teeth: int) -> None:
    """In two laps, exact or not, what the way is listed with is the greatest error of its stops."""
    number = number_of(planned(head(), teeth, [0.0, 0.1], 19.0).ways, "compound")
    plan = planned(head(), teeth, [0.0, 0.1], 19.0, number)
    assert plan.way is not None
    assert plan.way.method == "compound"
    assert plan.way.worst == max(abs(stop.error) for stop in plan.stops)
