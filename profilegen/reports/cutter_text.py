"""The cutters of a part side by side on its wheel, as plain text.

Owns the comparison: for each cutter the laps, offset and infeed it needs, or why it cannot form the
wheel. Refuses to choose: the cutter that is set up is the part's choice, and is only marked.
"""

from __future__ import annotations

from dataclasses import replace

from profilegen.cutting.plan import Plan, plan_for
from profilegen.job import Job
from profilegen.reports.columns import columns, paragraph
from profilegen.reports.figures import Figures, figures_for

HEADER = ("", "Cutter", "Kind", "Laps", "Forms", "Offset", "Infeed at offset", "Root diameter left")


def cutter_text(job: Job) -> str:
    """Every cutter on this wheel, one row a lap, then why others cannot form it.

    Offset is of the apex from the wheel axis; infeed is from the first touch at the set offset.
    """
    figures = figures_for(job.part)
    plans = [(cutter.name, cutter.kind, plan_of(job, cutter.name)) for cutter in job.part.cutters]
    chosen = job.part.setup.cutter or job.part.cutters[0].name
    rows = [HEADER]
    for name, kind, plan in plans:
        rows += _rows(name, kind, plan, figures, "set up" if name == chosen else "")
    lines = [f"{job.part.title}: cutters on this wheel", *columns(rows), ""]
    lines.append("  Offset: of the apex from the wheel axis.")
    lines.append("  Infeed at offset: from the first touch on the blank at that offset.")
    for name, _, plan in plans:
        for finding in plan.findings:
            if finding.severity != "note":
                words = finding.message.removeprefix(f"{name}: ")
                lines += ["", f"  {name}: {finding.severity}, {finding.code}"]
                lines += paragraph(words, "      ")
    return "\n".join(lines) + "\n"


def plan_of(job: Job, name: str) -> Plan:
    """The plan of one cutter of the part, standing as `[setup]` says."""
    setup = job.part.setup.model_copy(update={"cutter": name})
    return plan_for(replace(job.part, setup=setup), job.wheel)


def _rows(
    name: str, kind: str, plan: Plan, figures: Figures, mark: str
) -> list[tuple[str, str, str, str, str, str, str, str]]:
    if not plan.cuts:
        return [(mark, name, kind, "-", "cannot form it", "-", "-", "-")]
    return [
        (
            mark,
            name,
            kind,
            f"{cut.lap} of {len(plan.cuts)}",
            "face and back" if cut.forms == "both" else cut.forms,
            figures.length(0.0 if abs(cut.offset) < 5e-9 else cut.offset),
            figures.length(cut.infeed_from_offset),
            figures.length(2 * cut.root_radius),
        )
        for cut in plan.cuts
    ]
