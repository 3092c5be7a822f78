"""Sensitivities against wheels re-cut with the error in them."""

from __future__ import annotations

import cmath
import math
from collections.abc import Iterator
from dataclasses import replace
from random import Random
from typing import Any

import numpy as np
import pytest

from profilegen.cutting.budget import ANGULAR, INSTEAD, SETTING, USUAL, BudgetRow, budget_for
from profilegen.cutting.land_tolerance import land_tolerance, may_lose
from profilegen.findings.cannot_make import CannotMakeError
from profilegen.job import Job
from tests.cutting.recut import Faults, leaves, made_by
from tests.parts import double, job, ratchet, single, vee

FLAT = {"name": "vee", "kind": "vee", "included_angle": 60, "tip_flat": 0.25}
JOBS: list[tuple[dict[str, Any], dict[str, Any]]] = [
    ({}, vee(60)),
    ({"hook_angle": 6}, single(60)),
    ({"hook_angle": 5, "rotation": "counter-clockwise"}, vee(45)),
    ({"hook_angle": -4}, double(12, 48)),
    ({}, FLAT),
    ({"root_radius": None}, vee(60, tip_radius=0)),
]
IN_PLAY = [source for source in USUAL if source not in ("run_out", "index")]


def rows(made: Job, source: str) -> list[BudgetRow]:
    """The rows of one source."""
    budget = budget_for(made.wheel, made.plan.cuts)
    assert budget is not None
    return [row for row in budget.rows if row.source == source]


@pytest.mark.parametrize("source", IN_PLAY)
@pytest.mark.parametrize(("wheel", "cutter"), JOBS)
def test_sensitivity_is_the_difference_of_two_re_cut_wheels(
    wheel: dict[str, Any], cutter: dict[str, Any], source: str
) -> None:
    """Land, hook and root change as two wheels do that are cut with the error to either side.

    The root is told for a positive error, for where two laps tie only the deeper one counts.
    """
    made = job(ratchet(**wheel), cutter)
    step = 1e-5
    for row in rows(made, source):
        lap = row.lap or 1
        up, here = (made_by(made, Faults(**{source: size}, lap=lap)) for size in (step, 0.0))
        down = made_by(made, Faults(**{source: -step}, lap=lap))
        if source == "tip" and cutter["name"] == "vee" and cutter.get("tip_radius") == 0:
            down, step_land = here, step
        else:
            step_land = 2 * step
        assert (up.land - down.land) / step_land == pytest.approx(row.effects.land, abs=2e-4)
        assert row.effects.hook is not None
        assert (up.hook - down.hook) / step_land == pytest.approx(row.effects.hook, abs=2e-4)
        assert (up.root - here.root) / step == pytest.approx(row.effects.root, abs=2e-3)


# Wheels whose deepest place lies on the back flank; the values were found by re-cutting them.
BACK_DIPS: list[tuple[dict[str, Any], dict[str, Any], str, float]] = [
    (
        {"teeth": 7, "outside_diameter": 137.036, "hook_angle": 12.87, "land": 4.7642,
         "space_angle": 48.26, "root_radius": None},
        single(48.26, tip_radius=0), "cutter_angle", -0.205,
    ),
    (
        {"teeth": 9, "outside_diameter": 44.607, "hook_angle": 7.86, "land": None,
         "space_angle": 83.98, "root_diameter": 36.359, "root_radius": 0.898},
        vee(83.98, tip_radius=0.6345), "tilt", -0.0320,
    ),
]  # fmt: skip


@pytest.mark.parametrize(("wheel", "cutter", "source", "rate"), BACK_DIPS)
def test_root_on_the_back_flank(
    wheel: dict[str, Any], cutter: dict[str, Any], source: str, rate: float
) -> None:
    """Where the back dips below the tip the root follows the flank, mm of diameter per degree."""
    (row,) = rows(job(ratchet(**wheel), cutter), source)
    assert row.effects.root * math.radians(1) == pytest.approx(rate, rel=0.02)


def random_jobs(count: int) -> Iterator[Job]:
    """Wheels of all shapes, from few long teeth to many short ones, with cutters that form them."""
    random, made = Random(20), 0
    while made < count:
        angle, tip = random.uniform(30, 95), random.choice((0.0, random.uniform(0.02, 0.9)))
        radius = random.uniform(8, 80)
        wheel = ratchet(
            teeth=random.randint(4, 40),
            outside_diameter=2 * radius,
            hook_angle=random.uniform(-12, 20),
            space_angle=angle,
            land=None,
            root_diameter=2 * radius * random.uniform(0.55, 0.95),
            root_radius=random.choice((None, max(tip, 0.05))),
        )
        shape = random.choice(
            (vee(angle), single(min(angle, 89)), double(0.3 * angle, 0.7 * angle))
        )
        try:
            found = job(wheel, {**shape, "tip_radius": tip})
        except CannotMakeError:
            continue
        if found.plan.cuts and found.plan.cuts[0].forms == "both":
            made += 1
            yield found


@pytest.mark.exhaustive
def test_root_of_random_wheels_by_differences_of_the_plan() -> None:
    """For 300 random wheels, some of them with backs that dip below the tip, each effect on the
    root is a difference of two re-cut wheels, to the one side or the other of a kink."""
    step, dips = 1e-6, 0
    for made in random_jobs(300):
        (cut,) = made.plan.cuts
        dips += cut.root_radius < min(abs(cut.tip), abs(cut.apex)) - 0.01
        here = made_by(made, Faults()).root
        for source in ("infeed", "offset", "cutter_angle", "tilt", "tip"):
            (row,) = rows(made, source)
            steps = (step,) if source == "tip" else (step, -step)
            off: list[dict[str, Any]] = [{source: size} for size in steps]
            roots = [made_by(made, Faults(**each)).root for each in off]
            slopes = [(root - here) / size for root, size in zip(roots, steps, strict=True)]
            told = made.part.wheel, source, row.effects.root, slopes
            size = 1e-3 * (1 + abs(row.effects.root))
            assert any(abs(slope - row.effects.root) < size for slope in slopes), told
    assert dips > 8


def test_solver_gives_the_faulty_setting_back() -> None:
    """A wheel asked for with the land and hook of a faulty setting is set up with the fault."""
    made = job(ratchet(hook_angle=5), vee(60))
    (cut,) = made.plan.cuts
    for faults in (Faults(infeed=1e-3), Faults(offset=1e-3), Faults(offset=-1e-3, infeed=5e-4)):
        came = made_by(made, faults)
        asked = ratchet(land=came.land, hook_angle=math.degrees(came.hook))
        (again,) = job(asked, vee(60)).plan.cuts
        assert again.offset == pytest.approx(cut.offset + faults.offset, abs=1e-9)
        assert again.apex_height == pytest.approx(cut.apex_height - faults.infeed, abs=1e-9)


@pytest.mark.parametrize(
    ("angle", "rate"), [(45, 0.88), (60, 1.27), (70, 1.54)]
)  # derived for R 12.7, radial face, flat on the face, depth near 2 mm; no published source
def test_land_and_depth_of_the_workshop_table(angle: float, rate: float) -> None:
    """Land lost for a millimetre of infeed."""
    wheel = ratchet(teeth=20, land=None, tooth_depth=2.0, space_angle=angle, root_radius=None)
    (row,) = rows(job(wheel, single(angle, tip_radius=0)), "infeed")
    assert row.effects.land == pytest.approx(-rate, abs=0.02)


def test_rough_figures_of_a_small_wheel() -> None:
    """Indexing 2' off 0.007 mm, run-out 0.02 about 0.013 (as if it were depth), depth 0.03 about
    0.04, offset 0.03 on the face 0.14 deg: a 25 mm wheel of 24 teeth; derived, rough, no published
    source."""
    wheel = ratchet(
        teeth=24, outside_diameter=25, land=None, tooth_depth=2.0, space_angle=60, root_radius=None
    )
    made = job(wheel, single(60, tip_radius=0))
    (index,), (out,), (depth,), (over,) = (
        rows(made, source) for source in ("index", "run_out", "infeed", "offset")
    )
    assert index.effects.spacing * math.radians(2 / 60) == pytest.approx(0.007, abs=5e-4)
    assert abs(depth.effects.land) * 0.01 == pytest.approx(0.013, abs=1e-3)
    assert 0.75 * 0.013 < out.effects.land * 0.02 < 0.013
    assert abs(depth.effects.land) * 0.03 == pytest.approx(0.04, abs=4e-3)
    assert over.effects.hook is not None
    assert math.degrees(over.effects.hook * 0.03) == pytest.approx(0.14, abs=5e-3)


@pytest.mark.parametrize("cutter", [vee(60), single(60)])
def test_blank_counts_one_way_from_the_blank_and_the_other_from_the_axis(
    cutter: dict[str, Any],
) -> None:
    """A bigger blank leaves more land when touched off on it, less when the axis is the datum."""
    made = job(ratchet(), cutter)
    (on_blank,), (from_axis,) = rows(made, "blank_radius"), rows(made, "blank_radius_from_axis")
    assert on_blank.effects.land > 0 > from_axis.effects.land
    assert from_axis.effects.root == 0.0


def lands_of_a_wobbling_blank(made: Job, eccentric: complex) -> list[tuple[float, complex]]:
    """Every land, and the face tip before it, of a blank whose centre is off the head's axis."""
    came = made_by(made, Faults())
    pitch = cmath.exp(1j * made.wheel.angular_pitch)
    radius = made.wheel.radius
    tips = [
        leaves((came.face[0] * pitch**k, came.face[1] * pitch**k), radius, eccentric)
        for k in range(made.wheel.teeth)
    ]
    heels = [
        leaves((came.back[0] * pitch**k, came.back[1] * pitch**k), radius, eccentric)
        for k in range(made.wheel.teeth)
    ]
    return [(abs(tips[(k + 1) % len(tips)] - heels[k]), tips[k]) for k in range(len(tips))]


@pytest.mark.parametrize(("wheel", "cutter"), JOBS[:4])
def test_run_out_swings_land_and_spacing(wheel: dict[str, Any], cutter: dict[str, Any]) -> None:
    """Every land of a blank cut off its axis, and every distance of face tips, swings as told."""
    made = job(ratchet(**wheel), cutter)
    (row,) = rows(made, "run_out")
    off = 1e-4
    lands, tips = zip(*lands_of_a_wobbling_blank(made, off * cmath.exp(0.7j)), strict=True)
    turn = np.exp(1j * made.wheel.angular_pitch * np.arange(made.wheel.teeth))
    swing = 2 * abs(np.mean(np.array(lands) * turn))
    assert swing == pytest.approx(row.effects.land * 2 * off, rel=1e-3)
    spacing = np.abs(np.diff([*tips, tips[0]]))
    assert 2 * abs(np.mean(spacing * turn)) == pytest.approx(
        row.effects.spacing * 2 * off, rel=1e-3
    )


def test_one_stop_off_moves_land_and_spacing() -> None:
    """One space turned too far takes from one land what it gives to the other."""
    made = job(ratchet(hook_angle=5), vee(60))
    (row,) = rows(made, "index")
    came, angle = made_by(made, Faults()), 1e-4
    radius, pitch = made.wheel.radius, cmath.exp(1j * made.wheel.angular_pitch)
    tip, heel = leaves(came.face, radius), leaves(came.back, radius)
    before = abs(tip * cmath.exp(1j * angle) - heel / pitch)
    after = abs(tip * pitch - heel * cmath.exp(1j * angle))
    assert before - came.land == pytest.approx(row.effects.land * angle, rel=1e-4)
    assert came.land - after == pytest.approx(row.effects.land * angle, rel=1e-4)
    assert row.effects.spacing * angle == pytest.approx(radius * angle)


def faulty(made: Job, errors: dict[str, Any]) -> float:
    """The land with all these errors at once."""
    return made_by(made, replace(Faults(), **errors)).land


@pytest.mark.parametrize(("wheel", "cutter"), [JOBS[0], JOBS[1]])
def test_many_faulty_wheels_scatter_as_the_budget_says(
    wheel: dict[str, Any], cutter: dict[str, Any]
) -> None:
    """Lands of 2000 wheels with random errors, seeded, scatter as the root of the squares."""
    made = job(ratchet(**wheel), cutter)
    budget = budget_for(made.wheel, made.plan.cuts)
    assert budget is not None
    chosen = [row for row in budget.rows if row.source in IN_PLAY and not row.is_instead]
    luck = np.random.default_rng(20).standard_normal((2000, len(chosen)))
    lands = [
        faulty(made, {row.source: row.usual * one for row, one in zip(chosen, line, strict=True)})
        for line in luck.tolist()
    ]
    told = math.sqrt(math.fsum(row.moves_land**2 for row in chosen))
    assert float(np.std(lands)) == pytest.approx(told, rel=0.04)


@pytest.mark.exhaustive
@pytest.mark.parametrize("touch", ["top", "offset"])
def test_setting_as_well_as_needed_holds_the_land(touch: str) -> None:
    """Errors normal with half the accuracy needed as deviation leave 19 lands in 20 within, the
    wheel being re-cut from the zero that is used: one row for each thing that is set."""
    made = job(ratchet(), vee(60), setup={"touch": touch})
    budget = made.budget
    assert budget is not None
    used = [row.setting for row in budget.rows if not row.is_instead]
    assert sorted(used) == sorted({SETTING.get(source, source) for source in USUAL})
    chosen = [row for row in budget.rows if row.source in IN_PLAY and not row.is_instead]
    luck = np.random.default_rng(7).standard_normal((2000, len(chosen)))
    lands = np.array(
        [
            faulty(
                made,
                {row.source: row.needed / 2 * one for row, one in zip(chosen, line, strict=True)},
            )
            for line in luck.tolist()
        ]
    )
    assert np.mean(np.abs(lands - 0.4) < budget.tolerance) > 0.95


@pytest.mark.parametrize(("wheel", "cutter"), JOBS)
def test_rows_come_largest_first(wheel: dict[str, Any], cutter: dict[str, Any]) -> None:
    """What moves the land most stands first, and what it may be off alone spends the tolerance."""
    made = job(ratchet(**wheel), cutter)
    budget = budget_for(made.wheel, made.plan.cuts, (-0.03, 0.10))
    assert budget is not None
    moves = [row.moves_land for row in budget.rows]
    assert moves == sorted(moves, reverse=True)
    assert budget.tolerance == 0.03
    for row in budget.rows:
        if math.isfinite(row.alone):
            assert row.alone * abs(row.effects.land) == pytest.approx(0.03)
        assert row.is_instead == (row.source in INSTEAD["top"])
        assert row.is_angle == (row.source in ANGULAR)


def test_no_cuts_no_budget() -> None:
    """Without a cutter there is no budget, and its keys are there all the same, null."""
    made = job(ratchet())
    assert made.budget is None
    told = made.as_dict()["budget"]
    assert told["land_per_infeed"] is None
    assert set(told) == set(job(ratchet(), vee()).as_dict()["budget"])


def test_dictionary_in_mm_and_degrees() -> None:
    """JSON has degrees per mm for the hook and mm per degree for angles."""
    made = job(ratchet(hook_angle=5), single(60))
    told = made.as_dict()["budget"]
    (over,), (angle,) = rows(made, "offset"), rows(made, "cutter_angle")
    assert over.effects.hook is not None
    assert told["hook_per_offset"] == pytest.approx(math.degrees(over.effects.hook))
    assert told["land_per_cutter_angle"] == pytest.approx(math.radians(angle.effects.land))
    assert told["land_tolerance"] == 0.05


def test_tolerance_of_the_part_counts() -> None:
    """The land's own tolerance takes the place of the usual one."""
    made = job(ratchet(), vee(), tolerance={"land": "+0.2 -0.02"})
    assert made.as_dict()["budget"]["land_tolerance"] == pytest.approx(0.02)


@pytest.mark.parametrize(
    ("given", "low", "high"),
    [
        (None, -0.05, 0.10),
        ("+0.2 -0.02", -0.02, 0.2),
        ("0.03", -0.03, 0.03),
        ("h11", -0.06, 0.0),
        ("js11", -0.03, 0.03),
        ("ISO 2768-c", -0.2, 0.2),
    ],
)
def test_budget_stops_and_gauge_go_by_one_tolerance_of_the_land(
    given: str | None, low: float, high: float
) -> None:
    """Plus and minus, a class or the usual: the error budget, the stops and the limits of the gauge
    are of the same deviations (IT11 to 3 mm is 60 um, ISO 286-1; 0.5 to 3 mm of class c is 0.2,
    ISO 2768-1). Of limits that end at the nominal half the range is to be spent."""
    tables = {} if given is None else {"tolerance": {"land": given}}
    made = job(ratchet(land=0.6), vee(), **tables)
    assert made.budget is not None
    assert land_tolerance(made.part, made.made) == pytest.approx((low, high))
    may = min(-low, high) if low < 0 < high else (high - low) / 2
    assert may_lose(made.part, made.made) == pytest.approx(may)
    assert made.budget.tolerance == pytest.approx(may)
    land = made.gauges.feature("land")
    assert land is not None
    assert (land.limits.low - 0.6, land.limits.high - 0.6) == pytest.approx((low, high))


def test_laps_have_settings_of_their_own() -> None:
    """Of two laps each has its infeed and offset; the hook follows the lap of faces alone."""
    made = job(ratchet(), vee(45))
    assert sorted(row.lap or 0 for row in rows(made, "infeed")) == [1, 2]
    faces = {row.lap: row.effects.hook for row in rows(made, "offset")}
    assert faces[2] == 0.0
    assert faces[1]
    assert rows(made, "tip")[0].lap is None
