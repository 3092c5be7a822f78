"""`[dividing] kind = "plate"`: a plate with one circle of holes on the spindle itself."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from profilegen.part.dividing.base import DividingTable, Holes, Positions


class PlateDividing(DividingTable):
    """A plate with one circle of holes on the spindle, with or without a vernier ring."""

    kind: Literal["plate"] = Field(
        description="The hardware: a plate with one circle of holes on the spindle itself."
    )
    holes: Holes = Field(description="The number of holes in the plate.")
    vernier: Positions | None = Field(
        default=None,
        description="The number of positions of the vernier ring, which divide one hole's step.",
    )
