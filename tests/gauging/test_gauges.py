"""The whole list: limits as the part file gives them, defaults, and what follows from others."""

from __future__ import annotations

import cmath
import math
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from profilegen.errors import InputError
from profilegen.findings.telling import told
from profilegen.gauging.gauges import Gauges
from profilegen.gauging.pins import pin_centre
from profilegen.geometry.tooth_sizes import over_pins
from profilegen.part.limits import Limits
from tests.parts import Keys, job, ratchet, single, vee

SQUARE = {"kind": "square", "across_flats": 6, "corner_radius": 0.15}
KEYED = {"kind": "keyed", "diameter": 12, "key_width": 4, "key_depth": 1.8}


def gauges(wheel: Keys | None = None, *cutters: Keys, **tables: Any) -> Gauges:
    """What is measured of a part."""
    return job(wheel, *(cutters or (vee(60),)), **tables).gauges


def limits(found: Gauges, key: str) -> Limits:
    """The limits of one feature that must be there."""
    feature = found.feature(key)
    assert feature is not None
    return feature.limits


def pair(found: Gauges, key: str) -> tuple[float, float]:
    """Low and high, rounded to a nanometre."""
    each = limits(found, key)
    return round(each.low, 6), round(each.high, 6)


def test_defaults() -> None:
    """Land +0.10 -0.05, hook 1 deg, outside h11, square H11, the rest ISO 2768-m, and said so."""
    found = gauges(ratchet(hook_angle=5), bore=SQUARE)
    assert pair(found, "land") == (0.35, 0.5)
    assert pair(found, "outside_diameter") == (25.27, 25.4)
    assert pair(found, "across_flats") == (6.0, 6.075)
    assert pair(found, "thickness") == (2.9, 3.1)
    hook = limits(found, "hook_angle")
    assert (math.degrees(hook.low), math.degrees(hook.high)) == pytest.approx((4, 6))
    angle = limits(found, "space_angle")
    assert (math.degrees(angle.low), math.degrees(angle.high)) == pytest.approx((59, 61))
    assert all(feature.limits.is_default for feature in found.features)
    assert limits(found, "outside_diameter").source == "h11"
    assert pair(gauges(bore={"kind": "round", "diameter": 8}), "bore_diameter") == (8.0, 8.015)


def test_keyway_width_is_js9_unless_given() -> None:
    """DIN 6885-1: the normal fit of a key in a hub is JS9, 4 mm +-0.015 (rows SPL-24, SPL-49)."""
    assert pair(gauges(bore=KEYED), "key_width") == (3.985, 4.015)
    assert limits(gauges(bore=KEYED), "key_width").source == "JS9"
    general = gauges(bore=KEYED, tolerance={"key_width": "ISO 2768-m"})
    assert pair(general, "key_width") == (3.9, 4.1)


def test_an_angle_goes_by_its_shorter_leg() -> None:
    """ISO 2768-1 Table 3 (row SPL-61): a back of 40 mm beside a face of 54 mm gives 30'."""
    wheel = ratchet(
        teeth=3, outside_diameter=200, space_angle=60, land=None, root_diameter=120, hook_angle=-30
    )
    space = job(wheel, vee(60)).wheel.space
    assert space.face is not None
    assert space.back is not None
    assert space.back.length < 50 < space.face.length
    angle = limits(gauges(wheel), "space_angle")
    assert math.degrees(angle.high - angle.nominal) == pytest.approx(0.5)


def test_given_tolerances() -> None:
    """Plus and minus, two signed sizes, both ISO classes; bare numbers in the part's unit."""
    tolerance = {
        "land": "+0.02 -0",
        "outside_diameter": "h9",
        "thickness": 0.05,
        "hook_angle": "0.5 deg",
        "across_flats": "ISO 2768-f",
        "general": "ISO 2768-c",
    }
    found = gauges(ratchet(hook_angle=5), bore=SQUARE, tolerance=tolerance)
    assert pair(found, "land") == (0.4, 0.42)
    assert pair(found, "outside_diameter") == (25.348, 25.4)
    assert pair(found, "thickness") == (2.95, 3.05)
    assert pair(found, "across_flats") == (5.95, 6.05)
    assert math.degrees(limits(found, "hook_angle").high) == pytest.approx(5.5)
    assert math.degrees(limits(found, "space_angle").high) == pytest.approx(61.5)
    assert not limits(found, "land").is_default


def test_a_general_tolerance_that_is_named_is_no_default() -> None:
    """What the part file names is the part file's, also where it is what would be taken anyhow."""
    for keys, is_default in (
        ({}, True),
        ({"land": 0.05}, True),
        ({"general": "ISO 2768-m"}, False),
    ):
        found = gauges(ratchet(hook_angle=5), tolerance=keys)
        for key in ("thickness", "space_angle"):
            assert limits(found, key).source == "ISO 2768-m"
            assert limits(found, key).is_default == is_default
        assert limits(found, "outside_diameter").is_default


@pytest.mark.parametrize("changes", [{}, {"hook_angle": 8}, {"hook_angle": -5, "teeth": 31}])
def test_over_pins_is_carried_through_from_the_land(changes: Keys) -> None:
    """Its limits are those of wheels solved again with the least and the greatest land."""
    found = gauges(ratchet(**changes))
    assert found.pin is not None
    assert found.varied == "land"
    for land, size in zip((0.35, 0.5), pair(found, "over_pins"), strict=True):
        again = job(ratchet(**{**changes, "land": land})).wheel
        centre = pin_centre(again.space, found.pin)
        assert over_pins(centre, found.pin, again.teeth) == pytest.approx(size, abs=1e-6)
        assert min(
            abs(2 * again.root_radius - end) for end in pair(found, "root_diameter")
        ) == pytest.approx(0, abs=2e-6)


@pytest.mark.parametrize(
    ("flats", "low", "high"),
    [("F8", 10.013, 10.035), ("+0.05 +0.02", 10.02, 10.05), ("-0.02 -0.05", 9.95, 9.98)],
)
def test_across_corners_follows_the_limits_of_the_flats(
    flats: str, low: float, high: float
) -> None:
    """Also where the nominal lies outside them: 10.013 sqrt 2 = 14.1605 is the least with F8."""
    bore = {"kind": "square", "across_flats": 10}
    found = gauges(ratchet(outside_diameter=60), bore=bore, tolerance={"across_flats": flats})
    corners = limits(found, "across_corners")
    assert (corners.low, corners.high) == pytest.approx((low * math.sqrt(2), high * math.sqrt(2)))
    assert corners.nominal == pytest.approx(10 * math.sqrt(2))


def test_what_follows_from_a_land_that_is_never_nominal() -> None:
    """Over pins and root are those of the least and the greatest land, not of the nominal."""
    found = gauges(ratchet(), tolerance={"land": "+0.05 +0.02"})
    for key in ("over_pins", "root_diameter"):
        each = limits(found, key)
        assert each.nominal < each.low < each.high
    for land, end in ((0.42, 0), (0.45, 1)):
        again = gauges(ratchet(land=land), gauge={"pin": found.pin})
        nominal = limits(again, "over_pins").nominal
        assert pair(found, "over_pins")[end] == pytest.approx(nominal, abs=1e-6)


def test_over_pins_from_the_root() -> None:
    """Where only the root has a tolerance of its own it decides, and the land follows."""
    keys = ratchet(land=None, root_diameter=22.6)
    found = gauges(keys, tolerance={"root_diameter": "+0.1 -0"})
    assert found.varied == "root diameter"
    assert limits(found, "land").source == "follows from the root"
    assert found.pin is not None
    for root, size in zip((22.6, 22.7), pair(found, "over_pins"), strict=True):
        space = job(ratchet(land=None, root_diameter=root)).wheel.space
        again = over_pins(pin_centre(space, found.pin), found.pin, 30)
        assert again == pytest.approx(size, abs=1e-6)


def test_the_cutters_tip_is_in_the_root() -> None:
    """A sharper tip leaves a deeper root than the one drawn, and that is what is measured."""
    sharp = gauges(ratchet(), vee(60, tip_radius=0.05))
    drawn = gauges(ratchet(), vee(60))
    nominal = limits(sharp, "root_diameter").nominal
    assert nominal < limits(drawn, "root_diameter").nominal
    cut = job(ratchet(), vee(60, tip_radius=0.05)).plan.cuts[0]
    assert nominal == pytest.approx(2 * cut.root_radius, abs=1e-9)
    assert "cutter's tip" in limits(sharp, "root_diameter").source


def test_a_bigger_land_reads_bigger_over_pins() -> None:
    """The size over pins rises with the land, and so do root and span."""
    rows = [gauges(ratchet(land=land), gauge={"pin": 1.4}) for land in (0.2, 0.3, 0.4, 0.5)]
    for key in ("over_pins", "root_diameter", "span"):
        sizes = [limits(row, key).nominal for row in rows]
        assert sizes == sorted(sizes)


@pytest.mark.parametrize("changes", [{}, {"teeth": 31, "hook_angle": 8}, {"land": None}])
def test_over_pins_on_a_smaller_blank(changes: Keys) -> None:
    """What it reads less is that of a wheel solved for that blank, with its land or its root."""
    by_root = {"root_diameter": 22.6} if "land" in changes else {}
    found = gauges(ratchet(**changes, **by_root), tolerance=dict.fromkeys(by_root, 0.1))
    assert found.pin is not None
    assert found.size_per_blank is not None
    drawn, less = job(ratchet(**changes, **by_root)).wheel, 0.05
    small = job(ratchet(**changes, **by_root, outside_diameter=25.4 - less)).wheel
    sizes = [over_pins(pin_centre(w.space, found.pin), found.pin, w.teeth) for w in (drawn, small)]
    assert (sizes[0] - sizes[1]) / less == pytest.approx(found.size_per_blank, abs=2e-3)


@pytest.mark.parametrize("hook", [-5, 0, 12])
def test_the_root_on_a_smaller_blank(hook: float) -> None:
    """A root that follows from the land moves with the blank, as the wheel solved for it has it;
    one with limits of its own does not."""
    keys = ratchet(hook_angle=hook, outside_diameter=40, land=0.5, space_angle=55)
    found, less = gauges(keys), 0.16
    assert found.root_per_blank is not None
    small = job({**keys, "outside_diameter": 40 - less}).wheel
    moved = limits(found, "root_diameter").nominal - 2 * small.root_radius
    assert moved / less == pytest.approx(found.root_per_blank, abs=2e-3)
    assert found.root_per_blank > 0.8
    own = gauges(keys, tolerance={"root_diameter": 0.1, "land": 0.05})
    assert own.root_per_blank is None


@pytest.mark.parametrize("teeth", [30, 31, 7])
def test_across_the_roots(teeth: int) -> None:
    """Over an odd count a point micrometer reads the greatest distance between two roots."""
    found = gauges(ratchet(teeth=teeth, land=0.4 if teeth > 7 else 2.0, space_angle=70))
    across, root = found.feature("across_roots"), limits(found, "root_diameter")
    outside = found.feature("outside_diameter")
    assert outside is not None
    assert ("before toothing" in outside.instrument) == (teeth % 2 == 1)
    if teeth % 2 == 0:
        assert across is None
        return
    assert across is not None
    spots = [cmath.rect(root.low / 2, math.tau * n / teeth) for n in range(teeth)]
    assert across.limits.low == pytest.approx(max(abs(spots[0] - spot) for spot in spots))


def test_a_bare_tolerance_is_plus_and_minus() -> None:
    """It is told as such; a text with signs is told as it was written."""
    tolerance = {"thickness": 0.05, "land": "0 +0.02", "hook_angle": "+/-0.5 deg"}
    found = gauges(ratchet(hook_angle=5), tolerance=tolerance)
    told = [limits(found, key).source for key in tolerance]
    assert told == ["±0.05", "0 +0.02", "+/-0.5 deg"]


def test_levelled_face_has_its_sign() -> None:
    """R sin g below the axis for a positive hook, above for a negative one."""
    below = limits(gauges(ratchet(hook_angle=5)), "levelled_face")
    assert below.nominal == pytest.approx(-12.7 * math.sin(math.radians(5)))
    assert below.low == pytest.approx(-12.7 * math.sin(math.radians(6)))
    assert limits(gauges(ratchet(hook_angle=-5)), "levelled_face").nominal > 0


def test_infeed_by_the_size_over_pins() -> None:
    """1.78 and 2.0 mm of size a mm of infeed, turned over: 0.56 and 0.50."""
    assert gauges(ratchet()).infeed_per_size == pytest.approx(1 / 1.78, abs=0.005)
    assert gauges(ratchet(), single(60)).infeed_per_size == pytest.approx(0.5, abs=0.005)
    assert gauges(ratchet(), vee(75)).infeed_per_size is None


def test_span_as_given() -> None:
    """The caliper is laid over as many teeth as the part file says, up to half the wheel."""
    found = gauges(gauge={"span_teeth": 4})
    feature = found.feature("span")
    assert feature is not None
    assert "4 teeth" in feature.label
    with pytest.raises(InputError, match="up to 15"):
        gauges(gauge={"span_teeth": 16})


@pytest.mark.parametrize(
    ("pin", "code", "severity"),
    [
        (0.2, "pin-falls-in", "refused"),
        (0.8, "pin-not-proud", "refused"),
        (3.0, "pin-on-tips", "refused"),
    ],
)
def test_a_pin_that_does_not_serve(pin: float, code: str, severity: str) -> None:
    """It is refused with one that serves; the other sizes are listed all the same."""
    found = gauges(gauge={"pin": pin})
    assert [(f.code, f.severity) for f in found.findings] == [(code, severity)]
    assert found.is_refused
    assert "make gauge.pin 1.200 mm" in told(found.findings[0])
    assert found.feature("over_pins") is None
    assert found.feature("land") is not None


def test_a_pin_is_named_so_that_it_can_be_typed_back() -> None:
    """In inches a fraction is not rounded to four decimals, neither the bad pin nor the good."""
    wheel = ratchet(teeth=24, outside_diameter=1.5, land=0.02, thickness=0.2, root_radius=0.012)
    cutter = vee(60, tip_radius=0.012)
    found = job(wheel, cutter, units="in", gauge={"pin": "5/32 in"}).gauges
    assert "a pin of 5/32 in rides" in told(found.findings[0])
    assert told(found.findings[0]).endswith("make gauge.pin 3/32 in")


def test_no_standard_pin() -> None:
    """A space too shallow for any pin is a note, not a refusal."""
    found = gauges(ratchet(teeth=24, space_angle=90, land=1))
    assert [finding.code for finding in found.findings] == ["pin-none"]
    assert not found.is_refused


@pytest.mark.parametrize(
    ("tolerance", "where", "words"),
    [
        ({"across_flats": "K9"}, "tolerance.across_flats", "K5 to K8"),
        ({"general": "ISO 2768-v"}, "tolerance.general", "over 3 to 4000 mm"),
        ({"land": "+3 -0"}, "tolerance.land", "takes up the whole pitch"),
        ({"land": "ISO 2768-m"}, "tolerance.land", "0.5 to 4000 mm"),
        ({"outside_diameter": "50"}, "tolerance.outside_diameter", "nothing of the size"),
        ({"land": "+0.1 -0.4"}, "tolerance.land", "nothing of the size"),
    ],
)
def test_tolerances_that_amount_to_nothing(tolerance: Keys, where: str, words: str) -> None:
    """A class without a value at its size is an error that names what there is."""
    with pytest.raises(InputError, match=words) as told:
        gauges(ratchet(), bore=SQUARE, tolerance=tolerance)
    assert told.value.problems[0].where == where


def test_bores() -> None:
    """Each kind lists what is measured of it, in order."""
    wanted = {
        "round": ["bore_diameter"],
        "square": ["across_flats", "across_corners"],
        "keyed": [
            "bore_diameter",
            "key_width",
            "key_depth",
            "keyway_to_far_side",
            "keyway_wall",
        ],
        "d-bore": ["bore_diameter", "flat_to_far_side"],
    }
    tables: list[Keys] = [
        {"kind": "round", "diameter": 8},
        SQUARE,
        KEYED,
        {"kind": "d-bore", "diameter": 8, "flat_to_far_side": 7},
    ]
    bare = [feature.key for feature in gauges().features]
    for table in tables:
        keys = [feature.key for feature in gauges(bore=table).features]
        assert keys == bare + wanted[table["kind"]]
    assert limits(gauges(bore=SQUARE), "across_corners").nominal == pytest.approx(8.3610, abs=5e-5)


def test_keyway_limits_add_up() -> None:
    """d + t2 takes the limits of bore and depth together."""
    tolerance = {"key_depth": "+0.1 -0", "bore_diameter": "H7"}
    found = gauges(bore=KEYED, tolerance=tolerance)
    assert pair(found, "keyway_to_far_side") == (13.8, 13.918)
    wall = limits(found, "keyway_wall")
    assert wall.nominal == pytest.approx(1.8 + 0.3431, abs=5e-5)
    for at, depth, bore, width in ((wall.low, 1.8, 12.018, 3.985), (wall.high, 1.9, 12.0, 4.015)):
        edge = complex(math.sqrt((bore / 2) ** 2 - (width / 2) ** 2), width / 2)
        assert at == pytest.approx(bore / 2 + depth - edge.real, abs=1e-12)


def test_bore_plan() -> None:
    """Pilot and slotting stand with squares, pilots with hexagons, nothing with others."""
    hub = {"diameter": 12, "length": 5, "side": "back"}
    plan = gauges(bore=SQUARE, hub=hub).bore
    assert plan is not None
    assert plan.slotting is not None
    assert plan.slotting.stroke == pytest.approx(3 + 5 + 0.3 + 2)
    assert plan.slotting.pilot_depth > plan.slotting.stroke
    stack = gauges(bore=SQUARE, blank={"count": 3, "parting_width": 1.5}).bore
    assert stack is not None
    assert stack.slotting is not None
    assert stack.slotting.stroke == pytest.approx(3 * (3 + 0.3 + 1.5))
    hexagon = gauges(bore={"kind": "hexagon", "across_flats": 6}).bore
    assert hexagon is not None
    assert hexagon.slotting is None
    assert gauges(bore=KEYED).bore is None


@settings(max_examples=40, deadline=None)
@given(
    teeth=st.integers(5, 200),
    diameter=st.floats(5, 600),
    land=st.floats(0.02, 0.3),
    hook=st.floats(-8, 12),
    angle=st.floats(40, 80),
)
def test_limits_enclose_the_nominal(
    teeth: int, diameter: float, land: float, hook: float, angle: float
) -> None:
    """Low, nominal and high follow each other in every feature of every wheel there is."""
    pitch = math.pi * diameter / teeth
    keys = ratchet(
        teeth=teeth,
        outside_diameter=diameter,
        land=land * pitch,
        hook_angle=hook,
        space_angle=angle,
        root_radius=0.02 * pitch,
        thickness=max(0.6, pitch),
    )
    try:
        made = job(keys, vee(40, tip_radius=0))
    except ValueError:
        return
    for feature in made.gauges.features:
        assert feature.limits.low <= feature.limits.nominal <= feature.limits.high, feature.key
        assert feature.limits.low < feature.limits.high
