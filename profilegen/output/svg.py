"""Sheets as SVG, in millimetres throughout.

Owns the translation of marks to SVG through svgwrite, with presentation attributes only: no style
sheet, no marker, pattern, link or transform, which renderers drop or read differently. Texts are
drawn as outlines, with their string as `aria-label`. Same sheet, same bytes. Refuses decisions.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING, Any

from profilegen.drawing.lettering import clean, outline
from profilegen.drawing.marks import Fill, Mark, Sheet, Stroke, Text
from profilegen.geometry.chain import Contour, Curve
from profilegen.output.arcs import Step, is_flat, steps
from profilegen.output.numbers import BLACK, grey_colour, number

if TYPE_CHECKING:
    from svgwrite import Drawing

LETTER_PLACES = 3
"""Decimals of a mm inside lettering: a micrometre, which keeps the file small."""

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
    names = dict[str, int]()
    for mark in sheet.marks:
        path, attributes = _drawn(mark, sheet.height)
        if path:
            attributes |= _named(mark.name, names)
            drawing.add(_path(drawing, path, attributes))
    return f'<?xml version="1.0" encoding="UTF-8"?>\n{drawing.tostring()}\n'.encode()


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


def _drawn(mark: Mark, height: float) -> tuple[str, dict[str, str]]:
    """Path data and attributes of a mark; empty data when there is nothing to see."""
    match mark:
        case Stroke():
            return _curves(mark.curves, height), _pen(mark)
        case Fill():
            rule = {"fill": grey_colour(mark.grey), "fill-rule": "evenodd"}
            return _curves(mark.contours, height), rule
        case Text():
            label = {"aria-label": clean(mark.string), "role": "img"}
            return _letters(mark, height), {"fill": BLACK} | label


def _pen(mark: Stroke) -> dict[str, str]:
    pen = {
        "fill": "none",
        "stroke": BLACK,
        "stroke-width": number(mark.width),
        "stroke-linejoin": "round",
    }
    if mark.dash:
        pen["stroke-dasharray"] = " ".join(number(length) for length in mark.dash)
    return pen


def _curves(curves: Iterable[Curve], height: float) -> str:
    return " ".join(part for curve in curves for part in _steps(curve, height))


def _steps(curve: Curve, height: float) -> Iterator[str]:
    """Path data of one curve, one step at a time."""
    yield f"M{_point(complex(curve.points[0]), height)}"
    for step in steps(curve):
        yield _step(step, height)
    if isinstance(curve, Contour):
        yield "Z"


def _step(step: Step, height: float) -> str:
    """A line, or a true arc: counter-clockwise on paper is the negative turn of SVG."""
    if is_flat(step, _FLAT):
        return f"L{_point(step.end, height)}"
    radius, flag = number(step.radius), int(step.bulge < 0)
    return f"A{radius} {radius} 0 0 {flag} {_point(step.end, height)}"


def _letters(text: Text, height: float) -> str:
    return " ".join(
        _VERBS[verb] + " ".join(_point(z, height, LETTER_PLACES) for z in points)
        for verb, points in outline(text)
    )


def _point(at: complex, height: float, places: int = 4) -> str:
    return f"{number(at.real, places)} {number(height - at.imag, places)}"
