"""How a job writes its numbers: one part's unit and decimal mark.

Owns `Figures`, through which every report turns mm and radians into text, so that a sheet never
mixes units or marks.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from profilegen.units import DecimalMark, Unit, both_units, format_angle, format_length
from profilegen.wheels.wheel import Fact

if TYPE_CHECKING:
    from profilegen.part.part import Part


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
        """A length without its unit, for drawings that state the unit once."""
        return format_length(mm, self.unit, decimal=self.decimal, with_unit=False)

    def sized(self, words: str, mm: float, key: str) -> str:
        """Words for a drawing with a length in place of `{}`; `key` is what sets it."""
        del key
        return words.format(self.size(mm))

    def turned(self, words: str, rad: float, key: str) -> str:
        """Words for a drawing with an angle in place of `{}`; `key` is what sets it."""
        del key
        return words.format(self.angle(rad))

    def length(self, mm: float) -> str:
        """A length with its unit."""
        return format_length(mm, self.unit, decimal=self.decimal)

    def both(self, mm: float) -> str:
        """A length in the part's unit, the other unit behind it in brackets."""
        return both_units(mm, first=self.unit, decimal=self.decimal)

    def angle(self, rad: float) -> str:
        """Decimal degrees with their sign."""
        return format_angle(rad, decimal=self.decimal)

    def fact(self, fact: Fact) -> str:
        """The value of a fact with its unit."""
        if isinstance(fact.value, str):
            return fact.value
        match fact.quantity:
            case "length":
                return self.length(fact.value)
            case "angle":
                return self.angle(fact.value)
            case _:
                return str(fact.value)


@dataclass(frozen=True, slots=True)
class KeyNames(Figures):
    """Writes, in place of words and figure, the key of the part file that sets the dimension."""

    def sized(self, words: str, mm: float, key: str) -> str:
        """The key."""
        return key

    def turned(self, words: str, rad: float, key: str) -> str:
        """The key."""
        return key


def figures_for(part: Part) -> Figures:
    """The figures of a part."""
    return Figures(part.units, part.decimal)
