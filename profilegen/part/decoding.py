"""From the bytes of a part file to its text.

Owns: byte-order marks, UTF-8 and UTF-16, line ends, and saying what else a file may be.
Refuses: guessing an 8-bit encoding: a wrong guess would turn a degree sign into another sign.
"""

from __future__ import annotations

import codecs
from typing import NoReturn

from profilegen.errors import InputError, Problem
from profilegen.part.lines import excerpt

_MARKS = (
    (codecs.BOM_UTF8, "utf-8"),
    (codecs.BOM_UTF32_LE, "utf-32-le"),
    (codecs.BOM_UTF32_BE, "utf-32-be"),
    (codecs.BOM_UTF16_LE, "utf-16-le"),
    (codecs.BOM_UTF16_BE, "utf-16-be"),
)
_BEGINNINGS = (
    (b"%PDF", "a PDF page"),
    (b"PK\x03\x04", "a ZIP archive or an office document"),
    (b"\x89PNG", "a picture"),
    (b"\xff\xd8\xff", "a picture"),
    (b"GIF8", "a picture"),
    (b"AC10", "a DWG drawing"),
)
_MOST_CONTROLS = 0.02
"""Share of control bytes above which a file is no text."""

_MOSTLY = 0.7
"""Share of zero bytes in every second place above which a file is UTF-16."""

_ALLOWED = "a text file saved as UTF-8"


def decode(data: bytes, name: str) -> str:
    """Return the text of a part file, without a byte-order mark, lines ended by line feeds.

    Args:
        data: the whole file.
        name: the file's name, for the messages.

    Raises:
        InputError: the bytes are no text, or text in another encoding; with line and byte.
    """
    for mark, encoding in _MARKS:
        if data.startswith(mark):
            return _decoded(data[len(mark) :], encoding, name)
    return _decoded(data, _encoding(data), name)


def _encoding(data: bytes) -> str:
    """Return the encoding that the zero bytes of a file without a mark point to."""
    sample = data[:4096]
    half = max(1, len(sample) // 2)
    even, odd = sample[0::2].count(0) / half, sample[1::2].count(0) / half
    if odd > _MOSTLY and even < 0.05:
        return "utf-16-le"
    if even > _MOSTLY and odd < 0.05:
        return "utf-16-be"
    return "utf-8"


def _decoded(data: bytes, encoding: str, name: str) -> str:
    if encoding == "utf-8":
        _refuse_binary(data, name)
    try:
        text = data.decode(encoding)
    except UnicodeDecodeError as error:
        if encoding != "utf-8":
            text = f"this file begins like {encoding.upper()} but is damaged"
            raise InputError(Problem(name, text, allowed=_ALLOWED)) from None
        _tell_byte(data, error.start, name)
    if "\0" in text:
        _tell_binary(data, name)
    return text.replace("\r\n", "\n").replace("\r", "\n").removeprefix("\ufeff")


def _refuse_binary(data: bytes, name: str) -> None:
    controls = sum(data.count(byte) for byte in range(32) if byte not in b"\t\n\r\f")
    drawing = data.lstrip()[:40].split()[:2] == [b"0", b"SECTION"]
    known = any(data.startswith(start) for start, _ in _BEGINNINGS)
    if known or drawing or b"\0" in data or controls > _MOST_CONTROLS * len(data):
        _tell_binary(data, name, "a DXF drawing" if drawing else "")


def _tell_binary(data: bytes, name: str, what: str = "") -> NoReturn:
    known = what or next((words for start, words in _BEGINNINGS if data.startswith(start)), "")
    text = f"this is {known}, not a part file" if known else "this file is not text"
    raise InputError(Problem(name, text, allowed=_ALLOWED))


def _tell_byte(data: bytes, place: int, name: str) -> NoReturn:
    """Raise the error that names the line and the byte, and the sign it probably stands for."""
    before = _line_feeds(data[:place])
    number, column = before.count(b"\n") + 1, len(before) - before.rfind(b"\n") - 1
    line = _line_feeds(data).split(b"\n")[number - 1]
    byte = data[place : place + 1]
    sign = byte.decode("cp1252", "replace")
    hint = "save the file as UTF-8 in your editor"
    if sign.isprintable() and sign != "\ufffd":
        hint = f'it may stand for "{sign}" (Windows-1252); {hint}'
    if sign == "°":
        hint += ', or write "deg"'
    raise InputError(
        Problem(
            f"{name}, line {number}",
            f"the byte 0x{byte[0]:02X} is not UTF-8",
            f"0x{byte[0]:02X}",
            _ALLOWED,
            hint,
            excerpt(number, line.decode("cp1252", "replace"), column),
        )
    )


def _line_feeds(data: bytes) -> bytes:
    return data.replace(b"\r\n", b"\n").replace(b"\r", b"\n")
