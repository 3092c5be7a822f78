"""Every feasible way to N stops, best first.

Owns: `Way`, the plain ways and the order. Refuses: numerals (`readings`) and stops (`index_plan`).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction
from math import lcm
from typing import TYPE_CHECKING

from profilegen.dividing.hardware import Scale, is_worm, nearest_position, scales
from profilegen.dividing.laps import ONE_LAP, Laps
from profilegen.dividing.rounding import spacing_rounding, worst_rounding
from profilegen.dividing.spread import spread_of
from profilegen.dividing.way import METHODS, Method, Way

if TYPE_CHECKING:
    from profilegen.part.dividing_tables import DividingTable


def laps_by(way: Way, laps: Laps) -> Laps:
    """The laps as a way begins them: a compound one each at that stop, the first of several, which
    lies nearest to a hole of its first circle, since there the crank alone is set."""
    if way.method != "compound" or len(laps.begins) == 1:
        return laps
    later, places = [0], _holes_at(way, laps)
    one = Fraction(way.scale.count, way.teeth)
    under = lcm(one.denominator, *(place.denominator for place in places))
    step = int(one * under)
    for place in places[1:]:
        first = int(place * under) + later[-1] * step
        rests = [(first + k * step) % under for k in range(way.teeth)]
        nearest = min(range(way.teeth), key=lambda k: min(rests[k], under - rests[k]))
        later.append(later[-1] + nearest)
    return laps.later(way.teeth, later)


def _holes_at(way: Way, laps: Laps) -> list[Fraction]:
    """Where the crank should stand against the plate at stop 1 of each lap of a compound way, in
    holes of the first circle from stop 1 of lap 1.

    A lap leaves the plate where its moves have brought it; the crank alone sets the next one.
    """
    if way.move is None or way.method != "compound":
        raise ValueError("a compound way is needed")
    first, second = way.move.circles
    plate = Fraction(way.teeth * way.move.holes[1], second)
    places = laps.places(way.move.spaces)
    return [(at * way.scale.ratio - lap * plate) * first for lap, at in enumerate(places)]


def compound_starts(way: Way, laps: Laps) -> tuple[tuple[int, Fraction], ...]:
    """Where the crank stands at stop 1 of each lap, and what the work is off there.

    Returns:
        For each lap the holes of the first circle from stop 1 of lap 1, crank against plate, and
        the error where it stands less where it should, turns of the work.
    """
    found = []
    for holes in _holes_at(way, laps):
        count = nearest_position(holes.numerator, holes.denominator)
        found.append((count, (count - holes) / way.scale.count))
    return tuple(found)


def worst_of(way: Way, laps: Laps) -> Fraction:
    """The greatest error of a stop of any lap, turns; a compound way gathers errors in each."""
    if way.method != "compound":
        return max(worst_rounding(way.teeth, way.scale, begin) for begin in laps.begins)
    last = way.gathers * (way.teeth - 1)
    return max(max(abs(off), abs(off + last)) for off in _offs(way, laps))


def spacing_of(way: Way, laps: Laps) -> Fraction:
    """The greatest error between neighbouring stops of a lap or across a land, turns."""
    if way.method != "compound":
        return spacing_rounding(way.teeth, way.scale, laps)
    gathered = [[off + k * way.gathers for k in range(way.teeth)] for off in _offs(way, laps)]
    return spread_of([round_the_wheel(lap, way.spaces) for lap in gathered], laps.lands).spacing


def _offs(way: Way, laps: Laps) -> list[Fraction]:
    return [off for _, off in compound_starts(way, laps)]


def round_the_wheel(errors: Sequence[Fraction], spaces: int) -> list[Fraction]:
    """The errors of a lap's stops, told space by space round the wheel, turns.

    Args:
        errors: in the order of their making, one a stop, turns of the work.
        spaces: from each stop to the next made; it has no divisor in common with their count.
    """
    found = [Fraction(0)] * len(errors)
    for k, error in enumerate(errors):
        found[k * spaces % len(errors)] = error
    return found


def told_of(way: Way, laps: Laps) -> Way:
    """The way with its errors in these laps."""
    laps = laps_by(way, laps)
    return replace(way, worst=worst_of(way, laps), spacing=spacing_of(way, laps))


def ways_for(table: DividingTable, teeth: int, laps: Laps = ONE_LAP) -> tuple[Way, ...]:
    """Every way, best first: exact ones before others, of these direct or plain ones before
    compound and differential ones; then those that are not exact, least error of spacing first.

    Args:
        table: the hardware.
        teeth: N.
        laps: where each lap begins.

    Returns:
        The ways; none when no scale has N positions.
    """
    ways = list(_first_ways(table, teeth, laps))
    if is_worm(table):
        from profilegen.dividing.compound import compound_ways
        from profilegen.dividing.differential import differential_ways

        half = Fraction(1, 2 * teeth)
        than = Fraction(0) if any(way.even for way in ways) else min([half, *map(_worst, ways)])
        further = (*compound_ways(table, teeth, than), *differential_ways(table, teeth))
        ways += _one_of_whole_turns([told_of(way, laps) for way in further])
    return tuple(sorted(ways, key=_rank))


def _worst(way: Way) -> Fraction:
    return way.worst


def _rank(way: Way) -> tuple[bool, Fraction, Fraction, int]:
    """Of a way among others: by its errors, then simple before compound before differential."""
    return not way.exact, way.spacing, way.worst, METHODS.index(way.method)


def _first_ways(table: DividingTable, teeth: int, laps: Laps) -> tuple[Way, ...]:
    """The direct or plain ways that are even; where none is exact, the nearest one too."""
    method: Method = "plain" if is_worm(table) else "direct"
    known = [scale for scale in scales(table) if scale.count >= teeth]
    plain = [_plain(method, teeth, scale, laps) for scale in known]
    even = _one_of_whole_turns([way for way in plain if way.even])
    if not plain or any(way.exact for way in even):
        return tuple(even)
    nearest = min(plain, key=_rank)
    return (*even, nearest) if nearest not in even else tuple(even)


def _plain(method: Method, teeth: int, scale: Scale, laps: Laps) -> Way:
    even = scale.count % teeth == 0
    return told_of(Way(method, teeth, scale, None, Fraction(0), even), laps)


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
