"""`[bore]`: the keys of each kind of hole in the middle."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from profilegen.part.base import BoreTable
from profilegen.part.fields import Length, LengthOrZero


class NoBore(BoreTable):
    """No hole in the middle."""

    kind: Literal["none"] = Field(
        default="none", description="The shape of the hole: no hole in the middle."
    )


class RoundBore(BoreTable):
    """A round hole."""

    kind: Literal["round"] = Field(description="The shape of the hole: a round hole.")
    diameter: Length = Field(description="The diameter of the hole.")


class SquareBore(BoreTable):
    """A square hole."""

    kind: Literal["square"] = Field(description="The shape of the hole: a square hole.")
    across_flats: Length = Field(description="The distance between opposite flats of the square.")
    corner_radius: LengthOrZero = Field(
        default=0.0,
        description=(
            "The radius in the corners of the hole, under half of across_flats; 0 is sharp."
        ),
    )


class HexagonBore(BoreTable):
    """A six-sided hole."""

    kind: Literal["hexagon"] = Field(description="The shape of the hole: a six-sided hole.")
    across_flats: Length = Field(description="The distance between opposite flats of the hexagon.")
    corner_radius: LengthOrZero = Field(
        default=0.0,
        description=(
            "The radius in the corners of the hole, under half of across_flats; 0 is sharp."
        ),
    )


class KeyedBore(BoreTable):
    """A round hole with a keyway."""

    kind: Literal["keyed"] = Field(description="The shape of the hole: a round hole with a keyway.")
    diameter: Length = Field(description="The diameter of the round part of the hole.")
    key_width: Length = Field(description="The width of the keyway.")
    key_depth: Length = Field(
        description="The depth of the keyway into the hub, from the bore at its middle."
    )


class DBore(BoreTable):
    """A round hole with one flat."""

    kind: Literal["d-bore"] = Field(
        description="The shape of the hole: a round hole with one flat."
    )
    diameter: Length = Field(description="The diameter of the round part of the hole.")
    flat_to_far_side: Length = Field(
        description="The distance from the flat, through the axis, to the far side of the hole."
    )
