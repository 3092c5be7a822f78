"""Hatching as lines, cut exactly at lines and arcs.

Owns the rows of an area. All hatching of one angle and spacing lies on one family of lines
through the page's origin, so that neighbouring areas match. Refuses patterns.
"""

from __future__ import annotations

import cmath
from collections.abc import Iterator, Sequence
from math import ceil, pi

from profilegen.drawing.marks import NARROW, Stroke
from profilegen.drawing.scan import pieces
from profilegen.geometry.chain import Chain, Contour, chain

GOUGE = pi / 4
"""rad. Hatching of metal cut away that should have stayed."""

LEFT_OVER = 3 * pi / 4
"""rad. Hatching of metal left that should have gone."""

_SHORTEST = 0.02
"""mm. Hatch lines shorter than this are left out: nobody can see them."""


def hatch_lines(contours: Sequence[Contour], angle: float, spacing: float) -> tuple[Chain, ...]:
    """Parallel lines over an area (even-odd), each from edge to edge.

    Args:
        contours: the area's edges, mm on the page.
        angle: of the lines from +x, rad.
        spacing: between lines, mm, more than 0.
    """
    if spacing <= 0:
        raise ValueError(f"hatching needs a spacing over 0 mm, got {spacing}")
    turn = cmath.exp(1j * angle)
    rows = dict[int, list[float]]()
    for each in contours:
        for row, x in _crossings(each, turn.conjugate(), spacing):
            rows.setdefault(row, []).append(x)
    return tuple(
        chain([turn * complex(x0, row * spacing), turn * complex(x1, row * spacing)])
        for row in sorted(rows)
        for x0, x1 in _pairs(sorted(rows[row]))
        if x1 - x0 > _SHORTEST
    )


def hatch(
    contours: Sequence[Contour],
    angle: float = GOUGE,
    spacing: float = 1.0,
    width: float = NARROW / 2,
    name: str = "",
) -> Stroke:
    """An area's hatching as one mark.

    Args:
        contours: the area, even-odd, mm on the page.
        angle: of the lines from +x, rad; 45 degrees unless said.
        spacing: from line to line, mm.
        width: of a line, mm.
        name: a word by which readers find the mark, or empty.
    """
    return Stroke(hatch_lines(contours, angle, spacing), width, (), name)


def _pairs(xs: list[float]) -> Iterator[tuple[float, float]]:
    return zip(xs[::2], xs[1::2], strict=False)


def _crossings(each: Contour, turn: complex, spacing: float) -> Iterator[tuple[int, float]]:
    """Row number and x of every crossing of a contour with the rows, in the turned frame."""
    for piece in pieces(each, turn):
        for row in range(ceil(piece.low / spacing), ceil(piece.high / spacing)):
            yield row, piece.x_at(row * spacing)
