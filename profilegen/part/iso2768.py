"""ISO 2768-1: general tolerances for linear sizes, radii and angles.

Owns the three tables. Linear, 0.5 to 1000 mm: printed on two open pages of the trade; over 1000 mm
remembered. Radii and chamfers, and angles: remembered, the former agree with an open page. One open
page prints 0.15 and 0.2 for class c up to 6 mm: that is wrong, the standard has 0.2 and 0.3.
Below 0.5 mm the standard asks for a tolerance at the size itself and gives none.
"""

from __future__ import annotations

import math
from bisect import bisect_left
from typing import Final

from profilegen.part.iso286 import NoClass

LEAST: Final = 0.5
"""mm. Smaller sizes have no general tolerance."""

LINEAR_UP_TO: Final = (3.0, 6.0, 30.0, 120.0, 400.0, 1000.0, 2000.0, 4000.0)
"""mm. Upper ends of the ranges, each included."""

LINEAR: Final[dict[str, tuple[float | None, ...]]] = {
    "f": (0.05, 0.05, 0.1, 0.15, 0.2, 0.3, 0.5, None),
    "m": (0.1, 0.1, 0.2, 0.3, 0.5, 0.8, 1.2, 2.0),
    "c": (0.2, 0.3, 0.5, 0.8, 1.2, 2.0, 3.0, 4.0),
    "v": (None, 0.5, 1.0, 1.5, 2.5, 4.0, 6.0, 8.0),
}
"""mm, plus and minus, by range."""

RADII_UP_TO: Final = (3.0, 6.0, math.inf)
"""mm."""

RADII: Final[dict[str, tuple[float, ...]]] = {
    "f": (0.2, 0.5, 1.0),
    "m": (0.2, 0.5, 1.0),
    "c": (0.4, 1.0, 2.0),
    "v": (0.4, 1.0, 2.0),
}
"""mm, plus and minus: outside radii and heights of chamfers."""

ANGLES_UP_TO: Final = (10.0, 50.0, 120.0, 400.0, math.inf)
"""mm. Length of the shorter leg."""

ANGLES: Final[dict[str, tuple[float, ...]]] = {
    "f": (60, 30, 20, 10, 5),
    "m": (60, 30, 20, 10, 5),
    "c": (90, 60, 30, 15, 10),
    "v": (180, 120, 60, 30, 20),
}
"""Minutes of arc, plus and minus."""


def linear(size: float, name: str) -> float:
    """The tolerance (plus and minus) of a linear size, mm.

    Args:
        size: nominal, mm.
        name: the class, one of f, m, c and v.

    Raises:
        NoClass: the standard gives none for this class at this size.
    """
    found = None
    if LEAST <= size <= LINEAR_UP_TO[-1]:
        found = LINEAR[_known(name)][bisect_left(LINEAR_UP_TO, size)]
    if found is None:
        ranges = {"f": "0.5 to 2000 mm", "v": "over 3 to 4000 mm"}.get(name, "0.5 to 4000 mm")
        raise NoClass(f"ISO 2768-{_known(name)} is for sizes of {ranges}")
    return found


def radius(size: float, name: str) -> float:
    """The tolerance (plus and minus) of a radius or chamfer, mm.

    Args:
        size: nominal, mm.
        name: the class, one of f, m, c and v.

    Raises:
        NoClass: there is no such class, or the size is under 0.5 mm.
    """
    if size < LEAST:
        raise NoClass(f"ISO 2768-{_known(name)} is for radii of 0.5 mm and more")
    return RADII[_known(name)][bisect_left(RADII_UP_TO, size)]


def angle(shorter_leg: float, name: str) -> float:
    """The tolerance (plus and minus) of an angle, rad.

    Args:
        shorter_leg: of the two that form it, mm: the longer, the closer the tolerance.
        name: the class, one of f, m, c and v.

    Raises:
        NoClass: there is no such class.
    """
    return math.radians(ANGLES[_known(name)][bisect_left(ANGLES_UP_TO, shorter_leg)] / 60)


def _known(name: str) -> str:
    if name not in LINEAR:
        raise NoClass(f"ISO 2768-1 has no class {name}: f, m, c and v are")
    return name
