"""Zeros and moves: every route ends where the cut is, for every hand, side and cutter.

Where a touch is, the tests find by their own means: polygons that are let down on the blank, or the
plane figure of the touch. Derived, unless a source is named.
"""

from __future__ import annotations

import itertools
import math
from typing import Any

import pytest
from shapely.geometry import Point

from profilegen.cutting.engagement import engagement_of
from profilegen.cutting.poses import Cut
from profilegen.gauging import spans
from profilegen.geometry.moves import Move, moved
from profilegen.job import Job
from profilegen.setting.own_dials import dial_of
from profilegen.setting.touchoff import DialMove, gauge_height, levelled_face, second_zero_keys
from tests.geometry.oracles import polygon
from tests.parts import Keys, double, job, ratchet, single, vee

FEELER = 0.05
BLUNT: Keys = {"name": "blunt", "kind": "vee", "included_angle": 60, "tip_flat": 0.2}
CUTTERS = [
    vee(),
    vee(45, body_width=7),
    vee(tip_radius=0),
    BLUNT,
    single(),
    single(40),
    double(12, 48, body_width=9),
    vee(sweep_diameter=30),
]
SETUPS: list[Keys] = [
    {"head": head, "cutter_side": side, "front": front}
    for head, side, front in itertools.product(
        ("left", "right"), ("behind", "in front", "above"), ("free end", "head")
    )
]
HANDS = ("clockwise", "counter-clockwise")
OVER = ("flat", "body", "both sides")
FULL: Keys = {"feeler": FEELER, "centre_height": 80, "edge_finder": 10}


def made(cutter: Keys, setup: Keys, **wheel: Any) -> Job:
    """A job of a hooked wheel."""
    return job(ratchet(hook_angle=5, **wheel), cutter, setup=setup)


def moves_of(done: Job, lap: int, route: str) -> list[DialMove]:
    """The moves of one route of one lap."""
    return [m for m in done.touch_off if m.lap == lap and route in m.routes]


def start_of(done: Job, cut: Cut, over: DialMove, down: DialMove) -> complex:
    """Where the apex stands when both zeros have been touched, from the touch alone."""
    radius, tip = cut.blank_radius + FEELER, cut.tool.tip
    half = 0.0
    if over.zero == "body":
        half = (
            3.5
            if cut.tool.name == "vee"
            else 9
            * math.tan(math.radians(12))
            / (math.tan(math.radians(12)) + math.tan(math.radians(48)))
        )
    across = {
        "flat": -radius,
        "body": -radius - half,
        "both sides": -tip.real,
        "height": cut.offset,
    }[over.zero]
    if down.zero == "top":
        return complex(across, radius - tip.imag)
    return complex(across, lowered(cut))


def lowered(cut: Cut) -> float:
    """Height of the apex at which the posed cutter, come down at its offset, meets the feeler; the
    chords of the polygons put it a few 1e-5 mm off."""
    blank = Point(0, 0).buffer(cut.blank_radius + FEELER, quad_segs=4000)
    low, high = cut.apex_height, cut.apex_height + 3 * cut.blank_radius
    for _ in range(60):
        middle = (low + high) / 2
        shift = Move(shift=1j * (middle - cut.apex_height))
        if polygon(moved(cut.silhouette(), shift)).intersects(blank):
            low = middle
        else:
            high = middle
    return high


@pytest.mark.parametrize("cutter", CUTTERS)
@pytest.mark.parametrize("touch", ["top", "offset"])
def test_both_routes_end_at_the_same_apex(cutter: Keys, touch: str) -> None:
    """From the touches that a route starts with, its moves lead to the apex of the cut."""
    done = made(cutter, {**FULL, "touch": touch})
    for cut in done.plan.cuts:
        routes = {route: moves_of(done, cut.lap, route) for route in ("top", "offset")}
        assert next(m.routes[0] for m in done.touch_off if m.lap == cut.lap) == touch
        assert {route: down.zero for route, (_, down) in routes.items()} == {r: r for r in routes}
        assert routes["top"][0].zero != routes["offset"][0].zero
        for over, down in routes.values():
            start = start_of(done, cut, over, down)
            assert abs(start + over.vector + down.vector - cut.apex) < 1e-4


@pytest.mark.parametrize("setup", SETUPS)
@pytest.mark.parametrize("rotation", ["clockwise", "counter-clockwise"])
def test_words_are_those_of_the_machine(setup: Keys, rotation: str) -> None:
    """The vector of a move, seen in the view, goes the way that its words say."""
    done = made(single(), setup, rotation=rotation)
    frame = done.plan.frame
    column = 1 if frame.column_at == "right" else -1
    ways = {"up": 1j, "down": -1j, "towards the column": column, "towards the operator": -column}
    for move in done.touch_off:
        seen = frame.view_from_setup.direction(move.vector)
        assert abs(seen - move.amount * ways[move.direction]) < 1e-9
        assert move.axis == ("Z" if move.direction in ("up", "down") else "Y")


@pytest.mark.parametrize("setup", SETUPS)
def test_the_other_hand_is_the_mirror_image(setup: Keys) -> None:
    """The other hand takes the same moves, those of the offset the other way."""
    swap = {
        "up": "down",
        "down": "up",
        "towards the column": "towards the operator",
        "towards the operator": "towards the column",
    }
    one, two = (made(single(), setup, rotation=r).touch_off for r in HANDS)
    for left, right in zip(one, two, strict=True):
        assert (left.zero, left.axis, left.routes) == (right.zero, right.axis, right.routes)
        assert left.amount == pytest.approx(right.amount, abs=1e-12)
        over = abs(left.vector.real) > abs(left.vector.imag) or left.zero in OVER
        assert right.direction == (swap[left.direction] if over else left.direction)


def test_flat_on_top_then_down() -> None:
    """With its flat on top of the blank an angle cutter goes down by R + e + feeler."""
    done = made(single(), {"feeler": FEELER, "flat": "down"})
    (flat,) = [m for m in done.touch_off if m.zero == "flat"]
    wanted = 12.7 + 12.7 * math.sin(math.radians(5)) + FEELER
    assert (flat.axis, flat.direction) == ("Z", "down")
    assert flat.amount == pytest.approx(wanted, abs=1e-9)
    assert flat.touches == "its flat on the top of the blank"


def test_height_gauge_of_the_shop_example() -> None:
    """A 0.53 mm cutter on a head 95.25 mm high: gauge at 95.515 mm (a shop article on setting a
    slitting cutter on centre), and higher by the feeler."""
    assert gauge_height(95.25, 0.53 / 2) == pytest.approx(95.515, abs=1e-12)
    assert gauge_height(95.25, 0.53 / 2, feeler=0.02) == pytest.approx(95.535, abs=1e-12)


@pytest.mark.parametrize(("rotation", "sign"), [("clockwise", -1), ("counter-clockwise", 1)])
def test_height_gauge_over_the_cutter(rotation: str, sign: int) -> None:
    """The upper side of a vee 7 mm wide stands at centre height, offset and half its width."""
    done = made(vee(60, body_width=7), {**FULL, "feeler": 0.02}, rotation=rotation)
    (gauge,) = [m for m in done.touch_off if m.zero == "height"]
    (cut,) = done.plan.cuts
    assert gauge.direction == "above the table"
    assert gauge.amount == pytest.approx(80 + sign * cut.offset + 3.5 + 0.02, abs=1e-9)


def test_gauge_from_below_under_a_flat() -> None:
    """A flat that looks down is gauged from below: at centre height less the offset and feeler."""
    done = made(single(), {**FULL, "flat": "down"})
    (gauge,) = [m for m in done.touch_off if m.zero == "height"]
    assert gauge.amount == pytest.approx(80 - done.plan.cuts[0].offset - FEELER, abs=1e-9)


def test_edge_finder_and_the_sweep() -> None:
    """From the edge finder the spindle's axis goes to where the tip circle is at depth."""
    done = made(vee(sweep_diameter=30), {"edge_finder": 10})
    (finder,) = [m for m in done.touch_off if m.zero == "edge finder"]
    axis = done.plan.cuts[0].tip.imag + 15
    assert finder.vector.imag == pytest.approx(axis - (12.7 + 5), abs=1e-9)
    assert finder.direction == "towards the column"
    assert finder.less == "over"


def test_above_the_gauge_gives_the_infeed() -> None:
    """For a cutter above, the gauge on the table is a zero of the infeed: the tip at depth."""
    done = made(vee(), {**FULL, "cutter_side": "above"})
    (gauge,) = [m for m in done.touch_off if m.zero == "height"]
    assert gauge.amount == pytest.approx(80 + done.plan.cuts[0].tip.imag - FEELER, abs=1e-9)
    assert {m.axis for m in done.touch_off if m.zero in OVER} == {"Y"}
    assert {m.axis for m in done.touch_off if m.zero in ("top", "offset")} == {"Z"}


def test_feed_starts_at_the_end_that_the_cut_enters() -> None:
    """The feed along X covers run-in, wheel and run-out, towards the head from the free end."""
    done = made(vee(sweep_diameter=30), {"head": "left"})
    (feed,) = [m for m in done.touch_off if m.axis == "X"]
    assert done.setting.bar is not None
    assert done.setting.bar.approach is not None
    assert feed.direction == "left"
    assert feed.amount == pytest.approx(done.setting.bar.approach + 3 + 1, abs=1e-9)


@pytest.mark.parametrize("hook", [8.0, 0.0, -8.0])
def test_levelled_face(hook: float) -> None:
    """A level face lies R sin g below the axis for a positive hook, above for a negative one, as
    it is measured too."""
    height = levelled_face(job(ratchet(hook_angle=hook)).wheel.space)
    assert height == pytest.approx(-12.7 * math.sin(math.radians(hook)), abs=1e-9)
    assert height == pytest.approx(spans.levelled_face(12.7, math.radians(hook)), abs=1e-9)


def area_at(cut: Cut, apex: complex) -> float:
    """Metal that the cutter takes from the whole blank with its apex at a place, by polygons."""
    blank = Point(0, 0).buffer(cut.blank_radius, quad_segs=1000)
    there = moved(cut.silhouette(), Move(shift=apex - cut.apex))
    return float(polygon(there).intersection(blank).area)


@pytest.mark.parametrize("cutter", [vee(), single(), double(12, 48), double(20, 40)])
@pytest.mark.parametrize("hook", [-5, 0, 8])
@pytest.mark.parametrize("division", [0.05, "0.001 in"])
def test_whole_divisions_never_take_more(cutter: Keys, hook: float, division: float | str) -> None:
    """Set to whole divisions from every zero, one slide at a time, a cut of both flanks takes no
    more metal than at the exact place."""
    axis = {"division": division}
    setup = {"dials": {"y": axis, "z": axis}, "feeler": 0.0137, "edge_finder": 10.3}
    done = job(ratchet(hook_angle=hook), {**cutter, "sweep_diameter": 30}, setup=setup)
    for cut in done.plan.cuts:
        exact = area_at(cut, cut.apex)
        for move in (m for m in done.touch_off if m.lap == cut.lap and m.axis != "X"):
            dial = dial_of(done.part, move)
            assert dial is not None
            way = move.vector / abs(move.vector) if move.vector else 0
            assert area_at(cut, cut.apex - way * dial.remainder) <= exact + 1e-9


@pytest.mark.parametrize("cutter", [vee(45), single(40)])
def test_a_lap_of_one_flank_stays_off_it(cutter: Keys) -> None:
    """In two laps whole divisions of the offset stop short of the flank that the lap forms."""
    done = made(cutter, {"dials": {"z": {"division": 0.05}}})
    for cut in done.plan.cuts:
        for move in (m for m in done.touch_off if m.lap == cut.lap and m.zero in OVER):
            dial = dial_of(done.part, move)
            assert dial is not None
            stands = -(move.vector / abs(move.vector) * dial.remainder).real
            assert (stands <= 1e-9) if cut.forms == "face" else (stands >= -1e-9)


def test_less_metal_is_seen_in_the_area() -> None:
    """The way told as less metal is the one in which the area falls."""
    for cutter in (vee(), single(), double(12, 48)):
        (cut,) = job(ratchet(), cutter).plan.cuts
        way = engagement_of(cut).less_metal
        assert area_at(cut, cut.apex + 0.01 * way) < area_at(cut, cut.apex)


def test_a_second_zero_needs_something_to_measure() -> None:
    """Without width, flat or centre height both routes share the one zero that always works."""
    done = made(vee(), {})
    assert {moves_of(done, 1, route)[0].zero for route in ("top", "offset")} == {"both sides"}


SLOT: Keys = {"name": "slot", "kind": "slot", "width": 0.8}


@pytest.mark.parametrize("side", ["above", "behind", "in front"])
@pytest.mark.parametrize("cutter", [vee(), vee(edge_length=4), double(12, 48), single(), SLOT])
def test_a_second_zero_comes_from_the_keys_told(cutter: Keys, side: str) -> None:
    """Each key that is told adds a zero of the offset, and the other one does not."""
    setup: Keys = {"cutter_side": side, "accept": 5}
    table = {
        "cutter's body_width": ({"body_width": 7}, {}),
        "centre_height": ({}, {"centre_height": 80}),
    }

    def zeros(more: Keys, keys: Keys) -> int:
        done = made({**cutter, **more}, {**setup, **keys})
        return sum(move.sets == "offset" and move.lap == 1 for move in done.touch_off)

    done = made(cutter, setup)
    told = " ".join(second_zero_keys(done.part, done.plan.frame, done.plan.cuts[0]))
    for key, (more, keys) in table.items():
        assert (zeros(more, keys) > zeros({}, {})) == (key in told)


@pytest.mark.parametrize("cutter", [*CUTTERS, vee(45, sweep_diameter=30)])
@pytest.mark.parametrize("setup", [{}, FULL, {"touch": "offset"}])
def test_every_zero_stands_once(cutter: Keys, setup: Keys) -> None:
    """One move for a zero of a lap, in the order of setting; programs get a whole route for each
    zero of the infeed, an offset move and then an infeed move, that of `touch` first."""
    done = made(cutter, setup)
    moves = done.touch_off
    assert len({(move.lap, move.sets, move.zero) for move in moves}) == len(moves)
    order = [(move.lap, ("offset", "infeed", "feed").index(move.sets)) for move in moves]
    assert order == sorted(order)
    touch = setup.get("touch", "top")
    other = "offset" if touch == "top" else "top"
    rows = done.as_dict()["touch_off"]
    for cut in done.plan.cuts:
        here = [(row["route"], row["sets"]) for row in rows if row["lap"] == cut.lap]
        assert here[:4] == [(route, s) for route in (touch, other) for s in ("offset", "infeed")]
        assert {route for route, _ in here[4:]} <= {"check"}
        firsts = [m.routes for m in moves if m.lap == cut.lap and m.sets == "infeed"][:2]
        assert firsts == [(touch,), (other,)]
