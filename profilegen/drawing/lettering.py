"""Lettering: exact widths, boxes and outlines of the one bundled typeface.

Owns the reading of the font files and every question about the size of a string. There is no
kerning and no hinting, so a width is the sum of its characters' advances and is the same in every
output. A sign that the typeface lacks is drawn as a question mark. Refuses line breaking
(`tables`) and formats.
"""

from __future__ import annotations

import cmath
import unicodedata
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache, lru_cache
from itertools import groupby, pairwise
from pathlib import Path
from typing import TYPE_CHECKING, Literal, TypeAlias

from profilegen.drawing.boxes import Box, bounds
from profilegen.drawing.marks import Text

if TYPE_CHECKING:
    from fontTools.ttLib import TTFont

EM = 1000
"""Font units to the em, in both faces."""

CAPITALS = 729
"""Font units: height of the capitals, the size by which drawings name lettering (ISO 3098)."""

Verb: TypeAlias = Literal["move", "line", "quad", "close"]
Piece: TypeAlias = tuple[Verb, tuple[complex, ...]]
"""A step of an outline: move and line with one point, quad with control and end point, close."""

_UNFIT = frozenset({"Cc", "Cf", "Cs"})
_UNFIT_CHARACTERS = frozenset("\ufe0e\ufe0f\ufffe\uffff")


@dataclass(frozen=True, slots=True)
class Glyph:
    """One character, in font units from its place on the baseline.

    Attributes:
        advance: distance to the next character.
        low: lowest ink, 0 where there is none.
        high: highest ink, 0 where there is none.
        pieces: its outline, filled by the non-zero rule.
    """

    advance: int
    low: int
    high: int
    pieces: tuple[Piece, ...]


def clean(string: str) -> str:
    """The string as it can be lettered: composed, breaks as spaces, controls gone."""
    if string.isascii() and string.isprintable():
        return string
    spaced = "".join(" " if c.isspace() and c != "\xa0" else c for c in string)
    kept = (
        c
        for c in unicodedata.normalize("NFC", spaced)
        if unicodedata.category(c) not in _UNFIT and c not in _UNFIT_CHARACTERS
    )
    return "".join(kept)


def lettered(string: str, bold: bool = False) -> str:
    """The string as it is drawn: clean, with a question mark for what the face lacks."""
    missing = lacks(string, bold)
    return "".join("?" if c in missing else c for c in clean(string))


def text_width(string: str, size: float, bold: bool = False) -> float:
    """Advance width of a string, mm.

    Args:
        string: on one line; what the face lacks counts as the question mark that is drawn.
        size: height of the capitals, mm.
        bold: whether the heavier face is used.
    """
    return _advance(string, bold) * size / CAPITALS


@lru_cache(maxsize=4096)
def _advance(string: str, bold: bool) -> int:
    """Advance width of a string, font units."""
    return sum(glyph(c, bold).advance for c in clean(string))


def em_size(size: float) -> float:
    """The em (the "font size") of lettering, mm.

    Args:
        size: height of the capitals, mm; a font size of that figure would come out smaller.
    """
    return size * EM / CAPITALS


def text_start(text: Text) -> complex:
    """Where the baseline of a text begins, mm on the page."""
    back = {"left": 0.0, "middle": 0.5, "right": 1.0}[text.anchor]
    down = {"baseline": 0.0, "middle": 0.5, "top": 1.0}[text.level]
    width = text_width(text.string, text.size, text.bold) if back else 0.0
    return text.at - complex(back * width, down * text.size) * cmath.exp(1j * text.turn)


def text_box(text: Text) -> Box:
    """The box round a text: its advance wide, capitals and ink high (mm on the page)."""
    glyphs = [glyph(c, text.bold) for c in clean(text.string)]
    scale = text.size / CAPITALS
    low = min([0, *(g.low for g in glyphs)]) * scale
    high = max([CAPITALS, *(g.high for g in glyphs)]) * scale
    width = sum(g.advance for g in glyphs) * scale
    start, along = text_start(text), cmath.exp(1j * text.turn)
    corners = (complex(x, y) for x in (0.0, width) for y in (low, high))
    return bounds(start + corner * along for corner in corners)


def outline(text: Text) -> tuple[Piece, ...]:
    """The outline of a whole text, mm on the page; curves are quadratic, as in the font."""
    return tuple(
        (verb, tuple(start + z for z in zs))
        for character, start in glyph_starts(text)
        for verb, zs in glyph_outline(character, text.size, text.turn, text.bold)
    )


def glyph_starts(text: Text) -> Iterator[tuple[str, complex]]:
    """Each character of a text with the place where it starts on the baseline, mm on the page."""
    step, at = cmath.exp(1j * text.turn) * text.size / CAPITALS, text_start(text)
    for character in clean(text.string):
        yield character, at
        at += glyph(character, text.bold).advance * step


def words(text: Text) -> Iterator[tuple[str, complex]]:
    """Each run of letters, of figures or of other signs without blanks, with the place where it
    starts on the baseline, mm on the page."""
    for sort, run in groupby(glyph_starts(text), lambda placed: _sort(placed[0])):
        characters, starts = zip(*run, strict=True)
        if sort != "blank":
            yield "".join(characters), starts[0]


def _sort(character: str) -> Literal["letter", "figure", "blank", "sign"]:
    if character.isalpha():
        return "letter"
    if character.isdigit():
        return "figure"
    return "blank" if character == " " else "sign"


@cache
def glyph_outline(character: str, size: float, turn: float, bold: bool) -> tuple[Piece, ...]:
    """The outline of one character, mm from its start on the baseline.

    Args:
        character: one; a question mark stands for what the face lacks.
        size: height of the capitals, mm.
        turn: direction of reading from +x, rad, counter-clockwise positive.
        bold: whether the heavier face is used.
    """
    step = cmath.exp(1j * turn) * size / CAPITALS
    pieces = glyph(character, bold).pieces
    return tuple((verb, tuple(z * step for z in zs)) for verb, zs in pieces)


def lacks(string: str, bold: bool = False) -> tuple[str, ...]:
    """The characters of a string that the typeface does not have, each once, in order."""
    cmap = _font(bold).getBestCmap()
    return tuple(dict.fromkeys(c for c in clean(string) if ord(c) not in cmap))


def font_path(bold: bool = False) -> Path:
    """The font file of the ordinary or the bold face."""
    return Path(__file__).with_name("fonts") / ("lettering-bold.ttf" if bold else "lettering.ttf")


@cache
def glyph(character: str, bold: bool = False) -> Glyph:
    """One character of a face, in the font's own units (not mm); a question mark when the face
    lacks it.
    """
    font = _font(bold)
    cmap = font.getBestCmap()
    name = cmap.get(ord(character), cmap[ord("?")])
    shape = font["glyf"][name]
    low, high = (shape.yMin, shape.yMax) if shape.numberOfContours else (0, 0)
    return Glyph(font["hmtx"][name][0], low, high, _pieces(font, name))


@cache
def _font(bold: bool) -> TTFont:
    """A font file, read once."""
    from fontTools.ttLib import TTFont

    return TTFont(font_path(bold))


def _pieces(font: TTFont, name: str) -> tuple[Piece, ...]:
    """The outline of a glyph as moves, lines and single quadratic curves, font units."""
    from fontTools.pens.recordingPen import DecomposingRecordingPen

    shapes = font.getGlyphSet()
    pen = DecomposingRecordingPen(shapes)
    shapes[name].draw(pen)
    pieces = list[Piece]()
    for verb, points in pen.value:
        match verb:
            case "moveTo":
                pieces.append(("move", (complex(*points[0]),)))
            case "lineTo":
                pieces.append(("line", (complex(*points[0]),)))
            case "qCurveTo":
                pieces += _quads([complex(*point) for point in points])
            case _:
                pieces.append(("close", ()))
    return tuple(pieces)


def _quads(points: list[complex]) -> list[Piece]:
    """A run of control points with its end point, as single curves that meet half way between."""
    *controls, end = points
    meets = [(a + b) / 2 for a, b in pairwise(controls)]
    return [("quad", pair) for pair in zip(controls, [*meets, end], strict=True)]
