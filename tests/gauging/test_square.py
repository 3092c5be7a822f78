"""Pilots and slotting: rows SQR, and areas of the shapes themselves."""

from __future__ import annotations

import math

import pytest
from shapely import Point, box

from profilegen.gauging.drills import LETTERS, NUMBERS, all_drills, flat_share, pilots, usual_pilot
from profilegen.gauging.slotting import corner_travel, slotting_for, strokes_for


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


def test_slotting_plan() -> None:
    """Strokes cover the travel, corners stand a quarter turn apart, the pilot is deeper yet."""
    plan = slotting_for(9.0, 0.3, 9.4, 10.0, math.radians(10), 0.05)
    assert (plan.strokes - 1) * plan.step < plan.travel <= plan.strokes * plan.step
    assert [round(math.degrees(corner)) for corner in plan.corners] == [55, 145, 235, 325]
    assert plan.pilot_depth > plan.stroke == 10.0
    assert strokes_for(0.1, 0.05) == 2
    assert strokes_for(0.0, 0.05) == 0
