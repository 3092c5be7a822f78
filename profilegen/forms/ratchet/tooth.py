"""The ratchet wheel: from its keys to a solved `Wheel`.

Owns which two givens fix the third, the facts of a ratchet in the order they are told, and the
refusals of the tooth solver as findings with a value that would pass.
"""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Final

from profilegen.figures import Quantity
from profilegen.forms import straight
from profilegen.forms.ratchet.keys import Ratchet
from profilegen.forms.straight import Blank, Tooth
from profilegen.forms.straight_keys import check_land, given, root_given
from profilegen.forms.wheel import Flank, Size, Space, Wheel
from profilegen.geometry.moves import MIRROR_X, moved, repeated
from profilegen.part.limits import Measured

MEASURED: Final = (
    *("root_diameter", "across_roots", "land", "space_angle", "hook_angle", "levelled_face"),
    *("span", "over_pins"),
)
"""What is measured of the teeth, in the order in which it is told."""

LAND: Final = Measured(
    "Land, straight across", "Loupe with scale, or projector", (-0.05, 0.10, "+0.10 -0.05 mm")
)
SPACE_ANGLE: Final = Measured("Space angle", "Projector or template")
HOOK_ANGLE: Final = Measured(
    "Hook angle",
    "Projector or template",
    (-math.radians(1.0), math.radians(1.0), "1 deg"),
    between=(-math.pi / 2, math.pi / 2),
)


def toothed(keys: Ratchet, tooth: Tooth | None = None) -> Wheel:
    """The wheel of these keys without bore and holes, nothing objected to.

    Raises:
        NoTooth: there is none.
    """
    tooth = tooth or solve_tooth(keys)
    base = repeated(tooth.pitch_chain(), keys.teeth)
    return Wheel(
        kind="ratchet",
        teeth=keys.teeth,
        hand=keys.rotation,
        thickness=keys.thickness,
        radius=keys.outside_diameter / 2,
        root_radius=tooth.deepest(),
        outline=base if keys.rotation == "clockwise" else moved(base, MIRROR_X),
        bore=None,
        holes=(),
        space=_space(keys, tooth),
        sizes=_sizes(keys, tooth),
        bore_sizes=(),
        measured=MEASURED,
        driving="land",
        keys=keys,
    )


def solve_tooth(keys: Ratchet) -> Tooth:
    """The tooth that the two givens fix.

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


def _space(keys: Ratchet, tooth: Tooth) -> Space:
    back_tip = tooth.blank.back_tip(tooth.land)
    open_root = keys.root_radius is None and keys.root_flat is None
    return Space(
        pitch=tooth.pitch_chain(),
        face=Flank(complex(tooth.blank.radius), tooth.blank.face, tooth.face_length),
        back=Flank(back_tip, tooth.back, tooth.back_length),
        vertex=tooth.vertex,
        root_radius=tooth.blank.root_radius,
        root_flat=tooth.blank.root_flat,
        bluntness=math.inf if open_root else tooth.bluntness,
        exact_root=keys.root_exact,
    )


def _sizes(keys: Ratchet, tooth: Tooth) -> tuple[Size, ...]:
    """Everything known of the tooth, in the order in which JSON and tables tell it."""
    named = given(keys)
    root = tooth.deepest()

    def size(
        key: str,
        value: float | int | str,
        label: str,
        quantity: Quantity = "length",
        measured: Measured | None = None,
    ) -> Size:
        return Size(key, value, quantity, label, "given" if key in named else "solved", measured)

    shorter = min(tooth.face_length, tooth.back_length)
    pitch = math.pi * keys.outside_diameter / keys.teeth
    return (
        size("kind", "ratchet", "Kind", "text"),
        size("teeth", keys.teeth, "Teeth", "count"),
        size("angular_pitch", math.tau / keys.teeth, "Angular pitch", "angle"),
        size("outside_diameter", keys.outside_diameter, "Outside diameter"),
        size(
            "root_diameter", 2 * root, "Root diameter, real material", "length", _root(keys.teeth)
        ),
        size("vertex_diameter", 2 * abs(tooth.vertex), "Diameter over sharp root vertices"),
        size("tooth_depth", tooth.blank.radius - root, "Tooth depth, radial"),
        size("land", tooth.land, "Land", "length", LAND),
        size(
            "space_angle",
            tooth.angle,
            "Space angle, face to back",
            "angle",
            replace(SPACE_ANGLE, leg=shorter),
        ),
        size(
            "hook_angle",
            keys.hook_angle,
            "Hook angle, face to radius",
            "angle",
            replace(HOOK_ANGLE, leg=tooth.face_length),
        ),
        size("rotation", keys.rotation, "Rotation, seen from the front", "text"),
        size("thickness", keys.thickness, "Thickness"),
        size("root_radius", tooth.blank.root_radius, "Root radius, greatest allowed"),
        size("root_flat", tooth.blank.root_flat, "Root flat"),
        size("face_length", tooth.face_length - tooth.bluntness, "Straight length of the face"),
        size("back_length", tooth.back_length - tooth.bluntness, "Straight length of the back"),
        size("circular_pitch", pitch, "Pitch along the outside"),
    )


def _root(teeth: int) -> Measured:
    """Over an odd count nothing measures the root across: what a point micrometer reads in its
    place is told beside it."""
    is_even = teeth % 2 == 0
    tool = "Point micrometer or projector" if is_even else "By the next size, or projector"
    return Measured("Root diameter", tool)
