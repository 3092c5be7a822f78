"""`[setup.dials.z]` and its like: how one dial of the machine reads.

Owns the keys of a dial and which way each axis can go. A bare division is in the dial's own unit.
Refuses what a move comes to on it (`setting.dials`). Imported when a file names its dials.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Annotated, Any, Final, Literal

from pydantic import (
    BeforeValidator,
    Field,
    ValidationInfo,
    WithJsonSchema,
    model_validator,
)

from profilegen.errors import Problem
from profilegen.part import patterns
from profilegen.part.base import KeyRule, Table
from profilegen.part.checking import Checked, check_table
from profilegen.part.fields import FieldError, unit_of, what
from profilegen.units import Unit, parse_length, unit_named

WAYS: Final[dict[str, tuple[str, str]]] = {
    "x": ("left", "right"),
    "y": ("towards the column", "towards the operator"),
    "z": ("up", "down"),
}
"""Axis -> the two ways that the cutter can go against the work, seen by the operator."""


def _division(value: object, info: ValidationInfo) -> float:
    if isinstance(value, bool) or not isinstance(value, str | int | float):
        raise FieldError(f"this is {what(value)} where a length is wanted", "more than 0")
    mm = parse_length(value, info.data.get("unit") or unit_of(info))
    if not 0 < mm <= 10:
        raise FieldError("no dial has such divisions", "more than 0, up to 10 mm")
    return mm


Division = Annotated[
    float,
    BeforeValidator(_division),
    WithJsonSchema(patterns.length(exclusiveMinimum=0)),
]
"""mm that one division is marked as."""


def _per_turn(value: object, info: ValidationInfo) -> float:
    if isinstance(value, bool) or not isinstance(value, str | int | float):
        raise FieldError(f"this is {what(value)} where a length is wanted", "more than 0")
    mm = parse_length(value, info.data.get("unit") or unit_of(info))
    if not 0 < mm <= 100:
        raise FieldError("no handwheel goes so far in one turn", "more than 0, up to 100 mm")
    return mm


PerTurn = Annotated[
    float,
    BeforeValidator(_per_turn),
    WithJsonSchema(patterns.length(exclusiveMinimum=0)),
]
"""mm of travel in one turn of the handwheel."""


class Dial(Table):
    """One dial."""

    unit: Literal["mm", "in"] | None = Field(
        default=None, description="The unit of the dial's numbers; that of the part when left out."
    )
    division: Division = Field(
        description="What one division of the dial is marked as, in the dial's own unit."
    )
    reads: Literal["travel", "diameter"] = Field(
        default="travel",
        description="Whether the dial tells the travel of its slide or twice as much.",
    )
    per_turn: PerTurn | None = Field(
        default=None,
        description=(
            "How far the slide goes in one turn of its handwheel; need be no whole number of "
            "divisions. With it the moves are told in turns."
        ),
    )
    increases: (
        Literal["left", "right", "towards the column", "towards the operator", "up", "down"] | None
    ) = Field(
        default=None,
        description=(
            "The way the cutter goes against the work when the dial's numbers grow; if the table "
            "moves, the opposite of the table's way."
        ),
    )

    @model_validator(mode="before")
    @classmethod
    def _own_unit(cls, keys: Any) -> Any:
        """A dial whose division is written with its unit is marked in that unit."""
        if not isinstance(keys, dict) or "unit" in keys:
            return keys
        named = unit_named(keys.get("division"))
        return {"unit": named, **keys} if named else keys

    def value_rules(self) -> Iterator[KeyRule]:
        """A turn is at least one division."""
        least = self.division / (2 if self.reads == "diameter" else 1)
        if self.per_turn is not None and self.per_turn < least:
            text = "one turn of the handwheel goes less far than one division of its dial"
            yield KeyRule("per_turn", text, "the travel of one whole turn")


def check_dials(raw: object, unit: Unit) -> Iterator[tuple[str, Checked]]:
    """Check the dial of every axis of `[setup] dials`: pairs of the axis and what was found.

    Args:
        raw: axis -> its keys, as in the file; an axis of no machine is told as a problem.
        unit: of a bare length where the dial itself names none: mm or in.
    """
    if not isinstance(raw, Mapping):
        text = "a table is wanted here: a line [setup.dials.z] with its keys below"
        yield "", Checked(None, (Problem("setup.dials", text, _shown(raw)),))
        return
    for axis, table in raw.items():
        where = f"setup.dials.{str(axis)[:20]}"
        if axis not in WAYS:
            known = Problem(where, "the machine has no such axis", allowed="x, y, z")
            yield "", Checked(None, (known,))
            continue
        found = check_table("setup.dials", where, table, unit)
        yield str(axis), _with_way(str(axis), where, found)


def _with_way(axis: str, where: str, found: Checked) -> Checked:
    way = getattr(found.table, "increases", None)
    if way is None or way in WAYS[axis]:
        return found
    text = f"the {axis} axis does not go this way"
    allowed = " or ".join(f'"{word}"' for word in WAYS[axis])
    return Checked(None, (Problem(f"{where}.increases", text, f'"{way}"', allowed),))


def _shown(raw: Any) -> str:
    from profilegen.part.model_errors import shown

    return shown(raw)
