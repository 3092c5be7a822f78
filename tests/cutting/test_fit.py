"""Fit and plunge against fine polygons, for more than twenty pairs of wheel and cutter.

shapely knows nothing of flanks: it takes the polygons of wheel and cutter, and measures areas and
the greatest distance of a region's edge from the wanted outline. No published source.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import replace
from typing import Any

import numpy as np
import pytest
import shapely
from shapely.geometry import LineString, Polygon
from shapely.geometry.base import BaseGeometry
from shapely.ops import unary_union

from profilegen.cutting.compare import Match, Work, compared
from profilegen.cutting.fit import Fit, fit_of
from profilegen.cutting.neighbours import space_region, strictest_pitch
from profilegen.cutting.plunge import deepest_plunge
from profilegen.cutting.poses import Cut, NoPose, Tool, posed_cut, turn_to_face
from profilegen.cutting.profile import Profile
from profilegen.cutting.tools import tools_for
from profilegen.cutting.wedge import Wedge
from profilegen.findings.telling import told
from profilegen.forms.wheel import Wheel
from profilegen.geometry.chain import Role, chain
from profilegen.geometry.moves import moved, repeated, rotation
from profilegen.part.drawer import load_drawer
from profilegen.part.shipped import drawer_path
from profilegen.part.tables import Setup
from tests.cutting.test_cut_by_boolean import polygon
from tests.few import few
from tests.parts import Keys, job, ratchet

WHEELS: dict[str, dict[str, Any]] = {
    "radial": {},
    "hooked": {"hook_angle": 8, "space_angle": 50},
    "leaning, other hand": {"hook_angle": -6, "rotation": "counter-clockwise"},
    "flat root, few teeth": {
        "teeth": 9,
        "outside_diameter": 40,
        "land": 4,
        "space_angle": 70,
        "root_radius": None,
        "root_flat": 0.6,
    },
}


def vee(angle: float, nose: float) -> Wedge:
    """A symmetric wedge."""
    return Wedge("vee", "vee", math.radians(angle / 2), math.radians(angle / 2), nose)


TOOLS: dict[str, Tool] = {
    "too wide": vee(75, 0.1),
    "much too wide": vee(100, 0.05),
    "too blunt": vee(45, 0.6),
    "flat too wide": Wedge("f", "vee", math.radians(20), math.radians(20), flat=0.8),
    "single-angle too wide": Wedge("s", "single-angle", 0.0, math.radians(80), 0.1),
    "slot": Profile("slot", "slot", chain([0.4 + 6j, 0.4, -0.4, -0.4 + 6j], None, Role.EDGE)),
    "ball": Profile(
        "ball", "ball", chain([0.6 + 0.6j, 0, -0.6 + 0.6j], [-math.tan(math.pi / 8)] * 2, Role.EDGE)
    ),
}
PAIRS = [(wheel, tool) for wheel in WHEELS for tool in TOOLS]


def made(name: str) -> Wheel:
    """The wheel of a name."""
    return job(ratchet(**WHEELS[name])).wheel


def by_polygons(wheel: Wheel, cuts: tuple[Cut, ...]) -> tuple[float, float, float, float]:
    """Gouge and left-over of one space, and their areas, from polygons at every stop."""
    tools = [
        polygon(
            moved(
                moved(cut.silhouette(), cut.setup_from_base.inverse()),
                rotation(stop * wheel.angular_pitch),
            )
        )
        for cut in cuts
        for stop in range(wheel.teeth)
    ]
    all_cuts = unary_union(tools)
    limit = polygon(repeated(strictest_pitch(wheel.space), wheel.teeth))
    gouge = limit.intersection(all_cuts)
    wanted = polygon(repeated(wheel.space.pitch, wheel.teeth))
    left = wanted_space(wheel).difference(all_cuts)
    return (
        deepest(gouge, limit.exterior),
        deepest(left, wanted.exterior),
        gouge.area / wheel.teeth,
        left.area,
    )


def wanted_space(wheel: Wheel) -> Polygon:
    """The space of the print."""
    return polygon(space_region(wheel.space, wheel.radius))


def deepest(region: BaseGeometry, outline: LineString) -> float:
    """Greatest distance of the region's edge from the outline."""
    if region.is_empty or region.area < 1e-4:
        return 0.0
    rings = [
        ring for part in shapely.get_parts(region) for ring in (part.exterior, *part.interiors)
    ]
    return max(_farthest(np.array(ring.segmentize(0.005).coords), outline) for ring in rings)


def _farthest(ring: np.ndarray[Any, np.dtype[np.float64]], outline: LineString) -> float:
    """Greatest distance of a closed ring from the outline: all its points, then a closer look."""
    gaps = shapely.distance(outline, shapely.points(ring))
    best = float(gaps.max())
    for k in np.argsort(gaps)[-6:]:
        near = LineString(ring[[(k - 1) % len(ring), k, (k + 1) % len(ring)]]).segmentize(2e-5)
        best = max(best, float(shapely.distance(outline, shapely.points(near.coords)).max()))
    return best


def agrees(fit: Fit, wheel: Wheel, cuts: tuple[Cut, ...]) -> None:
    """The fit is what the polygons say."""
    gouge, left, gouge_area, left_area = by_polygons(wheel, cuts)
    assert fit.gouge.value == pytest.approx(gouge, abs=1e-4)
    assert fit.left_over.value == pytest.approx(left, abs=1e-4)
    assert fit.gouge.area == pytest.approx(gouge_area, abs=1e-4)
    assert fit.left_over.area == pytest.approx(left_area, abs=1e-4)


@pytest.mark.parametrize(("name", "tool"), few(PAIRS, 3))
def test_plunge_gouges_nothing_and_leaves_what_polygons_say(name: str, tool: str) -> None:
    """The deepest plunge enters no tooth, and its left-over agrees with the polygons'."""
    wheel = made(name)
    cut = deepest_plunge(wheel, TOOLS[tool])
    fit = fit_of(wheel, (cut,))
    assert fit.gouge.value < 1e-6
    agrees(fit, wheel, (cut,))


@pytest.mark.exhaustive
@pytest.mark.parametrize(("name", "tool"), PAIRS)
def test_a_plunge_too_deep_gouges_what_polygons_say(name: str, tool: str) -> None:
    """Set 0.15 mm deeper than the deepest plunge, the gouge agrees with the polygons'."""
    wheel = made(name)
    cut = deepest_plunge(wheel, TOOLS[tool])
    apex = (cut.apex - 0.15j) * np.exp(-1j * cut.turn)
    deeper = posed_cut(wheel, cut.tool, "space", 1, cut.turn, complex(apex))
    fit = fit_of(wheel, (deeper,))
    assert fit.gouge.value > 0.01
    agrees(fit, wheel, (deeper,))


@pytest.mark.parametrize(("name", "tool"), few(PAIRS, 3))
def test_plunge_touches_a_tooth_and_is_not_beaten_nearby(name: str, tool: str) -> None:
    """No pose of a coarse search by polygons leaves less in the space than the one found."""
    wheel = made(name)
    cut = deepest_plunge(wheel, TOOLS[tool])
    left = fit_of(wheel, (cut,)).left_over.area
    for turn in np.linspace(-0.1, 0.1, 3):
        for step in (-0.1, 0.0, 0.1):
            try:
                other = deepest_plunge(wheel, TOOLS[tool], cut.turn + turn, cut.offset + step)
            except NoPose:
                continue
            assert fit_of(wheel, (other,)).left_over.area >= left - 2e-3


def test_resulting_land_and_hook_are_those_of_the_cut_wheel() -> None:
    """A matched cutter leaves the land, hook and root of the print."""
    made_job = job(
        ratchet(hook_angle=8, space_angle=50),
        {"name": "s", "kind": "single-angle", "angle": 50, "tip_radius": 0.2},
    )
    fit = fit_of(made_job.wheel, made_job.plan.cuts)
    assert fit.land == pytest.approx(0.4, abs=1e-9)
    assert math.degrees(fit.hook) == pytest.approx(8, abs=1e-6)
    assert fit.root_radius == pytest.approx(made_job.wheel.root_radius, abs=1e-9)
    assert (fit.gouge.value, fit.left_over.value) == (0.0, 0.0)


def test_a_sharper_nose_forms_and_a_root_wanted_exactly_is_gouged_by_it() -> None:
    """The root radius of the print is the greatest allowed, unless it is wanted exactly."""
    sharp = vee(60, 0.05)
    free, exact = job(ratchet()).wheel, job(ratchet(root_exact=True)).wheel
    cut = deepest_plunge(free, sharp)
    assert fit_of(free, (cut,)).verdict(0.02) == "forms"
    assert fit_of(exact, (cut,)).verdict(0.02) == "gouges"


def test_drawer_is_ranked_by_what_comes_out() -> None:
    """What forms the space comes first, fewer laps first; then what leaves less."""
    wheel = made("radial")
    cutters: list[tuple[Tool, ...]] = [
        (Wedge("blunt", "vee", math.radians(30), math.radians(30), 0.5),),
        (Wedge("narrow", "vee", math.radians(22.5), math.radians(22.5), 0.2),),
        (Wedge("just right", "vee", math.radians(30), math.radians(30), 0.2),),
        (Wedge("wide", "vee", math.radians(45), math.radians(45), 0.1),),
    ]
    ranked = compared(wheel, cutters, Setup())
    assert [match.cutter for match in ranked[:2]] == ["just right", "narrow"]
    assert [match.verdict for match in ranked] == [
        "forms",
        "forms",
        "leaves",
        "leaves",
    ]
    assert ranked[2].fit is not None
    assert ranked[3].fit is not None
    assert ranked[2].fit.left_over.value <= ranked[3].fit.left_over.value


def test_a_thousand_teeth_are_compared_like_a_few() -> None:
    """Only a pitch and its neighbours are looked at, whatever the number of teeth."""
    wheel = job(ratchet(teeth=1000, outside_diameter=847.0, land=0.6)).wheel
    fit = fit_of(wheel, (deepest_plunge(wheel, vee(75, 0.1)),))
    assert fit.gouge.value < 1e-6
    assert fit.left_over.area > 0.0


def test_cutters_of_one_silhouette_are_worked_out_once() -> None:
    """Two cutters that differ by their names only have one result under both names."""
    wheel, tried = made("radial"), list[int]()
    cutters = [tools_for(cutter) for cutter in load_drawer(drawer_path("mm"))[:3]]
    twins = [tuple(replace(way, name=f"{way.name} again") for way in ways) for ways in cutters]

    def counted(work: Work, distinct: list[tuple[Tool, ...]]) -> Iterable[Match]:
        tried.append(len(distinct))
        return map(work, distinct)

    ranked = compared(wheel, [*cutters, *twins], Setup(), counted)
    alone = {match.cutter: match for match in compared(wheel, cutters, Setup())}
    assert tried == [3]
    assert len({match.cutter for match in ranked}) == 6
    for match in ranked:
        twin = alone[match.cutter.removesuffix(" again")]
        assert (match.verdict, match.rank()) == (twin.verdict, twin.rank())
        assert {cut.tool.name for cut in match.cuts} <= {match.cutter}


def test_a_wedge_whose_edges_end_within_its_nose_enters_nothing() -> None:
    """A body narrower than the nose has no flanks: the cutter is told as such, and the comparison
    does not fail on an edge that turns back on itself."""
    wheel = job(ratchet(teeth=93, outside_diameter=28.6, land=0.1)).wheel
    sides = math.radians(7.82), math.radians(64.469)
    blunt = Wedge("blunt", "double-angle", *sides, nose=0.4, body_width=0.3188)
    (found,) = compared(wheel, [(blunt,)], Setup())
    assert found.verdict == "cannot-enter"
    assert found.why is not None
    assert told(found.why) == "the cutter's edge ends within its tip"


@pytest.mark.parametrize("root", [{"root_flat": 0.8}, {"root_radius": 0.5, "root_exact": True}])
def test_a_root_that_the_print_fixes_is_not_overcut(root: Keys) -> None:
    """A sharp cutter goes below a flat or an exact root: that is told as a gouge over what is still
    usable; below the greatest radius of a print it may go."""
    free = {"root_radius": root.get("root_radius", 0.4)}
    for keys, is_fixed in ((root, True), (free, False)):
        wheel = job(ratchet(**{"root_radius": None, **keys})).wheel
        assert wheel.space.face is not None
        turn = turn_to_face(wheel.space.face, math.radians(30))
        fit = fit_of(wheel, (posed_cut(wheel, vee(60, 0.0), "both", 1, turn, wheel.space.vertex),))
        below = wheel.root_radius - fit.root_radius
        assert below > 0.1
        assert fit.below_root == (pytest.approx(below, abs=1e-12) if is_fixed else 0.0)
        usable = max(fit.gouge.value, fit.left_over.value) + 1e-9
        assert (fit.verdict(usable) == "gouges") == (is_fixed and below > usable)
