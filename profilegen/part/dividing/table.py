"""`[dividing] kind = "table"`: a rotary table with a dial on its handwheel."""

from __future__ import annotations

import math
from typing import Literal

from pydantic import Field, ValidationInfo, field_validator

from profilegen.part.dividing.base import Dial, DividingTable, Ratio
from profilegen.part.fields import FieldError


def divides(part: float, whole: float) -> bool:
    """Tell whether one angle goes a whole number of times into another.

    Args:
        part: rad, not 0.
        whole: rad; equal to a whole number of times within a billionth of it.
    """
    times = whole / part
    return round(times) >= 1 and math.isclose(times, round(times), rel_tol=1e-9)


class TableDividing(DividingTable):
    """A rotary table read on a dial."""

    kind: Literal["table"] = Field(description="The hardware: a rotary table read on its dial.")
    ratio: Ratio = Field(description="Turns of the handwheel for one turn of the table.")
    graduation: Dial = Field(description="One line of the dial, as an angle of the table.")
    vernier: Dial | None = Field(
        default=None, description="What the vernier reads, as an angle of the table."
    )

    @field_validator("graduation")
    @classmethod
    def _fits_a_turn(cls, value: float, info: ValidationInfo) -> float:
        ratio = info.data.get("ratio")
        if ratio and not divides(value, 2 * math.pi / ratio):
            turn = f"{360 / ratio:g} deg"
            raise FieldError(
                "one line does not go evenly into one turn of the handwheel",
                f"a whole share of {turn}",
            )
        return value

    @field_validator("vernier")
    @classmethod
    def _fits_a_line(cls, value: float | None, info: ValidationInfo) -> float | None:
        line = info.data.get("graduation")
        if value is not None and line and not divides(value, line):
            raise FieldError(
                "the vernier does not divide one line evenly", "a whole share of graduation"
            )
        return value
