"""One part, everything computed from it, in one order.

Owns the gathering: part, wheel, plan, all findings, and the dictionary that programs read.
Refuses text for people and files.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import asdict, dataclass, replace
from typing import TYPE_CHECKING, Any

from profilegen.cutting.blank import run_out_findings, run_out_limit
from profilegen.cutting.drawn import with_drawn_cutters
from profilegen.cutting.plan import Plan, plan_for
from profilegen.cutting.poses import Cut
from profilegen.cutting.relief import Relief, relief_findings, relief_of
from profilegen.cutting.shop import Shop, shop_for
from profilegen.cutting.tools import form_findings
from profilegen.errors import CannotMakeError, Finding, InputError, refused
from profilegen.geometry.measure import area, length
from profilegen.wheels.solve import solve
from profilegen.wheels.wheel import Fact, Wheel

if TYPE_CHECKING:
    from profilegen import Kind, Paper, Version
    from profilegen.cutting.budget import Budget
    from profilegen.cutting.compare import Each
    from profilegen.cutting.dividing.bore_stops import BoreStops
    from profilegen.cutting.trial import Land, Trial
    from profilegen.gauging.gauges import Gauges
    from profilegen.part.part import Part

SCHEMA = 1
"""Of the dictionary; it grows when a key changes its meaning, not when one is added."""


@dataclass(frozen=True, slots=True)
class Job:
    """One part and everything computed from it.

    Attributes:
        part: the validated file.
        wheel: what is wanted.
        nominal: how it is cut from the print's blank: what is drawn over the outline.
        shop: what the machine is set by, on the measured blank where there is one.
        findings: of the wheel first, then of set-up, blank and machine, of the cutter spun, of the
            pin.
    """

    part: Part
    wheel: Wheel
    nominal: Plan
    shop: Shop
    findings: tuple[Finding, ...] = ()

    @property
    def made(self) -> Wheel:
        """The wheel that comes out of the blank at hand."""
        return self.shop.wheel

    @property
    def plan(self) -> Plan:
        """How it is cut from the blank at hand: every setting told is of this plan."""
        return self.shop.plan

    @property
    def relief(self) -> Relief:
        """Whether the heel of the cutter that is set up clears."""
        return relief_of(self.part, self.made, self.plan.cuts)

    @property
    def bore_stops(self) -> BoreStops | None:
        """Where the head brings the corners of the bore, its keyway or its flat to the cutter
        line; None without a cut and for a round bore."""
        from profilegen.cutting.dividing.bore_stops import bore_stops

        return bore_stops(self.part, self.made, self.plan)

    @property
    def budget(self) -> Budget | None:
        """How far each setting error moves the land, by the zero that `[setup] touch` names; None
        without cuts."""
        from profilegen.cutting.budget import budget_for
        from profilegen.cutting.land_tolerance import land_tolerance

        limits, zero = land_tolerance(self.part, self.made), self.part.setup.touch
        return budget_for(self.made, self.plan.cuts, limits, zero)

    @property
    def run_out_limit(self) -> float:
        """Greatest run-out of the blank, mm, the whole swing of the indicator."""
        return run_out_limit(self.budget)

    @property
    def is_refused(self) -> bool:
        """Whether something cannot be made as asked."""
        return bool(refused(self.findings))

    def dxf(self, version: Version = "R2010") -> bytes:
        """The DXF to send out: outline and holes at nominal size, in the part's own unit."""
        return _built(self, "dxf", dxf_version=version)

    def sheet(self, kind: Kind = "pdf", paper: Paper | None = None) -> bytes:
        """The set-up sheet: all its pages as a PDF, or the first one as an SVG."""
        return _built(self, f"sheet-{kind}", paper=paper)

    def template(self, kind: Kind = "pdf", paper: Paper | None = None, scale: float = 1.0) -> bytes:
        """The template to lay the part on, as a PDF or an SVG; `scale` to 1 for a projector."""
        return _built(self, f"template-{kind}", paper=paper, scale=scale)

    def as_dict(self) -> dict[str, Any]:
        """Everything for programs: lengths in mm, angles in degrees, numbers unrounded."""
        from profilegen.cutting.budget import budget_as_dict
        from profilegen.cutting.dividing.bore_stops import bore_stops_as_dict
        from profilegen.cutting.relief import relief_as_dict
        from profilegen.cutting.shop_dict import shop_as_dict
        from profilegen.gauging.bores import bore_plan_as_dict

        outline = self.wheel.outline
        return {
            "schema": SCHEMA,
            "title": self.part.title,
            "number": self.part.number,
            "wheel": _facts(self.wheel.facts),
            "outline": {
                "area": area(outline),
                "perimeter": length(outline),
                "segments": len(outline),
                "fit_error": self.wheel.fit_error,
            },
            "bore": {**_facts(self.wheel.bore_facts), "web": self.web},
            **bore_plan_as_dict(self.part),
            **bore_stops_as_dict(self.bore_stops, self.plan.frame, self.plan.index),
            "cuts": [cut_as_dict(cut) for cut in self.plan.cuts],
            "stops": [
                {"stop": stop.stop, "lap": stop.lap, "angle": stop.angle}
                for stop in self.plan.index.stops
            ],
            "setup": self._setup(),
            **shop_as_dict(self.part, self.shop),
            "relief": relief_as_dict(self.relief),
            "budget": budget_as_dict(self.budget),
            "findings": findings_as_dicts(self.findings),
        }

    @property
    def web(self) -> float | None:
        """From bore to root, mm; None without a bore."""
        webs = [fact.value for fact in self.wheel.bore_facts if fact.key == "web"]
        return float(webs[0]) if webs else None

    def _setup(self) -> dict[str, Any]:
        frame = self.plan.frame
        return {
            "hand_at_free_end": frame.hand_at_free_end,
            "enters_at": frame.enters_at,
            "pushes": frame.pushes,
            "front": frame.front,
            "head": frame.head,
            "cutter_side": frame.cutter_side,
            "flat": self.plan.flat,
            "spindle": frame.spindle,
        }


def job_for(part: Part, each: Each = map) -> Job:
    """Solve and plan one part; `each` tries the cutters of its drawer, as `map` does.

    Raises:
        CannotMakeError: no wheel has these sizes. A cutter that cannot form the wheel does not
            raise; it is a `refused` finding of the job.
        InputError: the drawer that the part names cannot be read, or lacks the cutter it sets up;
            a tolerance amounts to nothing at its size, or a span reaches past half the wheel.
    """
    try:
        job = _job(part, each)
    except CannotMakeError as refusal:
        raise CannotMakeError(*_proved(part, refusal.findings, each)) from refusal
    return replace(job, findings=_proved(job.part, job.findings, each))


def _proved(part: Part, findings: tuple[Finding, ...], each: Each) -> tuple[Finding, ...]:
    """The findings with those remedies only that hold on the whole part."""
    if all(one.remedy is None for one in findings):
        return findings
    from profilegen.wheels.proof import proved

    return proved(part, findings, lambda again: _job(again, each).findings)


def _job(part: Part, each: Each) -> Job:
    """The job with its remedies as they were found, not yet tried.

    Raises:
        CannotMakeError, InputError: as `job_for`.
    """
    wheel = solve(part)
    part, chosen = with_drawn_cutters(part, wheel, each)
    nominal = plan_for(part, wheel)
    nominal = replace(nominal, findings=(*chosen, *nominal.findings))
    job = Job(part, wheel, nominal, shop_for(part, wheel, nominal))
    _check_measuring(job)
    return replace(job, findings=_findings(job))


def _findings(job: Job) -> tuple[Finding, ...]:
    """Everything that there is to say of a job, in order."""
    spun = relief_findings(job.part, job.relief, job.plan.cuts)
    made = (*job.wheel.findings, *job.nominal.findings, *job.shop.findings)
    if job.part.blank.run_out is not None:
        made = (*made, *run_out_findings(job.part, job.run_out_limit))
    found = (*made, *_of_the_blank(job), *spun, *_of_the_pin(job), *_of_other_tables(job))
    drawer = job.part.cutters_from
    return tuple(_in_drawer(one, drawer) for one in found) if drawer else found


def _check_measuring(job: Job) -> None:
    """Refuse what no gauge could hold to, here and at once, so that no output is first to find it.

    Raises:
        InputError: with every problem and its line.
    """
    part = job.part
    if part.tolerance is None and part.gauge is None:
        return
    from profilegen.gauging.asked import measuring_problems
    from profilegen.part.lines import at_lines

    problems = measuring_problems(part, job.wheel, job.made, job.plan.cuts)
    if problems:
        raise InputError(*at_lines(problems, part.lines))


def _built(job: Job, name: str, **options: Any) -> bytes:
    """One file of a job, by the package's front door: the rooms that write lie behind this one."""
    import profilegen

    return profilegen.build(job, name, profilegen.Options(**options)).data


def gauges_of(job: Job) -> Gauges:
    """What is measured of the finished wheel, and within which limits, on the blank at hand."""
    from profilegen.gauging.gauges import gauges_for

    return gauges_for(job.part, job.wheel, job.made, job.plan.cuts)


def trial_of(job: Job, lands: tuple[Land, ...]) -> Trial:
    """What lands measured on trial cuts say, by the steps of the part's dial, its feeler, and the
    limits of the land and of the run-out that gauge and sheet tell.

    Raises:
        CannotMakeError: a land that no depth of this geometry leaves.
        ValueError: no cuts or no lands.
    """
    from profilegen.cutting.trial import trial_for
    from profilegen.cutting.trial_dial import step_of

    return trial_for(
        job.made,
        job.plan.cuts,
        lands,
        step_of(job.part),
        feeler=job.part.setup.feeler or 0.0,
        tolerance=_land_deviations(job),
        run_out_limit=job.run_out_limit,
    )


def _land_deviations(job: Job) -> tuple[float, float]:
    """Least and greatest deviation of the land, mm, as `gauge` tells its limits."""
    from profilegen.cutting.land_tolerance import land_tolerance

    land = gauges_of(job).feature("land")
    if land is None:
        return land_tolerance(job.part, job.made)
    return land.limits.low - land.limits.nominal, land.limits.high - land.limits.nominal


def _of_other_tables(job: Job) -> Iterator[Finding]:
    """What other commands would stop at: cutters that are not set up and whose own wheel cannot be
    made; and what stands in the file for nothing."""
    for cutter in job.part.cutters:
        if cutter.kind == "form" and cutter.name != job.plan.cutter:
            yield from form_findings(cutter)
    if job.part.tolerance is not None:
        from profilegen.gauging.asked import unused_tolerances

        yield from unused_tolerances(job.part, job.wheel)


def _of_the_blank(job: Job) -> tuple[Finding, ...]:
    """Whether the blank at hand is outside the limits of the outside diameter."""
    if job.part.blank.diameter is None:
        return ()
    from profilegen.gauging.blank_limits import blank_limit_findings

    return tuple(blank_limit_findings(job.part, job.wheel, job.made, job.plan.cuts))


def _of_the_pin(job: Job) -> tuple[Finding, ...]:
    """Why the pin that the part asks for does not serve: the wheel can be made all the same."""
    if job.part.gauge is None or job.part.gauge.pin is None:
        return ()
    return tuple(replace(one, severity="caution") for one in gauges_of(job).findings)


def _in_drawer(one: Finding, drawer: str) -> Finding:
    """A finding about a cutter that stands in a drawer: there, and no value of this part file."""
    if not one.where.startswith("cutter["):
        return one
    number = one.where.partition(".")[0]
    message = one.message.replace(number, f"{number} of {drawer}", 1)
    return replace(one, message=message, where=f"{drawer}: {one.where}", remedy=None)


def findings_as_dicts(findings: tuple[Finding, ...]) -> list[dict[str, Any]]:
    """Findings as JSON has them: `code`, `severity`, `message`, `where`, `value`, `limit`,
    `remedy` (`key` and `value` to write there, or null)."""
    return [asdict(finding) for finding in findings]


def _facts(facts: tuple[Fact, ...]) -> dict[str, Any]:
    return {
        fact.key: math.degrees(fact.value)
        if fact.quantity == "angle" and not isinstance(fact.value, str)
        else fact.value
        for fact in facts
    }


def cut_as_dict(cut: Cut) -> dict[str, Any]:
    """One cut as JSON has it: mm and degrees, unrounded."""
    return {
        "cutter": cut.tool.name,
        "forms": cut.forms,
        "lap": cut.lap,
        "wheel_angle": math.degrees(cut.wheel_angle),
        "offset": cut.offset,
        "tip_offset": cut.tip.real,
        "tip_height": cut.tip.imag,
        "apex_height": cut.apex_height,
        "radial_depth": cut.radial_depth,
        "infeed_from_top": cut.infeed_from_top,
        "infeed_from_offset": cut.infeed_from_offset,
        "root_diameter": 2 * cut.root_radius,
    }
