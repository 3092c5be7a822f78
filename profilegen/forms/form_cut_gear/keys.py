"""The keys of a form-cut gear's `[wheel]` table."""

from __future__ import annotations

from collections.abc import Iterator
from typing import ClassVar, Final, Literal

from pydantic import Field

from profilegen.forms.involute.cutters import FEWEST, cutter_for
from profilegen.forms.involute.keys import GearKeys
from profilegen.part.base import KeyRule
from profilegen.part.fields import Teeth

LEAST_MADE_FOR: Final = 10
"""Teeth. Sets begin at 12; of fewer than 10 the space is so hollow that no cutter has it (common
practice, no published source)."""


class FormCutGear(GearKeys):
    """A gear as a form cutter of a set makes it."""

    bare_numbers: ClassVar = GearKeys.bare_numbers

    kind: Literal["form-cut-gear"] = Field(
        description="The tooth form: as a form cutter of a set of eight really makes it."
    )
    made_for: Teeth | None = Field(
        default=None,
        description=(
            "The number of teeth whose space the cutter has; the lowest of the range that it is "
            "sold for when left out."
        ),
    )

    def value_rules(self) -> Iterator[KeyRule]:
        """Yield what no cutter is made for, beside what no rack can be."""
        yield from super().value_rules()
        if self.made_for is not None and self.made_for < LEAST_MADE_FOR:
            text = "no form cutter has the space of so few teeth"
            hint = "leave made_for out for the cutter of a set of eight"
            yield KeyRule("made_for", text, f"at least {LEAST_MADE_FOR}", hint)

    @property
    def cutter_teeth(self) -> int:
        """The count whose space the cutter has; of fewer teeth than any range, the fewest sold."""
        if self.made_for is not None:
            return self.made_for
        cutter = cutter_for(self.teeth)
        return FEWEST if cutter is None else cutter.made_for
