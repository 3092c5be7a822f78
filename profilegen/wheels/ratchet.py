"""The ratchet wheel: from its keys to a solved `Wheel`.

Owns which two givens fix the third, the facts of a ratchet in the order they are told, and the
refusals of the tooth solver as findings with a value that would pass.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Literal, cast

from profilegen.errors import CannotMakeError, Finding
from profilegen.geometry.moves import MIRROR_X, moved, repeated
from profilegen.geometry.tolerance import SHORTEST_CHORD
from profilegen.geometry.validity import why_invalid
from profilegen.wheels import ratchet_tooth
from profilegen.wheels.features import features_of
from profilegen.wheels.ratchet_care import least_land, objections
from profilegen.wheels.ratchet_tooth import Blank, NoTooth, Tooth
from profilegen.wheels.say import Say
from profilegen.wheels.wheel import Fact, Flank, Quantity, Space, Wheel

if TYPE_CHECKING:
    from profilegen.part.part import Part
    from profilegen.part.wheels.ratchet import Ratchet


def solve(part: Part) -> Wheel:
    """Solve a ratchet wheel.

    Raises:
        CannotMakeError: no tooth has these sizes, or the bore breaks out of the wheel.
    """
    try:
        return _made(part)
    except CannotMakeError as refusal:
        from profilegen.wheels.ratchet_mend import advised

        raise CannotMakeError(*advised(part, refusal.findings, _made)) from refusal


def _made(part: Part) -> Wheel:
    """The wheel of a part; what no key is blamed for yet is refused at `wheel`.

    Raises:
        CannotMakeError: as `solve`.
    """
    keys, say = cast("Ratchet", part.wheel), Say(part)
    try:
        tooth = solve_tooth(keys)
    except NoTooth as refusal:
        raise CannotMakeError(_no_tooth(refusal)) from refusal
    base = repeated(tooth.pitch_chain(), keys.teeth)
    outline = base if keys.rotation == "clockwise" else moved(base, MIRROR_X)
    fault = why_invalid(outline, pitches=keys.teeth)
    if fault is not None:
        text = f"a space cuts into the next one ({fault})"
        raise CannotMakeError(Finding("teeth-overlap", "refused", text, "wheel"))
    root = tooth.deepest()
    features = features_of(part, say, keys.outside_diameter / 2, root)
    return Wheel(
        kind="ratchet",
        teeth=keys.teeth,
        rotation=keys.rotation,
        thickness=keys.thickness,
        radius=keys.outside_diameter / 2,
        root_radius=root,
        outline=outline,
        bore=features.bore,
        holes=features.holes,
        space=_space(keys, tooth),
        facts=_facts(keys, tooth),
        bore_facts=features.facts,
        findings=(*objections(keys, say, tooth, solve_tooth), *features.findings),
    )


def _no_tooth(refusal: NoTooth) -> Finding:
    return Finding(refusal.code, "refused", str(refusal), "wheel", refusal.value, refusal.limit)


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
        _check_land(keys, keys.land)
    if keys.land is not None and keys.space_angle is not None:
        return ratchet_tooth.from_land_and_angle(blank, keys.land, keys.space_angle)
    if keys.land is not None and root is not None:
        return ratchet_tooth.from_land_and_root(blank, keys.land, root)
    if keys.space_angle is not None and root is not None:
        return ratchet_tooth.from_angle_and_root(blank, keys.space_angle, root)
    raise ValueError("two of land, space angle and root are needed")


def keys_for_blank(keys: Ratchet, diameter: float, hold: Literal["land", "root"] | None) -> Ratchet:
    """The keys of the same ratchet on a blank of another diameter (mm).

    Its two givens stay, or its space angle with the land or the root radius that `hold` names.

    Raises:
        NoTooth: the print itself has no tooth.
    """
    if hold is None:
        return keys.model_copy(update={"outside_diameter": diameter})
    tooth = solve_tooth(keys)
    held = {"land": tooth.land} if hold == "land" else {"root_diameter": 2 * tooth.deepest()}
    sizes = {"land": None, "root_diameter": None, "tooth_depth": None, **held}
    space = {"outside_diameter": diameter, "space_angle": tooth.angle}
    return keys.model_copy(update={**sizes, **space})


def root_given(keys: Ratchet) -> float | None:
    """Radius of the deepest material as the print gives it, mm, or None.

    Raises:
        NoTooth: the depth reaches the axis.
    """
    radius = keys.outside_diameter / 2
    if keys.root_diameter is not None:
        return keys.root_diameter / 2
    if keys.tooth_depth is None:
        return None
    if keys.tooth_depth >= radius:
        raise NoTooth("root-below-axis", "the teeth reach the axis", keys.tooth_depth, radius)
    return radius - keys.tooth_depth


def _check_land(keys: Ratchet, land: float) -> None:
    if land < SHORTEST_CHORD:
        text = "teeth without a land come to a knife edge, which burrs and breaks"
        raise NoTooth("land-gone", text, land, least_land(keys.outside_diameter))
    pitch_chord = keys.outside_diameter * math.sin(math.pi / keys.teeth)
    if land >= pitch_chord:
        raise NoTooth("space-gone", "the land takes up the whole pitch", land, pitch_chord)


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


def _facts(keys: Ratchet, tooth: Tooth) -> tuple[Fact, ...]:
    """Everything known of the tooth, in the order in which JSON and tables tell it."""
    given = {key for key in type(keys).model_fields if getattr(keys, key) is not None}
    root = tooth.deepest()

    def fact(key: str, value: float | int | str, label: str, quantity: Quantity = "length") -> Fact:
        return Fact(key, value, quantity, label, "given" if key in given else "solved")

    return (
        fact("kind", "ratchet", "Kind", "text"),
        fact("teeth", keys.teeth, "Teeth", "count"),
        fact("angular_pitch", math.tau / keys.teeth, "Angular pitch", "angle"),
        fact("outside_diameter", keys.outside_diameter, "Outside diameter"),
        fact("root_diameter", 2 * root, "Root diameter, real material"),
        fact("vertex_diameter", 2 * abs(tooth.vertex), "Diameter over sharp root vertices"),
        fact("tooth_depth", tooth.blank.radius - root, "Tooth depth, radial"),
        fact("land", tooth.land, "Land"),
        fact("space_angle", tooth.angle, "Space angle, face to back", "angle"),
        fact("hook_angle", keys.hook_angle, "Hook angle, face to radius", "angle"),
        fact("rotation", keys.rotation, "Rotation, seen from the front", "text"),
        fact("thickness", keys.thickness, "Thickness"),
        fact("root_radius", tooth.blank.root_radius, "Root radius, greatest allowed"),
        fact("root_flat", tooth.blank.root_flat, "Root flat"),
        fact("face_length", tooth.face_length - tooth.bluntness, "Straight length of the face"),
        fact("back_length", tooth.back_length - tooth.bluntness, "Straight length of the back"),
        fact(
            "circular_pitch",
            math.pi * keys.outside_diameter / keys.teeth,
            "Pitch along the outside",
        ),
    )
