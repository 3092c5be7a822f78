"""What a careful machinist objects to in a ratchet tooth that can be made.

Owns the cautions and notes on land, hook, neck, root and thickness. The limits are common practice,
no published source, unless one is named beside it.
"""

from __future__ import annotations

import cmath
import math
from collections.abc import Callable, Iterable
from typing import TYPE_CHECKING, TypeAlias

from profilegen.errors import Finding
from profilegen.geometry.chain import chain
from profilegen.geometry.measure import distance
from profilegen.geometry.tolerance import SAME_POINT
from profilegen.wheels import ratchet_tooth
from profilegen.wheels.ratchet_tooth import NoTooth, Tooth
from profilegen.wheels.say import Say

if TYPE_CHECKING:
    from profilegen.part.wheels.ratchet import Ratchet

THINNEST_LAND = 0.2
"""mm. A thinner crest burrs, and chips when hardened; 2 % of the diameter under 10 mm."""

STEEPEST_HOOK = math.radians(15)
"""rad. Sources give 1 to 10 degrees; past this the tip is weak and the pawl hard to lift."""

LEAST_THICKNESS = 0.5
"""of the tooth depth: a thinner wheel bends under the cutter and climbs past its pawl."""

GREATEST_THICKNESS = 10.0
"""of the tooth depth: past this a slip of the axis shows as a taper along the tooth."""


SLENDEREST_NECK = 0.75
"""of the land: a tooth much thinner below its crest breaks there."""


def least_land(diameter: float) -> float:
    """The thinnest land that survives on a wheel of this diameter, mm."""
    return THINNEST_LAND if diameter >= 10.0 else 0.02 * diameter


def objections(
    keys: Ratchet, say: Say, tooth: Tooth, again: Callable[[Ratchet], Tooth]
) -> tuple[Finding, ...]:
    """All cautions and notes on the tooth, in the order in which the facts are told.

    `again` solves the tooth of changed keys, or raises `NoTooth`: it finds values that pass.
    """
    found = (
        _thickness(keys, say, tooth),
        _land(keys, say, tooth),
        _hook(keys, say),
        _neck(keys, say, tooth, again),
        _dip(keys, say, tooth, again),
        _sharp(keys, say, tooth),
    )
    return tuple(finding for finding in found if finding is not None)


def _thickness(keys: Ratchet, say: Say, tooth: Tooth) -> Finding | None:
    depth = tooth.blank.radius - tooth.deepest()
    low, high = LEAST_THICKNESS * depth, GREATEST_THICKNESS * depth
    if keys.thickness < low - SAME_POINT:
        message = "the wheel is thin for the depth of its teeth"
        return say.sized(
            "thickness-low", "caution", message, "wheel.thickness", keys.thickness, low
        )
    if keys.thickness > high + SAME_POINT:
        message = "the wheel is thick for teeth this small, so that any tilt of the axis shows"
        return say.sized(
            "thickness-high",
            "note",
            message,
            "wheel.thickness",
            keys.thickness,
            high,
            None,
            "at most",
        )
    return None


def _land(keys: Ratchet, say: Say, tooth: Tooth) -> Finding | None:
    least = least_land(keys.outside_diameter)
    if tooth.land >= least * (1 - 1e-9):
        return None
    message = f"a land of {say.length(tooth.land)} burrs, and chips when hardened"
    key, passing = _land_key(keys, tooth, least)
    than = "at most" if key == "wheel.tooth_depth" else "at least"
    return say.sized("land-thin", "caution", message, key, tooth.land, least, passing, than)


def _land_key(keys: Ratchet, tooth: Tooth, least: float) -> tuple[str, float]:
    """The key that sets the land, and its value that leaves `least` mm."""
    if keys.land is not None:
        return "wheel.land", least
    try:
        root = ratchet_tooth.from_land_and_angle(tooth.blank, least, tooth.angle).deepest()
    except NoTooth:
        root = (tooth.blank.radius + tooth.deepest()) / 2
    if keys.tooth_depth is not None:
        return "wheel.tooth_depth", tooth.blank.radius - root
    return "wheel.root_diameter", 2 * root


def _hook(keys: Ratchet, say: Say) -> Finding | None:
    if keys.hook_angle < 0:
        message = "the face leans forward and throws the pawl out under load"
        return say.turned(
            "hook-negative",
            "caution",
            message,
            "wheel.hook_angle",
            keys.hook_angle,
            0.0,
            "at least",
        )
    if keys.hook_angle > STEEPEST_HOOK:
        message = "so much undercut weakens the tip and holds the pawl fast"
        return say.turned(
            "hook-steep", "caution", message, "wheel.hook_angle", keys.hook_angle, STEEPEST_HOOK
        )
    return None


def _neck(
    keys: Ratchet, say: Say, tooth: Tooth, again: Callable[[Ratchet], Tooth]
) -> Finding | None:
    """The tooth is thinner somewhere below its crest than at it."""
    if not _is_slender(tooth):
        return None
    message = f"the tooth is only {say.length(_thinnest(tooth))} thick below its crest"
    trials = (*_less_hook(keys), *_space_angles(keys, 1), *_less_depth(keys, tooth))
    return _with_passing("tooth-slender", keys, say, message, again, trials, _is_slender)


def _thinnest(tooth: Tooth) -> float:
    """Least distance between the face of a tooth and its back, mm."""
    blank, (on_face, on_back) = tooth.blank, tooth.root_ends()
    back_turn = cmath.exp(-1j * math.tau / blank.teeth)
    face = chain([complex(blank.radius), on_face])
    back = chain([on_back * back_turn, blank.back_tip(tooth.land) * back_turn])
    return distance(face, back)


def _is_slender(tooth: Tooth) -> bool:
    return _thinnest(tooth) < SLENDEREST_NECK * tooth.land


def _dip(
    keys: Ratchet, say: Say, tooth: Tooth, again: Callable[[Ratchet], Tooth]
) -> Finding | None:
    """The back runs past its foot and rises again to the root: a pawl cannot reach the root."""
    if not _is_dipped(tooth):
        return None
    message = "the back dips towards the axis before it rises, so the root is not the deepest place"
    trials = (*_space_angles(keys, -1), *_less_depth(keys, tooth), *_less_hook(keys))
    return _with_passing("back-dips", keys, say, message, again, trials, _is_dipped)


def _is_dipped(tooth: Tooth) -> bool:
    return (tooth.root_ends()[1] * tooth.back.conjugate()).real < 0


Trial: TypeAlias = tuple[str, float]
"""A key and a value to try, mm or rad."""


def _less_hook(keys: Ratchet) -> Iterable[Trial]:
    most = math.ceil(math.degrees(keys.hook_angle) - 1e-9) - 1
    return (("hook_angle", math.radians(angle)) for angle in range(most, -1, -1))


def _space_angles(keys: Ratchet, step: int) -> Iterable[Trial]:
    """Whole degrees up (step 1) or down (step -1) from the angle given; none when none is given."""
    if keys.space_angle is None:
        return ()
    now = math.degrees(keys.space_angle)
    first = math.floor(now) + 1 if step > 0 else math.ceil(now) - 1
    last = 121 if step > 0 else 19
    return (("space_angle", math.radians(angle)) for angle in range(first, last, step))


def _less_depth(keys: Ratchet, tooth: Tooth) -> Iterable[Trial]:
    """Shallower teeth, when the print gives a depth or a root."""
    depth = tooth.blank.radius - tooth.deepest()
    depths = (depth * share / 20 for share in range(19, 0, -1))
    if keys.tooth_depth is not None:
        return (("tooth_depth", less) for less in depths)
    if keys.root_diameter is not None:
        return (("root_diameter", 2 * (tooth.blank.radius - less)) for less in depths)
    return ()


def _with_passing(
    code: str,
    keys: Ratchet,
    say: Say,
    message: str,
    again: Callable[[Ratchet], Tooth],
    trials: Iterable[Trial],
    fault: Callable[[Tooth], bool],
) -> Finding:
    """A caution that names the first trial with which the tooth exists and the fault is gone."""
    for key, trial in trials:
        try:
            mended = not fault(again(keys.model_copy(update={key: trial})))
        except NoTooth:
            continue
        if mended:
            now, where = float(getattr(keys, key)), f"wheel.{key}"
            than = "at most" if trial < now else "at least"
            if key.endswith("angle"):
                return say.turned(code, "caution", message, where, now, trial, than)
            return say.sized(code, "caution", message, where, now, trial, None, than)
    text = f"{message}: change wheel.hook_angle, or the space between the teeth"
    return Finding(code, "caution", text, "wheel.hook_angle", math.degrees(keys.hook_angle))


def _sharp(keys: Ratchet, say: Say, tooth: Tooth) -> Finding | None:
    if tooth.bluntness:
        return None
    noses = [cutter.tip_radius or 0.0 for cutter in say.part.cutters]
    passing = max(0.1 * (tooth.blank.radius - tooth.deepest()), *noses, 0.0)
    message = "the root is drawn sharp, which no cutter and no wire leaves"
    return say.sized(
        "root-sharp", "note", message, "wheel.root_radius", 0.0, passing, None, "up to"
    )
