"""Where the laps of a wheel begin on the head, and how the work comes to every stop.

The work is only ever turned one way, in every lap and from one lap to the next, so that backlash
lies on one side all through. A lap begins at the first of its own stops that comes: less than one
pitch on from the closing stop of the lap before, or at that stop itself. Only a compound way begins
one later, where that is at a hole.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import pairwise

from profilegen.dividing.spread import Lands

FINEST = 10**9
"""Positions in a turn: the start of a lap that a float gives is taken as the nearest fraction of a
turn with no greater denominator, so that what is meant as a position of a plate is one."""

SAME_STOP = 1e-7
"""Of a pitch: laps that begin nearer than this to each other's stops begin at them. A wheel of 200
mm diameter and 2 teeth is 0.00003 mm off by it."""


@dataclass(frozen=True, slots=True)
class Laps:
    """Where each lap begins.

    Attributes:
        begins: of each lap, turns since stop 1 of lap 1 in the direction in which stops count,
            whole turns of the laps before left out; none lies before the one before it.
        lands: which stops leave a land between them; None when each lap forms whole spaces.
    """

    begins: tuple[Fraction, ...] = (Fraction(0),)
    lands: Lands | None = None

    def places(self, spaces: int = 1) -> tuple[Fraction, ...]:
        """The same with the whole turns of the laps before: what the head counts.

        Args:
            spaces: from one stop to the next, and so turns of the work in a lap.
        """
        return tuple(begin + lap * spaces for lap, begin in enumerate(self.begins))

    def later(self, teeth: int, stops: Sequence[int]) -> Laps:
        """The same stops, each lap begun so many of them later.

        Args:
            teeth: N: a stop is 1/N turn of the work.
            stops: for each lap, how many stops later it begins.
        """
        begins = [at + Fraction(n, teeth) for at, n in zip(self.begins, stops, strict=True)]
        lands = self.lands
        if lands is not None:
            step = lands.step + stops[lands.backs - 1] - stops[lands.faces - 1]
            lands = replace(lands, step=step)
        return Laps(tuple(begins), lands)


ONE_LAP = Laps()
"""Of a wheel that one lap finishes."""


def laps_of(
    starts: Sequence[float], teeth: int, reverse: bool = False, lands: Lands | None = None
) -> Laps:
    """The laps of a wheel, each begun at the first of its stops that comes.

    Args:
        starts: wheel angle of each lap's cut, rad, counter-clockwise seen from the front.
        teeth: N; a whole pitch more or less makes the same stops.
        reverse: whether stops count clockwise seen from the front.
        lands: which stops leave a land between them when each lap begins at its own start.
    """
    own = Laps(tuple(_turns(start - starts[0], teeth, reverse) for start in starts), lands)
    later = [0]
    for before, after in pairwise(own.begins):
        later.append(later[-1] - (after - before) * teeth // 1)
    return own.later(teeth, later)


def _turns(start: float, teeth: int, reverse: bool) -> Fraction:
    """A start as turns the way the stops count; on a stop when it is as good as on one."""
    turns = (-start if reverse else start) / (2 * math.pi)
    pitches = round(turns * teeth)
    if abs(turns * teeth - pitches) < SAME_STOP:
        return Fraction(pitches, teeth)
    return Fraction(turns).limit_denominator(FINEST)
