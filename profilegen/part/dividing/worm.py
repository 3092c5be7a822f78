"""`[dividing] kind = "worm"`: a worm head with a crank and any set of plates."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from profilegen.part.dividing.base import DividingTable, Plates, Ratio, Wheels


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
