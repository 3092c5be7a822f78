"""The tooth solver against tables worked by hand and by sine rule."""

from __future__ import annotations

import cmath
import math

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from profilegen.forms import straight as ratchet_tooth
from profilegen.forms.straight import Blank, NoTooth, Tooth

# Derived, no published source: R 12.7, 30 teeth; space angle, hook, land, vertex radius.
VERTICES = [(60, 0, 0.15, 11.013128), (50, 8, 0.2, 10.768515)]

# RAT-19, 20, 22, 24, 25: sharp-crest wheel, radial face; derived by the sine rule
# r = R sin(A - 360/N) / sin A, no published source. R, N, A, r, depth.
SHARP_CRESTS = [
    (10, 24, 60, 8.1650, 1.8350),
    (20, 24, 60, 16.3299, 3.6701),
    (20, 12, 60, 11.5470, 8.4530),
    (25, 48, 70, 23.5984, 1.4016),
    (15, 16, 75, 12.3201, 2.6799),
]

# RAT-27, 29: land left at a depth, radial face; derived, no published source. The arc along the
# blank, so the chord is compared with 2 R sin(arc / 2R). R, depth, N, A, land angle, land arc.
LANDS = [(20, 2.0, 24, 60, 6.2078, 2.1669), (20, 2.5, 16, 45, 15.7226, 5.4882)]


def test_a_back_that_crosses_the_chord_of_its_space_is_solved() -> None:
    """A wide shallow space, whose search begins with a face of no length: 15 teeth, 122 mm, land
    4.92, root 117. The root is the least distance of the two flanks from the axis, by the foot of
    the perpendicular on the back."""
    tooth = ratchet_tooth.from_land_and_root(Blank(61.0, 15, 0.0), 4.92, 58.5)
    tip = tooth.blank.back_tip(4.92)
    along = (tip - tooth.vertex) / abs(tip - tooth.vertex)
    foot = abs((tooth.vertex.conjugate() * along).imag)
    assert (tooth.vertex * along.conjugate()).real < 0 < (tip * along.conjugate()).real
    assert foot == pytest.approx(58.5, rel=1e-9)


@pytest.mark.parametrize(("angle", "hook", "land", "radius"), VERTICES)
def test_vertex_from_land_and_angle(angle: float, hook: float, land: float, radius: float) -> None:
    """Land and space angle fix the vertex."""
    blank = Blank(12.7, 30, math.radians(hook))
    tooth = ratchet_tooth.from_land_and_angle(blank, land, math.radians(angle))
    assert abs(tooth.vertex) == pytest.approx(radius, abs=5e-7)


@pytest.mark.parametrize(("radius", "teeth", "angle", "root", "depth"), SHARP_CRESTS)
def test_sharp_crest_is_the_limit_of_a_vanishing_land(
    radius: float, teeth: int, angle: float, root: float, depth: float
) -> None:
    """With next to no land the root is the sine rule's (RAT-19 to RAT-25)."""
    blank = Blank(radius, teeth, 0.0)
    tooth = ratchet_tooth.from_land_and_angle(blank, 1e-6, math.radians(angle))
    assert tooth.deepest() == pytest.approx(root, abs=5e-5)
    assert radius - tooth.deepest() == pytest.approx(depth, abs=5e-5)


@pytest.mark.parametrize(("radius", "depth", "teeth", "angle", "land_angle", "arc"), LANDS)
def test_land_left_at_a_depth(
    radius: float, depth: float, teeth: int, angle: float, land_angle: float, arc: float
) -> None:
    """Space angle and depth fix the land (RAT-27, RAT-29)."""
    blank = Blank(radius, teeth, 0.0)
    tooth = ratchet_tooth.from_angle_and_root(blank, math.radians(angle), radius - depth)
    half = math.asin(tooth.land / 2 / radius)
    assert math.degrees(2 * half) == pytest.approx(land_angle, abs=5e-5)
    assert 2 * half * radius == pytest.approx(arc, abs=5e-5)


@pytest.mark.parametrize(
    ("teeth", "depth", "gap"), [(35, 1.5, 10.21), (27, 2.0, 13.14)]
)  # a workshop table for R 12.7, radial face, 60 degrees; derived, no published source
def test_gap_angle_of_the_workshop_table(teeth: int, depth: float, gap: float) -> None:
    """The gap at the blank's edge for a 60 degree space."""
    blank = Blank(12.7, teeth, 0.0)
    tooth = ratchet_tooth.from_angle_and_root(blank, math.radians(60), 12.7 - depth)
    assert math.degrees(cmath.phase(blank.back_tip(tooth.land))) == pytest.approx(gap, abs=6e-3)


def test_real_material_is_less_deep_than_the_nose_point() -> None:
    """Deepest material for q 0.2 is 11.1613; the nose point next to the apex would give 11.1868."""
    blank = Blank(12.7, 30, 0.0, root_radius=0.2)
    tooth = ratchet_tooth.from_land_and_angle(blank, 0.15, math.radians(60))
    assert tooth.deepest() == pytest.approx(11.1613, abs=5e-5)


@st.composite
def teeth(draw: st.DrawFn) -> Tooth:
    """Teeth of any hook and root, solved from land and angle."""
    count = draw(st.integers(6, 200))
    radius = draw(st.floats(4, 200))
    hook = math.radians(draw(st.floats(-20, 20)))
    pitch = 2 * math.pi * radius / count
    blunt = draw(st.sampled_from(["sharp", "round", "flat"]))
    size = draw(st.floats(0.01, 0.1)) * pitch
    blank = Blank(
        radius,
        count,
        hook,
        root_radius=size if blunt == "round" else 0.0,
        root_flat=size if blunt == "flat" else 0.0,
    )
    land = draw(st.floats(0.02, 0.5)) * pitch
    try:
        tooth = ratchet_tooth.from_land_and_angle(
            blank, land, math.radians(draw(st.floats(35, 95)))
        )
    except NoTooth:
        assume(False)
        raise
    assume(abs(tooth.vertex) > 0.2 * radius)
    return tooth


@given(teeth())
def test_any_two_givens_fix_the_third(tooth: Tooth) -> None:
    """Solved from land and root, or angle and root, the tooth is the same one."""
    root = tooth.deepest()
    by_land = ratchet_tooth.from_land_and_root(tooth.blank, tooth.land, root)
    by_angle = ratchet_tooth.from_angle_and_root(tooth.blank, tooth.angle, root)
    scale = tooth.blank.radius
    assert by_land.deepest() == pytest.approx(root, abs=1e-8 * scale)
    assert by_angle.deepest() == pytest.approx(root, abs=1e-8 * scale)
    # Where the back's foot is the deepest place, several teeth share a root; else they agree.
    if (tooth.root_ends()[1] * tooth.back.conjugate()).real > 0:
        assert by_land.angle == pytest.approx(tooth.angle, abs=1e-7)
        assert by_angle.land == pytest.approx(tooth.land, abs=1e-7 * scale)


@given(teeth())
def test_root_is_tangent_to_both_flanks(tooth: Tooth) -> None:
    """The root arc's centre stands its radius from both flanks."""
    for flank in (tooth.blank.face, tooth.back):
        away = (flank.conjugate() * (tooth.nose_centre - tooth.vertex)).imag
        assert abs(away) == pytest.approx(tooth.blank.root_radius, abs=1e-9 * tooth.blank.radius)


@pytest.mark.parametrize(
    ("code", "hook", "angle", "root_radius"),
    [
        ("root-below-axis", 0, 5, 0.0),
        ("flanks-miss", -44, 170, 0.0),
        ("root-too-big", 0, 60, 5.0),
    ],
)
def test_no_tooth_says_why(code: str, hook: float, angle: float, root_radius: float) -> None:
    """What has no solution is refused by its code."""
    blank = Blank(12.7, 30, math.radians(hook), root_radius)
    with pytest.raises(NoTooth) as refusal:
        ratchet_tooth.from_land_and_angle(blank, 0.4, math.radians(angle))
    assert refusal.value.code == code
