"""How a size of a tooth is measured, and the limits that its form gives it.

Apart from `limits`, which works limits out: a wheel is solved without its limits.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final

LAND: Final = (-0.05, 0.10)
"""mm, common practice, no published source: deviations of the land when the part gives none."""


@dataclass(frozen=True, slots=True)
class Measured:
    """How a size is measured, and its limits where the part file gives none.

    Attributes:
        label: what it is called in a list of what to measure.
        tool: what it is commonly measured with.
        default: least and greatest deviation, mm or rad, with the words for them; None where the
            general class or what it follows from decides.
        leg: shorter leg of an angle, mm, by which the general class goes.
        between: of an angle, what its limits stand between, rad.
    """

    label: str
    tool: str
    default: tuple[float, float, str] | None = None
    leg: float = 0.0
    between: tuple[float, float] = (0.0, math.pi)
