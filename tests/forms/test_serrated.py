"""Serrated wheels against lines mirrored in the radius through the middle of a space.

No published source: the construction here shares nothing with the solver but the print's numbers.
"""

from __future__ import annotations

import cmath
import math
from typing import Any

import numpy as np
import pytest

from profilegen.cutting.fit import fit_of
from profilegen.findings.cannot_make import CannotMakeError
from profilegen.forms.solve import solve
from profilegen.forms.wheel import Wheel
from profilegen.geometry.measure import nearest
from profilegen.geometry.moves import MIRROR_X, moved
from tests.parts import job, part, vee

PRINTS = [
    (12, 60.0, 0.8, 90.0, 0.0),
    (36, 40.0, 0.4, 60.0, 0.25),
    (24, 12.7, 0.3, 50.0, 0.1),
    (72, 50.0, 0.2, 90.0, 0.0),
    (3, 20.0, 4.0, 120.0, 0.5),
]
"""Teeth, outside diameter, land, space angle (deg), root radius, mm."""

KEYS = {"teeth": 24, "outside_diameter": 30}


def serrated(**keys: Any) -> dict[str, Any]:
    """The table of a serrated wheel."""
    return {"kind": "serrated", "thickness": 4, **keys}


def drawn(teeth: int, outside: float, land: float, angle: float, nose: float) -> tuple[float, ...]:
    """Vertex and deepest material of the space between two crests, by two lines that mirror each
    other in the radius half way between."""
    radius, half = outside / 2, math.radians(angle) / 2
    corner = math.pi / teeth - math.asin(land / outside)
    across, up = radius * math.sin(corner), radius * math.cos(corner)
    vertex = up - across / math.tan(half)
    return vertex, vertex + nose * (1 / math.sin(half) - 1)


def wheel(**keys: Any) -> Wheel:
    """A solved serrated wheel."""
    return solve(part(serrated(**keys)))


@pytest.mark.parametrize(("teeth", "outside", "land", "angle", "nose"), PRINTS)
def test_the_three_ways_of_giving_it_agree(
    teeth: int, outside: float, land: float, angle: float, nose: float
) -> None:
    """Land and angle, land and root, angle and depth: one tooth, the one drawn with lines."""
    vertex, deepest = drawn(teeth, outside, land, angle, nose)
    root = {"root_radius": nose} if nose else {}
    givens = (
        {"land": land, "space_angle": angle},
        {"land": land, "root_diameter": 2 * deepest},
        {"space_angle": angle, "tooth_depth": outside / 2 - deepest},
    )
    for given in givens:
        made = wheel(teeth=teeth, outside_diameter=outside, **root, **given)
        assert made.root_radius == pytest.approx(deepest, abs=1e-9)
        assert abs(made.space.vertex) == pytest.approx(vertex, abs=1e-9)
        assert made.fact("land") == pytest.approx(land, abs=1e-9)
        assert made.crest_width == pytest.approx(land, abs=1e-9)
        assert math.degrees(made.fact("space_angle")) == pytest.approx(angle, abs=1e-9)


@pytest.mark.parametrize(("teeth", "outside", "land", "angle", "nose"), PRINTS)
def test_teeth_are_symmetrical_about_tooth_1(
    teeth: int, outside: float, land: float, angle: float, nose: float
) -> None:
    """The mirror image in the x axis is the same wheel, the middle of a crest lies on that axis,
    and there is no hand."""
    made = wheel(
        teeth=teeth, outside_diameter=outside, land=land, space_angle=angle, root_radius=nose
    )
    mirrored = moved(made.outline, MIRROR_X)
    gaps = [nearest(mirrored, complex(point))[0] for point in made.outline.points]
    assert max(gaps) < 1e-9
    assert made.hand is None
    assert made.crest_angle == pytest.approx(0.0, abs=1e-12)
    crest = nearest(made.outline, complex(outside / 2))
    assert crest[0] < 1e-9
    turns = np.angle(made.outline.points * np.exp(1j * made.angular_pitch))
    assert len(set(np.round(turns, 9))) == len(made.outline)


def test_a_matching_vee_forms_the_space_on_centre() -> None:
    """The cutter stands on centre, and cuts what is drawn."""
    made = job(serrated(**KEYS, land=0.5, space_angle=60, root_radius=0.2), vee(60))
    (cut,) = made.plan.cuts
    assert cut.offset == pytest.approx(0.0, abs=1e-9)
    assert fit_of(made.wheel, made.plan.cuts).left_over.value < 1e-9
    assert made.as_dict()["setup"]["hand_at_free_end"] is None
    assert not {"hook_angle", "rotation", "face_length"} & set(made.as_dict()["wheel"])


@pytest.mark.parametrize(
    ("keys", "code"),
    [
        ({"land": 9.0, "space_angle": 60}, "space-gone"),
        ({"land": 0.5, "root_diameter": 29.99}, "root-outside-blank"),
        ({"space_angle": 60, "tooth_depth": 14.9}, "land-gone"),
        ({"land": 0.5, "tooth_depth": 15}, "root-below-axis"),
        ({"space_angle": 150, "tooth_depth": 4}, "land-gone"),
        ({"land": 0.5, "space_angle": 60, "root_radius": 3}, "root-too-big"),
    ],
)
def test_what_cannot_be_is_refused(keys: dict[str, Any], code: str) -> None:
    """No crossed outline: a refusal with its code."""
    with pytest.raises(CannotMakeError) as refusal:
        wheel(**KEYS, **keys)
    assert [one.code for one in refusal.value.findings] == [code]


def test_a_corner_of_the_space_lies_on_its_line() -> None:
    """The flank runs from the crest's corner straight to the root vertex."""
    made = wheel(teeth=18, outside_diameter=25.4, land=0.6, space_angle=75)
    face, back = made.space.face, made.space.back
    assert face is not None
    assert back is not None
    corner = cmath.rect(12.7, math.asin(0.6 / 25.4))
    assert abs(face.tip - corner) < 1e-12
    assert abs(face.tip - face.length * face.outward - made.space.vertex) < 1e-9
    assert abs(back.tip - corner.conjugate() * cmath.exp(1j * made.angular_pitch)) < 1e-9


@pytest.mark.parametrize("teeth", [24, 25])
def test_a_root_that_nothing_reaches_across_is_not_given_a_micrometer(teeth: int) -> None:
    """Over an odd count a root faces a crest, so a point micrometer cannot read the diameter."""
    made = job(serrated(teeth=teeth, outside_diameter=30, land=0.5, space_angle=60))
    root = made.gauges.feature("root_diameter")
    assert root is not None
    assert ("micrometer" in root.instrument) == (teeth % 2 == 0)
