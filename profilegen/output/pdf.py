"""Sheets as PDF, one page each, at true size.

Owns the translation of marks to PDF through reportlab. Texts stay text, in an embedded subset of
the same typeface, so that they can be searched; arcs become cubic curves within `ARC_ERROR`. The
file asks viewers not to scale it when printing. Same sheets, same bytes. Refuses decisions.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from io import BytesIO
from math import cos, sin
from typing import TYPE_CHECKING

from profilegen.drawing.lettering import clean, em_size, font_path, lettered, text_start
from profilegen.drawing.marks import Fill, Mark, Sheet, Stroke, Text
from profilegen.geometry.chain import Contour, Curve
from profilegen.output.arcs import Step, cubics, is_flat, steps

if TYPE_CHECKING:
    from reportlab.pdfgen.canvas import Canvas
    from reportlab.pdfgen.pathobject import PDFPathObject

POINT = 72.0 / 25.4
"""PDF points in a mm."""

ARC_ERROR = 1e-5
"""mm. How far a cubic curve may stray from the arc it stands for."""

_FONTS = {False: "lettering", True: "lettering-bold"}


def pdf_bytes(sheets: Sequence[Sheet]) -> bytes:
    """Sheets as one PDF file, a page each, in order.

    Args:
        sheets: mm on the page, each with a size of its own; the first one's title names the
            document.

    Raises:
        ValueError: there is no sheet.
    """
    if not sheets:
        raise ValueError("a PDF needs at least one sheet")
    canvas, file = _canvas(sheets[0])
    for sheet in sheets:
        canvas.setPageSize((sheet.width * POINT, sheet.height * POINT))
        for mark in sheet.marks:
            _draw(canvas, mark)
        canvas.showPage()
    canvas.save()
    return file.getvalue()


def _canvas(first: Sheet) -> tuple[Canvas, BytesIO]:
    """A new document with its fonts, its title, and the wish to be printed at true size."""
    from reportlab.pdfbase import pdfmetrics
    from reportlab.pdfbase.ttfonts import TTFont
    from reportlab.pdfgen.canvas import Canvas

    for bold, name in _FONTS.items():
        if name not in pdfmetrics.getRegisteredFontNames():
            pdfmetrics.registerFont(TTFont(name, str(font_path(bold))))
    file = BytesIO()
    canvas = Canvas(file, invariant=1, pageCompression=1, initialFontName=_FONTS[False])
    canvas.setTitle(clean(first.title))
    canvas.setAuthor("")
    canvas.setSubject("")
    canvas.setCreator("profilegen")
    canvas.setViewerPreference("PrintScaling", "None")
    return canvas, file


def _draw(canvas: Canvas, mark: Mark) -> None:
    match mark:
        case Stroke():
            canvas.setLineWidth(mark.width * POINT)
            canvas.setLineJoin(1)
            canvas.setDash([length * POINT for length in mark.dash])
            canvas.setStrokeGray(0)
            canvas.drawPath(_curves(canvas, mark.curves), stroke=1, fill=0)
        case Fill():
            canvas.setFillGray(mark.grey)
            canvas.drawPath(_curves(canvas, mark.contours), stroke=0, fill=1, fillMode=0)
        case Text():
            _write(canvas, mark)


def _write(canvas: Canvas, text: Text) -> None:
    string, start = lettered(text.string, text.bold), text_start(text) * POINT
    if not string.strip():
        return
    line = canvas.beginText()
    c, s = cos(text.turn), sin(text.turn)
    line.setTextTransform(c, s, -s, c, start.real, start.imag)
    line.setFont(_FONTS[text.bold], em_size(text.size) * POINT)
    line.setFillGray(0)
    line.textOut(string)
    canvas.drawText(line)


def _curves(canvas: Canvas, curves: Iterable[Curve]) -> PDFPathObject:
    path = canvas.beginPath()
    for curve in curves:
        start = complex(curve.points[0]) * POINT
        path.moveTo(start.real, start.imag)
        for step in steps(curve):
            _step(path, step)
        if isinstance(curve, Contour):
            path.close()
    return path


def _step(path: PDFPathObject, step: Step) -> None:
    if is_flat(step, ARC_ERROR):
        path.lineTo(step.end.real * POINT, step.end.imag * POINT)
        return
    for curve in cubics(step, ARC_ERROR):
        first, second, end = (z * POINT for z in curve)
        path.curveTo(first.real, first.imag, second.real, second.imag, end.real, end.imag)
