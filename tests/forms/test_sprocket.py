"""Sprockets against rows of tables, and against gaps drawn as polygons from their three arcs.

Sources stand beside each row. Limits by ISO 606 (rows SPR-51 to SPR-76: the formulas of a stored
list and of memory, digits computed apart from this program); pitch diameters of a maker's table for
25.4 mm (rows SPR-05 to SPR-29) and of a handbook table for 1 in (rows SPR-30 to SPR-44).
"""

from __future__ import annotations

import cmath
import math
from dataclasses import replace
from itertools import combinations
from typing import Any, cast

import numpy as np
import pytest
from shapely.geometry import Point, Polygon
from shapely.geometry.base import BaseGeometry

from profilegen.findings.cannot_make import CannotMakeError
from profilegen.findings.telling import told, typed
from profilegen.forms.solve import solve
from profilegen.forms.sprocket.chains import CHAINS
from profilegen.forms.sprocket.keys import Sprocket
from profilegen.forms.sprocket.tooth import gap_of, limits_of, pitch_diameter
from profilegen.forms.wheel import Wheel
from profilegen.geometry.chain import Points
from profilegen.geometry.measure import area, tessellate
from profilegen.job import Job, job_for
from profilegen.part.part import Part

SETS = [
    ("06B", 9, 27.849, 21.499, 29.331, 33.405, 3.207, 3.335, 130.0, 110.0, 8.382, 13.259, 33.776),
    ("06B", 17, 51.837, 45.487, 54.115, 57.393, 3.207, 3.335, 134.706, 114.706, 14.478, 23.825,
     57.966),
    ("06B", 60, 181.997, 175.647, 184.918, 187.553, 3.207, 3.335, 138.5, 118.5, 47.244, 192.024,
     188.347),
    ("08B", 13, 53.068, 44.558, 55.695, 60.433, 4.298, 4.438, 133.077, 113.077, 15.318, 23.760,
     61.191),
    ("08B", 19, 77.159, 68.649, 80.280, 84.524, 4.298, 4.438, 135.263, 115.263, 21.445, 36.831,
     85.406),
    ("35", 15, 45.813, 40.733, 49.242, 52.639, 2.565, 2.684, 134.0, 114.0, 10.363, 16.459, 50.642),
    ("35", 24, 72.974, 67.894, 76.784, 79.800, 2.565, 2.684, 136.25, 116.25, 15.850, 30.724,
     78.054),
    ("40", 12, 49.069, 41.149, 52.156, 57.024, 4.000, 4.137, 132.5, 112.5, 13.306, 20.529, 56.989),
    ("40", 30, 121.498, 113.578, 125.601, 129.453, 4.000, 4.137, 137.0, 117.0, 30.413, 68.429,
     129.418),
]  # fmt: skip
"""Chain, teeth, d, df, da min, da max, ri min, ri max, angle max, angle min, 0.12 form, 0.008 form,
size over pins as thick as a roller: rows SPR-51, 54, 59, 62, 64, 70, 71, 74, 76."""


def sprocket(**keys: Any) -> dict[str, Any]:
    """The table of a sprocket."""
    return {"kind": "sprocket", "thickness": 4, "chain": "06B", **keys}


def part(**keys: Any) -> Part:
    """The part of a sprocket alone, in mm."""
    table = {key: value for key, value in sprocket(**keys).items() if value is not None}
    return Part.from_dict({"units": "mm", "wheel": table})


def wheel(**keys: Any) -> Wheel:
    """Its wheel."""
    return solve(part(**keys))


def job(**keys: Any) -> Job:
    """A job with a form cutter of this very wheel."""
    cutter = {"name": "own", "kind": "form", "of": "this wheel"}
    return job_for(Part.from_dict({"units": "mm", "wheel": sprocket(**keys), "cutter": [cutter]}))


@pytest.mark.parametrize("row", SETS)
def test_limits_are_those_of_the_standard(row: tuple[Any, ...]) -> None:
    """Every figure of a row, to its printed digits."""
    chain, teeth, *wanted = row
    size = CHAINS[chain]
    limits = limits_of(size.pitch, size.roller, teeth)
    made = job(chain=chain, teeth=teeth).as_dict()["wheel"]
    found = [
        made["pitch_diameter"],
        made["root_diameter"],
        made["tip_diameter_min"],
        made["tip_diameter_max"],
        made["roller_seat_min"],
        made["roller_seat_max"],
        math.degrees(limits.angle[1]),
        math.degrees(limits.angle[0]),
        *limits.flank,
        made["over_pins"]["length"],
    ]
    assert found == pytest.approx(wanted, abs=6e-4)
    assert made["over_pins"]["pin"] == size.roller


@pytest.mark.parametrize(
    ("pitch", "teeth", "wanted", "digit"),
    [(25.4, 8, 66.37, 0.005), (25.4, 19, 154.32, 0.005), (25.4, 114, 921.81, 0.005),
     (1, 9, 2.924, 5e-4), (1, 11, 3.550, 1e-3), (1, 20, 6.392, 5e-4), (1, 38, 12.110, 5e-4)],
)  # fmt: skip
def test_pitch_diameters(pitch: float, teeth: int, wanted: float, digit: float) -> None:
    """Rows SPR-05, 13, 29 (a maker's table) and SPR-30, 32, 38, 44 (handbook table for 1 in)."""
    assert pitch_diameter(pitch, teeth) == pytest.approx(wanted, abs=digit)


@pytest.mark.parametrize(
    ("chain", "least", "most"),
    [("06B", 6.41, 6.67), ("08B", 8.60, 8.88), ("35", 5.13, 5.37), ("40", 8.00, 8.27)],
)
def test_drills_for_the_seats(chain: str, least: float, most: float) -> None:
    """Twice the limits of the seat's radius (derived from the formulas of ISO 606)."""
    made = wheel(chain=chain, teeth=19)
    assert made.fact("seat_drill_min") == pytest.approx(least, abs=6e-3)
    assert made.fact("seat_drill_max") == pytest.approx(most, abs=6e-3)
    (note,) = (one for one in made.findings if one.code == "seats-drilled")
    assert f"{made.fact('pitch_diameter'):.3f} mm" in told(note)


def arc(centre: complex, start: complex, end: complex, count: int = 400) -> Points:
    """Points of the shorter arc between two points about a centre."""
    first, last = cmath.phase(start - centre), cmath.phase(end - centre)
    turn = (last - first + math.pi) % math.tau - math.pi
    angles = first + turn * np.linspace(0, 1, count)
    return np.asarray(centre + abs(start - centre) * np.exp(1j * angles))


def drawn_gap(chain: str, teeth: int, form: str) -> Polygon:
    """A gap as a polygon, its middle on +x: a round seat, its ends at the seat's angle, and from
    there arcs about points on the far side of the seat's end, straight out from the axis of the
    seat; closed far outside. Drawn from the standard's words and not from the program's formulas.
    """
    size = CHAINS[chain]
    narrow = form == "minimum"
    seat = 0.505 * size.roller + (0 if narrow else 0.069 * size.roller ** (1 / 3))
    angle = math.radians((140 if narrow else 120) - 90 / teeth)
    flank = 0.008 * size.roller * (teeth**2 + 180) if narrow else 0.12 * size.roller * (teeth + 2)
    root = (size.pitch / math.sin(math.pi / teeth) - size.roller) / 2
    middle = root + seat
    end = middle - seat * cmath.exp(-1j * angle / 2)
    beyond = end + flank * (end - middle) / abs(end - middle)
    floor = arc(middle, complex(root), end)
    side = beyond + flank * np.exp(1j * (cmath.phase(end - beyond) + np.linspace(0, 1.2, 4000)))
    half = np.concatenate([floor, side[1:]])
    half = half[: int(np.argmax(half.real)) + 1]
    top = np.array([half[-1].real + 1j * half[-1].imag])
    outline = np.concatenate([half.conj()[::-1], half, top])
    return Polygon([(z.real, z.imag) for z in outline])


@pytest.mark.parametrize("form", ["minimum", "maximum"])
@pytest.mark.parametrize(("chain", "teeth"), [("06B", 9), ("08B", 19), ("40", 60), ("35", 25)])
def test_the_outline_is_the_blank_less_the_gaps(chain: str, teeth: int, form: str) -> None:
    """A disc less a gap at every tooth, cut by polygons, has the outline's area and place."""
    made = wheel(chain=chain, teeth=teeth, gap_form=form)
    gap = drawn_gap(chain, teeth, form)
    blank: BaseGeometry = Point(0, 0).buffer(made.radius, quad_segs=4000)
    step = math.tau / teeth
    for space in range(teeth):
        turn = cmath.exp(1j * (space + 0.5) * step)
        around = [complex(*at) * turn for at in gap.exterior.coords]
        blank = blank.difference(Polygon([(z.real, z.imag) for z in around]))
    outline = tessellate(made.outline, 1e-5)
    ours = Polygon([(z.real, z.imag) for z in outline.tolist()])
    assert area(made.outline) == pytest.approx(blank.area, rel=2e-5)
    assert ours.symmetric_difference(blank).area < 3e-4 * made.radius * teeth


@pytest.mark.parametrize("teeth", [9, 17, 60])
def test_a_larger_flank_radius_narrows_the_gap(teeth: int) -> None:
    """Row SPR-02 pairs the radii the other way; by geometry the larger convex one stands farther
    into the gap, so the narrowest gap has it. Beside it the least seat and the greatest angle do
    narrow the gap too."""
    gap = gap_of(cast(Sprocket, part(teeth=teeth).wheel))
    limits = limits_of(9.525, 6.35, teeth)
    assert gap.flank == limits.flank[1]
    tip = 0.98 * replace(gap, flank=limits.flank[0]).pointed()

    for wider in (
        replace(gap, flank=limits.flank[0]),
        replace(gap, seat=limits.seat[1]),
        replace(gap, angle=limits.angle[0]),
    ):
        assert wider.half_crest(tip) < gap.half_crest(tip)


@pytest.mark.parametrize("teeth", [9, 12, 17, 18])
def test_over_pins_is_the_greatest_over_every_pair_of_rollers(teeth: int) -> None:
    """Rollers laid in every seat: the width over the farthest two (row SPR-03, and SPR-46's caliper
    factor cos(90 deg / z) for odd counts), by going through all pairs."""
    made = wheel(teeth=teeth)
    roller = made.fact("roller_diameter")
    middles = [
        cmath.rect(made.fact("root_diameter") / 2 + roller / 2, math.tau * n / teeth)
        for n in range(teeth)
    ]
    widest = max(abs(a - b) for a, b in combinations(middles, 2)) + roller
    assert made.fact("over_pins.length") == pytest.approx(widest, abs=1e-9)
    gauges = job(teeth=teeth).gauges
    over = gauges.feature("over_pins")
    assert over is not None
    assert over.limits.nominal == pytest.approx(widest, abs=1e-6)


@pytest.mark.parametrize("teeth", [12, 17])
def test_the_infeed_still_to_go_by_pins(teeth: int) -> None:
    """A space short of depth lifts its roller: twice that for even counts, times the cosine of a
    quarter pitch for odd ones; found again by sprockets with a shallower root."""
    made = job(teeth=teeth)
    read = made.taken["over_pins"]
    assert read.spaces == (1, 1 + teeth // 2)
    shallow = wheel(teeth=teeth, root_diameter=made.wheel.fact("root_diameter") + 0.4)
    assert read.at(0.2) == pytest.approx(shallow.fact("over_pins.length"), abs=1e-6)


def test_a_pin_that_is_too_thick_does_not_lie_in_the_seat() -> None:
    """It rests on the flanks: refused, with the roller's size to write."""
    tables = {"units": "mm", "wheel": sprocket(teeth=19), "gauge": {"pin": 7.2}}
    (found,) = job_for(Part.from_dict(tables)).gauges.findings
    assert found.code == "pin-not-seated"
    assert "make gauge.pin 6.350 mm" in told(found)


@pytest.mark.parametrize(
    ("keys", "code"),
    [({"tip_diameter": 80}, "tip-past-point"), ({"tip_diameter": 46}, "tip-below-seat"),
     ({"root_diameter": 24}, "tooth-gone"), ({"root_diameter": 75}, "tip-below-seat"),
     ({"teeth": 3, "pitch": 44.3, "roller_diameter": 3.12, "chain": None, "root_diameter": 28.3,
       "gap_form": "maximum"}, "tooth-gone")],
)  # fmt: skip
def test_sprockets_that_cannot_be(keys: dict[str, Any], code: str) -> None:
    """Refused at a key; a value that is offered mends it, and no outline is crossed."""
    given = {"teeth": 17, **keys}
    table = {key: value for key, value in sprocket(**given).items() if value is not None}
    with pytest.raises(CannotMakeError) as raised:
        solve(Part.from_dict({"units": "mm", "wheel": table}))
    (finding,) = raised.value.findings
    assert finding.code == code
    assert "wheel." in told(finding)
    if finding.remedy is not None:
        key = finding.remedy.key.removeprefix("wheel.")
        solve(Part.from_dict({"units": "mm", "wheel": {**table, key: typed(finding.remedy, "mm")}}))


@pytest.mark.parametrize(
    ("keys", "code"),
    [({"tip_diameter": 58}, "tip-high"), ({"tip_diameter": 53}, "tip-low"),
     ({"teeth": 8}, "teeth-few"), ({"teeth": 151}, "teeth-many"), ({"teeth": 16}, "chain-rough"),
     ({"thickness": 5.4}, "teeth-wide")],
)  # fmt: skip
def test_what_a_machinist_objects_to(keys: dict[str, Any], code: str) -> None:
    """Told with a value that mends it."""
    given = {"teeth": 17, **keys}
    found = {one.code: one for one in wheel(**given).findings}
    assert code in found
    remedy = found[code].remedy
    assert remedy is not None
    again = wheel(**given | {remedy.key.removeprefix("wheel."): typed(remedy, "mm")})
    assert code not in {one.code for one in again.findings}


def test_a_hub_under_the_plates_is_told() -> None:
    """`p cot(180 deg / z) - 1.04 h - 0.76`, common practice: 08B, 19 teeth."""
    most = 12.7 / math.tan(math.pi / 19) - 1.04 * 11.81 - 0.76
    hub = {"diameter": 64.0, "length": 10, "side": "front"}
    tables = {"units": "mm", "wheel": sprocket(chain="08B", teeth=19), "hub": hub}
    (found,) = (one for one in solve(Part.from_dict(tables)).findings if "hub" in one.code)
    assert found.code == "hub-under-chain"
    assert found.limit == pytest.approx(most)


@pytest.mark.parametrize("chain", sorted(CHAINS))
@pytest.mark.parametrize("form", ["minimum", "maximum"])
def test_every_chain_has_sprockets(chain: str, form: str) -> None:
    """Every count from 6 to 200, tips short of their points, no outline refused."""
    for teeth in (6, 7, 9, 16, 45, 200):
        made = wheel(chain=chain, teeth=teeth, gap_form=form)
        assert made.fact("tip_width") > 0
        assert made.hand is None


def test_pitch_and_roller_say_the_same_as_the_number() -> None:
    """A chain by its sizes has the same teeth; its plates are not known, and nothing is said of
    them."""
    named, sized = wheel(teeth=21), wheel(teeth=21, chain=None, pitch=9.525, roller_diameter=6.35)
    assert np.array_equal(named.outline.points, sized.outline.points)
    assert sized.fact("tooth_width", None) is None
