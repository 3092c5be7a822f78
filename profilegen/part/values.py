"""One value that TOML refuses, made into the value that was meant.

Owns: the slips in numbers, quotes, lists and words, as texts.
Refuses: reading sizes; `units` says whether a text is a length or an angle.
"""

from __future__ import annotations

import re
import tomllib
from collections.abc import Callable
from dataclasses import dataclass

from profilegen.units import UnitsError, parse_angle, parse_length


@dataclass(frozen=True, slots=True)
class Value:
    """A value as it should be written.

    Attributes:
        text: the value in TOML, or empty when nobody can know.
        message: one sentence that says what was wrong, or empty.
        hint: another way to write it, or empty.
    """

    text: str
    message: str = ""
    hint: str = ""


LONGEST_MARKED = 40
"""Characters of a size with a drawing's marks."""

_CURLY = str.maketrans({"“": '"', "”": '"', "„": '"', "«": '"', "»": '"', "‘": "'", "’": "'"})
_NUMBER = re.compile(r"([+-]?)([0-9]*)([.,]?)([0-9]*)")
_THOUSANDS = re.compile(r"[+-]?[1-9][0-9]{0,2},[0-9]{3}")
_NUMBER_AND_WORD = re.compile(r"([+-]?[0-9]+(?:\.[0-9]+)?)\s*([^\W\d]+)")
_MARKS = r"[ØøΦφ⌀∅]|dia(?:m(?:eter)?)?|o\.?d|i\.?d|r(?:adius)?|a/?f|max(?:imum)?"
_MARKED = re.compile(
    rf"(?P<front>(?:{_MARKS}|z)(?:\.(?![0-9]))?\s*=?\s*)?"
    r"(?P<size>[0-9.,][0-9.,/ -]*(?:\s*(?:mm|cm|inch|in|thou|\"|''))?)"
    rf"(?P<behind>(?:\s*(?:{_MARKS}|t|th|teeth|tooth)\.?)*)",
    re.IGNORECASE,
)
_TRUE = frozenset({"true", "yes", "on"})
_FALSE = frozenset({"false", "no", "off"})


def repair_value(value: str) -> Value | None:
    """Return the value that was meant by one that TOML refuses, or None when it is not known.

    Args:
        value: what stands behind the `=`, without comment and blanks at the ends.
    """
    found = (step(value) for step in _STEPS)
    return next((item for item in found if item), None)


def _reads(value: str) -> bool:
    try:
        tomllib.loads(f"x = {value}")
    except (ValueError, RecursionError):
        return False
    return "\n" not in value


def _nothing(value: str) -> Value | None:
    return (
        None if value else Value("", "nothing stands behind the =", "add a value or a # in front")
    )


def _number(value: str) -> Value | None:
    match = _NUMBER.fullmatch(value)
    if not match or not (match[2] or match[4]) or (match[3] == "," and not match[4]):
        return None
    if _THOUSANDS.fullmatch(value):
        whole, point = value.replace(",", ""), value.replace(",", ".")
        text = f"{value} can be read as {whole} or as {point}"
        return Value("", text, f"write {point} or {whole}")
    sign, front, mark, behind = match.groups()
    text = sign + (front.lstrip("0") or "0")
    text += f".{behind or '0'}" if mark else ""
    return Value(text, _number_fault(front, mark, behind)) if _reads(text) else None


def _number_fault(front: str, mark: str, behind: str) -> str:
    if mark == ",":
        return "a number without quotes takes a decimal point, not a comma"
    if mark and not front:
        return "a number begins with a digit, not with a point"
    if mark and not behind:
        return "a number does not end with a point"
    return "a number does not begin with a 0"


def _curly(value: str) -> Value | None:
    """Straighten quotes that a text program bent, at the ends of the value only."""
    if not value or (
        value[0].translate(_CURLY) == value[0] and value[-1:].translate(_CURLY) == value[-1:]
    ):
        return None
    first, last = value[0].translate(_CURLY), value[-1].translate(_CURLY)
    inner = value[1:-1]
    if first in "\"'" and len(value) > 1:
        text = first + inner + (first if last in "\"'" else last)
    else:
        text = first + inner + last
    if _reads(text):
        return Value(text, "curly quotes are not read as quotes")
    found = repair_value(text) if text != value else None
    return (
        Value(found.text, f"curly quotes are not read as quotes; {found.message}", found.hint)
        if found
        else None
    )


def _quoted(value: str) -> Value | None:
    """Repair a value that begins and ends with a quote."""
    if len(value) < 3 or value[0] not in "\"'" or value[-1] not in "\"'":
        return None
    inner = value[1:-1]
    if value[0] == value[-1] == '"' and "\\" in inner and "'" not in inner:
        text = f"'{inner}'"
        message = "a \\ in double quotes begins a code; in single quotes it is only a \\"
        return Value(text, message) if _reads(text) else None
    whole = quote(inner)
    if whole is None:
        return None
    if '"' not in inner or value[0] != '"':
        return Value(whole, "the quotes round a text do not match")
    what = "the inch mark" if _is_size(inner) and "'" not in inner else "a quote inside"
    how = "put single quotes round it" if whole[0] == "'" else 'write \\" inside'
    return Value(whole, f"{what} ends the text; {how}", _inch(inner))


def _inch(inner: str) -> str:
    size = inner[:-1].strip() if inner.endswith('"') else ""
    return f'or write "{size} in"' if size and '"' not in size and _is_size(f"{size} in") else ""


def quote(text: str) -> str | None:
    """Return a text in quotes that TOML reads, or None when it holds both sorts of quotes."""
    for mark in ('"', "'"):
        if mark not in text and _reads(f"{mark}{text}{mark}"):
            return f"{mark}{text}{mark}"
    escaped = text.replace("\\", "\\\\").replace('"', '\\"')
    return f'"{escaped}"' if _reads(f'"{escaped}"') else None


def _half_quoted(value: str) -> Value | None:
    """Close or open a text with one quote missing."""
    front, back = value[:1] in ("'", '"'), value[-1:] in ("'", '"')
    if front and (not back or len(value) == 1):
        text = quote(value[1:].rstrip())
        return Value(text, "the closing quote is missing") if text else None
    if back and not front and not _is_size(value):
        text = quote(value[:-1])
        return Value(text, "the opening quote is missing") if text else None
    return None


def _size(value: str) -> Value | None:
    """Put quotes round a size with a unit or a fraction."""
    if not _is_size(value):
        return None
    text = quote(value)
    return Value(text, "a size with a unit or a fraction takes quotes") if text else None


def marked_size(value: str) -> str:
    """Return in TOML the size that stands beside a drawing's marks (`Ø40`, `R0.3 max`, `18T`), or
    an empty text where it is none.

    A diameter stays one and a radius stays one: nothing is doubled or halved. A unit beside the
    figure is kept.
    """
    match = _MARKED.fullmatch(value.strip()) if len(value) <= LONGEST_MARKED else None
    if match is None or not (match["front"] or match["behind"]):
        return ""
    size = match["size"].strip()
    found = Value(size) if _reads(size) else _number(size) or _size(size)
    return found.text if found else ""


def _is_size(value: str) -> bool:
    for read in (lambda text: parse_length(text, "mm"), parse_angle):
        try:
            read(value)
        except UnitsError:
            continue
        return True
    return False


def _list(value: str) -> Value | None:
    """Repair the items of a list, its brackets, or a list without brackets."""
    bracketed = value[:1] in ("[", "(") and "{" not in value
    if not bracketed and not re.search(r",\s+\S", value):
        return None
    if not bracketed and (value[:1] in "\"'" or not value[:1].isdigit()):
        return None
    inner = value[1:].rstrip(" ])") if bracketed else value
    if "[" in inner:
        return None
    items = [item.strip() for item in re.split(r",\s+|,(?![0-9])", inner) if item.strip()]
    fixed = [Value(item) if _reads(item) else repair_value(item) for item in items[:64]]
    if not items or any(item is None or not item.text for item in fixed):
        return None
    told = list(dict.fromkeys(item.message for item in fixed if item and item.message))
    text = "[" + ", ".join(item.text for item in fixed if item) + "]"
    return (
        Value(text, "; ".join(told) or "a list stands in square brackets") if _reads(text) else None
    )


def _ending(value: str) -> Value | None:
    """Take off a comma, semicolon or full stop behind a whole value."""
    text = value.rstrip(",;").rstrip()
    if text == value or not text:
        return None
    found = Value(text) if _reads(text) else _number(text) or _size(text)
    if not found or not found.text:
        return None
    told = f"; {found.message}" if found.message else ""
    return Value(found.text, f"nothing stands behind a value{told}", found.hint)


def _word(value: str) -> Value | None:
    """Put quotes round a word, or write true and false as TOML does."""
    low = value.lower()
    if low in _TRUE | _FALSE:
        return Value("true" if low in _TRUE else "false", "yes and no are written true and false")
    counted = _NUMBER_AND_WORD.fullmatch(value)
    if counted and _reads(counted[1]):
        return Value(counted[1], f'"{counted[2]}" behind the number is no unit')
    if not re.fullmatch(r"[^\W\d_][^\"'=\[\]{}#]*", value):
        return None
    text = quote(value)
    return Value(text, "a text takes quotes") if text else None


_STEPS: tuple[Callable[[str], Value | None], ...] = (
    _nothing,
    _number,
    _curly,
    _list,
    _quoted,
    _ending,
    _half_quoted,
    _size,
    _word,
)
"""What is tried, in this order; the first that gives an answer counts."""
