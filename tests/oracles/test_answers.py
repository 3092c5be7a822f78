"""The package against the answers that an exact kernel gave; `recipe.py` says how they were made.

Tolerance: 1e-11 relative, or 1e-10 mm, mm2 or mm4, unless a test says otherwise (found: 1e-12). No
published source: two independent constructions must agree.
"""

from __future__ import annotations

import json
import math
from functools import cache
from typing import Any

import pytest

from profilegen.forms.wheel import Wheel
from profilegen.geometry.chain import Chain, Contour, chain, circle, close, contour, join
from profilegen.geometry.measure import area, length
from profilegen.geometry.moves import moved
from profilegen.geometry.regions import intersect, subtract, unite
from profilegen.job import Job, job_for
from profilegen.part.part import Part
from tests.oracles.derive import ANSWERS, DIALS, dials_of_cuts
from tests.oracles.moments import centroid, second_moments
from tests.oracles.rows import BORES, CUT, OUTLINES, SHAPES, Disc, Keys, Rows

SAME = 1e-11
Answers = dict[str, float]
BOOLEANS = {"subtract": subtract, "intersect": intersect, "unite": unite}


@cache
def answers(table: str) -> Any:
    """One table of the stored answers."""
    return json.loads(ANSWERS.read_text())[table]


def near(value: float) -> Any:
    """Equal at the tolerance of this file."""
    return pytest.approx(value, rel=SAME, abs=10 * SAME)


def job(wheel: Keys, *cutters: Keys, bore: Keys | None = None) -> Job:
    """The job of a row."""
    tables: Keys = {"units": "mm", "wheel": wheel}
    tables |= {"cutter": list(cutters)} if cutters else {}
    return job_for(Part.from_dict(tables | ({"bore": bore} if bore else {})))


def measured(contours: tuple[Contour, ...]) -> Answers:
    """The measures of a region, under the kernel's names."""
    whole = sum(area(one) for one in contours)
    middle = sum(area(one) * centroid(one) for one in contours) / whole
    ixx, iyy, ixy = (sum(column) for column in zip(*map(second_moments, contours), strict=True))
    perimeter = sum(length(one) for one in contours)
    sums = {"area": whole, "perimeter": perimeter, "x": middle.real, "y": middle.imag}
    return {"wires": len(contours), **sums, "ixx": ixx, "iyy": iyy, "ixy": ixy}


def space_region(wheel: Wheel) -> Contour:
    """Space 1 closed by the blank's edge, in the wheel's own hand, counter-clockwise."""
    pitch = wheel.space.pitch
    flanks = Chain(pitch.points[:-1], pitch.bulges[:-1], pitch.roles[:-1])
    sweep = math.atan2(flanks.points[-1].imag, flanks.points[-1].real)
    edge = chain([flanks.points[-1], flanks.points[0]], [-math.tan(sweep / 4)])
    return moved(close(join(flanks, edge)), wheel.wheel_from_base)


@pytest.mark.parametrize("name", OUTLINES)
def test_outlines(name: str) -> None:
    """Area, perimeter, second moment and real root of the whole outline are the kernel's."""
    wheel, answer = job(OUTLINES[name]).wheel, answers("outlines")[name]["wheel"]
    assert area(wheel.outline) == near(answer["area"])
    assert length(wheel.outline) == near(answer["perimeter"])
    assert second_moments(wheel.outline)[0] == near(answer["ixx"])
    assert wheel.root_radius == near(answer["root_radius"])
    assert answer["wires"] == 1


@pytest.mark.parametrize("name", OUTLINES)
def test_space_one_lies_where_the_print_has_it(name: str) -> None:
    """Space 1 of either hand has the kernel's area, edge, centre and moments, place and all."""
    region = space_region(job(OUTLINES[name]).wheel)
    sign = 1.0 if area(region) > 0 else -1.0
    mine, answer = measured((region,)), answers("outlines")[name]["space"]
    for key in ("area", "ixx", "iyy", "ixy"):
        assert sign * mine[key] == near(answer[key]), key
    for key in ("perimeter", "x", "y"):
        assert mine[key] == near(answer[key]), key


@pytest.mark.parametrize("given", ["land", "space_angle"])
@pytest.mark.parametrize("name", OUTLINES)
def test_root_as_a_given(name: str, given: str) -> None:
    """The kernel's root with land, or with space angle, leads back to the outline.

    To 1e-8 relative: near a shallow tooth the root fixes the flanks less sharply than they fix it.
    """
    answer = answers("outlines")[name]["wheel"]
    other = "space_angle" if given == "land" else "land"
    keys = {key: value for key, value in OUTLINES[name].items() if key != other}
    wheel = job({**keys, "root_diameter": 2 * answer["root_radius"]}).wheel
    assert area(wheel.outline) == pytest.approx(answer["area"], rel=1e-8)
    assert length(wheel.outline) == pytest.approx(answer["perimeter"], rel=1e-8)


def test_stored_dials_are_the_published_ones() -> None:
    """The dials by which the kernel placed the cutters are those published today."""
    stored, today = json.loads(DIALS.read_text())["cut"], dials_of_cuts()
    assert stored.keys() == today.keys()
    for name, cuts in stored.items():
        assert [cut.keys() for cut in cuts] == [cut.keys() for cut in today[name]]
        for cut, now in zip(cuts, today[name], strict=True):
            assert now == near(cut)


@pytest.mark.parametrize("name", CUT)
def test_cutters_at_their_dials_make_the_wheel(name: str) -> None:
    """Cutters at the published dials leave the outline, wherever the tip is as blunt as the
    root."""
    wheel, cutter = CUT[name]
    made, answer = job(wheel, cutter), answers("cut")[name]
    assert len(made.plan.cuts) == len(answer) - 1
    for number, cut in enumerate(made.plan.cuts, start=1):
        assert cut.apex_height == near(answer[f"cut {number}"]["apex_height"])
        assert cut.root_radius == near(answer[f"cut {number}"]["root_radius"])
    sharper = cutter.get("tip_radius", 0) < wheel.get("root_radius", 0)
    if not sharper and name != "two laps flat tip":
        assert area(made.wheel.outline) == near(answer["wheel"]["area"])
        assert length(made.wheel.outline) == near(answer["wheel"]["perimeter"])


@pytest.mark.parametrize("name", CUT)
def test_silhouettes_take_out_what_the_kernel_takes_out(name: str) -> None:
    """The blank less the posed silhouettes of one pitch, by the package's own booleans."""
    made, answer = job(*CUT[name]), answers("cut")[name]["wheel"]
    tools = [moved(cut.silhouette(), cut.wheel_from_setup(made.wheel)) for cut in made.plan.cuts]
    tool = (tools[0],) if len(tools) == 1 else unite(*tools)
    taken = measured(intersect(circle(0j, made.wheel.radius), tool))
    whole = math.pi * made.wheel.radius**2 - made.wheel.teeth * taken["area"]
    assert whole == near(answer["area"])


@pytest.mark.parametrize("name", BORES)
def test_bores(name: str) -> None:
    """Area, edge, centre and moments of every bore are the kernel's, its angle included."""
    bore = job(OUTLINES["hooked"], bore=BORES[name]).wheel.bore
    assert bore is not None
    mine, answer = measured((bore,)), answers("bores")[name]["bore"]
    for key in ("area", "ixx", "iyy", "ixy"):
        assert -mine[key] == near(answer[key]), key
    for key in ("wires", "perimeter", "x", "y"):
        assert mine[key] == near(answer[key]), key


def shape_of(spec: Disc | Rows) -> Contour:
    """A row's disc or face as a contour."""
    if isinstance(spec, tuple):
        return circle(*spec)
    return contour([complex(x, y) for x, y, _ in spec], [bulge for _, _, bulge in spec])


@pytest.mark.parametrize("kind", BOOLEANS)
@pytest.mark.parametrize("name", SHAPES)
def test_booleans(name: str, kind: str) -> None:
    """Pieces, area, edge, centre and moments of every boolean are the kernel's."""
    first, second = (shape_of(spec) for spec in SHAPES[name])
    made, answer = BOOLEANS[kind](first, second), answers("shapes")[name][kind]
    if answer["wires"] == 0:
        assert made == ()
    else:
        assert measured(made) == near(answer)
