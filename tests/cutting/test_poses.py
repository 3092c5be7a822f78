"""Poses against the closed forms and the tables worked beside them."""

from __future__ import annotations

import cmath
import math
from typing import Any

import pytest

from profilegen.findings.telling import told
from tests.parts import double, job, ratchet, single, vee

# Derived and checked by construction, no published source: R 12.7, 30 teeth; the last two columns
# for
# a nose of 0.2. Cutter, space angle, hook, land, offset, height, tip height, infeed from the
# offset position.
TABLE: list[tuple[dict[str, Any], float, float, float, float, float, float, float]] = [
    (vee(60), 60, 0, 0.15, 5.506564, 9.537649, 9.7376, 1.72802),
    (single(60), 60, 0, 0.15, 0.0, 11.013128, 11.1595, 1.53891),
    (vee(50), 50, 8, 0.2, 6.091147, 8.880250, 9.1535, 2.01787),
    (single(50), 50, 8, 0.2, 1.767498, 10.622470, 10.8514, 1.75304),
]

# A workshop table, derived, no published source: R 12.7, radial depth 2.0 of a sharp root, 60
# degrees.
# Cutter, hook, offset, infeed from top dead centre, infeed from the offset position.
DEPTHS: list[tuple[dict[str, Any], float, float, float, float]] = [
    (single(60), 0, 0.000, 2.000, 2.000),
    (single(60), 5, 1.107, 2.057, 2.009),
    (vee(60), 0, 5.350, 3.434, 2.252),
    (vee(60), 5, 6.280, 4.037, 2.375),
    (double(12, 48), 0, 2.225, 2.234, 2.037),
]


@pytest.mark.parametrize("row", TABLE)
def test_offset_height_and_infeed(
    row: tuple[dict[str, Any], float, float, float, float, float, float, float],
) -> None:
    """Offset, apex height, tip height and infeed from the offset position are the table's."""
    cutter, angle, hook, land, offset, height, tip, infeed = row
    wheel = ratchet(space_angle=angle, hook_angle=hook, land=land, root_radius=0.2)
    (cut,) = job(wheel, cutter).plan.cuts
    assert cut.offset == pytest.approx(offset, abs=5e-7)
    assert cut.apex_height == pytest.approx(height, abs=5e-7)
    assert cut.tip.imag == pytest.approx(tip, abs=5e-5)
    assert cut.infeed_from_offset == pytest.approx(infeed, abs=5e-6)


@pytest.mark.parametrize("row", DEPTHS)
def test_three_depths_of_one_tooth(row: tuple[dict[str, Any], float, float, float, float]) -> None:
    """One tooth has a depth for each datum."""
    cutter, hook, offset, from_top, from_offset = row
    wheel = ratchet(land=None, tooth_depth=2.0, hook_angle=hook, root_radius=None)
    (cut,) = job({**wheel, "teeth": 24}, {**cutter, "tip_radius": 0}).plan.cuts
    assert cut.radial_depth == pytest.approx(2.0, abs=1e-9)
    assert cut.offset == pytest.approx(offset, abs=6e-4)
    assert cut.infeed_from_top == pytest.approx(from_top, abs=6e-4)
    assert cut.infeed_from_offset == pytest.approx(from_offset, abs=6e-4)


@pytest.mark.parametrize(
    ("diameter", "teeth", "hook", "offset", "within"),
    [(25.4, 16, 5, 0.043 * 25.4, 0.02), (25.4, 40, 9.0, 0.0785 * 25.4, 0.03)],
)  # two shop reports: hook by shifting a cutter with its face flank along the infeed; no source
def test_shop_offsets(
    diameter: float, teeth: int, hook: float, offset: float, within: float
) -> None:
    """With the flat on the face the offset is R sin(hook), whatever the depth."""
    wheel = ratchet(outside_diameter=diameter, teeth=teeth, hook_angle=hook, land=0.3)
    (cut,) = job(wheel, single(60)).plan.cuts
    assert cut.offset == pytest.approx(offset, abs=within)
    assert cut.offset == pytest.approx(diameter / 2 * math.sin(math.radians(hook)), abs=1e-12)


@pytest.mark.parametrize("hook", [-8.0, 0.0, 5.0])
@pytest.mark.parametrize("nose", [0.1, 0.2])
def test_closed_forms_of_the_nose(hook: float, nose: float) -> None:
    """Nose centre and deepest material agree with their closed forms (derived, no published
    source)."""
    wheel = ratchet(hook_angle=hook, root_radius=0.3)
    made = job(wheel, double(18, 42, tip_radius=nose))
    (cut,) = made.plan.cuts
    a1, a2, space = cut.wedge.face_side, cut.wedge.back_side, made.wheel.space
    radius, angle = abs(space.vertex), space.angle
    delta = math.asin(made.wheel.radius * math.sin(math.radians(hook)) / radius)
    theta = a1 + delta
    assert cut.apex == pytest.approx(radius * complex(math.sin(theta), math.cos(theta)), abs=1e-12)
    reach = nose / math.sin(angle / 2)
    centre = cut.apex + reach * complex(-math.sin((a2 - a1) / 2), math.cos((a2 - a1) / 2))
    assert cut.tip == pytest.approx(centre - 1j * nose, abs=1e-12)
    whole = radius**2 + reach**2 + 2 * radius * reach * math.cos(delta + angle / 2)
    assert cut.root_radius == pytest.approx(math.sqrt(whole) - nose, abs=1e-12)


def test_nose_of_a_narrow_cutter_stands_on_the_root_arc() -> None:
    """In two cuts the nose centre sits on the centre of the wanted root arc in both."""
    made = job(ratchet(hook_angle=5), vee(45))
    space = made.wheel.space
    bisector = cmath.exp(1j * (math.radians(5) + space.angle / 2))
    wanted = space.vertex + bisector * 0.2 / math.sin(space.angle / 2)
    for cut in made.plan.cuts:
        centre = cut.setup_from_base.inverse()(cut.tip + 0.2j)
        assert centre == pytest.approx(wanted, abs=1e-12)


@pytest.mark.parametrize(
    ("cutter", "wheel", "code"),
    [
        (vee(70), {}, "cutter-too-wide"),
        (vee(60, tip_radius=0.3), {}, "root-too-tight"),
        (vee(18), {}, "island-left"),
        (vee(60, tip_radius=0.1), {"root_exact": True}, "root-not-exact"),
        (vee(60, tip_radius=3.0), {"root_radius": None}, "root-too-tight"),
        (vee(60, edge_length=0.05), {}, "edge-short"),
    ],
)
def test_refusals_say_why(cutter: dict[str, Any], wheel: dict[str, Any], code: str) -> None:
    """A cutter that cannot form the space is a refused finding that names the key to change."""
    made = job(ratchet(**wheel), cutter)
    assert made.is_refused
    assert not made.plan.cuts
    refused = [finding for finding in made.findings if finding.severity == "refused"]
    assert [finding.code for finding in refused] == [code]
    assert refused[0].where.startswith("cutter[1].")
    assert "make cutter[1]." in told(refused[0])


def test_passing_nose_passes() -> None:
    """The nose that a refusal names forms the wheel."""
    made = job(ratchet(), vee(60, tip_radius=0.3))
    limit = made.findings[0].limit or made.findings[-1].limit
    assert limit is not None
    assert not job(ratchet(), vee(60, tip_radius=limit)).is_refused
