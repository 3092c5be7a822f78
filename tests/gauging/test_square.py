"""Pilots and slotting: rows SQR, and areas of the shapes themselves."""

from __future__ import annotations

import cmath
import math

import pytest
from shapely import Point, Polygon, box
from shapely.geometry import mapping

from profilegen.gauging.bores import bore_plan
from profilegen.gauging.drills import LETTERS, NUMBERS, all_drills, flat_share, pilots, usual_pilot
from profilegen.gauging.slotting import corner_travel, flats_after, slotting_for, strokes_for
from tests.parts import part, ratchet


@pytest.mark.parametrize(
    ("sides", "over", "share"),
    [
        (4, 1.00, 1.0000),  # SQR-02
        (4, 1.10, 0.5417),  # SQR-04
        (6, 1.03, 0.5726),  # SQR-06
        (6, 1.05, 0.4455),  # SQR-07
    ],
)
def test_share_of_flat(sides: int, over: float, share: float) -> None:
    """Derived rows, four places."""
    assert round(flat_share(sides, 8.0, over * 8.0), 4) == share


def test_share_by_construction() -> None:
    """The flat left on a square is what of its side lies outside the pilot's circle."""
    side = box(-3, -3, 3, 3).exterior
    hole = Point(0, 0).buffer(3.2, quad_segs=4096)
    assert flat_share(4, 6, 6.4) == pytest.approx(side.difference(hole).length / 24, abs=1e-5)


@pytest.mark.parametrize(("sides", "pilot", "corner"), [(4, 6.4, 0.3), (6, 6.2, 0.3), (4, 5, 0.2)])
def test_share_with_rounded_corners(sides: int, pilot: float, corner: float) -> None:
    """What of the straight sides of the rounded shape lies outside the pilot, over sharp sides."""
    half = math.pi / sides
    tips = [cmath.rect(3 / math.cos(half), (2 * n + 1) * half) for n in range(sides)]
    sharp = Polygon([(tip.real, tip.imag) for tip in tips])
    inset = sharp.buffer(-corner, join_style="mitre")
    straight = inset.buffer(corner, quad_segs=512).exterior.intersection(
        sharp.exterior.buffer(1e-9)
    )
    left = straight.difference(Point(0, 0).buffer(pilot / 2, quad_segs=4096)).length
    found = flat_share(sides, 6, pilot, corner)
    assert found == pytest.approx(left / sharp.length, abs=1e-4)


def test_share_ends() -> None:
    """A pilot inside the flats takes nothing; one as big as the corners leaves nothing."""
    assert flat_share(4, 6, 5.5) == 1.0
    assert flat_share(4, 6, 6 * math.sqrt(2)) == pytest.approx(0.0, abs=1e-12)
    assert flat_share(6, 6, 12 / math.sqrt(3)) == pytest.approx(0.0, abs=1e-7)


def test_drill_lists() -> None:
    """Four lists: number drills fall from 0.228 in, letter drills rise from 0.234 in."""
    assert list(NUMBERS) == sorted(NUMBERS, reverse=True)
    assert list(LETTERS) == sorted(LETTERS)
    assert (len(NUMBERS), len(LETTERS)) == (60, 26)
    names = {drill.name: drill.diameter for drill in all_drills()}
    assert names["3/8 in"] == 9.525
    assert names["1-1/8 in"] == 28.575
    assert names["letter E"] == names["1/4 in"] == 6.35
    assert names["no. 7"] == pytest.approx(5.1054)
    assert {drill.list for drill in all_drills()} == {"metric", "fraction", "number", "letter"}


@pytest.mark.parametrize(("sides", "low", "high"), [(4, 1.10, 1.15), (6, 1.03, 1.05)])
@pytest.mark.parametrize("across_flats", [4.0, 6.35, 9.0, 12.5])
def test_pilots_for_broaching_are_listed(
    sides: int, low: float, high: float, across_flats: float
) -> None:
    """SQR-01 (printed, a designer's guide): 10 to 15 % over a square, 3 to 5 % over a hexagon."""
    shares = [pilot.drill.diameter / across_flats for pilot in pilots(sides, across_flats)]
    assert any(low <= share <= high for share in shares)
    assert max(shares) >= high - 0.1 / across_flats


def test_pilots_reach_from_the_flats_up() -> None:
    """Every drill of use, and the proposed one within 5 % of the flats and in the part's unit."""
    found = pilots(4, 9.0)
    assert found[0].drill.name == "9.0 mm"
    assert found[-1].drill.diameter <= 1.15 * 9
    shares = [pilot.share for pilot in found]
    assert shares == sorted(shares, reverse=True)
    metric, inch = usual_pilot(4, 9.0, True), usual_pilot(4, 9.0, False)
    assert metric is not None
    assert inch is not None
    assert (metric.drill.name, inch.drill.list) == ("9.4 mm", "letter")
    assert usual_pilot(4, 300.0, True) is None


def test_corner_travel_by_construction() -> None:
    """From the pilot's wall along the diagonal to the rounded corner's deepest point."""
    size, corner, pilot = 6.0, 0.15, 6.2
    shape = box(-3 + corner, -3 + corner, 3 - corner, 3 - corner).buffer(corner, quad_segs=4096)
    reach = max(abs(complex(x, y)) for x, y in shape.exterior.coords)
    assert corner_travel(size, corner, pilot) == pytest.approx(reach - pilot / 2, abs=1e-6)
    assert corner_travel(size, 0.0, 9.0) == 0.0


def edge_of_a_tool(at: float, corner: float) -> list[tuple[float, ...]]:
    """Points of a tool whose 90 deg corner, rounded, reaches out to `at` along the x axis."""
    apex = at + corner * (math.sqrt(2) - 1)
    sharp = Polygon([(apex, 0), (apex - 6, 6), (apex - 6, -6)])
    rounded = sharp.buffer(-corner, join_style="mitre").buffer(corner, quad_segs=512)
    return [tuple(point) for point in mapping(rounded)["coordinates"][0]]


@pytest.mark.parametrize("oversize", [0.0, 0.04, -0.04])
@pytest.mark.parametrize("corner", [0.0, 0.3])
def test_the_tool_makes_the_flats(corner: float, oversize: float) -> None:
    """A tool put at the pilot's real wall and sent as told makes flats at 45 deg, the size asked
    for; a pilot that is too big adds 0.707 of it to them, unless half of it is taken off."""
    size, pilot = 9.0, 9.4
    plan = slotting_for(size, corner, pilot, 10.0, 0.0, 0.05)
    wall = (pilot + oversize) / 2

    def flats(travel: float, radius: float) -> float:
        return 2 * max((x + y) / math.sqrt(2) for x, y in edge_of_a_tool(wall + travel, radius))

    assert flats(plan.travel, corner) - size == pytest.approx(0.707 * oversize, abs=1e-4)
    assert flats(plan.travel - oversize / 2, corner) == pytest.approx(size, abs=1e-4)
    assert flats(plan.sharp_travel - oversize / 2, 0.0) == pytest.approx(size, abs=1e-4)
    assert plan.sharp_travel - plan.travel == pytest.approx(0.414 * corner, abs=1e-4)
    sharp = flats(plan.travel - oversize / 2, 0.0)
    assert flats_after(plan.travel, pilot) == pytest.approx(sharp, abs=1e-4)


def test_slotting_plan() -> None:
    """Strokes cover the travel, corners stand a quarter turn apart, the pilot is deeper yet."""
    plan = slotting_for(9.0, 0.3, 9.4, 10.0, math.radians(10), 0.05)
    assert (plan.strokes - 1) * plan.step < plan.travel <= plan.strokes * plan.step
    assert [round(math.degrees(corner)) for corner in plan.corners] == [55, 145, 235, 325]
    assert plan.pilot_depth > plan.stroke == 10.0
    assert strokes_for(0.1, 0.05) == 2
    assert strokes_for(0.0, 0.05) == 0


def test_a_square_is_slotted_within_its_limits() -> None:
    """Limits that leave the nominal out, as F8 does, are aimed at in their middle."""
    bore = {"kind": "square", "across_flats": 10}
    plain = bore_plan(part(ratchet(), bore=bore))
    fitted = bore_plan(part(ratchet(), bore=bore, tolerance={"across_flats": "F8"}))
    assert plain is not None
    assert fitted is not None
    assert plain.across_flats == 10
    assert 10.013 < fitted.across_flats < 10.035
    assert fitted.slotting is not None
    assert plain.slotting is not None
    more = (fitted.across_flats - 10) / math.sqrt(2)
    assert fitted.slotting.travel - plain.slotting.travel == pytest.approx(more, abs=1e-9)
