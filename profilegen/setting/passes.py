"""In how many passes a space is cut, each with its infeed from every zero.

Owns the roughing passes of equal chip area, the finishing pass, the marks before and the re-cut
after. Refuses speeds and lengths (`bar`). How many passes and how fine the last one is: common
practice, no published source.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from profilegen.cutting.engagement import Engagement, Leftover, engagement_of, leftover_of
from profilegen.cutting.poses import Cut
from profilegen.cutting.touch import InfeedZero, infeed_from

if TYPE_CHECKING:
    from profilegen.part.part import Part

PassKind = Literal["scratch", "rough", "finish", "recut"]

FINISH = 0.1
"""mm of infeed kept for the finishing pass (0.05 to 0.15), a quarter of the whole if less."""

BITE_SINGLE, BITE_TOOTHED = 1.5, 4.5
"""mm2 of chip section for each roughing pass. Three passes down to 2.75 mm went well with a single
point on a small mill (a shop article), about 1.5 mm2 each at 60 degrees; three times that for a
cutter of many teeth is common practice, no published source."""

MOST_ROUGHING = 12
"""Roughing passes counted out by the depth alone."""


@dataclass(frozen=True, slots=True)
class Pass:
    """One round of stops at one infeed.

    Attributes:
        lap: of the cut, from 1.
        number: from 1 in each lap, 0 for the scratch.
        kind: `scratch` a mark of no depth at every stop (in lap 1 alone: later laps find spaces
            there), `rough`, `finish`, or `recut`: the first two spaces again at the finishing
            setting.
        spaces: how many, from stop 1 on.
        from_contact: infeed from where the cutter first touches the blank at the set offset, mm.
        from_offset: infeed from the offset zero, through the feeler, mm.
        from_top: infeed from the top zero, through the feeler, mm.
        chip_area: cross-section of the metal taken from what the laps before have left, mm2.
    """

    lap: int
    number: int
    kind: PassKind
    spaces: int
    from_contact: float
    from_offset: float
    from_top: float
    chip_area: float

    def from_zero(self, touch: InfeedZero) -> float:
        """Infeed from a zero, through the feeler, mm.

        Args:
            touch: the zero that `[setup] touch` names: `top` the tip on top of the blank, `offset`
                the first touch at the set offset.
        """
        return self.from_top if touch == "top" else self.from_offset


def passes_for(part: Part, teeth: int, cuts: tuple[Cut, ...]) -> tuple[Pass, ...]:
    """Every pass of every lap, in order; infeeds in mm.

    Args:
        part: for the feeler, the cutter's teeth and the roughing passes that are asked for.
        teeth: N; a round of stops has as many.
        cuts: one a lap, in their order: a later one finds the spaces of those before.
    """
    return tuple(one for n in range(len(cuts)) for one in _of_lap(part, teeth, cuts[: n + 1]))


def finishing_allowance(infeed: float) -> float:
    """Infeed kept for the finishing pass, mm.

    Args:
        infeed: whole infeed of the cut from its first touch, mm.
    """
    return min(FINISH, infeed / 4)


def roughing_count(part: Part, cut: Cut, area: float) -> int:
    """How many roughing passes: those that the part asks for, or else by the chip section.

    Args:
        part: for its cutters and `setup.roughing_passes`.
        cut: its cutter is looked up by name; one that does not tell its teeth counts as
            single-point, to be safe.
        area: chip section of all of them together, mm2; each takes `BITE_SINGLE` or `BITE_TOOTHED`.
    """
    edges = next((c.teeth for c in part.cutters if c.name == cut.tool.name), None) or 1
    bite = BITE_SINGLE if edges == 1 else BITE_TOOTHED
    return part.setup.roughing_passes or min(MOST_ROUGHING, max(1, math.ceil(area / bite)))


def _of_lap(part: Part, teeth: int, cuts: tuple[Cut, ...]) -> Iterator[Pass]:
    """The passes of the last of these cuts, those before it done all round."""
    *earlier, cut = cuts
    whole, feeler = cut.infeed_from_offset, part.setup.feeler or 0.0
    engaged: Engagement | Leftover = engagement_of(cut)
    if earlier:
        engaged = leftover_of(cut, tuple(earlier), math.tau / teeth)
    rough = whole - finishing_allowance(whole)
    infeeds = engaged.infeeds(rough, roughing_count(part, cut, engaged.area(whole - rough)))
    steps: list[tuple[PassKind, float]] = [] if earlier else [("scratch", 0.0)]
    steps += [("rough", infeed) for infeed in infeeds]
    steps += [("finish", whole), ("recut", whole)]
    above_top, above_offset = (infeed_from(cut, zero, feeler) - whole for zero in ("top", "offset"))
    before = 0.0
    for number, (kind, infeed) in enumerate(steps, start=1 if earlier else 0):
        area = engaged.area(whole - infeed) if infeed else 0.0
        spaces = min(2, teeth) if kind == "recut" else teeth
        yield Pass(
            cut.lap,
            number,
            kind,
            spaces,
            infeed,
            infeed + above_offset,
            infeed + above_top,
            area - before,
        )
        before = area
