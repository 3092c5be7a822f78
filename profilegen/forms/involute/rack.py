"""The basic rack of a spur gear: its proportions, and where they come from.

A rack is a gear of endless size, its flanks straight; every gear that rolls on it meshes with every
other one. Proportions are factors of the module (1 / diametral pitch). ISO 53:1998 table 2 (from
memory): A to D of 20 degrees. The inch full-depth form: dedendum 1.157 at 14.5 degrees (handbook
tables of the old form), 1.25 at others; fine pitch, from 20 on, 1.2 and 0.002 in (ASA B6.7, from
memory). Stub: 0.8 and 1.0 (ASA B6.1, from memory). Tip radii of the inch forms: no published
source, as large as the clearance holds in round figures.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final

MM_PER_INCH: Final = 25.4

FINE_PITCH: Final = 20.0
"""Teeth per inch of diameter from which the fine-pitch dedendum holds."""

FINE_EXTRA: Final = 0.002 * MM_PER_INCH
"""mm. Added to the dedendum of fine-pitch teeth."""


@dataclass(frozen=True, slots=True)
class Factors:
    """A basic rack in modules.

    Attributes:
        addendum: height of its teeth above the reference line, what the gear's dedendum clears.
        dedendum: depth of the gear's teeth below the reference line.
        tip_radius: round of the tip of the rack that cuts, which makes the root of the gear.
    """

    addendum: float
    dedendum: float
    tip_radius: float

    @property
    def clearance(self) -> float:
        """Between a tip and the root that it enters, modules."""
        return self.dedendum - self.addendum


NAMED: Final[dict[str, Factors]] = {
    "ISO 53 A": Factors(1.0, 1.25, 0.38),
    "ISO 53 B": Factors(1.0, 1.25, 0.30),
    "ISO 53 C": Factors(1.0, 1.25, 0.25),
    "ISO 53 D": Factors(1.0, 1.40, 0.39),
    "full depth": Factors(1.0, 1.25, 0.30),
    "stub": Factors(0.8, 1.0, 0.20),
}
"""Name in the part file -> factors; `full_depth` settles those of the full-depth form."""

OLD_FULL_DEPTH: Final = Factors(1.0, 1.157, 0.209)
"""Of 14.5 degrees: clearance a twentieth of pi, tip radius four thirds of it."""


def full_depth(module: float, pressure_angle: float) -> Factors:
    """The inch full-depth form of a module (mm) and a pressure angle (rad)."""
    is_old = pressure_angle < math.radians(17)
    coarse = OLD_FULL_DEPTH if is_old else NAMED["full depth"]
    if MM_PER_INCH / module < FINE_PITCH - 1e-9:
        return coarse
    return Factors(1.0, 1.2 + FINE_EXTRA / module, coarse.tip_radius)


def greatest_tip_radius(factors: Factors, pressure_angle: float) -> float:
    """The tip radius with which the two rounds of a rack's tip meet and no flat is left, modules.

    0.4719 for ISO 53 A to C and 0.3939 for D (derived: a circle tangent to both flanks and the
    tip).

    Args:
        factors: of the rack, modules.
        pressure_angle: rad.
    """
    slope = math.tan(pressure_angle)
    half = math.pi / 4 - factors.dedendum * slope
    return half / (1 / math.cos(pressure_angle) - slope)
