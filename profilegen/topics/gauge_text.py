"""What `gauge` tells people: every size to measure with its limits, as plain text.

Owns the order: sizes, how they are taken, where the limits come from, pilot and slotting.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from profilegen.figures import Figures
from profilegen.gauging.bores import BorePlan
from profilegen.gauging.gauges import Gauges
from profilegen.job import Job
from profilegen.topics import gauge_words as words
from profilegen.topics.columns import columns, paragraph
from profilegen.topics.slotting_words import bore_sections, no_pilot, pilot_rows
from profilegen.topics.topic import written
from profilegen.units import both_units


def gauge_text(job: Job) -> str:
    """Everything that is measured of a job's wheel, in the part's unit and decimal mark."""
    gauges, figures, part = job.gauges, job.part.figures, job.part
    size = both_units(2 * job.wheel.radius, first=part.units, decimal=part.decimal)
    lines = [
        f"{part.title}  {part.number}".rstrip(),
        f"outside diameter {size}",
        *_head(gauges, figures),
        *_sizes(gauges, figures),
        *_block("How they are taken", _how(job, gauges, figures)),
        *_block("Where the limits come from", words.default_lines(gauges)),
        *_bore(gauges, figures),
        *_placed(job, figures),
        *_block("Cautions", words.SAFETY),
    ]
    return "\n".join(lines) + "\n"


def _head(gauges: Gauges, figures: Figures) -> list[str]:
    said = words.head_lines(gauges, figures)
    return [line for text in said for line in ("", *paragraph(text, "", ""))]


def _how(job: Job, gauges: Gauges, figures: Figures) -> Iterator[str]:
    yield from words.pin_lines(job, gauges, figures)
    yield from words.face_lines(gauges, job)


def _sizes(gauges: Gauges, figures: Figures) -> list[str]:
    rows = [("", "nominal", "low", "high", "with"), *words.feature_rows(gauges, figures)]
    return ["", "What to measure", *columns(rows, right=frozenset({1, 2, 3}))]


def _block(heading: str, said: Iterable[str]) -> list[str]:
    lines = [line for text in said for line in paragraph(text, "  ", "  ")]
    return ["", heading, *lines] if lines else []


def _bore(gauges: Gauges, figures: Figures) -> Iterator[str]:
    plan = gauges.bore
    if plan is None:
        return
    name = "square" if plan.sides == 4 else "hexagon"
    yield from ("", f"Pilot for the {name}")
    if plan.pilots:
        yield from columns(pilot_rows(plan, figures), right=frozenset({1, 2}))
        yield from paragraph(_pilot_note(plan), "  ", "  ")
    else:
        yield from paragraph(no_pilot(plan, figures), "  ", "  ")


def _placed(job: Job, figures: Figures) -> Iterator[str]:
    """How the bore is made where it must stand right to the teeth."""
    for one in written(bore_sections(job), figures):
        said = (
            line if isinstance(line, str) else f"{line.label}: {line.value}" for line in one.lines
        )
        yield from _block(one.heading, said)


def _pilot_note(plan: BorePlan) -> str:
    if plan.sides == 4:
        return (
            "For a square that carries load go no more than 5 % over the flats; a broach is "
            "easier with 10 to 15 %."
        )
    return "For broaching a hexagon 3 to 5 % over the flats is usual."
