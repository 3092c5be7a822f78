"""What a land may be off its size: the one answer for the error budget, the stops and trial cuts.

By `[tolerance] land`, plus and minus or a class, or the usual where the part gives none.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from profilegen.errors import InputError

if TYPE_CHECKING:
    from profilegen.part.part import Part
    from profilegen.wheels.wheel import Wheel


def land_tolerance(part: Part, wheel: Wheel) -> tuple[float, float]:
    """Least and greatest deviation of the land from its size, mm.

    A class that has no value at this size counts as none: what the part asks for there is told as
    wrong by whatever measures it.
    """
    from profilegen.part.limits import deviations_of

    land = wheel.fact("land", 0.0)
    try:
        low, high, _ = deviations_of(part.tolerance, "land", land)
    except InputError:
        low, high, _ = deviations_of(None, "land", land)
    return low, high


def tighter_side(low: float, high: float) -> float:
    """What a land may be off to either side, mm: the lesser of what it may lose and gain, or half
    the range of limits that leave the nominal out or end at it."""
    return min(-low, high) if low < 0 < high else (high - low) / 2


def may_lose(part: Part, wheel: Wheel) -> float:
    """What a land may be off by what the stops are off, mm."""
    return tighter_side(*land_tolerance(part, wheel))
