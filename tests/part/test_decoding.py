"""Bytes to text: every encoding is read, or told with line and byte."""

from __future__ import annotations

import codecs

import pytest

from profilegen.errors import InputError, Problem
from profilegen.part.decoding import decode
from profilegen.part.load import loads
from tests.part.samples import TEXT
from tests.parts import teeth_of

ANGLED = TEXT.replace('"5 deg"', '"5°"')


def _told(data: bytes) -> Problem:
    with pytest.raises(InputError) as caught:
        decode(data, "loom.toml")
    assert len(caught.value.problems) == 1
    return caught.value.problems[0]


@pytest.mark.parametrize(
    "data",
    [
        ANGLED.encode(),
        codecs.BOM_UTF8 + ANGLED.encode(),
        codecs.BOM_UTF16_LE + ANGLED.encode("utf-16-le"),
        codecs.BOM_UTF16_BE + ANGLED.encode("utf-16-be"),
        codecs.BOM_UTF32_LE + ANGLED.encode("utf-32-le"),
        codecs.BOM_UTF32_BE + ANGLED.encode("utf-32-be"),
        ANGLED.encode("utf-16-le"),
        ANGLED.encode("utf-16-be"),
        ANGLED.replace("\n", "\r\n").encode(),
        ANGLED.replace("\n", "\r").encode(),
    ],
)
def test_unicode_text_is_read_in_every_form(data: bytes) -> None:
    """UTF-8, UTF-16 and UTF-32, with and without a mark, with any line ends, give one text."""
    assert decode(data, "loom.toml") == ANGLED
    assert teeth_of(loads(decode(data, "loom.toml")).wheel) == 30


def test_another_encoding_is_told_with_line_byte_and_sign() -> None:
    """A degree sign of Windows-1252 is named, with its line and what to do."""
    problem = _told(ANGLED.encode("cp1252"))
    assert problem.where == "loom.toml, line 12"
    assert problem.got == "0xB0"
    assert '"°" (Windows-1252)' in problem.hint
    assert 'write "deg"' in problem.hint
    line, caret = problem.excerpt.split("\n")
    assert line.endswith('hook_angle = "5°"')
    assert caret.index("^") == line.index("°")


@pytest.mark.parametrize("end", ["\n", "\r\n", "\r"])
@pytest.mark.parametrize("row", [1, 2, 3])
def test_the_line_of_a_foreign_byte_is_right_with_any_line_ends(end: str, row: int) -> None:
    """Lines are counted as an editor counts them."""
    rows = ['a = "x"', 'b = "x"', 'c = "x"']
    rows[row - 1] = 'd = "ü"'
    problem = _told(end.join(rows).encode("cp1252"))
    assert problem.where == f"loom.toml, line {row}"
    line, caret = problem.excerpt.split("\n")
    assert line.endswith('d = "ü"')
    assert caret.index("^") == line.index("ü")


@pytest.mark.parametrize(
    ("data", "words"),
    [
        (b"%PDF-1.7 ...", "a PDF page"),
        (b"PK\x03\x04abc", "a ZIP archive or an office document"),
        (b"\x89PNG\r\n\x1a\n", "a picture"),
        (b"\xff\xd8\xff\xe0abc", "a picture"),
        (b"AC1032\x00\x00", "a DWG drawing"),
        (b"  0\r\nSECTION\r\n  2\r\nHEADER\r\n", "a DXF drawing"),
        (b"\x00\x01\x02\x03" * 9, "not text"),
        (b"ab\x00cd", "not text"),
        (bytes(range(256)), "not text"),
        (b"\x01\x02" * 40 + b"text", "not text"),
        (codecs.BOM_UTF16_LE + b"a", "begins like UTF-16-LE but is damaged"),
        (codecs.BOM_UTF16_LE + b"\x00\xdc", "damaged"),
    ],
)
def test_a_file_that_is_no_text_is_told_for_what_it_is(data: bytes, words: str) -> None:
    """Pages, archives, pictures, drawings and noise are named, not read."""
    problem = _told(data)
    assert words in problem.message
    assert problem.allowed == "a text file saved as UTF-8"
