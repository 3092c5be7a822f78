"""Over pins: the closed forms against a circle lowered by bisection and a pin rolled in exactly.

No published table of ratchets over pins is known; the worked example (r 10.7, A 60, d 1.5: 25.545)
is derived. Every value here is found a second time by a construction that knows only the outline.
"""

from __future__ import annotations

import cmath
import math
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import Point, Polygon

from profilegen.cutting.poses import Cut
from profilegen.findings.finding import Refusal
from profilegen.forms.solve import varied
from profilegen.forms.wheel import Wheel
from profilegen.gauging import pins
from profilegen.gauging.pin_sizes import DOWELS_INCH, DOWELS_MM, choose_pin
from profilegen.gauging.pins import BadPin, Infeed
from profilegen.geometry.chain import Role, chain
from profilegen.geometry.measure import nearest, tessellate
from profilegen.geometry.moves import repeated
from profilegen.geometry.rolled_pin import roll_in
from profilegen.geometry.tooth_sizes import apart, over_pins
from tests.parts import job, ratchet, single, vee

EXAMPLE: dict[str, Any] = {
    "teeth": 24,
    "land": None,
    "root_diameter": 21.4,
    "root_radius": None,
    "hook_angle": 0,
}


def wheel(**changes: Any) -> Wheel:
    """A ratchet wheel."""
    return job(ratchet(**changes)).wheel


def lowered(of: Wheel, diameter: float) -> complex:
    """The pin's seat: the place nearest the axis that keeps its radius away from the outline.

    The pin comes down along the middle of the space, beside it by more or less; for each way down
    its height is bisected on the distance to the outline, taken by shapely. The ways down are
    searched for the one that ends nearest the axis.
    """
    base = repeated(of.space.pitch, of.teeth)
    edge = Polygon([(z.real, z.imag) for z in tessellate(base, 1e-7).tolist()])
    face, back = of.space.face, of.space.back
    assert face is not None
    assert back is not None
    up = (face.outward + back.outward) / abs(face.outward + back.outward)

    def rest(beside: float) -> complex:
        low, high = 0.0, 2 * diameter
        for _ in range(50):
            middle = (low + high) / 2
            centre = of.space.vertex + beside * 1j * up + middle * up
            clear = edge.distance(Point(centre.real, centre.imag)) >= diameter / 2
            inside = edge.contains(Point(centre.real, centre.imag))
            low, high = (low, middle) if clear and not inside else (middle, high)
        return of.space.vertex + beside * 1j * up + high * up

    low, high = -diameter / 10, diameter / 12
    for _ in range(60):
        one, other = low + (high - low) / 3, high - (high - low) / 3
        low, high = (low, other) if abs(rest(one)) < abs(rest(other)) else (one, high)
    return rest((low + high) / 2)


def test_the_worked_example() -> None:
    """r 10.7, A 60, radial face, sharp root, d 1.5, even count: Rc 12.02264 and M 25.545."""
    space = wheel(**EXAMPLE).space
    centre = pins.pin_centre(space, 1.5)
    assert abs(centre) == pytest.approx(12.02264, abs=2e-4)
    assert over_pins(centre, 1.5, 24) == pytest.approx(25.545, abs=5e-4)
    delta = math.asin(0 / 10.7)
    s = 0.75 / math.sin(math.radians(30))
    formula = math.sqrt(10.7**2 + s**2 + 2 * 10.7 * s * math.cos(delta + math.radians(30)))
    assert abs(centre) == pytest.approx(formula, abs=1e-12)


@pytest.mark.exhaustive
@pytest.mark.parametrize("teeth", [24, 31])
@pytest.mark.parametrize("hook", [-6, 0, 5, 12])
def test_a_lowered_circle_finds_the_same_seat(teeth: int, hook: float) -> None:
    """Bisection of a circle against the outline agrees with the closed form to 1e-5 mm."""
    of = wheel(teeth=teeth, hook_angle=hook)
    diameter = choose_pin((of.space,), teeth, "mm")
    assert diameter is not None
    closed = pins.pin_centre(of.space, diameter)
    assert abs(lowered(of, diameter) - closed) < 1e-5


@pytest.mark.parametrize("teeth", [3, 4, 7, 24, 25])
def test_size_over_two_pins_is_that_between_parallel_anvils(teeth: int) -> None:
    """Even or odd: the width of all the pins' circles along the line of two opposite centres."""
    spots = 5.0 * np.exp(2j * np.pi * np.arange(teeth) / teeth)
    widest = max(abs(one - other) for one in spots for other in spots) + 0.8
    assert over_pins(5.0 + 0j, 0.8, teeth) == pytest.approx(widest, abs=1e-12)


@settings(max_examples=60, deadline=None)
@given(
    teeth=st.integers(6, 80),
    hook=st.floats(-10, 15),
    angle=st.floats(35, 85),
    share=st.floats(0.2, 0.8),
    nose=st.floats(0, 0.3),
)
def test_rolling_in_checks_the_closed_form(
    teeth: int, hook: float, angle: float, share: float, nose: float
) -> None:
    """Wherever a pin rests on both flanks the two ways agree to 1e-9 mm."""
    try:
        of = wheel(
            teeth=teeth, hook_angle=hook, space_angle=angle, land=0.2, root_radius=nose or None
        )
    except ValueError:
        return
    space = of.space
    assert space.face is not None
    low = pins.root_length(space)
    diameter = pins.diameter_touching_at(space, low + share * (space.face.length - low))
    outline = repeated(space.pitch, teeth)
    seat = roll_in(outline, space.pitch, diameter)
    assert seat is not None
    if seat.is_on_flanks:
        assert abs(seat.centre - pins.pin_centre(space, diameter)) <= 1e-9
    else:
        assert space.root_flat or seat.is_on_tips


def test_a_pin_in_a_round_bottomed_space() -> None:
    """The rolling solver on curved flanks: a pin in a valley of two arcs, by plain trigonometry."""
    left, right = cmath.rect(10, -0.2), cmath.rect(10, 0.2)
    bulge = math.tan(math.radians(40) / 4)
    middle = 8.0 + 0j
    land = cmath.rect(10, math.tau / 8 - 0.2)
    pitch = chain(
        [left, middle, right, land],
        [bulge, bulge, 0.0],
        (Role.FACE, Role.BACK, Role.LAND),
    )
    seat = roll_in(repeated(pitch, 8), pitch, 1.0)
    assert seat is not None
    assert seat.centre.imag == pytest.approx(0.0, abs=1e-12)
    radius = abs(middle - left) / 2 / math.sin(math.radians(20))
    across = (middle - left) / abs(middle - left)
    centre = (left + middle) / 2 + 1j * across * radius * math.cos(math.radians(20))
    over = math.sqrt((radius + 0.5) ** 2 - centre.imag**2)
    assert seat.centre.real == pytest.approx(centre.real + over, abs=1e-9)


def test_a_flat_root_holds_a_small_pin() -> None:
    """A pin that lies on a root flat is told to have fallen in, at whatever size it first does."""
    space = wheel(root_radius=None, root_flat=0.6, hook_angle=0).space
    with pytest.raises(BadPin, match="pin-falls-in") as told:
        pins.check_pin(space, 30, 0.7)
    assert told.value.code in ("pin-falls-in", "pin-not-proud")


@pytest.mark.parametrize(
    ("diameter", "code"),
    [(0.1, "pin-falls-in"), (0.9, "pin-not-proud"), (2.5, "pin-on-tips"), (9.0, "pin-on-tips")],
)
def test_pins_that_do_not_serve(diameter: float, code: str) -> None:
    """Too small, too low, too big: each is told with the size that would just do."""
    space = wheel(**{**EXAMPLE, "root_radius": 0.2}).space
    with pytest.raises(BadPin) as told:
        pins.check_pin(space, 24, diameter)
    assert told.value.code == code
    assert told.value.limit is not None
    assert (told.value.limit < diameter) == (code == "pin-on-tips")


def test_the_sizes_that_just_do() -> None:
    """A pin a hair inside the limits that a refusal names is fit."""
    space = wheel(**EXAMPLE).space
    face = space.face
    assert face is not None
    most = pins.diameter_touching_at(space, face.length)
    least = pins.least_proud(space, repeated(space.pitch, 24), 24)
    for diameter in (most - 1e-4, least + 1e-6):
        assert pins.check_pin(space, 24, diameter).is_on_flanks
    with pytest.raises(BadPin, match="pin-on-tips"):
        pins.check_pin(space, 24, most + 1e-4)
    with pytest.raises(BadPin, match="pin-not-proud"):
        pins.check_pin(space, 24, least - 1e-6)


def clearances(of: Wheel, diameter: float) -> list[float]:
    """Between each of two flat anvils and the crests, by laying both pins into the whole wheel.

    The wheel is turned until the line of the two centres lies level; each anvil then stands upright
    at its pin's outermost point, and the crests are points of the outline, finely divided.
    """
    first = lowered(of, diameter)
    other = first * cmath.exp(1j * math.tau * (of.teeth // 2) / of.teeth)
    level = (first - other) / abs(first - other)
    wheel = (tessellate(repeated(of.space.pitch, of.teeth), 1e-7) / level).real
    right, left = (first / level).real, (other / level).real
    return [float(right + diameter / 2 - wheel.max()), float(wheel.min() - left + diameter / 2)]


@pytest.mark.exhaustive
@pytest.mark.parametrize(
    ("teeth", "hook", "pin", "ends"),
    [(37, -6, 2.342, (0.037, -0.021)), (37, 0, 2.112, (0.032, -0.043)), (36, -6, 2.3, (0, 0))],
)
def test_both_anvils_clear_the_crests(
    teeth: int, hook: float, pin: float, ends: tuple[float, float]
) -> None:
    """Over an odd count each anvil leans its own way: a pin proud at one end only is refused."""
    of = wheel(teeth=teeth, hook_angle=hook, outside_diameter=60, land=0.6)
    found = sorted(clearances(of, pin))
    if teeth % 2:
        assert found == pytest.approx(sorted(ends), abs=1e-3)
        with pytest.raises(BadPin, match="pin-not-proud"):
            pins.check_pin(of.space, teeth, pin)
    else:
        assert found[0] == pytest.approx(found[1], abs=1e-6)
    outline = repeated(of.space.pitch, teeth)
    proud = pins.stands_proud(outline, pins.pin_centre(of.space, pin), pin, teeth)
    assert proud == pytest.approx(found[0], abs=1e-5)
    least = pins.least_proud(of.space, outline, teeth)
    assert min(clearances(of, least)) == pytest.approx(0, abs=1e-5)


def deeper(of: Wheel, cut: Cut, infeed: float, face: bool, back: bool, pin: float) -> float:
    """Size over pins after further infeed, by moving the flanks' lines in the set-up pose."""
    space = of.space
    assert space.face is not None
    assert space.back is not None
    shift = -1j * infeed * cmath.exp(-1j * cut.turn)
    lines = []
    for flank, side, moves in ((space.face, 1j, face), (space.back, -1j, back)):
        at = flank.tip + (shift if moves else 0) + side * flank.outward * pin / 2
        lines.append((at, flank.outward))
    (one, along), (other, way) = lines
    reach = ((other - one) / way).imag / (along / way).imag
    return over_pins(one + reach * along, pin, of.teeth)


@pytest.mark.parametrize("teeth", [30, 31])
def test_change_with_infeed(teeth: int) -> None:
    """`2 y / Rc` and its kin against the flanks really moved: one lap, two laps, odd and even."""
    for keys, tool, least in (
        (ratchet(teeth=teeth), vee(60), 1.7),
        (ratchet(teeth=teeth), single(60), 1.98),
        (ratchet(teeth=teeth, hook_angle=8, space_angle=50, land=0.2), single(50), 1.9),
        (ratchet(teeth=teeth), vee(45), 0.5),
    ):
        made = job(keys, tool)
        cut = made.plan.cuts[-1]
        face, back = cut.forms != "back", cut.forms != "face"
        change = pins.change_with_infeed(made.wheel.space, teeth, 1.2, Infeed(cut.turn, face, back))
        step = 1e-5
        sizes = [deeper(made.wheel, cut, way * step, face, back, 1.2) for way in (-1, 1)]
        assert change == pytest.approx((sizes[0] - sizes[1]) / (2 * step), abs=1e-6)
        assert change > least
        if cut.forms == "both":
            centre = pins.pin_centre(made.wheel.space, 1.2)
            height = (centre * cmath.exp(1j * cut.turn)).imag
            formula = 2 * height / abs(centre) * apart(teeth)
            assert change == pytest.approx(formula, abs=1e-12)


def test_change_of_the_usual_cutters() -> None:
    """About 1.78 for a 30/30 vee and near 2 for a cutter that lies flat on the face (derived)."""
    for tool, wanted in ((vee(60), 1.78), (single(60), 2.0)):
        made = job(ratchet(), tool)
        infeed = Infeed(made.plan.cuts[0].turn)
        change = pins.change_with_infeed(made.wheel.space, 30, 1.2, infeed)
        assert change == pytest.approx(wanted, abs=0.015)


@pytest.mark.parametrize("unit", ["mm", "in"])
def test_a_chosen_pin_is_standard_and_touches_mid_flank(unit: Any) -> None:
    """It stands in the list, touches near the middle of the shorter flank, and is proud."""
    listed = DOWELS_MM if unit == "mm" else tuple(size * 25.4 for size in DOWELS_INCH)
    for changes in ({}, {"hook_angle": 10}, {"teeth": 12, "land": 1.0}, {"teeth": 47}):
        of = wheel(**changes)
        pin = choose_pin((of.space,), of.teeth, unit)
        assert pin is not None
        assert of.space.face is not None
        low, high = pins.root_length(of.space), of.space.face.length
        assert 0.05 < (pins.contact_length(of.space, pin) - low) / (high - low) < 0.95
        outline = repeated(of.space.pitch, of.teeth)
        assert pins.stands_proud(outline, pins.pin_centre(of.space, pin), pin, of.teeth) > 0
        if changes == {}:
            assert min(abs(pin - size) for size in listed) < 1e-6


@pytest.mark.parametrize("hook", [-5, 0, 8])
@pytest.mark.parametrize("root", [{"root_radius": 0.2}, {"root_radius": None, "root_flat": 0.2}])
def test_another_land_moves_the_back_alone(hook: float, root: dict[str, Any]) -> None:
    """Solved again with another land the face stays, and the root vertex is where the face line
    crosses the back line through its new tip; the root gives the land back."""
    drawn = wheel(hook_angle=hook, **root)
    face, back = pins.flanks(drawn.space)
    for land in (0.35, 0.5):
        moved = varied(drawn, land=land)
        tip = cmath.rect(drawn.radius, math.tau / 30 - 2 * math.asin(land / (2 * drawn.radius)))
        spread = (face.outward.conjugate() * back.outward).imag
        along = ((tip - face.tip).conjugate() * back.outward).imag / spread
        assert abs(moved.space.vertex - (face.tip + along * face.outward)) < 1e-9
        assert moved.fact("land") == pytest.approx(land, abs=1e-9)
        assert nearest(moved.space.pitch, 0j)[0] == pytest.approx(moved.root_radius, abs=1e-9)
        again = varied(drawn, root_diameter=2 * moved.root_radius)
        assert again.fact("land") == pytest.approx(land, abs=1e-9)


def test_lands_without_a_space() -> None:
    """A land that fills the pitch, or leaves no room for the root, has no space."""
    for sizes in ({"land": 2.7}, {"land": 2.5}, {"root_diameter": 18.0}):
        with pytest.raises(Refusal):
            varied(wheel(), **sizes)
