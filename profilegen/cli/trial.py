"""`trial`: how much deeper after measured trial cuts.

Owns the reading of sizes and dial from the line or by asking, and what to say to a number that only
makes sense in the other unit. Refuses the arithmetic (`cutting/trial.py`).
"""

from __future__ import annotations

import math
import re
from dataclasses import replace
from typing import TYPE_CHECKING, Any

import click

from profilegen.cli.ending import to_stdout
from profilegen.cli.opening import no_teeth, opened, solved
from profilegen.cli.options import command, file_argument, look_options
from profilegen.cli.saying import answer_to, say, say_problems
from profilegen.cli.standard_input import DASH, called
from profilegen.errors import InputError, Problem
from profilegen.findings.cannot_make import CannotMakeError

if TYPE_CHECKING:
    from profilegen.cutting.taken import Taken
    from profilegen.cutting.touch import InfeedZero
    from profilegen.cutting.trial import Land, Limits, Trial
    from profilegen.job import Job
    from profilegen.setting.trial_dial import DialStand
    from profilegen.units import Unit

MOST_LANDS = 1000
"""Lands that are taken: one a tooth of the biggest wheel."""

_BARE = re.compile(r"[0-9.,/ -]+")


@command(
    "profilegen trial take-up-ratchet.toml --land 0.62 --dial 2.80",
    "profilegen trial warp-beam-ratchet.toml --land 1:0.115 --land 7:0.117 --land 14:0.112 --json",
)
@file_argument
@click.option(
    "--land",
    "lands",
    multiple=True,
    metavar="[SPACE:]SIZE",
    help="A measured land, with the number of the space before it when several are given; asked "
    "for when left out.",
)
@click.option(
    "--take",
    "takes",
    multiple=True,
    metavar="KEY=SIZE",
    help="Another measured size in place of a land: over_pins or span, as profilegen gauge --json "
    "calls them. --land SIZE is short for --take land=SIZE.",
)
@click.option(
    "--dial",
    metavar="SIZE",
    help="What the infeed dial shows now, set to 0 at its zero, touched through the part's "
    "setup.feeler where it has one. With per_turn in the part, turns are found from the land.",
)
@click.option(
    "--zero",
    type=click.Choice(["top", "offset"], case_sensitive=False),
    metavar="[top|offset]",
    help="The zero that the dial counts from, as the sheet calls it: the top zero or the offset "
    "zero. That of the part's setup.touch, or the one that fits the land better, when left out.",
)
@click.option(
    "--json",
    "as_json",
    is_flag=True,
    help="One JSON object, always mm and degrees. dial_from_top and dial_from_offset count "
    "from the top and the offset zero through the feeler, as the sheet does; infeed_from_top and "
    "infeed_from_offset metal to metal.",
)
@look_options
def trial(
    file: str,
    lands: tuple[str, ...],
    takes: tuple[str, ...],
    dial: str | None,
    zero: InfeedZero | None,
    as_json: bool,
    units: str | None,
    decimal: str | None,
) -> int:
    """Say how much deeper to go after measured trial cuts, and which size to expect.

    Cut three neighbouring spaces short, measure the lands between them straight across the crest,
    and give them; or measure over pins or a span, and give that. A bare size is in the part's unit.
    """
    from profilegen.job import trial_of

    given = (*(f"land={text}" for text in lands), *takes)
    _refuse_asking(file, given)
    part = opened(file)
    unit = part.units
    look: dict[str, Any] = {"units": units or unit, "decimal": decimal or part.decimal}
    job = solved(replace(part, **look))
    _needs_cuts(job, file)
    taken, sizes = _given(job, given)
    found = tuple(_land(job, taken, unit, text) for text in sizes[:MOST_LANDS])
    told = trial_of(job, found or _asked(job, taken, unit), taken.key)
    reading = None if dial is None else _dial(job, told, dial, unit, zero)
    if not given and dial is None:
        reading = _asked_dial(job, told, unit, zero)
    _tell(job, told, reading, as_json)
    return 0


def _given(job: Job, given: tuple[str, ...]) -> tuple[Taken, list[str]]:
    """The size that was measured, the first that trial cuts show when none is given, and what
    stands after its key.

    Raises:
        InputError: there is no such size, or there are two.
    """
    pairs = [text.partition("=")[::2] for text in given]
    keys = list(dict.fromkeys(key.strip().lower() for key, _ in pairs)) or list(job.taken)[:1]
    allowed = " or ".join(f"{key}=SIZE" for key in job.taken)
    if not keys or keys[0] not in job.taken:
        text = "this is no size that trial cuts of this wheel show"
        raise InputError(Problem("--take", text, "".join(given[:1])[:60], allowed))
    if len(keys) > 1:
        text = "one size tells the depth, and two are given"
        hint = "give them one after the other"
        raise InputError(Problem("--take", text, " and ".join(keys)[:60], hint=hint))
    return job.taken[keys[0]], [size for _, size in pairs]


def _refuse_asking(file: str, lands: tuple[str, ...]) -> None:
    """Refuse to ask for lands where the answers would come from the part's own text.

    Raises:
        InputError: saying so.
    """
    if file == DASH and not lands:
        text = "standard input holds the part, so no land can be asked for"
        raise InputError(Problem("--land", text, hint="give what was measured with --land"))


def _needs_cuts(job: Job, file: str) -> None:
    """Refuse a part without cuts.

    Raises:
        CannotMakeError: its cutter cannot form the wheel.
        InputError: it has no cutter.
    """
    from profilegen.findings.finding import refused

    if job.is_refused:
        raise CannotMakeError(*refused(job.findings), figures=job.part.figures)
    if not job.wheel.is_toothed:
        raise InputError(no_teeth(file, "no trial cut to read"))
    if not job.plan.cuts:
        text = "the part has no [[cutter]], so there is no depth to correct"
        raise InputError(
            Problem(called(file), text, hint="add the [[cutter]] that made the trial cuts")
        )


def _tell(job: Job, told: Trial, reading: DialStand | None, as_json: bool) -> None:
    if as_json:
        from profilegen.output.json_text import json_text
        from profilegen.topics.dicts import trial_dict

        to_stdout(json_text(trial_dict(told)).encode())
    else:
        from profilegen.topics.trial_text import trial_text

        to_stdout(trial_text(job, told, reading))


def _land(job: Job, taken: Taken, unit: Unit, text: str) -> Land:
    """One measured size.

    Raises:
        InputError: it is no size, in doubt between the units, or none of this wheel.
    """
    from profilegen.cutting.trial import Land, limits_of, suits_other_unit

    where = "--land" if taken.shows_run_out else "--take"
    space, mark, size = text.rpartition(":")
    value = _size(where, size, unit)
    limits = limits_of(taken)
    if _is_bare(size) and suits_other_unit(value, unit, limits) is not None:
        raise InputError(_other_unit(where, size, unit, f"a {taken.label} of this wheel"))
    if taken.shows_run_out:
        _check_land(job, text, value, limits)
    return Land(value, _space(job, space, text) if mark else None)


def _check_land(job: Job, text: str, value: float, limits: Limits) -> None:
    pitch = 2 * job.made.radius * math.sin(job.made.angular_pitch / 2)
    if value <= 0 or value >= pitch:
        what = "a land is more than nothing" if value <= 0 else "a land is less than the pitch"
        most, least = map(job.part.figures.both, (pitch, limits.target))
        allowed = f"over 0, under {most}; {least} at full depth"
        raise InputError(Problem("--land", what, text, allowed, "measure straight across a crest"))


def _space(job: Job, text: str, whole: str) -> int:
    """The number of a space."""
    teeth = job.wheel.teeth
    if not (text.isascii() and text.isdigit()) or not 1 <= int(text[:9]) <= teeth:
        raise InputError(
            Problem(
                "--land",
                "this names no space of the wheel",
                whole[:60],
                f"the number of the space before the land, 1 to {teeth}, a colon and the size",
            )
        )
    return int(text)


def _size(where: str, text: str, unit: Unit) -> float:
    """A size in mm; raises InputError when it is none."""
    from profilegen.units import UnitsError, parse_length

    try:
        return parse_length(text, unit)
    except UnitsError as error:
        problem = Problem(where, error.message, text[:60], error.allowed, error.hint)
        raise InputError(problem) from None


def _is_bare(text: str) -> bool:
    """Whether a size names no unit."""
    return _BARE.fullmatch(text.strip()) is not None


def _other_unit(where: str, text: str, unit: Unit, what: str) -> Problem:
    other = "in" if unit == "mm" else "mm"
    words = {"mm": "millimetres", "in": "inches"}
    size = text.strip()
    return Problem(
        where,
        f"in {words[unit]}, the part's unit, this makes no sense as {what}; in {words[other]} it "
        "does",
        size,
        "a size with its unit",
        f'say which is meant: "{size} {other}" or "{size} {unit}"',
    )


def _dial(job: Job, told: Trial, text: str, unit: Unit, zero: InfeedZero | None) -> DialStand:
    """Where the dial stands; a bare reading is in its own unit, or else in the part's.

    Raises:
        InputError: it is no size, or in doubt between the units.
    """
    from profilegen.setting.trial_dial import dial_marked, dial_unit, is_of_other_unit, stand_of

    part = replace(job.part, units=unit)
    own = dial_unit(part)
    figure = _size("--dial", text, own)
    if _is_bare(text) and is_of_other_unit(told, figure / dial_marked(part), own):
        raise InputError(_other_unit("--dial", text, own, "the infeed of these cuts"))
    return stand_of(part, job.setting, told, figure, zero)


def _asked(job: Job, taken: Taken, unit: Unit) -> tuple[Land, ...]:
    """Lands from standard input, one a line, until an empty line.

    Raises:
        InputError: the answers end before the first land.
    """
    several = "; SPACE:SIZE when there are several" if taken.shows_run_out else ""
    say(f"{taken.plural} as measured, in {unit} or with their unit{several}")
    lands: list[Land] = []
    while len(lands) < MOST_LANDS:
        line = _line(taken.label if not lands else f"next {taken.label}, or an empty line")
        if not line and lands:
            break
        if line is None:
            text = f"the answers ended before a {taken.label} was given"
            hint = (
                "give --land SIZE, 0.62 say"
                if taken.shows_run_out
                else f"give --take {taken.key}=SIZE"
            )
            raise InputError(
                Problem("--land" if taken.shows_run_out else "--take", text, hint=hint)
            )
        try:
            lands.append(_land(job, taken, unit, line))
        except InputError as error:
            say_problems(error.problems)
    return tuple(lands)


def _asked_dial(job: Job, told: Trial, unit: Unit, zero: InfeedZero | None) -> DialStand | None:
    """The dial from standard input, or None for an empty line."""
    while line := _line("infeed dial as it stands now, or an empty line"):
        try:
            return _dial(job, told, line, unit, zero)
        except InputError as error:
            say_problems(error.problems)
    return None


def _line(name: str) -> str | None:
    """One line from standard input, or None when there is no more."""
    try:
        return answer_to(f"{name}: ")
    except UnicodeDecodeError:
        text = "this is no text that can be read"
        raise InputError(Problem("--land", text)) from None
