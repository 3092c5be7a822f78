"""The sentences of findings: one place that writes a size into a message.

Owns how a finding names a length (in the part's unit) or an angle, and the closing "key to change
and a value that would pass".
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from profilegen.errors import Finding, Remedy, Severity
from profilegen.units import Rounding, format_angle, format_length

if TYPE_CHECKING:
    from profilegen.part.part import Part


@dataclass(frozen=True, slots=True)
class Say:
    """Writes findings in the unit and decimal mark of one part."""

    part: Part

    def length(self, mm: float) -> str:
        """A length with its unit."""
        return format_length(mm, self.part.units, decimal=self.part.decimal)

    def angle(self, rad: float) -> str:
        """An angle in decimal degrees."""
        return format_angle(rad, decimal=self.part.decimal)

    def bound(self, mm: float, than: str) -> str:
        """A length that passes as it is printed, with its unit.

        Args:
            mm: the limit.
            than: `at least` rounds up; `at most`, or whatever else, rounds down.
        """
        return format_length(
            mm, self.part.units, decimal=self.part.decimal, rounding=_rounding(than)
        )

    def turn_bound(self, rad: float, than: str) -> str:
        """An angle that passes as it is printed, in decimal degrees.

        Args:
            rad: the limit, in radians.
            than: rounds as for `bound`.
        """
        return format_angle(rad, decimal=self.part.decimal, rounding=_rounding(than))

    def typed(self, mm: float, than: str = "") -> str:
        """A length as it is typed in a part file, in the part's unit.

        Args:
            mm: the length.
            than: rounds as for `bound`; to the nearest where it is empty.
        """
        return format_length(mm, self.part.units, rounding=_rounding(than) if than else "nearest")

    def turn_typed(self, rad: float, than: str = "") -> str:
        """An angle as it is typed in a part file, such as `14.5 deg`.

        Args:
            rad: the angle, in radians.
            than: rounds as for `bound`; to the nearest where it is empty.
        """
        rounding = _rounding(than) if than else "nearest"
        return f"{format_angle(rad, rounding=rounding).removesuffix('°')} deg"

    def sized(
        self,
        code: str,
        severity: Severity,
        message: str,
        key: str,
        value: float,
        limit: float,
        passing: float | None = None,
        than: str = "at least",
    ) -> Finding:
        """A finding about a length (mm) against its limit, ending with a value that passes."""
        good = limit if passing is None else passing
        text = f"{message}: make {key} {than} {self.bound(good, than)}"
        remedy = Remedy(key, self.typed(good, than))
        return Finding(code, severity, text, key, value, limit, remedy)

    def turned(
        self,
        code: str,
        severity: Severity,
        message: str,
        key: str,
        value: float,
        limit: float,
        than: str = "at most",
    ) -> Finding:
        """A finding about an angle (rad; stored in degrees) against its limit."""
        text = f"{message}: make {key} {than} {self.turn_bound(limit, than)}"
        remedy = Remedy(key, self.turn_typed(limit, than))
        degrees = math.degrees(value), math.degrees(limit)
        return Finding(code, severity, text, key, *degrees, remedy)


def _rounding(than: str) -> Rounding:
    return "up" if than == "at least" else "down"
