"""`make`: everything of one part, or of many, into a folder for each.

A part's files are written as soon as all of them are made, one folder at a time, whole or not at
all. A part that fails, by its own fault or by ours, keeps no other from being made; the exit code
is the gravest of all, and a summary closes.
"""

from __future__ import annotations

import os
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path
from shlex import join
from typing import TYPE_CHECKING, cast

import click

from profilegen.cli.ending import fault_words
from profilegen.cli.options import (
    command,
    command_again,
    file_names,
    look_options,
    open_option,
    paper_option,
    version_option,
)
from profilegen.cli.ours import record, untouched
from profilegen.cli.producing import Choices, kinds_for, names_of, produce, stem_of
from profilegen.cli.saying import part_lines, say, say_findings, say_problems, say_written, talk
from profilegen.cli.spare import put_right
from profilegen.cli.standard_input import DASH, called, part_or_none, text_given
from profilegen.cli.stopping import hear_again
from profilegen.cli.writing import Outgoing, Written, write_all
from profilegen.errors import InputError, OutputError, Problem, ProfilegenError
from profilegen.figures import MM, Figures
from profilegen.findings.cannot_make import CannotMakeError
from profilegen.findings.finding import Finding

if TYPE_CHECKING:
    from profilegen.cli.producing import Paper, Version
    from profilegen.part.part import Part

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
        text: what came from standard input, where that is the file.
    """

    file: str
    base: Path
    units: str | None
    decimal: str | None
    choices: Choices
    text: str | None = None

    @property
    def name(self) -> str:
        """The file as it is said, not endlessly long."""
        return called(self.file)[:200]


@dataclass(frozen=True, slots=True)
class Made:
    """What came of an order.

    Attributes:
        order: what was asked.
        files: what to write, empty after a failure.
        said: the lines said of every part, such as its outside diameter.
        findings: of the wheel and its setup.
        figures: how they are written: the part's unit and decimal mark.
        problems: why nothing could be made, or empty.
        fault: the program's own fault in one line, or empty.
        code: exit code, 0 when all is well.
    """

    order: Order
    files: tuple[Outgoing, ...] = ()
    said: tuple[str, ...] = ()
    findings: tuple[Finding, ...] = ()
    figures: Figures = MM
    problems: tuple[Problem, ...] = ()
    fault: str = ""
    code: int = 0


@command(
    "profilegen make take-up-ratchet.toml",
    "profilegen make take-up-ratchet.toml warp-beam-ratchet.toml --out wheels --paper Letter",
)
@click.argument("files", metavar="FILE...", nargs=-1, required=True, shell_complete=file_names)
@click.option(
    "--out",
    metavar="DIR",
    shell_complete=file_names,
    default="out",
    show_default=True,
    help="Folder for the parts' folders.",
)
@click.option(
    "--force", is_flag=True, help="Replace files of yours too, and those that were changed by hand."
)
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

    DXF to send out, outline with the cutter in it (not for cutting), check template and set-up
    sheet as PDF and SVG (of the sheet the first page), record sheet as PDF, stops as CSV, all
    numbers as JSON. What the program wrote and nobody changed since is replaced. When the cutter
    cannot form the wheel, what does not depend on the cutter is still written, and the exit code is
    3.
    """
    choices = Choices(cast("Version", version), cast("Paper | None", paper))
    _refuse_commands(files)
    text = text_given() if DASH in files else None
    orders = [
        Order(file, Path(out) / stem / stem, units, decimal, choices, given)
        for file, stem in _stems(files, part_or_none(text))
        for given in (text if file == DASH else None,)
    ]
    codes: list[int] = []
    try:
        for made in make_all(orders):
            codes.append(_finished(made, force, command_again(ctx)))
            if len(codes) < len(orders):
                hear_again()
    except KeyboardInterrupt:
        _say_stopped(orders, codes, Path(out))
        raise
    if len(orders) > 1:
        _sum_up(orders, codes, Path(out))
    if show and any(order.base.parent.is_dir() for order in orders):
        click.launch(str(orders[0].base.parent if len(orders) == 1 else Path(out)))
    return max(codes, key=_gravity)


def _gravity(code: int) -> int:
    """Faults of the program are the gravest, then the higher code."""
    return 99 if code == 1 else code


def _finished(made: Made, force: bool, again: str) -> int:
    """Say what came of one part and write its files; the exit code of that part."""
    _say(made)
    written: tuple[Written, ...] = ()
    code = made.code
    if made.files:
        put_right(made.order.base.parent)
        ours = untouched(made.order.base.parent)
        try:
            written = write_all(made.files, force=force, again=again, ours=ours)
        except OutputError as error:
            say_problems(error.problems)
            code = max(code, error.exit_code)
    if written:
        _say_left_over(made, written)
        say_written(written)
    if code and written:
        say(f"{made.order.name}: written all the same, for the wheel itself can be made")
    elif code:
        say(f"{made.order.name}: nothing was written for this part")
    return code


def _say_stopped(orders: Sequence[Order], codes: Sequence[int], folder: Path) -> None:
    """How many of many parts stand there whole when a run is stopped."""
    if codes:
        talk(f"{codes.count(0)} of {len(orders)} parts made in {folder} before the stop")


def _sum_up(orders: Sequence[Order], codes: Sequence[int], folder: Path) -> None:
    """The last line of many: how many are made, and which are not or only in part."""
    bad = [order.name for order, code in zip(orders, codes, strict=True) if code]
    talk(f"{len(orders) - len(bad)} of {len(orders)} parts made in {folder}")
    if bad:
        say(f"look at: {', '.join(bad)}")


def _refuse_commands(files: Sequence[str]) -> None:
    """Refuse the name of a command among the files: a slip, and nothing is written for it.

    Raises:
        click.UsageError: with the line to type.
    """
    from profilegen.cli.program import COMMANDS

    meant = [file for file in files if file in COMMANDS and not Path(file).exists()]
    if meant:
        rest = join(file for file in files if file != meant[0])
        raise click.UsageError(
            f"the command comes first: profilegen {meant[0]} {rest}\nNothing was written."
        )


def _stems(files: Sequence[str], given: Part | None = None) -> list[tuple[str, str]]:
    """Each file with the name of its folder; `given` is the part from standard input.

    Raises:
        InputError: two different files would share a folder.
    """
    found: dict[str, str] = {}
    for file in files:
        stem = stem_of(file, given)
        other = found.get(stem.lower())
        if other is not None and other != file:
            text = f"{other} has the same name, so both would be written to one folder"
            raise InputError(Problem(file, text, hint="make them one after the other, with --out"))
        found[stem.lower()] = file
    return [(file, stem_of(file, given)) for file in dict.fromkeys(files)]


def make_all(orders: Sequence[Order]) -> Iterator[Made]:
    """Make every part, in the order given; many of them on all cores, with a bar on stderr."""
    if len(orders) == 1:
        yield make_one(orders[0])
    elif len(orders) <= FEW:
        yield from map(make_one_of_many, orders)
    else:
        from profilegen.cli.pool import done_by_many

        yield from done_by_many(make_one_of_many, orders, _died)


def make_one_of_many(order: Order) -> Made:
    """Make the bytes of one part; a fault of the program too comes back as data."""
    try:
        return make_one(order)
    except Exception as error:
        return Made(order, fault=fault_words(error), code=1)


def _died(order: Order) -> Made:
    """An order whose process was ended from outside, or by a fault below Python."""
    return Made(
        order, fault="the process that made this part died: is there enough memory?", code=1
    )


def make_one(order: Order) -> Made:
    """Make the bytes of one part; what is wrong with the part comes back as data."""
    from profilegen.cli.cores import on_all_cores
    from profilegen.cli.opening import opened
    from profilegen.job import job_for

    said: tuple[str, ...] = ()
    try:
        part = opened(order.file, order.units, order.decimal, order.text)
        said = part_lines(part, Path(order.name).name)
        job = job_for(part, on_all_cores)
        kinds = kinds_for(job)
        files = tuple(produce(job, kind, order.choices, order.base) for kind in kinds)
    except CannotMakeError as error:
        return Made(order, (), said, error.findings, error.figures, code=error.exit_code)
    except ProfilegenError as error:
        return Made(order, (), said, problems=error.problems, code=error.exit_code)
    kept = record(order.base.parent, files, _inputs(job.part, order), _options(order))
    found, code = job.findings, 3 if job.is_refused else 0
    return Made(order, (*files, kept), said, found, part.figures, code=code)


def _inputs(part: Part, order: Order) -> dict[str, bytes]:
    """The part file, or what came from standard input, and every file that was read for it, by name
    as seen from its folder."""
    folder = Path(order.file).parent
    if order.text is None:
        own = {Path(order.file).name: Path(order.file).read_bytes()}
    else:
        own = {order.name: order.text.encode()}
    return own | {_name_from(folder, path): path.read_bytes() for path in part.files}


def _name_from(folder: Path, path: Path) -> str:
    """A file's name as seen from a folder; in full where no way leads there, on another drive."""
    try:
        return Path(os.path.relpath(path, folder)).as_posix()
    except ValueError:
        return path.as_posix()


def _options(order: Order) -> dict[str, str | None]:
    """What was chosen on the command line, as the record keeps it."""
    choices = order.choices
    return {
        "dxf_version": choices.version,
        "paper": choices.paper,
        "units": order.units,
        "decimal": order.decimal,
    }


def _say(made: Made) -> None:
    """Everything said of one part before its files are written."""
    if made.problems:
        say_problems(made.problems, made.order.name)
    if made.fault:
        say(f"{made.order.name}: {made.fault}")
    for line in made.said:
        talk(line)
    say_findings(made.findings, made.figures)


def _say_left_over(made: Made, written: Sequence[Written]) -> None:
    """Name files of an earlier run that were not made anew: they may belong to another wheel."""
    names = {item.path for item in written}
    stale = [path.name for path in _earlier(made.order.base) if path not in names]
    if stale:
        say(f"caution: from an earlier run, not of the part as it stands: {', '.join(stale)}")


def _earlier(base: Path) -> Iterator[Path]:
    """The files in a part's folder that have the names of outputs."""
    if base.parent.is_dir():
        names = names_of(base)
        yield from (path for path in sorted(base.parent.iterdir()) if path.name in names)
