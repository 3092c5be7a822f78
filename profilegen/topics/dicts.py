"""What programs are told: a job and what hangs on it as dictionaries, mm and degrees, unrounded.

The keys are a promise: one may be added, none changes its meaning.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING, Any, Final

from profilegen.cutting.budget import ANGULAR, USUAL
from profilegen.dividing.bore_stops import upright_words
from profilegen.dividing.index_plan import IndexPlan, arcmin, degrees
from profilegen.dividing.readings import idlers, slips, warnings, way_words
from profilegen.dividing.way import Way
from profilegen.figures import Figures, Quantity
from profilegen.findings.telling import told, typed
from profilegen.gauging.bores import bore_plan
from profilegen.geometry.measure import area, length
from profilegen.setting.own_dials import dial_of, pass_on_dial
from profilegen.setting.touchoff import routes_of
from profilegen.topics import drilling
from profilegen.topics.cutter_text import web_left
from profilegen.topics.records import by_key, picked, plain
from profilegen.topics.shared_rows import row_of, way_round

if TYPE_CHECKING:
    from profilegen.cutting.budget import Budget, BudgetRow
    from profilegen.cutting.compare import Match
    from profilegen.cutting.trial import Trial
    from profilegen.findings.finding import Finding
    from profilegen.job import Job
    from profilegen.setting.passes import Pass
    from profilegen.setting.touchoff import DialMove

SCHEMA = 1
"""Of the dictionary; it grows when a key changes its meaning, not when one is added."""

CUT: Final = """
    cutter=tool.name forms lap wheel_angle offset tip_offset=tip.real tip_height=tip.imag
    apex_height radial_depth infeed_from_top infeed_from_offset root_diameter
"""
PASS: Final = "lap pass=number kind spaces infeed from_contact from_offset from_top chip_area dial"
RELIEF: Final = """
    clears least_relief_angle greatest_thickness least_sweep_diameter place margin off_line=off
    tip_rise_off_line=tip_rise angle_change_off_line=angle_change
    relief_change_off_line=relief_change relief_ground=ground
"""
TRIAL: Final = """
    size=taken.key measured=mean target expected=expected_size expected_after_dialling=expected
    least_allowed=allowed.0 greatest_allowed=allowed.1 remaining_infeed=remaining
    expected_land=expected_size runout=runout.reading measured_land=mean scatter target_land=target
    infeed_to_dial=to_feed land_after_dialling=expected lap infeed_from_top=from_top
    infeed_from_offset=from_offset dial_from_top dial_from_offset
    least_land_expected=expected_ends.0 greatest_land_expected=expected_ends.1
    least_land_allowed=allowed.0 greatest_land_allowed=allowed.1 put_right_first
    land_swing=runout.swing high_spot=runout.high_spot
"""
LANDS: Final = """
    expected_land measured_land target_land land_after_dialling least_land_expected
    greatest_land_expected least_land_allowed greatest_land_allowed
"""
FINDING: Final = "code severity message where value limit remedy"
SETUP: Final = "hand_at_free_end enters_at pushes front head cutter_side flat spindle"
STOP: Final = "stop lap angle set_angle error_arcmin reading"
MATCH: Final = """
    cutter verdict gouge=fit.gouge.value left_over=fit.left_over.value gouge_area=fit.gouge.area
    left_over_area=fit.left_over.area gouge_at=fit.gouge.where left_over_at=fit.left_over.where
    land crest_width=fit.land root_diameter=fit.root_diameter below_root=fit.below_root web why
    set_up cuts
"""


def job_dict(job: Job) -> dict[str, Any]:
    """Everything of a job, mm, mm2 and degrees: `Job.as_dict` documents it for callers."""
    outline, setup = job.wheel.outline, by_key(way_round(job))
    bore = by_key(map(row_of, job.wheel.bore_sizes))
    return {
        "schema": SCHEMA,
        "title": job.part.title,
        "number": job.part.number,
        "wheel": by_key(map(row_of, job.wheel.sizes)),
        "outline": {
            "area": area(outline),
            "perimeter": length(outline),
            "segments": len(outline),
            "fit_error": job.wheel.fit_error,
        },
        "bore": {**bore, "web": job.web},
        **_making_the_bore(job),
        "bore_stops": _bore_stops(job),
        "cuts": [picked(cut, CUT) for cut in job.plan.cuts],
        "stops": [
            {"stop": stop.stop, "lap": stop.lap, "angle": stop.angle} for stop in job.index.stops
        ],
        **_drilled(job),
        "setup": {key: setup[key] for key in SETUP.split()},
        "touch_off": list(_moves(job)),
        "passes": [_pass(job, one) for one in job.passes],
        "bar": plain(job.setting.bar),
        "speed": plain(job.setting.speed),
        "blank": _blank(job),
        "relief": picked(job.relief, RELIEF),
        "budget": budget_dict(job.budget),
        "findings": findings_list(job.findings, job.part.figures),
    }


def _drilled(job: Job) -> dict[str, Any]:
    """`circles`: of every drilled circle its count and sizes, mm, and angle (degrees from +x,
    counter-clockwise), x and y (mm from the axis) of each hole, hole 1 first. No key for a wheel
    that has none."""
    circles = [
        {
            "circle": of.name,
            "holes": of.count,
            "circle_diameter": of.diameter,
            "hole_diameter": of.size,
            "places": [
                {"angle": math.degrees(turn), "x": at.real, "y": at.imag}
                for turn, at in drilling.places(of)
            ],
        }
        for of in drilling.drilled(job.made)
    ]
    return {"circles": circles} if circles else {}


def findings_list(findings: Iterable[Finding], figures: Figures) -> list[dict[str, Any]]:
    """Findings with their sentence, in the figures of the part.

    `value` and `limit` are mm, degrees or counts, whatever the unit of the part; `remedy` has `key`
    and `value` to write there, in the part's unit, or is null.
    """
    return [_finding(one, figures) for one in findings]


def _finding(one: Finding, figures: Figures) -> dict[str, Any]:
    remedy = one.remedy
    mends = remedy and {"key": remedy.key, "value": typed(remedy, figures.unit)}
    return picked(one, FINDING, message=told(one, figures), remedy=mends)


def _making_the_bore(job: Job) -> dict[str, Any]:
    """`pilots` and `slotting`; no pilots, and None, where the bore has none."""
    plan = bore_plan(job.part)
    if plan is None:
        return {"pilots": [], "slotting": None}
    keys = "drill=drill.name diameter=drill.diameter flat_left=share proposed"
    rows = [picked(pilot, keys, proposed=pilot == plan.usual) for pilot in plan.pilots]
    return {"pilots": rows, "slotting": plain(plan.slotting)}


def _bore_stops(job: Job) -> dict[str, Any] | None:
    """Degrees from stop 1 of lap 1."""
    found = job.bore_stops
    if found is None:
        return None
    stops = [picked(stop, "angle error_arcmin reading") for stop in found.stops]
    line = upright_words(job.plan.frame)
    return picked(found, "place turn line stops", turn=job.index.turn, line=line, stops=stops)


def _moves(job: Job) -> Iterator[dict[str, Any]]:
    """A row for every move on its route, lap by lap: the route to set by, the other, the checks;
    a zero that both routes begin with has a row on each. The feed comes last."""
    set_by = [move for move in job.touch_off if move.sets != "feed"]
    for lap in dict.fromkeys(move.lap for move in set_by):
        here = [move for move in set_by if move.lap == lap]
        for route in routes_of(job.part.setup.touch):
            yield from (_move(job, move, route) for move in here if route in move.routes)
        yield from (_move(job, move, "check") for move in here if not move.routes)
    yield from (_move(job, one, "check") for one in job.touch_off if one.sets == "feed")


def _move(job: Job, move: DialMove, route: str) -> dict[str, Any]:
    keys = "zero axis direction amount lap route sets touches dial"
    return picked(move, keys, route=route, dial=plain(dial_of(job.part, move)))


def _pass(job: Job, one: Pass) -> dict[str, Any]:
    dial = plain(pass_on_dial(job.part, job.setting, one))
    return picked(one, PASS, infeed=one.from_zero(job.part.setup.touch), dial=dial)


def _blank(job: Job) -> dict[str, Any] | None:
    if job.setting.blank is None:
        return None
    shifts = plain(job.setting.blank.shifts)
    return {"diameter": 2 * job.made.radius, "hold": job.part.blank.hold, "shifts": shifts}


def budget_dict(budget: Budget | None) -> dict[str, Any]:
    """Mm per mm, degrees per mm, and per degree for angular sources.

    Where laps have settings of their own the land is told for the last one that moves it, hook
    and spacing for the lap of faces, the root diameter for the deepest lap that moves it; `rows`
    tells them apart. Null without cuts.
    """
    told: dict[str, Any] = {}
    for source in USUAL:
        rows = [row for row in budget.rows if row.source == source] if budget else []
        per = math.radians(1) if source in ANGULAR else 1.0
        for what in ("land", "hook", "root", "spacing"):
            values = [(row.lap or 0, getattr(row.effects, what)) for row in rows]
            key = "root_diameter" if what == "root" else what
            told[f"{key}_per_{source}"] = _chosen(what, values, per)
    told["land_tolerance"] = budget.tolerance if budget else None
    told["rows"] = [_budget_row(row) for row in budget.rows] if budget else []
    return told


def _chosen(what: str, values: list[tuple[int, float | None]], per: float) -> float | None:
    """The value of the lap that counts, per mm or per degree; hooks in degrees."""
    known = [(lap, value) for lap, value in values if value is not None]
    if not known:
        return None
    moving = [one for one in known if abs(one[1]) > 1e-12] or known
    value = max(moving)[1] * per
    return (math.degrees(value) if what == "hook" else value) + 0.0


def _budget_row(row: BudgetRow) -> dict[str, Any]:
    kind: Quantity = "angle" if row.is_angle else "length"
    return {
        **picked(row, "source lap instead=is_instead"),
        "unit": "deg" if row.is_angle else "mm",
        "land": row.effects.land * (math.radians(1) if row.is_angle else 1.0),
        "usual": plain(row.usual, kind),
        "moves_land": row.moves_land,
        "alone": plain(row.alone, kind),
        "needed": plain(row.needed, kind),
    }


def gauge_list(job: Job) -> list[dict[str, Any]]:
    """Everything that is measured: `feature`, `over`, `nominal`, `low`, `high`, `unit`."""
    found = []
    for one in job.gauges.features:
        limits = (one.limits.nominal, one.limits.low, one.limits.high)
        sizes = dict(zip(("nominal", "low", "high"), plain(limits, one.quantity), strict=True))
        unit = "deg" if one.quantity == "angle" else "mm"
        keys = "feature=key over nominal low high unit"
        found.append(picked(one, keys, unit=unit, **sizes))
    return found


def trial_dict(trial: Trial) -> dict[str, Any]:
    """What trial cuts say, lengths in mm, unrounded but for what is to be dialled.

    `infeed_from_top` and `infeed_from_offset` are metal to metal, as those of a cut;
    `dial_from_top` and `dial_from_offset` count through the feeler, as the sheet's passes. The
    keys of lands are null where another size was measured.
    """
    is_land = trial.taken.key == "land"
    return picked(trial, TRIAL, **({} if is_land else dict.fromkeys(LANDS.split())))


def cutter_list(job: Job, matches: tuple[Match, ...], set_up: str | None) -> list[dict[str, Any]]:
    """Cutters compared, best first: mm, mm2 a space, degrees."""
    return [
        picked(
            match,
            MATCH,
            land=match.fit.land if match.fit is not None and job.wheel.has_lands else None,
            web=web_left(job, match),
            why="" if match.why is None else told(match.why, job.part.figures),
            set_up=match.cutter == set_up,
            cuts=[picked(cut, CUT) for cut in match.cuts],
        )
        for match in matches
    ]


def plan_dict(plan: IndexPlan) -> dict[str, Any]:
    """The plan for programs: degrees, arc minutes and mm, unrounded."""
    return {
        "method": plan.method,
        "exact": plan.exact,
        "worst_error_arcmin": arcmin(plan.spread.worst),
        "worst_error_mm": plan.mm(plan.spread.worst),
        "spacing_error_mm": plan.mm(plan.spread.spacing),
        "may_be_off_mm": plan.may_lose,
        "ways": [_way_dict(plan, way, number) for number, way in enumerate(plan.ways, 1)],
        "stops": [picked(stop, STOP) for stop in plan.stops],
        "closing_stops": [picked(stop, STOP) for stop in plan.returns],
        "teeth": plan.teeth,
        "way": plan.number,
        "turn": plan.turn,
        "laps": [
            {"lap": lap, "turn_on": degrees(plan.turned_on(lap)) if lap > 1 else 0.0}
            for lap in range(1, len(plan.laps) + 1)
        ],
        "slips": [
            {"slip": name, "arcmin": arcmin(turns), "mm": plan.mm(turns)}
            for name, turns in (slips(plan.way) if plan.way else ())
        ],
    }


def _way_dict(plan: IndexPlan, way: Way, number: int) -> dict[str, Any]:
    move, scale = way.move, way.scale
    steps = int(way.per_stop) if way.even and way.method != "compound" else None
    crank = steps is not None and scale.sort == "crank"
    holes = steps % scale.circle if crank and steps is not None else None
    return {
        "method": way.method,
        "exact": way.exact,
        "worst_error_arcmin": arcmin(way.worst),
        "worst_error_mm": plan.mm(way.worst),
        "spacing_error_mm": plan.mm(way.spacing),
        "circle": scale.circle if scale.sort in ("crank", "plate", "vernier", "notches") else None,
        "plate": scale.plate or None,
        "steps": steps,
        "turns": move.turns if move else steps // scale.circle if crank and steps else None,
        "holes": list(move.holes) if move else holes,
        "circles": list(move.circles) if move else None,
        "sector": holes or None,
        "spaces": way.spaces,
        "change_wheels": list(move.wheels) if move and move.wheels else None,
        "idlers": idlers(move) if move and move.wheels else None,
        "plate_turns_with_crank": move.with_crank if move else None,
        "words": way_words(way),
        "warnings": list(warnings(way)),
        "number": number,
        "sectors": [abs(n) for n in move.holes if n] if move else [holes] if holes else [],
    }
