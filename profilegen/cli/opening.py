"""From a file name to a solved job, with what every command says on the way.

Owns reading the part, the overrides of its look, and the lines said of every part.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, cast

from profilegen.cli.saying import part_lines, talk
from profilegen.cli.standard_input import DASH, called, part_in, text_given
from profilegen.errors import Problem

if TYPE_CHECKING:
    from profilegen.job import Job
    from profilegen.part.part import Part
    from profilegen.units import DecimalMark, Unit


def opened(
    file: str, units: str | None = None, decimal: str | None = None, text: str | None = None
) -> Part:
    """Read one part; `units` and `decimal` change how it is written, not its sizes.

    `text` is what came from standard input, where that has been read before.

    Raises:
        InputError: it cannot be read or understood.
    """
    from profilegen.part.load import load

    given = text_given() if file == DASH and text is None else text
    part = load(file) if given is None else part_in(given)
    return replace(
        part,
        typed_in=part.units,
        units=cast("Unit", units or part.units),
        decimal=cast("DecimalMark", decimal or part.decimal),
    )


def solved(part: Part, tells_size: bool = False) -> Job:
    """Say what is said of every part, then solve and plan the part; `tells_size` where what is
    printed then has its outside diameter.

    Raises:
        CannotMakeError: no wheel has these sizes.
    """
    from profilegen.cli.cores import on_all_cores
    from profilegen.job import job_for

    say_part(part, tells_size)
    return job_for(part, on_all_cores)


def say_part(part: Part, tells_size: bool = False) -> None:
    """Say what is said of every part: its outside diameter in both units and the like."""
    for line in part_lines(part, tells_size=tells_size):
        talk(line)


def no_teeth(file: str, what: str) -> Problem:
    """Why a command of cutters has nothing to do.

    Args:
        file: the part, as it was named.
        what: there is not, behind `so there is`.
    """
    text = f"this wheel has no teeth for a cutter to form, so there is {what}"
    return Problem(called(file), text, hint=f"profilegen check {file} says how it is made")


def exit_code_of(job: Job) -> int:
    """3 when something cannot be made as asked, else 0."""
    return 3 if job.is_refused else 0
