"""What `gauge` tells people: every size to measure with its limits, as plain text.

Owns the order: sizes, how they are taken, where the limits come from, pilot and slotting.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from profilegen.gauging.bores import BorePlan
from profilegen.gauging.gauges import Gauges
from profilegen.job import Job, gauges_of
from profilegen.reports import gauge_words as words
from profilegen.reports.columns import columns, paragraph
from profilegen.reports.figures import Figures, figures_for
from profilegen.units import both_units


def gauge_text(job: Job) -> str:
    """Everything that is measured of a job's wheel, in the part's unit and decimal mark."""
    gauges, figures, part = gauges_of(job), figures_for(job.part), job.part
    size = both_units(2 * job.wheel.radius, first=part.units, decimal=part.decimal)
    lines = [
        f"{part.title}  {part.number}".rstrip(),
        f"outside diameter {size}",
        *_head(gauges, figures),
        *_sizes(gauges, figures),
        *_block("How they are taken", _how(job, gauges, figures)),
        *_block("Where the limits come from", words.default_lines(gauges)),
        *_bore(job, gauges, figures),
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
    rows: list[tuple[str, ...]] = [("", "nominal", "low", "high", "with")]
    for feature in gauges.features:
        sizes = words.sizes(feature, figures)
        rows.append((words.named(feature, figures), *sizes, feature.instrument))
    return ["", "What to measure", *columns(rows, right=frozenset({1, 2, 3}))]


def _block(heading: str, said: Iterable[str]) -> list[str]:
    lines = [line for text in said for line in paragraph(text, "  ", "  ")]
    return ["", heading, *lines] if lines else []


def _bore(job: Job, gauges: Gauges, figures: Figures) -> Iterator[str]:
    plan = gauges.bore
    if plan is None:
        return
    name = "square" if plan.sides == 4 else "hexagon"
    yield from ("", f"Pilot for the {name}")
    if plan.pilots:
        yield from columns(words.pilot_rows(plan, figures), right=frozenset({1, 2}))
        yield from paragraph(_pilot_note(plan), "  ", "  ")
    else:
        yield from paragraph(words.no_pilot(plan, figures), "  ", "  ")
    if plan.slotting is not None:
        lines = words.slotting_lines(job, plan, plan.slotting, figures)
        yield from _block("The square, slotted with the part still on the bar", lines)
        yield from paragraph("Cautions: " + " ".join(words.SLOT_SAFETY), "  ", "  ")


def _pilot_note(plan: BorePlan) -> str:
    if plan.sides == 4:
        return (
            "For a square that carries load go no more than 5 % over the flats; a broach is "
            "easier with 10 to 15 %."
        )
    return "For broaching a hexagon 3 to 5 % over the flats is usual."
