"""Rows for tables that programs and spreadsheets read.

Owns the columns of the stops list. Numbers are plain decimals with a point, degrees and mm.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING

from profilegen.dividing.index_plan import (
    IndexPlan,
    IndexStop,
    arcmin_text,
    degrees_text,
)
from profilegen.topics.drilling import drilled, drilling_rows

if TYPE_CHECKING:
    from profilegen.job import Job

STOP_HEADER = ("stop", "lap", "angle_deg", "forms", "done")
"""`done` is left empty: it is ticked at the machine."""

SET_HEADER = ("set_angle", "error_arcmin", "reading")
"""What dividing hardware adds behind the other columns; `set_angle` in degrees."""


def stop_rows(job: Job) -> tuple[tuple[str, ...], ...]:
    """The header, a row a stop, and for each lap the return to its first stop as a check.

    Angles are in degrees, errors in arc minutes. Of drilled circles a row a hole, its sizes in mm.
    """
    if drilled(job.made):
        return drilling_rows(job.made, job.indexes, job.part.units)
    return index_rows(job.index, {cut.lap: cut.forms for cut in job.plan.cuts})


def index_rows(plan: IndexPlan, forms: Mapping[int, str]) -> tuple[tuple[str, ...], ...]:
    """The same of a plan on dividing hardware, what it is set to (deg) behind the other columns.

    Args:
        plan: the stops; of angles alone there are no further columns.
        forms: lap -> what its cut forms.
    """
    known = plan.way is not None
    rows = [(*STOP_HEADER, *_set_header(plan)) if known else STOP_HEADER]
    for lap, back in zip(plan.laps, plan.returns, strict=True):
        rows += [_set_row(stop, forms.get(back.lap, ""), known) for stop in lap]
        rows.append(_set_row(back, "same as stop 1", known))
    return tuple(rows)


def _set_header(plan: IndexPlan) -> tuple[str, ...]:
    *others, reading = SET_HEADER
    return (*others, f"INEXACT {reading}" if plan.is_listed_inexact else reading)


def _set_row(stop: IndexStop, forms: str, known: bool) -> tuple[str, ...]:
    first = (str(stop.stop), str(stop.lap), degrees_text(stop.wanted), forms, "")
    if not known:
        return first
    return (*first, degrees_text(stop.stands), arcmin_text(stop.error), stop.reading)
