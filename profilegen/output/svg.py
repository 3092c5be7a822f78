"""Sheets as SVG, in millimetres throughout.

Marks become SVG through svgwrite, with presentation attributes only: no style sheet, marker,
pattern or transform, which renderers drop or read differently. Lettering is outlines: each
character is drawn once for its size, face and direction, each word is set from them once, and both
are used wherever they stand; the string of a text is its `aria-label`. Same sheet, same bytes.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import replace
from typing import TYPE_CHECKING, Any

import numpy as np

from profilegen.drawing.lettering import Piece, clean, glyph_outline, glyph_starts, words
from profilegen.drawing.marks import Fill, Sheet, Stroke, Text
from profilegen.geometry.chain import Contour, Curve
from profilegen.output.arcs import Step, is_flat, steps
from profilegen.output.numbers import BLACK, grey_colour, number

if TYPE_CHECKING:
    from svgwrite import Drawing

LETTER_PLACES = 2
"""Decimals of a mm in lettering: a quarter of a printer's dot, which keeps the file small."""

_FLAT = 0.5e-4
"""mm. An arc that rises no more than this vanishes in the rounding and is written as a line."""

_VERBS = {"move": "M", "line": "L", "quad": "Q", "close": "Z"}


def svg_bytes(sheet: Sheet) -> bytes:
    """One sheet as an SVG file (UTF-8): root size and viewBox in the same mm, y turned over.

    Raises:
        ValueError: a number on the sheet is not finite.
    """
    from svgwrite import Drawing

    width, height = number(sheet.width), number(sheet.height)
    drawing = Drawing(
        size=(f"{width}mm", f"{height}mm"), viewBox=f"0 0 {width} {height}", debug=False
    )
    drawing.set_desc(title=clean(sheet.title))
    drawing.attribs["stroke-linejoin"] = "round"
    names, letters = dict[str, int](), _Letters(drawing)
    for mark in sheet.marks:
        if isinstance(mark, Text):
            letters.write(mark, sheet.height, _named(mark.name, names))
            continue
        path, attributes = _drawn(mark, sheet.height)
        if path:
            attributes |= _named(mark.name, names)
            drawing.add(_path(drawing, path, attributes))
    elements = drawing.tostring().replace(" />", "/>")
    return f'<?xml version="1.0" encoding="UTF-8"?>\n{elements}\n'.encode()


class _Letters:
    """The words of one drawing and their characters: each is defined when it is first used."""

    def __init__(self, drawing: Drawing) -> None:
        self._drawing = drawing
        self._known: dict[Text, str] = {}

    def write(self, text: Text, height: float, attributes: dict[str, str]) -> None:
        """Add a text as a group of used words, in the black that SVG fills with when nothing is
        said; nothing where there is nothing to see."""
        group = self._drawing.g()
        group.attribs.update(attributes)
        group.attribs.update({"aria-label": clean(text.string), "role": "img"})
        for word, start in words(text):
            name = self._name(Text(0j, word, text.size, turn=text.turn, bold=text.bold))
            if name:
                group.add(self._use(name, complex(start.real, height - start.imag)))
        if group.elements:
            self._drawing.add(group)

    def _name(self, text: Text) -> str:
        """The id of a word or character of this size, face and direction that starts at 0; empty
        where it has no ink."""
        if text not in self._known:
            element = self._character(text) if len(text.string) == 1 else self._word(text)
            name = f"c{np.base_repr(len(self._known), 36)}" if element else ""
            if element:
                element.attribs["id"] = name
                self._drawing.defs.add(element)
            self._known[text] = name
        return self._known[text]

    def _character(self, text: Text) -> Any:
        """The path of a character; None where it has no ink."""
        pieces = glyph_outline(text.string, text.size, text.turn, text.bold)
        return self._drawing.path(d=_letter(pieces)) if pieces else None

    def _word(self, text: Text) -> Any:
        """The characters of a word, each used where it stands; None where none has ink."""
        group = self._drawing.g()
        for character, start in glyph_starts(text):
            name = self._name(replace(text, string=character))
            if name:
                group.add(self._use(name, start.conjugate()))
        return group if group.elements else None

    def _use(self, name: str, at: complex) -> Any:
        """What has this id, at a place in the frame of the SVG, mm; a 0 is left out."""
        use = self._drawing.use(f"#{name}")
        places = {"x": number(at.real, LETTER_PLACES), "y": number(at.imag, LETTER_PLACES)}
        use.attribs.update({key: place for key, place in places.items() if place != "0"})
        return use


def _path(drawing: Drawing, path: str, attributes: dict[str, str]) -> Any:
    element = drawing.path(d=path)
    element.attribs.update(attributes)
    return element


def _named(name: str, names: dict[str, int]) -> dict[str, str]:
    """The id of a named mark; a name met again gets a number, as ids must differ."""
    if not name:
        return {}
    names[name] = names.get(name, 0) + 1
    return {"id": name if names[name] == 1 else f"{name}-{names[name]}"}


def _drawn(mark: Stroke | Fill, height: float) -> tuple[str, dict[str, str]]:
    """Path data and attributes of a mark; empty data when there is nothing to see."""
    match mark:
        case Stroke():
            return _curves(mark.curves, height), _pen(mark)
        case Fill():
            rule = {"fill": grey_colour(mark.grey), "fill-rule": "evenodd"}
            return _curves(mark.contours, height), rule


def _pen(mark: Stroke) -> dict[str, str]:
    pen = {
        "fill": "none",
        "stroke": BLACK,
        "stroke-width": number(mark.width),
    }
    if mark.dash:
        pen["stroke-dasharray"] = " ".join(number(length) for length in mark.dash)
    return pen


def _curves(curves: Iterable[Curve], height: float) -> str:
    return " ".join(part for curve in curves for part in _steps(curve, height))


def _steps(curve: Curve, height: float) -> Iterator[str]:
    """Path data of one curve, one step at a time; a contour's last line is drawn by closing it."""
    yield f"M{_point(complex(curve.points[0]), height)}"
    *said, last = steps(curve)
    yield from (_step(step, height) for step in said)
    if not isinstance(curve, Contour):
        yield _step(last, height)
    else:
        yield "Z" if is_flat(last, _FLAT) else f"{_step(last, height)} Z"


def _step(step: Step, height: float) -> str:
    """A line, told by one number where it runs along an axis; or a true arc: counter-clockwise on
    paper is the negative turn of SVG."""
    if not is_flat(step, _FLAT):
        radius, flag = number(step.radius), int(step.bulge < 0)
        return f"A{radius} {radius} 0 0 {flag} {_point(step.end, height)}"
    (x, y), start = _point(step.end, height).split(), _point(step.start, height).split()
    if y == start[1]:
        return f"H{x}"
    return f"V{y}" if x == start[0] else f"L{x} {y}"


def _letter(pieces: Iterable[Piece]) -> str:
    """Path data of one character from its start on the baseline, every step from the one before.

    Places are rounded before they are told apart, so that no error adds up.
    """
    begin, at, steps = 0j, 0j, list[str]()
    for verb, points in pieces:
        ends = [complex(round(z.real, LETTER_PLACES), round(z.imag, LETTER_PLACES)) for z in points]
        told = " ".join(_point(z - at, 0.0, LETTER_PLACES) for z in ends)
        steps.append(_VERBS[verb].lower() + re.sub(r"(?<!\d)0\.", ".", told))
        at = ends[-1] if ends else begin
        begin = at if verb == "move" else begin
    return "".join(steps).replace(" -", "-")


def _point(at: complex, height: float, places: int = 4) -> str:
    return f"{number(at.real, places)} {number(height - at.imag, places)}"
