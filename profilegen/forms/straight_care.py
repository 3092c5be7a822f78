"""What a careful machinist objects to in any straight-flanked tooth that can be made.

Owns the cautions and notes on land, neck, root and thickness, and the search for a value that
passes. The limits are common practice, no published source, unless one is named beside it.
"""

from __future__ import annotations

import cmath
import math
from collections.abc import Callable, Iterable
from dataclasses import replace
from typing import TYPE_CHECKING, Any, TypeAlias

from profilegen.findings.finding import Finding, Make, Phrase, Than, bounded, mm, rad
from profilegen.forms import straight
from profilegen.forms.straight import NoTooth, Tooth
from profilegen.forms.straight_keys import StraightKeys, least_land
from profilegen.geometry.chain import chain
from profilegen.geometry.distance import distance
from profilegen.geometry.tolerance import SAME_POINT

if TYPE_CHECKING:
    from profilegen.part.part import Part

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


def thickness_finding(keys: StraightKeys, tooth: Tooth) -> Finding | None:
    """The wheel is thin or thick for the depth of its teeth."""
    depth = tooth.blank.radius - tooth.deepest()
    low, high = LEAST_THICKNESS * depth, GREATEST_THICKNESS * depth
    if keys.thickness < low - SAME_POINT:
        make = Make("wheel.thickness", "at least", mm(low, "at least"))
        return bounded("thickness-low", "caution", make, keys.thickness, low)
    if keys.thickness > high + SAME_POINT:
        make = Make("wheel.thickness", "at most", mm(high, "at most"))
        return bounded("thickness-high", "note", make, keys.thickness, high)
    return None


def land_finding(keys: StraightKeys, tooth: Tooth) -> Finding | None:
    """The land is thinner than one that survives."""
    least = least_land(keys.outside_diameter)
    if tooth.land >= least * (1 - 1e-9):
        return None
    key, passing = _land_key(keys, tooth, least)
    than: Than = "at most" if key == "wheel.tooth_depth" else "at least"
    make = Make(key, than, mm(passing, than))
    return bounded("land-thin", "caution", make, tooth.land, least, {"land": mm(tooth.land)})


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
    keys: StraightKeys, tooth: Tooth, again: Again, first: Iterable[Trial] = ()
) -> Finding | None:
    """The tooth is thinner somewhere below its crest than at it; `first` is tried first."""
    if not _is_slender(tooth):
        return None
    trials = (*first, *space_angles(keys, 1), *less_depth(keys, tooth))
    found = with_passing("tooth-slender", keys, again, trials, _is_slender)
    return replace(found, facts={"thinnest": mm(_thinnest(tooth))})


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
            than: Than = "at most" if trial < now else "at least"
            size = rad(trial, than) if key.endswith("angle") else mm(trial, than)
            return bounded(code, "caution", Make(where, than, size), now, trial)
    hook = getattr(keys, "hook_angle", None)
    if hook is None:
        return Finding(code, "caution", "wheel", advice=Phrase("change-space"))
    where, advice = "wheel.hook_angle", Phrase("change-hook", {"key": "wheel.hook_angle"})
    return Finding(code, "caution", where, math.degrees(hook), advice=advice)


def sharp_finding(part: Part, tooth: Tooth) -> Finding | None:
    """The root is drawn sharp; what is told passes with the cutters that the part itself gives, and
    does not depend on a drawer."""
    if tooth.bluntness:
        return None
    own = () if part.cutters_from else part.cutters
    noses = [cutter.tip_radius or 0.0 for cutter in own]
    passing = max(0.1 * (tooth.blank.radius - tooth.deepest()), *noses, 0.0)
    make = Make("wheel.root_radius", "up to", mm(passing, "up to"))
    return bounded("root-sharp", "note", make, 0.0, passing)
