"""A pin rolled into involute spaces: rows PIN of handbooks' tables, over and between pins.

The solver knows lines and arcs only, and no involute: the flanks are drawn here as chains of small
arcs through points of the curve, straight from its definition. Sizes in inches at 1 DP, or in mm at
module 1. Where the rows stand: PIN-01 printed on an open page that reproduces a handbook's example;
PIN-57, 59, 60, 62 wires printed there, digits computed; PIN-03 to 47 and 56 remembered from
handbooks' tables; PIN-48 to 54 derived. All of them were computed a second time from
`inv phi = inv a + d / (N cos a) - pi / (2 N)` when they were gathered. PIN-63 names usual pins.
"""

from __future__ import annotations

import cmath
import math

import pytest

from profilegen.gauging.pins import between_pins
from profilegen.geometry.chain import Chain, Role, chain
from profilegen.geometry.moves import repeated
from profilegen.geometry.rolled_pin import Seat, roll_in
from profilegen.geometry.tooth_sizes import over_pins

PIECES = 12
"""Arcs a flank: with twice as many the size moves less than 6e-6."""


def involute(teeth: int, pressure: float, low: float, high: float) -> list[tuple[float, float]]:
    """Polar angle and radius along an involute of module 1, from radius to radius; two points an
    arc. The angle counts from where the involute crosses the pitch circle."""
    base = teeth / 2 * math.cos(pressure)
    first, last = (math.sqrt(max(0.0, (radius / base) ** 2 - 1)) for radius in (low, high))
    at_pitch = math.tan(pressure) - pressure
    rolls = [first + (last - first) * n / (2 * PIECES) for n in range(2 * PIECES + 1)]
    return [(t - math.atan(t) - at_pitch, base * math.sqrt(1 + t * t)) for t in rolls]


def arcs(points: list[complex]) -> tuple[list[complex], list[float]]:
    """Every second point, and the bulge of the arc through the one between."""
    ends, middles = points[::2], points[1::2]
    turns = [
        cmath.phase((end - middle) / (middle - start))
        for start, middle, end in zip(ends, middles, ends[1:], strict=False)
    ]
    return ends, [math.tan(turn / 2) for turn in turns]


def space(teeth: int, pressure_deg: float, ring: bool = False) -> Chain:
    """One pitch with a space as wide as the tooth at the pitch circle, counter-clockwise.

    The flanks are involutes round about it, where the pins touch, and radial lines beyond.
    """
    pressure, half = math.radians(pressure_deg), math.pi / (2 * teeth)
    base = teeth / 2 * math.cos(pressure)
    low, high = teeth / 2 - 0.2, teeth / 2 + (0.5 if ring else 0.2)
    near = involute(teeth, pressure, max(base, low), high)
    if ring:
        flank = [cmath.rect(radius, half - angle) for angle, radius in near]
        bottom = flank[-1] * (1 + 1 / abs(flank[-1]))
    else:
        flank = [cmath.rect(radius, half + angle) for angle, radius in reversed(near)]
        bottom = 0.4 * flank[-1]
    turn = cmath.exp(1j * math.pi / teeth)
    back, bulges = arcs([at * turn for at in reversed(flank)])
    face, _ = arcs([at.conjugate() * turn for at in flank])
    last = face[0] * cmath.exp(2j * math.pi / teeth)
    root = [bottom.conjugate() * turn, bottom * turn]
    roles = (
        *((Role.FACE,) * PIECES),
        *((Role.ROOT,) * 3),
        *((Role.BACK,) * PIECES),
        Role.LAND,
    )
    straight = (0.0, 0.0, 0.0)
    return chain([*face, *root, *back, last], [*bulges[::-1], *straight, *bulges, 0.0], roles)


def seated(pitch: Chain, teeth: int, diameter: float, ring: bool = False) -> Seat:
    """The pin rolled in, on both flanks."""
    seat = roll_in(repeated(pitch, teeth), pitch, diameter, ring=ring)
    assert seat is not None
    assert seat.is_on_flanks
    return seat


@pytest.mark.parametrize(
    ("pressure", "teeth", "size"),
    [
        (20, 32, 34.4130),  # PIN-01
        (20, 8, 10.3271),  # PIN-03
        (20, 10, 12.3445),  # PIN-04
        (20, 14, 16.3683),  # PIN-06
        (20, 16, 18.3769),  # PIN-07
        (20, 20, 22.3900),  # PIN-09
        (20, 22, 24.3952),  # PIN-10
        (20, 26, 28.4036),  # PIN-12
        (20, 28, 30.4071),  # PIN-13
        (20, 7, 9.1260),  # PIN-15
        (20, 9, 11.1905),  # PIN-16
        (20, 13, 15.2639),  # PIN-18
        (20, 15, 17.2871),  # PIN-19
        (20, 19, 21.3200),  # PIN-21
        (20, 21, 23.3321),  # PIN-22
        (20, 25, 27.3511),  # PIN-24
        (14.5, 6, 8.2846),  # PIN-25
        (14.5, 10, 12.3399),  # PIN-27
        (14.5, 12, 14.3590),  # PIN-28
        (14.5, 16, 18.3877),  # PIN-30
        (14.5, 18, 20.3989),  # PIN-31
        (14.5, 24, 26.4247),  # PIN-33
        (14.5, 30, 32.4429),  # PIN-35
        (14.5, 7, 9.1116),  # PIN-36
        (14.5, 11, 13.2317),  # PIN-38
        (14.5, 13, 15.2677),  # PIN-39
        (14.5, 17, 19.3182),  # PIN-41
        (14.5, 19, 21.3368),  # PIN-42
        (14.5, 23, 25.3658),  # PIN-44
        (14.5, 25, 27.3774),  # PIN-45
    ],
)
def test_over_wires_of_1_728(pressure: float, teeth: int, size: float) -> None:
    """Over wires of 1.728 in at 1 DP, even and odd counts."""
    seat = seated(space(teeth, pressure), teeth, 1.728)
    assert over_pins(seat.centre, 1.728, teeth) == pytest.approx(size, abs=5.1e-5)


def test_the_printed_example() -> None:
    """PIN-01 at 4 DP: 8.6032 in over wires of 0.432 in."""
    seat = seated(space(32, 20), 32, 1.728)
    assert round(over_pins(seat.centre, 1.728, 32) / 4, 4) == 8.6032


@pytest.mark.parametrize(
    ("teeth", "size"),
    [
        (10, 12.2557),  # PIN-48
        (17, 19.2112),  # PIN-50
        (24, 26.3021),  # PIN-51
        (40, 42.3203),  # PIN-53
        (60, 62.3306),  # PIN-54
    ],
)
def test_over_pins_of_1_7_modules(teeth: int, size: float) -> None:
    """Over pins of 1.7 mm at module 1, 20 deg."""
    seat = seated(space(teeth, 20), teeth, 1.7)
    assert over_pins(seat.centre, 1.7, teeth) == pytest.approx(size, abs=5.1e-5)


def test_the_pin_that_touches_at_the_pitch_circle() -> None:
    """PIN-47: of 20 teeth a pin of 1.72445 touches at 10 mm, on both flanks."""
    seat = seated(space(20, 20), 20, 1.72445)
    assert [abs(touch.place) for touch in seat.touches] == pytest.approx([10, 10], abs=2e-5)


@pytest.mark.parametrize(
    ("pressure", "teeth", "diameter", "size"),
    [
        (20, 40, 1.7, 37.5951),  # PIN-56
        (20, 20, 1.44, 18.6635),  # PIN-57
        (20, 31, 1.44, 29.6242),  # PIN-59
        (20, 32, 1.44, 30.6642),  # PIN-60
        (14.5, 32, 1.44, 30.8623),  # PIN-62
    ],
)
def test_between_pins_of_a_ring(pressure: float, teeth: int, diameter: float, size: float) -> None:
    """In a ring the pins are pushed outwards, and the size is taken between them."""
    seat = seated(space(teeth, pressure, ring=True), teeth, diameter, ring=True)
    assert between_pins(seat.centre, diameter, teeth) == pytest.approx(size, abs=5.1e-5)
