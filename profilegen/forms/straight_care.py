"""What a careful machinist objects to in any straight-flanked tooth that can be made.

Owns the cautions and notes on land, neck, root and thickness, and the search for a value that
passes. The limits are common practice, no published source, unless one is named beside it.
"""

from __future__ import annotations

import cmath
import math
from collections.abc import Callable, Iterable
from typing import Any, TypeAlias

from profilegen.errors import Finding
from profilegen.forms import straight
from profilegen.forms.say import Say
from profilegen.forms.straight import NoTooth, Tooth
from profilegen.forms.straight_keys import StraightKeys, least_land
from profilegen.geometry.chain import chain
from profilegen.geometry.distance import distance
from profilegen.geometry.tolerance import SAME_POINT

LEAST_THICKNESS = 0.5
"""of the tooth depth: a thinner wheel bends under the cutter and climbs past its pawl."""

GREATEST_THICKNESS = 10.0
"""of the tooth depth: past this a slip of the axis shows as a taper along the tooth."""


SLENDEREST_NECK = 0.75
"""of the land: a tooth much thinner below its crest breaks there."""


Again: TypeAlias = Callable[[Any], Tooth]
"""Solves the tooth of changed keys, or raises `NoTooth`."""

Trial: TypeAlias = tuple[str, float]
"""A key and a value to try, mm or rad."""


def thickness_finding(keys: StraightKeys, say: Say, tooth: Tooth) -> Finding | None:
    """The wheel is thin or thick for the depth of its teeth."""
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


def land_finding(keys: StraightKeys, say: Say, tooth: Tooth) -> Finding | None:
    """The land is thinner than one that survives."""
    least = least_land(keys.outside_diameter)
    if tooth.land >= least * (1 - 1e-9):
        return None
    message = f"a land of {say.length(tooth.land)} burrs, and chips when hardened"
    key, passing = _land_key(keys, tooth, least)
    than = "at most" if key == "wheel.tooth_depth" else "at least"
    return say.sized("land-thin", "caution", message, key, tooth.land, least, passing, than)


def _land_key(keys: StraightKeys, tooth: Tooth, least: float) -> tuple[str, float]:
    """The key that sets the land, and its value that leaves `least` mm."""
    if keys.land is not None:
        return "wheel.land", least
    try:
        root = straight.from_land_and_angle(tooth.blank, least, tooth.angle).deepest()
    except NoTooth:
        root = (tooth.blank.radius + tooth.deepest()) / 2
    if keys.tooth_depth is not None:
        return "wheel.tooth_depth", tooth.blank.radius - root
    return "wheel.root_diameter", 2 * root


def _thinnest(tooth: Tooth) -> float:
    """Least distance between the face of a tooth and its back, mm."""
    blank, (on_face, on_back) = tooth.blank, tooth.root_ends()
    back_turn = cmath.exp(-1j * math.tau / blank.teeth)
    face = chain([complex(blank.radius), on_face])
    back = chain([on_back * back_turn, blank.back_tip(tooth.land) * back_turn])
    return distance(face, back)


def _is_slender(tooth: Tooth) -> bool:
    return _thinnest(tooth) < SLENDEREST_NECK * tooth.land


def neck_finding(
    keys: StraightKeys, say: Say, tooth: Tooth, again: Again, first: Iterable[Trial] = ()
) -> Finding | None:
    """The tooth is thinner somewhere below its crest than at it; `first` is tried first."""
    if not _is_slender(tooth):
        return None
    message = f"the tooth is only {say.length(_thinnest(tooth))} thick below its crest"
    trials = (*first, *space_angles(keys, 1), *less_depth(keys, tooth))
    return with_passing("tooth-slender", keys, say, message, again, trials, _is_slender)


def space_angles(keys: StraightKeys, step: int) -> Iterable[Trial]:
    """Whole degrees up or down from the angle given, as values in rad; none when none is given.

    Args:
        keys: with or without a space angle.
        step: 1 for up to 120 degrees, -1 for down to 20.
    """
    if keys.space_angle is None:
        return ()
    now = math.degrees(keys.space_angle)
    first = math.floor(now) + 1 if step > 0 else math.ceil(now) - 1
    last = 121 if step > 0 else 19
    return (("space_angle", math.radians(angle)) for angle in range(first, last, step))


def less_depth(keys: StraightKeys, tooth: Tooth) -> Iterable[Trial]:
    """Shallower teeth, mm, when the print gives a depth or a root; the least change first.

    Args:
        keys: the depth or the root diameter is tried, whichever they give.
        tooth: solved from them.
    """
    depth = tooth.blank.radius - tooth.deepest()
    depths = (depth * share / 20 for share in range(19, 0, -1))
    if keys.tooth_depth is not None:
        return (("tooth_depth", less) for less in depths)
    if keys.root_diameter is not None:
        return (("root_diameter", 2 * (tooth.blank.radius - less)) for less in depths)
    return ()


def with_passing(
    code: str,
    keys: StraightKeys,
    say: Say,
    message: str,
    again: Again,
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
    hook = getattr(keys, "hook_angle", None)
    if hook is None:
        return Finding(code, "caution", f"{message}: change the space between the teeth", "wheel")
    text = f"{message}: change wheel.hook_angle, or the space between the teeth"
    return Finding(code, "caution", text, "wheel.hook_angle", math.degrees(hook))


def sharp_finding(keys: StraightKeys, say: Say, tooth: Tooth) -> Finding | None:
    """The root is drawn sharp."""
    if tooth.bluntness:
        return None
    noses = [cutter.tip_radius or 0.0 for cutter in say.part.cutters]
    passing = max(0.1 * (tooth.blank.radius - tooth.deepest()), *noses, 0.0)
    message = "the root is drawn sharp, which no cutter and no wire leaves"
    return say.sized(
        "root-sharp", "note", message, "wheel.root_radius", 0.0, passing, None, "up to"
    )
