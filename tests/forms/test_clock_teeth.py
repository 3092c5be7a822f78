"""Clock wheels and pinions against tables of cutters, epicycloids by rows, and teeth drawn by hand.

Rows CLK-01, 02, 04, 06, 07, 08, 10, 12 are of a published table of wheel and pinion cutters (grade
A); CLK-13 and 14 are BS 978-2, remembered (grade B); CLK-15 to 27 are addendum factors of pointed
epicycloids, derived apart from this program (grade D).
"""

from __future__ import annotations

import cmath
import math
from typing import Any

import numpy as np
import pytest
import shapely
from shapely.geometry.base import BaseGeometry

from profilegen.errors import InputError
from profilegen.findings.cannot_make import CannotMakeError
from profilegen.findings.telling import told
from profilegen.forms.arc_teeth import epicycloid_addendum
from profilegen.forms.solve import resolve_for_blank, solve, varied
from profilegen.forms.wheel import Wheel
from profilegen.geometry.measure import area, nearest, tessellate
from profilegen.geometry.moves import MIRROR_X, moved
from profilegen.geometry.validity import why_invalid
from profilegen.job import Job, job_for
from profilegen.part.part import Part


def part(kind: str = "clock-wheel", **keys: Any) -> Part:
    """A part of module 1, with a cutter ground to its own space."""
    base: dict[str, Any] = {"kind": kind, "thickness": 2.0, "module": 1.0}
    cutter = {"name": "fly", "kind": "form", "of": "this wheel"}
    return Part.from_dict({"units": "mm", "wheel": base | keys, "cutter": [cutter]})


def wheel(kind: str = "clock-wheel", **keys: Any) -> Wheel:
    """The same, solved."""
    return solve(part(kind, **keys))


def job(kind: str = "clock-wheel", **keys: Any) -> Job:
    """The same, with everything."""
    return job_for(part(kind, **keys))


@pytest.mark.parametrize("teeth", [8, 30, 60, 96, 200])
def test_trade_proportions_of_wheels(teeth: int) -> None:
    """Rows CLK-01 and CLK-02: blank N + 2.76, root N - 3.14, thickness 1.57, arcs of 1.93."""
    made = wheel(teeth=teeth, mate_teeth=8)
    assert made.fact("outside_diameter") == pytest.approx(teeth + 2.76)
    assert made.fact("root_diameter") == pytest.approx(teeth - 3.14)
    assert made.fact("tooth_thickness") == pytest.approx(1.57)
    assert made.fact("addendum_radius") == pytest.approx(1.93)
    assert made.fact("whole_depth") == pytest.approx(2.95)
    assert made.fact("pitch_diameter") == pytest.approx(teeth)


def test_short_and_round_forms_of_the_trade() -> None:
    """Row CLK-04: short depth 2.45, root N - 2.14; round blank N + 2.50, root N - 3.5, depth 3.0,
    thickness 1.41, arcs of 2.00."""
    short, rounded = (wheel(teeth=60, mate_teeth=8, root_form=form) for form in ("short", "round"))
    assert short.fact("whole_depth") == pytest.approx(2.45)
    assert short.fact("root_diameter") == pytest.approx(60 - 2.14)
    assert rounded.fact("outside_diameter") == pytest.approx(62.5)
    assert rounded.fact("root_diameter") == pytest.approx(56.5)
    assert rounded.fact("whole_depth") == pytest.approx(3.0)
    assert rounded.fact("tooth_thickness") == pytest.approx(1.41)
    assert rounded.fact("addendum_radius") == pytest.approx(2.0)


@pytest.mark.parametrize(
    ("leaves", "share", "blank", "root", "depth", "flank", "off"),
    [
        (7, 1 / 3, 8.71, 3.3, 2.705, 17.15, 0.011),
        (8, 1 / 3, 9.71, 4.2, 2.755, 15.0, 1e-9),
        (10, 2 / 5, 11.61, 5.9, 2.855, 10.8, 1e-9),
        (16, 2 / 5, 17.61, 11.8, 2.905, 6.75, 1e-9),
    ],
)
def test_trade_proportions_of_pinions(
    leaves: int, share: float, blank: float, root: float, depth: float, flank: float, off: float
) -> None:
    """Rows CLK-06, 07, 08, 10, 12. Of 7 leaves the row prints a flank of 17.15 for 17.142857; of
    10 leaves it prints a depth of 2.755, which contradicts its own blank and root."""
    made = wheel("clock-pinion", teeth=leaves, mate_teeth=60)
    assert made.fact("outside_diameter") == pytest.approx(blank)
    assert made.fact("root_diameter") == pytest.approx(root)
    assert made.fact("whole_depth") == pytest.approx(depth)
    assert made.fact("tooth_thickness") == pytest.approx(share * math.pi)
    assert math.degrees(made.fact("flank_angle")) == pytest.approx(flank, abs=off)


@pytest.mark.parametrize(("leaves", "allowance"), [(6, 1.71), (7, 1.71), (8, 1.71), (10, 1.61),
                                                  (12, 1.61), (16, 1.61)])  # fmt: skip
def test_allowances_over_the_count(leaves: int, allowance: float) -> None:
    """Row CLK-12, with own numbers for the depth of 6 and 12 leaves, which have no row."""
    made = wheel("clock-pinion", teeth=leaves, mate_teeth=60, dedendum_factor=1.9)
    assert made.fact("outside_diameter") == pytest.approx(leaves + allowance)


@pytest.mark.parametrize(
    ("form", "narrow", "wide"),
    [
        ("semicircular", (0.525, 0.525), (0.625, 0.625)),
        ("round", (0.670, 0.70), (0.805, 0.83)),
        ("ogival", (0.855, 1.05), (1.050, 1.25)),
    ],
)
def test_leaf_forms_of_the_standard(
    form: str, narrow: tuple[float, float], wide: tuple[float, float]
) -> None:
    """Row CLK-13, remembered: profiles A, B, C; leaves of 1.05 up to 10, 1.25 above."""
    for leaves, width, (addendum, radius) in [(8, 1.05, narrow), (10, 1.05, narrow),
                                              (16, 1.25, wide)]:  # fmt: skip
        made = wheel("clock-pinion", teeth=leaves, proportions="BS 978-2", leaf_form=form)
        assert made.fact("tooth_thickness") == pytest.approx(width)
        assert made.fact("addendum") == pytest.approx(addendum)
        assert made.fact("addendum_radius") == pytest.approx(radius)


@pytest.mark.parametrize(
    ("teeth", "leaves", "factor"),
    [(48, 6, 1.3843), (56, 7, 1.4727), (60, 8, 1.5488), (64, 8, 1.5522), (60, 10, 1.6719),
     (80, 10, 1.6914), (72, 12, 1.7896), (96, 16, 1.9883)],
)  # fmt: skip
def test_addendum_factor_of_the_pair(teeth: int, leaves: int, factor: float) -> None:
    """Rows CLK-15, 17, 19, 20, 22, 24, 25, 27; row CLK-14 has the blank as (N + 1.9 f)."""
    assert epicycloid_addendum(teeth, leaves) == pytest.approx(factor, abs=5.1e-5)
    made = wheel(teeth=teeth, mate_teeth=leaves, proportions="BS 978-2")
    assert made.fact("outside_diameter") == pytest.approx(teeth + 1.9 * factor, abs=1.1e-4)
    assert made.fact("addendum_radius") == pytest.approx(1.4 * factor, abs=1e-4)
    given = wheel(teeth=teeth, proportions="BS 978-2", addendum_factor=factor)
    assert given.radius == pytest.approx(made.radius, abs=1e-4)


def drawn(made: Wheel) -> BaseGeometry:
    """One pitch of the same wheel, tooth 1 in its middle, of polygons from its printed sizes alone.

    A tooth is what lies within two discs whose rims pass through the tip and a point of the pitch
    circle, found by the bisector of those two points, and outside the pitch circle; below it a
    wedge between two radii.
    """
    pitch, tip = made.fact("pitch_diameter") / 2, made.radius
    half, arc = made.fact("tooth_thickness") / (2 * pitch), made.fact("addendum_radius")
    at, top = cmath.rect(pitch, half), complex(tip)
    bisector = 1j * (top - at) / abs(top - at)
    away = bisector * math.sqrt(arc**2 - abs(top - at) ** 2 / 4)
    low = min(((at + top) / 2 + away, (at + top) / 2 - away), key=lambda c: c.imag)
    below, beyond = wedge(half, pitch), wedge(half, 2 * tip)
    lens = disc(low, arc).intersection(disc(low.conjugate(), arc)).intersection(beyond)
    return below.union(lens.difference(below)).union(core(made, half))


def disc(centre: complex, radius: float) -> BaseGeometry:
    """A round disc, its chords off by less than a hundred-thousandth."""
    return shapely.Point(centre.real, centre.imag).buffer(radius, quad_segs=2000)


def wedge(half: float, radius: float) -> BaseGeometry:
    """From the axis between two radii to a circle."""
    rim = radius * np.exp(1j * np.linspace(-half, half, 2001))
    return shapely.Polygon([(0, 0), *zip(rim.real, rim.imag, strict=True)])


def core(made: Wheel, half: float) -> BaseGeometry:
    """What stands within the roots of a pitch: up to the halves of two flats; or up to two discs
    about the middles of the spaces that touch both radii, found by trying."""
    root, end = made.root_radius, math.pi / made.teeth
    space, middle = end - half, cmath.exp(1j * end)
    if made.fact("root_radius", None) is None:
        side = middle * (root - 1j * root * math.tan(space))
        points = [0j, (root * middle).conjugate(), side.conjugate(), side, root * middle]
        return shapely.Polygon([(z.real, z.imag) for z in points])
    low, high = root, made.radius
    for _ in range(80):
        centre = (low + high) / 2
        runs_over = centre - root > centre * math.sin(space)
        low, high = (low, centre) if runs_over else (centre, high)
    inside = wedge(end, high * math.cos(space))
    for place in (high * middle, high * middle.conjugate()):
        inside = inside.difference(disc(place, high - root))
    return inside


PRINTS: list[tuple[str, dict[str, Any]]] = [
    ("clock-wheel", {"teeth": 60}),
    ("clock-wheel", {"teeth": 9, "root_form": "round"}),
    ("clock-wheel", {"teeth": 48, "mate_teeth": 6, "proportions": "BS 978-2", "module": 0.4}),
    ("clock-wheel", {"teeth": 30, "proportions": "BS 978-2", "addendum_factor": 2.2}),
    ("clock-pinion", {"teeth": 7}),
    ("clock-pinion", {"teeth": 8, "leaf_form": "semicircular", "root_form": "round"}),
    ("clock-pinion", {"teeth": 16, "leaf_form": "round", "module": 0.6}),
]


@pytest.mark.parametrize(("kind", "keys"), PRINTS)
def test_outline_is_the_tooth_drawn_by_hand(kind: str, keys: dict[str, Any]) -> None:
    """Every place of the outline lies on the polygons, and the areas are alike."""
    made = wheel(kind, **keys)
    by_hand = drawn(made)
    assert why_invalid(made.outline, made.teeth) is None
    assert area(made.outline) == pytest.approx(made.teeth * by_hand.area, rel=2e-6)
    at = tessellate(made.outline, 1e-5)
    at = at[np.abs(np.angle(at)) < math.pi / made.teeth]
    off = shapely.distance(shapely.points(at.real, at.imag), by_hand.boundary)
    assert off.max() < 2e-5


@pytest.mark.parametrize(("kind", "keys"), PRINTS)
def test_teeth_have_no_hand(kind: str, keys: dict[str, Any]) -> None:
    """Tooth 1's tip stands at angle 0, the wheel is its own mirror image, and nothing is said of a
    hand, of a face or of a land."""
    made = job(kind, **keys)
    mirrored = moved(made.wheel.outline, MIRROR_X)
    assert max(nearest(mirrored, complex(z))[0] for z in made.wheel.outline.points) < 1e-9
    assert nearest(made.wheel.outline, complex(made.wheel.radius))[0] < 1e-9
    said = made.as_dict()
    assert said["setup"]["hand_at_free_end"] is None
    assert not {"rotation", "land", "hook_angle"} & set(said["wheel"])


@pytest.mark.parametrize(("kind", "keys"), PRINTS)
def test_corner_told_is_the_one_drawn(kind: str, keys: dict[str, Any]) -> None:
    """The angle between the outline a hair below the pitch circle and a hair above it."""
    made = wheel(kind, **keys)
    pitch, half = made.fact("pitch_diameter") / 2, made.fact("tooth_thickness") / 2
    corner = cmath.rect(pitch, half / pitch)
    hair = 1e-5 * made.fact("module")
    below = corner * (1 - hair / pitch)
    ring = np.exp(1j * np.linspace(-3, 3, 20001)) * hair + corner
    far = [z for z in ring if abs(z) > pitch + 0.5 * hair]
    above = min(far, key=lambda z: nearest(made.outline, complex(z))[0])
    turned = cmath.phase((above - corner) / (corner - below))
    assert -turned == pytest.approx(made.fact("addendum_corner"), abs=2e-3)


def test_a_pin_lies_on_both_arcs() -> None:
    """Over pins, by a circle through the middle of a space that touches one disc from outside."""
    made = job(teeth=60, mate_teeth=8)
    pin, size = (made.wheel.fact(f"over_pins.{key}") for key in ("pin", "length"))
    polygon = drawn(made.wheel)
    low, high = 29.0, 34.0
    for _ in range(60):
        middle = (low + high) / 2
        at = cmath.rect(middle, math.pi / 60)
        gap = polygon.distance(shapely.Point(at.real, at.imag))
        low, high = (middle, high) if gap < pin / 2 else (low, middle)
    assert size == pytest.approx(2 * high + pin, abs=1e-4)
    assert made.gauges.pin == pytest.approx(pin)
    assert made.gauges.feature("chordal") is not None


@pytest.mark.parametrize(("kind", "keys"), PRINTS)
def test_a_fly_cutter_of_this_wheel_makes_it(kind: str, keys: dict[str, Any]) -> None:
    """On centre, to the whole depth, with nothing left and nothing gouged; a thicker tooth at its
    limit is another size of the same wheel."""
    made = job(kind, **keys)
    (cut,) = made.plan.cuts
    assert cut.offset == pytest.approx(0.0, abs=1e-6)
    assert cut.radial_depth == pytest.approx(made.wheel.fact("whole_depth"), abs=1e-6)
    thick = made.wheel.fact("tooth_thickness")
    thinner = varied(made.wheel, tooth_thickness=0.98 * thick)
    assert thinner.fact("tooth_thickness") == pytest.approx(0.98 * thick)
    assert thinner.root_radius == pytest.approx(made.wheel.root_radius)
    deeper = varied(made.wheel, root_diameter=1.998 * made.wheel.root_radius)
    assert deeper.root_radius == pytest.approx(0.999 * made.wheel.root_radius)


def test_pair_is_told() -> None:
    """Centre distance: half of the counts by the module; the mate has its own count."""
    assert wheel(teeth=60, mate_teeth=8, module=0.5).fact("centre_distance") == pytest.approx(17.0)


@pytest.mark.parametrize(
    ("kind", "keys", "wanted"),
    [
        ("clock-wheel", {"teeth": 60, "proportions": "BS 978-2"}, "mate_teeth"),
        ("clock-wheel", {"teeth": 60, "addendum_factor": 1.5}, "BS 978-2"),
        ("clock-wheel", {"teeth": 60, "mate_teeth": 8, "proportions": "BS 978-2",
                         "root_form": "short"}, "flat or round"),
        ("clock-pinion", {"teeth": 9}, "dedendum_factor"),
        ("clock-pinion", {"teeth": 12, "proportions": "BS 978-2"}, "7, 8, 10 or 16"),
        ("clock-pinion", {"teeth": 8, "leaf_width": 3}, "from 0.5 to 2"),
        ("clock-pinion", {"teeth": 8, "leaf_width": "1.05 mm"}, "without a unit"),
    ],
)  # fmt: skip
def test_what_has_no_row_asks_for_own_numbers(kind: str, keys: dict[str, Any], wanted: str) -> None:
    """Refused where it stands, with the keys to give."""
    with pytest.raises(InputError, match="wheel") as raised:
        part(kind, **keys)
    assert wanted in str(raised.value)


def test_ten_leaves_say_which_row_was_taken() -> None:
    """Rows CLK-08 and CLK-13 disagree on the width of 10 leaves: 2/5 of the pitch, or 1.05."""
    for proportions, width, words in [("trade 2.76", 0.4 * math.pi, "two fifths"),
                                      ("BS 978-2", 1.05, "narrow leaves of 1.05")]:  # fmt: skip
        made = wheel("clock-pinion", teeth=10, mate_teeth=60, proportions=proportions)
        assert made.fact("tooth_thickness") == pytest.approx(width)
        (note,) = made.findings
        assert note.code == "ten-leaves"
        assert words in told(note)


def test_no_count_without_a_depth_is_offered() -> None:
    """A bore too big for 10 leaves: counts are tried too, and one without a usual depth is none."""
    tables = {
        "units": "mm",
        "wheel": {"kind": "clock-pinion", "teeth": 10, "module": 0.3, "thickness": 3},
        "bore": {"kind": "round", "diameter": 3},
    }
    with pytest.raises(CannotMakeError) as raised:
        solve(Part.from_dict(tables))
    assert "wheel.teeth" not in {finding.where for finding in raised.value.findings}


def test_another_blank_is_refused() -> None:
    """The arcs end in the tip, so the teeth belong to one blank."""
    with pytest.raises(CannotMakeError) as raised:
        resolve_for_blank(part(teeth=60, mate_teeth=8), 62.5)
    assert raised.value.findings[0].code == "blank-fixed"
