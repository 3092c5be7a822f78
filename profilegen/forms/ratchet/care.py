"""What a careful machinist objects to in a ratchet tooth that can be made.

Owns the cautions on hook and back; those of any straight flanks are shared. The limits are common
practice, no published source, unless one is named beside it.
"""

from __future__ import annotations

import math
from collections.abc import Iterable

from profilegen.errors import Finding
from profilegen.forms.ratchet.keys import Ratchet
from profilegen.forms.say import Say
from profilegen.forms.straight import Tooth
from profilegen.forms.straight_care import (
    Again,
    Trial,
    land_finding,
    less_depth,
    neck_finding,
    sharp_finding,
    space_angles,
    thickness_finding,
    with_passing,
)

STEEPEST_HOOK = math.radians(15)
"""rad. Sources give 1 to 10 degrees; past this the tip is weak and the pawl hard to lift."""


def objections(keys: Ratchet, say: Say, tooth: Tooth, again: Again) -> tuple[Finding, ...]:
    """All cautions and notes on the tooth, in the order in which the facts are told.

    `again` solves the tooth of changed keys, or raises `NoTooth`: it finds values that pass.
    """
    found = (
        thickness_finding(keys, say, tooth),
        land_finding(keys, say, tooth),
        _hook(keys, say),
        neck_finding(keys, say, tooth, again, _less_hook(keys)),
        _dip(keys, say, tooth, again),
        sharp_finding(keys, say, tooth),
    )
    return tuple(finding for finding in found if finding is not None)


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


def _dip(keys: Ratchet, say: Say, tooth: Tooth, again: Again) -> Finding | None:
    """The back runs past its foot and rises again to the root: a pawl cannot reach the root."""
    if not _is_dipped(tooth):
        return None
    message = "the back dips towards the axis before it rises, so the root is not the deepest place"
    trials = (*space_angles(keys, -1), *less_depth(keys, tooth), *_less_hook(keys))
    return with_passing("back-dips", keys, say, message, again, trials, _is_dipped)


def _is_dipped(tooth: Tooth) -> bool:
    return (tooth.root_ends()[1] * tooth.back.conjugate()).real < 0


def _less_hook(keys: Ratchet) -> Iterable[Trial]:
    most = math.ceil(math.degrees(keys.hook_angle) - 1e-9) - 1
    return (("hook_angle", math.radians(angle)) for angle in range(most, -1, -1))
