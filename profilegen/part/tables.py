"""The tables of a part file that have one kind only, and the keys above all tables.

Owns: `Head` (top level), `Hub`, `Holes`, `Setup`, `Blank`.
Refuses: the tables with a `kind`, which have a module each.
"""

from __future__ import annotations

from typing import Annotated, Any, Literal

from pydantic import BeforeValidator, Field, ValidationInfo, WithJsonSchema

from profilegen.part import patterns
from profilegen.part.base import Table
from profilegen.part.fields import (
    Count,
    FieldError,
    FileName,
    Length,
    LengthOrZero,
    Name,
    Rotation,
    SignedLength,
    Title,
    Turn,
    unit_of,
    what,
)
from profilegen.units import parse_length, parse_speed

ACCEPT = 0.02
"""mm. Left-over and gouge still called usable when the part does not say."""

_FEELERS = ("paper", "foil", "shim", "feeler", "cellophane", "film")


def _feeler(value: object, info: ValidationInfo) -> float:
    """The thickness of what is laid between; a name without a thickness is no thickness."""
    if isinstance(value, bool) or not isinstance(value, str | int | float):
        raise FieldError(f"this is {what(value)} where a thickness is wanted", "0 or more")
    if isinstance(value, str) and any(word in value.lower() for word in _FEELERS):
        raise FieldError(
            "paper and foil come in every thickness, so a name is no size",
            "the thickness measured, 0 or more",
            "measure yours: cigarette paper is about 0.02 mm, printer paper about 0.1 mm",
        )
    mm = parse_length(value, unit_of(info))
    if not 0 <= mm <= 2:
        raise FieldError("no feeler is this thick", "0 to 2 mm")
    return mm


def _speed(value: object) -> int:
    if isinstance(value, bool) or not isinstance(value, int):
        raise FieldError(f"this is {what(value)} where a speed is wanted", "whole turns a minute")
    if not 1 <= value <= 100_000:
        raise FieldError("no spindle runs at this speed", "1 to 100000 turns a minute")
    return value


Feeler = Annotated[
    float,
    BeforeValidator(_feeler),
    WithJsonSchema(patterns.length(minimum=0)),
]
"""mm, 0 or more."""

Speed = Annotated[
    int,
    BeforeValidator(_speed),
    WithJsonSchema({"type": "integer", "minimum": 1, "maximum": 100_000}),
]
"""Turns a minute."""


def _surface_speed(value: object, info: ValidationInfo) -> float:
    if isinstance(value, bool) or not isinstance(value, str | int | float):
        raise FieldError(f"this is {what(value)} where a speed is wanted", "more than 0")
    found = parse_speed(value, unit_of(info))
    if not 0 < found <= 1000:
        raise FieldError("no wheel is cut at this speed", "more than 0, up to 1000 m/min")
    return found


SurfaceSpeed = Annotated[
    float,
    BeforeValidator(_surface_speed),
    WithJsonSchema(patterns.speed()),
]
"""m/min; a bare number is ft/min in a part in inches."""


class Head(Table):
    """The keys above all tables."""

    title: Title | None = Field(
        default=None, description="What the part is, as it stands in the title block."
    )
    number: Name | None = Field(default=None, description="The drawing or part number.")
    units: Literal["mm", "in"] = Field(
        description="The unit of every length written without one, and of what is printed."
    )
    material: Name | None = Field(default=None, description="What the wheel is made of.")
    decimal: Literal["point", "comma"] = Field(
        default="point", description="The decimal mark in everything printed for people."
    )
    drawer: FileName | None = Field(
        default=None,
        description=(
            "The file of your cutters, from the folder of this one; used when the part has no "
            "[[cutter]] of its own."
        ),
    )


class DrawerHead(Table):
    """The keys above the `[[cutter]]` tables of a drawer."""

    title: Title | None = Field(default=None, description="Whose cutters these are, or where.")
    units: Literal["mm", "in"] = Field(description="The unit of every length written without one.")


class Hub(Table):
    """`[hub]`: a boss on one face of the wheel, round and true with the bore."""

    diameter: Length = Field(description="The diameter of the hub.")
    length: Length = Field(description="How far the hub stands out from the face of the wheel.")
    side: Literal["front", "back"] = Field(
        description="The face that the hub stands on; the print shows the front."
    )


class Holes(Table):
    """`[[holes]]`: round holes evenly spaced on a circle about the axis."""

    count: Count = Field(description="The number of holes on the circle.")
    circle_diameter: Length = Field(
        description="The diameter of the circle through the middles of the holes."
    )
    diameter: Length = Field(description="The diameter of each hole.")
    angle: Turn = Field(
        default=0.0,
        description=(
            "The turn from the face tip of tooth 1 to the first hole, counter-clockwise positive "
            "seen from the front."
        ),
    )


class Setup(Table):
    """`[setup]`: how the wheel stands on the machine. A key in `model_fields_set` was given."""

    cutter: Name | None = Field(
        default=None, description="The name of the cutter to set up; the first one when left out."
    )
    front: Literal["free end", "head"] = Field(
        default="free end", description="Where the face that the print shows points."
    )
    head: Literal["left", "right"] = Field(
        default="left", description="Where the indexing head stands, seen by the operator."
    )
    cutter_side: Literal["above", "behind", "in front"] = Field(
        default="behind", description="Where the cutter stands to the work, seen by the operator."
    )
    flat: Literal["down", "up"] | None = Field(
        default=None,
        description=(
            "The way the flank along the infeed of an angle cutter looks; chosen by the program "
            "when left out."
        ),
    )
    spindle: Rotation = Field(
        default="clockwise",
        description=(
            "The way the cutter turns, seen from above; of a cutter that stands above the work, "
            "seen by the operator."
        ),
    )
    first: Literal["face", "back"] = Field(
        default="face", description="The flank cut in the first lap when a space takes two cuts."
    )
    offset: SignedLength | None = Field(
        default=None,
        description=(
            "The offset to hold, of the cutter's apex from the wheel axis, positive towards the "
            "tooth that owns the face; found by the program when left out."
        ),
    )
    face_angle: Turn | None = Field(
        default=None,
        description=(
            "The angle from the infeed to hold the face at; found by the program when left out."
        ),
    )
    touch: Literal["top", "offset"] = Field(
        default="top",
        description=(
            "The zero that the passes are counted from: the top zero, the tip touching the blank's "
            "top as the cutter sees it, or the offset zero, the first touch at the set offset."
        ),
    )
    feeler: Feeler | None = Field(
        default=None,
        description="The measured thickness of the paper or foil between cutter and blank.",
    )
    accept: LengthOrZero = Field(
        default=ACCEPT, description="The left-over and gouge that are still called usable."
    )
    centre_height: Length | None = Field(
        default=None, description="The height of the head's axis above the table."
    )
    chuck_diameter: Length | None = Field(
        default=None, description="The diameter of the body of the chuck on the head."
    )
    jaw_diameter: Length | None = Field(
        default=None,
        description=(
            "The diameter of the circle round the outside of the jaws, or of the collet's nose, as "
            "they grip the work."
        ),
    )
    jaw_length: LengthOrZero = Field(
        default=0.0, description="How far the jaws stand out of the face of the chuck's body."
    )
    edge_finder: Length | None = Field(
        default=None, description="The diameter of the edge finder's tip in the spindle."
    )
    roughing_passes: Count | None = Field(
        default=None,
        description="The number of passes before the finishing one; by the depth when left out.",
    )
    speed_limit: Speed | None = Field(
        default=None,
        description=(
            "The greatest turns a minute that cutter, holder and machine all allow, as their "
            "makers state it."
        ),
    )
    surface_speed: SurfaceSpeed | None = Field(
        default=None,
        description=(
            "The speed at the cutter's tip for this wheel, from your own chart; by the metal when "
            "left out."
        ),
    )
    dials: Annotated[Any, WithJsonSchema({"type": "object"})] = Field(
        default=None,
        description="The dials of the machine, a table for each of x, y and z.",
    )


class Blank(Table):
    """`[blank]`: the turned disc or bar as it really is."""

    diameter: Length | None = Field(
        default=None, description="The diameter of the blank as measured; the print's if left out."
    )
    hold: Literal["land", "root"] | None = Field(
        default=None,
        description=(
            "What stays, beside the space angle, when the blank is not nominal; when left out "
            "whatever the print gives."
        ),
    )
    run_out: LengthOrZero | None = Field(
        default=None, description="The whole swing of an indicator on the blank as gripped."
    )
    bar_diameter: Length | None = Field(
        default=None, description="The diameter of the bar or arbor behind the blank."
    )
    count: Count = Field(
        default=1, description="The number of wheels that stand one behind the other on the bar."
    )
    lapping_allowance: LengthOrZero = Field(
        default=0.3, description="What is left on each wheel for facing and lapping."
    )
    parting_width: Length = Field(
        default=2.0, description="The width of the tool that parts each wheel off."
    )
