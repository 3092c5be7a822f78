"""The index plan of a part: its hardware, its laps, the way its dial counts.

Owns the sense: with hardware the work turns the way the dial increases, and angles count that way;
without, the way of the set-up frame. Refuses the arithmetic (`index_plan`).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import TYPE_CHECKING

from profilegen.cutting.dividing.index_plan import (
    LAND_TOLERANCE,
    IndexPlan,
    index_findings,
    index_plan,
)
from profilegen.cutting.dividing.spread import Lands
from profilegen.errors import CannotMakeError, Finding

if TYPE_CHECKING:
    from profilegen.cutting.frame import Frame
    from profilegen.cutting.poses import Cut
    from profilegen.part.part import Part
    from profilegen.wheels.wheel import Wheel


def plan_of(
    part: Part,
    wheel: Wheel,
    frame: Frame,
    cuts: Sequence[Cut],
    teeth: int | None = None,
    way: int | None = None,
) -> IndexPlan:
    """The plan of the wheel's own count with every lap, or of another count in one lap.

    Args:
        part: the part; without `[dividing]` the plan holds angles alone.
        wheel: for the count and the outside diameter.
        frame: how it stands on the machine.
        cuts: of the wheel's own count, one a lap; none for one lap.
        teeth: another count, 2 to 1000.
        way: the number of the way to take, from 1; None for that of `[dividing]`, which counts in
            the list of the wheel's own count, or the simplest.

    Raises:
        CannotMakeError: the hardware has fewer positions than the count.
        InputError: there is no such way.
    """
    table = part.dividing
    own = teeth is None or teeth == wheel.teeth
    starts = [cut.wheel_angle for cut in cuts if own] or [0.0]
    turn = frame.stops_turn if table is None else table.dial_increases
    reverse = turn != frame.stops_turn
    lands = _lands(wheel, cuts, reverse) if own else None
    count = teeth or wheel.teeth
    given = table.way if table is not None and own else None
    key = "dividing.way" if way is None else "--way"
    number = given if way is None else way
    plan = index_plan(table, count, starts, wheel.radius, number, reverse, lands, key)
    return replace(plan, turn=turn, part_teeth=None if own else wheel.teeth)


def _lands(wheel: Wheel, cuts: Sequence[Cut], reverse: bool) -> Lands | None:
    """The laps that form the lands. Where the work turns counter-clockwise from stop to stop, each
    space lies clockwise of the one before; a back of a clockwise wheel faces the next space
    counter-clockwise, across the land."""
    laps = {cut.forms: cut.lap for cut in cuts}
    if "face" not in laps or "back" not in laps:
        return None
    step = -1 if (wheel.rotation == "clockwise") != reverse else 1
    return Lands(laps["face"], laps["back"], step)


def indexed(
    part: Part, wheel: Wheel, frame: Frame, cuts: Sequence[Cut]
) -> tuple[IndexPlan | None, tuple[Finding, ...]]:
    """The plan by the part's own way, or the simplest, with what is to be said of it; no plan when
    there is none."""
    try:
        plan = plan_of(part, wheel, frame, cuts)
    except CannotMakeError as refusal:
        return None, refusal.findings
    return plan, findings_of(part, plan, allow_error=True)


def findings_of(part: Part, plan: IndexPlan, allow_error: bool) -> tuple[Finding, ...]:
    """What is to be said of a plan, in the part's unit and against its tolerance."""
    return index_findings(plan, allow_error, may_lose(part), part.units, part.decimal)


def may_lose(part: Part) -> float:
    """What a land may be narrower than its nominal width, mm: of `[tolerance]`, or the usual."""
    given = part.tolerance.land if part.tolerance else None
    if given is None or given.deviations is None or given.deviations[0] >= 0:
        return LAND_TOLERANCE
    return -given.deviations[0]
