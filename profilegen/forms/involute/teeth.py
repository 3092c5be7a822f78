"""The teeth that are made of a gear: one pitch of the outline, and what it measures."""

from __future__ import annotations

import math
from dataclasses import dataclass

from profilegen.forms.involute.tooth import Gear, pitch_of
from profilegen.geometry.chain import Chain


@dataclass(frozen=True, slots=True)
class Teeth:
    """Teeth as they are made, by whatever cuts them.

    Attributes:
        gear: that the keys describe, as a rack would generate it.
        pitch: one pitch of the outline, tooth 1 centred on +x, mm.
        error: greatest distance of the outline from the true form, mm.
        root: from the axis to the deepest place of the root, mm.
        form: from the axis to where the flank begins, mm.
        thickness: of a tooth along the pitch circle, mm.
        tip_width: straight across a tip, mm.
    """

    gear: Gear
    pitch: Chain
    error: float
    root: float
    form: float
    thickness: float
    tip_width: float


def generated(gear: Gear, tolerance: float) -> Teeth:
    """The teeth that the rack itself generates, arcs within a tolerance, mm.

    Raises:
        NoGear: there are none.
    """
    pitch, error = pitch_of(gear, tolerance)
    form, width = gear.form_radius(), tip_width(gear)
    return Teeth(gear, pitch, error, gear.root, form, gear.thickness, width)


def tip_width(gear: Gear) -> float:
    """Straight across the tip of a tooth that the rack generates, mm."""
    return 2 * gear.outside * math.sin(gear.half_tooth(gear.outside))
