"""Pages for the tests of the back ends, and the reading of pictures made from them."""

from __future__ import annotations

import math
from io import BytesIO

import numpy as np
import numpy.typing as npt
import pypdfium2
import resvg_py
from PIL import Image

from profilegen.drawing.marks import CHAINED, WIDE, Fill, Sheet, Text, line, stroke
from profilegen.geometry.chain import chain, circle, contour
from profilegen.output.pdf import pdf_bytes
from profilegen.output.svg import svg_bytes

DPI = 300
"""Dots to the inch of the pictures measured here: 11.8 to the mm."""

Picture = npt.NDArray[np.float64]


def page() -> Sheet:
    """An A4 page with every kind of mark and a 100 mm bar each way."""
    marks = (
        Fill((contour([20 + 19.5j, 120 + 19.5j, 120 + 20.5j, 20 + 20.5j]),), name="bar-x"),
        Fill((contour([189.5 + 20j, 190.5 + 20j, 190.5 + 120j, 189.5 + 120j]),), name="bar-y"),
        stroke(circle(100 + 180j, 40.0), width=WIDE, name="part"),
        stroke(circle(100 + 180j, 30.0), dash=CHAINED),
        stroke(chain([20 + 100j, 60 + 100j, 100 + 100j], [1.0, -0.3]), width=0.35),
        Fill((circle(150 + 80j, 20.0), circle(150 + 80j, 10.0)), 0.8),
        Text(20 + 270j, "Ø 38 ±0.02, 12° 30′ <&\"> 'Žč'", 3.5),
        Text(60 + 130j, "turned", 5.0, "middle", "middle", math.pi / 6, bold=True),
        line(),
    )
    return Sheet(210.0, 297.0, marks, (), 'Ratchet <&"> no. 1')


def svg_picture(sheet: Sheet) -> Picture:
    """An SVG sheet as grey values, 0 black and 255 white, rows from the top."""
    png = resvg_py.svg_to_bytes(svg_string=svg_bytes(sheet).decode(), dpi=DPI, background="white")
    return _grey(bytes(png))


def pdf_picture(sheet: Sheet) -> Picture:
    """A PDF sheet as grey values, 0 black and 255 white, rows from the top."""
    document = pypdfium2.PdfDocument(pdf_bytes([sheet]))
    try:
        return np.asarray(document[0].render(scale=DPI / 72).to_pil().convert("L"), dtype=float)
    finally:
        document.close()


def bar_length(picture: Picture, upright: bool) -> float:
    """Length in mm of the bar of `page`: ink along its middle, edges counted by their grey.

    A renderer rounds the page up to whole dots and stretches it by as much, so that the picture's
    own size is the ruler.
    """
    down, right = picture.shape[0] / 297.0, picture.shape[1] / 210.0
    if upright:
        ink = picture[round((297 - 125) * down) : round((297 - 15) * down), round(190 * right)]
        return float(np.sum(255 - ink) / 255 / down)
    ink = picture[round((297 - 20) * down), round(15 * right) : round(125 * right)]
    return float(np.sum(255 - ink) / 255 / right)


def _grey(png: bytes) -> Picture:
    with Image.open(BytesIO(png)) as image:
        return np.asarray(image.convert("L"), dtype=float)
