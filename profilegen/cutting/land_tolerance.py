"""What a land may be off its size: the one answer for the error budget, the stops and trial cuts.

By `[tolerance] land`, plus and minus or a class, or the usual where the part gives none.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from profilegen.errors import InputError
from profilegen.part.how_measured import LAND

if TYPE_CHECKING:
    from profilegen.forms.wheel import Wheel
    from profilegen.part.part import Part


def land_tolerance(part: Part, wheel: Wheel) -> tuple[float, float]:
    """Least and greatest deviation from its nominal of the size that the depth sets, the land as a
    rule, mm.

    A class that has no value at this size counts as none: what the part asks for there is told as
    wrong by whatever measures it.
    """
    from profilegen.part.limits import deviations_of

    size = wheel.size(wheel.driving)
    if size is None:
        return LAND
    given = (size.key, wheel.fact(size.key), size.measured)
    try:
        low, high, _ = deviations_of(part.tolerance, *given)
    except InputError:
        low, high, _ = deviations_of(None, *given)
    return low, high


def tighter_side(low: float, high: float) -> float:
    """What a land may be off to either side, mm: the lesser of what it may lose and gain, or half
    the range of limits that leave the nominal out or end at it.

    Args:
        low: least deviation from the nominal, mm, with its sign.
        high: greatest, mm.
    """
    return min(-low, high) if low < 0 < high else (high - low) / 2


def may_lose(part: Part, wheel: Wheel) -> float:
    """What a land may be off by what the stops are off, mm."""
    return tighter_side(*land_tolerance(part, wheel))
