"""What the cut of a lap forms, and how it is felt again: one table of words for every page."""

from __future__ import annotations

from typing import Final

from profilegen.cutting.poses import Cut, Forms
from profilegen.forms.wheel import Wheel

_FORMED: Final[dict[Forms, str]] = {
    "both": "both flanks at once",
    "middle": "the middles of the spaces",
    "space": "the spaces",
}
"""What a lap forms; one flank of each space when left out."""

_FELT: Final[dict[Forms, str]] = {
    "both": "both flanks touch the cutter",
    "middle": "both sides of the cut touch the cutter",
    "space": "both sides of the space touch the cutter",
}

_INKED: Final[dict[Forms, str]] = {"middle": "a space that only lap 1 has cut"}
"""The space to feel; any of lap 1 when left out."""


def formed(wheel: Wheel, cut: Cut) -> str:
    """What the lap of a cut forms, such as `the faces`."""
    return _FORMED.get(cut.forms, f"the {wheel.named(cut.forms)}s")


def felt(wheel: Wheel, cut: Cut) -> str:
    """What is seen when the cutter lies in a space that this cut of lap 1 made."""
    return _FELT.get(cut.forms, f"the {wheel.named(cut.forms)} lies along the cutter's edge")


def inked(cut: Cut) -> str:
    """The space in which that is tried."""
    return _INKED.get(cut.forms, "a space of lap 1")
