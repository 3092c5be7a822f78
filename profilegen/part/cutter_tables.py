"""`[[cutter]]`: the keys of each kind of cutter.

A form cutter's `of` is a table in the shape of `[wheel]`, or the name of a part file, which reading
replaces by that file's wheel. A drawn one has its points as rows; a DXF is read by `references`,
which fills `points` in. Refuses silhouettes that no cutter can have (`part/silhouette.py`), and to
solve a wheel (`cutting`).
"""

from __future__ import annotations

from collections.abc import Iterator, Set
from typing import Annotated, Any, ClassVar, Literal

from pydantic import BeforeValidator, Field, ValidationInfo, WithJsonSchema

from profilegen.part import patterns
from profilegen.part.base import CutterTable, KeyRule, WheelTable, no_tip
from profilegen.part.fields import (
    LONGEST_PATH,
    FieldError,
    FileName,
    Flank,
    Included,
    Length,
    LengthOrZero,
    Name,
    UnitsError,
    text_up_to,
    unit_of,
    what,
)
from profilegen.units import Unit, parse_length


class VeeCutter(CutterTable):
    """A wedge with both flanks alike."""

    kind: Literal["vee"] = Field(
        description="The shape of the edge: a wedge with both flanks alike."
    )
    included_angle: Included = Field(description="The angle between the two flanks.")


class SingleAngleCutter(CutterTable):
    """One flank along the infeed."""

    kind: Literal["single-angle"] = Field(
        description="The shape of the edge: one flank along the infeed."
    )
    angle: Flank = Field(
        description="The angle between the flank that lies along the infeed and the other flank."
    )


class DoubleAngleCutter(CutterTable):
    """A wedge with two different flanks."""

    kind: Literal["double-angle"] = Field(
        description="The shape of the edge: a wedge with two different flanks."
    )
    angles: tuple[Flank, Flank] = Field(
        description="The angles of both flanks from the infeed; both ways round are tried."
    )


class SlotCutter(CutterTable):
    """Two straight sides and a level bottom, its corners sharp or rounded."""

    kind: Literal["slot"] = Field(
        description="The shape of the edge: straight sides and a level bottom."
    )
    width: Length = Field(description="The width of the slot it cuts, across both sides.")
    corner_radius: LengthOrZero = Field(
        default=0.0, description="The radius of both corners, measured; 0 when they are sharp."
    )

    @classmethod
    def key_rules(cls, given: Set[str]) -> tuple[KeyRule, ...]:
        """Return the rule that a slot cutter has corners and no tip."""
        return no_tip(given, "a slot cutter has two corners and no tip", "give corner_radius")

    def value_rules(self) -> Iterator[KeyRule]:
        """Yield corners that do not fit the width or the edge."""
        if 2 * self.corner_radius > self.width:
            yield KeyRule(
                "corner_radius",
                "the corners are rounder than the cutter is wide",
                "up to half the width",
                'a cutter with one round end is kind = "ball"',
            )
        if self.edge_length is not None and self.edge_length < self.corner_radius:
            yield KeyRule(
                "edge_length",
                "the edge ends within its corner, so the sides have no edge",
                "at least corner_radius",
            )


class BallCutter(CutterTable):
    """A half circle, its sides straight on from there."""

    kind: Literal["ball"] = Field(description="The shape of the edge: a half circle.")
    radius: Length = Field(description="The radius of the half circle that the cutter forms.")

    @classmethod
    def key_rules(cls, given: Set[str]) -> tuple[KeyRule, ...]:
        """Return the rule that a ball is one radius all over."""
        return no_tip(given, "a ball is one radius all over", "give radius only")

    def value_rules(self) -> Iterator[KeyRule]:
        """Yield an edge that ends before the half circle does."""
        if self.edge_length is not None and self.edge_length < self.radius:
            yield KeyRule(
                "edge_length",
                "the edge ends within the half circle",
                "at least radius",
                'a shallower round edge is kind = "drawn"',
            )


_file = text_up_to(LONGEST_PATH)


def _wheel_or_file(value: object) -> str | WheelTable:
    if isinstance(value, WheelTable):
        return value
    if not isinstance(value, str):
        allowed = 'a table of the keys of [wheel], or the name of a part file: "mate.toml"'
        raise FieldError(f"this is {what(value)} where a wheel is wanted", allowed)
    return _file(value)


WheelOrFile = Annotated[
    str | WheelTable,
    BeforeValidator(_wheel_or_file),
    WithJsonSchema({"type": ["string", "object"], "examples": ["mate.toml"]}),
]
"""A wheel's keys, or the name of a part file."""


class FormCutter(CutterTable):
    """The space of a wheel as an edge: it cuts that wheel's teeth at one pass."""

    inner: ClassVar = {"of": "wheel"}

    kind: Literal["form"] = Field(
        description="The shape of the edge: the space between the teeth of a wheel."
    )
    of: WheelOrFile = Field(
        description=(
            "The wheel whose space it has: the keys of a [wheel], a part file's name, or "
            '"this wheel".'
        )
    )

    @classmethod
    def key_rules(cls, given: Set[str]) -> tuple[KeyRule, ...]:
        """Return the rule that the wheel settles the tip."""
        return no_tip(given, "the wheel of a form cutter settles its tip", "change the wheel in of")


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
