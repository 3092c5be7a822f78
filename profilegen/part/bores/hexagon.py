"""`[bore] kind = "hexagon"`: a six-sided hole."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from profilegen.part.base import BoreTable
from profilegen.part.fields import Length, LengthOrZero


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
