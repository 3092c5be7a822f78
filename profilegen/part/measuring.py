"""`[gauge]` and `[tolerance]`: over what the wheel is measured, and within which limits.

Owns the keys; each key of `[tolerance]` is the name of a feature as `profilegen gauge` lists it.
Refuses what a tolerance amounts to at a size (`limits`).
"""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import BeforeValidator, Field, WithJsonSchema

from profilegen.part.allowance import AngleAllowance, LengthAllowance
from profilegen.part.base import Table
from profilegen.part.fields import FieldError, Length, what


def _span(value: object) -> int:
    if isinstance(value, bool) or not isinstance(value, int):
        raise FieldError(f"this is {what(value)} where a count is wanted", "a whole number from 2")
    if not 2 <= value <= 1000:
        raise FieldError("a span is over two teeth or more", "a whole number from 2 to 1000")
    return value


SpanTeeth = Annotated[
    int,
    BeforeValidator(_span),
    WithJsonSchema({"type": "integer", "minimum": 2, "maximum": 1000}),
]
"""Teeth between the jaws, 2 to 1000."""


class Gauge(Table):
    """`[gauge]`: over what the teeth are measured."""

    pin: Length | None = Field(
        default=None,
        description=(
            "The diameter of the two pins laid in opposite spaces; chosen from standard sizes "
            "when left out."
        ),
    )
    span_teeth: SpanTeeth | None = Field(
        default=None,
        description=(
            "The number of teeth between the jaws of a caliper laid over their crests; about a "
            "fifth of all when left out."
        ),
    )


class Tolerance(Table):
    """`[tolerance]`: how far each feature may stand off its nominal size."""

    general: Literal["ISO 2768-f", "ISO 2768-m", "ISO 2768-c", "ISO 2768-v"] = Field(
        default="ISO 2768-m",
        description="The general tolerance of every size that has none of its own.",
    )
    outside_diameter: LengthAllowance | None = Field(
        default=None, description="The tolerance of the outside diameter; h11 when left out."
    )
    root_diameter: LengthAllowance | None = Field(
        default=None,
        description=(
            "The tolerance of the root diameter; when left out it follows from the land, or is "
            "the general one where the print gives the root."
        ),
    )
    land: LengthAllowance | None = Field(
        default=None, description="The tolerance of the land; +0.10 -0.05 mm when left out."
    )
    tooth_thickness: LengthAllowance | None = Field(
        default=None,
        description=(
            "The tolerance of a gear tooth's thickness along the pitch circle; up to 0.04 module "
            "thinner or 0.01 thicker when left out. Spans, pins and chords follow from it."
        ),
    )
    space_angle: AngleAllowance | None = Field(
        default=None, description="The tolerance of the space angle; general when left out."
    )
    hook_angle: AngleAllowance | None = Field(
        default=None, description="The tolerance of the hook angle; 1 deg when left out."
    )
    thickness: LengthAllowance | None = Field(
        default=None, description="The tolerance of the thickness; general when left out."
    )
    bore_diameter: LengthAllowance | None = Field(
        default=None,
        description="The tolerance of a round, keyed or D bore's diameter; H7 when left out.",
    )
    across_flats: LengthAllowance | None = Field(
        default=None,
        description="The tolerance across the flats of a square or hexagon; H11 when left out.",
    )
    key_width: LengthAllowance | None = Field(
        default=None,
        description=(
            "The tolerance of the keyway's width; JS9, the normal fit, when left out. P9 is the "
            "close fit."
        ),
    )
    key_depth: LengthAllowance | None = Field(
        default=None, description="The tolerance of the keyway's depth; general when left out."
    )
    flat_to_far_side: LengthAllowance | None = Field(
        default=None,
        description="The tolerance from a D bore's flat to its far side; general when left out.",
    )
