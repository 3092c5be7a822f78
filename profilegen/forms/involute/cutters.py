"""The form cutters of a set of eight: which serves a count of teeth, and what it is made for.

Ranges of tooth counts as the trade sells them; by diametral pitch number 1 cuts the largest counts,
by module number 1 the smallest (both remembered; catalogues of cutters). Each is made for the
lowest count of its range (handbook tables of form cutters), so that the others mesh.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

CUTTERS: Final = ((135, 0), (55, 134), (35, 54), (26, 34), (21, 25), (17, 20), (14, 16), (12, 13))
"""Tooth counts of each cutter of a set of eight, first to last; 0 is a rack."""

FEWEST: Final = CUTTERS[-1][0]
"""The least count of teeth for which there is a cutter."""


@dataclass(frozen=True, slots=True)
class Cutter:
    """The cutter of a set of eight for one count of teeth.

    Attributes:
        dp_number: where numbers fall with the count, as on diametral-pitch cutters.
        module_number: where they rise, as on module cutters.
        made_for: the lowest count that it cuts, whose space it has.
        range: counts that it cuts, in words.
    """

    dp_number: int
    module_number: int
    made_for: int
    range: str


def cutter_for(teeth: int) -> Cutter | None:
    """The form cutter for a count; None under 12 teeth, for which no set has one."""
    for number, (low, high) in enumerate(CUTTERS, start=1):
        if teeth >= low:
            words = f"{low} to {high}" if high else f"{low} to a rack"
            return Cutter(number, 9 - number, low, words)
    return None
