"""The ratchet's tooth: from its keys to a solved space and the sizes that are its own.

Owns which two givens fix the third, and how space angle and hook angle are measured.
"""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Final

from profilegen.forms import straight
from profilegen.forms.ratchet.keys import Ratchet
from profilegen.forms.straight import Blank, Tooth
from profilegen.forms.straight_form import SizeOf
from profilegen.forms.straight_keys import check_land, root_given
from profilegen.forms.wheel import Flank, Size, Toothing
from profilegen.part.how_measured import Measured

MEASURED: Final = (
    *("root_diameter", "across_roots", "land", "space_angle", "hook_angle", "levelled_face"),
    *("span", "over_pins"),
)
"""What is measured of the teeth, in the order in which it is told."""

SPACE_ANGLE: Final = Measured("Space angle", "Projector or template")
HOOK_ANGLE: Final = Measured(
    "Hook angle",
    "Projector or template",
    (-math.radians(1.0), math.radians(1.0), "1 deg"),
    between=(-math.pi / 2, math.pi / 2),
)


def solve_tooth(keys: Ratchet) -> Tooth:
    """The tooth that the two givens fix, its face tip at angle 0, mm and rad.

    Args:
        keys: with just two of land, space angle and root.

    Raises:
        NoTooth: there is none.
    """
    blank = Blank(
        radius=keys.outside_diameter / 2,
        teeth=keys.teeth,
        hook=keys.hook_angle,
        root_radius=keys.root_radius or 0.0,
        root_flat=keys.root_flat or 0.0,
    )
    root = root_given(keys)
    if keys.land is not None:
        check_land(keys, keys.land)
    if keys.land is not None and keys.space_angle is not None:
        return straight.from_land_and_angle(blank, keys.land, keys.space_angle)
    if keys.land is not None and root is not None:
        return straight.from_land_and_root(blank, keys.land, root)
    if keys.space_angle is not None and root is not None:
        return straight.from_angle_and_root(blank, keys.space_angle, root)
    raise ValueError("two of land, space angle and root are needed")


def toothing_of(keys: Ratchet, tooth: Tooth) -> Toothing:
    """The teeth as solved, mm in base orientation: the face tip of tooth 1 stands at angle 0.

    Args:
        keys: where they give no root the root is drawn sharp, and a cutter may leave any.
        tooth: solved from them.
    """
    back_tip = tooth.blank.back_tip(tooth.land)
    open_root = keys.root_radius is None and keys.root_flat is None
    return Toothing(
        pitch=tooth.pitch_chain(),
        face=Flank(complex(tooth.blank.radius), tooth.blank.face, tooth.face_length),
        back=Flank(back_tip, tooth.back, tooth.back_length),
        vertex=tooth.vertex,
        root_radius=tooth.blank.root_radius,
        root_flat=tooth.blank.root_flat,
        bluntness=math.inf if open_root else tooth.bluntness,
        exact_root=keys.root_exact,
        teeth=keys.teeth,
        at_zero="face tip",
        hand=keys.rotation,
    )


def sizes_of(keys: Ratchet, tooth: Tooth, size: SizeOf) -> tuple[Size, ...]:
    """The sizes that only a ratchet has, or words in its own way.

    Args:
        keys: of the wheel.
        tooth: solved from them, mm and rad.
        size: makes a `Size`, given or solved by what the keys say.
    """
    space_angle = replace(SPACE_ANGLE, leg=min(tooth.face_length, tooth.back_length))
    hook_angle = replace(HOOK_ANGLE, leg=tooth.face_length)
    return (
        size("space_angle", tooth.angle, "Space angle, face to back", "angle", space_angle),
        size("hook_angle", keys.hook_angle, "Hook angle, face to radius", "angle", hook_angle),
        size("rotation", keys.rotation, "Rotation, seen from the front", "text"),
        size("thickness", keys.thickness, "Thickness"),
        size("root_radius", tooth.blank.root_radius, "Root radius, greatest allowed"),
        size("root_flat", tooth.blank.root_flat, "Root flat"),
        size("face_length", tooth.face_length - tooth.bluntness, "Straight length of the face"),
        size("back_length", tooth.back_length - tooth.bluntness, "Straight length of the back"),
    )
