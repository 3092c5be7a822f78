"""What a move comes to on the dial of its slide: whole divisions and the remainder.

Owns the count and its rounding towards less metal off. Refuses where a move goes (`touchoff`).
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from profilegen.geometry.tolerance import SAME_POINT

if TYPE_CHECKING:
    from profilegen.part.dials import Dial

Less = Literal["short", "over"]
"""Which way a rounded move takes less metal off: it stops short of the exact place, or beyond."""


@dataclass(frozen=True, slots=True)
class Dialled:
    """A move on one dial.

    Attributes:
        divisions: whole divisions to turn from the zero.
        travel: of the slide when they are turned, mm.
        remainder: what is still to go to the exact place, mm of travel; negative when the whole
            divisions stop beyond it.
        shown: by how much the numbers of the dial change, mm as the dial is marked.
        grow: whether the numbers grow, or None when the dial's way is not given.
    """

    divisions: int
    travel: float
    remainder: float
    shown: float
    grow: bool | None


def travel_per_division(dial: Dial) -> float:
    """What the slide goes in one division, mm; half of what a diameter-reading dial is marked."""
    return dial.division / 2 if dial.reads == "diameter" else dial.division


def dialled(dial: Dial, amount: float, direction: str, less: Less = "short") -> Dialled:
    """A move of `amount` mm (0 or more) on a dial, rounded to whole divisions.

    What lies within `SAME_POINT` of a division counts as that division.

    Args:
        dial: how the dial reads.
        amount: of travel, mm.
        direction: the way the cutter goes, in the words of the dial's `increases`.
        less: `short` rounds down, `over` up: whichever takes less metal off.
    """
    step = travel_per_division(dial)
    near = round(amount / step)
    if abs(near * step - amount) <= SAME_POINT:
        whole = near
    else:
        whole = math.floor(amount / step) if less == "short" else math.ceil(amount / step)
    travel = whole * step
    grow = None if dial.increases is None else dial.increases == direction
    return Dialled(whole, travel, amount - travel, whole * dial.division, grow)
