"""Roller chains by their numbers: pitch, roller, width between the plates, height of the plates.

ISO 606, table 1, and the numbers of ASME B29.1 beside those of the same chains. Pitch and roller
agree with published pages of sprocket makers for pitches of 12.7 to 25.4 mm; the rest, and every
width and height, is remembered from ISO 606.
"""

from __future__ import annotations

from dataclasses import dataclass
from types import MappingProxyType
from typing import Final


@dataclass(frozen=True, slots=True)
class RollerChain:
    """One chain, mm.

    Attributes:
        pitch: from roller to roller.
        roller: greatest diameter of a roller.
        inner_width: least, between the inner plates.
        plate_height: greatest, of the inner plates.
    """

    pitch: float
    roller: float
    inner_width: float
    plate_height: float


_BY_NUMBER: Final = {
    "05B": RollerChain(8.0, 5.0, 3.0, 7.11),
    "06B": RollerChain(9.525, 6.35, 5.72, 8.26),
    "08B": RollerChain(12.7, 8.51, 7.75, 11.81),
    "10B": RollerChain(15.875, 10.16, 9.65, 14.73),
    "12B": RollerChain(19.05, 12.07, 11.68, 16.13),
    "04C": RollerChain(6.35, 3.30, 3.10, 6.02),
    "06C": RollerChain(9.525, 5.08, 4.68, 9.05),
    "085": RollerChain(12.7, 7.77, 6.25, 9.91),
    "08A": RollerChain(12.7, 7.92, 7.85, 12.07),
    "10A": RollerChain(15.875, 10.16, 9.40, 15.09),
    "12A": RollerChain(19.05, 11.91, 12.57, 18.10),
    "16A": RollerChain(25.4, 15.88, 15.75, 24.13),
}
_SAME: Final = {
    "25": "04C",
    "35": "06C",
    "41": "085",
    "40": "08A",
    "50": "10A",
    "60": "12A",
    "80": "16A",
}
"""Number in inch practice -> the number of ISO 606 of the same chain."""

CHAINS: Final = MappingProxyType(
    _BY_NUMBER | {number: _BY_NUMBER[same] for number, same in _SAME.items()}
)
"""Number -> chain."""
