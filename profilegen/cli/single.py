"""`dxf`, `template`, `sheet`: one output of one part.

Owns where a single output goes: the file that `--out` names, standard output for `--out -`, or the
part's own folder below `out/`, as `make` writes it.
"""

from __future__ import annotations

from pathlib import Path
from typing import cast

import click

from profilegen.cli.ending import to_stdout
from profilegen.cli.opening import exit_code_of, opened, solved
from profilegen.cli.options import (
    command,
    command_again,
    file_argument,
    file_names,
    force_option,
    look_options,
    open_option,
    paper_option,
    scale_read,
    version_option,
)
from profilegen.cli.producing import Choices, Paper, Version, can_be_made, produce, stem_of
from profilegen.cli.saying import say, say_findings, say_written
from profilegen.cli.writing import Outgoing, write_all
from profilegen.errors import InputError, Problem
from profilegen.findings.cannot_make import CannotMakeError

out_option = click.option(
    "--out",
    metavar="FILE",
    shell_complete=file_names,
    help="File to write, - for standard output; below out/ when left out.",
)
pdf_option = click.option("--pdf", is_flag=True, help="PDF instead of SVG.")


@command(
    "profilegen dxf take-up-ratchet.toml",
    "profilegen dxf warp-beam-ratchet.toml --dxf-version R12 --out warp-beam-R12-in.dxf",
)
@file_argument
@out_option
@force_option
@version_option
@look_options
@open_option
@click.pass_context
def dxf(
    ctx: click.Context,
    file: str,
    out: str | None,
    force: bool,
    version: str,
    units: str | None,
    decimal: str | None,
    show: bool,
) -> int:
    """Write the DXF of a part to send out: the outline and every hole at nominal size.

    Each contour is one closed polyline with true arcs, a round bore a circle. When only the cutter
    cannot form the wheel the DXF is written all the same, and the exit code is 3. An R12 file that
    gets its name here has version and unit in it.
    """
    choices = Choices(version=cast("Version", version))
    return _one(ctx, file, "dxf", out, force, (units, decimal), choices, show)


@command(
    "profilegen template take-up-ratchet.toml --pdf",
    "profilegen template warp-beam-ratchet.toml --of cutter --out warp-beam-cutter.svg",
)
@file_argument
@out_option
@pdf_option
@force_option
@look_options
@paper_option
@open_option
@click.option(
    "--scale",
    callback=scale_read,
    metavar="N",
    help="Times full size, such as 10 or 10:1; 1 for the part, 10:1 for a cutter where that fits "
    "the page.",
)
@click.option(
    "--of",
    "of",
    type=click.Choice(["part", "cutter"]),
    default="part",
    show_default=True,
    help="What the template is of: the part, or a cutter, to grind and check it by.",
)
@click.option("--cutter", metavar="NAME", help="The cutter; the one that is set up when left out.")
@click.option(
    "--drawer",
    metavar="FILE",
    shell_complete=file_names,
    help="Drawer of the cutter; the one of the part when left out.",
)
@click.pass_context
def template(
    ctx: click.Context,
    file: str,
    out: str | None,
    pdf: bool,
    force: bool,
    units: str | None,
    decimal: str | None,
    paper: str | None,
    show: bool,
    scale: float | None,
    of: str,
    cutter: str | None,
    drawer: str | None,
) -> int:
    """Write the 1:1 check template of a part, or the enlarged one of a cutter, with bars to measure
    the print by.

    SVG, or PDF with --pdf or an --out that ends in .pdf. Print it at 100 %, then measure the bars.
    """
    kind = f"template-{_format(out, pdf)}"
    if of == "cutter":
        from profilegen.cli.cutter_template import cutter_template_of

        part = opened(file, units, decimal)
        check_ending(out, f".{kind[-3:]}")
        stem = stem_of(file, part)
        drawn = cutter_template_of(part, cutter, drawer, scale, cast("Paper | None", paper))
        made = drawn.outgoing(kind[-3:], Path("out") / stem / stem)
        deliver(ctx, made, out, force, show)
        return 0
    if cutter is not None or drawer is not None:
        raise click.UsageError("--cutter and --drawer go with --of cutter.")
    choices = Choices(paper=cast("Paper | None", paper), scale=scale or 1.0)
    return _one(ctx, file, kind, out, force, (units, decimal), choices, show)


@command(
    "profilegen sheet take-up-ratchet.toml --pdf",
    "profilegen sheet warp-beam-ratchet.toml --out warp-beam-sheet.pdf",
)
@file_argument
@out_option
@pdf_option
@force_option
@look_options
@paper_option
@open_option
@click.pass_context
def sheet(
    ctx: click.Context,
    file: str,
    out: str | None,
    pdf: bool,
    force: bool,
    units: str | None,
    decimal: str | None,
    paper: str | None,
    show: bool,
) -> int:
    """Write the set-up sheet of a part: which way round, how far over and down, from which zero.

    Its first page as SVG, or every page as PDF with --pdf or an --out that ends in .pdf: zeros,
    passes and the bore stand on the further ones.
    """
    kind = f"sheet-{_format(out, pdf)}"
    choices = Choices(paper=cast("Paper | None", paper))
    return _one(ctx, file, kind, out, force, (units, decimal), choices, show)


def _format(out: str | None, pdf: bool) -> str:
    """`svg` or `pdf`, by the flag or by the ending of `--out`."""
    ending = Path(out).suffix.lower() if out and out != "-" else ""
    if pdf and ending == ".svg":
        raise click.UsageError("--pdf and a file that ends in .svg contradict each other.")
    return "pdf" if pdf or ending == ".pdf" else "svg"


ENDING = {"dxf": ".dxf"}
"""Kind -> ending of its files, where the kind's own name does not end in it."""


def _one(
    ctx: click.Context,
    file: str,
    kind: str,
    out: str | None,
    force: bool,
    look: tuple[str | None, str | None],
    choices: Choices,
    show: bool,
) -> int:
    """Make one output and put it where it belongs; return the exit code."""
    from profilegen.findings.finding import refused

    check_ending(out, ENDING.get(kind, f".{kind[-3:]}"))
    part = opened(file, *look)
    job = solved(part)
    if job.is_refused and not can_be_made(job, kind):
        raise CannotMakeError(*refused(job.findings), figures=job.part.figures)
    stem = stem_of(file, part)
    made = produce(job, kind, choices, Path("out") / stem / stem, unit_in_name=True)
    say_findings(job.findings, job.part.figures)
    deliver(ctx, made, out, force, show)
    return exit_code_of(job)


def check_ending(out: str | None, ending: str) -> None:
    """Refuse a file name that promises something else than what would be in it.

    Raises:
        InputError: its ending is another.
    """
    if out is None or out == "-" or Path(out).is_dir() or Path(out).suffix.lower() == ending:
        return
    text = f"this command writes a file that ends in {ending}"
    raise InputError(Problem("--out", text, out, f"a name that ends in {ending}, or -"))


def deliver(ctx: click.Context, made: Outgoing, out: str | None, force: bool, show: bool) -> None:
    """Write one output to standard output or to its file, and say where it is."""
    if out == "-":
        to_stdout(made.data)
        return
    target = Outgoing(Path(out) if out else made.path, made.data, made.use, made.words)
    written = write_all((target,), force=force, again=command_again(ctx))
    say_written(written)
    if show and click.launch(str(target.path)):
        say(f"no program opened {target.path}")
