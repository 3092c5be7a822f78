"""The tables of a part file that have one kind only, and the keys above all tables.

Owns: `Head` (top level), `Hub`, `Holes`, `Setup`.
Refuses: the tables with a `kind`, which have a module each.
"""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from profilegen.part.base import Table
from profilegen.part.fields import Count, Length, Name, Rotation, Title, Turn


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
        default="clockwise", description="The way the cutter turns, seen from above."
    )
    first: Literal["face", "back"] = Field(
        default="face", description="The flank cut in the first lap when a space takes two cuts."
    )
