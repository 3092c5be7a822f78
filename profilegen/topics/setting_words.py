"""The words of the sheet's second page, beside its tables: how to find zero, how well all of it
must be set, and where the bore stands to the teeth.

Owns which lines stand under which heading there. The lines themselves are made in `touchoff_rows`,
in `slotting_words`, from the budget and from the relief.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
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
from profilegen.figures import Figures
from profilegen.job import Job
from profilegen.topics.sheet_words import Line, Row, Section
from profilegen.topics.slotting_words import bore_sections
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


def setting_sections(job: Job, figures: Figures) -> tuple[Section, ...]:
    """The sections of the page, empty ones left out; none without a cut."""
    if not job.plan.cuts:
        return ()
    said: dict[str, Iterable[Line]] = {
        "Before you cut": chain(_rows(before_you_cut(job, figures)), _budget(job, figures)),
        "Where zero is, and its check": _rows(where_zero(job, figures)),
        "How far over": _rows(how_far_over(job, figures)),
        "How far down": _rows(how_far_down(job, figures)),
        "First and last": _rows(scratch_and_return(job, figures)),
        "If the head has slipped": _rows(pick_up(job, figures)),
        "Relief of the tool": _relief(job, figures),
    }
    sections = (Section(heading, tuple(lines)) for heading, lines in said.items())
    return tuple(section for section in sections if section.lines)


def slotting_sections(job: Job, figures: Figures) -> tuple[Section, ...]:
    """How a bore that is not round is made right to the teeth; none without a cut."""
    if not job.plan.cuts:
        return ()
    said = bore_sections(job, figures)
    return tuple(Section(heading, tuple(_rows(lines))) for heading, lines in said)


def _rows(lines: Iterable[str | tuple[str, str]]) -> Iterator[Line]:
    for line in lines:
        yield line if isinstance(line, str) else Row(*line)


def _budget(job: Job, figures: Figures) -> Iterator[Line]:
    """The accuracy that each setting needs to hold the land, largest mover first."""
    budget = job.budget
    if budget is None:
        return
    yield "How well it must be set: each within plus and minus, to hold the land together:"
    rows = [row for row in budget.rows if not row.is_instead and isfinite(row.needed)]
    for row in rows[:SOURCES]:
        lap = "" if row.lap is None or len(job.plan.cuts) == 1 else f", lap {row.lap}"
        needed = job.run_out_limit if row.source == "run_out" else row.needed
        need = figures.at_most(needed, is_angle=row.is_angle)
        yield Row(f"{NAMES[row.setting]}{lap}", need)


def _off_line(cutter: CutterTable, relief: Relief, figures: Figures) -> Iterator[Line]:
    """What an edge off the spindle's radius line changes."""
    off, change = cutter.edge_ahead, relief.angle_change
    if off and change is not None:
        where = "ahead of" if off > 0 else "behind"
        yield Row(f"Edge {where} the radius line", figures.length(abs(off)))
        yield Row("Included angle that it sweeps, wider by", figures.angle(change))


GROUND: Final[dict[Ground, str]] = {
    "round": "Ground evenly round the nose: relief square to the edges, at least",
    "flanks": "Two flat flanks, tip stoned along the ridge: relief square to the flanks, at least",
}
DOWN_THE_NOSE: Final[dict[Ground, str]] = {
    "round": "the same read straight down the nose",
    "flanks": "the same read straight down the ridge",
}
"""The least relief and how it reads from the side, by the way in which it is ground."""


def _least_relief(job: Job, cutter: CutterTable, figures: Figures) -> Iterator[Line]:
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
            figures.at_least(least, is_angle=True),
        )
        if told is None:
            return
        yield Row(DOWN_THE_NOSE[ground], figures.at_least(told, is_angle=True))


def _relief(job: Job, figures: Figures) -> Iterator[Line]:
    """Least relief and sweep with which the heel clears, and what a spun bit asks for."""
    relief = job.relief
    cutters = [cutter for cutter in job.part.cutters if cutter.name == job.plan.cutter]
    for cutter in cutters:
        yield from _least_relief(job, cutter, figures)
    if relief.least_sweep_diameter is not None:
        least = figures.at_least(relief.least_sweep_diameter)
        yield Row("Sweep of the tip at least", f"Ø {least}")
    if relief.greatest_thickness is not None:
        most = figures.at_most(relief.greatest_thickness)
        yield Row("Thickness below the edge at most", most)
    for cutter in cutters:
        yield from _off_line(cutter, relief, figures)
        yield from standing_tool_cautions(cutter)
