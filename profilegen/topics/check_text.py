"""What `check` tells people: the whole job as plain text.

Owns the order (size in both units, wheel, bore, which way round, how far over and down, stops,
findings) and every sentence of it. Each depth stands with its datum. Refuses terminals and colour.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from itertools import chain
from typing import TYPE_CHECKING

from profilegen.figures import Figures, both
from profilegen.findings.finding import Finding
from profilegen.findings.telling import told
from profilegen.forms.wheel import Size
from profilegen.job import Job
from profilegen.topics.columns import paragraph, text_lines
from profilegen.topics.lap_words import formed
from profilegen.topics.shared_rows import WAY_ROUND, hole_rows, hub_rows, row_of, way_round_lines
from profilegen.topics.topic import Line, Row, topics, written
from profilegen.topics.turning_words import has_no_readings, round_lines
from profilegen.topics.zero_words import depth_rows, feeler_line, offset_zero, top_zero

if TYPE_CHECKING:
    from profilegen.part.part import Part

SEVERITIES = {
    "refused": "cannot be made as asked",
    "caution": "look into it before you cut",
    "note": "good to know",
}
"""What each severity means to the reader."""


def check_text(job: Job) -> str:
    """Everything known of a job, for people, in the part's unit and decimal mark."""
    said = topics(
        {
            "The wheel": _size_rows(job.wheel.sizes),
            "The bore": _size_rows(job.wheel.bore_sizes),
            "Other features": chain(hub_rows(job.part), hole_rows(job.part)),
            WAY_ROUND: way_round_lines(job) if job.wheel.is_toothed else (),
            "How far over, how far down": _cuts(job) if job.wheel.is_toothed else (),
            **_drilling(job),
            "Stops": _stops(job),
        }
    )
    lines = [*_head(job.part), *text_lines(written(said, job.part.figures))]
    return "\n".join([*lines, *findings_lines(job.findings, job.part.figures)]) + "\n"


def refused_text(part: Part, findings: Sequence[Finding]) -> str:
    """What is known of a part whose wheel does not exist: name, size in both units, and why.

    Args:
        part: for its name, and the unit that comes first.
        findings: in order, the refusal among them.
    """
    diameter = getattr(part.wheel, "outside_diameter", None)
    size = [] if diameter is None else [f"outside diameter {part.figures.both(diameter)}"]
    return "\n".join([*_head(part), *size, *findings_lines(findings, part.figures)]) + "\n"


def findings_lines(findings: Sequence[Finding], figures: Figures) -> list[str]:
    """Every finding in order under its heading, or that there is none.

    Args:
        findings: with their facts in mm and rad.
        figures: the unit and the decimal mark in which they are told.
    """
    lines = ["", "Findings"]
    if not findings:
        lines.append("  none")
    for finding in findings:
        words = SEVERITIES[finding.severity]
        lines.append(f"  {finding.severity}: {finding.code} ({words})")
        lines += paragraph(told(finding, figures), "      ")
    return lines


def _head(part: Part) -> list[str]:
    lines = [f"{part.title}  {part.number}".rstrip()]
    if part.material:
        lines.append(f"material: {part.material}")
    return lines


def _drilling(job: Job) -> dict[str, Iterable[Line]]:
    """How the holes of circles are drilled, and where each stands; nothing of other wheels."""
    if not any(of.size for of in job.made.rounds):
        return {}
    from profilegen.topics.drilling import drilling_lines, drilling_tables

    tables: dict[str, Iterable[Line]] = {title: [table] for title, table in drilling_tables(job)}
    return {"Where to drill": drilling_lines(job), **tables}


def _size_rows(sizes: Sequence[Size]) -> Iterator[Row]:
    """Every size, those left out that only say that something was not asked for."""
    for size in sizes:
        if not (size.source == "solved" and size.value == 0 and size.quantity == "length"):
            yield row_of(size)


def _cuts(job: Job) -> Iterator[Line]:
    if not job.plan.cuts:
        yield "no cutter that can form this wheel is set up"
        return
    frame = job.plan.frame
    for cut in job.plan.cuts:
        lap = f", lap {cut.lap}" if len(job.plan.cuts) > 1 else ""
        yield f"{cut.tool.name}{lap}: {formed(job.wheel, cut)}"
        yield Row("Offset of the apex from the wheel axis", both(cut.offset))
        yield Row("Offset of the tip from the wheel axis", both(cut.tip.real))
        yield from depth_rows(job.part, cut)
        yield Row("Root diameter that it leaves", both(2 * cut.root_radius))
    yield from (top_zero(frame), offset_zero(), feeler_line(job.part))
    yield f"To cut deeper the cutter moves {frame.infeed_words}."
    owner = ", to the tooth that owns the face" if job.wheel.hand is not None else ""
    yield f"A positive offset moves it {frame.offset_words}{owner}."


def _stops(job: Job) -> Iterator[Line]:
    """How many stops there are, how they are come to, and how later laps are begun."""
    yield from round_lines(job)
    if len(job.plan.cuts) > 1 and not has_no_readings(job):
        from profilegen.topics.index_text import lap_changes

        yield from lap_changes(job.index, job.part.figures)
