"""Heel rub: the values of a table, each limit by itself, and what is told of a part's cutter."""

from __future__ import annotations

import cmath
import math
from typing import Any

import pytest

from profilegen.cutting.ground import Ground, edge_of
from profilegen.cutting.heel import least_radius
from profilegen.cutting.profile import Profile
from profilegen.cutting.relief import (
    STANDING_TOOL,
    Relief,
    down_the_nose,
    relief_for,
    standing_tool_cautions,
    swept_angle,
    tip_rise,
)
from profilegen.cutting.wedge import Wedge
from profilegen.geometry.chain import Role, chain
from tests.cutting.spun import edge_to
from tests.parts import job, part, ratchet, single, vee

# VEE-43, VEE-45, VEE-46, VEE-48, VEE-50: derived (VEE-42: the relief flat is a chord of the tip
# circle), checked there by closed form and by root finding; no published source.
# Tip radius, relief in degrees, greatest thickness.
END_EDGES = [
    ("VEE-43", 5.0, 10.0, 1.7101),
    ("VEE-45", 10.0, 10.0, 3.4202),
    ("VEE-46", 10.0, 15.0, 5.0000),
    ("VEE-48", 20.0, 5.0, 3.4730),
    ("VEE-50", 30.0, 6.0, 6.2374),
]


@pytest.mark.parametrize(("row", "radius", "relief", "thickness"), END_EDGES)
def test_greatest_thickness_of_an_end_edge(
    row: str, radius: float, relief: float, thickness: float
) -> None:
    """Thickness below an end edge before the heel rubs, `r sin(2 relief)`, to the digits."""
    found = radius * math.sin(2 * math.radians(relief))
    assert found == pytest.approx(thickness, abs=6e-5), row
    flat = edge_to(Profile("flat", "slot", chain([10, -10], roles=Role.EDGE)), 0.01)
    told, _ = least_radius(flat, math.radians(relief), found, 0.0)
    assert told == pytest.approx(radius, rel=1e-9)


# Derived, confirmed by a numerical sweep, no published source: thickness 2.38, relief 7, 60 deg.
@pytest.mark.parametrize(
    ("nose", "flank", "radius"), [(0.0, 0.0, 5.14), (0.2, 0.0, 7.56), (0.2, 2.5, 7.64)]
)
def test_least_radius_of_a_vee(nose: float, flank: float, radius: float) -> None:
    """Least tip radius of an insert with a 60 degree corner, sharp, rounded, and deep."""
    half = math.radians(30)
    edge = edge_to(Wedge("v", "vee", half, half, nose), flank or 1e-3)
    told, _ = least_radius(edge, math.radians(7), 2.38, 0.0)
    assert told == pytest.approx(radius, abs=0.005)


# Derived, no published source: a 60 degree corner presented point first.
@pytest.mark.parametrize(("relief", "radial"), [(7, 13.8), (11, 21.2)])
def test_radial_relief_of_a_corner(relief: float, radial: float) -> None:
    """A sharp corner of 60 degrees has about twice the relief of its flanks along the infeed."""
    sharp = edge_to(Wedge("v", "vee", math.radians(30), math.radians(30)), 1.0)
    found = down_the_nose(sharp, math.radians(relief))
    assert found is not None
    assert math.degrees(found) == pytest.approx(radial, abs=0.05)


TOOLS = [
    Wedge("v", "vee", math.radians(30), math.radians(30), 0.2),
    Wedge("v", "vee", math.radians(30), math.radians(30), 0.8),
    Wedge("v", "vee", math.radians(15), math.radians(15), 0.3),
    Wedge("v", "vee", math.radians(45), math.radians(45), 0.1),
    Wedge("v", "vee", math.radians(30), math.radians(30), flat=0.4),
    Wedge("s", "single-angle", 0.0, math.radians(60), 0.2),
    Wedge("d", "double-angle", math.radians(12), math.radians(48), 0.2),
    Wedge("d", "double-angle", math.radians(20), math.radians(50), flat=0.3),
]
DEEP = 2.5


@pytest.mark.parametrize("off", [0.0, 0.1, -0.1])
@pytest.mark.parametrize("ground", ["round", "flanks"])
@pytest.mark.parametrize("tool", TOOLS)
def test_each_limit_is_the_limit(tool: Wedge, ground: Ground, off: float) -> None:
    """Relief, thickness and sweep told each bring the tool just to the point of rubbing."""
    edge = edge_to(tool, DEEP, ground)
    relief, thickness, sweep = math.radians(9), 3.0, 30.0
    told = relief_for((edge,), relief, thickness, sweep, off)
    assert told.least_relief_angle is not None
    assert told.greatest_thickness is not None
    assert told.least_sweep_diameter is not None
    assert least_radius(edge, told.least_relief_angle, thickness, off)[0] <= sweep / 2 * (1 + 1e-6)
    assert least_radius(edge, told.least_relief_angle - 1e-4, thickness, off)[0] > sweep / 2
    assert least_radius(edge, relief, told.greatest_thickness - 1e-3, off)[0] <= sweep / 2
    assert told.clears == (told.least_sweep_diameter <= sweep)
    assert told.margin == pytest.approx(relief - told.least_relief_angle)


def test_edge_ahead_of_the_radius_line_gains_relief() -> None:
    """0.1 mm off on a sweep radius of 10 tilts the face 0.6 degrees (derived, no published
    source); ahead it clears sooner, behind it rubs sooner."""
    half = math.radians(30)
    edge = edge_to(Wedge("v", "vee", half, half, 0.2), 2.0)
    told = relief_for((edge,), math.radians(9), 3.0, 20.0)
    assert told.relief_change is not None
    assert math.degrees(told.relief_change) == pytest.approx(0.6, abs=0.03)
    ahead, on, behind = (
        least_radius(edge, math.radians(9), 3.0, off)[0] for off in (0.1, 0.0, -0.1)
    )
    assert ahead < on < behind


def test_edge_off_the_radius_line_sweeps_a_wider_angle_and_runs_out() -> None:
    """The swept flank of an edge off the line, measured point by point, and the tip's rise."""
    half = math.radians(30)
    wedge, radius, off = Wedge("v", "vee", half, half), 10.0, 2.0
    tall = math.sqrt(radius**2 - off**2)
    small, found = 1e-5, swept_angle(wedge, radius, off)
    sinks = radius - math.hypot(tall - small, off)
    assert found == pytest.approx(2 * math.atan(small * math.tan(half) / sinks), abs=1e-6)
    assert found > 2 * half
    assert abs(complex(off, radius - tip_rise(radius, off))) == pytest.approx(radius)
    assert swept_angle(wedge, radius, 0.0) == pytest.approx(2 * half)


@pytest.mark.parametrize("off", [1.5, -1.5])
def test_what_is_told_off_the_line_is_all_of_the_circle_that_the_tip_runs_on(off: float) -> None:
    """A tip put down at its stick-out and `off` runs on the sweep given, and its face tilts so."""
    half, sweep = math.radians(30), 20.0
    edge = edge_to(Wedge("v", "vee", half, half, 0.2), 2.0)
    told = relief_for((edge,), math.radians(9), 3.0, sweep, off)
    assert told.tip_rise is not None
    assert told.relief_change is not None
    tip = complex(sweep / 2 - told.tip_rise, off)
    assert abs(tip) == pytest.approx(sweep / 2)
    assert cmath.phase(tip) == pytest.approx(told.relief_change)


def test_edge_counts_up_to_where_it_leaves_the_blank() -> None:
    """The flank in the metal ends at the blank's rim, at depth."""
    made = job(ratchet(), vee(60))
    (cut,) = made.plan.cuts
    edge = edge_of(made.wheel, cut)
    assert edge is not None
    heights = edge.metal.points[[0, -1]].imag.tolist()
    face, back = made.wheel.space.face, made.wheel.space.back
    assert face is not None
    assert back is not None
    for flank, height in zip((face, back), heights, strict=True):
        place = cut.setup_from_base(flank.tip)
        assert height == pytest.approx(place.imag - cut.tip.imag, abs=1e-9)


FLY: dict[str, Any] = {"sweep_diameter": 30, "relief_angle": 11, "edge_thickness": 3.97}


@pytest.mark.parametrize("missing", FLY)
def test_says_what_the_cutter_lets_it(missing: str) -> None:
    """Of three sizes the one left out is answered, and the others are null."""
    known = {key: value for key, value in FLY.items() if key != missing}
    told = job(ratchet(), vee(60, **known)).as_dict()["relief"]
    answers = {
        "sweep_diameter": "least_sweep_diameter",
        "relief_angle": "least_relief_angle",
        "edge_thickness": "greatest_thickness",
    }
    assert told["clears"] is None
    assert {key for key in answers.values() if told[key] is not None} == {answers[missing]}


def test_the_way_of_grinding_is_told_with_what_holds_for_it() -> None:
    """Programs read which of the two bodies was swept: the one of the cutter, or the usual one;
    the limits differ between them for a vee with much relief."""
    keys = {**FLY, "relief_angle": 14}
    told = [
        job(ratchet(), vee(60, **keys, **more)).as_dict()["relief"]
        for more in ({}, {"relief_ground": "round"}, {"relief_ground": "flanks"})
    ]
    usual, one, other = (each.pop("relief_ground") for each in told)
    assert (one, other) == ("round", "flanks")
    assert usual in (one, other)
    assert told[0] == told[(one, other).index(usual) + 1]
    assert told[1] != told[2]


def test_nothing_known_is_all_null() -> None:
    """A plain cutter, or none, says nothing of its relief."""
    assert job(ratchet()).relief == Relief()
    told = job(ratchet(), vee(60)).as_dict()["relief"]
    assert set(told.values()) == {None}


def test_no_relief_always_rubs() -> None:
    """An insert without clearance rubs on every sweep, and the finding asks for relief."""
    made = job(ratchet(), vee(60, **{**FLY, "relief_angle": 0}))
    (found,) = [one for one in made.findings if one.code == "heel-rubs"]
    assert made.relief.clears is False
    assert found.where == "cutter[1].relief_angle"


def test_tools_that_stand_still_have_cautions() -> None:
    """A spun bit or insert has them, a bought cutter of many teeth has not."""
    fly, bought = part(ratchet(), vee(60, teeth=1), single(60, name="bought", teeth=20)).cutters
    assert standing_tool_cautions(fly) == STANDING_TOOL
    assert standing_tool_cautions(bought) == ()
