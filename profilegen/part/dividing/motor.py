"""`[dividing] kind = "motor"`: a stepping motor that turns the work."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from profilegen.part.dividing.base import DividingTable, Steps


class MotorDividing(DividingTable):
    """A stepping motor."""

    kind: Literal["motor"] = Field(description="The hardware: a stepping motor.")
    steps: Steps = Field(description="Steps for one whole turn of the work, all gearing counted.")
