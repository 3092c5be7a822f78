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
from profilegen.cutting.dividing.readings import move_words, reading, step_name
from profilegen.cutting.dividing.ways import Method, Way, rounded, ways_for
from profilegen.errors import CannotMakeError, Finding, InputError, Problem, Severity
from profilegen.part.dividing.base import DividingTable

LAND_TOLERANCE = 0.05
"""mm: what an error round the wheel is held against. No published source."""

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
        reading: what the hardware shows.
    """

    stop: int
    lap: int
    wanted: Fraction
    stands: Fraction
    reading: str

    @property
    def error(self) -> Fraction:
        """Where it stands less where it should, turns."""
        return self.stands - self.wanted


@dataclass(frozen=True, slots=True)
class IndexPlan:
    """Every stop by one way.

    Attributes:
        method: of the chosen way; `free` without hardware.
        ways: every way, simplest first.
        way: the chosen one, None without hardware.
        stops: of every lap.
        radius: of the outside, mm.
        nearest: the nearest counts that the hardware makes exactly, when it cannot make this one.
    """

    method: Method
    ways: tuple[Way, ...]
    way: Way | None
    stops: tuple[IndexStop, ...]
    radius: float
    nearest: tuple[int, ...] = ()

    @property
    def exact(self) -> bool:
        """Whether every stop of every lap stands where it should."""
        return all(stop.error == 0 for stop in self.stops)

    @property
    def worst(self) -> Fraction:
        """The greatest error of a stop, which is also what has accumulated, turns."""
        return max((abs(stop.error) for stop in self.stops), default=Fraction(0))

    @property
    def worst_between(self) -> Fraction:
        """The greatest error between one stop and its neighbour round the wheel, turns."""
        return max((_between(self.stops, lap) for lap in self.laps), default=Fraction(0))

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
    return float(turns * 21600)


def _between(stops: Sequence[IndexStop], lap: int) -> Fraction:
    of_lap = sorted((s for s in stops if s.lap == lap), key=lambda s: s.wanted % 1)
    return max(abs(b.error - a.error) for a, b in zip(of_lap, of_lap[1:] + of_lap[:1], strict=True))


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
        return IndexPlan("free", (), None, free, radius)
    ways = ways_for(table, teeth)
    if not ways:
        raise CannotMakeError(_too_many(table, teeth))
    if not 1 <= way <= len(ways):
        allowed = f"1 to {len(ways)}"
        raise InputError(Problem("--way", "there is no such way", str(way), allowed))
    chosen = _best(ways, begins) if way == 1 else ways[way - 1]
    near = () if ways[0].exact else nearest_counts(table, teeth)
    return IndexPlan(chosen.method, ways, chosen, tuple(_stops(chosen, begins)), radius, near)


def _turns(start: float) -> Fraction:
    """The start of a lap as an exact share of a turn, 0 to less than 1."""
    return Fraction(round(start / (2 * math.pi) * 10**12), 10**12) % 1


def _best(ways: tuple[Way, ...], begins: Sequence[Fraction]) -> Way:
    """The first way, or one as simple and as exact that comes closer to the start of every lap."""
    alike = [w for w in ways if w.method == ways[0].method and w.worst == ways[0].worst]

    def off(way: Way) -> Fraction:
        return max(abs(rounded(b, way.scale) - b) for b in begins)

    return min(alike, key=off)


def _free(teeth: int, begins: Sequence[Fraction]) -> Iterator[IndexStop]:
    for lap, begin in enumerate(begins, 1):
        for k in range(teeth):
            place = (begin + Fraction(k, teeth)) % 1
            yield IndexStop(k + 1, lap, place, place, f"{float(place * 360):.4f}°")


def _stops(way: Way, begins: Sequence[Fraction]) -> Iterator[IndexStop]:
    for lap, begin in enumerate(begins, 1):
        base = rounded(begin, way.scale)
        begin = base if abs(base - begin) < SMALLEST else begin
        for k in range(way.teeth):
            yield _moved(way, lap, k, begin, base) if way.move else _plain(way, lap, k, begin)


def _plain(way: Way, lap: int, k: int, begin: Fraction) -> IndexStop:
    wanted = begin + Fraction(k, way.teeth)
    stands = rounded(wanted, way.scale)
    laps = int(wanted)
    return IndexStop(k + 1, lap, wanted - laps, stands - laps, reading(way.scale, stands % 1))


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
    return IndexStop(k + 1, lap, wanted - laps, stands, text)


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


def index_findings(plan: IndexPlan, allow_error: bool = False) -> tuple[Finding, ...]:
    """The finding of a plan that is not exact: refused unless allowed, then a caution or a note."""
    if plan.exact:
        return ()
    error = plan.mm(plan.worst)
    within = error <= LAND_TOLERANCE
    text = (
        f"the stops are not exact: up to {error:.4f} mm ({arcmin(plan.worst):.3f} arc minutes) off "
        f"round the outside, {'within' if within else 'more than'} the {LAND_TOLERANCE} mm that "
        f"the land may vary; {_would_pass(plan)}"
    )
    severity: Severity = "refused" if not allow_error else "note" if within else "caution"
    where = "wheel.teeth" if plan.nearest else "dividing"
    return (Finding("index-inexact", severity, text, where, error, LAND_TOLERANCE),)


def _would_pass(plan: IndexPlan) -> str:
    exact = [n for n, way in enumerate(plan.ways, 1) if way.exact and way is not plan.way]
    said = ["--allow-error takes it as it is"]
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
    off = f"{arcmin(plan.step):.2f} arc minutes, {plan.mm(plan.step):.3f} mm round the outside"
    return f"{step_name(plan.way.scale)} wrong costs {off}"
