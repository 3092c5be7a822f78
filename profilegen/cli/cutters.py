"""`cutters`: every cutter of a part tried on its wheel."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from profilegen.cli.ending import to_stdout
from profilegen.cli.opening import no_teeth, opened, solved
from profilegen.cli.options import (
    command,
    command_again,
    file_argument,
    file_names,
    force_option,
    look_options,
)
from profilegen.cli.producing import picture, quiet_libraries
from profilegen.cli.saying import talk
from profilegen.cli.single import check_ending
from profilegen.cli.writing import Outgoing, Written, write_all
from profilegen.errors import InputError
from profilegen.findings.cannot_make import CannotMakeError, told_in

if TYPE_CHECKING:
    from profilegen.cutting.compare import Match
    from profilegen.job import Job


@command(
    "profilegen cutters take-up-ratchet.toml --json",
    "profilegen cutters warp-beam-ratchet.toml --out warp-beam-cutters.pdf --dxf compared.dxf",
)
@file_argument
@click.option(
    "--drawer",
    metavar="FILE",
    shell_complete=file_names,
    help="Drawer file; else the part's own cutters, the drawer that it names, drawer.toml beside "
    "it, or the shipped one.",
)
@click.option("--json", "as_json", is_flag=True, help="Print the list for programs: mm, degrees.")
@click.option(
    "--out",
    metavar="FILE",
    shell_complete=file_names,
    help="Picture to write as well, .svg or .pdf: the best few cutters over the space.",
)
@click.option(
    "--dxf",
    metavar="FILE",
    shell_complete=file_names,
    help="The best few cutters over the space as a drawing in true size, not for cutting.",
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
    dxf: str | None,
    force: bool,
    units: str | None,
    decimal: str | None,
) -> int:
    """Compare the cutters of a part or a drawer on its wheel, best first: gouge and left-over.

    A wedge that matches the space is set flank on flank, in laps when it is narrower; any other
    cutter by the deepest plunge that enters no tooth. The cutter that check and make set up is
    marked: the one that [setup] cutter names, else the part's first, else the best of its drawer.
    """
    from profilegen.cli.cores import on_all_cores
    from profilegen.cutting.compare import compared_cutters
    from profilegen.cutting.from_drawer import with_one_set_up
    from profilegen.forms.solve import solve
    from profilegen.output.json_text import json_text
    from profilegen.part.drawer import choose_drawer, is_of_part
    from profilegen.topics.cutter_text import cutter_text
    from profilegen.topics.dicts import cutter_list

    part = opened(file, units, decimal)
    drawn_from = choose_drawer(part, drawer)
    _check_endings(out, dxf)
    wheel, accept = solve(part), part.setup.accept
    if not wheel.is_toothed:
        raise InputError(no_teeth(file, "no cutter to compare"))
    with told_in(part.figures):
        matches = compared_cutters(wheel, drawn_from.cutters, part.setup, on_all_cores)
    job = solved(with_one_set_up(part, drawn_from, matches))
    set_up = job.plan.cutter if is_of_part(drawn_from, part) else None
    written: tuple[Written, ...] = ()
    pictures = [_picture(job, matches, Path(name)) for name in (out, dxf) if name is not None]
    if pictures:
        written = write_all(tuple(pictures), force=force, again=command_again(ctx))
    to_stdout(
        json_text(cutter_list(job, matches, set_up))
        if as_json
        else cutter_text(job, matches, accept, set_up)
    )
    talk(f"cutters: {drawn_from.name}")
    for item in written:
        talk(f"  {item.use:<8} {item.path}: {item.words}")
    return 0


def _check_endings(out: str | None, dxf: str | None) -> None:
    """Refuse a file name whose ending promises something else.

    Raises:
        InputError: naming what to write instead.
    """
    if out is not None and Path(out).suffix.lower() not in (".svg", ".pdf"):
        check_ending(out, ".svg")
    if dxf is not None:
        check_ending(dxf, ".dxf")


def _picture(job: Job, matches: tuple[Match, ...], path: Path) -> Outgoing:
    """The best few cutters over the space, in the format of the file's name.

    Raises:
        CannotMakeError: a DXF where no cutter enters the space.
    """
    from profilegen.findings.finding import Finding
    from profilegen.sheets.compare_sheet import PANELS, compare_sheet
    from profilegen.views.dxf_layers import comparison_layers

    words = "the best few cutters over the space"
    if path.suffix.lower() == ".dxf":
        from profilegen.dxf.writing import dxf_bytes

        entering = [match for match in matches if match.cuts][:PANELS]
        if not entering:
            raise CannotMakeError(
                Finding("cutter-cannot-enter", "refused", "--dxf", case="drawing")
            )
        quiet_libraries()
        layers = comparison_layers(job.wheel, entering)
        return Outgoing(path, dxf_bytes(layers, job.part.units), "keep", f"{words}, not to cut")
    data = picture([compare_sheet(job, matches)], path.suffix.lower())
    return Outgoing(path, data, "keep", words)
