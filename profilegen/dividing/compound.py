"""Compound dividing: two circles of one plate, the crank moved on one and the plate on the other.

Owns: exact moves, and the nearest one where none is exact and it beats what is known.
Refuses: circles on different plates: a plate cannot be changed within a turn of the work.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from itertools import combinations
from math import gcd, lcm
from typing import TYPE_CHECKING

from profilegen.dividing.hardware import Scale
from profilegen.dividing.way import Move, Way

if TYPE_CHECKING:
    from profilegen.part.dividing_tables import WormDividing

MOST_SPACES = 12
"""Spaces that one move may pass over: more would lose the operator."""


def compound_ways(table: WormDividing, teeth: int, than: Fraction) -> tuple[Way, ...]:
    """Exact compound ways, every pair of circles with the fewest spaces at a time, in every split;
    or else the nearest one.

    Args:
        table: the worm head and its plates; both circles of a way are on one plate.
        teeth: N.
        than: greatest error that the nearest one must stay under, turns of the work; 0 asks for
            exact ways alone.
    """
    exact, near = list[Way](), None
    best = than
    for plate, pair in _pairs(table):
        for spaces in _spaces(teeth):
            error = _error(table.ratio, teeth, pair, spaces)
            if error and (exact or error >= best):
                continue
            ways = _ways(table, teeth, plate, pair, spaces)
            if ways and not error:
                exact += ways
                break
            if ways:
                near, best = ways[0], error
    if exact:
        return tuple(sorted(exact, key=_simple))
    return (near,) if near else ()


def _error(ratio: int, teeth: int, pair: tuple[int, int], spaces: int) -> Fraction:
    """What the nearest repeated move has gathered by the last stop, turns of the work."""
    over = ratio * spaces * lcm(*pair) % teeth
    return Fraction(min(over, teeth - over) * (teeth - 1), teeth * lcm(*pair) * ratio)


def _pairs(table: WormDividing) -> Iterator[tuple[int, tuple[int, int]]]:
    for number, plate in enumerate(table.plates, 1):
        for pair in combinations(plate, 2):
            yield number, pair


def _spaces(teeth: int) -> Iterator[int]:
    """Spaces at a time that still come to every stop."""
    return (m for m in range(1, min(MOST_SPACES, teeth - 1) + 1) if gcd(m, teeth) == 1)


def _ways(
    table: WormDividing, teeth: int, plate: int, pair: tuple[int, int], spaces: int
) -> list[Way]:
    """The ways with the crank's movement nearest to the wanted one, fewest holes first; none when
    one circle is enough."""
    first, second = pair
    parts = lcm(first, second)
    wanted = Fraction(table.ratio * spaces, teeth)
    total = Fraction(round(wanted * parts), parts)
    error = abs(total - wanted) / table.ratio * (teeth - 1)
    return [
        Way("compound", teeth, _scale(table, plate, move), move, error, error == 0)
        for move in _splits(total, first, second, spaces)
    ]


def _scale(table: WormDividing, plate: int, move: Move) -> Scale:
    circle = move.circles[0]
    return Scale("crank", table.ratio * circle, circle, table.ratio, plate)


def _splits(total: Fraction, first: int, second: int, spaces: int) -> list[Move]:
    """The moves on two circles that make up a movement, fewest holes first; the circle that is
    counted against the others comes second."""
    if (total * first).denominator == 1 or (total * second).denominator == 1:
        return []
    turns = total.numerator // total.denominator
    whole = int((total - turns) * first * second)
    found = list[Move]()
    for n1 in range(1 - first, first):
        n2, rest = divmod(whole - n1 * second, first)
        if n1 and not rest and 0 < abs(n2) < second:
            holes, circles = ((n1, n2), (first, second)) if n1 > 0 else ((n2, n1), (second, first))
            found.append(Move(turns, holes, circles, spaces))
    return sorted(found, key=lambda move: (sum(map(abs, move.holes)), move.holes))


def _simple(way: Way) -> tuple[int, int]:
    move = way.move
    return (move.spaces, sum(map(abs, move.holes))) if move else (0, 0)
