"""`make`: everything of one part, or of many, into a folder for each.

A part's files are written as soon as all of them are made, one folder at a time, whole or not at
all; a part whose files are there as its last run left them, from the same input, is not made again.
A part that fails, by its own fault or by ours, keeps no other from being made; the exit code is the
gravest of all, and a summary closes. What is done is told in the order of the files named.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from contextlib import closing
from os.path import realpath
from pathlib import Path
from shlex import join
from typing import TYPE_CHECKING, NamedTuple, cast

import click

from profilegen.cli.batch import How, Outcome, outcomes
from profilegen.cli.options import (
    command,
    command_again,
    file_names,
    look_options,
    open_option,
    paper_option,
    version_option,
)
from profilegen.cli.orders import Order
from profilegen.cli.producing import Choices, stem_of
from profilegen.cli.saying import say, say_problems, say_worded, say_written, talk
from profilegen.cli.standard_input import DASH, part_or_none, text_given
from profilegen.cli.stopping import hear_again
from profilegen.errors import InputError, Problem

if TYPE_CHECKING:
    from profilegen.cli.producing import Paper, Version
    from profilegen.part.part import Part


class Told(NamedTuple):
    """What is kept of a part once it has been told, for the summary."""

    name: str
    state: str
    code: int


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
@click.option(
    "--anew", is_flag=True, help="Make every part, also where its files are as they would be."
)
@click.option(
    "--cluster",
    metavar="ADDRESS",
    help="Make the parts on the workers of this dask scheduler; on all cores when left out.",
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
    anew: bool,
    cluster: str | None,
    version: str,
    units: str | None,
    decimal: str | None,
    paper: str | None,
    show: bool,
) -> int:
    """Write everything of each part FILE into DIR/NAME/, NAME being the file's name without .toml.

    DXF to send out, outline with the cutter in it (not for cutting), check template and set-up
    sheet as PDF and SVG (of the sheet the first page), record sheet as PDF, stops as CSV, all
    numbers as JSON. What the program wrote and nobody changed since is replaced; a part whose files
    are still as they were made, from the same input, is left as it is. When the cutter cannot form
    the wheel, what does not depend on the cutter is still written, and the exit code is 3.
    """
    choices = Choices(cast("Version", version), cast("Paper | None", paper))
    _refuse_commands(files)
    text = text_given() if DASH in files else None
    orders = [
        Order(file, Path(out) / stem / stem, units, decimal, choices, given)
        for file, stem in _stems(files, part_or_none(text))
        for given in (text if file == DASH else None,)
    ]
    told = _all_told(orders, How(force, command_again(ctx), anew, cluster), Path(out))
    if len(orders) > 1:
        _sum_up(told, Path(out))
    if show and any(order.base.parent.is_dir() for order in orders):
        click.launch(str(orders[0].base.parent if len(orders) == 1 else Path(out)))
    return max((one.code for one in told), key=_gravity)


def _gravity(code: int) -> int:
    """Faults of the program are the gravest, then the higher code."""
    return 99 if code == 1 else code


def _all_told(orders: Sequence[Order], how: How, folder: Path) -> list[Told]:
    """Make every part, each told as soon as those before it are; after Ctrl-C all that is finished
    is told."""
    told: list[Told] = []
    waiting: dict[str, Outcome] = {}
    try:
        with closing(outcomes(orders, how)) as finished:
            for order, outcome in finished:
                waiting[order.file] = outcome
                told += _told_in_turn(orders[len(told) :], waiting)
                if len(told) < len(orders):
                    hear_again()
    except KeyboardInterrupt:
        told += [_tell(outcome) for outcome in waiting.values()]
        if told:
            made = sum(one.state != "failed" for one in told)
            talk(f"{made} of {len(orders)} parts made in {folder} before the stop")
        raise
    return told


def _told_in_turn(orders: Sequence[Order], waiting: dict[str, Outcome]) -> Iterator[Told]:
    """Tell what waits to be told, up to the first order that is not finished."""
    for order in orders:
        if order.file not in waiting:
            return
        yield _tell(waiting.pop(order.file))


def _tell(outcome: Outcome) -> Told:
    """Say what came of one part."""
    if outcome.problems:
        say_problems(outcome.problems, outcome.name)
    if outcome.fault:
        say(f"{outcome.name}: {outcome.fault}")
    for line in outcome.said:
        talk(line)
    say_worded(outcome.findings)
    if outcome.unwritten:
        say_problems(outcome.unwritten)
    if outcome.left_over:
        names = ", ".join(outcome.left_over)
        say(f"caution: from an earlier run, not of the part as it stands: {names}")
    say_written(outcome.written)
    if outcome.state == "unchanged":
        talk(f"{outcome.name}: unchanged, its files stand in {outcome.folder}")
    elif outcome.code and outcome.written:
        say(f"{outcome.name}: written all the same, for the wheel itself can be made")
    elif outcome.code:
        say(f"{outcome.name}: nothing was written for this part")
    return Told(outcome.name, outcome.state, outcome.code)


def _sum_up(told: Sequence[Told], folder: Path) -> None:
    """The last lines of many: how many are made, and which to look at."""
    states = Counter(one.state for one in told)
    counts = ", ".join(f"{states[state]} {state}" for state in ("made", "unchanged", "failed"))
    talk(f"{len(told)} parts in {folder}: {counts}")
    bad = [one.name for one in told if one.code]
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
    """Each file once, with the name of its folder; `given` is the part from standard input.

    Raises:
        InputError: two different files would share a folder.
    """
    found: dict[str, tuple[str, str]] = {}
    for file in files:
        stem = stem_of(file, given)
        other, _ = found.setdefault(stem.lower(), (file, stem))
        if other != file and realpath(other) != realpath(file):
            text = f"{other} has the same name, so both would be written to one folder"
            raise InputError(Problem(file, text, hint="make them one after the other, with --out"))
    return list(found.values())
