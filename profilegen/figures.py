"""How a job writes its numbers: one part's unit and decimal mark.

Owns `Figures`, through which every report turns mm and radians into text, so that a sheet never
mixes units or marks.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any, Final, Literal

from profilegen.units import (
    PLACES,
    DecimalMark,
    Rounding,
    Unit,
    both_units,
    format_angle,
    format_length,
    format_number,
)

Quantity = Literal["length", "angle", "number", "count", "text"]
"""What a value is: mm, radians, a number without a unit, a whole number, or words."""

ANGLE: Final = {"quantity": "angle"}
"""Metadata of a field of a record that is an angle: programs are told it in degrees."""

Style = Literal["plain", "both", "at most", "at least", "limits", "within"]
"""How a size is written: in the part's unit, in both units, as a limit rounded inwards, or as a
nominal between its limits."""

TIDY: Final = 5e-9
"""mm: what is less is the noise of arithmetic."""

NOISE: Final = 1e-9
"""mm or rad: what lies below is the noise of arithmetic."""


@dataclass(frozen=True, slots=True)
class Figure:
    """A value and what it is, not yet written.

    Attributes:
        value: mm, rad, a number or a text, as `quantity` says; several of one quantity; or None,
            which people are not told.
        quantity: what the value is.
        style: how it is written; `limits` takes least and greatest, `within` the nominal before.
        words: what stands round it, with `{}` in the place of each value.
    """

    value: Any
    quantity: Quantity
    style: Style = "plain"
    words: str = "{}"


def mm(value: float, words: str = "{}", style: Style = "plain") -> Figure:
    """A length of so many mm."""
    return Figure(value, "length", style, words)


def rad(value: float, words: str = "{}", style: Style = "plain") -> Figure:
    """An angle of so many radians."""
    return Figure(value, "angle", style, words)


def text(value: str | None, words: str = "{}") -> Figure:
    """A word that programs are told alone, and people within words."""
    return Figure(value, "text", words=words)


def both(value: float) -> Figure:
    """A length (mm) in both units, one behind the other; one of rounding errors alone is 0."""
    return Figure(tidied(value), "length", "both")


def tidied(length: float) -> float:
    """A length (mm) without the rounding error that would print as a sign."""
    return 0.0 if abs(length) < TIDY else length


@dataclass(frozen=True, slots=True)
class Figures:
    """Writes lengths and angles for one part.

    Attributes:
        unit: of every length written.
        decimal: mark.
    """

    unit: Unit
    decimal: DecimalMark

    def size(self, mm: float) -> str:
        """A length without its unit, for drawings that state the unit once.

        Args:
            mm: in millimetres, whatever the unit written.
        """
        return format_length(mm, self.unit, decimal=self.decimal, with_unit=False)

    def sized(self, words: str, mm: float, key: str) -> str:
        """Words for a drawing with a length in them.

        Args:
            words: with `{}` in place of the length.
            mm: in millimetres, whatever the unit written.
            key: of the part file, that sets it; `KeyNames` writes this alone.
        """
        del key
        return words.format(self.size(mm))

    def turned(self, words: str, rad: float, key: str) -> str:
        """Words for a drawing with an angle in them, in decimal degrees.

        Args:
            words: with `{}` in place of the angle.
            rad: in radians.
            key: of the part file, that sets it; `KeyNames` writes this alone.
        """
        del key
        return words.format(self.angle(rad))

    def length(self, mm: float) -> str:
        """A length with its unit."""
        return format_length(mm, self.unit, decimal=self.decimal)

    def both(self, mm: float) -> str:
        """A length in the part's unit, the other unit behind it in brackets."""
        return both_units(mm, first=self.unit, decimal=self.decimal)

    def number(self, value: float) -> str:
        """A number without a unit, to two places."""
        return format_number(value, 2, decimal=self.decimal)

    def angle(self, rad: float) -> str:
        """Decimal degrees with their sign."""
        return format_angle(rad, decimal=self.decimal)

    def limits(self, low: float, high: float, *, is_angle: bool = False) -> tuple[str, str]:
        """Least and greatest allowed, rounded inwards: what reads within, is within.

        With more decimals than usual where those would leave nothing between the two.

        Args:
            low: mm, or rad where it is an angle.
            high: in the same unit, not below `low`.
            is_angle: whether degrees are written.
        """
        places = self._places(high - low, is_angle)
        least = self._written(low, places, "up", is_angle)
        return least, self._written(high, places, "down", is_angle)

    def within(self, nominal: float, low: float, high: float, *, is_angle: bool = False) -> str:
        """The nominal beside `limits`: where it lies within them, its rounding does not put it
        outside as they are written.

        Args:
            nominal: mm, or rad where it is an angle; it may lie outside.
            low: least allowed, in the same unit.
            high: greatest allowed.
            is_angle: whether degrees are written.
        """
        least, most = self.limits(low, high, is_angle=is_angle)
        places = self._places(high - low, is_angle)
        if nominal >= low - NOISE and self._written(nominal, places, "up", is_angle) == least:
            return least
        if nominal <= high + NOISE and self._written(nominal, places, "down", is_angle) == most:
            return most
        return self._written(nominal, places, "nearest", is_angle)

    def _places(self, width: float, is_angle: bool) -> int:
        """Decimals with which at least one number lies between limits so far apart; 9 at most."""
        scale = math.radians(1) if is_angle else 25.4 if self.unit == "in" else 1.0
        usual = PLACES["deg" if is_angle else self.unit]
        return usual if width <= 0 else min(9, max(usual, math.ceil(-math.log10(width / scale))))

    def _written(self, value: float, places: int, rounding: Rounding, is_angle: bool) -> str:
        if is_angle:
            return format_angle(value, decimal=self.decimal, places=places, rounding=rounding)
        return format_length(
            value, self.unit, decimal=self.decimal, places=places, rounding=rounding
        )

    def at_most(self, mm_or_rad: float, *, is_angle: bool = False) -> str:
        """The greatest that may be, of a size that counts from 0: rounded down, not to 0.

        Args:
            mm_or_rad: the greatest, as it is.
            is_angle: whether it is in radians, and written in degrees.
        """
        return self.limits(0.0, mm_or_rad, is_angle=is_angle)[1]

    def at_least(self, mm_or_rad: float, *, is_angle: bool = False) -> str:
        """The least that may be, rounded up.

        Args:
            mm_or_rad: the least, as it is.
            is_angle: whether it is in radians, and written in degrees.
        """
        return self.limits(mm_or_rad, mm_or_rad, is_angle=is_angle)[0]

    def told(self, said: str | Figure) -> str:
        """Words as they are; a figure in its own way of writing, within its words."""
        if isinstance(said, str):
            return said
        values = said.value if isinstance(said.value, tuple) else (said.value,)
        is_angle = said.quantity == "angle"
        match said.style, said.quantity:
            case "limits", _:
                texts: Iterable[str] = self.limits(*values, is_angle=is_angle)
            case "within", _:
                texts = [self.within(*values, is_angle=is_angle)]
            case "at most", _:
                texts = [self.at_most(*values, is_angle=is_angle)]
            case "at least", _:
                texts = [self.at_least(*values, is_angle=is_angle)]
            case "both", _:
                texts = map(self.both, values)
            case _, "length" | "angle":
                texts = map(self.angle if is_angle else self.length, values)
            case _, "number":
                texts = map(self.number, values)
            case _:
                texts = map(str, values)
        return said.words.format(*texts)


MM: Final = Figures("mm", "point")
"""How numbers are written where nobody has said."""


@dataclass(frozen=True, slots=True)
class KeyNames(Figures):
    """Writes, in place of words and figure, the key of the part file that sets the dimension."""

    def sized(self, words: str, mm: float, key: str) -> str:
        """The key."""
        return key

    def turned(self, words: str, rad: float, key: str) -> str:
        """The key."""
        return key
