"""`[[cutter]] kind = "single-angle"`: one flank along the infeed."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from profilegen.part.base import CutterTable
from profilegen.part.fields import Flank


class SingleAngleCutter(CutterTable):
    """One flank along the infeed."""

    kind: Literal["single-angle"] = Field(
        description="The shape of the edge: one flank along the infeed."
    )
    angle: Flank = Field(
        description="The angle between the flank that lies along the infeed and the other flank."
    )
