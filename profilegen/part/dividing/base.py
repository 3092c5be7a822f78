"""What every kind of `[dividing]` shares, and the types of its values.

Owns: `dial_increases`, circles of holes, change wheels, dial angles. Refuses: what a kind can do.
"""

from __future__ import annotations

import re
from typing import Annotated, Literal

from pydantic import BeforeValidator, Field, WithJsonSchema

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
