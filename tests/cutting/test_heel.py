"""The ground body of a spun tool, against bodies spun in numbers."""

from __future__ import annotations

import math
from random import Random

import numpy as np
import pytest

from profilegen.cutting.ground import Ground, edge_of
from profilegen.cutting.heel import least_radius
from profilegen.cutting.poses import Tool
from profilegen.cutting.profile import Profile
from profilegen.cutting.relief import down_the_nose, relief_for
from profilegen.cutting.tools import tools_for
from profilegen.cutting.wedge import Wedge
from profilegen.findings.telling import told
from profilegen.job import Job
from tests.cutting.spun import any_spun, edge_to, least_radius_by_spinning
from tests.few import few
from tests.parts import job, part, ratchet, vee

BATCHES = range(10)
TRIED = 20


def tool_of(**keys: object) -> Tool:
    """A cutter of a part file."""
    return tools_for(part(None, {"name": "tool", **keys}).cutters[0])[0]


@pytest.mark.parametrize("batch", few(BATCHES, 4))
def test_least_circle_of_any_wedge_is_what_spinning_it_shows(batch: int) -> None:
    """Ten batches of 20 random wedges, ground both ways, on and off the radius line: no larger
    circle is asked for than the spun body needs, and none that it does not clear, within the
    samples' distance."""
    random = Random(batch)
    for _ in range(TRIED):
        spun = any_spun(random)
        told, _ = least_radius(spun.edge, spun.relief, spun.thickness, spun.off)
        shown = least_radius_by_spinning(spun)
        assert 0.98 * told - 0.01 <= shown <= 1.01 * told + 0.01, spun


PROFILES = [
    {"kind": "ball", "radius": 1.5},
    {"kind": "slot", "width": 2.0},
    {"kind": "slot", "width": 3.0, "corner_radius": 0.6},
    {"kind": "drawn", "points": [[2, 3], [1, 0.8], [0.4, 0], [-0.4, 0], [-2, 3]]},
    {"kind": "form", "of": ratchet(root_radius=0.3)},
]


@pytest.mark.parametrize("keys", PROFILES)
def test_least_circle_of_any_other_edge_is_what_spinning_it_shows(keys: dict[str, object]) -> None:
    """Round, square and drawn edges, ground evenly."""
    random = Random(7)
    tool = tool_of(**keys)
    for _ in range(8):
        spun = any_spun(random, tool)
        told, _ = least_radius(spun.edge, spun.relief, spun.thickness, spun.off)
        shown = least_radius_by_spinning(spun)
        assert 0.98 * told - 0.01 <= shown <= 1.01 * told + 0.01, spun


SLIM = {"sweep_diameter": 22, "relief_angle": 14, "edge_thickness": 3.5}


def slim(**changes: object) -> Job:
    """A slim vee with much relief, deep in a wheel: its axis passes 1.655 mm over the rim."""
    wheel = ratchet(
        teeth=12, outside_diameter=60, space_angle=24, land=None, tooth_depth=9, root_radius=0.3
    )
    return job(wheel, vee(24, tip_radius=0.3, **{**SLIM, **changes}))


@pytest.mark.parametrize("ground", ["round", "flanks"])
def test_shank_must_pass_over_the_rim(ground: Ground) -> None:
    """However much relief a slim point has, a tool thicker than the way from its axis to the rim
    does not clear; the way is measured on the drawn cut (derived, no published source)."""
    made = slim(relief_ground=ground)
    (cut,) = made.plan.cuts
    edge = edge_of(made.wheel, cut, ground)
    assert edge is not None
    way = 11.0 - float(edge.metal.points.imag.max())
    assert way == pytest.approx(1.655, abs=1e-3)
    assert made.relief.clears is False
    assert made.relief.greatest_thickness == pytest.approx(way, abs=1e-6)
    assert slim(relief_ground=ground, edge_thickness=way - 0.01).relief.clears is True


def test_no_angle_is_told_where_none_clears() -> None:
    """A tool thicker than its axis stands over the rim: other ways are told, no angle."""
    made = slim()
    assert made.relief.least_relief_angle is None
    (found,) = [one for one in made.findings if one.code == "heel-rubs"]
    assert "relief_angle" not in told(found)
    assert "edge_thickness" in told(found)


@pytest.mark.parametrize("ground", ["round", "flanks"])
def test_more_relief_less_thickness_or_a_larger_circle_never_rub(ground: Ground) -> None:
    """What clears goes on clearing: random wedges, on and off the line."""
    random = Random(3)
    for _ in range(15):
        spun = any_spun(random)
        edge = edge_to(spun.tool, spun.deep, ground)
        reliefs = np.radians(np.linspace(1, 44, 12)).tolist()
        need = [least_radius(edge, one, spun.thickness, spun.off)[0] for one in reliefs]
        assert np.all(np.diff(need) <= 1e-4 * np.array(need[1:]))
        thick = np.linspace(0.2, 6, 12).tolist()
        need = [least_radius(edge, spun.relief, one, spun.off)[0] for one in thick]
        assert np.all(np.diff(need) >= -1e-4 * np.array(need[1:]))


def test_straight_down_the_nose_for_both_grinds() -> None:
    """Derived, no published source: on a tip radius of 12.8 mm, 3.83 mm thick, a nose that is
    ground evenly clears with `asin(T / r) / 2` = 8.7 deg as read down the nose; flat flanks that
    reach 1.5 mm up want `asin(T / (r - 1.5)) / 2` = 9.9 deg down the ridge."""
    half, radius, thickness = math.radians(30), 12.8, 3.83
    wedge = Wedge("v", "vee", half, half, 0.8)
    down = []
    for ground in ("round", "flanks"):
        edge = edge_to(wedge, 1.5, ground)
        least = relief_for((edge,), None, thickness, 2 * radius).least_relief_angle
        assert least is not None
        down.append(math.degrees(down_the_nose(edge, least) or 0.0))
    even, ridge = (math.degrees(math.asin(thickness / way)) / 2 for way in (radius, radius - 1.5))
    assert down == [pytest.approx(even, abs=1e-4), pytest.approx(ridge, abs=1e-4)]
    assert [round(one, 1) for one in down] == [8.7, 9.9]


def test_an_edge_that_is_no_wedge_has_no_ridge() -> None:
    """Nothing is told down the nose of a ball cutter."""
    tool = tool_of(kind="ball", radius=1.0)
    assert isinstance(tool, Profile)
    assert down_the_nose(edge_to(tool, 0.8), math.radians(8)) is None
