"""`cutters`: every cutter of a part tried on its wheel."""

from __future__ import annotations

from pathlib import Path

import click

from profilegen.cli.ending import to_stdout
from profilegen.cli.producing import Choices, can_be_made, produce
from profilegen.cli.saying import say, say_findings
from profilegen.cli.shape import command, command_again, file_argument, force_option, look_options
from profilegen.cli.shop import exit_code_of, opened, solved
from profilegen.cli.single import check_ending
from profilegen.cli.writing import Outgoing, Written, write_all
from profilegen.errors import CannotMakeError, InputError, Problem


@command(
    "profilegen cutters take-up-ratchet.toml",
    "profilegen cutters warp-beam-ratchet.toml --out warp-beam-cutter-DO-NOT-CUT.dxf",
)
@file_argument
@click.option(
    "--out",
    metavar="FILE",
    help="DXF to write as well: the outline with the chosen cutter in every space, to look at.",
)
@force_option
@look_options
@click.pass_context
def cutters(
    ctx: click.Context,
    file: str,
    out: str | None,
    force: bool,
    units: str | None,
    decimal: str | None,
) -> int:
    """Compare the cutters of a part on its wheel: which can form it, how far over and down it goes.

    The cutter that is set up is the one that `[setup] cutter` names, or the first. The exit code is
    that of this cutter: 3 when it cannot form the wheel.
    """
    from profilegen.reports.cutter_text import cutter_text

    part = opened(file, units, decimal)
    if not part.cutters:
        text = "the part has no [[cutter]], so there is nothing to compare"
        hint = "profilegen start ratchet writes a part file that shows how one is given"
        raise InputError(Problem(file, text, hint=hint))
    if out is not None:
        check_ending(out, ".dxf")
    job = solved(part)
    written: tuple[Written, ...] = ()
    if out is not None and out != "-":
        if not can_be_made(job, "cutter-dxf"):
            raise CannotMakeError(*(f for f in job.findings if f.severity == "refused"))
        made = produce(job, "cutter-dxf", Choices(), Path(out).with_suffix(""))
        target = Outgoing(Path(out), made.data, made.use, made.words)
        written = write_all((target,), force=force, again=command_again(ctx))
    to_stdout(cutter_text(job))
    say_findings(job.findings)
    for item in written:
        say(f"  {item.use:<8} {item.path}: {item.words}")
    return exit_code_of(job)
