"""`[[cutter]] kind = "drawn"`: an edge by its points, or by a polyline of a DXF drawing.

Owns the keys, and the rows of points as the file gives them. A DXF is read by `references`, which
fills `points` in. Refuses silhouettes that no cutter can have (`part/silhouette.py`).
"""

from __future__ import annotations

from collections.abc import Iterator, Set
from typing import Annotated, Any, Literal

from pydantic import BeforeValidator, Field, ValidationInfo, WithJsonSchema

from profilegen.part import patterns
from profilegen.part.base import CutterTable, KeyRule, no_tip
from profilegen.part.fields import FieldError, FileName, Name, UnitsError, unit_of, what
from profilegen.units import Unit, parse_length

Row = tuple[float, float, float]
"""x and y in mm, and the bulge (`tan(sweep / 4)`) of the arc to the next point, 0 for a line."""

MOST_ROWS = 2000
"""Points of one edge."""

_ROW = "[x, y] or [x, y, bulge]"


def _rows(value: object, info: ValidationInfo) -> tuple[Row, ...]:
    if not isinstance(value, list | tuple):
        raise FieldError(
            f"this is {what(value)} where a list of points is wanted", f"[{_ROW}, ...]"
        )
    if not 2 <= len(value) <= MOST_ROWS:
        text = f"an edge of {len(value)} points cannot be drawn"
        raise FieldError(text, f"2 to {MOST_ROWS} points")
    unit = unit_of(info)
    rows = tuple(_row(row, unit, place) for place, row in enumerate(value, 1))
    return (*rows[:-1], (*rows[-1][:2], 0.0))


def _row(row: object, unit: Unit, place: int) -> Row:
    if not isinstance(row, list | tuple) or len(row) not in (2, 3):
        raise FieldError(f"point {place} is no {_ROW}", _ROW)
    x, y = (_coordinate(item, unit, place) for item in row[:2])
    return x, y, _bulge(row[2], place) if len(row) == 3 else 0.0


def _coordinate(value: Any, unit: Unit, place: int) -> float:
    if isinstance(value, bool) or not isinstance(value, str | int | float):
        raise FieldError(f"point {place} holds {what(value)} where a length is wanted", "a length")
    try:
        return parse_length(value, unit)
    except UnitsError as error:
        raise FieldError(f"point {place}: {error.message}", error.allowed, error.hint) from None


def _bulge(value: object, place: int) -> float:
    known = isinstance(value, int | float) and not isinstance(value, bool)
    if not known or not -1 <= value <= 1:  # type: ignore[operator]
        text = f"the bulge of point {place} is out of range"
        hint = "the tangent of a quarter of the arc's turn; 1 is half a turn counter-clockwise"
        raise FieldError(text, "a number from -1 to 1", hint)
    return float(value)  # type: ignore[arg-type]


Rows = Annotated[
    tuple[Row, ...],
    BeforeValidator(_rows),
    WithJsonSchema(
        {
            "type": "array",
            "items": {
                "type": "array",
                "items": patterns.length(signed=True),
                "minItems": 2,
                "maxItems": 3,
            },
            "minItems": 2,
            "examples": [[[4, 6], [1, 0], [-1, 0], [-4, 6]]],
        }
    ),
]


class DrawnCutter(CutterTable):
    """An edge as drawn: apex at the origin, the infeed along -y, open at the top."""

    kind: Literal["drawn"] = Field(description="The shape of the edge: as drawn.")
    points: Rows | None = Field(
        default=None,
        description=(
            "The edge point by point, [x, y] or [x, y, bulge]; the apex at the origin, the infeed "
            "along -y."
        ),
    )
    dxf: FileName | None = Field(
        default=None,
        description="The DXF drawing that holds the edge; the apex at the origin, the infeed "
        "along -y.",
    )
    layer: Name | None = Field(
        default=None, description="The layer of the DXF drawing on which the edge stands alone."
    )

    @classmethod
    def key_rules(cls, given: Set[str]) -> tuple[KeyRule, ...]:
        """Return the rules that an edge is drawn once, and a DXF is read by its layer."""
        return (
            *no_tip(
                given, "the drawing of a drawn cutter settles its tip", "draw the tip as it is"
            ),
            *_drawn_once(given),
        )

    def value_rules(self) -> Iterator[KeyRule]:
        """Yield what keeps the points from being a cutter's edge."""
        if self.points is None:
            return
        from profilegen.part.silhouette import why_no_edge

        why = why_no_edge(self.points)
        if why:
            hint = "draw the edge from one upper end over the tip to the other, open at the top"
            yield KeyRule("dxf" if self.dxf else "points", why, hint=hint)


def _drawn_once(given: Set[str]) -> Iterator[KeyRule]:
    if {"points", "dxf"} <= given:
        yield KeyRule("dxf", "the edge is given twice", "points, or dxf and layer")
    elif not given & {"points", "dxf"}:
        text = "the edge is not drawn: this cutter has no cutting edge"
        yield KeyRule("", text, "points, or dxf and layer")
    if "dxf" in given and "layer" not in given:
        yield KeyRule("layer", "layer is missing", "the name of the layer that holds the edge")
    if "layer" in given and "dxf" not in given:
        yield KeyRule("layer", "a layer of which drawing is not said", "dxf beside it")
