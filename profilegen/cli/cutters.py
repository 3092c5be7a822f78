"""`cutters`: every cutter of a part tried on its wheel."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

import click

from profilegen.cli.ending import to_stdout
from profilegen.cli.producing import Choices, can_be_made, produce
from profilegen.cli.saying import say
from profilegen.cli.shape import command, command_again, file_argument, force_option, look_options
from profilegen.cli.shop import opened, solved
from profilegen.cli.single import check_ending
from profilegen.cli.writing import Outgoing, Written, write_all
from profilegen.errors import CannotMakeError

if TYPE_CHECKING:
    from profilegen.cutting.compare import Match
    from profilegen.job import Job
    from profilegen.part.drawer import Drawer
    from profilegen.part.part import Part


@command(
    "profilegen cutters take-up-ratchet.toml --json",
    "profilegen cutters warp-beam-ratchet.toml --out warp-beam-cutters.pdf",
)
@file_argument
@click.option(
    "--drawer",
    metavar="FILE",
    help="Drawer file; else the part's own cutters, the drawer that it names, drawer.toml beside "
    "it, or the shipped one.",
)
@click.option("--json", "as_json", is_flag=True, help="Print the list for programs: mm, degrees.")
@click.option(
    "--out",
    metavar="FILE",
    help="Picture to write as well, .svg or .pdf: the best few cutters over the space; or .dxf: "
    "the outline with the cutter that is set up in every space, to look at.",
)
@force_option
@look_options
@click.pass_context
def cutters(
    ctx: click.Context,
    file: str,
    drawer: str | None,
    as_json: bool,
    out: str | None,
    force: bool,
    units: str | None,
    decimal: str | None,
) -> int:
    """Compare the cutters of a part or a drawer on its wheel, best first: gouge and left-over.

    A wedge that matches the space is set flank on flank, in laps when it is narrower; any other
    cutter by the deepest plunge that enters no tooth. The cutter that is set up is marked: the one
    that [setup] cutter names, else the part's first, else the best of the drawer.
    """
    from profilegen.cutting.compare import compared_cutters
    from profilegen.output.json_text import json_text
    from profilegen.part.drawer import choose_drawer
    from profilegen.reports.cutter_text import cutter_rows, cutter_text
    from profilegen.wheels.solve import solve

    part = opened(file, units, decimal)
    drawn_from = choose_drawer(part, drawer)
    if out is not None and Path(out).suffix.lower() not in PICTURES:
        check_ending(out, ".svg")
    wheel, accept = solve(part), part.setup.accept
    matches = compared_cutters(wheel, drawn_from.cutters, part.setup)
    job = solved(_with_one_set_up(part, drawn_from, matches))
    written: tuple[Written, ...] = ()
    if out is not None:
        target = _picture(job, matches, Path(out))
        written = write_all((target,), force=force, again=command_again(ctx))
    to_stdout(json_text(cutter_rows(matches)) if as_json else cutter_text(job, matches, accept))
    say(f"cutters: {drawn_from.name}")
    for item in written:
        say(f"  {item.use:<8} {item.path}: {item.words}")
    return 0


def _with_one_set_up(part: Part, drawer: Drawer, matches: tuple[Match, ...]) -> Part:
    """The part with the cutters of the drawer; set up is the one it names, else the first of its
    own, else the best of the drawer."""
    names = [cutter.name for cutter in drawer.cutters]
    usual = names[0] if drawer.path is None else matches[0].cutter
    chosen = part.setup.cutter if part.setup.cutter in names else usual
    setup = part.setup.model_copy(update={"cutter": chosen})
    return replace(part, cutters=drawer.cutters, setup=setup)


PICTURES = (".svg", ".pdf", ".dxf")
"""Endings of the pictures."""


def _picture(job: Job, matches: tuple[Match, ...], path: Path) -> Outgoing:
    """The comparison, or for a DXF the cutter that is set up over the outline.

    Raises:
        CannotMakeError: a DXF of a cutter that cannot form the wheel.
    """
    if path.suffix.lower() == ".dxf":
        if not can_be_made(job, "cutter-dxf"):
            raise CannotMakeError(*(f for f in job.findings if f.severity == "refused"))
        made = produce(job, "cutter-dxf", Choices(), path.with_suffix(""))
        return Outgoing(path, made.data, made.use, made.words)
    from profilegen.output.pdf import pdf_bytes
    from profilegen.output.svg import svg_bytes
    from profilegen.reports.compare_sheet import compare_sheet

    sheet = compare_sheet(job, matches)
    data = pdf_bytes([sheet]) if path.suffix.lower() == ".pdf" else svg_bytes(sheet)
    return Outgoing(path, data, "keep", "the best few cutters over the space")
