"""The index plan of a part: its hardware, its laps, the way its dial counts.

Owns the choice of the way, and what is shown of a plan: no reading of one whose stops are off by
more than a land may be. Refuses the arithmetic (`index_plan`) and the words (`index_findings`).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import TYPE_CHECKING

from profilegen.cutting.frame import approach
from profilegen.cutting.land_tolerance import may_lose
from profilegen.dividing.index_plan import IndexPlan, index_plan
from profilegen.dividing.laps import Laps, laps_of
from profilegen.dividing.spread import Lands
from profilegen.dividing.way import Way
from profilegen.dividing.ways import ways_for
from profilegen.dividing.would_do import Wanted
from profilegen.errors import InputError, Problem
from profilegen.findings.cannot_make import CannotMakeError
from profilegen.findings.finding import refused

if TYPE_CHECKING:
    from profilegen.cutting.frame import Frame
    from profilegen.cutting.poses import Cut
    from profilegen.figures import Figures
    from profilegen.findings.finding import Finding
    from profilegen.forms.wheel import Round, Wheel
    from profilegen.part.dividing_tables import DividingTable
    from profilegen.part.part import Part

LISTED = "leave it out, and profilegen stops lists the ways by number"


def plan_of(
    part: Part,
    wheel: Wheel,
    frame: Frame,
    cuts: Sequence[Cut],
    teeth: int | None = None,
    way: int | None = None,
    of: Round | None = None,
) -> IndexPlan:
    """The plan of the wheel's own count with every lap, or of another count in one lap.

    Args:
        part: the part; without `[dividing]` the plan holds angles alone.
        wheel: for the count, and the outside diameter at which errors are told in mm.
        frame: how it stands on the machine.
        cuts: of the wheel's own count, one a lap; none for one lap.
        teeth: another count, 2 to 1000.
        way: the number of the way to take, from 1; None for that of `[dividing]`, which counts in
            the list of the wheel's own count, or the best.
        of: what is divided, one of the wheel's rounds; the first when left out.

    Raises:
        CannotMakeError: the hardware has fewer positions than the count.
        InputError: there is no such way.
    """
    of = of or wheel.rounds[0]
    table, count, radius = part.dividing, teeth or of.count, of.diameter / 2
    own = count == of.count
    laps = _laps(part, wheel, frame, cuts if own else (), count)
    given = table.way if table is not None and own else None
    key, number = ("dividing.way", given) if way is None else ("--way", way)
    if number is not None and len(wheel.rounds) > 1:
        text = "each circle of this wheel has ways of its own, so one number names none"
        raise InputError(Problem(key, text, str(number), hint="take it out"))
    may = may_lose(part, wheel)
    ways = _ways(table, Wanted(count, laps, radius, may), part.figures)
    plan = index_plan(ways, _chosen(ways, number, key), count, laps, radius)
    turn = approach(part, frame)
    part_teeth = None if own else of.count
    return replace(plan, turn=turn, may_lose=may, between=of.one, part_teeth=part_teeth)


def angles_of(part: Part, wheel: Wheel, frame: Frame, cuts: Sequence[Cut], of: Round) -> IndexPlan:
    """The plan of the angles alone, counted the way the hardware of the part counts.

    Args:
        part: for the way its dial increases.
        wheel: for the count, and the outside diameter at which errors are told in mm.
        frame: how it stands on the machine; without hardware it says which way stops count.
        cuts: one a lap; none for one lap.
        of: what is divided, one of the wheel's rounds.
    """
    laps = _laps(part, wheel, frame, cuts, of.count)
    plan = index_plan((), None, of.count, laps, of.diameter / 2)
    return replace(plan, turn=approach(part, frame), between=of.one)


def indexed(
    part: Part, wheel: Wheel, frame: Frame, cuts: Sequence[Cut], of: Round
) -> tuple[IndexPlan, tuple[Finding, ...]]:
    """The plan by the part's own way, or the best, with what is to be said of it; the angles alone
    without hardware, and where the hardware is refused.

    Args:
        part: with its `[dividing]`, if any.
        wheel: for the count, and the outside diameter at which errors are told in mm.
        frame: how it stands on the machine.
        cuts: one a lap; none for one lap.
        of: what is divided, one of the wheel's rounds.

    Raises:
        InputError: there is no way of the number that `dividing.way` gives.
    """
    if part.dividing is None:
        return angles_of(part, wheel, frame, cuts, of), ()
    from profilegen.dividing.index_findings import index_findings

    try:
        plan = plan_of(part, wheel, frame, cuts, of=of)
        found = index_findings(part, plan)
    except CannotMakeError as refusal:
        found = refusal.findings
    return (angles_of(part, wheel, frame, cuts, of) if refused(found) else plan), found


def _laps(part: Part, wheel: Wheel, frame: Frame, cuts: Sequence[Cut], count: int) -> Laps:
    """Every lap of so many stops; one from 0 without cuts."""
    reverse = approach(part, frame) != frame.stops_turn
    starts = [cut.wheel_angle for cut in cuts] or [0.0]
    return laps_of(starts, count, reverse, _lands(wheel, cuts, reverse))


def _lands(wheel: Wheel, cuts: Sequence[Cut], reverse: bool) -> Lands | None:
    """The laps that form the lands. Where the work turns counter-clockwise from stop to stop, each
    space lies clockwise of the one before; a back of a clockwise wheel faces the next space
    counter-clockwise, across the land."""
    laps = {cut.forms: cut.lap for cut in cuts}
    if "face" not in laps or "back" not in laps:
        return None
    step = -1 if (wheel.hand != "counter-clockwise") != reverse else 1
    return Lands(laps["face"], laps["back"], step)


def _ways(table: DividingTable | None, wanted: Wanted, figures: Figures) -> tuple[Way, ...]:
    """Every way to the stops; none without hardware.

    Raises:
        CannotMakeError: the hardware has fewer positions than the count.
    """
    if table is None:
        return ()
    ways = ways_for(table, wanted.teeth, wanted.laps)
    if not ways:
        from profilegen.dividing.index_findings import too_coarse

        raise CannotMakeError(too_coarse(table, wanted), figures=figures)
    return ways


def _chosen(ways: tuple[Way, ...], number: int | None, key: str) -> Way | None:
    """The way of a number, or the best.

    Raises:
        InputError: there is no such way.
    """
    if number is None:
        return ways[0] if ways else None
    if not 1 <= number <= len(ways):
        listed = f"1 to {len(ways)}" if len(ways) > 1 else "1, the only one"
        allowed = listed if ways else "only with [dividing] in the part file"
        raise InputError(Problem(key, "there is no such way", str(number), allowed, hint=LISTED))
    return ways[number - 1]
