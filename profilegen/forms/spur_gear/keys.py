"""The keys of a spur gear's `[wheel]` table."""

from __future__ import annotations

from typing import ClassVar, Literal

from pydantic import Field

from profilegen.forms.involute.keys import GearKeys


class SpurGear(GearKeys):
    """A spur gear: module or diametral pitch; the rest has a usual value."""

    bare_numbers: ClassVar = GearKeys.bare_numbers

    kind: Literal["spur-gear"] = Field(description="The tooth form: involute teeth as a rack cuts.")
