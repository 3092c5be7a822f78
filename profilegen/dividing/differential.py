"""Differential dividing: change wheels turn the plate while the crank turns.

Owns: trains of two or four of the given wheels that make N exact. The crank moves f turns against
the plate for each stop; the train from spindle to plate is ratio - N f, the plate turning with the
crank when that is positive (the principle: the crank's whole movement in one turn of the work is
the ratio). While the train is engaged, N f turns of the crank against the plate are one turn of the
work, wherever it starts. Refuses: idlers' sizes and whether wheels fit on their studs.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction
from itertools import combinations
from math import gcd
from typing import TYPE_CHECKING

from profilegen.dividing.hardware import Scale, scales
from profilegen.dividing.way import Move, Way

if TYPE_CHECKING:
    from profilegen.part.dividing_tables import WormDividing

STEEPEST = 6
"""The greatest train looked for."""

Train = tuple[int, ...]


def differential_ways(table: WormDividing, teeth: int) -> tuple[Way, ...]:
    """Every circle and train that makes N exact, two wheels before four, one for each circle."""
    if not table.change_wheels:
        return ()
    known = trains_of(table.change_wheels)
    found = list[Way]()
    for scale in scales(table):
        ways = list(on_circle(table.ratio, teeth, scale, known))
        found += sorted(ways, key=_simple)[:1]
    return tuple(sorted(found, key=_simple))


def on_circle(
    ratio: int, teeth: int, scale: Scale, known: dict[tuple[int, int], Train]
) -> Iterator[Way]:
    """Ways with a movement of the crank close to ratio / N on one circle.

    Args:
        ratio: turns of the crank for one turn of the work.
        teeth: N.
        scale: of the circle that the crank moves on.
        known: trains at hand, as `trains_of` gives them.
    """
    middle = round(Fraction(ratio * scale.circle, teeth))
    for holes in range(max(1, middle - 4), middle + 5):
        train = ratio - teeth * Fraction(holes, scale.circle)
        if train == 0 or abs(train) > STEEPEST:
            continue
        wheels = known.get((abs(train.numerator), train.denominator))
        if wheels is None:
            continue
        turns, rest = divmod(holes, scale.circle)
        move = Move(turns, (rest,), (scale.circle,), 1, wheels, train > 0)
        engaged = replace(scale, count=teeth * holes)
        yield Way("differential", teeth, engaged, move, Fraction(0), even=True)


def trains_of(wheels: Train) -> dict[tuple[int, int], Train]:
    """Value of a train in lowest terms, (numerator, denominator) -> wheels, two before four.

    Args:
        wheels: tooth counts of the change wheels at hand; a count that stands twice is there twice.
    """
    found: dict[tuple[int, int], Train] = {}
    for first, second in combinations(wheels, 2):
        for driver, driven in ((first, second), (second, first)):
            _note(found, driver, driven, (driver, driven))
    for (i, a), (k, c) in combinations(enumerate(wheels), 2):
        rest = (*wheels[:i], *wheels[i + 1 : k], *wheels[k + 1 :])
        for b, d in combinations(rest, 2):
            _note(found, a * c, b * d, (a, b, c, d))
    return found


def _note(found: dict[tuple[int, int], Train], over: int, under: int, wheels: Train) -> None:
    common = gcd(over, under)
    found.setdefault((over // common, under // common), wheels)


def _simple(way: Way) -> tuple[int, int, int]:
    move = way.move
    return (len(move.wheels), way.scale.circle, sum(move.holes)) if move else (0, 0, 0)
