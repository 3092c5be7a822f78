"""`[dividing] kind = "motor"`: a stepping motor that turns the work."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from profilegen.part.dividing.base import DividingTable, Microsteps, Ratio, Steps


class MotorDividing(DividingTable):
    """A stepping motor."""

    kind: Literal["motor"] = Field(description="The hardware: a stepping motor.")
    steps: Steps = Field(
        description=(
            "Steps for one whole turn of the work, all gearing counted; or, with ratio or "
            "microsteps, those of the motor for one turn of its own."
        )
    )
    ratio: Ratio = Field(
        default=1, description="Turns of the motor for one turn of the work, such as 90."
    )
    microsteps: Microsteps = Field(
        default=1, description="Parts into which the driver divides each step, such as 16."
    )

    @property
    def in_a_turn(self) -> int:
        """What is sent to the driver for one turn of the work."""
        return self.steps * self.ratio * self.microsteps
