"""Bores against published sizes and against the formulas of the drawing office.

Each row says where its value comes from and how sure that is: seen in a copy of the publication,
from memory of it, or derived here (no published source). Tolerance: half a unit of the last digit.
"""

from __future__ import annotations

import cmath
import math

import numpy as np
import pytest

from profilegen.forms import bore as bores
from profilegen.forms.bore import ImpossibleBore
from profilegen.geometry.chain import Contour, reverse
from profilegen.geometry.measure import area, farthest, nearest
from profilegen.geometry.validity import why_invalid
from tests.parts import Keys, job, ratchet

# Across flats, across corners of the square and of the hexagon, mm. SQR-09 to SQR-14: plane
# geometry, from memory; the digits recomputed.
ACROSS_CORNERS = [
    (4, 5.6569, 4.6188),
    (6, 8.4853, 6.9282),
    (8, 11.3137, 9.2376),
    (12.5, 17.6777, 14.4338),
]

# Nominal size; greatest across flats and corners of a male square, inches. SQR-18 to SQR-23: ASA
# B5.38-1958, table seen in a copy.
DRIVE_SQUARES = [
    ("1/4", 0.252, 0.330),
    ("3/8", 0.377, 0.500),
    ("5/8", 0.627, 0.834),
    ("1", 1.002, 1.340),
]

# Shaft, key width, hub depth t2; d + t2 over the keyway and its sagitta at the key's width, mm.
# SPL-21, SPL-23: sizes of DIN 6885-1, derived here, no published source for the sums.
KEYWAYS = [(12, 4, 1.8, 13.80, 0.3431), (25, 8, 3.3, 28.30, 0.6573)]

# Shaft, key width and hub depth t2, mm. SPL-11 to SPL-14: DIN 6885-1, seen in a copy; SPL-16 (25)
# from memory of it; SPL-18 and SPL-19: DIN 6885-1 in a maker's catalogue, seen in a copy.
KEYS = [(8, 2, 1.0), (12, 4, 1.8), (17, 5, 2.3), (25, 8, 3.3), (44, 12, 3.3), (50, 14, 3.8)]

# Shaft, key, T over keyseat and bore, inches. SPL-27 to SPL-37: ANSI B17.1 depth-control table of a
# handbook's pocket companion, seen in a copy; T = D - Y + H/2 + 0.005.
B17 = [
    (0.5, 0.125, 0.560),
    (0.625, 0.1875, 0.709),
    (0.75, 0.1875, 0.837),
    (0.8125, 0.1875, 0.900),
    (0.9375, 0.25, 1.051),
    (1.125, 0.25, 1.241),
    (1.25, 0.25, 1.367),
]


def over(shape: Contour, angle: float) -> float:
    """Size of a shape along a direction (rad), mm, by turning its vertices and arcs' far points."""
    points = shape.points * cmath.exp(-1j * angle)
    return float(np.max(points.real) - np.min(points.real))


@pytest.mark.parametrize(("flats", "square", "hexagon"), ACROSS_CORNERS)
def test_across_corners(flats: float, square: float, hexagon: float) -> None:
    """Sharp squares and hexagons are as wide over the corners as tables say."""
    for sides, wanted in ((4, square), (6, hexagon)):
        reach = farthest(bores.polygon_bore(sides, flats, 0.0, 0.3), 0j)[0]
        assert 2 * reach == pytest.approx(wanted, abs=5e-5)


def test_across_rounded_corners() -> None:
    """A corner radius takes 2 r (sqrt 2 - 1) off the corners of a square.

    SQR-16: square of 6 with 0.15: 8.3610. Derived here, no published source.
    """
    reach = farthest(bores.polygon_bore(4, 6.0, 0.15, 0.0), 0j)[0]
    assert 2 * reach == pytest.approx(8.3610, abs=5e-5)
    assert 2 * reach == pytest.approx(6 * math.sqrt(2) - 2 * 0.15 * (math.sqrt(2) - 1), abs=1e-12)


@pytest.mark.parametrize(("name", "flats", "corners"), DRIVE_SQUARES)
def test_published_square_drives(name: str, flats: float, corners: float) -> None:
    """The corner radius that follows from a published square gives its corners back."""
    radius = (flats * math.sqrt(2) - corners) / (2 * (math.sqrt(2) - 1))
    made = job(
        ratchet(teeth=24, outside_diameter=100, land=1.0),
        bore={
            "kind": "square",
            "across_flats": f"{flats} in",
            "corner_radius": f"{radius} in",
        },
    )
    assert made.as_dict()["bore"]["across_corners"] / 25.4 == pytest.approx(corners, abs=5e-7), name
    assert made.wheel.bore is not None
    assert 2 * nearest(made.wheel.bore, 0j)[0] / 25.4 == pytest.approx(flats, abs=1e-9)


@pytest.mark.parametrize("sides", [4, 6])
@pytest.mark.parametrize("radius", [0.0, 0.4])
@pytest.mark.parametrize("angle_deg", [0.0, 10.0, -37.0])
def test_angle_points_to_the_middle_of_a_flat(sides: int, radius: float, angle_deg: float) -> None:
    """Across flats is measured along the angle; the flat nearest to it is square to it."""
    angle = math.radians(angle_deg)
    shape = bores.polygon_bore(sides, 8.0, radius, angle)
    assert over(shape, angle) == pytest.approx(8.0, abs=1e-12)
    middle = 4.0 * cmath.exp(1j * angle)
    assert nearest(shape, middle)[0] == pytest.approx(0.0, abs=1e-12)
    assert nearest(shape, 0j)[0] == pytest.approx(4.0, abs=1e-12)


@pytest.mark.parametrize(("shaft", "width", "depth", "over_key", "sagitta"), KEYWAYS)
def test_keyway_drawing_sizes(
    shaft: float, width: float, depth: float, over_key: float, sagitta: float
) -> None:
    """Over bore and keyway lies d + t2; the mouth lies a sagitta inside the bore's edge."""
    shape = bores.keyed_bore(shaft, width, depth, 0.0)
    assert over(shape, 0.0) == pytest.approx(over_key, abs=5e-3)
    assert over(shape, 0.0) == pytest.approx(shaft + depth, abs=1e-12)
    mouth = [
        point for point in shape.points if abs(abs(point) - shaft / 2) < 1e-9 and point.real > 0
    ]
    assert len(mouth) == 2
    assert shaft / 2 - mouth[0].real == pytest.approx(sagitta, abs=5e-5)
    assert abs(mouth[0] - mouth[1]) == pytest.approx(width, abs=1e-12)


@pytest.mark.parametrize(("shaft", "width", "depth"), KEYS)
@pytest.mark.parametrize("angle_deg", [0.0, 30.0, -90.0])
def test_keyways_of_the_standard(
    shaft: float, width: float, depth: float, angle_deg: float
) -> None:
    """Every standard keyway is a sound outline, its floor t2 beyond the bore, at its angle."""
    angle = math.radians(angle_deg)
    shape = bores.keyed_bore(shaft, width, depth, angle)
    assert why_invalid(reverse(shape)) is None
    floor = (shaft / 2 + depth) * cmath.exp(1j * angle)
    assert nearest(shape, floor)[0] == pytest.approx(0.0, abs=1e-12)
    assert nearest(shape, -shaft / 2 * cmath.exp(1j * angle))[0] == pytest.approx(0.0, abs=1e-12)


@pytest.mark.parametrize(("shaft", "key", "over_key"), B17)
def test_inch_keyseats(shaft: float, key: float, over_key: float) -> None:
    """A keyway with the published T has its floor T from the far side of the bore (all inches)."""
    chord = shaft / 2 - math.sqrt(shaft**2 / 4 - key**2 / 4)
    depth = shaft - chord + key / 2 + 0.005 - shaft
    shape = bores.keyed_bore(shaft, key, depth, 0.0)
    assert over(shape, 0.0) == pytest.approx(over_key, abs=5.1e-4)


@pytest.mark.parametrize(("diameter", "size"), [(6.0, 5.5), (6.0, 4.5), (8.0, 4.0001), (10.0, 9.9)])
def test_d_bore(diameter: float, size: float) -> None:
    """Flat to far side is measured along the angle, and the area is a disc less its segment.

    Circle segment: r^2 (t - sin t) / 2, standard formula.
    """
    angle = math.radians(-20)
    shape = bores.d_bore(diameter, size, angle)
    radius, flat = diameter / 2, size - diameter / 2
    assert over(shape, angle) == pytest.approx(size, abs=1e-12)
    turn = 2 * math.acos(flat / radius)
    segment = radius**2 * (turn - math.sin(turn)) / 2
    assert -area(shape) == pytest.approx(math.pi * radius**2 - segment, rel=1e-12)
    assert nearest(shape, flat * cmath.exp(1j * angle))[0] == pytest.approx(0.0, abs=1e-12)


BORES: list[Keys] = [
    {"kind": "round", "diameter": 7},
    {"kind": "square", "across_flats": 6, "corner_radius": 0},
    {"kind": "hexagon", "across_flats": 6, "corner_radius": 0.3},
    {"kind": "keyed", "diameter": 8, "key_width": 2, "key_depth": 1},
    {"kind": "d-bore", "diameter": 6, "flat_to_far_side": 5},
]


@pytest.mark.parametrize("bore", BORES, ids=lambda bore: str(bore["kind"]))
@pytest.mark.parametrize("rotation", ["clockwise", "counter-clockwise"])
def test_bore_runs_clockwise_whatever_the_hand(bore: Keys, rotation: str) -> None:
    """A bore is clockwise, of one role, and the same for both hands: it is seen from the front."""
    turned = bore if bore["kind"] == "round" else {**bore, "angle": 20}
    shape = job(ratchet(rotation=rotation), bore=turned).wheel.bore
    assert shape is not None
    assert area(shape) < 0
    assert len(set(shape.roles.tolist())) == 1
    assert shape == job(ratchet(), bore=turned).wheel.bore


@pytest.mark.parametrize("bore", BORES, ids=lambda bore: str(bore["kind"]))
def test_web_is_the_least_wall_to_the_roots(bore: Keys) -> None:
    """The web told is root radius less the bore's farthest point."""
    made = job(ratchet(), bore=bore)
    assert made.wheel.bore is not None
    wall = made.wheel.root_radius - farthest(made.wheel.bore, 0j)[0]
    assert made.as_dict()["bore"]["web"] == pytest.approx(wall, abs=1e-12)


@pytest.mark.parametrize("count", [1, 3, 8])
def test_hole_circle(count: int) -> None:
    """Holes stand evenly on their circle, the first at the angle given, all clockwise."""
    rings = bores.hole_circle(count, 20.0, 3.0, math.radians(15))
    assert len(rings) == count
    for number, ring in enumerate(rings):
        centre = complex(np.mean(ring.points))
        wanted = 10 * cmath.exp(1j * (math.radians(15) + math.tau * number / count))
        assert centre == pytest.approx(wanted, abs=1e-12)
        assert area(ring) == pytest.approx(-math.pi * 1.5**2, rel=1e-12)


@pytest.mark.parametrize(
    ("key", "limit", "build"),
    [
        ("corner_radius", 4.0, lambda: bores.polygon_bore(4, 8, 4.0, 0)),
        ("corner_radius", 3.0, lambda: bores.polygon_bore(6, 6, 3.5, 0)),
        ("key_width", 8.0, lambda: bores.keyed_bore(8, 8, 1, 0)),
        ("flat_to_far_side", 8.0, lambda: bores.d_bore(8, 8, 0)),
        ("flat_to_far_side", 8.0, lambda: bores.d_bore(8, 3.9, 0)),
    ],
)
def test_impossible_bores(key: str, limit: float, build: object) -> None:
    """Sizes that contradict each other are refused with the key to change and its limit."""
    assert callable(build)
    with pytest.raises(ImpossibleBore) as refusal:
        build()
    assert (refusal.value.key, refusal.value.limit) == (key, limit)
