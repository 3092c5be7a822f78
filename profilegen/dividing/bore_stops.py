"""Where the head brings the corners of a bore, its keyway or its flat to the cutter line.

The work stays gripped as it was cut. The cutter line goes from the wheel axis towards where the
cutter stood; the bore's place is taken from the set-up pose of lap 1, so that hand, front, cutter
side and the flank cut first are all in it. Readings count from stop 1 of lap 1, the way the stops
count. Plane geometry, derived here; a test places the wheel by trial. Angles are turns of the work.
"""

from __future__ import annotations

import cmath
import math
from dataclasses import dataclass
from fractions import Fraction
from typing import TYPE_CHECKING, Final

from profilegen.dividing.hardware import nearest_position
from profilegen.dividing.index_plan import IndexPlan, arcmin, degrees
from profilegen.dividing.laps import FINEST
from profilegen.dividing.readings import shown
from profilegen.geometry.measure import farthest

if TYPE_CHECKING:
    from profilegen.cutting.frame import Frame
    from profilegen.cutting.plan import Plan
    from profilegen.forms.wheel import Wheel
    from profilegen.part.part import Part

PLACES: Final[dict[str, tuple[str, int]]] = {
    "square": ("corner", 4),
    "hexagon": ("corner", 6),
    "keyed": ("keyway", 1),
    "d-bore": ("flat", 1),
}
"""Kind of bore -> what is brought to the cutter line, and how many there are."""

SAME_PLACE = 1e-9
"""turns. A place as near as this to stop 1 is at stop 1, and not a whole share further on."""


@dataclass(frozen=True, slots=True)
class BoreStop:
    """One place of the bore on the cutter line.

    Attributes:
        wanted: turn of the work from stop 1 of lap 1, the way the stops count.
        error: where the hardware stands less where it should; 0 without hardware.
        reading: what the hardware shows, or None without it.
    """

    wanted: Fraction
    error: Fraction
    reading: str | None

    @property
    def angle(self) -> float:
        """Turn of the work from stop 1 of lap 1, deg."""
        return degrees(self.wanted)

    @property
    def error_arcmin(self) -> float:
        """Where the hardware stands less where it should, minutes of arc."""
        return arcmin(self.error)


@dataclass(frozen=True, slots=True)
class BoreStops:
    """Every place of the bore on the cutter line, in the order in which they come.

    Attributes:
        place: `corner`, `keyway` or `flat`.
        stops: the first is less than the way between two of them from stop 1.
        reach: from the axis to the bore's farthest point, mm.
    """

    place: str
    stops: tuple[BoreStop, ...]
    reach: float

    @property
    def uneven(self) -> float:
        """How far two of them are from their share of a turn, mm at the reach of the bore."""
        errors = [stop.error for stop in self.stops]
        return float(max(errors) - min(errors)) * math.tau * self.reach

    @property
    def turned(self) -> float:
        """How far the one that is most off is turned from where it should stand, rad."""
        return float(max(abs(stop.error) for stop in self.stops)) * math.tau

    @property
    def off(self) -> float:
        """How far one is from where it should stand, mm at the reach of the bore."""
        return float(max(abs(stop.error) for stop in self.stops)) * math.tau * self.reach


def bore_stops(part: Part, wheel: Wheel, plan: Plan, index: IndexPlan) -> BoreStops | None:
    """The places of a part's bore; None without a cut, and for a bore that is the same all round.

    Args:
        part: for the bore's kind and angle.
        wheel: on the blank at hand.
        plan: of that blank.
        index: its stops.

    Returns:
        Turns of the work from stop 1 of lap 1, the way the stops count; how far off they are is
        told in mm at the bore's farthest point.
    """
    if part.bore.kind not in PLACES or not plan.cuts or wheel.bore is None:
        return None
    place, count = PLACES[part.bore.kind]
    own = part.bore.angle + (math.pi / count if place == "corner" else 0.0)
    first = _first(_to_cutter_line(wheel, plan, index, own), count)
    stops = tuple(
        _stop(index, first + Fraction(turn, count), len(plan.cuts)) for turn in range(count)
    )
    return BoreStops(place, stops, farthest(wheel.bore, 0j)[0])


def _to_cutter_line(wheel: Wheel, plan: Plan, index: IndexPlan, own: float) -> float:
    """Turn of the work the way the stops count, from stop 1 of lap 1 until a direction of the
    wheel, seen from its front, lies on the cutter line, rad."""
    view = plan.frame.view_from_setup
    view_from_wheel = view.after(plan.cuts[0].wheel_from_setup(wheel).inverse())
    stands, line = view_from_wheel.direction(cmath.rect(1.0, own)), view.direction(1j)
    seen_from_free_end = cmath.phase(line / stands)
    return seen_from_free_end if index.turn == "counter-clockwise" else -seen_from_free_end


def _first(turn: float, count: int) -> Fraction:
    """The least turn (rad) that brings one of several even places there, turns."""
    share = Fraction(1, count)
    first = Fraction(turn / math.tau).limit_denominator(FINEST) % share
    return Fraction(0) if min(first, share - first) < SAME_PLACE else first


def _stop(index: IndexPlan, wanted: Fraction, laps: int) -> BoreStop:
    """One place on the hardware; without a reading where a compound way has begun a second lap, for
    there the crank no longer counts from stop 1 of lap 1."""
    way = index.way
    if way is None or (way.method == "compound" and laps > 1):
        return BoreStop(wanted, Fraction(0), None)
    over = wanted * way.scale.count
    count = nearest_position(over.numerator, over.denominator)
    return BoreStop(wanted, Fraction(count, way.scale.count) - wanted, shown(way.scale, count))


def upright_words(frame: Frame) -> str:
    """Where the cutter line points when the head is tilted up about the machine's Y until its free
    end looks up: the side of the head that looked up then looks to where the head stood."""
    return {
        "behind": "towards the column (Y)",
        "in front": "towards the operator (Y)",
        "above": f"to the {frame.head} (X)",
    }[frame.cutter_side]
