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
    keys, say = cast("Ratchet", part.wheel), Say(part)
    try:
        tooth = solve_tooth(keys)
    except NoTooth as refusal:
        raise CannotMakeError(_refusal(keys, say, refusal)) from refusal
    base = repeated(tooth.pitch_chain(), keys.teeth)
    outline = base if keys.rotation == "clockwise" else moved(base, MIRROR_X)
    fault = why_invalid(outline, pitches=keys.teeth)
    if fault is not None:
        raise CannotMakeError(_overlap(keys, say, tooth, fault))
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


_KEYS = {
    "land-gone": ("land", "root_diameter", "tooth_depth", "space_angle"),
    "space-gone": ("land",),
    "flanks-miss": ("space_angle",),
    "root-below-axis": ("tooth_depth", "root_diameter", "space_angle"),
    "root-below-face": ("root_diameter", "tooth_depth"),
    "root-outside-blank": ("root_diameter", "tooth_depth"),
    "root-unreachable": ("root_diameter", "tooth_depth"),
    "root-too-big": ("root_radius", "root_flat"),
}


def _refusal(keys: Ratchet, say: Say, refusal: NoTooth) -> Finding:
    """The finding of a tooth that does not exist, with a value that would pass where one is
    known."""
    wanted = _KEYS[refusal.code]
    key = next((k for k in wanted if getattr(keys, k) is not None), wanted[0])
    where = f"wheel.{key}"
    advice = _advice(keys, say, refusal, key)
    return Finding(
        refusal.code, "refused", f"{refusal}: {advice}", where, refusal.value, refusal.limit
    )


def _advice(keys: Ratchet, say: Say, refusal: NoTooth, key: str) -> str:
    """What to change, as words that name the key and a value that would pass."""
    root = _root_with_land(keys) if refusal.code == "land-gone" else None
    if root is not None:
        radius, land = keys.outside_diameter / 2, say.length(least_land(keys.outside_diameter))
        if key == "tooth_depth":
            passes = f"at most {say.bound(radius - root, 'at most')}"
        else:
            passes = f"at least {say.bound(2 * root, 'at least')}"
        return f"make wheel.{key} {passes}, which leaves a land of {land}"
    passing = _passing(keys, refusal, key)
    if passing is None:
        return f"change wheel.{key}"
    write = say.angle if key == "space_angle" else say.length
    return f"make wheel.{key} {write(passing)} instead"


def _root_with_land(keys: Ratchet) -> float | None:
    """The deepest root (radius, mm) with which these flanks leave the least land that survives."""
    sizes = {"land": least_land(keys.outside_diameter), "root_diameter": None, "tooth_depth": None}
    try:
        return solve_tooth(keys.model_copy(update=sizes)).deepest()
    except NoTooth:
        return None


def _passing(keys: Ratchet, refusal: NoTooth, key: str) -> float | None:
    """A value of `key` with which the tooth exists, found by trying; None when no trial passes."""
    radius, now = keys.outside_diameter / 2, getattr(keys, key)
    land = 0.02 * keys.outside_diameter
    trials: list[float] = []
    if key in ("root_radius", "root_flat") and refusal.limit is not None:
        trials = [0.9 * refusal.limit]
    elif key == "land":
        trials = [min(0.1 * (refusal.limit or radius), land)]
    elif key in ("root_diameter", "tooth_depth"):
        depths = [radius * share for share in (0.02, 0.05, 0.1, 0.15, 0.2, 0.3, 0.4)]
        depths.sort(key=lambda depth: abs(depth - (radius - (root_or(keys, radius)))))
        trials = [2 * (radius - d) if key == "root_diameter" else d for d in depths]
    elif key == "space_angle":
        trials = sorted((math.radians(a) for a in range(30, 121, 5)), key=lambda a: abs(a - now))
    for trial in trials:
        try:
            solve_tooth(keys.model_copy(update={key: trial}))
        except NoTooth:
            continue
        return trial
    return None


def root_or(keys: Ratchet, otherwise: float) -> float:
    """Radius of the given root, or `otherwise` when it is not given or reaches the axis (mm)."""
    try:
        return root_given(keys) or otherwise
    except NoTooth:
        return 0.0


def _overlap(keys: Ratchet, say: Say, tooth: Tooth, fault: str) -> Finding:
    """The outline crosses itself: the space cuts into its neighbour."""
    key = "hook_angle" if keys.hook_angle > 0 else "teeth"
    return Finding(
        "teeth-overlap",
        "refused",
        f"a space cuts into the next one ({fault}): make wheel.{key} smaller, "
        f"or the teeth shallower than {say.length(tooth.blank.radius - tooth.deepest())}",
        f"wheel.{key}",
    )


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
