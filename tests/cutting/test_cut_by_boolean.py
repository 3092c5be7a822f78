"""The outline against a disc from which the posed cutters are cut away, stop by stop, by shapely.

The boolean knows nothing of flanks, noses or offsets: it sees fine polygons of a disc and of each
silhouette at each stop. No published source; two independent ways must agree.
"""

from __future__ import annotations

import math
from typing import Any

import pytest
from shapely.geometry import Polygon
from shapely.geometry.base import BaseGeometry
from shapely.ops import unary_union

from profilegen.geometry.chain import Contour, circle
from profilegen.geometry.measure import tessellate
from profilegen.geometry.moves import moved
from profilegen.job import Job
from tests.parts import double, job, ratchet, single, vee

FINE = 1e-6
"""mm, chord error of the polygons."""

CASES: list[tuple[dict[str, Any], dict[str, Any]]] = [
    ({}, vee(60)),
    ({"hook_angle": 5}, vee(60)),
    ({"hook_angle": -6}, vee(60)),
    ({"hook_angle": 10, "space_angle": 50}, single(50)),
    ({"rotation": "counter-clockwise", "hook_angle": 5}, vee(60)),
    ({"rotation": "counter-clockwise", "hook_angle": 5}, single(45)),
    ({"root_radius": 0.35}, vee(45, tip_radius=0.35)),
    ({"hook_angle": -4}, vee(40)),
    ({"hook_angle": 7}, single(40)),
    ({"hook_angle": 7, "space_angle": 70}, double(12, 48)),
    ({"teeth": 7, "land": 2.0, "outside_diameter": 40}, vee(60)),
    ({"root_radius": None}, vee(60, tip_radius=0)),
    ({"root_radius": None, "root_flat": 0.3}, vee(60, tip_radius=None, tip_flat=0.3)),
    ({"space_angle": 85, "land": 0.3}, vee(50)),
    ({"space_angle": 80, "land": 0.5, "hook_angle": 3}, vee(32)),
]


def polygon(contour: Contour) -> Polygon:
    """A fine polygon of a contour."""
    points = tessellate(contour, FINE)
    return Polygon(list(zip(points.real, points.imag, strict=True)))


def cut_wheel(made: Job) -> BaseGeometry:
    """What is left of the blank after every cut at every stop."""
    blank = polygon(circle(0, made.wheel.radius))
    tools = [
        polygon(moved(cut.silhouette(), cut.wheel_from_setup(made.wheel, stop)))
        for cut in made.plan.cuts
        for stop in range(made.wheel.teeth)
    ]
    return blank.difference(unary_union(tools))


@pytest.mark.parametrize(("wheel", "cutter"), CASES)
def test_cutting_leaves_the_outline(wheel: dict[str, Any], cutter: dict[str, Any]) -> None:
    """Disc minus cutters at all stops is the outline, area for area."""
    cutter = {key: value for key, value in cutter.items() if value is not None}
    made = job(ratchet(**wheel), cutter)
    assert made.plan.cuts
    left = cut_wheel(made)
    wanted = polygon(made.wheel.outline)
    assert left.symmetric_difference(wanted).area < 4 * FINE * wanted.length


@pytest.mark.parametrize(("wheel", "cutter"), CASES)
def test_deepest_material_and_first_touch(wheel: dict[str, Any], cutter: dict[str, Any]) -> None:
    """Root and first touch are where the polygons say: nearest point, and the first overlap found
    by bisection."""
    cutter = {key: value for key, value in cutter.items() if value is not None}
    made = job(ratchet(**wheel), cutter)
    blank = polygon(circle(0, made.wheel.radius))
    for cut in made.plan.cuts:
        tool = polygon(cut.silhouette())
        assert tool.distance(Polygon([(0, 0), (1e-9, 0), (0, 1e-9)])) == pytest.approx(
            cut.root_radius, abs=2 * FINE
        )
        clear = Polygon([(x, y + cut.infeed_from_offset + 1e-3) for x, y in tool.exterior.coords])
        touch = Polygon([(x, y + cut.infeed_from_offset - 1e-3) for x, y in tool.exterior.coords])
        assert not clear.intersects(blank)
        assert touch.intersects(blank)


def test_two_cuts_turn_in_the_driven_direction() -> None:
    """The second lap turns the wheel by A - a1 - a2 in the driven direction, for both hands."""
    for rotation, sign in (("clockwise", -1), ("counter-clockwise", 1)):
        made = job(ratchet(rotation=rotation), vee(45, tip_radius=0.2))
        assert [cut.forms for cut in made.plan.cuts] == ["face", "back"]
        assert math.degrees(made.plan.cuts[1].wheel_angle) == pytest.approx(sign * 15)
