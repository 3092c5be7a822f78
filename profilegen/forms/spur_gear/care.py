"""What a careful machinist objects to in a spur gear, and in sizes that make none.

Every objection names the key to change and a value that passes. Limits are common practice, no
published source, unless one is named beside them.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace
from typing import TYPE_CHECKING

from profilegen.findings.finding import (
    Fact,
    Finding,
    Make,
    Phrase,
    Remedy,
    Severity,
    bare,
    bounded,
    mm,
)
from profilegen.forms.involute.care import THINNEST_TIP, of_cutter, thin_tip
from profilegen.forms.involute.keys import MOST_SHIFT
from profilegen.forms.involute.teeth import tip_width
from profilegen.forms.involute.tooth import Gear, NoGear
from profilegen.geometry.tolerance import SAME_POINT

if TYPE_CHECKING:
    from profilegen.forms.spur_gear.keys import SpurGear

SLIGHT = 0.02
"""Modules of shift by which a gear may fall short before undercut is more than a note."""

LEAST_TRUE = 0.1
"""of the module: how far in from the pitch circle the flanks of a gear offered are true."""


def shift_without_undercut(gear: Gear, keys: SpurGear) -> float:
    """The least profile shift, in modules and not mm, with which the root meets the involute in a
    tangent: as `profile_shift` takes it, before thinning sets the rack deeper."""
    sine = math.sin(gear.pressure_angle)
    depth = (gear.pitch * sine - gear.tip_round) * sine
    shift = (gear.rack.dedendum - gear.rack.tip_radius) * gear.module - depth
    return (shift + keys.deeper) / gear.module


def teeth_without_undercut(gear: Gear) -> int:
    """The least count of teeth with which they meet so at the shift as it is."""
    sine = math.sin(gear.pressure_angle)
    return math.ceil(2 * (gear.depth / sine + gear.tip_round) / (gear.module * sine) - 1e-9)


def cautions_of(keys: SpurGear, gear: Gear) -> Iterator[Finding]:
    """Everything to be said of a gear that can be made."""
    yield from _undercut(keys, gear)
    yield from _interference(keys, gear)
    lowest = max(gear.form_radius(), gear.pitch)
    yield from thin_tip(gear, lowest, lambda outside: tip_width(replace(gear, outside=outside)))
    yield from of_cutter(gear.teeth)


def _undercut(keys: SpurGear, gear: Gear) -> Iterator[Finding]:
    if gear.margin >= -1e-6 * gear.module:
        return
    shift, least = keys.profile_shift, shift_without_undercut(gear, keys)
    facts: dict[str, Fact] = {"teeth": gear.teeth, "true_from": mm(2 * gear.form_radius())}
    severity: Severity = "note" if least - shift <= SLIGHT else "caution"
    if _stands(keys, gear, least):
        make = Make("wheel.profile_shift", "at least", bare(least, "at least"))
        yield bounded("gear-undercut", severity, make, shift, least, facts)
        return
    count = teeth_without_undercut(gear)
    make = Make("wheel.teeth", "at least", count)
    yield bounded("gear-undercut", severity, make, gear.teeth, count, facts)


def _stands(keys: SpurGear, gear: Gear, shift: float) -> bool:
    """Whether the gear with another shift has whole teeth; its outside grows unless it is given."""
    more = (shift - keys.profile_shift) * gear.module
    outside = gear.outside if keys.outside_diameter is not None else gear.outside + more
    other = replace(gear, shift=gear.shift + more, outside=outside)
    try:
        other.check()
    except NoGear:
        return False
    return tip_width(other) >= THINNEST_TIP * gear.module and shift <= MOST_SHIFT


def _interference(keys: SpurGear, gear: Gear) -> Iterator[Finding]:
    """The root stands in the way of a rack's tips, or the tips reach the floor of a rack."""
    sine = math.sin(gear.pressure_angle)
    reach = (gear.rack.addendum * gear.module - (gear.shift + keys.deeper)) / sine
    wanted = math.hypot(gear.base, max(gear.pitch * sine - reach, 0.0))
    form = gear.form_radius()
    if gear.margin >= 0 and form > wanted + 1e-3 * gear.module:
        make = Make("wheel.rack", "", '"full depth"')
        yield Finding(
            "gear-interference",
            "caution",
            "wheel.rack",
            2 * form,
            2 * wanted,
            Remedy("wheel.rack", "full depth"),
            {"form": mm(2 * form), "tips": mm(2 * wanted)},
            advice=Phrase("or-less-round", {"make": make}),
        )
    floor = gear.pitch + gear.rack.dedendum * gear.module + gear.shift + keys.deeper
    if gear.outside > floor + SAME_POINT:
        make = Make("wheel.outside_diameter", "at most", mm(keys.plain_outside, "at most"))
        yield bounded("gear-bottoms", "caution", make, 2 * gear.outside, 2 * floor)


def is_workable(gear: Gear) -> bool:
    """Whether a gear that can be made is fit to be offered: its flanks true on both sides of the
    pitch circle, its tips not thin."""
    depth = gear.pitch - gear.form_radius()
    return depth > LEAST_TRUE * gear.module and tip_width(gear) >= THINNEST_TIP * gear.module
