"""Every feasible way to N stops, simplest first.

Owns: `Way`, the plain ways and the order. Refuses: numerals (`readings`) and stops (`index_plan`).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from math import ceil, gcd
from typing import TYPE_CHECKING, Literal

from profilegen.cutting.dividing.hardware import Scale, is_worm, scales
from profilegen.units import nearest_whole

if TYPE_CHECKING:
    from profilegen.part.dividing.base import DividingTable

Method = Literal["free", "direct", "plain", "compound", "differential"]


@dataclass(frozen=True, slots=True)
class Move:
    """What is done at the crank for each stop of a compound or differential way.

    Attributes:
        turns: whole turns of the crank.
        holes: on each circle, negative against the first one.
        circles: hole counts of the circles, both on one plate.
        spaces: how many stops one move passes over.
        wheels: of a differential train, driver on the spindle first: (driver, driven) or
            (driver, first stud, second stud, driven).
        with_crank: whether the plate turns the same way as the crank; None without a train.
    """

    turns: int
    holes: tuple[int, ...]
    circles: tuple[int, ...]
    spaces: int = 1
    wheels: tuple[int, ...] = ()
    with_crank: bool | None = None

    @property
    def crank(self) -> Fraction:
        """The crank's movement against the plate, turns."""
        pairs = zip(self.holes, self.circles, strict=True)
        return self.turns + sum((Fraction(n, c) for n, c in pairs), Fraction(0))


@dataclass(frozen=True, slots=True)
class Way:
    """One way to N stops.

    Attributes:
        method: how it is done.
        teeth: N.
        scale: positions that the work can stand at, a differential way's train engaged; those of
            the first circle for a compound way.
        move: of a compound or differential way, else None.
        worst: the greatest error of a stop of any lap, turns of the work.
        even: whether the stops of each lap stand exactly a share apart.
    """

    method: Method
    teeth: int
    scale: Scale
    move: Move | None
    worst: Fraction
    even: bool

    @property
    def exact(self) -> bool:
        """Whether every stop of every lap stands where it should."""
        return self.worst == 0

    @property
    def per_stop(self) -> Fraction:
        """Positions of the scale for each stop, but for a compound way; whole when even."""
        return Fraction(self.scale.count, self.teeth)

    @property
    def spaces(self) -> int:
        """Spaces from one stop to the next."""
        return self.move.spaces if self.move else 1

    @property
    def gathers(self) -> Fraction:
        """What each move of a compound way adds to the error, turns; 0 for the others."""
        if self.move is None or self.method != "compound":
            return Fraction(0)
        return self.move.crank / self.scale.ratio - Fraction(self.spaces, self.teeth)


def worst_rounding(teeth: int, scale: Scale, begin: Fraction = Fraction(0)) -> Fraction:
    """The greatest error of N stops from `begin`, each put to the nearest position, turns.

    In positions of the scale the stops lie, whole ones left out, a constant share t apart from the
    least, s, on; the worst is one of the two next to one half.
    """
    share = Fraction(gcd(scale.count, teeth), teeth)
    least = begin * scale.count % share
    below = least + share * ((Fraction(1, 2) - least) // share)
    return max(below, 1 - below - share) / scale.count


def lap_places(begins: Sequence[Fraction], spaces: int = 1) -> tuple[Fraction, ...]:
    """Where each lap begins when the work only ever goes on, turns from stop 1 of lap 1: not before
    the closing stop of the lap before.

    Args:
        begins: where each lap begins within a turn of the work.
        spaces: from one stop to the next, and so turns of the work in a lap.
    """
    found = [begins[0]]
    for begin in begins[1:]:
        found.append(begin + ceil(found[-1] + spaces - begin))
    return tuple(found)


def compound_starts(way: Way, begins: Sequence[Fraction]) -> tuple[tuple[int, Fraction], ...]:
    """Where the crank stands against the plate at stop 1 of each lap, in holes of the first circle
    from stop 1 of lap 1, and what the work is off there, turns.

    A lap leaves the plate where its moves have brought it; the crank alone sets the next one.
    """
    move = way.move
    if move is None or way.method != "compound":
        raise ValueError("a compound way is needed")
    first, second = move.circles
    found = []
    for lap, place in enumerate(lap_places(begins, move.spaces)):
        plate = Fraction(lap * way.teeth * move.holes[1], second)
        holes = (place * way.scale.ratio - plate) * first
        count = nearest_whole(holes.numerator, holes.denominator)
        found.append((count, (count - holes) / way.scale.count))
    return tuple(found)


def worst_of(way: Way, begins: Sequence[Fraction]) -> Fraction:
    """The greatest error of a stop of any lap, turns; a compound way gathers errors in each."""
    if way.method != "compound":
        return max(worst_rounding(way.teeth, way.scale, begin) for begin in begins)
    last = way.gathers * (way.teeth - 1)
    starts = [off for _, off in compound_starts(way, begins)]
    return max(max(abs(start), abs(start + last)) for start in starts)


def ways_for(
    table: DividingTable, teeth: int, begins: Sequence[Fraction] = (Fraction(0),)
) -> tuple[Way, ...]:
    """Every way, simplest first: direct or plain ones that space the stops evenly, then the nearest
    where no way before it is exact; then compound and differential ones.

    Args:
        table: the hardware.
        teeth: N.
        begins: where each lap begins, turns of the work.

    Returns:
        The ways; none when no scale has N positions.
    """
    first = _first_ways(table, teeth, begins)
    if not is_worm(table):
        return first
    from profilegen.cutting.dividing.compound import compound_ways
    from profilegen.cutting.dividing.differential import differential_ways

    half = Fraction(1, 2 * teeth)
    than = Fraction(0) if first and first[0].even else min([half, *(way.worst for way in first)])
    further = (*compound_ways(table, teeth, than), *differential_ways(table, teeth))
    told = [replace(way, worst=worst_of(way, begins)) for way in further]
    return (*first, *_one_of_whole_turns(told))


def _first_ways(table: DividingTable, teeth: int, begins: Sequence[Fraction]) -> tuple[Way, ...]:
    """The direct or plain ways that are even; where none is exact, the nearest one too."""
    method: Method = "plain" if is_worm(table) else "direct"
    known = [scale for scale in scales(table) if scale.count >= teeth]
    plain = [_plain(method, teeth, scale, begins) for scale in known]
    even = _one_of_whole_turns([way for way in plain if way.even])
    if not plain or any(way.exact for way in even):
        return tuple(even)
    nearest = min(plain, key=lambda way: way.worst)
    return (*even, nearest) if nearest not in even else tuple(even)


def _plain(method: Method, teeth: int, scale: Scale, begins: Sequence[Fraction]) -> Way:
    way = Way(method, teeth, scale, None, Fraction(0), scale.count % teeth == 0)
    return replace(way, worst=worst_of(way, begins))


def _one_of_whole_turns(ways: list[Way]) -> list[Way]:
    """The ways with one of each that is all whole turns of the crank, any circle being as good: the
    one that comes closest to the start of every lap."""
    best = dict[tuple[int, tuple[int, ...]], Way]()
    for way in sorted(ways, key=lambda way: way.worst):
        if (known := _whole_turns(way)) is not None:
            best.setdefault(known, way)
    return [way for way in ways if (k := _whole_turns(way)) is None or best[k] is way]


def _whole_turns(way: Way) -> tuple[int, tuple[int, ...]] | None:
    """Turns of the crank for each stop, and the change wheels, of a way that is all whole turns."""
    if way.method == "plain" and way.scale.ratio % way.teeth == 0:
        return way.scale.ratio // way.teeth, ()
    if way.method == "differential" and way.move and not any(way.move.holes):
        return way.move.turns, way.move.wheels
    return None
