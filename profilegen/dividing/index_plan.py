"""The stops of a wheel on its dividing hardware, with their errors.

Owns: `IndexPlan`: the chosen way, and every stop of every lap with what the dial shows. Angles
count the way the work is turned to the stops, from stop 1 of lap 1. Stops are put to the nearest
position each by itself, so no rounding adds up.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from typing import TYPE_CHECKING

from profilegen.dividing.hardware import nearest_position
from profilegen.dividing.laps import Laps
from profilegen.dividing.readings import shown, shown_compound
from profilegen.dividing.spread import Spread, spread_of
from profilegen.dividing.way import Method, Move, Way
from profilegen.dividing.ways import compound_starts, laps_by, round_the_wheel
from profilegen.part.how_measured import LAND
from profilegen.units import DecimalMark, format_quotient, nearest_whole

if TYPE_CHECKING:
    from profilegen.forms.wheel import Rotation


@dataclass(frozen=True, slots=True)
class IndexStop:
    """One stop on the hardware.

    Attributes:
        stop: from 1 in each lap, in the order in which they are cut.
        lap: from 1.
        wanted: where the work should stand, turns.
        stands: where it stands, turns.
        error: where it stands less where it should, turns.
        reading: what the hardware shows.
    """

    stop: int
    lap: int
    wanted: Fraction
    stands: Fraction
    error: Fraction
    reading: str

    @property
    def angle(self) -> float:
        """Where the work should stand, deg."""
        return degrees(self.wanted)

    @property
    def set_angle(self) -> float:
        """Where it stands, deg."""
        return degrees(self.stands)

    @property
    def error_arcmin(self) -> float:
        """Where it stands less where it should, minutes of arc."""
        return arcmin(self.error)


@dataclass(frozen=True, slots=True)
class IndexPlan:
    """Every stop by one way.

    Attributes:
        ways: every way, best first.
        way: the chosen one, None for angles alone.
        stops: of every lap.
        returns: stop N + 1 of every lap, which must be its stop 1 again.
        radius: of the outside, mm.
        spread: how far they are off.
        starts: where each lap begins.
        turn: the way the work is turned to every stop, seen from its free end.
        may_lose: mm that a land may be off.
        between: what it is that may: `land`, or `tooth` where teeth have none.
        allowed: whether stops that are more than that off are listed all the same.
        part_teeth: the part's own count, when the plan is for another.
    """

    ways: tuple[Way, ...]
    way: Way | None
    stops: tuple[IndexStop, ...]
    returns: tuple[IndexStop, ...]
    radius: float
    spread: Spread
    starts: Laps
    turn: Rotation = "counter-clockwise"
    may_lose: float = min(-LAND[0], LAND[1])
    between: str = "land"
    allowed: bool = False
    part_teeth: int | None = None

    @property
    def number(self) -> int | None:
        """Of the chosen way in the list, from 1."""
        return None if self.way is None else self.ways.index(self.way) + 1

    @property
    def method(self) -> Method:
        """Of the chosen way; `free` without hardware."""
        return self.way.method if self.way else "free"

    @property
    def teeth(self) -> int:
        """N."""
        return len(self.stops) // len(self.returns)

    @property
    def exact(self) -> bool:
        """Whether every stop of every lap stands where it should."""
        return self.spread.worst == 0

    @property
    def fits(self) -> bool:
        """Whether the spacing of the stops is off by no more than a land may be."""
        return self.mm(self.spread.spacing) <= self.may_lose

    @property
    def is_listed_inexact(self) -> bool:
        """Whether the list is of stops that are not exact, asked for as such."""
        return self.allowed and not self.exact

    @property
    def laps(self) -> tuple[tuple[IndexStop, ...], ...]:
        """The stops of each lap."""
        count = self.teeth
        return tuple(self.stops[at : at + count] for at in range(0, len(self.stops), count))

    @property
    def step(self) -> Fraction:
        """What one wrong position of the hardware turns the work, turns; 0 without hardware."""
        return self.way.scale.step if self.way else Fraction(0)

    def turned_on(self, lap: int) -> Fraction:
        """What the work is turned on from the closing stop of the lap before to stop 1 of a lap,
        turns. Laps count from 1."""
        return self.starts.begins[lap - 1] - self.starts.begins[lap - 2]

    def mm(self, turns: Fraction) -> float:
        """A turn of the work as a way round the outside, mm.

        Args:
            turns: of the work; the sign stays.
        """
        return float(turns) * 2 * math.pi * self.radius


def arcmin(turns: Fraction) -> float:
    """A share of a turn in minutes of arc (60 to a degree), unrounded."""
    return turns.numerator * 21600 / turns.denominator


def degrees(turns: Fraction) -> float:
    """A share of a turn in degrees, unrounded; more than a turn stays so."""
    return turns.numerator * 360 / turns.denominator


def arcmin_text(turns: Fraction, decimal: DecimalMark = "point") -> str:
    """A share of a turn in minutes of arc, three places.

    Args:
        turns: of the work, exact: the quotient is rounded once, from 60ths of degrees.
        decimal: the mark that the reader writes.
    """
    return format_quotient(turns.numerator * 21600, turns.denominator, 3, decimal=decimal)


def degrees_text(turns: Fraction, decimal: DecimalMark = "point", places: int = 4) -> str:
    """A share of a turn in degrees within one turn: 0 or more, and never 360 by rounding.

    Args:
        turns: of the work, of either sign.
        decimal: the mark that the reader writes.
        places: behind the mark.
    """
    whole = 360 * 10**places
    steps = nearest_whole(turns.numerator * whole, turns.denominator) % whole
    return format_quotient(steps, 10**places, places, decimal=decimal)


def index_plan(
    ways: tuple[Way, ...], way: Way | None, teeth: int, laps: Laps, radius: float
) -> IndexPlan:
    """Every stop by one way.

    Args:
        ways: every way that there is, best first.
        way: the one to take, or None for angles alone.
        teeth: N, 2 to 1000.
        laps: where each lap begins.
        radius: of the outside, mm.
    """
    laps = laps if way is None else laps_by(way, laps)
    rounds = [list(lap) for lap in _laps(way, teeth, laps)]
    errors = [
        round_the_wheel([stop.error for stop in lap[:-1]], way.spaces if way else 1)
        for lap in rounds
    ]
    return IndexPlan(
        ways,
        way,
        tuple(stop for lap in rounds for stop in lap[:-1]),
        tuple(lap[-1] for lap in rounds),
        radius,
        spread_of(errors, laps.lands),
        laps,
    )


def _laps(way: Way | None, teeth: int, laps: Laps) -> Iterator[Iterator[IndexStop]]:
    """The stops of each lap, and its stop 1 once more as the next."""
    if way is not None and way.method == "compound" and way.move is not None:
        starts = compound_starts(way, laps)
        for lap, (begin, start) in enumerate(zip(laps.begins, starts, strict=True), 1):
            yield _compound_lap(way, way.move, lap, begin, start)
        return
    for lap, place in enumerate(laps.places(), 1):
        yield _free_lap(teeth, lap, place) if way is None else _nearest_lap(way, lap, place)


def _free_lap(teeth: int, lap: int, begin: Fraction) -> Iterator[IndexStop]:
    for k in range(teeth + 1):
        place = (begin + Fraction(k, teeth)) % 1
        yield IndexStop(k + 1, lap, place, place, Fraction(0), f"{degrees_text(place)}°")


def _nearest_lap(way: Way, lap: int, begin: Fraction) -> Iterator[IndexStop]:
    """Each stop is rounded within its turn of the work, so that every turn is rounded alike, and
    read with the turns before it."""
    under, of = begin.denominator * way.teeth, way.scale.count
    for k in range(way.teeth + 1):
        turns, over = divmod(begin.numerator * way.teeth + k * begin.denominator, under)
        count = nearest_position(over * of, under)
        error = Fraction(count * under - over * of, of * under)
        text = shown(way.scale, count + turns * of)
        yield IndexStop(k + 1, lap, Fraction(over, under), Fraction(count, of), error, text)


def _compound_lap(
    way: Way, move: Move, lap: int, begin: Fraction, start: tuple[int, Fraction]
) -> Iterator[IndexStop]:
    first, off = start
    made = (lap - 1) * way.teeth
    for k in range(way.teeth + 1):
        wanted = (begin + Fraction(k * move.spaces, way.teeth)) % 1
        error = off + k * way.gathers
        text = shown_compound(way.scale, first, move, k, made)
        yield IndexStop(k + 1, lap, wanted, wanted + error, error, text)
