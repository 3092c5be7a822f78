"""`[[cutter]] kind = "double-angle"`: a wedge with two different flanks."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from profilegen.part.base import CutterTable
from profilegen.part.fields import Flank


class DoubleAngleCutter(CutterTable):
    """A wedge with two different flanks."""

    kind: Literal["double-angle"] = Field(
        description="The shape of the edge: a wedge with two different flanks."
    )
    angles: tuple[Flank, Flank] = Field(
        description="The angles of both flanks from the infeed; both ways round are tried."
    )
