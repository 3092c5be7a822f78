"""What a move comes to on the dial of its slide: turns of the handwheel, and the figure to stop at.

Owns the figure, to a tenth of a division, and its rounding towards less metal off. Refuses where a
move goes (`touchoff`). The dial is set to 0 where the move begins.
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

SHARES = 10
"""Parts of a division that are told apart by eye between two lines."""


@dataclass(frozen=True, slots=True)
class Dialled:
    """A move on one dial.

    Attributes:
        turns: whole turns of the handwheel, or None when the part does not say how far one goes.
        reading: the figure that the dial then shows, mm as it is marked; without turns how far the
            numbers have gone.
        other: that figure if the numbers ran the other way, mm; None without turns.
        divisions: from the zero, to a tenth.
        travel: of the slide when the dial stands there, mm.
        remainder: what is still to go to the exact place, mm of travel; negative when the dial's
            figure lies beyond it.
        shown: by how much the numbers of the dial have gone in all, mm as the dial is marked.
        grow: whether the numbers grow, or None when the dial's way is not given.
    """

    turns: int | None
    reading: float
    other: float | None
    divisions: float
    travel: float
    remainder: float
    shown: float
    grow: bool | None


def travel_per_division(dial: Dial) -> float:
    """Travel of the slide in one division, mm; half of what a diameter-reading dial is marked."""
    return dial.division / marked(dial)


def marked(dial: Dial) -> float:
    """What the dial is marked for 1 mm of travel, mm: 2 where it reads the diameter, else 1."""
    return 2.0 if dial.reads == "diameter" else 1.0


def dialled(dial: Dial, amount: float, direction: str, less: Less = "short") -> Dialled:
    """A move of `amount` mm (0 or more) on a dial, to a tenth of a division of the dial's figure.

    What lies within `SAME_POINT` of a tenth counts as that tenth. A turn need be no whole number of
    divisions: the figures are counted from the dial's own 0 in every turn.

    Args:
        dial: how the dial reads.
        amount: of travel, mm.
        direction: the way the cutter goes, in the words of the dial's `increases`.
        less: `short` rounds down, `over` up: whichever takes less metal off.
    """
    grow = None if dial.increases is None else dial.increases == direction
    turn = dial.per_turn
    turns = 0 if turn is None else math.floor((amount + SAME_POINT) / turn)
    rest = max(0.0, amount - turns * (turn or 0.0))
    if turn is not None and grow is False:
        rest = turn - _tenths(dial, turn - rest, "over" if less == "short" else "short")
    else:
        rest = _tenths(dial, rest, less)
    if turn is not None and (rest < 0 or rest >= turn - SAME_POINT):
        turns, rest = (turns, 0.0) if rest < 0 else (turns + 1, 0.0)
    travel = rest + turns * (turn or 0.0)
    back = None if turn is None else (turn - rest if rest > SAME_POINT else 0.0) * marked(dial)
    ahead = rest * marked(dial)
    falls = back is not None and grow is False
    return Dialled(
        turns=None if turn is None else turns,
        reading=back if back is not None and falls else ahead,
        other=ahead if falls else back,
        divisions=round(SHARES * travel / travel_per_division(dial)) / SHARES,
        travel=travel,
        remainder=amount - travel,
        shown=travel * marked(dial),
        grow=grow,
    )


def travel_shown(dial: Dial, figure: float, near: float, direction: str) -> float:
    """How far the slide has gone when the dial shows a figure, mm.

    With `per_turn` the figure stands on the dial once in every turn: of these places the one
    nearest to `near` is taken. A figure of a turn or more counts all turns already.

    Args:
        dial: how the dial reads.
        figure: mm as the dial is marked.
        near: about how far the slide has gone, mm.
        direction: the way the cutter goes, in the words of the dial's `increases`.
    """
    rest, turn = figure / marked(dial), dial.per_turn
    if turn is None or rest >= turn - SAME_POINT:
        return rest
    if dial.increases is not None and dial.increases != direction:
        rest = (turn - rest) % turn
    return rest + max(0, round((near - rest) / turn)) * turn


def _tenths(dial: Dial, amount: float, less: Less) -> float:
    """Travel rounded to a tenth of a division, mm: down for `short`, up for `over`."""
    step = travel_per_division(dial) / SHARES
    near = round(amount / step)
    if abs(near * step - amount) <= SAME_POINT:
        return near * step
    return (math.floor(amount / step) if less == "short" else math.ceil(amount / step)) * step
