"""One thing that is measured."""

from __future__ import annotations

from dataclasses import dataclass

from profilegen.figures import Quantity
from profilegen.geometry.tolerance import SAME_POINT
from profilegen.part.limits import Limits


@dataclass(frozen=True, slots=True)
class Feature:
    """One thing that is measured.

    Attributes:
        key: for programs, and the key of `[tolerance]` where it has one.
        label: in the trade's words.
        limits: nominal, least and greatest, mm or rad.
        instrument: what it is commonly measured with.
        quantity: `length` or `angle`.
        over: diameter of the pins it is measured over, mm; or None.
    """

    key: str
    label: str
    limits: Limits
    instrument: str
    quantity: Quantity = "length"
    over: float | None = None


def combined(nominal: float, values: tuple[float, ...], source: str) -> Limits:
    """Limits of a size that follows from others.

    A nominal that rounding alone puts outside them widens them; one that a blank at hand puts
    outside what the print allows, or a class such as F8, does not.

    Args:
        nominal: mm or rad, as the size is.
        values: what it comes to with the others at their limits, in the same unit.
        source: where the limits come from, in words.
    """
    low, high = min(values), max(values)
    if low - SAME_POINT <= nominal <= high + SAME_POINT:
        low, high = min(nominal, low), max(nominal, high)
    return Limits(nominal, low, high, source)
