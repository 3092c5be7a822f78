"""Between pins in a ring: the closed form and the pin rolled in, against a circle pushed outwards.

No ring wheel can be asked for yet; the spaces here are built from points. No published table of
straight flanks between pins is known: every value is derived, and found by bisection as well.
"""

from __future__ import annotations

import cmath
import math

import numpy as np
import pytest
from shapely import Point, Polygon

from profilegen.findings.telling import told
from profilegen.forms.wheel import Flank, Toothing
from profilegen.gauging import pins
from profilegen.gauging.pin_sizes import DOWELS_MM, choose_pin
from profilegen.gauging.pins import BadPin
from profilegen.geometry.chain import Role, chain
from profilegen.geometry.measure import tessellate
from profilegen.geometry.moves import repeated
from profilegen.geometry.rolled_pin import roll_in

CREST, DEEP = 20.0, 21.5


def ring_space(teeth: int, hook: float = 5.0, angle: float = 50.0, root: float = 0.2) -> Toothing:
    """A space of straight flanks in a ring of inside diameter 40, its root vertex 1.5 mm deep.

    The face tip lies at (20, 0); the hook is positive when it overhangs the root.
    """
    out = cmath.exp(-1j * math.radians(hook))
    face_tip = complex(CREST)
    along = (face_tip * out.conjugate()).real
    vertex = face_tip + (math.sqrt(along**2 + DEEP**2 - CREST**2) - along) * out
    home = -out * cmath.exp(-1j * math.radians(angle))
    towards = (vertex * home.conjugate()).real
    back_tip = vertex - (towards + math.sqrt(towards**2 - DEEP**2 + CREST**2)) * home
    start = root / math.tan(math.radians(angle) / 2)
    next_tip = face_tip * cmath.exp(2j * math.pi / teeth)
    assert cmath.phase(back_tip) < math.tau / teeth
    pitch = chain(
        [face_tip, vertex - start * out, vertex + start * home, back_tip, next_tip],
        [0.0, math.tan((math.pi - math.radians(angle)) / 4), 0.0, 0.0],
        (Role.FACE, Role.ROOT, Role.BACK, Role.LAND),
    )
    face = Flank(face_tip, -out, abs(vertex - face_tip))
    back = Flank(back_tip, home, abs(vertex - back_tip))
    return Toothing(pitch, face, back, vertex, root, teeth=teeth, at_zero="face tip", inside=True)


def pushed_out(space: Toothing, teeth: int, diameter: float) -> complex:
    """The pin's seat by bisection: a circle pushed along the middle of the space, beside it by
    more or less, until it touches the ring as shapely sees it; the way that ends farthest out."""
    hollow = Polygon([(z.real, z.imag) for z in tessellate(repeated(space.pitch, teeth), 1e-7)])
    edge, face, back = hollow.exterior, space.face, space.back
    assert face is not None
    assert back is not None
    home = (face.outward + back.outward) / abs(face.outward + back.outward)

    def rest(beside: float) -> complex:
        low, high = 0.0, 3 * diameter
        for _ in range(50):
            middle = (low + high) / 2
            at = space.vertex + beside * 1j * home + middle * home
            spot = Point(at.real, at.imag)
            free = hollow.contains(spot) and edge.distance(spot) >= diameter / 2
            low, high = (low, middle) if free else (middle, high)
        return space.vertex + beside * 1j * home + high * home

    low, high = -diameter / 10, diameter / 10
    for _ in range(60):
        one, other = low + (high - low) / 3, high - (high - low) / 3
        low, high = (low, other) if abs(rest(one)) > abs(rest(other)) else (one, high)
    return rest((low + high) / 2)


@pytest.mark.exhaustive
@pytest.mark.parametrize("teeth", [24, 25])
@pytest.mark.parametrize("hook", [-6.0, 0.0, 5.0, 12.0])
def test_three_ways_to_the_same_seat(teeth: int, hook: float) -> None:
    """Bisection to 1e-5 mm and the exact roll to 1e-9 mm agree with the closed form."""
    space = ring_space(teeth, hook)
    assert space.angle < 0
    for diameter in (0.8, 1.0, 1.3):
        closed = pins.pin_centre(space, diameter)
        seat = roll_in(repeated(space.pitch, teeth), space.pitch, diameter, ring=True)
        assert seat is not None
        assert seat.is_on_flanks
        assert abs(seat.centre - closed) <= 1e-9
        assert abs(pushed_out(space, teeth, diameter) - closed) < 1e-5


def test_a_radial_face_by_hand() -> None:
    """Vertex 21.5 out on the x axis, radial face, 60 deg, pin 2: its centre is 1 mm beside the
    face and sqrt 3 short of the vertex, so Rc is sqrt((21.5 - sqrt 3)^2 + 1)."""
    centre = pins.pin_centre(ring_space(24, hook=0.0, angle=60.0), 2.0)
    reach = math.hypot(21.5 - math.sqrt(3), 1.0)
    assert abs(centre) == pytest.approx(reach, abs=1e-12)
    assert pins.between_pins(centre, 2.0, 24) == pytest.approx(2 * reach - 2, abs=1e-12)
    odd = 2 * reach * math.cos(math.radians(90 / 25)) - 2
    assert pins.between_pins(centre, 2.0, 25) == pytest.approx(odd, abs=1e-12)


@pytest.mark.parametrize("teeth", [6, 7, 24, 25])
def test_size_between_the_pins_farthest_apart(teeth: int) -> None:
    """Of all the pins' circles laid out, the gap of the pair farthest apart."""
    spots = 5.0 * np.exp(2j * np.pi * np.arange(teeth) / teeth)
    gap = max(abs(one - other) for one in spots for other in spots) - 0.8
    assert pins.between_pins(5.0 + 0j, 0.8, teeth) == pytest.approx(gap, abs=1e-12)


@pytest.mark.parametrize("teeth", [24, 25])
@pytest.mark.parametrize(
    ("diameter", "code"),
    [(0.3, "pin-falls-in"), (0.7, "pin-not-proud"), (4.0, "pin-on-tips"), (15.0, "pin-on-tips")],
)
def test_pins_that_do_not_serve(teeth: int, diameter: float, code: str) -> None:
    """Too small, too low, too big: each is told with the size that would just do."""
    with pytest.raises(BadPin) as told:
        pins.check_pin(ring_space(teeth), teeth, diameter)
    assert told.value.code == code
    assert told.value.limit is not None
    assert (told.value.limit < diameter) == (code == "pin-on-tips")


def test_the_sizes_that_just_do() -> None:
    """A pin a hair inside the limits that a refusal names is fit, one a hair outside is not."""
    space = ring_space(24)
    face, back = pins.flanks(space)
    most = pins.diameter_touching_at(space, min(face.length, back.length))
    least = pins.least_proud(space, repeated(space.pitch, 24), 24)
    for diameter in (most - 1e-4, least + 1e-6):
        assert pins.check_pin(space, 24, diameter).is_on_flanks
    with pytest.raises(BadPin, match="pin-on-tips"):
        pins.check_pin(space, 24, most + 1e-4)
    with pytest.raises(BadPin) as refusal:
        pins.check_pin(space, 24, least - 1e-6)
    assert "a gauge between the pins would rest" in told(refusal.value.finding)
    inside = CREST * math.cos(cmath.phase(space.pitch.points[-1] / space.pitch.points[-2]) / 2)
    assert abs(pins.pin_centre(space, least)) - least / 2 == pytest.approx(inside, abs=1e-6)


def test_a_chosen_pin() -> None:
    """A standard pin that rests on both flanks and reaches past the crests."""
    for teeth in (24, 25):
        space = ring_space(teeth)
        pin = choose_pin((space,), teeth, "mm")
        assert pin in DOWELS_MM
        outline = repeated(space.pitch, teeth)
        assert pins.reaches_in(outline, pins.pin_centre(space, pin), pin, teeth) > 0.02 * pin
