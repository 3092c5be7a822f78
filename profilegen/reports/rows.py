"""Rows for tables that programs and spreadsheets read.

Owns the columns of the stops list. Numbers are plain decimals with a point, degrees and mm.
"""

from __future__ import annotations

from dataclasses import replace

from profilegen.cutting.stops import Stop
from profilegen.job import Job
from profilegen.units import format_number

STOP_HEADER = ("stop", "lap", "angle_deg", "forms", "done")
"""`done` is left empty: it is ticked at the machine."""


def stop_rows(job: Job) -> tuple[tuple[str, ...], ...]:
    """The header, a row a stop, and for each lap the return to its first stop as a check."""
    forms = {cut.lap: cut.forms for cut in job.plan.cuts}
    rows: list[tuple[str, ...]] = [STOP_HEADER]
    for stop in job.plan.stops:
        rows.append(_row(stop, forms.get(stop.lap, "")))
        if stop.stop == job.wheel.teeth:
            rows.append(_row(replace(stop, stop=stop.stop + 1), "same as stop 1"))
    return tuple(rows)


def _row(stop: Stop, forms: str) -> tuple[str, ...]:
    degrees = format_number(stop.degrees % 360.0, 4)
    angle = "0.0000" if degrees == "360.0000" else degrees
    return (str(stop.stop), str(stop.lap), angle, forms, "")
