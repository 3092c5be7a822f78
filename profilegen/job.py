"""One part, everything computed from it, in one order.

Owns the gathering: part, wheel, plan, all findings, and the dictionary that programs read.
Refuses text for people and files.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Hashable, Iterator
from dataclasses import dataclass, field, replace
from functools import cached_property
from typing import TYPE_CHECKING, Any, TypeVar

from profilegen.cutting.from_drawer import with_drawn_cutters
from profilegen.cutting.plan import Plan, plan_for
from profilegen.cutting.poses import Cut
from profilegen.cutting.tools import form_findings
from profilegen.errors import InputError
from profilegen.findings.cannot_make import CannotMakeError, told_in
from profilegen.findings.finding import Finding, refused
from profilegen.forms.solve import solve
from profilegen.forms.wheel import Wheel
from profilegen.setting.blank import run_out_findings
from profilegen.setting.setting import Setting, setting_for

if TYPE_CHECKING:
    from profilegen import Kind, Paper, Version
    from profilegen.cutting.budget import Budget
    from profilegen.cutting.compare import Each
    from profilegen.cutting.relief import Relief
    from profilegen.cutting.taken import Taken
    from profilegen.cutting.trial import Land, Trial
    from profilegen.dividing.bore_stops import BoreStops
    from profilegen.dividing.index_plan import IndexPlan
    from profilegen.gauging.gauges import Gauges
    from profilegen.part.part import Part
    from profilegen.setting.passes import Pass
    from profilegen.setting.touchoff import DialMove

Papers = TypeVar("Papers")


@dataclass(frozen=True)
class Job:
    """One part and everything computed from it; what costs time is worked out once, when it is
    first asked for.

    Attributes:
        part: the validated file, with the cutters that it is made by.
        wheel: what is wanted.
        print_plan: how it is cut from the print's blank: what is drawn over the outline.
        setting: what the machine is set by, on the measured blank where there is one.
        each: how the cutters of a drawer are tried, as `map` does or on many cores.
    """

    part: Part
    wheel: Wheel
    print_plan: Plan
    setting: Setting
    each: Each = field(default=map, compare=False, repr=False)

    @property
    def made(self) -> Wheel:
        """The wheel that comes out of the blank at hand."""
        return self.setting.wheel

    @property
    def plan(self) -> Plan:
        """How it is cut from the blank at hand: every setting told is of this plan."""
        return self.setting.plan

    @property
    def index(self) -> IndexPlan:
        """Every stop of every lap, on the part's dividing hardware; the angles alone without any,
        and where it is refused."""
        return self.indexes[0]

    @property
    def indexes(self) -> tuple[IndexPlan, ...]:
        """The same of each of the wheel's rounds, in their order: of its teeth, its circles."""
        return tuple(plan for plan, _ in self._indexed)

    @cached_property
    def _indexed(self) -> tuple[tuple[IndexPlan, tuple[Finding, ...]], ...]:
        from profilegen.dividing.of_part import indexed

        frame, cuts = self.plan.frame, self.plan.cuts
        return tuple(indexed(self.part, self.made, frame, cuts, of) for of in self.made.rounds)

    @cached_property
    def findings(self) -> tuple[Finding, ...]:
        """Of the wheel first, then of set-up, stops, blank and machine, of the cutter spun, of the
        pin; with those remedies only that hold on the whole part."""
        return _proved(self.part, self.found, self.each)

    @cached_property
    def found(self) -> tuple[Finding, ...]:
        """The findings with their remedies as they were found, not yet tried."""
        drawer = self.part.cutters_from
        return tuple(_in_drawer(one, drawer) if drawer else one for one in self._found())

    def _found(self) -> Iterator[Finding]:
        yield from self.wheel.findings
        yield from self.print_plan.findings
        if self.part.dividing is not None:
            for _, said in self._indexed:
                yield from said
        yield from self.setting.findings
        if self.part.blank.run_out is not None and self.made.is_toothed:
            yield from run_out_findings(self.part, self.wheel, self.run_out_limit)
        yield from self._of_the_blank()
        yield from self._of_the_heel()
        yield from self._of_the_pin()
        yield from self._of_other_tables()

    def _of_the_blank(self) -> Iterator[Finding]:
        """Whether the blank at hand is outside the limits of the outside diameter."""
        if self.part.blank.diameter is not None:
            from profilegen.gauging.blank_limits import blank_limit_findings

            yield from blank_limit_findings(self.part, self.wheel, self.made, self.plan.cuts)

    def _of_the_heel(self) -> Iterator[Finding]:
        """Whether the heel of a spun cutter rubs, and how far its edge may stand off the spindle's
        radius line; only where a cutter says how it is ground or set."""
        if any(one.relief_angle is not None or one.edge_ahead for one in self.part.cutters):
            from profilegen.cutting.relief import relief_findings

            yield from relief_findings(self.part, self.relief, self.plan.cuts)

    def _of_the_pin(self) -> Iterator[Finding]:
        """Why the pin that the part asks for does not serve: the wheel can be made all the same."""
        if self.part.gauge is not None and self.part.gauge.pin is not None:
            yield from (replace(one, severity="caution") for one in self.gauges.findings)

    def _of_other_tables(self) -> Iterator[Finding]:
        """What other commands would stop at: cutters that are not set up and whose own wheel cannot
        be made; and what stands in the file for nothing."""
        for number, cutter in enumerate(self.part.cutters, 1):
            if cutter.kind == "form" and cutter.name != self.plan.cutter:
                yield from form_findings(cutter, f"cutter[{number}]")
        if self.part.tolerance is not None:
            from profilegen.gauging.asked import unused_tolerances

            yield from unused_tolerances(self.part, self.wheel)

    @cached_property
    def gauges(self) -> Gauges:
        """What is measured of the finished wheel, within which limits, on the blank at hand."""
        from profilegen.gauging.gauges import gauges_for

        return gauges_for(self.part, self.wheel, self.made, self.plan.cuts)

    @cached_property
    def touch_off(self) -> tuple[DialMove, ...]:
        """The move from every zero, lap by lap, in the order of setting; none without a cut."""
        from profilegen.setting.touchoff import every_move

        bar = self.setting.bar
        return () if bar is None else every_move(self.part, self.plan, bar)

    @cached_property
    def passes(self) -> tuple[Pass, ...]:
        """Every pass of every lap; none without a cut."""
        from profilegen.setting.passes import passes_for

        return passes_for(self.part, self.made.teeth, self.plan.cuts) if self.plan.cuts else ()

    @cached_property
    def taken(self) -> dict[str, Taken]:
        """Every size that trial cuts show, by its key, the land first; none without cuts."""
        from profilegen.gauging.sizes_taken import sizes_taken

        return sizes_taken(self.made, self.plan.cuts, self.gauges) if self.plan.cuts else {}

    @cached_property
    def relief(self) -> Relief:
        """Whether the heel of the cutter that is set up clears."""
        from profilegen.cutting.relief import relief_of

        return relief_of(self.part, self.made, self.plan.cuts)

    @cached_property
    def bore_stops(self) -> BoreStops | None:
        """Where the head brings the corners of the bore, its keyway or its flat to the cutter
        line; None without a cut and for a round bore."""
        from profilegen.dividing.bore_stops import bore_stops

        return bore_stops(self.part, self.made, self.plan, self.index)

    @cached_property
    def budget(self) -> Budget | None:
        """How far each setting error moves the land, by the zero that `[setup] touch` names; None
        without cuts."""
        from profilegen.cutting.budget import budget_for
        from profilegen.cutting.land_tolerance import land_tolerance

        if not self.plan.cuts:
            return None
        limits, zero = land_tolerance(self.part, self.made), self.part.setup.touch
        return budget_for(self.made, self.plan.cuts, limits, zero)

    @property
    def run_out_limit(self) -> float:
        """Greatest run-out of the blank, mm, the whole swing of the indicator."""
        from profilegen.cutting.budget import run_out_limit

        return run_out_limit(self.budget)

    def at_first_stop(self, cut: Cut) -> Cut:
        """A cut as the work really stands at stop 1 of its lap: whole pitches from where the turn
        of the cut alone would bring it; only `turn`, rad, is another.

        Args:
            cut: of `job.plan`.
        """
        on = math.tau * float(self.index.starts.begins[cut.lap - 1])
        seen_from_front = on if self.index.turn == self.plan.frame.stops_turn else -on
        flips = self.made.wheel_from_base.flip
        return replace(cut, turn=self.plan.cuts[0].turn + (-1 if flips else 1) * seen_from_front)

    @cached_property
    def _papers(self) -> dict[Hashable, Any]:
        return {}

    def laid_out(self, key: Hashable, lay_out: Callable[[], Papers]) -> Papers:
        """Papers of this job, laid out when the first of their files is written and kept for the
        next: a PDF and an SVG are of the same sheets.

        Args:
            key: what they are and all that they were chosen by.
            lay_out: makes them.
        """
        if key not in self._papers:
            self._papers[key] = lay_out()
        kept: Papers = self._papers[key]
        return kept

    @property
    def is_refused(self) -> bool:
        """Whether something cannot be made as asked."""
        return bool(refused(self.findings))

    def dxf(self, version: Version = "R2010") -> bytes:
        """The DXF to send out: outline and holes at nominal size, in the part's own unit."""
        return _built(self, "dxf", dxf_version=version)

    def sheet(self, kind: Kind = "pdf", paper: Paper | None = None) -> bytes:
        """The set-up sheet: all its pages as a PDF, or the first one as an SVG.

        Args:
            kind: the format.
            paper: None for A4 with mm parts, Letter with inch parts.
        """
        return _built(self, f"sheet-{kind}", paper=paper)

    def template(self, kind: Kind = "pdf", paper: Paper | None = None, scale: float = 1.0) -> bytes:
        """The template to lay the part on, as a PDF or an SVG.

        Args:
            kind: the format.
            paper: the smallest one to take; None for A4 with mm parts, Letter with inch parts.
            scale: mm on the template for each mm of the part: 1 to lay the part on, more for a
                projector.
        """
        return _built(self, f"template-{kind}", paper=paper, scale=scale)

    def as_dict(self) -> dict[str, Any]:
        """Everything for programs: lengths in mm, angles in degrees, numbers unrounded."""
        import profilegen

        return profilegen.job_dict(self)

    @property
    def web(self) -> float | None:
        """From bore to root, mm; None without a bore."""
        webs = [fact.number for fact in self.wheel.bore_sizes if fact.key == "web"]
        return webs[0] if webs else None


def job_for(part: Part, each: Each = map) -> Job:
    """Solve and plan one part; in the job every length is in mm and every angle in radians.

    Args:
        part: as `load` gives it.
        each: tries the cutters of its drawer, as `map` does.

    Raises:
        CannotMakeError: no wheel has these sizes. A cutter that cannot form the wheel does not
            raise; it is a `refused` finding of the job.
        InputError: the drawer that the part names cannot be read, or lacks the cutter it sets up;
            a tolerance amounts to nothing at its size, or a span reaches past half the wheel.
    """
    try:
        return _job(part, each)
    except CannotMakeError as refusal:
        proved = _proved(part, refusal.findings, each)
        raise CannotMakeError(*proved, figures=part.figures) from refusal


def _proved(part: Part, findings: tuple[Finding, ...], each: Each) -> tuple[Finding, ...]:
    """The findings with those remedies only that hold on the whole part."""
    if all(one.remedy is None for one in findings):
        return findings
    from profilegen.forms.proof import proved

    return proved(part, findings, lambda again: _job(again, each).found)


def _job(part: Part, each: Each) -> Job:
    """The job, its refusals not yet tried.

    Raises:
        CannotMakeError, InputError: as `job_for`.
    """
    wheel = solve(part)
    part, chosen = with_drawn_cutters(part, wheel, each)
    plan = plan_for(part, wheel)
    plan = replace(plan, findings=(*chosen, *plan.findings))
    job = Job(part, wheel, plan, setting_for(part, wheel, plan), each)
    _check_measuring(job)
    return job


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


def trial_of(job: Job, lands: tuple[Land, ...], key: str = "land") -> Trial:
    """What sizes measured on trial cuts say, by the steps of the part's dial, its feeler, and the
    limits of the size and of the run-out that gauge and sheet tell.

    Args:
        job: with cuts.
        lands: as measured, mm.
        key: of the size that was measured, one of `job.taken`.

    Raises:
        CannotMakeError: a size that no depth of this geometry leaves.
        ValueError: no cuts or no lands.
    """
    from profilegen.cutting.trial import trial_for
    from profilegen.setting.trial_dial import step_of

    with told_in(job.part.figures):
        return trial_for(
            job.made,
            job.plan.cuts,
            lands,
            step_of(job.part),
            taken=job.taken[key],
            feeler=job.part.setup.feeler or 0.0,
            tolerance=_deviations(job, key),
            run_out_limit=job.run_out_limit,
        )


def _deviations(job: Job, key: str) -> tuple[float, float]:
    """Least and greatest deviation of a size, mm, as `gauge` tells its limits."""
    from profilegen.cutting.land_tolerance import land_tolerance

    size = job.gauges.feature(key)
    if size is None:
        return land_tolerance(job.part, job.made)
    return size.limits.low - size.limits.nominal, size.limits.high - size.limits.nominal


def _in_drawer(one: Finding, drawer: str) -> Finding:
    """A finding about a cutter that stands in a drawer: there, and no value of this part file."""
    if not one.where.startswith("cutter["):
        return one
    return replace(one, drawer=drawer, where=f"{drawer}: {one.where}", remedy=None)
