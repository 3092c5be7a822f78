"""`[bore] kind = "none"`: no hole in the middle."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from profilegen.part.base import BoreTable


class NoBore(BoreTable):
    """No hole in the middle."""

    kind: Literal["none"] = Field(
        default="none", description="The shape of the hole: no hole in the middle."
    )
