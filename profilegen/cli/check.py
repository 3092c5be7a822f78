"""`check`: solve a part and print what is known of it."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from profilegen.cli.ending import to_stdout
from profilegen.cli.opening import exit_code_of, opened, solved
from profilegen.cli.options import command, file_argument, look_options
from profilegen.cli.saying import say
from profilegen.findings.cannot_make import CannotMakeError

if TYPE_CHECKING:
    from profilegen.part.part import Part


@command(
    "profilegen check take-up-ratchet.toml",
    "profilegen check warp-beam-ratchet.toml --json",
)
@file_argument
@click.option("--json", "as_json", is_flag=True, help="One JSON object, always mm and degrees.")
@look_options
def check(file: str, as_json: bool, units: str | None, decimal: str | None) -> int:
    """Solve the wheel of a part; print its sizes, its cuts and what to look out for.

    The exit code is 3 when something cannot be made as asked; what is known is printed even then.
    """
    part = opened(file, units, decimal)
    try:
        job = solved(part, tells_size=not as_json)
    except CannotMakeError as error:
        to_stdout(_refused(part, error, as_json))
        say("this wheel cannot be made as asked: see the findings")
        return error.exit_code
    if as_json:
        from profilegen.output.json_text import json_text

        to_stdout(json_text(job.as_dict()).encode())
    else:
        from profilegen.topics.check_text import check_text

        to_stdout(check_text(job))
    if job.is_refused:
        say("this cannot be made as asked: see the findings")
    return exit_code_of(job)


def _refused(part: Part, error: CannotMakeError, as_json: bool) -> str | bytes:
    """What is known of a part whose wheel does not exist."""
    if not as_json:
        from profilegen.topics.check_text import refused_text

        return refused_text(part, error.findings)
    from profilegen.output.json_text import json_text
    from profilegen.topics.dicts import SCHEMA, findings_list

    return json_text(
        {
            "schema": SCHEMA,
            "title": part.title,
            "number": part.number,
            "findings": findings_list(error.findings, error.figures),
        }
    ).encode()
