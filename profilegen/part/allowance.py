"""One tolerance as a print writes it: `"+0.02 -0"`, `"0.05"`, `"H7"`, `"ISO 2768-m"`.

Owns the notation. Sizes inside it are read by `units`; a bare number is in the part's unit, of an
angle in degrees. Which classes there are is written here, so that a wrong one is told with all
other slips of the file. Refuses what a class amounts to at a size: that is `limits`.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass
from typing import Annotated, Final

from pydantic import BeforeValidator, ValidationInfo, WithJsonSchema

from profilegen.part import patterns
from profilegen.part.fields import FieldError, unit_of, what
from profilegen.units import Unit, UnitsError, parse_angle, parse_length

HOLES: Final = ("E", "F", "G", "H", "JS", "K", "N", "P")
"""Fundamental deviations of holes known here (ISO 286-1)."""

SHAFTS: Final = ("e", "f", "g", "h", "js", "k", "n", "p")
"""Fundamental deviations of shafts known here (ISO 286-1)."""

INSIDE: Final = frozenset({"bore_diameter", "across_flats", "key_width", "flat_to_far_side"})
"""Keys of `[tolerance]` that a hole's class is for; the other lengths but the key's depth are of
what stands outside, and a shaft's class is for them."""

GRADES: Final = (5, 6, 7, 8, 9, 10, 11)
"""Standard tolerance grades known here (ISO 286-1)."""

GENERAL: Final = ("f", "m", "c", "v")
"""Classes of ISO 2768-1: fine, medium, coarse, very coarse."""

_LENGTHS: Final = '"+0.02 -0", "0.05" (plus and minus), a class such as "H7", or "ISO 2768-m"'
_ANGLES: Final = '"+1 deg -0.5 deg", "1 deg" (plus and minus), or "ISO 2768-m"'
_FIT: Final = re.compile(r"([A-Za-z]{1,2}) ?([0-9]{1,2})")
_GENERAL: Final = re.compile(r"ISO ?2768(?:-1)?[ -]?([a-z])", re.IGNORECASE)
_BOTH: Final = re.compile(r"(?:±|\+/-|\+-)\s*([^+±-].*)")
_SECOND: Final = re.compile(r"^[+-]|[\s/][+-]")
_TWO: Final = re.compile(r"([+-]?\s*[^\s+-][^+-]*?)\s*/?\s*([+-]\s*[^\s+-][^+-]*)")
_UNIT: Final = re.compile(r"[^0-9.,+/\s-]+$")


@dataclass(frozen=True, slots=True)
class Allowance:
    """One tolerance; just one of the three forms is filled.

    Attributes:
        text: as it was written.
        deviations: lower and upper deviation from the nominal, mm or rad; or None.
        fit: class of ISO 286, such as `H7`, or empty.
        general: class of ISO 2768-1, one of `f m c v`, or empty.
    """

    text: str
    deviations: tuple[float, float] | None = None
    fit: str = ""
    general: str = ""


def read_length(value: object, unit: Unit) -> Allowance:
    """The tolerance of a length, deviations in mm.

    Args:
        value: as the print writes it, text or a bare number; one size alone is plus and minus.
        unit: of a bare number.

    Raises:
        FieldError: it is no tolerance, or of a class that is not known here.
    """
    text = _text(value, _LENGTHS)
    fit = _FIT.fullmatch(text)
    if fit and fit[1].lower() != "in":
        return Allowance(text, fit=_known_fit(fit[1], int(fit[2])))
    return _general(text) or _deviations(text, lambda piece: parse_length(piece, unit), _LENGTHS)


def read_angle(value: object) -> Allowance:
    """The tolerance of an angle, deviations in rad.

    Args:
        value: as the print writes it, text or a bare number, in degrees; one size alone is plus and
            minus.

    Raises:
        FieldError: it is no tolerance of an angle.
    """
    text = _text(value, _ANGLES)
    if _FIT.fullmatch(text):
        raise FieldError("a class of ISO 286 is for lengths, and this is an angle", _ANGLES)
    return _general(text) or _deviations(text, parse_angle, _ANGLES)


def _text(value: object, allowed: str) -> str:
    if isinstance(value, bool) or not isinstance(value, str | int | float):
        raise FieldError(f"this is {what(value)} where a tolerance is wanted", allowed)
    text = " ".join(str(value).replace("\u2212", "-").replace("\u2013", "-").split())
    if not text or len(text) > 40:
        raise FieldError("this is no tolerance", allowed)
    return text


def _known_fit(letters: str, grade: int) -> str:
    """The class, when it is one of those known here."""
    if letters not in (*HOLES, *SHAFTS):
        raise FieldError(
            f"the letter {letters} of ISO 286 is not known here",
            f"holes {' '.join(HOLES)}, shafts {' '.join(SHAFTS)}, or plus and minus",
        )
    if grade not in GRADES:
        raise FieldError(
            f"the grade {grade} of ISO 286 is not known here",
            f"grades {GRADES[0]} to {GRADES[-1]}, or plus and minus",
        )
    return f"{letters}{grade}"


def _general(text: str) -> Allowance | None:
    match = _GENERAL.fullmatch(text)
    if not match:
        return None
    if match[1].lower() not in GENERAL:
        allowed = ", ".join(f'"ISO 2768-{name}"' for name in GENERAL)
        raise FieldError(f"ISO 2768-1 has no class {match[1]}", allowed)
    return Allowance(text, general=match[1].lower())


def _deviations(text: str, read: Callable[[str], float], allowed: str) -> Allowance:
    try:
        return _signed_sizes(text, read, allowed)
    except UnitsError as error:
        raise FieldError(f"this is no tolerance: {error.message}", allowed, error.hint) from None


def _signed_sizes(text: str, read: Callable[[str], float], allowed: str) -> Allowance:
    """Plus and minus one size, or two signed sizes of which one may be 0 without a sign."""
    both = _BOTH.fullmatch(text)
    two = _TWO.fullmatch(text) if not both and _SECOND.search(text) else None
    if two:
        low, high = sorted((_signed(two[1], two[2], read), _signed(two[2], two[2], read)))
    elif text[0] in "+-" and not both:
        raise FieldError("one deviation with a sign leaves the other open", allowed)
    else:
        high = read(both[1] if both else text)
        low = -high
    if high <= low:
        raise FieldError("this leaves no room between the limits", allowed)
    return Allowance(text, (low, high))


def _signed(piece: str, last: str, read: Callable[[str], float]) -> float:
    """A signed size; one without a unit takes that of the last."""
    unit = _UNIT.search(last)
    own = piece if _UNIT.search(piece) or not unit else f"{piece} {unit[0]}"
    found = read(own.replace("+ ", "+").replace("- ", "-").strip())
    if piece[0] not in "+-" and found != 0.0:
        raise FieldError("the first of two deviations has no sign", '"+0.02 -0"')
    return found


def _length(value: object, info: ValidationInfo) -> Allowance:
    found = read_length(value, unit_of(info))
    _check_side(found.fit, info.field_name)
    return found


def _check_side(fit: str, key: str | None) -> None:
    """Refuse a shaft's class on a hole and the other way round: a slip of one letter's case.

    JS and js amount to the same.
    """
    is_hole = key in INSIDE
    if not fit or key == "key_depth" or fit[:2].lower() == "js" or fit[0].isupper() == is_hole:
        return
    other = fit.swapcase()
    here, there = ("hole", "shafts") if is_hole else ("outside size", "holes")
    text = f"{fit} is a class of {there}, and this is {'a' if is_hole else 'an'} {here}"
    raise FieldError(text, f'"{other}", or plus and minus', f'write "{other}"')


LengthAllowance = Annotated[
    Allowance,
    BeforeValidator(_length),
    WithJsonSchema(patterns.allowance()),
]
"""The tolerance of a length."""

AngleAllowance = Annotated[
    Allowance,
    BeforeValidator(read_angle),
    WithJsonSchema(patterns.allowance(of_angle=True)),
]
"""The tolerance of an angle."""
