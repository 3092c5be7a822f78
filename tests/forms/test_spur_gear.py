"""Spur gears against published rows, values derived by other means, and a rack swept in shapely.

Rows of sizes over pins: handbook tables for 1.728 / P wires (PIN rows) and metric ones for 1.7
module pins; spans: gear-maker's tables (SPAN rows) and DIN 3960; chordal sizes: handbook tables and
a published worked example of module 10 (CHD rows); cutter ranges: handbook (CUT rows). Rows PIN-25
and PIN-36, of 6 and 7 teeth at 14.5 degrees, hold for the ideal involute alone, so they are
compared with it alone; the gear that a rack makes is undercut there.
"""

from __future__ import annotations

import math
from dataclasses import replace
from functools import cache
from typing import Any

import numpy as np
import pytest
import shapely
from shapely.geometry.base import BaseGeometry

from profilegen.errors import InputError
from profilegen.findings.cannot_make import CannotMakeError
from profilegen.findings.telling import told, typed
from profilegen.forms.involute.cutters import cutter_for
from profilegen.forms.involute.gauged import chordal
from profilegen.forms.involute.rack import NAMED, OLD_FULL_DEPTH, Factors, greatest_tip_radius
from profilegen.forms.involute.tooth import Gear, involute, pitch_of
from profilegen.forms.solve import solve, varied
from profilegen.forms.wheel import Wheel
from profilegen.geometry.chain import Role
from profilegen.geometry.measure import area, tessellate
from profilegen.geometry.moves import repeated
from profilegen.geometry.tooth_sizes import across_tooth, over_pins, pin_seat, run_of, span_over
from profilegen.geometry.validity import why_invalid
from profilegen.job import job_for
from profilegen.part.part import Part


def gear(
    teeth: int,
    rack: str = "ISO 53 A",
    shift: float = 0.0,
    angle: float = 20.0,
    module: float = 1.0,
) -> Gear:
    """A gear with its plain outside diameter; shift in modules, angle in degrees."""
    factors = NAMED[rack]
    outside = module * (teeth / 2 + factors.addendum + shift)
    return Gear(teeth, module, math.radians(angle), factors, shift * module, outside)


def part(**keys: Any) -> Part:
    """A part of a spur gear of module 1 with 20 teeth, or of these keys."""
    base: dict[str, Any] = {"kind": "spur-gear", "teeth": 20, "thickness": 6.0}
    if "diametral_pitch" not in keys:
        base["module"] = 1.0
    return Part.from_dict({"units": "mm", "wheel": base | keys})


def wheel(**keys: Any) -> Wheel:
    """The same, solved."""
    return solve(part(**keys))


@pytest.mark.parametrize(
    ("angle", "wanted"),
    [(14.5, 0.0055448), (22.5, 0.0215145), (30, 0.0537515), (10, 0.0017941), (35, 0.0893423),
     (40, 0.1409679), (20, 0.014904)],
)  # fmt: skip
def test_involute_function(angle: float, wanted: float) -> None:
    """Rows INV-01, 03, 05, 06, 08, 09, 11."""
    assert involute(math.radians(angle)) == pytest.approx(wanted, abs=5.1e-7)


def test_diameters_of_a_published_pair() -> None:
    """Rows INV-15 and INV-19: module 3, 12 and 24 teeth, shifts 0.6 and 0.36 (a gear-maker's
    worked example; its tips are cut shorter for each other, so they are not compared)."""
    for teeth, shift, pitch, base, root in [
        (12, 0.6, 36.0, 33.8289, 32.1),
        (24, 0.36, 72.0, 67.6579, 66.66),
    ]:
        found = gear(teeth, shift=shift, module=3.0)
        assert 2 * found.pitch == pytest.approx(pitch)
        assert 2 * found.base == pytest.approx(base, abs=5e-5)
        assert 2 * found.root == pytest.approx(root, abs=5e-4)


@pytest.mark.parametrize(
    ("teeth", "shift"), [(8, 0.5321), (10, 0.4151), (12, 0.2981), (14, 0.1812)]
)
def test_shift_that_just_avoids_undercut(teeth: int, shift: float) -> None:
    """Row INV-27: `1 - z sin^2 a / 2`, for a rack whose straight flank ends one module deep."""
    rack = Factors(1.0, 1.0 + 0.38 * (1 - math.sin(math.radians(20))), 0.38)
    found = replace(gear(teeth, shift=shift), rack=rack)
    assert found.margin == pytest.approx(0.0, abs=2e-4)


def test_greatest_tip_radius_of_a_rack() -> None:
    """Rows INV-22 to INV-25: 0.4719 and 0.3939 leave no flat at the tip; 0.38, 0.39 are within."""
    angle = math.radians(20)
    assert greatest_tip_radius(NAMED["ISO 53 A"], angle) == pytest.approx(0.4719, abs=5e-5)
    assert greatest_tip_radius(NAMED["ISO 53 D"], angle) == pytest.approx(0.3939, abs=5e-5)


SPANS = [
    (20, 10, 2, 0.0, 1.0, 4.5683), (20, 12, 2, 0.0, 1.0, 4.5963), (20, 14, 2, 0.0, 1.0, 4.6243),
    (20, 17, 2, 0.0, 1.0, 4.6663), (20, 20, 3, 0.0, 1.0, 7.6604), (20, 22, 3, 0.0, 1.0, 7.6885),
    (20, 28, 4, 0.0, 1.0, 10.7246), (20, 30, 4, 0.0, 1.0, 10.7526), (20, 35, 4, 0.0, 1.0, 10.8227),
    (20, 40, 5, 0.0, 1.0, 13.8448), (20, 45, 5, 0.0, 1.0, 13.9148), (20, 50, 6, 0.0, 1.0, 16.9370),
    (20, 55, 7, 0.0, 1.0, 19.9592), (14.5, 20, 2, 0.0, 1.0, 4.6697),
    (14.5, 32, 3, 0.0, 1.0, 7.7756), (20, 24, 4, 0.4, 3.0, 32.8266),
    (20, 10, 2, 0.5, 1.0, 4.9103), (20, 40, 4, -0.2, 1.5, 16.1338),
]  # fmt: skip


@pytest.mark.parametrize(("angle", "teeth", "count", "shift", "module", "wanted"), SPANS)
def test_span_over_the_outline(
    angle: float, teeth: int, count: int, shift: float, module: float, wanted: float
) -> None:
    """Rows SPAN-01 to SPAN-30, on the outline as made, its arcs within a ten-thousandth."""
    found = gear(teeth, shift=shift, angle=angle, module=module)
    span = span_over(pitch_of(found, 1e-4)[0], teeth, count)
    assert span.is_on_flanks
    assert span.length == pytest.approx(wanted, abs=2.6e-4)


PINS = [
    (20, 8, 10.3271), (20, 10, 12.3445), (20, 14, 16.3683), (20, 16, 18.3769), (20, 20, 22.3900),
    (20, 22, 24.3952), (20, 26, 28.4036), (20, 28, 30.4071), (20, 32, 34.4130), (20, 7, 9.1260),
    (20, 9, 11.1905), (20, 13, 15.2639), (20, 15, 17.2871), (20, 19, 21.3200), (20, 21, 23.3321),
    (20, 25, 27.3511), (14.5, 10, 12.3399), (14.5, 12, 14.3590), (14.5, 16, 18.3877),
    (14.5, 18, 20.3989), (14.5, 24, 26.4247), (14.5, 30, 32.4429), (14.5, 11, 13.2317),
    (14.5, 13, 15.2677), (14.5, 17, 19.3182), (14.5, 19, 21.3368), (14.5, 23, 25.3658),
    (14.5, 25, 27.3774), (14.5, 6, 8.2846), (14.5, 7, 9.1116),
]  # fmt: skip


def ideal_over_pins(found: Gear, pin: float) -> float:
    """The usual formula, for involutes without end: `inv f = inv a + d / (z m cos a) - pi / 2z`."""
    wanted = (
        involute(found.pressure_angle) + pin / (2 * found.base) - math.pi / (2 * found.teeth)
        + 2 * found.shift * math.tan(found.pressure_angle) / (found.module * found.teeth)
    )  # fmt: skip
    low, high = 0.0, 1.5
    for _ in range(80):
        middle = (low + high) / 2
        low, high = (middle, high) if involute(middle) < wanted else (low, middle)
    return over_pins(complex(found.base / math.cos(low)), pin, found.teeth)


@pytest.mark.parametrize(("angle", "teeth", "wanted"), PINS)
def test_size_over_pins(angle: float, teeth: int, wanted: float) -> None:
    """Rows PIN-01 to PIN-45, wires of 1.728: a pin rolled into the outline as made, wherever it
    touches the true flank; PIN-25 and PIN-36 by the formula for the ideal involute."""
    found = gear(teeth, angle=angle)
    assert ideal_over_pins(found, 1.728) == pytest.approx(wanted, abs=6e-5)
    pitch = pitch_of(found, 1e-4)[0]
    seat = pin_seat(pitch, teeth, 1.728)
    assert seat is not None
    if seat.is_on_flanks:
        assert over_pins(seat.centre, 1.728, teeth) == pytest.approx(wanted, abs=6e-4)
    else:
        assert found.margin < 0


def test_pins_of_undercut_gears_read_less_than_the_tables() -> None:
    """Rows PIN-25 and PIN-36 are for involutes down to the base; the gear that a rack of the old
    full-depth form makes is undercut, and reads 8.2554."""
    pitch = pitch_of(replace(gear(6, angle=14.5), rack=OLD_FULL_DEPTH), 1e-5)[0]
    seat = pin_seat(pitch, 6, 1.728)
    assert seat is not None
    assert not seat.is_on_flanks
    assert over_pins(seat.centre, 1.728, 6) == pytest.approx(8.2554, abs=6e-5)


@pytest.mark.parametrize(
    ("teeth", "wanted"), [(10, 12.2557), (17, 19.2112), (24, 26.3021), (40, 42.3203), (60, 62.3306)]
)
def test_size_over_metric_pins(teeth: int, wanted: float) -> None:
    """Rows PIN-48 to PIN-54: pins of 1.7 module."""
    assert ideal_over_pins(gear(teeth), 1.7) == pytest.approx(wanted, abs=6e-5)
    seat = pin_seat(pitch_of(gear(teeth), 1e-4)[0], teeth, 1.7)
    assert seat is not None
    assert over_pins(seat.centre, 1.7, teeth) == pytest.approx(wanted, abs=6e-4)


CHORDS = [
    (12, 1.5663, 1.0514, 1.1e-4), (17, 1.5686, 1.0362, 1.1e-4), (21, 1.5694, 1.0294, 1.1e-4),
    (35, 1.5702, 1.0176, 1.1e-4), (55, 1.5706, 1.0112, 6e-5), (10, 1.56434, 1.06156, 6e-6),
    (16, 1.56827, 1.03852, 6e-6), (18, 1.56880, 1.03425, 6e-6), (24, 1.56968, 1.02569, 6e-6),
    (30, 1.57008, 1.02056, 6e-6), (60, 1.57062, 1.01028, 6e-6),
]  # fmt: skip


@pytest.mark.parametrize(("teeth", "thick", "high", "off"), CHORDS)
def test_chordal_thickness(teeth: int, thick: float, high: float, off: float) -> None:
    """Rows CHD-01 to CHD-17, and the same read off the outline; CHD-08 is a misprint."""
    found = gear(teeth)
    assert chordal(found, found.thickness) == pytest.approx((thick, high), abs=off)
    if found.form_radius() < found.pitch * 0.995:
        read = across_tooth(
            pitch_of(found, 1e-5)[0], teeth, found.outside - chordal(found, found.thickness)[1]
        )
        assert read == pytest.approx(chordal(found, found.thickness)[0], abs=5e-5)


def test_chordal_thickness_with_shift() -> None:
    """Row CHD-18: module 10, 12 teeth, shift 0.3 (a published worked example)."""
    found = gear(12, shift=0.3, module=10.0)
    assert found.thickness == pytest.approx(17.8918, abs=5e-5)
    assert chordal(found, found.thickness) == pytest.approx((17.8256, 13.6657), abs=6e-5)


@pytest.mark.parametrize(
    ("teeth", "dp", "module", "words"),
    [(12, 8, 1, "12 to 13"), (13, 8, 1, "12 to 13"), (14, 7, 2, "14 to 16"), (20, 6, 3, "17 to 20"),
     (25, 5, 4, "21 to 25"), (34, 4, 5, "26 to 34"), (54, 3, 6, "35 to 54"),
     (134, 2, 7, "55 to 134"),
     (135, 1, 8, "135 to a rack"), (1000, 1, 8, "135 to a rack")],
)  # fmt: skip
def test_form_cutter(teeth: int, dp: int, module: int, words: str) -> None:
    """Rows CUT-01, 03, 05 to 13: both numberings, and the range in words; none under 12."""
    found = cutter_for(teeth)
    assert found is not None
    assert (found.dp_number, found.module_number, found.range) == (dp, module, words)
    assert cutter_for(11) is None


def test_thinned_gear_of_twenty() -> None:
    """Derived apart from this program: form diameter 18.8201; thinned 0.05 the rack goes 0.0687
    deeper, the span over 3 is 7.6135 and over 1.7 pins 22.1775, and the outside stays."""
    plain, thin = wheel(), wheel(thinning=0.05)
    assert plain.fact("form_diameter") == pytest.approx(18.8201, abs=5e-5)
    assert plain.root_radius - thin.root_radius == pytest.approx(0.0687, abs=5e-5)
    assert thin.fact("span.teeth") == 3
    assert thin.fact("span.length") == pytest.approx(7.6135, abs=2e-3)
    assert thin.fact("over_pins.pin") == pytest.approx(1.7)
    assert thin.fact("over_pins.length") == pytest.approx(22.1775, abs=5e-3)
    assert thin.radius == plain.radius == 11.0
    fine = wheel(thinning=0.05, fit_tolerance=1e-5)
    assert fine.fact("span.length") == pytest.approx(7.6135, abs=6e-5)
    assert fine.fact("over_pins.length") == pytest.approx(22.1775, abs=1e-4)


def test_margin_tells_tangent_from_undercut() -> None:
    """The double root, a hair to each side of it, and roots past it."""
    assert gear(17, shift=0.0056565).margin == pytest.approx(0.0, abs=1e-6)
    assert gear(18, "ISO 53 B").margin == pytest.approx(0.00057, abs=5e-6)
    assert gear(18, "ISO 53 C").margin == pytest.approx(-0.0956, abs=5e-5)


SWEPT = [
    gear(20),
    gear(12),
    gear(17, shift=0.0056565),
    gear(18, "ISO 53 B"),
    gear(18, "ISO 53 C"),
    gear(6, angle=14.5),
    gear(30, "ISO 53 D", shift=-0.3),
    gear(40, shift=0.87),
    gear(40, shift=0.95),
    gear(25, "stub", module=0.4),
]
"""Plain, undercut, the double root and a hair to each side, few teeth, the tip round's centre on
the rolling line and above it, fine."""


@cache
def swept(found: Gear, steps: int) -> BaseGeometry:
    """Half a space of a gear as the rack cuts it: the blank's sector less the rack at many turns.

    A construction of its own: the rack's tooth is a polygon, its tip round a fine one; it stands at
    so many turns evenly through the whole of its way.
    """
    m, a, f = found.module, found.pressure_angle, found.tip_round
    slope = math.tan(a)
    low = found.pitch - found.rack.dedendum * m + found.shift
    centre = low + f + 1j * found.half_tip
    leans = np.linspace(0, math.pi / 2 - a, 600)
    rounded = centre + f * (-np.cos(leans) + 1j * np.sin(leans))
    high = found.outside + 2 * m
    top = complex(high, rounded[-1].imag + (high - rounded[-1].real) * slope)
    side = np.concatenate([[low + 0j], rounded, [top]]) if f else np.array([low + 0j, centre, top])
    rack = np.concatenate([side, side[::-1].conj()])
    half = math.pi / found.teeth
    rim = found.outside * np.exp(1j * np.linspace(0, half, 4001))
    blank = shapely.Polygon([(0, 0), *zip(rim.real, rim.imag, strict=True)])
    cutters = []
    for turn in np.linspace(*_way(found), steps):
        at = (rack + 1j * found.pitch * turn) * np.exp(-1j * turn)
        cutters.append(shapely.Polygon(zip(at.real, at.imag, strict=True)))
    return blank.difference(shapely.union_all(cutters))


def _way(found: Gear) -> tuple[float, float]:
    """Turns between which the rack touches this half of the space, and a little more, rad: along
    the line of action from the tip to the deepest place of the straight flank, and to the floor."""
    a, r = found.pressure_angle, found.pitch
    last = math.sqrt(found.outside**2 - (r * math.cos(a)) ** 2) - r * math.sin(a)
    half_gap = (math.pi * found.module - found.thickness) / 2
    ends = (-(last / math.cos(a) + half_gap), found.depth / math.tan(a) - found.half_tip)
    return (min(ends) - 0.05) / r, (max(*ends, 0.0) + 0.05) / r


@pytest.mark.parametrize("found", SWEPT, ids=lambda g: f"z{g.teeth}-{g.margin:.4f}-{g.depth:.3f}")
def test_outline_is_what_a_swept_rack_leaves(found: Gear) -> None:
    """Areas to 1e-5 of the wheel's at a fit tolerance of 0.0001 mm: the sweep at two step sizes,
    its scallops, which fall with the square of the step, taken out. No place of flank and root lies
    farther from the sweep than the fit and the scallops."""
    pitch, error = pitch_of(found, 1e-4)
    outline = repeated(pitch, found.teeth)
    assert error <= 1e-4
    assert why_invalid(outline, found.teeth) is None
    coarse, fine = (2 * found.teeth * swept(found, steps).area for steps in (151, 301))
    exact = fine + (fine - coarse) / 3
    assert area(outline) == pytest.approx(exact, rel=1e-5)
    at = tessellate(run_of(pitch, Role.ROOT, Role.BACK), 1e-5)
    at = at * np.exp(-1j * math.pi / found.teeth)
    at = at[(at.imag > 1e-6) & (np.abs(at) < found.outside - 1e-6)]
    off = shapely.distance(shapely.points(at.real, at.imag), swept(found, 301).boundary)
    assert off.max() < error + 1e-4 * found.module


def test_json_nests_the_sizes_of_one_gauge() -> None:
    """The contract's keys: `span`, `over_pins`, `chordal`, `form_cutter` hold what belongs to
    them."""
    told = job_for(part()).as_dict()["wheel"]
    assert told["span"]["teeth"] == 3
    assert (told["diametral_pitch"], told["profile_shift"]) == (25.4, 0)
    assert set(told["over_pins"]) == {"pin", "length"}
    assert set(told["chordal"]) == {"thickness", "height"}
    assert told["form_cutter"] == {"dp_number": 6, "module_number": 3, "range": "17 to 20"}
    for key in ("module", "pitch_diameter", "base_diameter", "outside_diameter", "root_diameter",
                "form_diameter", "tooth_thickness", "tip_width"):  # fmt: skip
        assert told[key] > 0


def test_diametral_pitch_takes_the_full_depth_form() -> None:
    """24 P: module 25.4 / 24; fine pitch: dedendum 1.2 / P + 0.002 in."""
    made = wheel(diametral_pitch=24)
    assert made.fact("module") == pytest.approx(25.4 / 24)
    assert made.fact("dedendum") == pytest.approx(1.2 * 25.4 / 24 + 0.0508)
    assert made.fact("over_pins.pin") == pytest.approx(1.728 * 25.4 / 24)
    old = wheel(diametral_pitch=10, pressure_angle="14.5 deg", teeth=40)
    assert old.fact("dedendum") == pytest.approx(1.157 * 2.54)


@pytest.mark.parametrize(
    "keys",
    [{"module": 1.0, "diametral_pitch": 24}, {"module": None}, {"rack": "ISO 53 E"},
     {"rack": {"addendum": 1.0, "dedendum": 1.25, "tip_radius": 0.48}}, {"pressure_angle": 40},
     {"rack": {"addendum": 1.0}}, {"profile_shift": 3}, {"fit_tolerance": 1.0}],
)  # fmt: skip
def test_keys_that_cannot_be(keys: dict[str, Any]) -> None:
    """Refused where they stand, before anything is solved."""
    base: dict[str, Any] = {"kind": "spur-gear", "teeth": 20, "thickness": 6.0, "module": 1.0}
    table = {key: value for key, value in (base | keys).items() if value is not None}
    with pytest.raises(InputError, match="wheel"):
        Part.from_dict({"units": "mm", "wheel": table})


@pytest.mark.parametrize(
    ("keys", "code"),
    [({"teeth": 12, "profile_shift": 0.87}, "tip-past-point"), ({"thinning": 1.6}, "tooth-gone"),
     ({"teeth": 2}, "root-below-axis"), ({"outside_diameter": 18.0}, "flank-gone"),
     ({"outside_diameter": 30.0}, "tip-past-point")],
)  # fmt: skip
def test_gears_that_cannot_be(keys: dict[str, Any], code: str) -> None:
    """Refused with the key to change, and never a crossed outline."""
    with pytest.raises(CannotMakeError) as raised:
        wheel(**keys)
    (finding,) = raised.value.findings
    assert finding.code == code
    assert "make wheel." in told(finding)
    if finding.remedy is not None:
        value = typed(finding.remedy, "mm")
        key = finding.remedy.key.removeprefix("wheel.")
        rest = keys | ({key: value} if value is not None else {})
        again = {k: v for k, v in rest.items() if value is not None or k != key}
        assert wheel(**again).radius > 0


@pytest.mark.parametrize(
    ("keys", "code"),
    [({"teeth": 12}, "gear-undercut"), ({"teeth": 10, "profile_shift": 0.6}, "tip-thin"),
     ({"teeth": 3}, "gear-undercut"), ({"outside_diameter": 22.7}, "gear-bottoms"),
     ({"rack": {"addendum": 1.0, "dedendum": 1.1, "tip_radius": 0.4}}, "gear-interference"),
     ({"teeth": 11}, "cutter-range")],
)  # fmt: skip
def test_what_a_machinist_objects_to(keys: dict[str, Any], code: str) -> None:
    """Told with a key to change; a value that is offered mends it."""
    codes = {finding.code: finding for finding in wheel(**keys).findings}
    assert code in codes
    assert "wheel." in told(codes[code])
    remedy = codes[code].remedy
    if remedy is not None:
        again = wheel(**keys | {remedy.key.removeprefix("wheel."): typed(remedy, "mm")})
        assert code not in {finding.code for finding in again.findings}


def test_undercut_is_gone_with_the_shift_told() -> None:
    """12 teeth: the message's shift makes the root tangent to the flank."""
    (found,) = (f for f in wheel(teeth=12).findings if f.code == "gear-undercut")
    assert found.limit == pytest.approx(0.3, abs=0.011)
    codes = {f.code for f in wheel(teeth=12, profile_shift=found.limit).findings}
    assert "gear-undercut" not in codes


def test_varied_thickness_moves_the_root_with_it() -> None:
    """A tooth 0.1 thinner comes of a cut 0.1 / (2 tan 20) deeper; a root of its own likewise."""
    plain = wheel()
    thin = varied(plain, tooth_thickness=plain.fact("tooth_thickness") - 0.1)
    deeper = 0.1 / (2 * math.tan(math.radians(20)))
    assert plain.root_radius - thin.root_radius == pytest.approx(deeper)
    by_root = varied(plain, root_diameter=2 * (plain.root_radius - deeper))
    assert by_root.fact("tooth_thickness") == pytest.approx(thin.fact("tooth_thickness"))


def test_each_tooth_is_the_same_piece() -> None:
    """One flank computed and repeated: the arcs of a pitch do not depend on the count of teeth."""
    few, many = wheel(teeth=50), wheel(teeth=1000)
    assert len(many.outline) / 1000 <= len(few.outline) / 50


def test_a_cutter_of_this_wheel_has_its_space() -> None:
    """`of = "this wheel"` cuts on centre to the whole depth, and leaves nothing."""
    keys = {"kind": "spur-gear", "module": 1.0, "teeth": 24, "thickness": 6.0}
    cutter = {"name": "own", "kind": "form", "of": "this wheel"}
    (cut,) = job_for(
        Part.from_dict({"units": "mm", "wheel": keys, "cutter": [cutter]})
    ).plan.cuts  # fmt: skip
    assert cut.offset == pytest.approx(0.0, abs=1e-9)
    assert cut.radial_depth == pytest.approx(2.25, abs=1e-6)


GEAR_KEYS = [
    "module", "pitch_diameter", "base_diameter", "outside_diameter", "root_diameter",
    "form_diameter", "tooth_thickness", "tip_width", "span", "over_pins", "chordal", "form_cutter",
]  # fmt: skip
"""What a program finds of every gear."""


@pytest.mark.parametrize("kind", ["spur-gear", "form-cut-gear"])
@pytest.mark.parametrize("teeth", [11, 12, 13, 400])
def test_keys_that_programs_find(kind: str, teeth: int) -> None:
    """Every key stands in JSON, null where this gear has no such thing: no set has a cutter for 11
    teeth; from 12 on nothing is null."""
    told = job_for(part(kind=kind, teeth=teeth)).as_dict()["wheel"]
    missing = {key for key in GEAR_KEYS if told[key] is None}
    assert missing == ({"form_cutter"} if teeth < 12 else set())
    if teeth >= 12:
        assert list(told["form_cutter"]) == ["dp_number", "module_number", "range"]
    assert [list(told[key]) for key in ("span", "over_pins", "chordal")] == [
        ["teeth", "length"], ["pin", "length"], ["thickness", "height"]]  # fmt: skip
