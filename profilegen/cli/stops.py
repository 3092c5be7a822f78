"""`stops`: the stops of the wheel, as angles or on the hardware of `[dividing]`.

Owns which form is printed: today's CSV for a part without hardware; else a text, CSV, JSON or a
sheet. A plan that is not exact ends with 3 unless `--allow-error` is given.
"""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from profilegen.cli.ending import to_stdout
from profilegen.cli.producing import Choices, can_be_made, produce, stem_of
from profilegen.cli.saying import say_findings
from profilegen.cli.shape import command, file_argument, force_option, look_options
from profilegen.cli.shop import exit_code_of, opened, solved
from profilegen.cli.single import check_ending, deliver
from profilegen.cli.writing import Outgoing
from profilegen.errors import CannotMakeError

if TYPE_CHECKING:
    from profilegen.cutting.dividing.index_plan import IndexPlan
    from profilegen.job import Job
    from profilegen.part.part import Part

SHEETS = (".svg", ".pdf")


@command(
    "profilegen stops take-up-ratchet.toml --teeth 32 --json",
    "profilegen stops warp-beam-ratchet.toml --out warp-beam-stops.csv",
)
@file_argument
@click.option("--out", metavar="FILE", help="A .csv, or a sheet: .svg or .pdf; else printed.")
@click.option("--csv", "as_csv", is_flag=True, help="CSV instead of text.")
@click.option("--json", "as_json", is_flag=True, help="JSON for programs.")
@click.option("--teeth", type=click.IntRange(2, 1000), help="Another count than the part's.")
@click.option("--way", type=int, default=1, help="Take the way of this number in the list.")
@click.option("--allow-error", is_flag=True, help="Take stops that are not exact.")
@force_option
@look_options
@click.pass_context
def stops(
    ctx: click.Context,
    file: str,
    out: str | None,
    as_csv: bool,
    as_json: bool,
    teeth: int | None,
    way: int,
    allow_error: bool,
    force: bool,
    units: str | None,
    decimal: str | None,
) -> int:
    """Print the stops: angles, or with [dividing] what its dial or plate shows at each.

    Every way to the count is listed, simplest first. Stops that are not exact are refused, with
    their error in mm, unless --allow-error is given.
    """
    from profilegen.cutting.dividing.index_plan import index_findings

    sheet = out is not None and Path(out).suffix.lower() in SHEETS
    if as_json + as_csv + sheet > 1:
        raise click.UsageError("--json, --csv and a sheet in --out exclude each other.")
    check_ending(out, Path(out).suffix.lower() if out and sheet else _ending(as_json))
    job = solved(opened(file, units, decimal))
    if job.is_refused and not can_be_made(job, "stops"):
        raise CannotMakeError(*(f for f in job.findings if f.severity == "refused"))
    say_findings(job.findings)
    if job.part.dividing is None and teeth is None and not as_json and not sheet:
        made = produce(job, "stops", Choices(), Path(stem_of(file)), unit_in_name=True)
        deliver(ctx, made, out or "-", force, False)
        return exit_code_of(job)
    plan = _plan(job, teeth, way)
    found = index_findings(plan, allow_error)
    if any(finding.severity == "refused" for finding in found):
        raise CannotMakeError(*found)
    say_findings(found)
    form = "json" if as_json else "csv" if as_csv or (out or "").endswith(".csv") else "text"
    data = _sheet(job.part, plan, str(out)) if sheet else _data(job.part, plan, form)
    if out is None or out == "-":
        to_stdout(data)
    else:
        made = Outgoing(Path(out), data, "tick off", "every stop")
        deliver(ctx, made, out, force, False)
    return exit_code_of(job)


def _ending(as_json: bool) -> str:
    return ".json" if as_json else ".csv"


def _plan(job: Job, teeth: int | None, way: int) -> IndexPlan:
    """The plan of the part's own count with every lap, or of another count in one lap."""
    from profilegen.cutting.dividing.index_plan import index_plan

    wheel, table, frame = job.wheel, job.part.dividing, job.plan.frame
    starts = [stop.start for stop in job.plan.stops if stop.stop == 1]
    if teeth is not None and teeth != wheel.teeth:
        starts = [0.0]
    clockwise = table is not None and table.dial_increases == "clockwise"
    reverse = table is not None and clockwise == (frame.front == "free end")
    return index_plan(table, teeth or wheel.teeth, starts, wheel.radius, way, reverse)


def _data(part: Part, plan: IndexPlan, form: str) -> bytes:
    from profilegen.output.csv_rows import csv_bytes
    from profilegen.output.json_text import json_text
    from profilegen.reports.dividing import plan_dict, plan_rows, plan_text

    if form == "json":
        return json_text(plan_dict(plan)).encode()
    if form == "csv":
        return csv_bytes(plan_rows(plan))
    return plan_text(plan, part.title).encode()


def _sheet(part: Part, plan: IndexPlan, out: str) -> bytes:
    from profilegen.output.pdf import pdf_bytes
    from profilegen.output.svg import svg_bytes
    from profilegen.reports.dividing_sheet import dividing_sheet

    sheet = dividing_sheet(part, plan)
    return pdf_bytes([sheet]) if out.lower().endswith(".pdf") else svg_bytes(sheet)
