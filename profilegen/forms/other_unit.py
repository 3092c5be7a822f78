"""A size typed in the other unit: 1.5748 in a file in mm, 38 in a file in inches.

Holds the finding `size-unit`: of a wheel that cannot be made but for one size read in the other
unit, of one size that a caution is about, and of a whole wheel that is 25.4 times too small or too
big. Only the way that is a slip of the pen is tried: larger in mm, smaller in inches.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import TYPE_CHECKING, Final

from profilegen.findings.cannot_make import CannotMakeError
from profilegen.findings.finding import Fact, Finding, Make, Remedy, Severity, mm
from profilegen.forms.wheel import Wheel
from profilegen.part.mending import lengths_given, mended
from profilegen.units import MM_PER_INCH, UNIT_WORDS, Unit, UnitsError

if TYPE_CHECKING:
    from profilegen.part.part import Part

SMALLEST = 4.0
"""mm. A smaller wheel is not cut with what a file like this describes: common practice, no
published source."""

LARGEST = 15 * float(MM_PER_INCH)
"""mm. A larger wheel does not go on a dividing head: common practice, no published source."""

PLAIN = math.log(2.5)
"""Of a remedy: a smaller change is a slip of the size, not of the unit."""

OF_SIZE: Final = frozenset({"land-thin", "thickness-low", "thickness-high", "web-thin"})
"""Cautions that a wheel has when one of its sizes is out of proportion."""

_BLANK = ("wheel.outside_diameter",)
"""Keys of the size of the whole wheel: read first."""

Solve = Callable[["Part"], Wheel]


def in_refusal(part: Part, findings: tuple[Finding, ...], solve: Solve) -> tuple[Finding, ...]:
    """The refusals of a part that cannot be made; before them the one size that is in the other
    unit, when the part can be made with it, with nothing out of proportion."""
    sizes = dict(lengths_given(part))
    across = {key: sizes[key] for key in _BLANK if key in sizes}
    strange = {key: size for key, size in across.items() if _is_strange(part, size)}
    slight = any(one.remedy and _change(part, one.remedy) < PLAIN for one in findings)
    for key, size in (strange if slight else {**across, **sizes}).items():
        wheel = _read_other(part, key, size, solve)
        if wheel is not None and not _out_of_proportion(wheel):
            return (_of_one(part, key, size, "refused"), *findings)
    return findings


def in_cautions(part: Part, wheel: Wheel, solve: Solve) -> tuple[Finding, ...]:
    """What there is to say of the unit of a wheel that can be made, or of one of its sizes."""
    sizes = dict(lengths_given(part))
    found = _of_the_blank(part, sizes, wheel, solve)
    for one in wheel.findings:
        if one.code not in OF_SIZE or one.remedy is None or one.where not in sizes:
            continue
        key, size = one.where, sizes[one.where]
        if _change(part, one.remedy) > PLAIN:
            other = _read_other(part, key, size, solve)
            if other is not None and len(other.findings) < len(wheel.findings):
                found = (*found, _of_one(part, key, size, "caution"))
    return found


def _of_the_blank(
    part: Part, sizes: dict[str, float], wheel: Wheel, solve: Solve
) -> tuple[Finding, ...]:
    """The caution of a wheel too small or too large to be one: of its outside alone where the other
    sizes fit to that, else of all of them."""
    if not _is_strange(part, 2 * wheel.radius):
        return ()
    for key in _BLANK:
        other = _read_other(part, key, sizes[key], solve) if key in sizes else None
        if other is not None and not _out_of_proportion(other):
            return (_of_one(part, key, sizes[key], "caution"),)
    return (_of_all(part, 2 * wheel.radius),)


def _out_of_proportion(wheel: Wheel) -> bool:
    """Whether a caution says so, the wheel is too large for a dividing head, or more than half of
    the outside is left uncut."""
    if 2 * wheel.radius > LARGEST:
        return True
    pitch = math.tau * wheel.radius / max(wheel.teeth, 1)
    return wheel.fact("land", 0.0) > pitch / 2 or any(one.code in OF_SIZE for one in wheel.findings)


def _is_strange(part: Part, diameter: float) -> bool:
    """Whether a whole wheel is too small for a file in mm, or too large for one in inches."""
    return diameter < SMALLEST if part.file_units == "mm" else diameter > LARGEST


def _change(part: Part, remedy: Remedy) -> float:
    """How much a remedy changes a length, as the logarithm of new to old; 0 for what is none."""
    before = dict(lengths_given(part)).get(remedy.key)
    try:
        after = dict(lengths_given(mended(part, remedy))).get(remedy.key)
    except UnitsError:
        return 0.0
    return abs(math.log(after / before)) if before and after else 0.0


def _read_other(part: Part, key: str, size: float, solve: Solve) -> Wheel | None:
    """The wheel with one size read in the other unit; None when it cannot be made."""
    try:
        return solve(mended(part, Remedy(key, _typed(part, size))))
    except (CannotMakeError, UnitsError):
        return None


def _other(part: Part) -> Unit:
    return "in" if part.file_units == "mm" else "mm"


def _typed(part: Part, size: float) -> str:
    """A size (mm) with the number that stands in the file and the other unit behind it."""
    number = size if part.file_units == "mm" else size / float(MM_PER_INCH)
    return f"{number:.6g} {_other(part)}"


def _of_one(part: Part, key: str, size: float, severity: Severity) -> Finding:
    make = Make(key, "", _typed(part, size))
    facts: dict[str, Fact] = {"key": key, "size": mm(size), "unit": UNIT_WORDS[_other(part)]}
    return Finding("size-unit", severity, key, size, None, make.remedy, facts, "one", advice=make)


def _of_all(part: Part, diameter: float) -> Finding:
    """The caution of a whole wheel that makes sense in the other unit only."""
    small, factor = part.file_units == "mm", float(MM_PER_INCH)
    meant = diameter * factor if small else diameter / factor
    other = _other(part)
    facts: dict[str, Fact] = {
        "size": mm(diameter),
        "meant": mm(meant),
        "unit": UNIT_WORDS[other],
        "typed": other,
    }
    return Finding("size-unit", "caution", "units", diameter, meant, facts=facts, case="all")
