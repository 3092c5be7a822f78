"""`[dividing]`: the keys of each kind of hardware, what all of them share, and the types of their
values: circles of holes, change wheels, dial angles.

Refuses what the hardware can do (`dividing`).
"""

from __future__ import annotations

import math
import re
from typing import Annotated, Literal

from pydantic import BeforeValidator, Field, ValidationInfo, WithJsonSchema, field_validator

from profilegen.part import patterns
from profilegen.part.base import Table
from profilegen.part.fields import FieldError, what
from profilegen.units import parse_angle


def _whole(value: object, least: int, most: int, name: str) -> int:
    allowed = f"a whole number from {least} to {most}"
    if isinstance(value, bool) or not isinstance(value, int):
        raise FieldError(f"this is {what(value)} where {name} is wanted", allowed)
    if not least <= value <= most:
        raise FieldError(f"{value} is {'too small' if value < least else 'too big'}", allowed)
    return value


def _holes(value: object) -> int:
    return _whole(value, 2, 1000, "a count of holes or notches")


def _ratio(value: object) -> int:
    """40, or as it stands on the head, "40:1"."""
    if isinstance(value, str) and (told := re.fullmatch(r"\s*(\d{1,4})\s*(?::|to)\s*1\s*", value)):
        value = int(told[1])
    return _whole(value, 1, 1000, "a ratio")


def _positions(value: object) -> int:
    return _whole(value, 2, 100, "a count of vernier positions")


def _steps(value: object) -> int:
    return _whole(value, 2, 10_000_000, "a count of steps")


def _microsteps(value: object) -> int:
    return _whole(value, 1, 1024, "a count of microsteps")


def _list(value: object, wanted: str, most: int) -> list[object]:
    if not isinstance(value, list | tuple) or not value:
        raise FieldError(f"this is {what(value)} where {wanted} is wanted", wanted)
    if len(value) > most:
        raise FieldError(f"{len(value)} are too many", f"up to {most} of them")
    return list(value)


def _plates(value: object) -> tuple[tuple[int, ...], ...]:
    wanted = "a list of plates, each a list of hole counts: [[15, 16, 17], [21, 23, 27]]"
    plates = [_list(plate, wanted, 40) for plate in _list(value, wanted, 20)]
    return tuple(
        tuple(sorted({_whole(n, 2, 1000, "a count of holes") for n in plate})) for plate in plates
    )


def _wheels(value: object) -> tuple[int, ...]:
    wanted = "a list of tooth counts: [24, 24, 28, 32]"
    return tuple(sorted(_whole(n, 8, 300, "a count of teeth") for n in _list(value, wanted, 24)))


def _dial(value: object) -> float:
    if isinstance(value, bool) or not isinstance(value, str | int | float):
        raise FieldError(f"this is {what(value)} where an angle is wanted", '"1 min"')
    angle = parse_angle(value)
    if not 0 < angle <= parse_angle(90):
        raise FieldError("this angle is out of range", "more than 0 deg to 90 deg")
    return angle


_RATIO = {
    "type": ["integer", "string"],
    "minimum": 1,
    "maximum": 1000,
    "pattern": r"^\s*[0-9]{1,4}\s*(:|to)\s*1\s*$",
    "examples": [40, "40:1"],
}
_INTEGERS = {"type": "array", "items": {"type": "integer"}}


def _way(value: object) -> int:
    return _whole(value, 1, 1000, "the number of a way")


def _integer(least: int, most: int) -> WithJsonSchema:
    return WithJsonSchema({"type": "integer", "minimum": least, "maximum": most})


WayNumber = Annotated[int, BeforeValidator(_way), _integer(1, 1000)]
Holes = Annotated[int, BeforeValidator(_holes), _integer(2, 1000)]
Ratio = Annotated[int, BeforeValidator(_ratio), WithJsonSchema(_RATIO)]
Positions = Annotated[int, BeforeValidator(_positions), _integer(2, 100)]
Microsteps = Annotated[int, BeforeValidator(_microsteps), _integer(1, 1024)]
Steps = Annotated[int, BeforeValidator(_steps), _integer(2, 10_000_000)]
Plates = Annotated[
    tuple[tuple[int, ...], ...],
    BeforeValidator(_plates),
    WithJsonSchema({"type": "array", "items": _INTEGERS}),
]
Wheels = Annotated[tuple[int, ...], BeforeValidator(_wheels), WithJsonSchema(_INTEGERS)]
Dial = Annotated[float, BeforeValidator(_dial), WithJsonSchema(patterns.angle("1 min", "10 sec"))]
"""rad of the work."""


class DividingTable(Table):
    """`[dividing]`: the keys that every kind has. Each kind narrows `kind`."""

    kind: str = Field(description="What turns the work through equal shares.")
    dial_increases: Literal["counter-clockwise", "clockwise"] = Field(
        default="counter-clockwise",
        description=(
            "The way the work turns, seen from its free end, when the numbers of the dial or "
            "plate grow."
        ),
    )
    way: WayNumber | None = Field(
        default=None,
        description=(
            "The number of the way to take, as profilegen stops lists the ways for this wheel; the "
            "first when left out, which is exact if any is."
        ),
    )


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


class NotchedDividing(DividingTable):
    """A notched plate on the spindle."""

    kind: Literal["notched"] = Field(
        description="The hardware: a notched plate on the spindle itself."
    )
    notches: Holes = Field(description="The number of notches in the plate.")


class WormDividing(DividingTable):
    """A worm head with a crank."""

    kind: Literal["worm"] = Field(description="The hardware: a worm head with crank and plates.")
    ratio: Ratio = Field(description="Turns of the crank for one turn of the work, such as 40.")
    plates: Plates = Field(
        default=(),
        description="The plates, each a list of the hole counts of the circles on one face.",
    )
    change_wheels: Wheels | None = Field(
        default=None,
        description="The tooth counts of the change wheels, for differential dividing.",
    )


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
