"""The stops of the indexing head.

Owns their numbering and angles: laps in order, stops from 1 in each lap, angles counted from stop 1
of lap 1 in the sense in which the spaces follow each other when the wheel turns one way throughout.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from profilegen.cutting.poses import Cut
from profilegen.wheels.wheel import Wheel


@dataclass(frozen=True, slots=True)
class Stop:
    """One angular position of the indexing head.

    Attributes:
        stop: from 1 in each lap.
        lap: from 1.
        angle: from stop 1 of lap 1, rad; a second lap starts at the wheel angle of its cut.
    """

    stop: int
    lap: int
    angle: float


def stops_for(wheel: Wheel, cuts: tuple[Cut, ...]) -> tuple[Stop, ...]:
    """Every stop of every lap; one lap from 0 when no cut is known."""
    laps = [(cut.lap, cut.wheel_angle) for cut in cuts] or [(1, 0.0)]
    return tuple(
        Stop(k + 1, lap, start + math.tau * k / wheel.teeth)
        for lap, start in laps
        for k in range(wheel.teeth)
    )
