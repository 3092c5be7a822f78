"""ISO 286: tables against printed rows, the standard's formulas, and its own rules.

Printed: rows SPL-39, 41, 42, 46, 48, 49 (open pages of the trade). Remembered: SPL-51, 53, 54, 56,
58 (ISO 286-2). Derived: what the standard's formulas give, which is nearly all of it.
"""

from __future__ import annotations

import math
from collections.abc import Callable

import pytest

from profilegen.part.allowance import GRADES, HOLES, SHAFTS
from profilegen.part.iso286 import (
    FUNDAMENTAL,
    IT,
    UP_TO,
    NoClass,
    deviations,
    standard_tolerance,
)

SIZES = (3, 6, 10, 18, 30, 50)
"""mm. The upper ends of the first six ranges, each still in its range."""


@pytest.mark.parametrize(
    ("grade", "row"),
    [
        (7, (10, 12, 15, 18, 21, 25)),  # SPL-39, printed
        (9, (25, 30, 36, 43, 52, 62)),  # SPL-41, printed
        (10, (40, 48, 58, 70, 84, 100)),  # SPL-42, printed
    ],
)
def test_standard_tolerances_as_printed(grade: int, row: tuple[int, ...]) -> None:
    """IT7, IT9 and IT10 to 50 mm are those of the printed rows."""
    assert tuple(round(1000 * standard_tolerance(size, grade)) for size in SIZES) == row


@pytest.mark.parametrize(
    ("name", "row"),
    [
        ("H7", ((0, 10), (0, 12), (0, 15), (0, 18), (0, 21), (0, 25))),  # SPL-46, printed
        ("h6", ((-6, 0), (-8, 0), (-9, 0), (-11, 0), (-13, 0), (-16, 0))),  # SPL-48, printed
        ("P9", ((-31, -6), (-42, -12), (-51, -15), (-61, -18), (-74, -22), (-88, -26))),  # SPL-51
        ("g6", ((-8, -2), (-12, -4), (-14, -5), (-17, -6), (-20, -7), (-25, -9))),  # SPL-53
        ("f7", ((-16, -6), (-22, -10), (-28, -13), (-34, -16), (-41, -20), (-50, -25))),  # SPL-54
        ("n6", ((4, 10), (8, 16), (10, 19), (12, 23), (15, 28), (17, 33))),  # SPL-56
        ("G7", ((2, 12), (4, 16), (5, 20), (6, 24), (7, 28), (9, 34))),  # SPL-58
        # remembered from handbooks' tables of ISO 286-2
        ("K7", ((-10, 0), (-9, 3), (-10, 5), (-12, 6), (-15, 6), (-18, 7))),
        ("N7", ((-14, -4), (-16, -4), (-19, -4), (-23, -5), (-28, -7), (-33, -8))),
        ("P7", ((-16, -6), (-20, -8), (-24, -9), (-29, -11), (-35, -14), (-42, -17))),
        ("N9", ((-29, -4), (-30, 0), (-36, 0), (-43, 0), (-52, 0), (-62, 0))),
        ("k6", ((0, 6), (1, 9), (1, 10), (1, 12), (2, 15), (2, 18))),
        ("p6", ((6, 12), (12, 20), (15, 24), (18, 29), (22, 35), (26, 42))),
        ("K8", ((-14, 0), (-13, 5), (-16, 6), (-19, 8), (-23, 10), (-27, 12))),
    ],
)
def test_limit_deviations(name: str, row: tuple[tuple[int, int], ...]) -> None:
    """Lower and upper deviations of the commonest classes, um."""
    for size, (low, high) in zip(SIZES, row, strict=True):
        found = deviations(size, name)
        assert (round(1000 * found.lower), round(1000 * found.upper)) == (low, high)


def test_js_is_half_and_half() -> None:
    """JS9: 12.5, 15, 18, 21.5, 26, 31 um each way (SPL-49, printed)."""
    for size, half in zip(SIZES, (12.5, 15, 18, 21.5, 26, 31), strict=True):
        found = deviations(size, "JS9")
        assert (1000 * found.upper, 1000 * found.lower) == pytest.approx((half, -half))


def test_the_trap_at_most_three_mm() -> None:
    """IT6, IT7, IT8 are 6, 10, 14 um at most 3 mm: old tables print 7, 9, 14 (SPL-44)."""
    assert [round(1000 * standard_tolerance(3, grade)) for grade in (6, 7, 8)] == [6, 10, 14]
    assert deviations(3.0, "h7").lower == -0.010


def test_the_misprint_of_h6() -> None:
    """h6 over 18 to 30 mm is 0 -13 um; one open page prints -30 (SPL-45)."""
    assert deviations(25, "h6").lower == -0.013


def geometric_mean(at: int) -> float:
    """Of the ends of a range, mm, as the formulas want it; the first range is taken from 1 mm."""
    low = UP_TO[at - 1] if at else 1.0
    return math.sqrt(low * UP_TO[at])


def rounded(value: float, *steps: tuple[float, int]) -> int:
    """To the nearest multiple of the step that goes with a value over so much, um."""
    step = max((step for over, step in steps if value > over), default=1)
    return step * round(value / step)


PRINTED = {(6, 3), (6, 6), (7, 3), (7, 10), (7, 18), (9, 3), (9, 6)} | {
    *((10, 3), (10, 6), (10, 10), (10, 18)),
}
"""(grade, upper end of the range): printed on open pages, rows SPL-39, 41, 42 and 48."""

TENFOLD = {(11, 3), (11, 50), (11, 80), (11, 400), (11, 500)}
"""Ten times IT6: from IT6 up every fifth grade is tenfold (ISO 286-1, remembered)."""

REMEMBERED = {(6, 400), (6, 500), (7, 500), (11, 6)}
"""Known from no second place."""


def test_tolerances_are_derived() -> None:
    """7, 10, 16, 25, 40, 64, 100 i give every value but those listed, each with its evidence."""
    factors = {5: 7, 6: 10, 7: 16, 8: 25, 9: 40, 10: 64, 11: 100}
    off = {}
    for at, end in enumerate(UP_TO):
        mean = geometric_mean(at)
        unit = 0.45 * mean ** (1 / 3) + 0.001 * mean
        for grade, factor in factors.items():
            if rounded(factor * unit, (100, 5), (200, 10)) != IT[grade][at]:
                off[grade, int(end)] = IT[grade][at] / (factor * unit) - 1
    assert set(off) == PRINTED | TENFOLD | REMEMBERED
    assert all(0 < off[which] < 0.03 for which in REMEMBERED)
    for grade, end in TENFOLD:
        at = UP_TO.index(end)
        assert IT[grade][at] == 10 * IT[6][at]


def test_fundamental_deviations_are_derived() -> None:
    """The formulas of e, f, g, k and n give every value but those that are remembered only."""
    formulas: dict[str, Callable[[float], float]] = {
        "e": lambda mean: 11 * mean**0.41,
        "f": lambda mean: 5.5 * mean**0.41,
        "g": lambda mean: 2.5 * mean**0.34,
        "k": lambda mean: 0.6 * mean ** (1 / 3),
        "n": lambda mean: 5 * mean**0.34,
    }
    off: dict[tuple[str, int], float] = {}
    for letter, formula in formulas.items():
        for at, end in enumerate(UP_TO):
            wanted = formula(geometric_mean(at))
            if rounded(wanted, (100, 5)) != FUNDAMENTAL[letter][at]:
                off[letter, int(end)] = FUNDAMENTAL[letter][at] - wanted
    smallest = {(letter, 3) for letter in "fgkn"}
    above = {("e", 50), ("e", 250), ("e", 400), ("n", 120)} | {
        ("f", end) for end in (250, 315, 400, 500)
    }
    assert set(off) == smallest | above
    assert all(abs(off[which]) < 3 for which in above)


def test_p_stands_over_it7() -> None:
    """p is IT7 and 0 to 5 um over 3 mm (ISO 286-1, remembered), rising with the size."""
    rise = [FUNDAMENTAL["p"][at] - IT[7][at] for at in range(1, len(UP_TO))]
    assert rise == sorted(rise)
    assert (rise[0], rise[-1]) == (0, 5)


def test_allowances_of_close_holes() -> None:
    """`IT(n) - IT(n - 1)` gives the standard's own printed allowances (remembered, um)."""
    table = {
        5: (1, 2, 3, 3, 4, 5, 5, 6, 6, 7, 7, 7),
        6: (3, 3, 3, 4, 5, 6, 7, 7, 9, 9, 11, 13),
        7: (4, 6, 7, 8, 9, 11, 13, 15, 17, 20, 21, 23),
        8: (6, 7, 9, 12, 14, 16, 19, 23, 26, 29, 32, 34),
    }
    for grade, row in table.items():
        assert tuple(IT[grade][at] - IT[grade - 1][at] for at in range(1, 13)) == row


def test_ends_of_ranges_belong_to_the_range_below() -> None:
    """A size of just 10 mm takes the range over 6 up to and including 10 mm."""
    assert standard_tolerance(10.0, 7) == 0.015
    assert standard_tolerance(10.0001, 7) == 0.018


def test_every_class_has_its_width_at_every_size() -> None:
    """Upper less lower deviation is the standard tolerance, wherever the class is established."""
    for letter in (*HOLES, *SHAFTS):
        for grade in GRADES:
            for size in UP_TO:
                try:
                    found = deviations(size, f"{letter}{grade}")
                except NoClass:
                    assert (letter, grade > 8, size > 3) == ("K", True, True)
                    continue
                assert found.upper - found.lower == pytest.approx(standard_tolerance(size, grade))


@pytest.mark.parametrize(
    ("size", "name", "words"),
    [
        (501, "H7", "up to 500 mm"),
        (0, "H7", "up to 500 mm"),
        (10, "Z7", "holes E F G H"),
        (10, "H12", "IT5 to IT11"),
        (10, "K9", "K5 to K8"),
    ],
)
def test_what_is_not_established_is_refused(size: float, name: str, words: str) -> None:
    """The refusal names what is available."""
    with pytest.raises(NoClass, match=words):
        deviations(size, name)
