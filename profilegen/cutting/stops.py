"""The stops of the indexing head.

Owns their numbering and angles: laps in order, stops from 1 in each lap. An angle is how far the
wheel has been turned since stop 1 of lap 1, counter-clockwise positive seen from its front, for
either hand; a test cuts two-lap wheels by polygons in this sense.
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
        start: of its lap from stop 1 of lap 1, rad: the wheel angle of the lap's cut.
        teeth: of the wheel.
    """

    stop: int
    lap: int
    start: float
    teeth: int

    @property
    def degrees(self) -> float:
        """From stop 1 of lap 1, deg: whole shares of 360, so that no rounding adds up."""
        return math.degrees(self.start) + 360.0 * (self.stop - 1) / self.teeth


def stops_for(wheel: Wheel, cuts: tuple[Cut, ...]) -> tuple[Stop, ...]:
    """Every stop of every lap; one lap from 0 when no cut is known."""
    laps = [(cut.lap, cut.wheel_angle) for cut in cuts] or [(1, 0.0)]
    return tuple(
        Stop(k + 1, lap, start, wheel.teeth) for lap, start in laps for k in range(wheel.teeth)
    )
