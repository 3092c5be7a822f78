"""What a careful machinist objects to in a ratchet tooth that can be made.

Owns the cautions and notes on land, hook, neck, root and thickness. The limits are common practice,
no published source, unless one is named beside it.
"""

from __future__ import annotations

import cmath
import math
from typing import TYPE_CHECKING

from profilegen.errors import Finding
from profilegen.geometry.chain import chain
from profilegen.geometry.measure import distance
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


def objections(keys: Ratchet, say: Say, tooth: Tooth) -> tuple[Finding, ...]:
    """All cautions and notes on the tooth, in the order in which the facts are told."""
    found = (
        _thickness(keys, say, tooth),
        _land(keys, say, tooth),
        _hook(keys, say),
        _neck(keys, say, tooth),
        _dip(keys, say, tooth),
        _sharp(keys, say, tooth),
    )
    return tuple(finding for finding in found if finding is not None)


def _thickness(keys: Ratchet, say: Say, tooth: Tooth) -> Finding | None:
    depth = tooth.blank.radius - tooth.deepest()
    low, high = LEAST_THICKNESS * depth, GREATEST_THICKNESS * depth
    if keys.thickness < low:
        message = "the wheel is thin for the depth of its teeth"
        return say.sized("thickness-low", "caution", message, "wheel.thickness", keys.thickness, low)
    if keys.thickness > high:
        message = "the wheel is thick for teeth this small, so that any tilt of the axis shows"
        return say.sized(
            "thickness-high", "note", message, "wheel.thickness", keys.thickness, high, None, "at most"
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
            "hook-negative", "caution", message, "wheel.hook_angle", keys.hook_angle, 0.0, "at least"
        )
    if keys.hook_angle > STEEPEST_HOOK:
        message = "so much undercut weakens the tip and holds the pawl fast"
        return say.turned(
            "hook-steep", "caution", message, "wheel.hook_angle", keys.hook_angle, STEEPEST_HOOK
        )
    return None


def _neck(keys: Ratchet, say: Say, tooth: Tooth) -> Finding | None:
    """The tooth is thinner somewhere below its crest than at it."""
    on_face, on_back = tooth.root_ends()
    back_turn = cmath.exp(-1j * math.tau / keys.teeth)
    face = chain([complex(tooth.blank.radius), on_face])
    back = chain([on_back * back_turn, tooth.blank.back_tip(tooth.land) * back_turn])
    neck = distance(face, back)
    if neck >= SLENDEREST_NECK * tooth.land:
        return None
    message = f"the tooth is only {say.length(neck)} thick below its crest"
    return say.turned(
        "tooth-slender",
        "caution",
        message,
        "wheel.hook_angle",
        keys.hook_angle,
        max(0.0, keys.hook_angle - math.radians(5)),
    )


def _dip(keys: Ratchet, say: Say, tooth: Tooth) -> Finding | None:
    """The back runs past its foot and rises again towards the root: a pawl cannot reach the root."""
    on_back = tooth.root_ends()[1]
    if (on_back * tooth.back.conjugate()).real >= 0:
        return None
    limit = tooth.angle + cmath.phase(on_back * tooth.back.conjugate()) + math.pi / 2
    message = "the back dips towards the axis before it rises, so the root is not the deepest place"
    return say.turned(
        "back-dips", "caution", message, "wheel.space_angle", tooth.angle, min(limit, tooth.angle)
    )


def _sharp(keys: Ratchet, say: Say, tooth: Tooth) -> Finding | None:
    if tooth.bluntness:
        return None
    passing = 0.1 * (tooth.blank.radius - tooth.deepest())
    message = "the root is drawn sharp, which no cutter and no wire leaves"
    return say.sized(
        "root-sharp", "note", message, "wheel.root_radius", 0.0, passing, None, "up to"
    )
