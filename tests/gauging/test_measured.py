"""What is measured on the blank at hand, and behind a cutter that does not match.

Every size is worked out here from circles and lines; no published source.
"""

from __future__ import annotations

import cmath
import math

import pytest

from profilegen.gauging.gauges import Gauges
from profilegen.job import Job
from profilegen.part.limits import Limits
from tests.parts import Keys, job, ratchet, vee

INCH = 25.4
TEETH, LAND, NOSE, PIN = 24, 0.020 * INCH, 0.012 * INCH, 3 / 32 * INCH
WHEEL = ratchet(teeth=TEETH, outside_diameter=1.5, land=0.020, thickness=0.2, root_radius=0.012)


def on(diameter: float | None, wheel: Keys = WHEEL, **tables: Keys) -> Job:
    """The wheel of 1.5 in on a blank of another diameter (inch)."""
    blank = {"blank": {"diameter": diameter}} if diameter else {}
    return job(wheel, vee(60, tip_radius=0.012), units="in", **{**blank, **tables})


def limits(found: Gauges, key: str) -> Limits:
    """The limits of one feature that must be there."""
    feature = found.feature(key)
    assert feature is not None
    return feature.limits


def bisected(radius: float, land: float, size: float) -> float:
    """From the axis to the middle of a circle (diameter, mm) between a radial face and its back.

    The face lies along the x axis from the rim; the back leans 60 deg to it, through the end of the
    next land.
    """
    tip = cmath.rect(radius, math.tau / TEETH - 2 * math.asin(land / (2 * radius)))
    vertex = tip.real - tip.imag / math.tan(math.radians(60))
    return abs(vertex + size / 2 / math.sin(math.radians(30)) * cmath.exp(1j * math.radians(30)))


@pytest.mark.parametrize("diameter", [1.497, 1.503])
def test_sizes_are_those_of_the_measured_blank(diameter: float) -> None:
    """Pins, root, crests and levelled face are of the blank at hand, with the print's limits."""
    found, radius = on(diameter).gauges, diameter * INCH / 2
    assert found.blank == pytest.approx(diameter * INCH)
    assert found.pin == pytest.approx(PIN)
    lands = (LAND, LAND - 0.05, LAND + 0.10)
    pins = [2 * bisected(radius, land, PIN) + PIN for land in lands]
    roots = [2 * bisected(radius, land, 2 * NOSE) - 2 * NOSE for land in lands]
    crests = [
        2 * radius * math.sin(4 * math.pi / TEETH + math.asin(land / (2 * radius)))
        for land in lands
    ]
    face = radius * math.sin(math.radians(1))
    for key, sizes in (
        ("over_pins", pins),
        ("root_diameter", roots),
        ("span", crests),
        ("levelled_face", [0.0, -face, face]),
        ("land", list(lands)),
    ):
        told = limits(found, key)
        assert (told.nominal, told.low, told.high) == pytest.approx(tuple(sizes), abs=1e-6), key
    assert abs(pins[0] - limits(on(None).gauges, "over_pins").nominal) > 0.05


def test_the_outside_diameter_stays_the_prints() -> None:
    """It is what the blank is judged by: nominal and h11 (-0.160 mm over 30 to 50, ISO 286-2)."""
    told = limits(on(1.497).gauges, "outside_diameter")
    assert (told.nominal, told.low, told.high) == pytest.approx((38.1, 37.94, 38.1), abs=1e-9)


def test_a_smaller_blank_is_spoken_of_until_one_is_measured() -> None:
    """What another blank does to the pins is for parts without a measured one."""
    assert on(None).gauges.size_per_blank is not None
    assert on(None).gauges.blank is None
    for diameter in (1.497, 1.5):
        assert on(diameter).gauges.size_per_blank is None
        assert on(diameter).gauges.root_per_blank is None
        assert on(diameter).gauges.blank == pytest.approx(diameter * INCH)


def test_a_refused_blank_leaves_the_prints_sizes() -> None:
    """From so small a blank no such wheel is cut: nothing is told for it."""
    made = on(0.2)
    assert made.is_refused
    assert made.gauges.blank is None
    plain = limits(on(None).gauges, "over_pins")
    assert limits(made.gauges, "over_pins") == plain


@pytest.mark.parametrize(
    ("given", "own"), [("root_diameter", 1.2748), ("tooth_depth", (1.5 - 1.2748) / 2)]
)
def test_a_root_that_the_print_gives(given: str, own: float) -> None:
    """A diameter keeps its limits (0.3 mm, ISO 2768-m over 30 to 120); a depth goes with the rim;
    the land follows from either."""
    wheel = {key: value for key, value in WHEEL.items() if key != "land"} | {given: own}
    found = on(1.497, wheel).gauges
    root = (1.2748 - (0.003 if given == "tooth_depth" else 0.0)) * INCH
    told, land = limits(found, "root_diameter"), limits(found, "land")
    assert (told.nominal, told.low, told.high) == pytest.approx((root, root - 0.3, root + 0.3))
    again = 2 * bisected(1.497 * INCH / 2, land.nominal, 2 * NOSE) - 2 * NOSE
    assert again == pytest.approx(root, abs=1e-6)
    assert (land.low, land.high) == pytest.approx((land.nominal - 0.05, land.nominal + 0.10))


def test_holding_the_root_moves_no_limit_of_a_given_land() -> None:
    """The land comes out wider than the print allows, and the pins tell it: they read too big."""
    found = on(None, blank={"diameter": 1.487, "hold": "root"}).gauges
    land, pins = limits(found, "land"), limits(found, "over_pins")
    assert (land.low, land.high) == pytest.approx((LAND - 0.05, LAND + 0.10))
    assert land.nominal > land.high
    widest = 2 * bisected(1.487 * INCH / 2, LAND + 0.10, PIN) + PIN
    assert pins.high == pytest.approx(widest, abs=1e-6)
    assert pins.nominal > widest
    assert not pins.has_nominal


def test_a_cutter_that_does_not_match() -> None:
    """75 deg in a space of 60: the back lies on its back, the face leans 15 deg more through its
    tip; no infeed is told by pins, and the root is told without this cutter's tip."""
    cutter, setup = vee(75, tip_radius=0.1), {"accept": 0.5}
    found = job(ratchet(hook_angle=5), cutter, setup=setup).gauges
    assert found.leaves is not None
    assert found.leaves.land == pytest.approx(0.4, abs=1e-4)
    assert math.degrees(found.leaves.hook) == pytest.approx(5 - 15, abs=0.01)
    tip = cmath.rect(12.7, math.tau / 30 - 2 * math.asin(0.4 / 25.4))
    face, back = (cmath.exp(1j * math.radians(angle)) for angle in (-10, 65))
    along = ((tip - 12.7).conjugate() * back).imag / (face.conjugate() * back).imag
    middle = cmath.exp(1j * math.radians(27.5)) * 0.1 / math.sin(math.radians(37.5))
    nose = 12.7 + along * face + middle
    assert found.leaves.root_radius == pytest.approx(abs(nose) - 0.1, abs=1e-3)
    assert found.infeed_per_size is None
    plain = limits(job(ratchet(hook_angle=5)).gauges, "root_diameter")
    assert limits(found, "root_diameter") == plain


def test_a_cutter_that_matches_is_not_spoken_of() -> None:
    """Flank on flank, and the matching pose held: nothing is left."""
    matched = job(ratchet(), vee(60))
    (cut,) = matched.plan.cuts
    held = job(ratchet(), vee(60), setup={"offset": cut.offset})
    assert held.plan.cuts[0].forms == "space"
    for made in (matched, held, job(ratchet())):
        assert made.gauges.leaves is None
    assert held.gauges.infeed_per_size == pytest.approx(matched.gauges.infeed_per_size)
