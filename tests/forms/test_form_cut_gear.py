"""Gears as a cutter of a set makes them, against spaces moved and taken away in shapely.

No published source holds such teeth: the space of a spur gear of the other count (proven by a swept
rack in its own tests), cut up to a larger outside, is moved out and taken from the blank at every
tooth. Ranges of cutters: rows CUT-01, CUT-03 and CUT-05. The values of 20 teeth by the 17-tooth
space were derived by other means than the package's.
"""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

import pytest
import shapely
from shapely.affinity import rotate, translate
from shapely.geometry.base import BaseGeometry

from profilegen.errors import InputError
from profilegen.findings.cannot_make import CannotMakeError
from profilegen.forms.form_cut_gear.keys import FormCutGear
from profilegen.forms.involute.gear_form import gear_of
from profilegen.forms.involute.tooth import pitch_of
from profilegen.forms.solve import solve, varied
from profilegen.forms.wheel import Wheel
from profilegen.geometry.measure import area, tessellate
from profilegen.geometry.moves import repeated
from profilegen.geometry.tooth_sizes import over_pins, pin_seat
from profilegen.geometry.validity import why_invalid
from profilegen.job import job_for
from profilegen.part.part import Part


def part(**keys: Any) -> Part:
    """A part of module 1 with 20 teeth, or of these keys."""
    base: dict[str, Any] = {"kind": "form-cut-gear", "teeth": 20, "module": 1.0, "thickness": 6.0}
    return Part.from_dict({"units": "mm", "wheel": base | keys})


def wheel(**keys: Any) -> Wheel:
    """The same, solved."""
    return solve(part(**keys))


def keys_of(found: Part) -> FormCutGear:
    """Its own keys."""
    assert isinstance(found.wheel, FormCutGear)
    return found.wheel


def moved_space(keys: FormCutGear) -> BaseGeometry:
    """The space of the cutter's gear, its middle on +x, as deep as the whole depth, and all that
    the cutter sweeps on its way in."""
    gear, count = gear_of(keys), keys.cutter_teeth
    outside = (count / 2 + 1.2) * keys.size
    maker = replace(gear, teeth=count, shift=0.0, outside=outside)
    pitch = pitch_of(maker, 1e-6)[0]
    metal = shapely.Polygon([(z.real, z.imag) for z in tessellate(repeated(pitch, count), 1e-6)])
    half = math.pi / count
    reach = 2 * outside
    wedge = shapely.Polygon(
        [(0, 0), (reach, -reach * math.tan(half)), (reach, reach * math.tan(half))]
    )
    space = wedge.intersection(shapely.Point(0, 0).buffer(outside, 512))
    space = space.difference(rotate(metal, -math.degrees(half), origin=(0, 0)))
    space = max(shapely.get_parts(space), key=lambda one: float(one.area))
    out = gear.root - maker.root
    return shapely.union_all([translate(space, out + k * keys.size / 400) for k in range(120)])


@pytest.mark.parametrize(
    "keys",
    [
        {},
        {"teeth": 12},
        {"teeth": 25, "thinning": 0.05},
        {"teeth": 34, "profile_shift": 0.2},
        {"teeth": 20, "made_for": 26},
        {"teeth": 13, "pressure_angle": "14.5 deg"},
    ],
)
def test_outline_against_a_space_taken_away(keys: dict[str, Any]) -> None:
    """The area within 1e-4, and no point of the outline farther off than the fit and the steps."""
    found = part(fit_tolerance="0.0001 mm", **keys)
    made, own = solve(found), keys_of(found)
    blank: BaseGeometry = shapely.Point(0, 0).buffer(made.radius, 4096)
    space, step = moved_space(own), 360 / own.teeth
    for tooth in range(own.teeth):
        blank = blank.difference(rotate(space, (tooth + 0.5) * step, origin=(0, 0)))
    assert area(made.outline) == pytest.approx(blank.area, rel=1e-4)
    points = [shapely.Point(z.real, z.imag) for z in tessellate(made.outline, 1e-3)[:400]]
    assert max(blank.boundary.distance(point) for point in points) < 1e-3


def test_twenty_teeth_by_the_seventeen_tooth_space() -> None:
    """Values derived elsewhere for module 1, 20 degrees, rack A."""
    made = wheel(fit_tolerance="0.000001 mm", made_for=17)
    assert made.fact("departure.tip") == pytest.approx(0.040, abs=5e-4)
    assert made.fact("departure.form_circle") == pytest.approx(0.012, abs=5e-4)
    assert made.fact("span.teeth") == 3
    assert made.fact("span.length") == pytest.approx(7.6519, abs=5.1e-5)
    seat = pin_seat(made.space.pitch, 20, 1.7)
    assert seat is not None
    assert over_pins(seat.centre, 1.7, 20) == pytest.approx(22.2862, abs=5.1e-5)


def test_the_true_gear_stands_beside_it() -> None:
    """Over the same teeth the true gear of 20 has 7.6604 (row SPAN of 20 teeth), and it begins at
    18.8201."""
    made = wheel(fit_tolerance="0.000001 mm")
    assert made.fact("made_for") == 17
    assert made.fact("true_gear.span") == pytest.approx(7.6604, abs=5.1e-5)
    assert made.fact("true_gear.form_diameter") == pytest.approx(18.8201, abs=5.1e-5)


@pytest.mark.parametrize(
    ("teeth", "made_for"),
    [(12, 12), (13, 12), (16, 14), (20, 17), (25, 21), (34, 26), (54, 35), (134, 55), (135, 135),
     (1000, 135)],
)  # fmt: skip
def test_count_that_the_cutter_is_made_for(teeth: int, made_for: int) -> None:
    """Row CUT-05: the lowest of its range; the lowest itself comes out true where it is not
    undercut."""
    made = wheel(teeth=teeth)
    assert made.fact("made_for") == made_for
    assert why_invalid(made.outline) is None
    assert made.fact("departure.tip") >= -1e-9
    if teeth == made_for >= 17:
        assert abs(made.fact("departure.tip")) < 1e-9
        assert made.fact("span.length") == pytest.approx(made.fact("true_gear.span"), abs=2e-6)


def test_departure_against_distances_of_the_two_outlines() -> None:
    """The true tip stands as far from what is made as is told: by shapely, on fine chords."""
    made = wheel(teeth=25, fit_tolerance="0.00001 mm")
    true = wheel(teeth=25, kind="spur-gear", fit_tolerance="0.00001 mm")
    line = shapely.LineString([(z.real, z.imag) for z in tessellate(made.space.pitch, 1e-6)])
    tip = complex(true.space.pitch.points[0])
    far = line.distance(shapely.Point(tip.real, tip.imag))
    assert made.fact("departure.tip") == pytest.approx(far, rel=0.01)


def test_a_tooth_thickness_is_made_by_depth() -> None:
    """Varied to a thickness or a root, the wheel solved again has it."""
    found = wheel()
    for key, value in (("tooth_thickness", 1.5), ("root_diameter", 17.4)):
        assert varied(found, **{key: value}).fact(key) == pytest.approx(value, abs=1e-6)


def test_no_cutter_under_twelve_teeth() -> None:
    """No range holds 11 teeth: null for programs, a finding, and the smallest cutter's space."""
    job = job_for(part(teeth=11))
    told = job.as_dict()["wheel"]
    assert told["form_cutter"] is None
    assert told["made_for"] == 12
    assert {one.code for one in job.findings} >= {"cutter-range", "flank-proud"}


@pytest.mark.parametrize(
    ("keys", "code"),
    [
        ({"thinning": 1.6}, "tooth-gone"),
        ({"outside_diameter": 30}, "tip-past-point"),
        ({"outside_diameter": 18}, "flank-gone"),
        ({"teeth": 2}, "root-below-axis"),
    ],
)
def test_what_has_no_teeth_is_refused(keys: dict[str, Any], code: str) -> None:
    """Never a crossed outline."""
    with pytest.raises(CannotMakeError) as refused:
        wheel(**keys)
    assert code in {one.code for one in refused.value.findings}


def test_a_space_of_very_few_teeth_is_no_cutters() -> None:
    """Refused at its key, before anything is worked out."""
    table = {"kind": "form-cut-gear", "teeth": 20, "thickness": 5, "module": 1, "made_for": 2}
    with pytest.raises(InputError, match=r"wheel\.made_for: no form cutter"):
        Part.from_dict({"units": "mm", "wheel": table})
