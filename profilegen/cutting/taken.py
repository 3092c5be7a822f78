"""A size that trial cuts show: what it reads at any infeed still to go.

Owns the record and the land, which any cut leaves. Other sizes come from the rooms that know how
they are measured; each rises with the infeed still to go, so one bracketed root serves them all.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from profilegen.cutting.gap import land_left
from profilegen.cutting.poses import Cut
from profilegen.forms.wheel import Wheel


@dataclass(frozen=True, slots=True)
class Taken:
    """One size that is measured after trial cuts.

    Attributes:
        key: for programs and `--take`.
        label: what it is called in a sentence; `plural` of several.
        plural: of the label.
        at: infeed of the last lap still to go, mm (negative past full depth) -> the size, mm; rises
            with it.
        most: infeed still to go from which on it cannot be measured yet, mm.
        how: what to mind when it is measured, as an advice.
        spaces: two spaces that must be cut before it can be measured, or None where three
            neighbours are.
        shows_run_out: whether sizes taken round the wheel show how the blank runs.
    """

    key: str
    label: str
    plural: str
    at: Callable[[float], float]
    most: float
    how: str
    spaces: tuple[int, int] | None = None
    shows_run_out: bool = False

    @property
    def target(self) -> float:
        """At full depth, mm."""
        return self.at(0.0)


def land_taken(wheel: Wheel, cuts: tuple[Cut, ...]) -> Taken:
    """The land between two spaces of trial cuts, a function of the infeed still to go, mm.

    Args:
        wheel: on the blank at hand.
        cuts: one a lap, at least one; those before the last are at depth there.
    """
    return Taken(
        "land",
        "land",
        "lands",
        lambda remaining: land_left(wheel, cuts, remaining),
        cuts[-1].infeed_from_offset,
        "straight across the crest",
        shows_run_out=True,
    )
