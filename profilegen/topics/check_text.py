"""What `check` tells people: the whole job as plain text.

Owns the order (size in both units, wheel, bore, which way round, how far over and down, stops,
findings) and every sentence of it. Each depth stands with its datum. Refuses terminals and colour.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from profilegen.cutting.poses import Cut
from profilegen.cutting.touch import infeed_from
from profilegen.figures import Figures
from profilegen.findings.finding import Finding
from profilegen.findings.telling import told
from profilegen.forms.wheel import Size
from profilegen.job import Job
from profilegen.topics.columns import columns, paragraph
from profilegen.topics.index_text import stop_lines
from profilegen.topics.lap_words import formed
from profilegen.topics.zero_words import ZERO, feeler_line, from_zero, offset_zero, top_zero

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
    figures = job.part.figures
    lines = [
        *_head(job.part),
        *_table("The wheel", _fact_rows(job.wheel.sizes, figures)),
        *_table("The bore", _fact_rows(job.wheel.bore_sizes, figures)),
        *_table("Other features", _feature_rows(job.part, figures)),
        *_which_way_round(job),
        *_cuts(job, figures),
        *_stops(job, figures),
        *findings_lines(job.findings, figures),
    ]
    return "\n".join(lines) + "\n"


def refused_text(part: Part, findings: Sequence[Finding]) -> str:
    """What is known of a part whose wheel does not exist: its name, its size, and why."""
    diameter = getattr(part.wheel, "outside_diameter", None)
    size = [] if diameter is None else [f"outside diameter {part.figures.both(diameter)}"]
    return "\n".join([*_head(part), *size, *findings_lines(findings, part.figures)]) + "\n"


def findings_lines(findings: Sequence[Finding], figures: Figures) -> list[str]:
    """Every finding in order under its heading, or that there is none."""
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


def _table(heading: str, rows: Sequence[tuple[str, ...]]) -> list[str]:
    if not rows:
        return []
    return ["", heading, *columns(rows, right=frozenset({1}))]


def _fact_rows(facts: Sequence[Size], figures: Figures) -> list[tuple[str, ...]]:
    return [(f.label, _value(f, figures), f.source) for f in facts if not _is_absent(f)]


def _value(fact: Size, figures: Figures) -> str:
    """A fact with its unit; the outside diameter in both units, so that a slip of 25.4 shows."""
    if fact.key == "outside_diameter" and isinstance(fact.value, float):
        return figures.both(fact.value)
    return figures.value(fact.value, fact.quantity)


def _is_absent(fact: Size) -> bool:
    """Whether a fact only says that something was not asked for."""
    return fact.source == "solved" and fact.value == 0 and fact.quantity == "length"


def _feature_rows(part: Part, figures: Figures) -> list[tuple[str, ...]]:
    rows: list[tuple[str, ...]] = []
    if part.hub is not None:
        rows.append(("Hub diameter", figures.length(part.hub.diameter), "given"))
        rows.append(
            (f"Hub length, on the {part.hub.side}", figures.length(part.hub.length), "given")
        )
    for ring in part.holes:
        rows.append((f"{ring.count} holes, diameter", figures.length(ring.diameter), "given"))
        rows.append(("on a circle of diameter", figures.length(ring.circle_diameter), "given"))
    return rows


def _which_way_round(job: Job) -> list[str]:
    frame = job.plan.frame
    seen = "by the operator" if frame.cutter_side == "above" else "from above"
    hand = [("Seen from the free end", f"a {frame.hand_at_free_end} wheel")]
    rows = [
        *(hand if job.wheel.hand is not None else ()),
        ("Front of the wheel", f"at the {frame.front}"),
        ("Head, seen by the operator", f"on the {frame.head}"),
        ("Cutter", frame.cutter_side + (" the work" if frame.cutter_side == "behind" else "")),
        ("Spindle", f"{frame.spindle}, seen {seen}"),
        ("A conventional cut enters", f"at the {frame.enters_at}"),
        ("It pushes the work", "out of the chuck" if frame.pushes == "pulls out" else frame.pushes),
    ]
    if job.plan.flat is not None:
        rows.append(("The cutter's steep flank looks", frame.looks(job.plan.flat)))
    return ["", "Which way round", *columns(rows)]


def _cuts(job: Job, figures: Figures) -> Iterator[str]:
    yield ""
    yield "How far over, how far down"
    if not job.plan.cuts:
        yield "  no cutter that can form this wheel is set up"
        return
    frame = job.plan.frame
    for cut in job.plan.cuts:
        yield from _one_cut(job, cut, figures)
    for words in (top_zero(frame), offset_zero(), feeler_line(job.part, figures)):
        yield from paragraph(words, "  ", "    ")
    yield f"  To cut deeper the cutter moves {frame.infeed_words}."
    owner = ", to the tooth that owns the face" if job.wheel.hand is not None else ""
    yield f"  A positive offset moves it {frame.offset_words}{owner}."


def _one_cut(job: Job, cut: Cut, figures: Figures) -> Iterator[str]:
    lap = f", lap {cut.lap}" if len(job.plan.cuts) > 1 else ""
    yield f"  {cut.tool.name}{lap}: {formed(job.wheel, cut)}"
    feeler = job.part.setup.feeler or 0.0
    rows = [
        ("Offset of the apex from the wheel axis", figures.both(_tidy(cut.offset))),
        ("Offset of the tip from the wheel axis", figures.both(_tidy(cut.tip.real))),
        *(
            (f"Infeed {from_zero(zero)}", figures.both(infeed_from(cut, zero, feeler)))
            for zero in ZERO
        ),
        ("Tip to the wheel axis along the infeed, at depth", figures.both(cut.tip.imag)),
        ("Radial depth, blank radius less root radius", figures.both(cut.radial_depth)),
        ("Root diameter that it leaves", figures.both(2 * cut.root_radius)),
    ]
    for line in columns(rows):
        yield f"  {line}"


def _tidy(mm: float) -> float:
    """A length without the rounding error that would print as a sign."""
    return 0.0 if abs(mm) < 5e-9 else mm


def _stops(job: Job, figures: Figures) -> Iterator[str]:
    index, pitch = job.index, figures.angle(math.tau / job.wheel.teeth)
    laps = len(index.laps)
    yield ""
    yield "Stops"
    yield f"  {job.wheel.teeth} stops of {pitch}" + (f" in each of {laps} laps" if laps > 1 else "")
    for line in stop_lines(job, figures):
        yield from paragraph(line, "  ", "  ")
