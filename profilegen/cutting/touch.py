"""Where a cutter first touches the blank, and the infeed from there to full depth.

Owns the two zeros of infeed: `top` (the tip touches the blank at its top, as the cutter sees it)
and `offset` (whatever touches first at the set offset). Set-up pose, mm.
"""

from __future__ import annotations

from typing import Literal

from profilegen.cutting.poses import Cut
from profilegen.geometry.chain import circle
from profilegen.geometry.contact import first_contact
from profilegen.geometry.moves import Move, moved

InfeedZero = Literal["top", "offset"]


def infeed_from(cut: Cut, zero: InfeedZero, feeler: float) -> float:
    """Infeed from a zero to full depth, mm: what people are told.

    Args:
        cut: its own infeeds are metal to metal.
        zero: `top` the tip on top of the blank, `offset` the first touch at the set offset.
        feeler: thickness laid between at the touch, mm; 0 for metal to metal.
    """
    return cut.infeed_from_top + feeler if zero == "top" else touch_infeed(cut, feeler)


def touch_infeed(cut: Cut, feeler: float) -> float:
    """Infeed from the first touch at the set offset through a feeler to full depth, mm.

    The feeler lies on the blank, so that the touch is on a circle larger by its thickness; on a
    sloping edge more than that thickness is added.

    Args:
        cut: in the set-up pose.
        feeler: its thickness, mm.
    """
    if feeler == 0.0:
        return cut.infeed_from_offset
    posed = moved(cut.tool.silhouette(4 * cut.blank_radius), Move(shift=cut.apex))
    touch = first_contact(posed, circle(0, cut.blank_radius + feeler), -1j)
    return cut.infeed_from_offset if touch is None else -touch.travel


def touch_place(cut: Cut) -> complex:
    """Where the cutter first touches the blank, coming down at the set offset, mm in the set-up
    pose.

    Raises:
        ValueError: it passes beside the blank.
    """
    posed = moved(cut.tool.silhouette(4 * cut.blank_radius), Move(shift=cut.apex))
    touch = first_contact(posed, circle(0, cut.blank_radius), -1j)
    if touch is None:
        raise ValueError("the cutter passes beside the blank")
    return touch.point
