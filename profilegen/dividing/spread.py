"""How far stops are off: each, between neighbours, in all, and across a land.

Owns the four figures. Refuses what they mean for a wheel (`index_plan`).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import lcm


@dataclass(frozen=True, slots=True)
class Lands:
    """Which stops of two laps leave a land between them.

    Attributes:
        faces: number of the lap that forms the faces, from 1.
        backs: of the one that forms the backs.
        step: from the stop of a back to that of the face across the land: 1 or -1 spaces.
    """

    faces: int
    backs: int
    step: int


@dataclass(frozen=True, slots=True)
class Spread:
    """The greatest errors of a plan, turns, all 0 or more.

    Attributes:
        worst: of a stop.
        between: between one stop and its neighbour round the wheel, of one lap.
        gathered: between any two stops of one lap: what has gathered from the one to the other.
        land: across a land: between neighbours of one lap, or a back and a face of two laps.
    """

    worst: Fraction
    between: Fraction
    gathered: Fraction
    land: Fraction

    @property
    def spacing(self) -> Fraction:
        """The greatest of what two neighbours, or the stops on both sides of a land, stand too near
        or too far."""
        return max(self.between, self.land)


def spread_of(laps: Sequence[Sequence[Fraction]], lands: Lands | None = None) -> Spread:
    """The spread of the errors of each lap's stops, space by space round the wheel, turns.

    Args:
        laps: the errors of each lap, where a stop stands less where it should, turns of the work.
        lands: which laps form the lands; None when each lap forms whole spaces.
    """
    common = lcm(*{error.denominator for lap in laps for error in lap})
    shares = [[e.numerator * (common // e.denominator) for e in lap] for lap in laps]
    between = max(abs(lap[k] - lap[k - 1]) for lap in shares for k in range(len(lap)))
    found = (
        max(max(max(lap), -min(lap)) for lap in shares),
        between,
        max(max(lap) - min(lap) for lap in shares),
        _across(shares, lands) if lands else between,
    )
    return Spread(*(Fraction(value, common) for value in found))


def _across(laps: Sequence[Sequence[int]], lands: Lands) -> int:
    faces, backs = laps[lands.faces - 1], laps[lands.backs - 1]
    count = len(backs)
    return max(abs(faces[(k + lands.step) % count] - backs[k]) for k in range(count))
