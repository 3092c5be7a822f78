"""The types of single values in a part file: length, angle, count, text, choice.

Owns: reading one value with shop words for what is wrong, and its JSON Schema.
Refuses: rules between keys. Lengths become mm and angles radians here, once; a bare length is
in the unit given by the validation context (`{"units": "in"}`), mm without one.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Callable
from fractions import Fraction
from typing import Annotated, Any, Literal

from pydantic import BeforeValidator, ValidationInfo, WithJsonSchema

from profilegen.part import patterns
from profilegen.units import Unit, UnitsError, parse_angle, parse_length

LONGEST_TITLE = 120
"""Characters in a title."""

LONGEST_NAME = 60
"""Characters in a number, a material or a cutter's name."""

LONGEST_PATH = 400
"""Characters in the name of a file."""

_JOINERS = "\u200c\u200d"
"""Signs of no width that join or part letters in scripts that need them, and pictures."""


_FILLERS = "\u034f\u115f\u1160\u17b4\u17b5\u2800\u3164\uffa0"
"""Signs that count as letters or pictures in Unicode and show nothing."""


class FieldError(ValueError):
    """One value that is not allowed.

    Attributes:
        message: one sentence that says what is wrong.
        allowed: what would be accepted, or empty.
        hint: the next step to take, or empty.
    """

    def __init__(self, message: str, allowed: str = "", hint: str = "") -> None:
        super().__init__(message)
        self.message = message
        self.allowed = allowed
        self.hint = hint


def unit_of(info: ValidationInfo) -> Unit:
    """Return the unit of a bare length: that of the validation context, or mm."""
    context = info.context
    return "in" if isinstance(context, dict) and context.get("units") == "in" else "mm"


def what(value: object) -> str:
    """Return the sort of a TOML value in plain words, such as `a table`."""
    for kind, words in (
        (bool, "true or false"),
        (dict, "a table"),
        (list, "a list"),
        (str, "text"),
        (int | float, "a number"),
    ):
        if isinstance(value, kind):
            return words
    return "a date or time"


def _scalar(value: object, wanted: str) -> str | int | float | Fraction:
    if isinstance(value, bool) or not isinstance(value, str | int | float | Fraction):
        raise FieldError(f"this is {what(value)} where {wanted} is wanted", wanted)
    return value


def _length(value: object, unit: Unit) -> float:
    return parse_length(_scalar(value, "a length"), unit)


def _above_zero(value: object, info: ValidationInfo) -> float:
    mm = _length(value, unit_of(info))
    if mm <= 0:
        raise FieldError("a size must be more than 0", "more than 0")
    return mm


def _land(value: object, info: ValidationInfo) -> float:
    mm = _length(value, unit_of(info))
    if mm < 0:
        raise FieldError("a size must be more than 0", "more than 0")
    return mm


def _zero_or_more(value: object, info: ValidationInfo) -> float:
    mm = _length(value, unit_of(info))
    if mm < 0:
        raise FieldError("this size cannot be less than 0", "0 or more")
    return mm


def _signed(value: object, info: ValidationInfo) -> float:
    return _length(value, unit_of(info))


def _angle_between(
    least: float, most: float, *, least_allowed: bool = False, most_allowed: bool = False
) -> Callable[[object], float]:
    """Return a reader of angles within limits in degrees; an end counts only where said."""
    low, high = parse_angle(least), parse_angle(most)
    words = (
        f"{'from' if least_allowed else 'more than'} {least:g} deg"
        f" {'to' if most_allowed else 'to less than'} {most:g} deg"
    )

    def read(value: object) -> float:
        angle = parse_angle(_scalar(value, "an angle"))
        too_low = angle < low or (angle == low and not least_allowed)
        too_high = angle > high or (angle == high and not most_allowed)
        if too_low or too_high:
            raise FieldError("this angle is out of range", words)
        return angle

    return read


def number_between(least: float, most: float, wanted: str) -> Callable[[object], float]:
    """Return a reader of plain numbers without a unit within limits, both of which count.

    Args:
        least: the smallest.
        most: the greatest.
        wanted: what the number is, in words.
    """

    def read(value: object) -> float:
        if isinstance(value, bool) or not isinstance(value, int | float | Fraction):
            raise FieldError(f"this is {what(value)} where {wanted} is wanted", wanted)
        number = float(value)
        if not least <= number <= most:
            raise FieldError("this number is out of range", f"from {least:g} to {most:g}")
        return number

    return read


def _count_between(least: int, most: int) -> Callable[[object], int]:
    """Return a reader of whole numbers from `least` to `most`."""
    allowed = f"a whole number from {least} to {most}"

    def read(value: object) -> int:
        if isinstance(value, bool) or not isinstance(value, int):
            raise FieldError(
                f"this is {what(value)} where a count is wanted", allowed, _whole(value)
            )
        if not least <= value <= most:
            raise FieldError(
                f"this count is {'too small' if value < least else 'too big'}", allowed
            )
        return value

    return read


def _whole(value: object) -> str:
    try:
        number = float(value) if isinstance(value, str | float) else float("nan")
    except ValueError:
        return ""
    if not number.is_integer() or abs(number) > 1e6:
        return "a count has no decimals" if isinstance(value, float) else ""
    return f"write {number:.0f}, without quotes or decimals"


def text_up_to(longest: int) -> Callable[[object], str]:
    """Return a reader of one line of text; blanks at both ends are taken off."""

    def read(value: object) -> str:
        if not isinstance(value, str):
            raise FieldError(f"this is {what(value)} where text is wanted", 'text in quotes: "..."')
        text = value.strip(" ")
        _refuse_unprintable(text)
        if not text:
            raise FieldError("this text is empty", f"1 to {longest} characters")
        if len(text) > longest:
            raise FieldError(f"this text has {len(text)} characters", f"1 to {longest} characters")
        return text

    return read


_UNSEEN = frozenset({"Cc", "Cf", "Cs", "Zl", "Zp"})
"""Unicode categories of signs that show nothing or turn the writing: they can make a label lie."""


def _refuse_unprintable(text: str) -> None:
    for place, sign in enumerate(text):
        if unicodedata.category(sign) in _UNSEEN or _never_a_sign(sign):
            if sign in _JOINERS and not text[place - 1 : place + 2 : 2].isascii():
                continue
            raise FieldError(
                f"this text holds {sign_words(sign)}",
                "one line of signs that can be printed",
                r"a \ in double quotes begins a code: put a path in single quotes"
                if sign in "\b\t\n\f\r\x1b"
                else "",
            )


def _never_a_sign(sign: str) -> bool:
    point = ord(sign)
    return point & 0xFFFE == 0xFFFE or 0xFDD0 <= point <= 0xFDEF or sign in _FILLERS


def sign_words(sign: str) -> str:
    r"""Return what a sign that cannot be printed is called, such as `a line break (\n)`."""
    known = {
        "\n": r"a line break (\n)",
        "\t": r"a tab (\t)",
        "\r": r"a return (\r)",
        "\b": r"a backspace (\b)",
        "\f": r"a page break (\f)",
    }
    return known.get(sign, f"the invisible sign U+{ord(sign):04X}")


def _between(least: float, most: float) -> dict[str, Any]:
    return patterns.angle(exclusiveMinimum=least, exclusiveMaximum=most)


_MORE_JSON = patterns.length(exclusiveMinimum=0)

Length = Annotated[float, BeforeValidator(_above_zero), WithJsonSchema(_MORE_JSON)]
"""mm, more than 0."""

Land = Annotated[float, BeforeValidator(_land), WithJsonSchema(_MORE_JSON)]
"""mm; 0 is read, so that the wheel, which knows its least land, can say what to write instead."""

LengthOrZero = Annotated[
    float, BeforeValidator(_zero_or_more), WithJsonSchema(patterns.length(minimum=0))
]
"""mm, 0 or more."""

SignedLength = Annotated[
    float, BeforeValidator(_signed), WithJsonSchema(patterns.length(signed=True))
]
"""mm, of either sign."""


Turn = Annotated[
    float,
    BeforeValidator(_angle_between(-360, 360, least_allowed=True, most_allowed=True)),
    WithJsonSchema(patterns.angle(minimum=-360, maximum=360)),
]
"""rad, a position round the wheel, -360 to 360 deg."""

Included = Annotated[
    float,
    BeforeValidator(_angle_between(0, 180)),
    WithJsonSchema(_between(0, 180)),
]
"""rad, between two flanks, over 0 and under 180 deg."""

Flank = Annotated[
    float,
    BeforeValidator(_angle_between(0, 90)),
    WithJsonSchema(_between(0, 90)),
]
"""rad, of one flank, over 0 and under 90 deg."""

Hook = Annotated[
    float,
    BeforeValidator(_angle_between(-45, 45)),
    WithJsonSchema(_between(-45, 45)),
]
"""rad, of a face against the radius, over -45 and under 45 deg."""

Relief = Annotated[
    float,
    BeforeValidator(_angle_between(0, 45, least_allowed=True)),
    WithJsonSchema(patterns.angle(minimum=0, exclusiveMaximum=45)),
]
"""rad, of an edge's clearance, 0 to under 45 deg."""

Teeth = Annotated[
    int,
    BeforeValidator(_count_between(2, 1000)),
    WithJsonSchema({"type": "integer", "minimum": 2, "maximum": 1000}),
]
"""Teeth of a wheel, 2 to 1000."""

Count = Annotated[
    int,
    BeforeValidator(_count_between(1, 1000)),
    WithJsonSchema({"type": "integer", "minimum": 1, "maximum": 1000}),
]
"""A count of holes or cutting edges, 1 to 1000."""

Title = Annotated[
    str,
    BeforeValidator(text_up_to(LONGEST_TITLE)),
    WithJsonSchema({"type": "string", "minLength": 1, "maxLength": LONGEST_TITLE}),
]
"""One line of text, up to 120 characters."""

Name = Annotated[
    str,
    BeforeValidator(text_up_to(LONGEST_NAME)),
    WithJsonSchema({"type": "string", "minLength": 1, "maxLength": LONGEST_NAME}),
]
"""One line of text, up to 60 characters."""

FileName = Annotated[
    str,
    BeforeValidator(text_up_to(LONGEST_PATH)),
    WithJsonSchema({"type": "string", "minLength": 1, "maxLength": LONGEST_PATH}),
]
"""The name of a file, from the folder of the file that names it; up to 400 characters."""

Rotation = Literal["clockwise", "counter-clockwise"]
"""A way of turning; each key says from where it is seen."""

__all__ = [
    "Count",
    "FieldError",
    "FileName",
    "Flank",
    "Hook",
    "Included",
    "Land",
    "Length",
    "LengthOrZero",
    "Name",
    "Relief",
    "Rotation",
    "Teeth",
    "Title",
    "Turn",
    "UnitsError",
    "sign_words",
    "text_up_to",
    "unit_of",
    "what",
]
