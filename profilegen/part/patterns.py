"""Sizes in the JSON Schema of part files: what an editor may take for one.

Owns patterns that match whatever `units` and `allowance` read as a text, and little else: an editor
must never mark a good size. What is no pattern's affair (`1,250`, a size too big) `check` tells.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any, Final

from profilegen.units import LENGTH_UNITS

_MINUS: Final = "\\-\u2212\u2010\u2011\u2013"
_VULGAR: Final = "\u00bc-\u00be\u2150-\u215e"
_NUMBER: Final = rf"[0-9.,{_VULGAR}][0-9.,/\u2044\u2215\s{_MINUS}{_VULGAR}]*"
_FEET: Final = "['\u2032\u2018\u2019]"
_INCH: Final = f'["\u2033\u201c\u201d]|{_FEET}{_FEET}'


def _any_case(word: str) -> str:
    """A word in capitals or small letters: patterns of JSON Schema have no flags."""
    return "".join(f"[{sign}{sign.upper()}]" if sign.isascii() else "[µμ]" for sign in word)


def _begun(words: Iterable[str]) -> str:
    """Any word that begins as one of these, so that the pattern stays short enough to be read."""
    starts = dict.fromkeys(word[:2] for word in words if word.isalpha())
    return f"(?:{'|'.join(map(_any_case, starts))})[A-Za-z]*\\.?"


_LENGTH_UNIT: Final = f"(?:{_begun(LENGTH_UNITS)}|{_INCH})"
_ANGLE_UNIT: Final = f"(?:{_begun(('deg', 'min', 'sec', 'rad'))}|[°º˚]|{_INCH}|{_FEET})"
_LENGTH: Final = rf"{_NUMBER}{_LENGTH_UNIT}?"
_ANGLE: Final = rf"(?:{_NUMBER}{_ANGLE_UNIT}?\s*){{1,3}}"
_SIGN: Final = rf"[+{_MINUS}]?\s*"
_GENERAL: Final = rf"{_any_case('iso')}\s*2768(?:-1)?[\s-]*[fmcvFMCV]"
_CLASS: Final = r"[A-Za-z]{1,2}\s*[0-9]{1,2}"
_BOTH: Final = rf"(?:±|\+/?[{_MINUS}])?\s*"


def length(*, signed: bool = False, **limits: Any) -> dict[str, Any]:
    """The schema of a length: text in shop notation, or a bare number in the part's unit, mm or in.

    Args:
        signed: whether it may be negative.
        limits: of a bare number alone, such as `minimum`.
    """
    sign = _SIGN if signed else r"\+?\s*"
    examples = [8.26, "0.325 in", "3/32 in", "8,26 mm"]
    return _size(f"{sign}{_LENGTH}", examples, **limits)


def angle(*examples: object, **limits: Any) -> dict[str, Any]:
    """The schema of an angle: text in shop notation, or a bare number in degrees.

    Args:
        examples: as they are typed; the usual ones when left out.
        limits: of a bare number alone, such as `maximum`.
    """
    shown = examples or (60, "60 deg", "12°30'")
    return _size(f"{_SIGN}{_ANGLE}", list(shown), **limits)


def speed() -> dict[str, Any]:
    """The schema of a surface speed."""
    unit = "|".join(_any_case(start) for start in ("m", "ft", "fpm", "sfm"))
    examples = [10, "12 m/min", "40 ft/min"]
    return _size(rf"[0-9.,]+\s*(?:(?:{unit})(?:/[mM][iI][nN])?)?", examples, exclusiveMinimum=0)


def allowance(*, of_angle: bool = False) -> dict[str, Any]:
    """The schema of a tolerance: deviations with or without a unit, or a class.

    Args:
        of_angle: whether a bare number is in degrees; then there are no classes of ISO 286.
    """
    if of_angle:
        size, classes = f"{_SIGN}{_ANGLE}", _GENERAL
        examples = ["1 deg", "+1 deg -0.5 deg", "ISO 2768-m"]
    else:
        size, classes = f"{_SIGN}{_LENGTH}", f"{_GENERAL}|{_CLASS}"
        examples = ["+0.02 -0", "0.05", "H7", "ISO 2768-m"]
    two = rf"{_BOTH}{size}(?:\s*/?\s*{size})?"
    return _size(f"(?:{classes}|{two})", examples, exclusiveMinimum=0)


def _size(pattern: str, examples: list[Any], **limits: Any) -> dict[str, Any]:
    whole = rf"^\s*{pattern}\s*$"
    return {"type": ["number", "string"], "pattern": whole, "examples": examples, **limits}
