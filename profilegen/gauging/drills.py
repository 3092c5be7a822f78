"""Drills, and which of them goes before a square or hexagon.

Owns four lists: metric in steps of 0.1 mm, inch fractions in 64ths, number drills 1 to 60, letter
drills A to Z (the last two remembered from handbooks' tables), and the share of flat that a pilot
leaves: `1 - sqrt(k^2 - 1)` of each side of a square and `1 - sqrt(3 (k^2 - 1))` of a hexagon, k the
pilot over the size across flats, less `2 r` over that size where corners are rounded by r (derived
here, no published source).
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from fractions import Fraction
from typing import Final, Literal

from profilegen.geometry.tolerance import SAME_POINT
from profilegen.units import Unit

DrillList = Literal["metric", "fraction", "number", "letter"]

NUMBERS: Final = (
    *(0.2280, 0.2210, 0.2130, 0.2090, 0.2055, 0.2040, 0.2010, 0.1990, 0.1960, 0.1935),
    *(0.1910, 0.1890, 0.1850, 0.1820, 0.1800, 0.1770, 0.1730, 0.1695, 0.1660, 0.1610),
    *(0.1590, 0.1570, 0.1540, 0.1520, 0.1495, 0.1470, 0.1440, 0.1405, 0.1360, 0.1285),
    *(0.1200, 0.1160, 0.1130, 0.1110, 0.1100, 0.1065, 0.1040, 0.1015, 0.0995, 0.0980),
    *(0.0960, 0.0935, 0.0890, 0.0860, 0.0820, 0.0810, 0.0785, 0.0760, 0.0730, 0.0700),
    *(0.0670, 0.0635, 0.0595, 0.0550, 0.0520, 0.0465, 0.0430, 0.0420, 0.0410, 0.0400),
)
"""inch, number 1 first."""

LETTERS: Final = (
    *(0.234, 0.238, 0.242, 0.246, 0.250, 0.257, 0.261, 0.266, 0.272, 0.277, 0.281, 0.290, 0.295),
    *(0.302, 0.316, 0.323, 0.332, 0.339, 0.348, 0.358, 0.368, 0.377, 0.386, 0.397, 0.404, 0.413),
)
"""inch, A first."""

GREATEST: Final = {4: 1.15, 6: 1.08}
"""Sides -> the greatest pilot over the size across flats that is listed. For broaching 10 to 15 %
over are usual for squares and 3 to 5 % for hexagons (a published designer's guide); for a loaded
square 5 % at most (common practice)."""

USUAL: Final = {4: 1.05, 6: 1.03}
"""Sides -> up to where the pilot proposed lies."""


@dataclass(frozen=True, slots=True)
class Drill:
    """A drill.

    Attributes:
        name: as it is marked, such as `9.3 mm`, `3/8 in`, `no. 12`, `letter U`.
        diameter: mm.
        list: which list it stands in.
    """

    name: str
    diameter: float
    list: DrillList


@dataclass(frozen=True, slots=True)
class Pilot:
    """A drill before a square or hexagon, with the share of each flat that it leaves (0 to 1)."""

    drill: Drill
    share: float


def all_drills() -> tuple[Drill, ...]:
    """Every drill of the four lists, by size."""
    metric = [Drill(f"{n / 10:.1f} mm", n / 10, "metric") for n in range(5, 401)]
    fractions = [Drill(fraction_name(n), round(n * 25.4 / 64, 9), "fraction") for n in range(1, 97)]
    numbers = [Drill(f"no. {n}", 25.4 * size, "number") for n, size in enumerate(NUMBERS, 1)]
    letters = [Drill(f"letter {chr(65 + n)}", 25.4 * s, "letter") for n, s in enumerate(LETTERS)]
    every = (*metric, *fractions, *numbers, *letters)
    return tuple(sorted(every, key=lambda drill: drill.diameter))


def drill_for(size: float, unit: Unit) -> Drill | None:
    """The greatest drill that is no bigger than a hole (mm), of the lists that the unit's shops
    have; None where none is so small, or the hole is bigger than the biggest by a millimetre."""
    metric = unit == "mm"
    fitting = [
        drill
        for drill in all_drills()
        if (drill.list == "metric") == metric and drill.diameter <= size + SAME_POINT
    ]
    return fitting[-1] if fitting and size - fitting[-1].diameter < 1.0 else None


def fraction_name(sixty_fourths: int) -> str:
    """So many 64ths of an inch as the trade writes them, such as `3/8 in`, `1-1/8 in`, `2 in`."""
    whole, part = divmod(Fraction(sixty_fourths, 64), 1)
    return f"{f'{whole}-' if whole and part else whole or ''}{part or ''} in"


def flat_share(sides: int, across_flats: float, pilot: float, corner_radius: float = 0.0) -> float:
    """The share of each side that stays flat, 0 to 1: a pilot hole takes its middle, a corner
    radius both its ends.

    Args:
        sides: 4 for a square, 6 for a hexagon.
        across_flats: mm.
        pilot: diameter, mm; one that does not reach the flats takes nothing.
        corner_radius: mm; 0 for sharp corners.
    """
    over = max(0.0, (pilot / across_flats) ** 2 - 1)
    side = math.tan(math.pi / sides)
    return max(0.0, 1 - math.sqrt(over) / side - 2 * corner_radius / across_flats)


def pilots(sides: int, across_flats: float, corner_radius: float = 0.0) -> tuple[Pilot, ...]:
    """Every drill from the size across flats up to the greatest that is of use, by size.

    Args:
        sides: 4 for a square, 6 for a hexagon.
        across_flats: mm; the list begins with it.
        corner_radius: mm, for the share of each flat that is left.
    """
    most = GREATEST[sides] * across_flats
    return tuple(
        Pilot(drill, flat_share(sides, across_flats, drill.diameter, corner_radius))
        for drill in all_drills()
        if across_flats - 1e-9 <= drill.diameter <= most
    )


def usual_pilot(
    sides: int, across_flats: float, metric: bool, corner_radius: float = 0.0
) -> Pilot | None:
    """The greatest pilot that still leaves good flats, or None.

    Args:
        sides: 4 for a square, 6 for a hexagon.
        across_flats: mm.
        metric: whether metric drills come first; a drill of the other lists only where none of them
            serves.
        corner_radius: mm.
    """
    found = [
        pilot
        for pilot in pilots(sides, across_flats, corner_radius)
        if pilot.drill.diameter <= USUAL[sides] * across_flats
    ]
    own = [pilot for pilot in found if (pilot.drill.list == "metric") == metric]
    best = own or found
    return best[-1] if best else None
