"""Passes: equal chips from first contact, then the finish, each from the chosen zero."""

from __future__ import annotations

import math
from itertools import pairwise

import numpy as np
import pytest
from shapely import Polygon
from shapely.geometry.base import BaseGeometry

from profilegen.cutting.engagement import Leftover, engagement_of
from profilegen.cutting.poses import Cut
from profilegen.geometry.chain import Curve, circle
from profilegen.geometry.measure import area, tessellate
from profilegen.geometry.moves import Move, moved, rotation
from profilegen.geometry.regions import intersect
from profilegen.setting.passes import FINISH
from tests.parts import Keys, double, job, ratchet, single, vee

CUTTERS = [vee(), vee(tip_radius=0), single(), double(12, 48), vee(45)]


def segment(cut: Cut, infeed: float) -> float:
    """Area of blank inside the cutter `infeed` past its first contact, exact lines and arcs."""
    lift = 1j * (cut.infeed_from_offset - infeed)
    posed = moved(cut.silhouette(), Move(shift=lift))
    return sum(area(piece) for piece in intersect(posed, circle(0, cut.blank_radius)))


@pytest.mark.parametrize("cutter", CUTTERS)
@pytest.mark.parametrize("hook", [0, 8])
def test_roughing_passes_take_equal_areas(cutter: Keys, hook: float) -> None:
    """Every roughing pass takes the same area out of the round blank, to one part in 100."""
    for cut in job(ratchet(hook_angle=hook), cutter).plan.cuts:
        last = 0.93 * cut.infeed_from_offset
        infeeds = (0.0, *engagement_of(cut).infeeds(last, 4))
        areas = [segment(cut, infeed) if infeed else 0.0 for infeed in infeeds]
        steps = [after - before for before, after in pairwise(areas)]
        assert max(steps) / min(steps) < 1.01, steps
        assert infeeds[-1] == last


def test_sharp_wedge_on_a_nearly_flat_blank() -> None:
    """The infeeds of a sharp wedge are D sqrt(k / n), to 2 parts in 1000 (plane geometry)."""
    wheel = ratchet(teeth=1000, outside_diameter=2000, root_radius=None)
    (cut,) = job(wheel, single(tip_radius=0)).plan.cuts
    whole = cut.infeed_from_offset
    for k, infeed in enumerate(engagement_of(cut).infeeds(whole, 5), start=1):
        assert infeed == pytest.approx(whole * math.sqrt(k / 5), rel=2e-3)


@pytest.mark.parametrize("touch", ["top", "offset"])
@pytest.mark.parametrize("cutter", [vee(), vee(45), single()])
def test_passes_end_at_full_depth(cutter: Keys, touch: str) -> None:
    """A lap marks, roughs, finishes all round and cuts two spaces again, ending at the infeed
    that the touch-off table has for the same zero."""
    made = job(ratchet(), cutter, setup={"touch": touch, "feeler": 0.1})
    for cut in made.plan.cuts:
        passes = [one for one in made.passes if one.lap == cut.lap]
        (zero,) = [m for m in made.touch_off if m.lap == cut.lap and m.zero == touch]
        kinds = [one.kind for one in passes]
        marks = ["scratch"] if cut.lap == 1 else []
        assert (kinds[: len(marks)], kinds[-2:]) == (marks, ["finish", "recut"])
        assert set(kinds[len(marks) : -2]) == {"rough"}
        assert passes[-1].from_zero(zero.zero) == pytest.approx(zero.amount, abs=1e-9)  # type: ignore[arg-type]
        assert [one.spaces for one in passes[-2:]] == [30, 2]
        infeeds = [one.from_contact for one in passes]
        assert infeeds == sorted(infeeds)
        assert infeeds[-1] - infeeds[-3] == pytest.approx(FINISH)
        if cut.lap == 1:
            assert sum(one.chip_area for one in passes) == pytest.approx(
                segment(cut, cut.infeed_from_offset), rel=3e-3
            )


def test_scratch_is_a_bare_mark() -> None:
    """The scratch lap goes to where the cutter just meets the blank, at every stop."""
    made = job(ratchet(), vee())
    (cut,), scratch = made.plan.cuts, made.passes[0]
    assert (scratch.kind, scratch.spaces, scratch.from_contact) == ("scratch", 30, 0.0)
    assert scratch.from_top == pytest.approx(cut.infeed_from_top - cut.infeed_from_offset)


def test_passes_asked_for() -> None:
    """The part may say how many roughing passes; a toothed cutter needs fewer than a single one."""

    def roughs(cutter: Keys, **setup: object) -> int:
        made = job(ratchet(), cutter, setup=setup)
        return sum(one.kind == "rough" for one in made.passes)

    assert roughs(vee(), roughing_passes=5) == 5
    assert roughs(vee(teeth=12)) < roughs(vee(teeth=1)) == roughs(vee())


def test_pass_on_a_dial_never_goes_too_deep() -> None:
    """Each pass in whole divisions stops short of its infeed by less than a division."""
    dials = {"y": {"division": 0.05, "increases": "towards the operator"}}
    made = job(ratchet(), vee(), setup={"dials": dials})
    for one in made.as_dict()["passes"]:
        assert 0 <= one["dial"]["remainder"] < 0.05
        assert one["dial"]["grow"] is True
        assert one["dial"]["travel"] + one["dial"]["remainder"] == pytest.approx(one["infeed"])


def polygon(curve: Curve) -> Polygon:
    """A closed curve as a polygon of chords that are 1e-5 mm off at most."""
    return Polygon([(z.real, z.imag) for z in tessellate(curve, 1e-5)])


@pytest.mark.parametrize("hook", [0, 4])
@pytest.mark.parametrize("first", ["face", "back"])
def test_later_laps_take_equal_chips_of_what_is_left(hook: float, first: str) -> None:
    """Cut by shapely, stop by stop: after lap 1 every roughing pass of lap 2 takes metal, all alike
    to 3 parts in 100, and its chip area is what really goes. Nothing marks lap 2: its first stop
    lies in a space."""
    wheel = ratchet(teeth=12, outside_diameter=50, land=2.5, space_angle=60, hook_angle=hook)
    setup = {"first": first, "roughing_passes": 5}
    made = job(wheel, vee(45, tip_radius=0.2), setup=setup)
    one, two = made.plan.cuts
    blank: BaseGeometry = polygon(circle(0, 25.0))
    for stop in range(12):
        move = rotation(stop * math.tau / 12).after(one.setup_from_base.inverse())
        blank = blank.difference(polygon(moved(one.silhouette(), two.setup_from_base.after(move))))
    passes = [each for each in made.passes if each.lap == 2]
    assert [each.kind for each in passes][:2] == ["rough", "rough"]
    assert passes[0].number == 1
    taken: list[float] = []
    whole, before = two.infeed_from_offset, 0.0
    for each in passes:
        lift = Move(shift=1j * (whole - each.from_contact))
        gone = blank.intersection(polygon(moved(two.silhouette(), lift))).area
        assert gone - before == pytest.approx(each.chip_area, abs=0.02)
        taken, before = [*taken, gone - before], gone
    rough = [area for area, each in zip(taken, passes, strict=True) if each.kind == "rough"]
    assert len(rough) == 5
    assert max(rough) / min(rough) < 1.03, rough


@pytest.mark.parametrize("cells", [0, 1, 2, 3])
def test_a_few_cells_of_metal_give_rising_passes(cells: int) -> None:
    """What is left may be less than a cell a pass: the passes still rise to the whole infeed."""
    left = Leftover(1e-4, np.linspace(0.0, 0.8, 3)[:cells], whole=1.0)
    infeeds = left.infeeds(1.0, 4)
    assert infeeds[-1] == 1.0
    assert sorted(infeeds) == list(infeeds)
    assert all(0.2 - 1e-12 <= infeed <= 1.0 for infeed in infeeds)
