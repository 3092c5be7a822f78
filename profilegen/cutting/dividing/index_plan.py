"""The stops of a wheel on its dividing hardware, with their errors.

Owns: `IndexPlan`: the chosen way, every stop of every lap with what the dial shows, and the
finding of a plan that is not exact. Angles count the way the dial increases, from stop 1 of lap 1.
Stops are put to the nearest position each by itself, so no rounding adds up.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import TYPE_CHECKING

from profilegen.cutting.dividing.hardware import is_worm, nearest_counts, scales
from profilegen.cutting.dividing.readings import shown, shown_compound
from profilegen.cutting.dividing.spread import Lands, Spread, spread_of
from profilegen.cutting.dividing.ways import (
    Method,
    Move,
    Way,
    compound_starts,
    lap_places,
    ways_for,
)
from profilegen.errors import CannotMakeError, Finding, InputError, Problem, Severity
from profilegen.units import DecimalMark, Unit, both_units, format_quotient, nearest_whole

if TYPE_CHECKING:
    from profilegen.part.dividing.base import DividingTable
    from profilegen.wheels.wheel import Rotation

LAND_TOLERANCE = 0.05
"""mm that a land may lose when the part gives no tolerance of it. No published source."""

NO_PLATES = (
    "[dividing] gives no plates, so only whole turns of the crank are possible: write what plates "
    "the head has"
)

LISTED = "leave it out, and profilegen stops lists the ways by number"

FINEST = 10**9
"""Positions in a turn: the start of a lap that a float gives is taken as the nearest fraction of a
turn with no greater denominator, so that what is meant as a position of a plate is one."""


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


@dataclass(frozen=True, slots=True)
class IndexPlan:
    """Every stop by one way.

    Attributes:
        ways: every way, simplest first.
        way: the chosen one, None without hardware.
        stops: of every lap.
        returns: stop N + 1 of every lap, which must be its stop 1 again.
        radius: of the outside, mm.
        spread: how far they are off.
        nearest: the nearest counts that the hardware makes exactly, when it cannot make this one.
        turn: the way the work turns from stop to stop, seen from its free end.
        part_teeth: the part's own count, when the plan is for another.
        without_plates: whether it is for a worm head of which no plate is given.
    """

    ways: tuple[Way, ...]
    way: Way | None
    stops: tuple[IndexStop, ...]
    returns: tuple[IndexStop, ...]
    radius: float
    spread: Spread
    nearest: tuple[int, ...] = ()
    turn: Rotation = "counter-clockwise"
    part_teeth: int | None = None
    without_plates: bool = False

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
    def laps(self) -> tuple[tuple[IndexStop, ...], ...]:
        """The stops of each lap."""
        count = self.teeth
        return tuple(self.stops[at : at + count] for at in range(0, len(self.stops), count))

    @property
    def step(self) -> Fraction:
        """What one wrong position of the hardware turns the work, turns; 0 without hardware."""
        return self.way.scale.step if self.way else Fraction(0)

    def mm(self, turns: Fraction) -> float:
        """A turn of the work as a way round the outside, mm."""
        return float(turns) * 2 * math.pi * self.radius


def arcmin(turns: Fraction) -> float:
    """A share of a turn in minutes of arc."""
    return turns.numerator * 21600 / turns.denominator


def degrees(turns: Fraction) -> float:
    """A share of a turn in degrees."""
    return turns.numerator * 360 / turns.denominator


def arcmin_text(turns: Fraction, decimal: DecimalMark = "point") -> str:
    """A share of a turn in minutes of arc, three places."""
    return format_quotient(turns.numerator * 21600, turns.denominator, 3, decimal=decimal)


def degrees_text(turns: Fraction, decimal: DecimalMark = "point") -> str:
    """A share of a turn in degrees within one turn, four places."""
    steps = nearest_whole(turns.numerator * 3600000, turns.denominator) % 3600000
    return format_quotient(steps, 10000, 4, decimal=decimal)


def index_plan(
    table: DividingTable | None,
    teeth: int,
    starts: Sequence[float],
    radius: float,
    way: int | None = None,
    reverse: bool = False,
    lands: Lands | None = None,
    key: str = "--way",
) -> IndexPlan:
    """Every stop on the hardware.

    Args:
        table: the hardware, or None for angles alone.
        teeth: N, 2 to 1000.
        starts: of each lap from stop 1 of lap 1, rad, counter-clockwise seen from the front.
        radius: of the outside, mm.
        way: the number of the way to take, from 1; None for the simplest, or one as simple that
            comes closer to the start of every lap.
        reverse: whether the dial increases clockwise seen from the front.
        lands: which laps form the lands; None when each lap forms whole spaces.
        key: what gave the number of the way.

    Raises:
        CannotMakeError: the hardware has fewer positions than N.
        InputError: there is no such way.
    """
    begins = [_turns(-start if reverse else start) for start in starts]
    ways = () if table is None else ways_for(table, teeth, begins)
    if table is not None and not ways:
        raise CannotMakeError(_too_many(table, teeth))
    chosen = _chosen(ways, way, key)
    laps = [list(lap) for lap in _laps(chosen, teeth, begins)]
    near = () if table is None or ways[0].even else nearest_counts(table, teeth)
    return IndexPlan(
        ways,
        chosen,
        tuple(stop for lap in laps for stop in lap[:-1]),
        tuple(lap[-1] for lap in laps),
        radius,
        spread_of([_round_the_wheel(lap[:-1], chosen) for lap in laps], lands),
        near,
        without_plates=table is not None and _bare_worm(table),
    )


def _bare_worm(table: DividingTable) -> bool:
    return is_worm(table) and not table.plates


def _turns(start: float) -> Fraction:
    """The start of a lap as a share of a turn, 0 to less than 1."""
    return Fraction(start / (2 * math.pi)).limit_denominator(FINEST) % 1


def _chosen(ways: tuple[Way, ...], number: int | None, key: str) -> Way | None:
    if not ways and number is None:
        return None
    if number is None:
        alike = [w for w in ways if (w.method, w.even) == (ways[0].method, ways[0].even)]
        return min(alike, key=lambda way: way.worst)
    if not 1 <= number <= len(ways):
        listed = f"1 to {len(ways)}" if len(ways) > 1 else "1, the only one"
        allowed = listed if ways else "only with [dividing] in the part file"
        raise InputError(Problem(key, "there is no such way", str(number), allowed, hint=LISTED))
    return ways[number - 1]


def _round_the_wheel(lap: Sequence[IndexStop], way: Way | None) -> list[Fraction]:
    """The errors of a lap's stops, space by space round the wheel, turns."""
    errors, spaces = [Fraction(0)] * len(lap), way.spaces if way else 1
    for k, stop in enumerate(lap):
        errors[k * spaces % len(lap)] = stop.error
    return errors


def _laps(way: Way | None, teeth: int, begins: Sequence[Fraction]) -> Iterator[Iterator[IndexStop]]:
    """The stops of each lap, and its stop 1 once more as the next."""
    if way is not None and way.method == "compound" and way.move is not None:
        starts = compound_starts(way, begins)
        for lap, (begin, start) in enumerate(zip(begins, starts, strict=True), 1):
            yield _compound_lap(way, way.move, lap, begin, start)
        return
    for lap, place in enumerate(lap_places(begins), 1):
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
        count = nearest_whole(over * of, under)
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


def _too_many(table: DividingTable, teeth: int) -> Finding:
    most = max(scale.count for scale in scales(table))
    text = (
        f"the hardware has only {most} positions in a turn, too few for {teeth} stops: "
        f"make wheel.teeth at most {most}, or give [dividing] with more positions"
    )
    if _bare_worm(table):
        text = f"{NO_PLATES}; {text}"
    return Finding("index-too-coarse", "refused", text, "dividing", teeth, most)


def index_findings(
    plan: IndexPlan,
    allow_error: bool = False,
    may_lose: float = LAND_TOLERANCE,
    unit: Unit = "mm",
    decimal: DecimalMark = "point",
) -> tuple[Finding, ...]:
    """The finding of a plan that is not exact: refused unless allowed, then a caution, or a note
    when no land is off by more than it may lose, mm."""
    if plan.exact:
        return ()

    def both(mm: float) -> str:
        return both_units(mm, first=unit, decimal=decimal)

    error, off = plan.mm(plan.spread.land), plan.spread.worst
    within = error <= may_lose
    lead = "the stops are not exact"
    if within:
        taken = "" if allow_error else ": say --allow-error to take it"
        lead += f", though within what the land may lose{taken}"
    text = (
        f"{lead}; a stop is up to {arcmin_text(off, decimal)} arc minutes, "
        f"{both(plan.mm(off))} round the outside, off its place, and a land up to "
        f"{both(error)} off its width, where it may lose "
        f"{'' if within else 'only '}{both(may_lose)}"
    )
    advice = "; ".join([text, *_would_pass(plan, within, allow_error)])
    severity: Severity = "refused" if not allow_error else "note" if within else "caution"
    where = "wheel.teeth" if plan.nearest and not within else "dividing"
    where = "dividing.plates" if plan.without_plates else where
    return (Finding("index-inexact", severity, advice, where, error, may_lose),)


def _would_pass(plan: IndexPlan, within: bool, allowed: bool) -> Iterator[str]:
    """What to do about a plan that is not exact: other counts last, and only when too much of a
    land is lost."""
    if not allowed and not within:
        yield "say --allow-error to take it all the same"
    exact = next((n for n, way in enumerate(plan.ways, 1) if way.exact), None)
    if exact is not None:
        method = plan.ways[exact - 1].method
        in_file = "" if plan.part_teeth else f", in the part file [dividing] way = {exact}"
        yield f"--way {exact} ({method}) is exact{in_file}"
    if plan.without_plates:
        yield NO_PLATES
    if plan.nearest and not within:
        yield f"exact with wheel.teeth {' and '.join(map(str, plan.nearest))}"
