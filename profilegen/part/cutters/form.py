"""`[[cutter]] kind = "form"`: the space of a wheel as an edge.

Owns the key `of`: a table in the shape of `[wheel]`, or the name of a part file, which reading
replaces by that file's wheel. Refuses to solve the wheel (`cutting`).
"""

from __future__ import annotations

from collections.abc import Set
from typing import Annotated, ClassVar, Literal

from pydantic import BeforeValidator, Field, WithJsonSchema

from profilegen.part.base import CutterTable, KeyRule, WheelTable, no_tip
from profilegen.part.fields import LONGEST_PATH, FieldError, text_up_to, what

_file = text_up_to(LONGEST_PATH)


def _wheel_or_file(value: object) -> str | WheelTable:
    if isinstance(value, WheelTable):
        return value
    if not isinstance(value, str):
        allowed = 'a table of the keys of [wheel], or the name of a part file: "mate.toml"'
        raise FieldError(f"this is {what(value)} where a wheel is wanted", allowed)
    return _file(value)


WheelOrFile = Annotated[
    str | WheelTable,
    BeforeValidator(_wheel_or_file),
    WithJsonSchema({"type": ["string", "object"], "examples": ["mate.toml"]}),
]
"""A wheel's keys, or the name of a part file."""


class FormCutter(CutterTable):
    """The space of a wheel as an edge: it cuts that wheel's teeth at one pass."""

    inner: ClassVar = {"of": "wheel"}

    kind: Literal["form"] = Field(
        description="The shape of the edge: the space between the teeth of a wheel."
    )
    of: WheelOrFile = Field(
        description="The wheel whose space it has: the keys of a [wheel], or a part file's name."
    )

    @classmethod
    def key_rules(cls, given: Set[str]) -> tuple[KeyRule, ...]:
        """Return the rule that the wheel settles the tip."""
        return no_tip(given, "the wheel of a form cutter settles its tip", "change the wheel in of")
