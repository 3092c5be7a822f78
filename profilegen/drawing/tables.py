"""Set text: lines wrapped to a width, paragraphs, headings, lists and tables.

Owns where lines break and how high set text is, by the exact widths of the lettering. Everything
is set downwards from a top left corner and returns what it drew with the height it used. Refuses
columns of a page (`layout`) and formatting of numbers.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Literal

from profilegen.drawing.lettering import clean, text_box, text_width
from profilegen.drawing.marks import (
    NARROW,
    SMALL,
    THIN,
    WIDE,
    Anchor,
    Block,
    Mark,
    Text,
    line,
    together,
)

PITCH = 1.65
"""Line pitch over capital height; ISO 3098 type B: 1.3 for capitals alone to 1.9 with accents."""

_MARGIN = 1.2
"""mm. Clear space left and right in a cell."""

_BETWEEN = 1.4
"""mm. Clear space between rows of words and figures."""

Align = Literal["left", "right", "middle"]


@dataclass(frozen=True, slots=True)
class Laid:
    """Set text with the height it used.

    Attributes:
        block: what was drawn, and the boxes of its lines.
        height: from the given top down to the lowest line's foot, mm.
    """

    block: Block
    height: float


@dataclass(frozen=True, slots=True)
class Column:
    """One column of a table.

    Attributes:
        title: in the header; all titles empty leave the header out.
        width: mm, its own margins included.
        align: of the cells and the title.
        bold: whether the cells are set in the heavier face.
    """

    title: str
    width: float
    align: Align = "left"
    bold: bool = False


def wrap(string: str, width: float, size: float = SMALL, bold: bool = False) -> tuple[str, ...]:
    """The lines of a string; line breaks are kept.

    Breaks at spaces; a word that is too long alone is cut between characters. An empty string is
    one empty line.

    Args:
        string: of any length.
        width: that no line is to pass, mm; only a single character can be wider.
        size: height of the capitals, mm.
        bold: whether the heavier face is used.
    """
    lines = list[str]()
    for paragraph in string.splitlines() or [""]:
        lines += _filled(clean(paragraph).split(" "), width, size, bold)
    return tuple(lines)


def fitted(text: Text, width: float, smallest: float = 1.8) -> Text:
    """The text made smaller, then cut with an ellipsis, until it is no wider than asked.

    Args:
        text: with the capital height that it would have, mm.
        width: mm.
        smallest: capital height under which it is cut and not made smaller, mm (1.8, ISO 3098).
    """
    wide = text_width(text.string, text.size, text.bold)
    if wide <= width:
        return text
    size = max(smallest, text.size * width / wide * (1 - 1e-9))
    small, string = replace(text, size=size), clean(text.string)
    while string and text_width(small.string, size, text.bold) > width:
        string = string[:-1]
        small = replace(small, string=string.rstrip() + "…")
    return small


def paragraph(
    at: complex,
    string: str,
    width: float,
    size: float = SMALL,
    bold: bool = False,
    align: Align = "left",
) -> Laid:
    """A string in lines one under the other.

    Args:
        at: left end of the first line, at its capitals' top, mm on the page, however it is aligned.
        string: wrapped as `wrap` does it.
        width: mm.
        size: height of the capitals, mm.
        bold: whether the heavier face is used.
        align: of the lines within the width.
    """
    lines = wrap(string, width, size, bold)
    x = {"left": at.real, "middle": at.real + width / 2, "right": at.real + width}[align]
    anchor: Anchor = align
    texts = tuple(
        Text(complex(x, at.imag - index * PITCH * size), each, size, anchor, "top", bold=bold)
        for index, each in enumerate(lines)
    )
    return Laid(_labels(texts), height_of(len(lines), size))


def height_of(lines: int, size: float = SMALL) -> float:
    """Height of a number of lines from the first one's capitals to the last one's foot, mm."""
    return (lines - 1) * PITCH * size + 1.35 * size if lines else 0.0


def heading(at: complex, string: str, width: float, size: float = SMALL) -> Laid:
    """Bold words with a rule across the width under them.

    Args:
        at: left end, at the capitals' top, mm on the page.
        string: wrapped where it is wider.
        width: of the rule, mm.
        size: height of the capitals, mm.
    """
    words = paragraph(at, string, width, size, bold=True)
    y = at.imag - words.height - 0.2 * size
    rule = line(complex(at.real, y), complex(at.real + width, y), width=NARROW)
    return Laid(Block((*words.block.marks, rule), words.block.boxes), words.height + 0.9 * size)


def bullets(
    at: complex,
    items: Sequence[str],
    width: float,
    bullet: str = "•",
    size: float = SMALL,
    gap: float = 1.2,
) -> Laid:
    """Paragraphs with a sign before each, such as `•` or `☐`.

    Args:
        at: left end, at the first capitals' top, mm on the page.
        items: a paragraph each.
        width: with the sign, mm.
        bullet: the sign; `{n}` in it is the paragraph's number.
        size: height of the capitals, mm.
        gap: between two paragraphs, mm.
    """
    signs = [bullet.replace("{n}", str(index)) for index in range(1, len(items) + 1)]
    indent = max((text_width(sign, size) for sign in signs), default=0.0) + 0.7 * size
    blocks, used = list[Block](), 0.0
    for sign, item in zip(signs, items, strict=True):
        top = at - 1j * used
        body = paragraph(top + indent, item, width - indent, size)
        blocks += [_labels((Text(top, sign, size, level="top"),)), body.block]
        used += body.height + gap
    return Laid(together(blocks), max(used - gap, 0.0))


def pairs(
    at: complex,
    rows: Sequence[tuple[str, str]],
    width: float,
    size: float = SMALL,
) -> Laid:
    """Words on the left with a bold figure on the right of the width, a dotted line between.

    Words that would meet their figure are wrapped beside it.

    Args:
        at: left end, at the first capitals' top, mm on the page.
        rows: words and figure of each.
        width: from the words' left end to the figures' right end, mm.
        size: height of the capitals, mm.
    """
    blocks, used = list[Block](), 0.0
    for words, figure in rows:
        top = at - 1j * used
        value = fitted(Text(top + width, figure, size, "right", "top", bold=True), 0.7 * width)
        room = width - text_width(value.string, value.size, True) - size
        body = paragraph(top, words, room, size)
        foot = at.imag - used - size
        last = text_width(wrap(words, room, size)[0], size)
        start, end = at.real + last + 0.6 * size, at.real + room + 0.4 * size
        dots = line(complex(start, foot), complex(end, foot), width=THIN, dash=(0.2, 1.0))
        marks: tuple[Mark, ...] = (dots,) if end - start > 2.0 else ()
        blocks += [body.block, _labels((value,)), Block(marks)]
        used += body.height + _BETWEEN
    return Laid(together(blocks), max(used - _BETWEEN, 0.0))


def natural_widths(
    titles: Sequence[str], rows: Sequence[Sequence[str]], size: float = SMALL
) -> tuple[float, ...]:
    """The width of each column at which no cell needs to wrap, even in bold, mm, margins
    included."""
    cells = [[title, *column] for title, column in zip(titles, _turned(titles, rows), strict=True)]
    room = 2 * _MARGIN + 1e-6
    return tuple(
        max(text_width(cell, size, bold=True) for cell in column) + room for column in cells
    )


def table(
    at: complex,
    columns: Sequence[Column],
    rows: Sequence[Sequence[str]],
    size: float = SMALL,
) -> Laid:
    """A table with a bold header over a wide rule, cells wrapped to their columns and thin rules
    between the rows.

    Args:
        at: top left corner, mm on the page.
        columns: titles, widths and alignment.
        rows: as many strings each as there are columns.
        size: height of the capitals, mm.

    Raises:
        ValueError: a row has more or fewer cells than there are columns.
    """
    width = sum(column.width for column in columns)
    blocks, used = list[Block](), 0.0
    if any(column.title for column in columns):
        head = _row(at, columns, [c.title for c in columns], size, header=True)
        used = head.height + 0.8 * size
        blocks += [head.block, _rule(at - 1j * (used - 0.4 * size), width, WIDE)]
    for index, cells in enumerate(rows):
        row = _row(at - 1j * used, columns, cells, size, header=False)
        used += row.height + 0.5 * size
        blocks.append(row.block)
        if index < len(rows) - 1:
            blocks.append(_rule(at - 1j * (used - 0.15 * size), width, THIN))
            used += 0.3 * size
    return Laid(together(blocks), used)


def _row(
    at: complex,
    columns: Sequence[Column],
    cells: Sequence[str],
    size: float,
    header: bool,
) -> Laid:
    if len(cells) != len(columns):
        raise ValueError(f"a row of {len(cells)} cells in a table of {len(columns)} columns")
    laid, x = list[Laid](), at + _MARGIN
    for column, cell in zip(columns, cells, strict=True):
        bold = header or column.bold
        laid.append(paragraph(x, cell, column.width - 2 * _MARGIN, size, bold, column.align))
        x += column.width
    return Laid(together([each.block for each in laid]), max(each.height for each in laid))


def _rule(at: complex, width: float, thickness: float) -> Block:
    return Block((line(at, at + width, width=thickness),))


def _labels(texts: tuple[Text, ...]) -> Block:
    """Texts with their boxes; texts with nothing to read are left out."""
    said = tuple(text for text in texts if text.string.strip())
    return Block(said, tuple(text_box(text) for text in said))


def _turned(titles: Sequence[str], rows: Sequence[Sequence[str]]) -> list[list[str]]:
    return [[row[index] for row in rows] for index in range(len(titles))]


def _filled(words: Sequence[str], width: float, size: float, bold: bool) -> Iterator[str]:
    """Words filled into lines, each as full as it can be."""
    current = ""
    for word in (part for each in words for part in _cut(each, width, size, bold)):
        longer = f"{current} {word}" if current else word
        if current and text_width(longer, size, bold) > width:
            yield current
            longer = word
        current = longer
    yield current


def _cut(word: str, width: float, size: float, bold: bool) -> Iterator[str]:
    """A word in pieces no wider than `width`, at least one character each."""
    if word and text_width(word, size, bold) <= width:
        yield word
        return
    piece = ""
    for character in word:
        if piece and text_width(piece + character, size, bold) > width:
            yield piece
            piece = ""
        piece += character
    if piece:
        yield piece
