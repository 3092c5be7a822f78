"""What is measured of a bore: limits, go and no-go sizes, corners, keyways, pilots, slotting.

Owns the features of each kind of bore, and its pilot and slotting plan. Refuses its outline.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, cast

from profilegen.errors import InputError, Problem
from profilegen.gauging import spans
from profilegen.gauging.drills import Pilot, pilots, usual_pilot
from profilegen.gauging.feature import Feature, combined
from profilegen.gauging.slotting import STEP, Slotting, slotting_for
from profilegen.part.limits import Limits, is_given, limits_of

if TYPE_CHECKING:
    from profilegen.part.base import BoreTable
    from profilegen.part.bore_tables import DBore, HexagonBore, KeyedBore, RoundBore, SquareBore
    from profilegen.part.measuring import Tolerance
    from profilegen.part.part import Part

SIDES = {"square": 4, "hexagon": 6}


@dataclass(frozen=True, slots=True)
class BorePlan:
    """How a square or hexagon is drilled and slotted.

    Attributes:
        sides: 4 or 6.
        across_flats: aimed at, mm: the nominal, or the middle of limits that leave it out.
        pilots: every drill of use, with the share of flat it leaves.
        usual: the one proposed, or None.
        slotting: of a square, with that pilot; or None.
    """

    sides: int
    across_flats: float
    pilots: tuple[Pilot, ...]
    usual: Pilot | None
    slotting: Slotting | None


def bore_features(bore: BoreTable, tolerance: Tolerance | None) -> tuple[Feature, ...]:
    """Everything that is measured of a bore, limits in mm.

    Args:
        bore: of the part.
        tolerance: of the part, or None: then its defaults.

    Raises:
        InputError: a class of the part file has no value at the bore's size.
    """
    match bore.kind:
        case "round":
            return (_diameter(cast("RoundBore", bore).diameter, tolerance),)
        case "square" | "hexagon":
            return tuple(_flats(cast("SquareBore | HexagonBore", bore), tolerance))
        case "keyed":
            return tuple(_keyed(cast("KeyedBore", bore), tolerance))
        case "d-bore":
            flat = cast("DBore", bore)
            over = limits_of(tolerance, "flat_to_far_side", flat.flat_to_far_side)
            label, tool = "Flat to far side of the bore", "Inside micrometer or plug with a flat"
            far = Feature("flat_to_far_side", label, over, tool)
            return (_diameter(flat.diameter, tolerance), far)
    return ()


def bore_plan(part: Part) -> BorePlan | None:
    """Pilot and slotting of a square or hexagon, mm; None for other bores.

    The size across flats is the nominal where its limits hold it, else the middle of them. Only a
    square is slotted.

    Raises:
        InputError: the tolerance of the flats has no value at their size.
    """
    sides = SIDES.get(part.bore.kind)
    if sides is None:
        return None
    bore = cast("SquareBore | HexagonBore", part.bore)
    limits, corner = (
        limits_of(part.tolerance, "across_flats", bore.across_flats),
        bore.corner_radius,
    )
    across = limits.nominal if limits.has_nominal else (limits.low + limits.high) / 2
    usual = usual_pilot(sides, across, part.units == "mm", corner)
    slotting = None
    if sides == 4 and usual is not None:
        pilot, stroke = usual.drill.diameter, part.blank.count * part.pitch_on_bar
        slotting = slotting_for(across, corner, pilot, stroke, bore.angle, STEP[part.units])
    found = pilots(sides, across, corner)
    return BorePlan(sides, across, found, usual, slotting)


def _diameter(diameter: float, tolerance: Tolerance | None) -> Feature:
    limits = limits_of(tolerance, "bore_diameter", diameter)
    return Feature("bore_diameter", "Bore", limits, "Plug gauge: go at low, no-go at high")


def _flats(bore: SquareBore | HexagonBore, tolerance: Tolerance | None) -> Iterator[Feature]:
    limits = limits_of(tolerance, "across_flats", bore.across_flats)
    tool = "Go plug, full form, at low; no-go blade at high"
    yield Feature("across_flats", "Across flats", limits, tool)
    sides, corner = SIDES[bore.kind], bore.corner_radius
    nominal, *sizes = (
        spans.across_corners(sides, size, corner)
        for size in (limits.nominal, limits.low, limits.high)
    )
    source = "follows from the flats" + (", corner radius as drawn" if corner else "")
    over = combined(nominal, tuple(sizes), source)
    yield Feature("across_corners", "Across corners", over, "Inside caliper")


def _keyed(bore: KeyedBore, tolerance: Tolerance | None) -> Iterator[Feature]:
    diameter = limits_of(tolerance, "bore_diameter", bore.diameter)
    width = _within(limits_of(tolerance, "key_width", bore.key_width), diameter, tolerance)
    depth = limits_of(tolerance, "key_depth", bore.key_depth)
    yield _diameter(bore.diameter, tolerance)
    yield Feature("key_width", "Keyway width", width, "Gauge blocks or key: go, no-go")
    yield Feature("key_depth", "Keyway depth from the bore", depth, "By the next two sizes")
    yield _to_far_side(diameter, depth)
    yield _wall(diameter, width, depth)


def _within(width: Limits, diameter: Limits, tolerance: Tolerance | None) -> Limits:
    """The limits of a keyway's width, which stays narrower than the least bore: a default is made
    smaller where it does not.

    Raises:
        InputError: the part file's own tolerance makes it as wide.
    """
    if width.high < diameter.low:
        return width
    for key, own in (("key_width", width), ("bore_diameter", diameter)):
        if is_given(tolerance, key):
            text = "with this tolerance the keyway may be as wide as the bore"
            raise InputError(Problem(f"tolerance.{key}", text, own.source, hint="give less room"))
    source = f"{width.source}, less for so small a bore"
    return replace(width, high=(width.nominal + diameter.low) / 2, source=source)


def _to_far_side(diameter: Limits, depth: Limits) -> Feature:
    """`d + t2`, its limits from those of both."""
    nominal = spans.keyway_to_far_side(diameter.nominal, depth.nominal)
    values = tuple(
        spans.keyway_to_far_side(bore, key)
        for bore in (diameter.low, diameter.high)
        for key in (depth.low, depth.high)
    )
    limits = combined(nominal, values, "follows from bore and depth")
    return Feature("keyway_to_far_side", "Keyway floor to far side", limits, "Inside caliper")


def _wall(diameter: Limits, width: Limits, depth: Limits) -> Feature:
    """From the floor to where a side meets the bore, its limits from those of all three."""
    nominal = spans.keyway_wall(diameter.nominal, width.nominal, depth.nominal)
    values = tuple(
        spans.keyway_wall(bore, across, key)
        for bore in (diameter.low, diameter.high)
        for across in (width.low, width.high)
        for key in (depth.low, depth.high)
    )
    limits = combined(nominal, values, "follows from bore, width and depth")
    return Feature("keyway_wall", "Keyway floor to its side's edge", limits, "Depth gauge")
