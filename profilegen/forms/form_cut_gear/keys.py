"""The keys of a form-cut gear's `[wheel]` table."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from profilegen.forms.involute.cutters import FEWEST, cutter_for
from profilegen.forms.involute.keys import GearKeys
from profilegen.part.fields import Teeth


class FormCutGear(GearKeys):
    """A gear as a form cutter of a set makes it."""

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

    @property
    def cutter_teeth(self) -> int:
        """The count whose space the cutter has; of fewer teeth than any range, the fewest sold."""
        if self.made_for is not None:
            return self.made_for
        cutter = cutter_for(self.teeth)
        return FEWEST if cutter is None else cutter.made_for
