"""`[bore] kind = "keyed"`: a round hole with a keyway."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from profilegen.part.base import BoreTable
from profilegen.part.fields import Length


class KeyedBore(BoreTable):
    """A round hole with a keyway."""

    kind: Literal["keyed"] = Field(description="The shape of the hole: a round hole with a keyway.")
    diameter: Length = Field(description="The diameter of the round part of the hole.")
    key_width: Length = Field(description="The width of the keyway.")
    key_depth: Length = Field(
        description="The depth of the keyway into the hub, from the bore at its middle."
    )
