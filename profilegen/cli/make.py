"""`make`: everything of one part, or of many, into a folder for each.

Owns the order: every part solved and every byte made first, then all files written at once.
A part that fails keeps no other from being made; the exit code is the gravest of all.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, cast

import click

from profilegen.cli.producing import Choices, kinds_for, names_of, produce, stem_of
from profilegen.cli.saying import part_lines, say, say_findings, say_problems, say_written
from profilegen.cli.shape import (
    command,
    command_again,
    force_option,
    look_options,
    open_option,
    paper_option,
    version_option,
)
from profilegen.cli.writing import Outgoing, Written, write_all
from profilegen.errors import CannotMakeError, Finding, InputError, Problem, ProfilegenError

if TYPE_CHECKING:
    from profilegen.cli.producing import Paper, Version

FEW = 4
"""Parts made one after the other; more of them are shared out among the processor's cores."""


@dataclass(frozen=True, slots=True)
class Order:
    """One part to make, as plain data that another process can take.

    Attributes:
        file: the part file.
        base: folder and name without ending of what is written.
        units: unit of what is written, or None for the part's.
        decimal: decimal mark, or None for the part's.
        choices: DXF version and paper.
    """

    file: str
    base: Path
    units: str | None
    decimal: str | None
    choices: Choices


@dataclass(frozen=True, slots=True)
class Made:
    """What came of an order.

    Attributes:
        order: what was asked.
        files: what to write, empty after a failure.
        said: the lines said of every part, such as its outside diameter.
        findings: of the wheel and its setup.
        problems: why nothing could be made, or empty.
        code: exit code, 0 when all is well.
    """

    order: Order
    files: tuple[Outgoing, ...] = ()
    said: tuple[str, ...] = ()
    findings: tuple[Finding, ...] = ()
    problems: tuple[Problem, ...] = ()
    code: int = 0


@command(
    "profilegen make take-up-ratchet.toml",
    "profilegen make take-up-ratchet.toml warp-beam-ratchet.toml --out wheels --paper Letter",
)
@click.argument("files", metavar="FILE...", nargs=-1, required=True)
@click.option(
    "--out", metavar="DIR", default="out", show_default=True, help="Folder for the parts' folders."
)
@force_option
@version_option
@look_options
@paper_option
@open_option
@click.pass_context
def make(
    ctx: click.Context,
    files: tuple[str, ...],
    out: str,
    force: bool,
    version: str,
    units: str | None,
    decimal: str | None,
    paper: str | None,
    show: bool,
) -> int:
    """Write everything of each part FILE into DIR/NAME/, NAME being the file's name without .toml.

    DXF to send out, outline with the cutter in it (not for cutting), check template and setup sheet
    as SVG and PDF, stops as CSV, all numbers as JSON. When the cutter cannot form the wheel, what
    does not depend on the cutter is still written, and the exit code is 3.
    """
    choices = Choices(cast("Version", version), cast("Paper | None", paper))
    orders = [
        Order(file, Path(out) / stem / stem, units, decimal, choices)
        for file, stem in _stems(files)
    ]
    made = make_all(orders)
    outgoing = [file for one in made for file in one.files]
    code = max(one.code for one in made)
    _say_all(made)
    written = write_all(outgoing, force=force, again=command_again(ctx))
    _say_left_over(made, written)
    say_written(written)
    _say_exceptions(made)
    if show and written:
        click.launch(str(written[0].path.parent if len(made) == 1 else Path(out)))
    return code


def _stems(files: Sequence[str]) -> list[tuple[str, str]]:
    """Each file with the name of its folder.

    Raises:
        InputError: two different files would share a folder.
    """
    found: dict[str, str] = {}
    for file in files:
        stem = stem_of(file)
        other = found.get(stem.lower())
        if other is not None and other != file:
            text = f"{other} has the same name, so both would be written to one folder"
            raise InputError(Problem(file, text, hint="make them one after the other, with --out"))
        found[stem.lower()] = file
    return [(file, stem_of(file)) for file in dict.fromkeys(files)]


def make_all(orders: Sequence[Order]) -> list[Made]:
    """Make every part, in the order given; many of them on all cores, with a bar on stderr."""
    if len(orders) <= FEW:
        return [make_one(order) for order in orders]
    from profilegen.cli.pool import done_by_many

    return done_by_many(make_one, orders)


def make_one(order: Order) -> Made:
    """Make the bytes of one part; what is wrong with the part comes back as data."""
    from profilegen.cli.shop import opened
    from profilegen.job import job_for

    said: tuple[str, ...] = ()
    try:
        part = opened(order.file, order.units, order.decimal)
        said = part_lines(part, Path(order.file).name)
        job = job_for(part)
    except CannotMakeError as error:
        return Made(order, (), said, error.findings, code=error.exit_code)
    except ProfilegenError as error:
        return Made(order, problems=error.problems, code=error.exit_code)
    kinds = kinds_for(job)
    files = tuple(produce(job, kind, order.choices, order.base) for kind in kinds)
    return Made(order, files, said, job.findings, code=3 if job.is_refused else 0)


def _say_all(made: Sequence[Made]) -> None:
    for one in made:
        if one.problems:
            say_problems(one.problems, one.order.file[:200])
        for line in one.said:
            say(line)
        say_findings(one.findings)


def _say_exceptions(made: Sequence[Made]) -> None:
    """Say of which parts nothing was written, and of which only what needs no cutter."""
    for one in made:
        if one.code and one.files:
            say(f"{one.order.file}: written all the same, for the wheel itself can be made")
        elif one.code:
            say(f"{one.order.file[:200]}: nothing was written for this part")


def _say_left_over(made: Sequence[Made], written: Sequence[Written]) -> None:
    """Name files of an earlier run that were not made anew: they may belong to another wheel."""
    names = {item.path for item in written}
    for one in filter(lambda one: one.files, made):
        stale = [path.name for path in _earlier(one.order.base) if path not in names]
        if stale:
            say(f"caution: from an earlier run, not of the part as it stands: {', '.join(stale)}")


def _earlier(base: Path) -> Iterator[Path]:
    """The files in a part's folder that have the names of outputs."""
    if base.parent.is_dir():
        names = names_of(base)
        yield from (path for path in sorted(base.parent.iterdir()) if path.name in names)
