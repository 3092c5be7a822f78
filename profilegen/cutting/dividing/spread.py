"""How far stops are off: each, between neighbours, and across the laps that cut one land.

Owns the three figures. Refuses what they mean for a wheel (`index_plan`).
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise


@dataclass(frozen=True, slots=True)
class Spread:
    """The greatest errors of a plan, turns, all 0 or more.

    Attributes:
        worst: of a stop, which is also what has gathered at any stop.
        between: between one stop and its neighbour round the wheel, of one lap.
        space: of what lies between two cuts: between neighbours of one lap, or of two laps.
    """

    worst: Fraction
    between: Fraction
    space: Fraction


def spread_of(laps: Sequence[Sequence[Fraction]]) -> Spread:
    """The spread of the errors of each lap's stops, in their order round the wheel, turns."""
    errors = [error for lap in laps for error in lap]
    if not any(errors):
        return Spread(Fraction(0), Fraction(0), Fraction(0))
    between = max(_steps(lap) for lap in laps)
    across = (abs(b - a) for one, two in pairwise(laps) for a, b in _sides(one, two))
    return Spread(max(max(errors), -min(errors)), between, max((between, *across)))


def _steps(lap: Sequence[Fraction]) -> Fraction:
    return max(abs(lap[k] - lap[k - 1]) for k in range(len(lap)))


def _sides(one: Sequence[Fraction], two: Sequence[Fraction]) -> Iterator[tuple[Fraction, Fraction]]:
    """Each stop of one lap with the stops of the next lap at it and on both its sides."""
    for at, place in enumerate(one):
        yield from ((place, two[(at + k) % len(two)]) for k in (-1, 0, 1))
