"""What a careful machinist objects to in a ratchet tooth that can be made.

Owns the cautions on hook and back; those of any straight flanks are shared. The limits are common
practice, no published source, unless one is named beside it.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from typing import TYPE_CHECKING

from profilegen.findings.finding import Finding, Make, bounded, rad
from profilegen.forms.ratchet.keys import Ratchet
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

if TYPE_CHECKING:
    from profilegen.part.part import Part

STEEPEST_HOOK = math.radians(15)
"""rad. Sources give 1 to 10 degrees; past this the tip is weak and the pawl hard to lift."""


def objections(part: Part, keys: Ratchet, tooth: Tooth, again: Again) -> tuple[Finding, ...]:
    """All cautions and notes on the tooth, in the order in which the facts are told.

    `again` solves the tooth of changed keys, or raises `NoTooth`: it finds values that pass.
    """
    found = (
        thickness_finding(keys, tooth),
        land_finding(keys, tooth),
        _hook(keys),
        neck_finding(keys, tooth, again, _less_hook(keys)),
        _dip(keys, tooth, again),
        sharp_finding(part, tooth),
    )
    return tuple(finding for finding in found if finding is not None)


def _hook(keys: Ratchet) -> Finding | None:
    where, hook = "wheel.hook_angle", keys.hook_angle
    if hook < 0:
        make = Make(where, "at least", rad(0.0, "at least"))
        return bounded("hook-negative", "caution", make, hook, 0.0)
    if hook > STEEPEST_HOOK:
        make = Make(where, "at most", rad(STEEPEST_HOOK, "at most"))
        return bounded("hook-steep", "caution", make, hook, STEEPEST_HOOK)
    return None


def _dip(keys: Ratchet, tooth: Tooth, again: Again) -> Finding | None:
    """The back runs past its foot and rises again to the root: a pawl cannot reach the root."""
    if not _is_dipped(tooth):
        return None
    trials = (*space_angles(keys, -1), *less_depth(keys, tooth), *_less_hook(keys))
    return with_passing("back-dips", keys, again, trials, _is_dipped)


def _is_dipped(tooth: Tooth) -> bool:
    return (tooth.root_ends()[1] * tooth.back.conjugate()).real < 0


def _less_hook(keys: Ratchet) -> Iterable[Trial]:
    most = math.ceil(math.degrees(keys.hook_angle) - 1e-9) - 1
    return (("hook_angle", math.radians(angle)) for angle in range(most, -1, -1))
