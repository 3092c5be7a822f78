"""`gauge`: what to measure, over what, within which limits; the record sheet."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from profilegen.cli.ending import to_stdout
from profilegen.cli.opening import opened, solved
from profilegen.cli.options import (
    command,
    command_again,
    file_argument,
    file_names,
    force_option,
    look_options,
    paper_option,
)
from profilegen.cli.producing import picture
from profilegen.cli.saying import say, say_findings, talk
from profilegen.cli.writing import Outgoing, Written, write_all
from profilegen.errors import InputError, Problem

if TYPE_CHECKING:
    from profilegen.job import Job

ENDINGS = (".svg", ".pdf")


@command(
    "profilegen gauge take-up-ratchet.toml --json",
    "profilegen gauge warp-beam-ratchet.toml --out warp-beam-record.pdf",
)
@file_argument
@click.option(
    "--json", "as_json", is_flag=True, help="A JSON list, always mm and degrees, unrounded."
)
@click.option(
    "--out",
    metavar="FILE",
    shell_complete=file_names,
    help="Record sheet to write as well: .svg (first page) or .pdf.",
)
@force_option
@look_options
@paper_option
@click.pass_context
def gauge(
    ctx: click.Context,
    file: str,
    as_json: bool,
    out: str | None,
    force: bool,
    units: str | None,
    decimal: str | None,
    paper: str | None,
) -> int:
    """Print what to measure on the finished wheel, over which pins, and the limits of each size.

    For a square or hexagon also the pilot drills, how the square is slotted, and where the head
    brings corners, keyway or flat to the tool. Pins and drills are proposed in the unit written.
    The exit code is 3 when the pin of the part file cannot be used.
    """
    from profilegen.output.json_text import json_text
    from profilegen.topics.dicts import gauge_list
    from profilegen.topics.gauge_text import gauge_text
    from profilegen.topics.gauge_words import head_lines

    _check_ending(out)
    job = solved(opened(file, None if as_json else units, decimal), tells_size=not as_json)
    gauges = job.gauges
    written = _record(ctx, job, out, paper, force)
    if as_json:
        to_stdout(json_text(gauge_list(job)))
        for line in head_lines(job):
            say(line)
    else:
        to_stdout(gauge_text(job))
    say_findings(gauges.findings, job.part.figures)
    for item in written:
        talk(f"  {item.use:<8} {item.path}: {item.words}")
    return 3 if gauges.is_refused else 0


def _check_ending(out: str | None) -> None:
    if out is not None and Path(out).suffix.lower() not in ENDINGS:
        text = "the record sheet is SVG or PDF"
        raise InputError(Problem("--out", text, out, "a name that ends in .svg or .pdf"))


def _record(
    ctx: click.Context, job: Job, out: str | None, paper: str | None, force: bool
) -> tuple[Written, ...]:
    """Write the record sheet, when one is asked for."""
    if out is None:
        return ()
    from profilegen.sheets.record_sheet import record_sheets

    data = picture(record_sheets(job, paper), Path(out).suffix.lower())
    target = Outgoing(Path(out), data, "print", "record sheet for ten pieces")
    return write_all((target,), force=force, again=command_again(ctx))
