"""What moves and passes come to on those dials that the part names."""

from __future__ import annotations

from typing import TYPE_CHECKING

from profilegen.setting.dials import Dialled, dialled
from profilegen.setting.touchoff import DialMove, shop_words

if TYPE_CHECKING:
    from profilegen.part.dials import Dial
    from profilegen.part.part import Part
    from profilegen.setting.passes import Pass
    from profilegen.setting.setting import Setting


def dial_of(part: Part, move: DialMove) -> Dialled | None:
    """What a move comes to on its dial; None without a dial, and for a height gauge.

    Args:
        part: for its dials.
        move: mm of travel, told as the dial is marked: twice that where it reads the diameter.
    """
    dial = part.dials.get(move.axis.lower())
    if dial is None or move.is_setting:
        return None
    return dialled(dial, move.amount, move.direction, move.less)


def infeed_dial(part: Part) -> Dial | None:
    """The dial of the slide that feeds in, when the part names it."""
    return part.dials.get("z" if part.setup.cutter_side == "above" else "y")


def pass_on_dial(part: Part, shop: Setting, one: Pass) -> Dialled | None:
    """The infeed of a pass on its dial, counted from the zero that `[setup] touch` names.

    Args:
        part: for that zero and the dials.
        shop: for the way of the infeed.
        one: its infeeds are mm of travel through the feeler.

    Returns:
        None where the part does not name the infeed's dial.
    """
    dial = infeed_dial(part)
    infeed = one.from_zero(part.setup.touch)
    return dialled(dial, infeed, infeed_direction(shop)) if dial else None


def infeed_direction(shop: Setting) -> str:
    """The way the cutter goes when it is fed in, in the words of a dial's `increases`."""
    return shop_words(shop.plan.frame, -1j)[1]
