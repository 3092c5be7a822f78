"""The words of the sheet's second page, beside its tables: how to find zero, how well all of it
must be set, and where the bore stands to the teeth.

Owns which lines stand under which heading there. The lines themselves are made in `touchoff_rows`,
in `slotting_words`, from the budget and from the relief.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import chain
from math import isfinite
from typing import TYPE_CHECKING, Final

from profilegen.cutting.ground import Ground
from profilegen.cutting.relief import (
    Relief,
    down_the_nose,
    edges_of,
    relief_for,
    standing_tool_cautions,
)
from profilegen.figures import mm, rad
from profilegen.job import Job
from profilegen.topics.slotting_words import bore_sections
from profilegen.topics.topic import Line, Row, Topic, topics
from profilegen.topics.touchoff_rows import (
    before_you_cut,
    how_far_down,
    how_far_over,
    pick_up,
    scratch_and_return,
    where_zero,
)

if TYPE_CHECKING:
    from profilegen.part.base import CutterTable

SOURCES = 16
"""Setting errors named on the sheet, those that move the land most."""

NAMES = {
    "infeed": "infeed",
    "offset": "offset",
    "blank_radius": "radius of the blank",
    "run_out": "run-out of the blank, whole swing",
    "cutter_angle": "angle of the cutter",
    "tilt": "tilt of the cutter",
    "tip": "tip of the cutter",
    "index": "angle of one stop",
}
"""What is set or measured, as the sheet calls it."""


def setting_sections(job: Job) -> tuple[Topic, ...]:
    """The sections of the page, empty ones left out; none without a cut."""
    if not job.plan.cuts:
        return ()
    return topics(
        {
            "Before you cut": chain(before_you_cut(job), _budget(job)),
            "Where zero is, and its check": where_zero(job),
            "How far over": how_far_over(job),
            "How far down": how_far_down(job),
            "First and last": scratch_and_return(job),
            "If the head has slipped": pick_up(job),
            "Relief of the tool": _relief(job),
        }
    )


def slotting_sections(job: Job) -> tuple[Topic, ...]:
    """How a bore that is not round is made right to the teeth; none without a cut."""
    return bore_sections(job) if job.plan.cuts else ()


def _budget(job: Job) -> Iterator[Line]:
    """The accuracy that each setting needs to hold the land, largest mover first."""
    budget = job.budget
    if budget is None:
        return
    yield "How well it must be set: each within plus and minus, to hold the land together:"
    rows = [row for row in budget.rows if not row.is_instead and isfinite(row.needed)]
    for row in rows[:SOURCES]:
        lap = "" if row.lap is None or len(job.plan.cuts) == 1 else f", lap {row.lap}"
        needed = job.run_out_limit if row.source == "run_out" else row.needed
        size = rad if row.is_angle else mm
        yield Row(f"{NAMES[row.setting]}{lap}", size(needed, style="at most"))


def _off_line(cutter: CutterTable, relief: Relief) -> Iterator[Line]:
    """What an edge off the spindle's radius line changes."""
    off, change = cutter.edge_ahead, relief.angle_change
    if off and change is not None:
        where = "ahead of" if off > 0 else "behind"
        yield Row(f"Edge {where} the radius line", mm(abs(off)))
        yield Row("Included angle that it sweeps, wider by", rad(change))


GROUND: Final[dict[Ground, str]] = {
    "round": "Ground evenly round the nose: relief square to the edges, at least",
    "flanks": "Two flat flanks, tip stoned along the ridge: relief square to the flanks, at least",
}
DOWN_THE_NOSE: Final[dict[Ground, str]] = {
    "round": "the same read straight down the nose",
    "flanks": "the same read straight down the ridge",
}
"""The least relief and how it reads from the side, by the way in which it is ground."""


def _least_relief(job: Job, cutter: CutterTable) -> Iterator[Line]:
    """The least relief, and as it reads straight down the tip, for the way of grinding that the
    cutter has, or for both where it does not say."""
    given = "relief_ground" in cutter.model_fields_set
    for ground in (cutter.relief_ground,) if given else GROUND:
        edges = edges_of(job.made, job.plan.cuts, ground)
        sizes = (cutter.edge_thickness, cutter.sweep_diameter, cutter.edge_ahead)
        least = relief_for(edges, None, *sizes).least_relief_angle
        if least is None:
            continue
        told = down_the_nose(edges[0], least)
        yield Row(
            GROUND[ground] if told is not None else "Relief angle, square to the edges, at least",
            rad(least, style="at least"),
        )
        if told is None:
            return
        yield Row(DOWN_THE_NOSE[ground], rad(told, style="at least"))


def _relief(job: Job) -> Iterator[Line]:
    """Least relief and sweep with which the heel clears, and what a spun bit asks for."""
    relief = job.relief
    cutters = [cutter for cutter in job.part.cutters if cutter.name == job.plan.cutter]
    for cutter in cutters:
        yield from _least_relief(job, cutter)
    if relief.least_sweep_diameter is not None:
        yield Row("Sweep of the tip at least", mm(relief.least_sweep_diameter, "Ø {}", "at least"))
    if relief.greatest_thickness is not None:
        most = mm(relief.greatest_thickness, style="at most")
        yield Row("Thickness below the edge at most", most)
    for cutter in cutters:
        yield from _off_line(cutter, relief)
        yield from standing_tool_cautions(cutter)
