"""Trial cuts: lands of wheels cut short or eccentric give the infeed and the run-out back."""

from __future__ import annotations

import cmath
import math
from typing import Any

import numpy as np
import pytest
from shapely.geometry import Polygon
from shapely.geometry.base import BaseGeometry

from profilegen.cutting.gap import land_left, sides
from profilegen.cutting.poses import Cut, posed_cut
from profilegen.cutting.profile import Profile
from profilegen.cutting.taken import land_taken
from profilegen.cutting.touch import InfeedZero
from profilegen.cutting.trial import (
    Land,
    land_per_radius,
    limits_of,
    remaining_for,
    suits_other_unit,
    trial_for,
    trial_table,
)
from profilegen.findings.cannot_make import CannotMakeError
from profilegen.geometry.chain import chain, circle
from profilegen.geometry.moves import Move, moved
from profilegen.job import Job, trial_of
from profilegen.setting.trial_dial import stand_of, step_of, table_step_of
from profilegen.topics.dicts import trial_dict
from tests.cutting.straight import land_at
from tests.cutting.test_budget import lands_of_a_wobbling_blank
from tests.cutting.test_cut_by_boolean import polygon
from tests.parts import double, job, ratchet, single, vee

JOBS: list[tuple[dict[str, Any], dict[str, Any]]] = [
    ({}, vee(60)),
    ({"hook_angle": 6}, single(60)),
    ({"rotation": "counter-clockwise"}, vee(45)),
    ({"hook_angle": -4}, double(12, 48)),
]


def pitch_of(made: Job) -> float:
    """Chord of a whole pitch, mm."""
    return 2 * made.wheel.radius * math.sin(made.wheel.angular_pitch / 2)


@pytest.mark.parametrize("remaining", [0.5, 0.2, 0.0, -0.05])
@pytest.mark.parametrize(("wheel", "cutter"), JOBS)
def test_gap_of_the_silhouette_is_that_of_the_flanks(
    wheel: dict[str, Any], cutter: dict[str, Any], remaining: float
) -> None:
    """Where straight flanks leave the blank both ways to the land agree."""
    made = job(ratchet(**wheel), cutter)
    told = land_left(made.wheel, made.plan.cuts, remaining)
    assert told == pytest.approx(land_at(made.wheel, made.plan.cuts, remaining), abs=1e-11)


@pytest.mark.parametrize("remaining", [0.6, 0.17, 1e-3, 0.0, -0.03, -0.1])
@pytest.mark.parametrize(("wheel", "cutter"), JOBS)
def test_land_gives_its_infeed_back(
    wheel: dict[str, Any], cutter: dict[str, Any], remaining: float
) -> None:
    """The land of a wheel cut short, or too deep, gives what is still to go."""
    made = job(ratchet(**wheel), cutter)
    cuts = made.plan.cuts
    told = trial_for(made.wheel, cuts, (Land(land_at(made.wheel, cuts, remaining)),))
    assert told.remaining == pytest.approx(remaining, abs=1e-9)
    assert told.is_too_deep == (remaining < 0)
    assert told.lap == cuts[-1].lap
    assert told.from_top == pytest.approx(cuts[-1].infeed_from_top - remaining, abs=1e-9)
    assert told.from_offset == pytest.approx(cuts[-1].infeed_from_offset - remaining, abs=1e-9)
    if remaining >= 0:
        assert told.expected_size == pytest.approx(0.4, abs=1e-11)
    else:
        assert told.expected_size == told.mean


def test_land_of_a_cut_blank_gives_its_infeed_back() -> None:
    """A blank cut by polygons 0.25 mm short shows the land that this says is 0.25 mm short."""
    made = job(ratchet(hook_angle=5), vee(60))
    (cut,) = made.plan.cuts
    blank: BaseGeometry = polygon(circle(0, made.wheel.radius))
    tool = moved(cut.silhouette(), Move(shift=0.25j))
    for stop in (0, 1):
        blank = blank.difference(polygon(moved(tool, cut.wheel_from_setup(made.wheel, stop))))
    assert isinstance(blank, Polygon)
    rim = np.array([complex(*xy) for xy in blank.exterior.coords[:-1]])
    rim = rim[np.abs(rim) > made.wheel.radius * (1 - 1e-7)]
    angles = np.sort(np.angle(rim) % (2 * np.pi))
    inside = angles[angles < 1.9 * made.wheel.angular_pitch]
    steps = np.diff(inside)
    edges = np.flatnonzero(steps > 0.05)
    land = 2 * made.wheel.radius * math.sin((inside[edges[-1]] - inside[edges[0] + 1]) / 2)
    told = remaining_for(land_taken(made.wheel, made.plan.cuts), float(land))
    assert told == pytest.approx(0.25, abs=1e-4)


@pytest.mark.parametrize("step", [0.01, 0.0127, 0.05])
@pytest.mark.parametrize(("wheel", "cutter"), JOBS)
def test_rounding_takes_less_metal_off(
    wheel: dict[str, Any], cutter: dict[str, Any], step: float
) -> None:
    """The correction is whole steps, never over what is to go, and leaves the land expected."""
    made = job(ratchet(**wheel), cutter)
    for land in (0.62, 0.45, 0.4, 0.39, 0.2):
        told = trial_for(made.wheel, made.plan.cuts, (Land(land),), step)
        assert told.to_feed >= 0
        assert told.to_feed <= max(told.remaining, 0) + 1e-6 * step
        assert told.to_feed > told.remaining - step * (1 + 1e-9)
        assert round(told.to_feed / step) == pytest.approx(told.to_feed / step)
        rest = land_at(made.wheel, made.plan.cuts, told.remaining - told.to_feed)
        assert told.expected == pytest.approx(rest, abs=1e-11)
        assert told.expected >= min(told.target, land) - 1e-9


# RAT-27, RAT-29: derived, checked by high-precision arithmetic; no published source.
# Radius, depth, teeth, groove angle between flanks, land as an angle in degrees.
GROOVES = [("RAT-27", 20, 2.0, 24, 60, 6.2078), ("RAT-29", 20, 2.5, 16, 45, 15.7226)]


@pytest.mark.parametrize(("row", "radius", "depth", "teeth", "angle", "land"), GROOVES)
def test_land_left_at_a_depth(
    row: str, radius: float, depth: float, teeth: int, angle: float, land: float
) -> None:
    """Land of a radial face at a given depth, and the depth from the land."""
    wheel = ratchet(
        teeth=teeth,
        outside_diameter=2 * radius,
        land=None,
        tooth_depth=depth + 0.5,
        space_angle=angle,
        root_radius=None,
    )
    made = job(wheel, single(angle, tip_radius=0))
    chord = 2 * radius * math.sin(math.radians(land) / 2)
    assert remaining_for(land_taken(made.wheel, made.plan.cuts), chord) == pytest.approx(
        0.5, abs=1e-4
    ), row


@pytest.mark.parametrize(("wheel", "cutter"), JOBS)
def test_land_that_no_depth_leaves(wheel: dict[str, Any], cutter: dict[str, Any]) -> None:
    """A land of the pitch or more, or of nothing, is refused with the limits."""
    made = job(ratchet(**wheel), cutter)
    limits = limits_of(land_taken(made.wheel, made.plan.cuts))
    assert limits.target == pytest.approx(0.4, abs=1e-11)
    assert limits.untouched <= pitch_of(made)
    for land in (limits.untouched, pitch_of(made), 50.0, 0.0, -0.1):
        with pytest.raises(CannotMakeError) as refusal:
            trial_for(made.wheel, made.plan.cuts, (Land(land),))
        (found,) = refusal.value.findings
        assert (found.code, found.severity) == ("land-unreachable", "refused")
        assert found.limit == limits.untouched


def test_last_of_two_laps_is_what_is_corrected() -> None:
    """Before the second lap touches, the land is what the first left; no greater one can be."""
    made = job(ratchet(), vee(45))
    limits = limits_of(land_taken(made.wheel, made.plan.cuts))
    assert limits.untouched < 0.8 * pitch_of(made)
    first = sides(made.wheel, made.plan.cuts[:1])
    assert first is not None
    gap = first[1].base_angle - first[0].base_angle
    left = 2 * made.wheel.radius * math.sin((made.wheel.angular_pitch - gap) / 2)
    assert limits.untouched == pytest.approx(left, abs=1e-9)


def spread(made: Job, eccentric: complex, spaces: tuple[int, ...]) -> tuple[Land, ...]:
    """Lands of an eccentric blank behind some spaces."""
    lands = lands_of_a_wobbling_blank(made, eccentric)
    return tuple(Land(lands[space - 1][0], space) for space in spaces)


@pytest.mark.parametrize("spaces", [(1, 11, 21), (2, 9, 15, 24, 29), tuple(range(1, 31))])
@pytest.mark.parametrize(("wheel", "cutter"), JOBS[:2])
def test_run_out_is_found_again(
    wheel: dict[str, Any], cutter: dict[str, Any], spaces: tuple[int, ...]
) -> None:
    """Eccentricity and direction of a blank come back from three lands or more round the wheel."""
    made = job(ratchet(**wheel), cutter)
    high = 200.0
    blank = 0.02 * cmath.exp(1j * math.radians(high))
    told = trial_for(made.wheel, made.plan.cuts, spread(made, blank, spaces))
    assert told.runout is not None
    assert told.runout.reading == pytest.approx(0.04, rel=0.02)
    behind_first = made.wheel.angular_pitch + half_a_land(made)
    found = math.degrees(told.runout.high_spot + behind_first)
    assert found % 360 == pytest.approx(high, abs=2.0)
    assert told.mean == pytest.approx(0.4, abs=1e-3)
    assert told.runout.rest < 2e-4


def half_a_land(made: Job) -> float:
    """From the face tip of tooth 2 back to the middle of the land before it, rad."""
    return -math.asin(0.4 / (2 * made.wheel.radius))


def test_high_spot_has_the_least_land() -> None:
    """A blank that is bigger on one side is cut deeper there."""
    made = job(ratchet(), vee(60))
    assert land_per_radius(made.wheel, made.plan.cuts) < 0
    told = trial_for(made.wheel, made.plan.cuts, (Land(0.3, 1), Land(0.5, 11), Land(0.5, 21)))
    assert told.runout is not None
    assert told.runout.high_spot == pytest.approx(0.0, abs=1e-9)
    assert told.runout.swing == pytest.approx(2 / 15, abs=1e-9)


def swung(*values: float) -> tuple[Land, ...]:
    """Lands of a wheel of 30 teeth at equal distances round it."""
    return tuple(Land(value, 1 + round(30 * k / len(values))) for k, value in enumerate(values))


@pytest.mark.parametrize(
    ("lands", "tolerance", "first"),
    [
        ((Land(0.6),), (-0.05, 0.10), None),
        (swung(0.595, 0.605, 0.6), (-0.05, 0.10), None),
        (swung(0.58, 0.62, 0.6), (-0.05, 0.10), "run-out"),
        (swung(0.595, 0.605, 0.6), (-0.003, 0.10), "run-out"),
        (swung(0.595, 0.605, 0.6), (-0.10, 0.005), "run-out"),
        (swung(0.39, 0.41, 0.40), (-0.05, 0.10), None),
        (swung(0.57, 0.63, 0.57, 0.63, 0.57, 0.63), (-0.05, 0.10), None),
        (swung(0.56, 0.64, 0.56, 0.64, 0.56, 0.64), (-0.05, 0.10), "stops"),
        (swung(0.57, 0.63, 0.57, 0.63, 0.57, 0.63), (-0.02, 0.13), "stops"),
        ((Land(0.5), Land(0.7)), (-0.05, 0.10), "stops"),
    ],
)
def test_what_comes_before_the_depth(
    lands: tuple[Land, ...], tolerance: tuple[float, float], first: str | None
) -> None:
    """Run-out over the usual, or what takes lands out of tolerance, is put right before feeding."""
    made = job(ratchet(), vee(60))
    told = trial_for(made.wheel, made.plan.cuts, lands, 0.001, tolerance=tolerance)
    assert told.put_right_first == first
    assert trial_dict(told)["put_right_first"] == first
    assert told.allowed == pytest.approx((0.4 + tolerance[0], 0.4 + tolerance[1]), abs=1e-9)
    least, greatest = told.expected_ends
    for land in lands:
        assert least - 1e-9 <= land.value - told.mean + told.expected <= greatest + 1e-9


@pytest.mark.parametrize(
    "lands",
    [
        (Land(0.6),),
        (Land(0.6), Land(0.62), Land(0.61)),
        (Land(0.6, 1), Land(0.62, 11)),
        (Land(0.6, 1), Land(0.62, 2), Land(0.61, 3)),
        (Land(0.6, 1), Land(0.62, 5), Land(0.61, 14)),
        (Land(0.6, 1), Land(0.62, 1), Land(0.61, 11)),
    ],
)
def test_too_few_lands_or_on_one_side_say_no_run_out(lands: tuple[Land, ...]) -> None:
    """Two lands, or lands within half a turn, cannot tell run-out; the scatter is told."""
    made = job(ratchet(), vee(60))
    told = trial_for(made.wheel, made.plan.cuts, lands)
    assert told.runout is None
    values = [land.value for land in lands]
    assert told.scatter == pytest.approx(max(values) - min(values))
    assert told.mean == pytest.approx(sum(values) / len(values))
    assert trial_dict(told)["runout"] is None


def ball(made: Job, radius: float) -> tuple[Cut, ...]:
    """One cut of a round-nosed cutter, its middle about at the rim."""
    edge = chain([radius + 0j, -radius + 0j], [-1.0])
    cut = posed_cut(
        made.wheel, Profile("ball", "ball", edge), "space", 1, math.pi / 2 - 0.05, 12.6 + 0.6j
    )
    return (cut,)


def test_curved_silhouette() -> None:
    """A round cutter's land is the pitch less the chord of two circles, and comes back."""
    made = job(ratchet())
    cuts = ball(made, 0.8)
    radius, far = made.wheel.radius, abs(cuts[0].apex + 0.2j)
    gap = 2 * math.acos((radius**2 + far**2 - 0.8**2) / (2 * radius * far))
    land = 2 * radius * math.sin((made.wheel.angular_pitch - gap) / 2)
    assert land_left(made.wheel, cuts, 0.2) == pytest.approx(land, abs=1e-9)
    assert remaining_for(land_taken(made.wheel, cuts), land) == pytest.approx(0.2, abs=1e-8)


def test_table_for_the_sheet() -> None:
    """Rows run down in whole steps through depth to too deep, and leave out what cannot be."""
    made = job(ratchet(), vee(60))
    table = list(trial_table(made.wheel, made.plan.cuts, 0.05))
    assert [round(infeed / 0.05) for infeed, _ in table] == [6, 4, 2, 1, 0, -1]
    for infeed, land in table:
        assert land == pytest.approx(land_at(made.wheel, made.plan.cuts, infeed), abs=1e-11)
    assert [infeed for infeed, _ in trial_table(made.wheel, made.plan.cuts, 2.0)] == [0.0]
    assert list(trial_table(made.wheel, (), 0.05)) == []


def test_number_that_makes_sense_in_the_other_unit_only() -> None:
    """0.62 in an inch part and 0.0244 in a mm part are doubted; a thin land is not."""
    made = job(ratchet(), vee(60))
    limits = limits_of(land_taken(made.wheel, made.plan.cuts))
    assert suits_other_unit(0.62 * 25.4, "in", limits) == pytest.approx(0.62)
    assert suits_other_unit(0.0244, "mm", limits) == pytest.approx(0.62, abs=1e-3)
    for value, unit in ((0.62, "mm"), (0.2, "mm"), (0.09, "mm"), (500.0, "in"), (0.62, "in")):
        assert suits_other_unit(value, "in" if unit == "in" else "mm", limits) is None


def test_trial_needs_cuts_and_lands() -> None:
    """Nothing to correct, or nothing measured, is a fault of the caller."""
    made = job(ratchet(), vee(60))
    with pytest.raises(ValueError, match="needs cuts and lands"):
        trial_for(made.wheel, made.plan.cuts, ())
    with pytest.raises(ValueError, match="needs cuts and lands"):
        trial_for(made.wheel, (), (Land(0.5),))


@pytest.mark.parametrize(
    ("dial", "step", "rows"),
    [
        (None, 0.01, 0.05),
        ({"division": 0.02}, 0.02, 0.04),
        ({"division": 0.04, "reads": "diameter"}, 0.02, 0.04),
        ({"division": 0.2}, 0.2, 0.2),
    ],
)
def test_sheet_and_command_count_in_the_same_steps(
    dial: dict[str, Any] | None, step: float, rows: float
) -> None:
    """The correction is whole divisions of the infeed's dial, and so are the rows of the table on
    the sheet; a dial that reads diameters is marked twice its travel."""
    setup = {"dials": {"y": dial}} if dial else {}
    made = job(ratchet(), vee(), setup=setup)
    told = trial_of(made, (Land(0.62),))
    assert told.step == step_of(made.part) == pytest.approx(step)
    assert table_step_of(made.part) == pytest.approx(rows)
    assert told.to_feed / step == pytest.approx(round(told.to_feed / step))


@pytest.mark.parametrize("key", [None, "top", "offset"])
@pytest.mark.parametrize("named", [None, "top", "offset"])
def test_the_zero_of_a_dial(key: InfeedZero | None, named: InfeedZero | None) -> None:
    """As named, else as the part has it, else the one that fits the land better."""
    made = job(ratchet(hook_angle=5), vee(), setup={"touch": key} if key else {})
    told = trial_of(made, (Land(0.62),))
    for figure, fits in ((told.dial_from_top, "top"), (told.dial_from_offset, "offset")):
        stand = stand_of(made.part, made.setting, told, figure, named)
        assert (stand.zero, stand.travel) == (named or key or fits, figure)


def test_a_figure_of_a_dial_with_turns_is_found_by_the_land() -> None:
    """0.4 of a turn of 2 mm is 0.4 or 2.4 or 4.4 mm: the one that the land says; with numbers that
    fall, the rest of the turn."""
    for increases, part_of_turn in (("towards the operator", 0.4), ("towards the column", 1.6)):
        table = {"division": 0.02, "per_turn": 2, "increases": increases}
        made = job(ratchet(hook_angle=5), vee(), setup={"dials": {"y": table}, "touch": "top"})
        told = trial_of(made, (Land(0.62),))
        stand = stand_of(made.part, made.setting, told, 0.4)
        assert (stand.travel - part_of_turn) % 2 == pytest.approx(0, abs=1e-12)
        assert abs(stand.travel - told.dial_from_top) <= 1
        assert stand.in_turns


def test_the_limits_of_the_land_are_those_of_gauge() -> None:
    """The trial allows what the part's tolerance gives the land, as gauge tells it."""
    made = job(ratchet(), vee(), tolerance={"land": "+0.03 -0.01"})
    told = trial_of(made, (Land(0.62),))
    low, high = told.allowed
    assert [low - told.target, high - told.target] == pytest.approx([-0.01, 0.03])
