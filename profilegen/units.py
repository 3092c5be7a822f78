"""Text to millimetres and radians, and back: the only converter and the only number formatter.

Owns: shop notation for lengths and angles, exact conversion through `Fraction`, and how a
number is written for people.
Refuses: anything that can be read in two ways (`1,250`, `1,234.5`, `mil`, `tenths`, a bare `1/8`
where a bare number is in mm), NaN, infinity, and sizes no wheel has. Knows nothing about keys or
files.

Decisions: a point is always the decimal mark. A single comma is a decimal comma, except where
it could as well part thousands (one to three digits, not starting with 0, then just three
digits): that is refused by name. `1-1/4` and `1 1/4` are mixed numbers; `1 - 1/4` is refused.
"""

from __future__ import annotations

import math
import re
import unicodedata
from fractions import Fraction
from typing import Final, Literal, NoReturn

Unit = Literal["mm", "in"]
DecimalMark = Literal["point", "comma"]
Rounding = Literal["nearest", "up", "down"]
"""`up` is towards plus infinity, `down` towards minus infinity."""
Number = str | int | float | Fraction

MM_PER_INCH: Final = Fraction(254, 10)
"""mm in an inch, exact by definition (international inch, 1959)."""

_METRES_PER_FOOT: Final = 12 * MM_PER_INCH / 1000

LONGEST_MM: Final = 10_000
"""mm. A longer length is a slip of the pen: ten metres."""

SHORTEST_MM: Final = Fraction(1, 1_000_000)
"""mm. A shorter length that is not 0 is a slip of the pen: one nanometre."""

GREATEST_DEG: Final = 3600
"""degrees. A greater angle is a slip of the pen: ten turns."""

LONGEST_TEXT: Final = 40
"""Characters. No size in shop notation is longer."""

PLACES: Final[dict[str, int]] = {"mm": 3, "in": 4, "deg": 3}
"""Decimal places written when none are asked for."""

UNIT_WORDS: Final[dict[Unit, str]] = {"mm": "millimetres", "in": "inches"}
"""What people call a unit."""

LENGTH_UNITS: Final[dict[str, Fraction]] = {
    word: factor
    for factor, words in (
        (Fraction(1), "mm millimetre millimetres millimeter millimeters"),
        (Fraction(10), "cm centimetre centimetres centimeter centimeters"),
        (Fraction(1, 1000), "um µm micron microns micrometre micrometres"),
        (MM_PER_INCH, "in inch inches \" ''"),
        (MM_PER_INCH / 1000, "thou thous"),
    )
    for word in words.split()
}
"""What may stand behind a length, in small letters -> mm in one."""

_UNSURE_UNITS: Final[dict[str, str]] = {
    "mil": "a mil is a thou to some and a millimetre to others",
    "mils": "a mil is a thou to some and a millimetre to others",
    "tenth": "a tenth is 0.1 mm to some and 0.0001 in to others",
    "tenths": "a tenth is 0.1 mm to some and 0.0001 in to others",
    "m": "m may be meant for mm",
    "'": "a single ' is feet or a slip for the inch mark",
    "ft": "feet are not used here",
    "feet": "feet are not used here",
    "foot": "feet are not used here",
    "i": "i may be meant for in",
}
_ANGLE_UNIT: Final = re.compile("°|(deg|min|rad|degree|minute|radian)s?")
_SAME: Final = str.maketrans(
    {
        "\u00a0": " ",
        "\u2007": " ",
        "\u2009": " ",
        "\u202f": " ",
        "\u2212": "-",
        "\u2010": "-",
        "\u2011": "-",
        "\u2013": "-",
        "\u2044": "/",
        "\u2215": "/",
        "\u2033": '"',
        "\u201c": '"',
        "\u201d": '"',
        "\u2032": "'",
        "\u2018": "'",
        "\u2019": "'",
        "\u00ba": "°",
        "\u02da": "°",
        "\u03bc": "µ",
    }
)
_VULGAR: Final = re.compile("[\u00bc-\u00be\u2150-\u215e]")
_DECIMAL: Final = re.compile(r"[0-9]+\.?[0-9]*|\.[0-9]+")
_COMMA: Final = re.compile(r"[0-9]*,[0-9]+")
_THOUSANDS: Final = re.compile(r"[1-9][0-9]{0,2},[0-9]{3}")
_FRACTION: Final = re.compile(r"(?:([0-9]+)(?:-| +))?([0-9]+) ?/ ?([0-9]+)")
_LENGTH: Final = re.compile(r"([+-]?) *([0-9.,][0-9.,/ -]*?) *([^0-9.,/ -][^0-9]*)?")
_PIECE: Final = r"(?:(?P<{0}>[0-9.,][0-9.,/ -]*?) *(?:{1})(?![a-z]) *)?"
_DMS: Final = re.compile(
    _PIECE.format("deg", "degrees|degree|degs|deg|°")
    + _PIECE.format("min", "minutes|minute|mins|min|'(?!')")
    + _PIECE.format("sec", "seconds|second|secs|sec|''|\"")
)
_SPEED: Final = re.compile(r"([0-9.,]+) *(m/min|ft/min|fpm|sfm)?")
_SPEED_ALLOWED: Final = 'a number, with m/min or ft/min behind it, such as "12 m/min"'
_RADIANS: Final = re.compile(r"([0-9.,][0-9.,/ -]*?) *(?:radians|radian|rads|rad)")

_LENGTH_ALLOWED: Final = 'a length such as 8.26, "0.325 in", "3/32 in" or "8,26 mm"'
_ANGLE_ALLOWED: Final = 'an angle such as 60, "60 deg", "12°30\'" or "12 deg 30 min"'
_SCALE_ALLOWED: Final = "times full size, such as 2, 10:1 or 1:2"


class UnitsError(ValueError):
    """A text or number that is no length or angle, or could be two different ones.

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


def parse_length(value: Number, unit: Unit) -> float:
    """Return a length in mm.

    Args:
        value: shop notation, or a bare number in `unit`. The sign is kept; 0 is allowed.
        unit: what a bare number means.

    The decimal digits are converted exactly and rounded once, so that an inch and a mm
    spelling of the same size give the same float.

    Raises:
        UnitsError: `value` is no length, can be read in two ways, or is beyond all wheels.
    """
    bare = MM_PER_INCH if unit == "in" else Fraction(1)
    if isinstance(value, str):
        exact = _length_text(value, bare)
    else:
        exact = _plain(value, _LENGTH_ALLOWED) * bare
    if abs(exact) > LONGEST_MM:
        raise UnitsError(
            "this is far too big for a length here",
            f"up to {LONGEST_MM} mm, that is {LONGEST_MM / 25.4:.0f} in",
        )
    if exact and abs(exact) < SHORTEST_MM:
        raise UnitsError("this is far too small for a length here", "0.000001 mm or 0")
    return float(exact)


def unit_named(value: object) -> Unit | None:
    """Return the unit that a length in shop notation names, mm or in; None when it names none."""
    match = (
        _LENGTH.fullmatch(_tidy(value, "")) if isinstance(value, str) and value.strip() else None
    )
    if match is None or not match[3]:
        return None
    factor = LENGTH_UNITS.get(match[3].strip().rstrip("."))
    if factor is None:
        return None
    return "in" if factor in (MM_PER_INCH, MM_PER_INCH / 1000) else "mm"


def parse_speed(value: Number, unit: Unit) -> float:
    """Return a surface speed in m/min; a bare number is in ft/min where the unit is the inch.

    Raises:
        UnitsError: `value` is no speed, or can be read in two ways.
    """
    bare = _METRES_PER_FOOT if unit == "in" else Fraction(1)
    if not isinstance(value, str):
        return float(_plain(value, _SPEED_ALLOWED) * bare)
    match = _SPEED.fullmatch(_tidy(value, _SPEED_ALLOWED))
    if not match:
        raise UnitsError("this is not a surface speed", _SPEED_ALLOWED)
    factor = {None: bare, "m": Fraction(1), "f": _METRES_PER_FOOT, "s": _METRES_PER_FOOT}
    unit_letter = match[2][0] if match[2] else None
    return float(_number(match[1], value, _SPEED_ALLOWED) * factor[unit_letter])


def parse_angle(value: Number) -> float:
    """Return an angle in radians, counter-clockwise positive; a bare number is in degrees.

    Raises:
        UnitsError: `value` is no angle, can be read in two ways, or is over ten turns.
    """
    if not isinstance(value, str):
        degrees: Fraction = _plain(value, _ANGLE_ALLOWED)
    else:
        text = _tidy(value, _ANGLE_ALLOWED)
        sign, body = _sign(text)
        match = _RADIANS.fullmatch(body)
        if match:
            radians = sign * _number(match[1], value, _ANGLE_ALLOWED)
            _check_angle(radians * Fraction(180 / math.pi), value)
            return float(radians) + 0.0
        degrees = sign * _degrees_text(body, value)
    _check_angle(degrees, value)
    return math.radians(float(degrees)) + 0.0


def parse_scale(text: str) -> float:
    """Return a scale as times full size: 10 for `10` and `10:1`, a half for `1:2`, `1/2` and `0,5`.

    Raises:
        UnitsError: `text` is no scale.
    """
    first, mark, second = _tidy(text, _SCALE_ALLOWED).partition(":")
    drawn = _number(first.strip(), text, _SCALE_ALLOWED)
    real = _number(second.strip(), text, _SCALE_ALLOWED) if mark else Fraction(1)
    if drawn <= 0 or real <= 0:
        raise UnitsError("a scale is more than 0", _SCALE_ALLOWED)
    return float(drawn / real)


def format_number(value: float, places: int, *, decimal: DecimalMark = "point") -> str:
    """Write a number with just `places` decimals: half to even, never `-0`, never an exponent.

    The digits rounded are those of the shortest decimal that gives back `value`, so that
    0.125 and 2.675 round as they read.

    Raises:
        UnitsError: `value` is NaN or infinite.
    """
    return _write(_exact(value), places, decimal)


def format_quotient(over: int, under: int, places: int, *, decimal: DecimalMark = "point") -> str:
    """Write a quotient of whole numbers with just `places` decimals: half to even, never `-0`.

    What a list of a thousand angles is written with: no fraction is made, no float is read back.
    `under` is positive.
    """
    return _decimals(nearest_whole(over * 10**places, under), places, decimal)


def nearest_whole(over: int, under: int) -> int:
    """Return the whole number nearest to a quotient of whole numbers; a tie goes to the even one.

    `under` is positive.
    """
    whole, rest = divmod(over, under)
    return whole + (2 * rest > under or (2 * rest == under and whole % 2 == 1))


def format_length(
    mm: float,
    unit: Unit,
    *,
    decimal: DecimalMark = "point",
    places: int | None = None,
    with_unit: bool = True,
    rounding: Rounding = "nearest",
) -> str:
    """Write a length: 3 places for mm, 4 for in unless asked.

    Args:
        mm: in millimetres, whatever the unit written.
        unit: that is written.
        decimal: the mark that the reader writes.
        places: behind it; None for the usual count.
        with_unit: whether the unit stands behind the figure.
        rounding: a limit is rounded `up` or `down` from its value to the billionth of a mm: what
            lies below is the noise of arithmetic.

    Raises:
        UnitsError: `mm` is NaN or infinite.
    """
    exact = _exact(mm if rounding == "nearest" else round(float(mm), 9))
    exact = exact / MM_PER_INCH if unit == "in" else exact
    text = _write(exact, PLACES[unit] if places is None else places, decimal, rounding)
    return f"{text} {unit}" if with_unit else text


def format_angle(
    radians: float,
    *,
    decimal: DecimalMark = "point",
    places: int | None = None,
    rounding: Rounding = "nearest",
) -> str:
    """Write an angle given in radians in degrees, as in `12.500°`.

    Args:
        radians: the angle, sign kept.
        decimal: the decimal mark.
        places: decimals; 3 unless asked.
        rounding: as of a length, from the billionth of a degree.

    Raises:
        UnitsError: `radians` is NaN or infinite.
    """
    _exact(radians)
    known = 12 if rounding == "nearest" else 9
    degrees = Fraction(repr(round(math.degrees(float(radians)), known)))
    return _write(degrees, PLACES["deg"] if places is None else places, decimal, rounding) + "°"


def both_units(mm: float, *, first: Unit = "mm", decimal: DecimalMark = "point") -> str:
    """Write a length given in mm in both units, as in `38.000 mm (1.4961 in)`.

    Raises:
        UnitsError: `mm` is NaN or infinite.
    """
    second: Unit = "in" if first == "mm" else "mm"
    return (
        f"{format_length(mm, first, decimal=decimal)}"
        f" ({format_length(mm, second, decimal=decimal)})"
    )


def _exact(value: float) -> Fraction:
    """Return the shortest decimal that gives back `value`, as a fraction."""
    number = float(value)
    if not math.isfinite(number):
        raise UnitsError(f"{number} is not a number that can be written")
    return Fraction(repr(number))


def _write(
    exact: Fraction, places: int, decimal: DecimalMark, rounding: Rounding = "nearest"
) -> str:
    steps = exact * 10**places
    match rounding:
        case "up":
            return _decimals(math.ceil(steps), places, decimal)
        case "down":
            return _decimals(math.floor(steps), places, decimal)
        case _:
            return _decimals(round(steps), places, decimal)


def _decimals(scaled: int, places: int, decimal: DecimalMark) -> str:
    """A whole number of steps of the last decimal."""
    digits = str(abs(scaled)).rjust(places + 1, "0")
    whole, part = (digits[:-places], digits[-places:]) if places else (digits, "")
    mark = "," if decimal == "comma" else "."
    return ("-" if scaled < 0 else "") + whole + (mark + part if part else "")


def _plain(value: object, allowed: str) -> Fraction:
    """Return a bare number exactly as it reads in decimal."""
    if isinstance(value, bool) or not isinstance(value, int | float | Fraction):
        raise UnitsError("this is not a number", allowed)
    if isinstance(value, float):
        if not math.isfinite(value):
            raise UnitsError(f"{value} is not a size", allowed)
        return Fraction(repr(float(value)))
    if isinstance(value, int) and value.bit_length() > 1024:
        raise UnitsError("this number has hundreds of digits", allowed)
    return Fraction(value)


def _vulgar(match: re.Match[str]) -> str:
    return " " + unicodedata.normalize("NFKC", match[0]).replace("\u2044", "/")


def _tidy(value: str, allowed: str) -> str:
    """Return the text in plain signs, lower case, with single spaces."""
    if len(value) > LONGEST_TEXT:
        raise UnitsError("this text is too long for a size", allowed)
    plain = _VULGAR.sub(_vulgar, value).translate(_SAME).lower()
    text = re.sub(r"[ \t]+", " ", plain).strip()
    if not text:
        raise UnitsError("this text is empty", allowed)
    if re.fullmatch(r"[+-]?(nan|inf|infinity)", text):
        raise UnitsError("this is not a size", allowed)
    return text


def _sign(text: str) -> tuple[int, str]:
    if text[0] in "+-":
        return (-1 if text[0] == "-" else 1), text[1:].lstrip()
    return 1, text


def _length_text(value: str, bare: Fraction) -> Fraction:
    match = _LENGTH.fullmatch(_tidy(value, _LENGTH_ALLOWED))
    if not match:
        raise UnitsError("this is not a length", _LENGTH_ALLOWED, _exponent_hint(value))
    number = _number(match[2], value, _LENGTH_ALLOWED)
    factor = _length_unit(match[3], value) if match[3] else bare
    if not match[3] and bare == 1 and "/" in match[2]:
        raise UnitsError(
            "fractions are inch sizes, and a bare number here is in mm",
            _LENGTH_ALLOWED,
            f'write "{match[2]} in", or {float(number):g} for so many mm',
        )
    return (-number if match[1] == "-" else number) * factor


def _length_unit(text: str, value: str) -> Fraction:
    word = text.strip()
    factor = LENGTH_UNITS.get(word, LENGTH_UNITS.get(word.rstrip(".")))
    if factor is not None:
        return factor
    allowed = 'mm, cm, in, the inch mark " or thou behind the number'
    if word in _UNSURE_UNITS:
        raise UnitsError(f"this is not sure: {_UNSURE_UNITS[word]}", allowed)
    if _ANGLE_UNIT.fullmatch(word):
        raise UnitsError("this is an angle where a length is wanted", _LENGTH_ALLOWED)
    raise UnitsError("this is not a length", allowed, _exponent_hint(value))


def _exponent_hint(value: str) -> str:
    match = re.match(r"\s*[+-]?[0-9.,]+e[+-]?[0-9]", value, re.IGNORECASE)
    return "write the number out, without an exponent" if match else ""


def _degrees_text(body: str, value: str) -> Fraction:
    match = _DMS.fullmatch(body)
    if not match:
        return _bare_degrees(body, value)
    found = [(name, text) for name, text in match.groupdict().items() if text is not None]
    if not found:
        raise UnitsError("this is not an angle", _ANGLE_ALLOWED)
    total = Fraction(0)
    for place, (name, text) in enumerate(found):
        number = _number(text, value, _ANGLE_ALLOWED)
        if place + 1 < len(found) and number.denominator != 1:
            _not_angle(value, "only the last of degrees, minutes and seconds may have decimals")
        if place and number >= 60:
            _not_angle(value, "minutes and seconds behind another unit stay under 60")
        total += number / {"deg": 1, "min": 60, "sec": 3600}[name]
    return total


def _bare_degrees(body: str, value: str) -> Fraction:
    match = _LENGTH.fullmatch(body)
    if not match:
        _not_angle(value, _exponent_hint(value))
    if match[3] is None and not match[1]:
        return _number(match[2], value, _ANGLE_ALLOWED)
    if match[3] and match[3].strip().rstrip(".") in LENGTH_UNITS:
        raise UnitsError("this is a length where an angle is wanted", _ANGLE_ALLOWED)
    return _not_angle(value, _exponent_hint(value))


def _not_angle(value: str, hint: str) -> NoReturn:
    raise UnitsError("this is not an angle", _ANGLE_ALLOWED, hint)


def _check_angle(degrees: Fraction, value: Number) -> None:
    if abs(degrees) > GREATEST_DEG:
        raise UnitsError("this is far too big for an angle", f"up to {GREATEST_DEG} deg")


def _number(text: str, value: str, allowed: str) -> Fraction:
    """Read an unsigned number: decimal point, decimal comma, fraction or mixed number."""
    if _DECIMAL.fullmatch(text):
        return Fraction(text.rstrip(".") if text[0] != "." else "0" + text)
    if _THOUSANDS.fullmatch(text):
        _unsure(text.replace(",", ""), text.replace(",", "."), value)
    if _COMMA.fullmatch(text):
        return Fraction(("0" + text).replace(",", "."))
    match = _FRACTION.fullmatch(text)
    if match:
        return _fraction(match, value, allowed)
    if "," in text and "/" not in text:
        raise UnitsError(
            "this can be read in more than one way",
            "one decimal point or one decimal comma, and nothing between thousands",
        )
    raise UnitsError("this is not one number", allowed)


def _unsure(thousands: str, decimals: str, value: str) -> NoReturn:
    raise UnitsError(
        f"this can be read as {thousands} or as {decimals}",
        "a decimal point, or a comma that cannot part thousands",
        f"write {decimals} or {thousands}",
    )


def _fraction(match: re.Match[str], value: str, allowed: str) -> Fraction:
    whole, top, bottom = int(match[1] or 0), int(match[2]), int(match[3])
    if bottom == 0:
        raise UnitsError("this divides by nothing", allowed)
    if match[1] is not None and top >= bottom:
        raise UnitsError("this has a fraction over one behind a whole number", allowed)
    return whole + Fraction(top, bottom)
