"""How the work is turned from stop to stop: what every text and paper says of it.

What the stops themselves read is said by `index_text`. A part without dividing hardware needs none
of that, nor the plan of its stops.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import TYPE_CHECKING

from profilegen.cutting.frame import approach

if TYPE_CHECKING:
    from profilegen.forms.wheel import Rotation
    from profilegen.job import Job

NO_READINGS = (
    "NO READINGS: the dividing hardware cannot make these stops well enough, so no list of them is "
    "given."
)
"""In the place of the way and of the stops to tick."""


def approach_words(turn: Rotation) -> str:
    """How the work comes to every stop, so that backlash always lies on one side."""
    return (
        f"Turn the work {turn}, seen from its free end, to every stop and from lap to lap. Gone "
        "past it, go back by more than the backlash and come again."
    )


def has_no_readings(job: Job) -> bool:
    """Whether the part's hardware is refused, so that no list of stops may be followed."""
    return job.part.dividing is not None and any(one.way is None for one in job.indexes)


def round_lines(job: Job) -> Iterator[str]:
    """How many stops there are, round by round, how many degrees apart, and how they are come to:
    the turn and the way; where the hardware is refused, that there is no list to follow."""
    rounds, laps = job.made.rounds, len(job.plan.cuts)
    for number, of in enumerate(rounds):
        name = "" if of.name == "teeth" else f"{of.name.capitalize()}: "
        pitch = job.part.figures.angle(math.tau / of.count)
        yield f"{name}{of.count} stops of {pitch}" + (
            f" in each of {laps} laps" if laps > 1 else ""
        )
        if len(rounds) > 1:
            yield from way_taken(job, number)
    yield approach_words(approach(job.part, job.plan.frame))
    if len(rounds) == 1:
        yield from way_taken(job)


def way_taken(job: Job, number: int = 0) -> Iterator[str]:
    """The way to the stops of a round, counted from 0, or that there is none; nothing without
    hardware."""
    if job.part.dividing is None:
        return
    way = job.indexes[number].way
    if way is None:
        yield NO_READINGS
        return
    from profilegen.dividing.readings import way_words

    yield f"{way.method.capitalize()}: {way_words(way)}."
