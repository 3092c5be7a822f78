"""`stops`: the stops of the wheel, as angles or on the hardware of `[dividing]`.

Owns which form is printed: the angles as CSV for a part without hardware; else a text, CSV, JSON
or a sheet. Stops whose spacing is off by more than a land may be end with 3 unless `--allow-error`
is given, which lists them as inexact.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, TypeAlias

import click

from profilegen.cli.ending import to_stdout
from profilegen.cli.opening import opened, say_part
from profilegen.cli.options import (
    command,
    file_argument,
    file_names,
    force_option,
    look_options,
    paper_option,
)
from profilegen.cli.producing import picture
from profilegen.cli.saying import say_findings
from profilegen.findings.cannot_make import CannotMakeError

if TYPE_CHECKING:
    from profilegen.cutting.frame import Frame
    from profilegen.cutting.poses import Cut
    from profilegen.dividing.index_plan import IndexPlan
    from profilegen.findings.finding import Finding
    from profilegen.forms.wheel import Round, Wheel
    from profilegen.part.part import Part

SHEETS = (".svg", ".pdf")

Plans: TypeAlias = "tuple[IndexPlan, ...]"
"""Of each of a wheel's rounds."""


@command(
    "profilegen stops take-up-ratchet.toml --teeth 32 --json",
    "profilegen stops warp-beam-ratchet.toml --out warp-beam-stops.csv",
)
@file_argument
@click.option(
    "--out",
    metavar="FILE",
    shell_complete=file_names,
    help="A .csv, a sheet (.pdf, or .svg for its first page) or with --json a .json; printed when "
    "left out.",
)
@click.option("--csv", "as_csv", is_flag=True, help="CSV instead of text.")
@click.option("--json", "as_json", is_flag=True, help="JSON for programs.")
@click.option("--teeth", type=click.IntRange(2, 1000), help="Another count than the part's.")
@click.option(
    "--way",
    type=int,
    metavar="N",
    help="Take the way of this number in the list; the first when left out.",
)
@click.option("--allow-error", is_flag=True, help="List stops that are not exact enough, INEXACT.")
@force_option
@look_options
@paper_option
@click.pass_context
def stops(
    ctx: click.Context,
    file: str,
    out: str | None,
    as_csv: bool,
    as_json: bool,
    teeth: int | None,
    way: int | None,
    allow_error: bool,
    force: bool,
    units: str | None,
    decimal: str | None,
    paper: str | None,
) -> int:
    """Print the stops: angles, or with [dividing] what its dial or plate shows at each.

    Without [dividing] they are CSV. With it the ways to the count are listed, exact ones first, of
    these the simplest; --json holds all of a long list. Stops that are off by more than a land may
    be are refused, unless --allow-error asks for them.
    """
    from profilegen.findings.finding import refused

    ending = _ending(out, as_json, as_csv)
    part = opened(file, units, decimal)
    say_part(part)
    own = teeth in (None, getattr(part.wheel, "teeth", None))
    part, wheel, frame, cuts, others = _asked(part, own)
    rounds = wheel.rounds if own else wheel.rounds[:1]
    plans = tuple(
        replace(one, allowed=allow_error)
        for one in _planned(part, wheel, frame, cuts, teeth, way, rounds)
    )
    found = _said_of(part, plans)
    if refused(found):
        say_findings(others, part.figures)
        raise CannotMakeError(*found, figures=part.figures)
    say_findings((*others, *found), part.figures)
    bare = part.dividing is None and teeth is None
    form = "json" if as_json else "csv" if as_csv or bare or ending == ".csv" else "text"
    data = (
        _sheet(part, plans, ending, paper)
        if ending in SHEETS
        else _data(part, wheel if own else None, cuts, plans, form)
    )
    _deliver(ctx, data, out, force)
    return 3 if refused(others) else 0


def _ending(out: str | None, as_json: bool, as_csv: bool) -> str:
    """The ending of the file that is asked for, in small letters, or nothing.

    Raises:
        click.UsageError: two forms are asked for at once.
        InputError: the file's ending is of another form.
    """
    ending = Path(out or "").suffix.lower()
    if as_json + as_csv + (ending in SHEETS) > 1:
        raise click.UsageError("--json, --csv and a sheet in --out exclude each other.")
    if out is not None:
        from profilegen.cli.single import check_ending

        check_ending(out, ending if ending in SHEETS else ".json" if as_json else ".csv")
    return ending


def _planned(
    part: Part,
    wheel: Wheel,
    frame: Frame,
    cuts: tuple[Cut, ...],
    teeth: int | None,
    way: int | None,
    rounds: tuple[Round, ...],
) -> Iterator[IndexPlan]:
    """A plan for each round."""
    from profilegen.dividing.of_part import plan_of

    for of in rounds:
        yield plan_of(part, wheel, frame, cuts, teeth, way, of)


def _said_of(part: Part, plans: tuple[IndexPlan, ...]) -> tuple[Finding, ...]:
    """What is to be said of the plans."""
    from profilegen.dividing.index_findings import index_findings

    return tuple(one for plan in plans for one in index_findings(part, plan))


def _deliver(ctx: click.Context, data: bytes, out: str | None, force: bool) -> None:
    """To standard output, or into the file that is asked for."""
    if out is None or out == "-":
        to_stdout(data)
        return
    from profilegen.cli.single import deliver
    from profilegen.cli.writing import Outgoing

    deliver(ctx, Outgoing(Path(out), data, "tick off", "every stop"), out, force, False)


def _asked(
    part: Part, own: bool
) -> tuple[Part, Wheel, Frame, tuple[Cut, ...], tuple[Finding, ...]]:
    """What the stops are worked out from, and what else there is to say.

    The wheel's own count is cut as the sheet has it, on the blank at hand and by the cutter that is
    set up; of another count (`own` is false) only the stops are asked.
    """
    if own:
        from profilegen.cli.cores import on_all_cores
        from profilegen.job import job_for

        job = job_for(part, on_all_cores)
        others = tuple(one for one in job.findings if not one.code.startswith("index-"))
        return job.part, job.made, job.plan.frame, job.plan.cuts, others
    from profilegen.cutting.frame import frame_for
    from profilegen.forms.solve import solve

    wheel = solve(part)
    return part, wheel, frame_for(part.setup, wheel.hand), (), wheel.findings


def _data(part: Part, wheel: Wheel | None, cuts: tuple[Cut, ...], plans: Plans, form: str) -> bytes:
    """The plans in one form; what the others need is not imported.

    Args:
        part: for its title and figures.
        wheel: whose own count it is; None for another.
        cuts: one a lap.
        plans: of each of its rounds.
        form: `csv`, `json` or `text`.
    """
    plan = plans[0]
    if form == "csv":
        from profilegen.topics.drilling import drilled, drilling_rows

        if wheel is not None and drilled(wheel):
            from profilegen.output.csv_rows import csv_bytes

            return csv_bytes(drilling_rows(wheel, plans, part.units))
        from profilegen.output.csv_rows import csv_bytes
        from profilegen.topics.stop_rows import index_rows

        return csv_bytes(index_rows(plan, {cut.lap: cut.forms for cut in cuts}))
    if form == "json":
        from profilegen.output.json_text import json_text
        from profilegen.topics.dicts import plan_dict

        if len(plans) > 1 and wheel is not None:
            named = zip(wheel.rounds, plans, strict=True)
            rounds = [{"round": of.name, **plan_dict(one)} for of, one in named]
            return json_text({"rounds": rounds}).encode()
        return json_text(plan_dict(plan)).encode()
    from profilegen.topics.index_text import plan_text

    names = [""] if len(plans) == 1 or wheel is None else [f", {of.name}" for of in wheel.rounds]
    told = (
        plan_text(one, f"{part.title}{name}", part.figures)
        for one, name in zip(plans, names, strict=True)
    )
    return "\n".join(told).encode()


def _sheet(part: Part, plans: Plans, ending: str, paper: str | None) -> bytes:
    from profilegen.sheets.index_sheet import dividing_sheets

    sheets = [sheet for plan in plans for sheet in dividing_sheets(part, plan, paper)]
    return picture(sheets, ending)
