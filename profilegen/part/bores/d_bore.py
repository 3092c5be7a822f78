"""`[bore] kind = "d-bore"`: a round hole with one flat."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from profilegen.part.base import BoreTable
from profilegen.part.fields import Length


class DBore(BoreTable):
    """A round hole with one flat."""

    kind: Literal["d-bore"] = Field(
        description="The shape of the hole: a round hole with one flat."
    )
    diameter: Length = Field(description="The diameter of the round part of the hole.")
    flat_to_far_side: Length = Field(
        description="The distance from the flat, through the axis, to the far side of the hole."
    )
