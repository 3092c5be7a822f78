"""`[[cutter]] kind = "vee"`: a wedge with both flanks alike."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from profilegen.part.base import CutterTable
from profilegen.part.fields import Included


class VeeCutter(CutterTable):
    """A wedge with both flanks alike."""

    kind: Literal["vee"] = Field(
        description="The shape of the edge: a wedge with both flanks alike."
    )
    included_angle: Included = Field(description="The angle between the two flanks.")
