"""`[dividing] kind = "notched"`: a notched plate and a pawl on the spindle."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from profilegen.part.dividing.base import DividingTable, Holes


class NotchedDividing(DividingTable):
    """A notched plate on the spindle."""

    kind: Literal["notched"] = Field(
        description="The hardware: a notched plate on the spindle itself."
    )
    notches: Holes = Field(description="The number of notches in the plate.")
