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
from profilegen.cutting.frame import Frame
from profilegen.cutting.stops import Stop
from profilegen.errors import CannotMakeError, Finding
from profilegen.wheels.wheel import Wheel

if TYPE_CHECKING:
    from profilegen.part.part import Part


def plan_of(
    part: Part,
    wheel: Wheel,
    frame: Frame,
    stops: Sequence[Stop],
    teeth: int | None = None,
    way: int = 1,
) -> IndexPlan:
    """The plan of the wheel's own count with every lap, or of another count in one lap.

    Args:
        part: the part; without `[dividing]` the plan holds angles alone.
        wheel: for the count and the outside diameter.
        frame: how it stands on the machine.
        stops: of the wheel's own count, from which the starts of the laps are taken.
        teeth: another count, 2 to 1000.
        way: the number of the way to take, from 1.

    Raises:
        CannotMakeError: the hardware has fewer positions than the count.
        InputError: there is no such way.
    """
    table = part.dividing
    own = teeth is None or teeth == wheel.teeth
    starts = [stop.start for stop in stops if stop.stop == 1] if own else [0.0]
    turn = frame.stops_turn if table is None else table.dial_increases
    reverse = turn != frame.stops_turn
    plan = index_plan(table, teeth or wheel.teeth, starts, wheel.radius, way, reverse)
    return replace(plan, turn=turn)


def indexed(
    part: Part, wheel: Wheel, frame: Frame, stops: Sequence[Stop]
) -> tuple[IndexPlan | None, tuple[Finding, ...]]:
    """The plan by the first way with what is to be said of it; no plan when there is none."""
    try:
        plan = plan_of(part, wheel, frame, stops)
    except CannotMakeError as refusal:
        return None, refusal.findings
    return plan, index_findings(plan, allow_error=True, may_lose=may_lose(part))


def may_lose(part: Part) -> float:
    """What a land may be narrower than its nominal width, mm: of `[tolerance]`, or the usual."""
    given = part.tolerance.land if part.tolerance else None
    if given is None or given.deviations is None or given.deviations[0] >= 0:
        return LAND_TOLERANCE
    return -given.deviations[0]
