"""ISO 286: standard tolerances IT5 to IT11 and fundamental deviations, 1 to 500 mm.

Owns the tables and what follows from them. Where each value stands; a test holds every word of it:
- IT5 to IT11: derived, and agreeing with what is remembered of ISO 286-1, Table 1: 7, 10, 16, 25,
  40, 64, 100 times `i = 0.45 D^(1/3) + 0.001 D` in um, D the geometric mean of the range, to the
  nearest 1 um (5 over 100, 10 over 200 um). The standard rounds 20 of the 91 values up from that:
  11 of them are printed on open pages of the trade, 5 are the ten times IT6 that the standard's
  own rule gives to IT11, and 4 are remembered only: IT6 over 315 and over 400, IT7 over 400, IT11
  over 3 to 6 mm, each less than 3 % over the formula.
- e, f, g, k, n: derived to the nearest um (5 over 100 um) from 11 D^0.41, 5.5 D^0.41, 2.5 D^0.34,
  0.6 D^(1/3), 5 D^0.34, and agreeing with what is remembered of ISO 286-1, Tables 4 and 5. 12 of
  the 65 values are remembered only: at most 3 mm those of f, g, k, n, above it 8 that the standard
  rounds otherwise, by less than 3 um. p: remembered; IT7 and 0 to 5 um, as the standard's rule has
  it, but for the 6 um at most 3 mm.
- holes: derived from the shafts by the standard's own rules: E to H mirrored; K and N to IT8 and P
  to IT7 with the allowance `IT(n) - IT(n - 1)` above 3 mm. Of the classes themselves H7, h6 and JS9
  to 50 mm are printed on open pages.
At most 3 mm the standard gives IT6, IT7, IT8 as 6, 10, 14 um: some bar tables still print the 7, 9,
14 of the older German standard. Refuses what is not established here with a `NoClass`.
"""

from __future__ import annotations

import re
from bisect import bisect_left
from dataclasses import dataclass
from typing import Final

from profilegen.part.allowance import GRADES, HOLES, SHAFTS

UP_TO: Final = (3.0, 6.0, 10.0, 18.0, 30.0, 50.0, 80.0, 120.0, 180.0, 250.0, 315.0, 400.0, 500.0)
"""mm. Upper ends of the ranges; a range is over the end before and up to and including its own."""

IT: Final[dict[int, tuple[int, ...]]] = {
    4: (3, 4, 4, 5, 6, 7, 8, 10, 12, 14, 16, 18, 20),
    5: (4, 5, 6, 8, 9, 11, 13, 15, 18, 20, 23, 25, 27),
    6: (6, 8, 9, 11, 13, 16, 19, 22, 25, 29, 32, 36, 40),
    7: (10, 12, 15, 18, 21, 25, 30, 35, 40, 46, 52, 57, 63),
    8: (14, 18, 22, 27, 33, 39, 46, 54, 63, 72, 81, 89, 97),
    9: (25, 30, 36, 43, 52, 62, 74, 87, 100, 115, 130, 140, 155),
    10: (40, 48, 58, 70, 84, 100, 120, 140, 160, 185, 210, 230, 250),
    11: (60, 75, 90, 110, 130, 160, 190, 220, 250, 290, 320, 360, 400),
}
"""um by range. IT4 serves the allowance of IT5 holes only; remembered, like those allowances."""

FUNDAMENTAL: Final[dict[str, tuple[int, ...]]] = {
    "e": (14, 20, 25, 32, 40, 50, 60, 72, 85, 100, 110, 125, 135),
    "f": (6, 10, 13, 16, 20, 25, 30, 36, 43, 50, 56, 62, 68),
    "g": (2, 4, 5, 6, 7, 9, 10, 12, 14, 15, 17, 18, 20),
    "h": (0,) * 13,
    "k": (0, 1, 1, 1, 2, 2, 2, 3, 3, 4, 4, 4, 5),
    "n": (4, 8, 10, 12, 15, 17, 20, 23, 27, 31, 34, 37, 40),
    "p": (6, 12, 15, 18, 22, 26, 32, 37, 43, 50, 56, 62, 68),
}
"""um by range: e to h below the nominal (`es = -value`), k to p above it (`ei = value`); k for IT4
to IT7, 0 for the coarser grades."""

_CLASS: Final = re.compile(r"([A-Za-z]{1,2})([0-9]{1,2})")


class NoClass(ValueError):
    """A class or size that is not established here; the text names what is."""


@dataclass(frozen=True, slots=True)
class Deviations:
    """Lower and upper deviation from the nominal size, mm."""

    lower: float
    upper: float


def standard_tolerance(size: float, grade: int) -> float:
    """The tolerance of a grade, mm: the whole width between the limits.

    Args:
        size: nominal, mm.
        grade: 7 for IT7.

    Raises:
        NoClass: the grade is not IT5 to IT11, or the size is over 500 mm.
    """
    if grade not in GRADES:
        raise NoClass(f"there is no IT{grade} here: IT{GRADES[0]} to IT{GRADES[-1]} are")
    return IT[grade][_range(size)] / 1000


def deviations(size: float, name: str) -> Deviations:
    """The limit deviations of a class, mm.

    Args:
        size: nominal, mm.
        name: such as `H7` for a hole or `g6` for a shaft: capitals are holes.

    Raises:
        NoClass: the class or the size is not established here.
    """
    match = _CLASS.fullmatch(name)
    if not match or match[1] not in (*HOLES, *SHAFTS):
        known = f"holes {' '.join(HOLES)} and shafts {' '.join(SHAFTS)} are"
        raise NoClass(f"the class {name} is not known here: {known}")
    letter, grade = match[1], int(match[2])
    width = round(1000 * standard_tolerance(size, grade))
    if letter in ("JS", "js"):
        return Deviations(-width / 2000, width / 2000)
    at = _range(size)
    lower = _hole(letter, grade, at) if letter.isupper() else _shaft(letter, grade, at)
    return Deviations(lower / 1000, (lower + width) / 1000)


def _range(size: float) -> int:
    """Which range a nominal size (mm) lies in."""
    if not 0 < size <= UP_TO[-1]:
        raise NoClass(f"ISO 286 is here for sizes up to {UP_TO[-1]:g} mm")
    return bisect_left(UP_TO, size)


def _shaft(letter: str, grade: int, at: int) -> int:
    """Lower deviation, um."""
    value = FUNDAMENTAL[letter][at]
    if letter in "efgh":
        return -value - IT[grade][at]
    return 0 if letter == "k" and grade > 7 else value


def _hole(letter: str, grade: int, at: int) -> int:
    """Lower deviation, um."""
    value = FUNDAMENTAL[letter.lower()][at]
    if letter in "EFGH":
        return value
    return _upper(letter, grade, at, value) - IT[grade][at]


def _upper(letter: str, grade: int, at: int, value: int) -> int:
    """Upper deviation of a hole K, N or P, um."""
    small = at == 0
    allowance = 0 if small else IT[grade][at] - IT[grade - 1][at]
    if grade <= (7 if letter == "P" else 8):
        return -value + allowance
    if letter == "K" and not small:
        raise NoClass("K coarser than IT8 is given up to 3 mm only: K5 to K8, or JS, are")
    if letter == "N" and not small:
        return 0
    return -value
