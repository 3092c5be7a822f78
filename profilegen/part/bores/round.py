"""`[bore] kind = "round"`: a round hole."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from profilegen.part.base import BoreTable
from profilegen.part.fields import Length


class RoundBore(BoreTable):
    """A round hole."""

    kind: Literal["round"] = Field(description="The shape of the hole: a round hole.")
    diameter: Length = Field(description="The diameter of the hole.")
