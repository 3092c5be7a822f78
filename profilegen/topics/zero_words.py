"""What the two zeros of the infeed are called, and what each is: the same words on every page.

The top zero is touched with the tip level with the axis, the offset zero at the set offset. Every
infeed that is printed names one of them and counts through the feeler where the part has one.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, Final

from profilegen.cutting.frame import Frame, Side
from profilegen.cutting.poses import Cut
from profilegen.cutting.touch import InfeedZero, infeed_from
from profilegen.figures import both, mm
from profilegen.topics.topic import Row

if TYPE_CHECKING:
    from profilegen.part.part import Part

ZERO: Final[dict[InfeedZero, str]] = {"top": "top zero", "offset": "offset zero"}
"""The name of each zero."""

IN_SHORT: Final = (
    "Top zero: the tip, before it is offset, touches the blank. "
    "Offset zero: whatever touches the blank first at the set offset."
)
"""Both zeros in a line, where no machine is spoken of."""

_TOP_OF_THE_BLANK: Final[dict[Side, str]] = {
    "above": "on its top",
    "behind": "on its side towards the column, its top as the cutter sees it",
    "in front": "on its side towards the operator, its top as the cutter sees it",
}

_LEVEL: Final[dict[Side, str]] = {
    "above": "tip straight above the axis",
    "behind": "tip level with the axis",
    "in front": "tip level with the axis",
}


def top_zero(frame: Frame) -> str:
    """What the top zero is on this machine."""
    side = frame.cutter_side
    return f"Top zero: {_LEVEL[side]}, just touching the blank {_TOP_OF_THE_BLANK[side]}."


def offset_zero() -> str:
    """What the offset zero is."""
    return "Offset zero: at the set offset, come in until the cutter first touches the blank."


def from_zero(zero: InfeedZero) -> str:
    """What an infeed counts from, such as `from the top zero`."""
    return f"from the {ZERO[zero]}"


def depth_rows(part: Part, cut: Cut) -> Iterator[Row]:
    """How far down a cut goes, mm, each depth with its datum.

    Args:
        part: for the feeler, which is counted in.
        cut: at full depth.
    """
    for zero in ZERO:
        infeed = infeed_from(cut, zero, part.setup.feeler or 0.0)
        yield Row(f"Infeed {from_zero(zero)}", both(infeed))
    yield Row("Tip to axis along the infeed", mm(cut.tip.imag))
    yield Row("Radial depth, blank less root", mm(cut.radial_depth))


def feeler_line(part: Part) -> str:
    """Whether a feeler is counted in, of which thickness in the part's unit, and in what."""
    if not part.setup.feeler:
        return "No feeler: metal to metal."
    return f"A feeler of {part.figures.length(part.setup.feeler)} at every touch is counted in."
