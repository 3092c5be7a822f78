"""What `gauge` tells people: every size to measure with its limits, as plain text.

Owns the order: sizes, how they are taken, where the limits come from, pilot and slotting.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from profilegen.gauging.bores import BorePlan
from profilegen.job import Job
from profilegen.topics import gauge_words as words
from profilegen.topics.columns import paragraph, text_lines
from profilegen.topics.slotting_words import bore_sections, no_pilot, pilot_table
from profilegen.topics.topic import Line, topics, written


def gauge_text(job: Job) -> str:
    """Everything that is measured of a job's wheel, in the part's unit and decimal mark."""
    figures, part = job.part.figures, job.part
    first: dict[str, Iterable[Line]] = {
        "What to measure": [words.measured(job)],
        "How they are taken": words.how_lines(job),
        "Where the limits come from": words.default_lines(job.gauges),
        **_pilot(job),
    }
    said = (*topics(first), *bore_sections(job), *topics({"Cautions": words.SAFETY}))
    lines = [
        f"{part.title}  {part.number}".rstrip(),
        f"outside diameter {figures.both(2 * job.wheel.radius)}",
        *(line for text in words.head_lines(job) for line in ("", *paragraph(text, "", ""))),
        *text_lines(written(said, figures)),
    ]
    return "\n".join(lines) + "\n"


def _pilot(job: Job) -> dict[str, Iterator[Line]]:
    plan = job.gauges.bore
    if plan is None:
        return {}
    name = "square" if plan.sides == 4 else "hexagon"
    return {f"Pilot for the {name}": _pilot_lines(job, plan)}


def _pilot_lines(job: Job, plan: BorePlan) -> Iterator[Line]:
    if not plan.pilots:
        yield no_pilot(plan, job.part.figures)
        return
    yield pilot_table(plan)
    if plan.sides == 4:
        yield (
            "For a square that carries load go no more than 5 % over the flats; a broach is "
            "easier with 10 to 15 %."
        )
    else:
        yield "For broaching a hexagon 3 to 5 % over the flats is usual."
