"""The index plan as text, rows and a dictionary.

Owns: what is said of a plan on its hardware, and in which order. Refuses arithmetic (`cutting`).
"""

from __future__ import annotations

from typing import Any

from profilegen.cutting.dividing.index_plan import (
    IndexPlan,
    IndexStop,
    again,
    arcmin,
    cost_words,
)
from profilegen.cutting.dividing.readings import warnings, way_words
from profilegen.cutting.dividing.ways import Way
from profilegen.reports.columns import columns, paragraph

HEADER = ("stop", "lap", "angle_deg", "set_angle_deg", "error_arcmin", "reading", "done")

BACKLASH = (
    "Come to every stop from the same side, the way the dial increases. If you have gone past, go "
    "back by more than the backlash and come again; then lock, always the same way."
)


def plan_dict(plan: IndexPlan) -> dict[str, Any]:
    """The plan for programs: degrees, arc minutes and mm, unrounded."""
    return {
        "method": plan.method,
        "exact": plan.exact,
        "worst_error_arcmin": arcmin(plan.worst),
        "worst_error_mm": plan.mm(plan.worst),
        "ways": [_way_dict(plan, way) for way in plan.ways],
        "stops": [_stop_dict(stop) for stop in plan.stops],
    }


def _way_dict(plan: IndexPlan, way: Way) -> dict[str, Any]:
    move, scale = way.move, way.scale
    steps = int(way.per_stop) if way.exact and move is None else None
    crank = steps is not None and scale.sort == "crank"
    holes = steps % scale.circle if crank and steps is not None else None
    return {
        "method": way.method,
        "exact": way.exact,
        "worst_error_arcmin": arcmin(way.worst),
        "worst_error_mm": plan.mm(way.worst),
        "circle": scale.circle if scale.sort in ("crank", "plate", "vernier", "notches") else None,
        "plate": scale.plate or None,
        "steps": steps,
        "turns": move.turns if move else steps // scale.circle if crank and steps else None,
        "holes": list(move.holes) if move else holes,
        "circles": list(move.circles) if move else None,
        "sector": holes or None,
        "spaces": move.spaces if move else 1,
        "change_wheels": list(move.wheels) if move and move.wheels else None,
        "plate_turns_with_crank": move.with_crank if move else None,
        "words": way_words(way),
        "warnings": list(warnings(way)),
    }


def _stop_dict(stop: IndexStop) -> dict[str, Any]:
    return {
        "stop": stop.stop,
        "lap": stop.lap,
        "angle": float(stop.wanted * 360),
        "set_angle": float(stop.stands * 360),
        "error_arcmin": arcmin(stop.error),
        "reading": stop.reading,
    }


def plan_rows(plan: IndexPlan) -> tuple[tuple[str, ...], ...]:
    """The header, a row a stop, and after each lap stop N + 1, which is its stop 1."""
    rows: list[tuple[str, ...]] = [HEADER]
    for lap in plan.laps:
        rows += [_row(stop) for stop in plan.stops if stop.lap == lap]
        last = again(plan, lap)
        rows.append((*_row(last)[:5], f"{last.reading} (same as stop 1)", ""))
    return tuple(rows)


def _row(stop: IndexStop) -> tuple[str, ...]:
    numbers = (
        f"{float(stop.wanted * 360):.4f}",
        f"{float(stop.stands * 360):.4f}",
        f"{arcmin(stop.error) + 0.0:.3f}",
    )
    return (str(stop.stop), str(stop.lap), *numbers, stop.reading, "")


def facts(plan: IndexPlan) -> tuple[str, ...]:
    """What to know before the first stop: the way, its errors, what a slip costs, the backlash."""
    if plan.way is None:
        return ("no [dividing] is given: the angles alone",)
    said = [f"{plan.method}: {way_words(plan.way)}"]
    if plan.exact:
        said.append("exact: every stop stands where it should")
    else:
        said.append(
            f"not exact: a stop is up to {_both(plan, 'worst')} off, and no more has gathered at "
            f"the end; between neighbours up to {_both(plan, 'worst_between')}"
        )
    if plan.nearest:
        said.append(f"nearest counts that are exact: {' and '.join(map(str, plan.nearest))}")
    said += [cost_words(plan), *warnings(plan.way), BACKLASH]
    if plan.way.scale.sort in ("plate", "vernier", "notches", "crank"):
        said.append("Holes count from 0, the one at stop 1, the way the dial increases.")
    return tuple(said)


def _both(plan: IndexPlan, name: str) -> str:
    value = plan.worst if name == "worst" else plan.worst_between
    return f"{arcmin(value):.3f} arc minutes ({plan.mm(value):.4f} mm)"


def way_lines(plan: IndexPlan) -> tuple[str, ...]:
    """Every way, numbered as `--way` takes them."""
    return tuple(f"{n}. {_way_line(plan, way)}" for n, way in enumerate(plan.ways, 1))


def _way_line(plan: IndexPlan, way: Way) -> str:
    off = "exact" if way.exact else f"up to {arcmin(way.worst):.3f}' ({plan.mm(way.worst):.4f} mm)"
    taken = ", taken here" if way is plan.way else ""
    return f"{way.method}, {off}{taken}: {way_words(way)}"


def plan_text(plan: IndexPlan, title: str) -> str:
    """The whole plan for people to read."""
    teeth = max(stop.stop for stop in plan.stops)
    lines = [f"{title}: {teeth} stops", ""]
    for fact in facts(plan):
        lines += paragraph(fact, "  ", "  ")
    lines += ["", "Ways:"]
    for way in way_lines(plan):
        lines += paragraph(way, "  ", "   ")
    titles = ("stop", "lap", "angle", "set to", "error '", "reading", "done")
    rows = [titles, *((*row[:6], "[ ]") for row in plan_rows(plan)[1:])]
    return "\n".join([*lines, "", *columns(rows, frozenset({0, 1, 2, 3, 4}))]) + "\n"


def tick_labels(plan: IndexPlan) -> tuple[str, ...]:
    """Every stop with what the dial shows, as the sheet has them beside boxes."""
    said = list[str]()
    for lap in plan.laps:
        if len(plan.laps) > 1:
            said.append(f"lap {lap}")
        of_lap = [stop for stop in plan.stops if stop.lap == lap]
        said += [f"{stop.stop}: {stop.reading}" for stop in of_lap]
        last = again(plan, lap)
        said.append(f"{last.stop} = stop 1: {last.reading}")
    return tuple(said)
