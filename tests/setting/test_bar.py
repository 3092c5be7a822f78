"""Lengths along the wheel axis against circles drawn on the bar."""

from __future__ import annotations

import math

import numpy as np
import pytest
from shapely.geometry import LineString, Point

from profilegen.cutting.poses import Cut
from profilegen.job import Job
from profilegen.setting.bar import CLEAR, NECK_BELOW, half_chord
from tests.geometry.oracles import polygon
from tests.parts import job, ratchet, vee

SWEEP = 30.0


def made(**tables: object) -> Job:
    """A wheel with a fly cutter."""
    return job(ratchet(), vee(sweep_diameter=SWEEP, teeth=1), **tables)


def reach_at(cut: Cut, level: float) -> float:
    """Half the width of the tip's circle at a height over the wheel axis, by intersection."""
    swept = Point(0, cut.tip.imag + SWEEP / 2).buffer(SWEEP / 2, quad_segs=20000)
    return float(swept.intersection(LineString([(-50, level), (50, level)])).length) / 2


def first_touch(cut: Cut, radius: float) -> float:
    """Half the widest chord, over slices of the cutter: each a circle that the blank's edge cuts,
    by polygons."""
    edge = polygon(cut.silhouette()).exterior
    widest = 0.0
    for x in np.linspace(-radius, radius, 4001):
        top = math.sqrt(radius**2 - x**2)
        below = edge.intersection(LineString([(x, -50), (x, top)]))
        if below.is_empty:
            continue
        low = below.bounds[1]
        runs_on = SWEEP / 2 - (low - cut.tip.imag)
        level = min(top, low + runs_on)
        widest = max(widest, math.sqrt(runs_on**2 - (low + runs_on - level) ** 2))
    return widest


def test_run_in_and_run_out() -> None:
    """The run-in is to where the turning cutter first touches the end of the work; the feed is
    that, the work and a clearance at both ends, so that the cutter stays off the jaws."""
    shop = made().setting
    (cut,), bar = shop.plan.cuts, shop.bar
    assert bar is not None
    assert bar.approach is not None
    assert bar.approach == pytest.approx(first_touch(cut, 12.7), abs=1e-4)
    assert bar.approach < reach_at(cut, 12.7)
    assert bar.feed == pytest.approx(bar.approach + 3 + 2 * CLEAR)
    assert bar.overrun == CLEAR


@pytest.mark.parametrize("bar_diameter", [10, 25.4, 30])
def test_the_neck_lets_the_cutter_out(bar_diameter: float) -> None:
    """At the end of the cut the tip circle clears a bar behind the neck and lies above it."""
    shop = made(blank={"bar_diameter": bar_diameter}).setting
    (cut,), bar = shop.plan.cuts, shop.bar
    assert bar is not None
    assert bar.neck_length is not None
    behind = max(12.7, bar_diameter / 2)
    assert bar.neck_length == pytest.approx(reach_at(cut, behind) + CLEAR, abs=1e-5)
    assert bar.neck_diameter == pytest.approx(2 * (cut.root_radius - NECK_BELOW))
    assert bar.reach == pytest.approx(behind - cut.tip.imag + CLEAR)


@pytest.mark.parametrize("count", [1, 4])
@pytest.mark.parametrize("side", [None, "back", "front"])
def test_stick_out_adds_up(count: int, side: str | None) -> None:
    """Each wheel laid on the bar from the free end: hub, rim, what parting off and lapping take.
    Behind the last rim the cutter's run-out and what is parted off there share one length."""
    blank = {"count": count, "lapping_allowance": 0.2, "parting_width": 1.5, "bar_diameter": 12}
    hub = {"diameter": 12, "length": 5, "side": side}
    bar = made(blank=blank, **({"hub": hub} if side else {})).setting.bar
    assert bar is not None
    assert bar.stick_out is not None
    at, rims = 0.0, []
    for _ in range(count):
        at += 5 if side == "front" else 0
        rims.append((at, at + 3))
        at += 3 + (5 if side == "back" else 0) + 0.2 + 1.5
    assert bar.cut_length == pytest.approx(rims[-1][1] - rims[0][0])
    run_out = CLEAR + SWEEP / 2 + CLEAR
    assert bar.stick_out == pytest.approx(max(rims[-1][1] + run_out, at))
    assert bar.cutter_to_jaws == pytest.approx(CLEAR)


def test_what_is_parted_off_may_need_more_than_the_run_out() -> None:
    """With a long hub at the head the jaws stand behind the parting, not at the end of the
    run-out."""
    hub = {"diameter": 12, "length": 40, "side": "back"}
    bar = made(blank={"bar_diameter": 12}, hub=hub).setting.bar
    assert bar is not None
    assert bar.stick_out == pytest.approx(3 + 40 + 0.3 + 2.0)
    assert bar.cutter_to_jaws == pytest.approx(40 + 2.3 - CLEAR - SWEEP / 2)


def test_a_cutter_that_comes_from_the_chuck_starts_clear_of_the_jaws() -> None:
    """Entering at the chuck side it first stands its whole run-in behind the wheel."""
    bar = made(setup={"spindle": "counter-clockwise"}).setting.bar
    assert bar is not None
    assert bar.approach is not None
    assert bar.stick_out == pytest.approx(3 + bar.approach + CLEAR + SWEEP / 2 + CLEAR)


def test_without_a_sweep_only_the_neck_is_known() -> None:
    """A cutter that does not say how it swings leaves the lengths along the bar open."""
    bar = job(ratchet(), vee()).setting.bar
    assert bar is not None
    assert (bar.approach, bar.feed, bar.neck_length, bar.stick_out) == (None,) * 4
    assert bar.neck_diameter > 0


@pytest.mark.parametrize(("side", "way"), [("behind", "left"), ("in front", "right")])
@pytest.mark.parametrize("head", ["left", "right"])
def test_feed_goes_the_way_of_a_conventional_cut(head: str, side: str, way: str) -> None:
    """The cutter goes the way its own teeth go over the work: turning clockwise from above, left
    where it stands behind the work, right where it stands in front."""
    bar = job(ratchet(), vee(), setup={"head": head, "cutter_side": side}).setting.bar
    assert bar is not None
    towards = "towards" if way == head else "away from"
    assert bar.feed_direction == f"{way}, {towards} the head"


def test_half_chord() -> None:
    """Half a chord of a circle of radius 13 at 8 over its lowest point is 12 (5, 12, 13)."""
    assert half_chord(13, 8) == pytest.approx(12)
    assert (half_chord(13, 20), half_chord(13, -1)) == (13, 0)
    assert half_chord(1, 1 - math.sqrt(0.5)) == pytest.approx(math.sqrt(0.5))
