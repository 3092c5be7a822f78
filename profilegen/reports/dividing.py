"""The index plan as text, rows and a dictionary.

Owns: what is said of a plan on its hardware, and in which order. Refuses arithmetic (`cutting`).
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from profilegen.cutting.dividing.index_plan import (
    IndexPlan,
    IndexStop,
    again,
    arcmin,
    cost_words,
)
from profilegen.cutting.dividing.readings import idlers, warnings, way_words
from profilegen.cutting.dividing.ways import Way
from profilegen.reports.columns import columns, paragraph
from profilegen.units import both_units

BACKLASH = (
    "Come to every stop from the same side, the way the dial increases. If you have gone past, go "
    "back by more than the backlash and come again; then lock, always the same way."
)

ONCE_ROUND = (
    "Go round once with a mere scratch at every stop: the one after the last must meet the first. "
    "Stop the spindle before you index or reach in; the machine's manual comes before this list."
)

MOST_FURTHER = 8
"""Compound and differential ways that the text shows; JSON holds them all."""


def plan_dict(plan: IndexPlan) -> dict[str, Any]:
    """The plan for programs: degrees, arc minutes and mm, unrounded."""
    return {
        "method": plan.method,
        "exact": plan.exact,
        "worst_error_arcmin": arcmin(plan.spread.worst),
        "worst_error_mm": plan.mm(plan.spread.worst),
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
        "idlers": idlers(move) if move and move.wheels else None,
        "plate_turns_with_crank": move.with_crank if move else None,
        "words": way_words(way),
        "warnings": list(warnings(way)),
    }


def _stop_dict(stop: IndexStop) -> dict[str, Any]:
    return {
        "stop": stop.stop,
        "lap": stop.lap,
        "angle": stop.angle,
        "set_angle": stop.set_angle,
        "error_arcmin": arcmin(stop.error),
        "reading": stop.reading,
    }


def _rows(plan: IndexPlan) -> Iterator[tuple[str, ...]]:
    """A row a stop, and after each lap stop N + 1, which is its stop 1."""
    for lap in plan.laps:
        yield from (_row(stop) for stop in plan.stops if stop.lap == lap)
        last = again(plan, lap)
        yield (*_row(last)[:5], f"{last.reading} (same as stop 1)", "[ ]")


def _row(stop: IndexStop) -> tuple[str, ...]:
    numbers = (
        f"{stop.angle:.4f}",
        f"{stop.set_angle:.4f}",
        f"{arcmin(stop.error) + 0.0:.3f}",
    )
    return (str(stop.stop), str(stop.lap), *numbers, stop.reading, "[ ]")


def facts(plan: IndexPlan) -> tuple[str, ...]:
    """What to know before the first stop: the way, its errors, what a slip costs, the backlash."""
    teeth = max(stop.stop for stop in plan.stops)
    size = f"{teeth} stops on an outside diameter of {both_units(2 * plan.radius)}"
    if plan.way is None:
        return ("no [dividing] is given: the angles alone", size)
    said = [f"{plan.method}: {way_words(plan.way)}", size]
    if plan.exact:
        said.append("exact: every stop stands where it should")
    else:
        said.append(
            f"not exact: a stop is up to {_both(plan, 'worst')} off, and no more has gathered at "
            f"the end; between neighbours up to {_both(plan, 'worst_between')} round the outside"
        )
    if plan.nearest:
        said.append(f"nearest counts that are exact: {' and '.join(map(str, plan.nearest))}")
    said += [cost_words(plan), *warnings(plan.way)]
    said.append(f"From stop to stop the work turns {plan.turn}, seen from its free end. {BACKLASH}")
    if plan.way.scale.sort in ("plate", "vernier", "notches", "crank"):
        said.append("Holes count from 0, the one at stop 1, the way the dial increases.")
    return (*said, ONCE_ROUND)


def _both(plan: IndexPlan, name: str) -> str:
    value = plan.spread.worst if name == "worst" else plan.spread.between
    return f"{arcmin(value):.3f} arc minutes, {both_units(plan.mm(value))},"


def way_lines(plan: IndexPlan) -> tuple[str, ...]:
    """The ways, numbered as `--way` takes them; of a long list of compound and differential ones
    the first."""
    simple = sum(way.move is None for way in plan.ways)
    shown = plan.ways[: simple + MOST_FURTHER]
    lines = [f"{n}. {_way_line(plan, way)}" for n, way in enumerate(shown, 1)]
    if len(shown) < len(plan.ways):
        lines.append(f"{len(plan.ways) - len(shown)} more: profilegen stops --json holds them all")
    return tuple(lines)


def _way_line(plan: IndexPlan, way: Way) -> str:
    off = f"up to {arcmin(way.worst):.3f} arc minutes off, {both_units(plan.mm(way.worst))}"
    off = "exact" if way.exact else off
    taken = ", taken here" if way is plan.way else ""
    return f"{way.method}, {off}{taken}: {way_words(way)}"


def plan_text(plan: IndexPlan, title: str) -> str:
    """The whole plan for people to read."""
    teeth = max(stop.stop for stop in plan.stops)
    lines = [f"{title}: {teeth} stops", ""]
    for fact in facts(plan):
        lines += paragraph(fact, "  ", "  ")
    lines += ["", "Ways:"] if plan.ways else []
    for way in way_lines(plan):
        lines += paragraph(way, "  ", "   ")
    titles = ("stop", "lap", "angle", "set to", "error '", "reading", "done")
    rows = [titles, *_rows(plan)]
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
