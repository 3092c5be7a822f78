"""The stops of a wheel on its dividing hardware, with their errors.

Owns: `IndexPlan`: the chosen way, every stop of every lap with what the dial shows, and the
finding of a plan that is not exact. Angles count the way the dial increases, from stop 1 of lap 1.
Stops are put to the nearest position each by itself, so no rounding adds up.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from profilegen.cutting.dividing.hardware import nearest_counts, scales
from profilegen.cutting.dividing.readings import move_words, reading, shown, slips
from profilegen.cutting.dividing.spread import Spread, spread_of
from profilegen.cutting.dividing.ways import Method, Way, nearest_whole, rounded, ways_for
from profilegen.errors import CannotMakeError, Finding, InputError, Problem, Severity
from profilegen.part.dividing.base import DividingTable
from profilegen.units import both_units
from profilegen.wheels.wheel import Rotation

LAND_TOLERANCE = 0.05
"""mm that a land may lose when the part gives no tolerance of it. No published source."""

SMALLEST = Fraction(1, 10**10)
"""Turns. A start of a lap closer than this to a position is that position: floats end here."""


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
        method: of the chosen way; `free` without hardware.
        ways: every way, simplest first.
        way: the chosen one, None without hardware.
        stops: of every lap.
        radius: of the outside, mm.
        spread: how far they are off.
        nearest: the nearest counts that the hardware makes exactly, when it cannot make this one.
        turn: the way the work turns from stop to stop, seen from its free end.
    """

    method: Method
    ways: tuple[Way, ...]
    way: Way | None
    stops: tuple[IndexStop, ...]
    radius: float
    spread: Spread
    nearest: tuple[int, ...] = ()
    turn: Rotation = "counter-clockwise"

    @property
    def exact(self) -> bool:
        """Whether every stop of every lap stands where it should."""
        return self.spread.worst == 0

    @property
    def laps(self) -> tuple[int, ...]:
        """The numbers of the laps."""
        return tuple(sorted({stop.lap for stop in self.stops}))

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


def _errors(stops: Sequence[IndexStop]) -> list[list[Fraction]]:
    """The errors of each lap's stops in their order round the wheel, turns."""
    laps: dict[int, list[IndexStop]] = {}
    for stop in stops:
        laps.setdefault(stop.lap, []).append(stop)
    return [
        [stop.error for stop in sorted(lap, key=lambda s: s.angle % 360)] for lap in laps.values()
    ]


def index_plan(
    table: DividingTable | None,
    teeth: int,
    starts: Sequence[float],
    radius: float,
    way: int = 1,
    reverse: bool = False,
) -> IndexPlan:
    """Every stop on the hardware.

    Args:
        table: the hardware, or None for angles alone.
        teeth: N, 2 to 1000.
        starts: of each lap from stop 1 of lap 1, rad, counter-clockwise seen from the front.
        radius: of the outside, mm.
        way: the number of the way to take, from 1.
        reverse: whether the dial increases clockwise seen from the front.

    Raises:
        CannotMakeError: the hardware has fewer positions than N.
        InputError: there is no such way.
    """
    begins = [_turns(-start if reverse else start) for start in starts]
    if table is None:
        free = tuple(_free(teeth, begins))
        return IndexPlan("free", (), None, free, radius, spread_of(_errors(free)))
    ways = _thinned(ways_for(table, teeth), begins)
    if not ways:
        raise CannotMakeError(_too_many(table, teeth))
    if not 1 <= way <= len(ways):
        allowed = f"1 to {len(ways)}"
        raise InputError(Problem("--way", "there is no such way", str(way), allowed))
    chosen = _best(ways, begins) if way == 1 else ways[way - 1]
    near = () if ways[0].exact else nearest_counts(table, teeth)
    stops = tuple(_stops(chosen, begins))
    spread = spread_of(_errors(stops))
    return IndexPlan(chosen.method, ways, chosen, stops, radius, spread, near)


def _turns(start: float) -> Fraction:
    """The start of a lap as an exact share of a turn, 0 to less than 1."""
    return Fraction(round(start / (2 * math.pi) * 10**12), 10**12) % 1


def _best(ways: tuple[Way, ...], begins: Sequence[Fraction]) -> Way:
    """The first way, or one as simple and as exact that comes closer to the start of every lap."""
    alike = [w for w in ways if w.method == ways[0].method and w.worst == ways[0].worst]

    def off(way: Way) -> Fraction:
        return max(abs(rounded(b, way.scale) - b) for b in begins)

    return min(alike, key=off)


def _thinned(ways: tuple[Way, ...], begins: Sequence[Fraction]) -> tuple[Way, ...]:
    """The ways with one of those that are all whole turns of the crank, any circle being as good:
    the one that comes closest to the start of every lap."""
    whole = [w for w in ways if w.method == "plain" and w.exact and w.scale.ratio % w.teeth == 0]
    if not whole:
        return ways
    return (_best(tuple(whole), begins), *(way for way in ways if way not in whole))


def _free(teeth: int, begins: Sequence[Fraction]) -> Iterator[IndexStop]:
    for lap, begin in enumerate(begins, 1):
        for k in range(teeth):
            place = (begin + Fraction(k, teeth)) % 1
            yield IndexStop(k + 1, lap, place, place, Fraction(0), f"{degrees(place):.4f}°")


def _stops(way: Way, begins: Sequence[Fraction]) -> Iterator[IndexStop]:
    for lap, begin in enumerate(begins, 1):
        base = rounded(begin, way.scale)
        begin = base if abs(base - begin) < SMALLEST else begin
        for k in range(way.teeth):
            yield _moved(way, lap, k, begin, base) if way.move else _plain(way, lap, k, begin)


def _plain(way: Way, lap: int, k: int, begin: Fraction) -> IndexStop:
    under = begin.denominator * way.teeth
    over = (begin.numerator * way.teeth + k * begin.denominator) % under
    wanted, count = Fraction(over, under), nearest_whole(over * way.scale.count, under)
    stands = Fraction(count, way.scale.count)
    text = shown(way.scale, count % way.scale.count)
    return IndexStop(k + 1, lap, wanted, stands, stands - wanted, text)


def _moved(way: Way, lap: int, k: int, begin: Fraction, base: Fraction) -> IndexStop:
    move = way.move
    if move is None:
        raise ValueError("a way without a move")
    each = Fraction(move.spaces, way.teeth)
    if way.method == "compound":
        each = move.crank / way.scale.ratio
    wanted = begin + Fraction(k * move.spaces, way.teeth)
    laps = int(wanted)
    stands = base + k * each - laps
    start = "" if base == 0 else f"from {reading(way.scale, base)}: "
    text = f"{start}{k} x ({move_words(move)})"
    return IndexStop(k + 1, lap, wanted - laps, stands, stands - wanted + laps, text)


def again(plan: IndexPlan, lap: int) -> IndexStop:
    """Stop N + 1 of a lap, which is its stop 1."""
    of_lap = [stop for stop in plan.stops if stop.lap == lap]
    return replace(of_lap[0], stop=len(of_lap) + 1)


def _too_many(table: DividingTable, teeth: int) -> Finding:
    most = max(scale.count for scale in scales(table))
    text = (
        f"the hardware has only {most} positions in a turn, too few for {teeth} stops: "
        f"make wheel.teeth at most {most}, or give [dividing] with more positions"
    )
    return Finding("index-too-coarse", "refused", text, "dividing", teeth, most)


def index_findings(
    plan: IndexPlan, allow_error: bool = False, may_lose: float = LAND_TOLERANCE
) -> tuple[Finding, ...]:
    """The finding of a plan that is not exact: refused unless allowed, then a caution, or a note
    when no land is off by more than it may lose, mm."""
    if plan.exact:
        return ()
    error = plan.mm(plan.spread.space)
    within, off = error <= may_lose, plan.spread.worst
    text = (
        f"the stops are not exact: a stop is up to {arcmin(off):.3f} arc minutes, "
        f"{both_units(plan.mm(off))} round the outside, off its place, and a land up to "
        f"{both_units(error)} off its width, {'within' if within else 'more than'} the "
        f"{both_units(may_lose)} that it may lose; {_would_pass(plan)}"
    )
    severity: Severity = "refused" if not allow_error else "note" if within else "caution"
    where = "wheel.teeth" if plan.nearest else "dividing"
    return (Finding("index-inexact", severity, text, where, error, may_lose),)


def _would_pass(plan: IndexPlan) -> str:
    exact = [n for n, way in enumerate(plan.ways, 1) if way.exact and way is not plan.way]
    said = ["profilegen stops --allow-error takes it as it is"]
    if exact and not (plan.way and plan.way.exact):
        said.append(f"--way {exact[0]} ({plan.ways[exact[0] - 1].method}) is exact")
    if plan.nearest:
        counts = " and ".join(map(str, plan.nearest))
        said.append(f"exact with wheel.teeth {counts}")
    return ", ".join(said)


def cost_words(plan: IndexPlan) -> str:
    """What one wrong position costs, or an empty text without hardware."""
    if plan.way is None:
        return ""
    said = [
        f"{name} wrong costs {arcmin(step):.2f} arc minutes, {both_units(plan.mm(step))} round the "
        f"outside"
        for name, step in slips(plan.way.scale)
    ]
    return "; ".join(said)
