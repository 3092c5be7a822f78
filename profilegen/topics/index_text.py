"""The index plan as text and as labels to tick: what every paper says of it.

Owns: what is said of a plan on its hardware, and in which order. Refuses arithmetic (`cutting`).
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from profilegen.dividing.index_plan import (
    IndexPlan,
    IndexStop,
    arcmin_text,
    degrees_text,
)
from profilegen.dividing.readings import (
    short_sexagesimal,
    slips,
    warnings,
    way_words,
)
from profilegen.dividing.way import Way
from profilegen.figures import Figures
from profilegen.topics.columns import columns, paragraph
from profilegen.topics.turning_words import approach_words
from profilegen.units import DecimalMark

ONCE_ROUND = (
    "Go round once with a mere scratch at every stop: the one after the last must meet the first. "
    "Stop the spindle before you index or reach in; the machine's manual comes before this list."
)

COUNTED = {
    "plate": "Holes count from 0 at stop 1 of lap 1, the way the dial increases.",
    "vernier": (
        "Holes and vernier positions count from 0 at stop 1 of lap 1, the way the dial increases: "
        "turn to the hole, then on until the pin drops at the vernier position."
    ),
    "notches": "Notches count from 0 at stop 1 of lap 1, the way the dial increases.",
    "crank": (
        "Turns and holes count from 0 at stop 1 of lap 1, the way the dial increases, and count on "
        "through every lap."
    ),
    "dial": (
        "Angle, turns and dial of the handwheel count from 0 at stop 1 of lap 1 and count on "
        "through every lap; the dial begins again with each turn."
    ),
    "steps": "Steps count from 0 at stop 1 of lap 1 and count on through every lap.",
}
"""From where each sort of reading counts."""
MOST_FURTHER = 8
"""Compound and differential ways that the text shows; JSON holds them all."""


def facts(plan: IndexPlan, figures: Figures) -> tuple[str, ...]:
    """What to know before the first stop: the way, its errors, what a slip costs, the backlash.

    Args:
        plan: the stops, and the radius (mm) on which their errors are told.
        figures: unit and decimal mark; lengths are told in both units, errors in arc minutes too.
    """
    turn = approach_words(plan.turn)
    where = "a circle" if plan.between == "hole" else "an outside diameter"
    size = f"{plan.teeth} stops on {where} of {figures.both(2 * plan.radius)}."
    if plan.part_teeth:
        many = {"hole": "holes", "groove": "grooves"}.get(plan.between, "teeth")
        size = f"Not for the part as it is, which has {plan.part_teeth} {many}: {size}"
    laps = lap_changes(plan, figures)
    if plan.way is None:
        return ("No [dividing] is given: the angles alone.", size, *laps, turn, ONCE_ROUND)
    said = [f"{plan.method.capitalize()}: {way_words(plan.way)}.", size, *laps]
    said += _exactness(plan, plan.way, figures)
    said += [_cost(plan, plan.way, figures), *warnings(plan.way)]
    return (*said, turn, COUNTED[plan.way.scale.sort], ONCE_ROUND)


def _lap_change(plan: IndexPlan, lap: int, decimal: DecimalMark) -> str:
    """How a later lap is begun: the setting, the turn from the closing stop before it, and what is
    then read. Laps count from 1."""
    turned, reading = plan.turned_on(lap), marked(plan.laps[lap - 1][0].reading, decimal)
    setting = f"Lap {lap}: draw the cutter back and set it for this lap."
    if not turned:
        return (
            f"{setting} Leave the work at the closing stop of lap {lap - 1}, {reading}: it is "
            f"stop 1 of lap {lap}."
        )
    return (
        f"{setting} From the closing stop of lap {lap - 1} turn the work on by "
        f"{degrees_text(turned, decimal)}° {plan.turn}, as to every stop, to {reading}: stop 1 of "
        f"lap {lap}."
    )


def lap_changes(plan: IndexPlan, figures: Figures) -> tuple[str, ...]:
    """How every lap after the first is begun."""
    return tuple(_lap_change(plan, lap, figures.decimal) for lap in range(2, len(plan.laps) + 1))


def inexact_words(plan: IndexPlan, figures: Figures) -> str:
    """What is wrong with a list of stops that are not exact, as lengths at the radius of the plan.

    Args:
        plan: the stops, and how far off one may be, mm.
        figures: the unit that comes first; both are told.
    """
    off, may = (figures.both(mm) for mm in (plan.mm(plan.spread.spacing), plan.may_lose))
    many = "teeth" if plan.between == "tooth" else f"{plan.between}s"
    return f"{many} come out up to {off} off, where a {plan.between} may be {may} off."


def _exactness(plan: IndexPlan, way: Way, figures: Figures) -> Iterator[str]:
    if plan.exact:
        yield "Exact: every stop stands where it should."
        return
    worst, between, gathered, land = (
        _off(plan, turns, figures)
        for turns in (
            plan.spread.worst,
            plan.spread.between,
            plan.spread.gathered,
            plan.spread.land,
        )
    )
    if way.even:
        yield (
            "Not exact: the stops of each lap are even, but a later lap as a whole stands up to "
            f"{worst}, off its place, and every {plan.between} with it."
        )
        return
    yield (
        f"Not exact: a stop is up to {worst}, off its place; between neighbours of a lap up to "
        f"{between}; accumulated, between any two stops of a lap, up to {gathered}; a "
        f"{plan.between} up to {land}."
    )
    if way.gathers:
        yield (
            f"Each move adds {_off(plan, abs(way.gathers), figures)}: the error gathers over the "
            "lap, and all of it lies between the last stop and the first."
        )
    else:
        yield "Each stop is put to its nearest position by itself, so that nothing drifts."


def _off(plan: IndexPlan, turns: Fraction, figures: Figures) -> str:
    return f"{arcmin_text(turns, figures.decimal)} arc minutes, {figures.both(plan.mm(turns))}"


def _cost(plan: IndexPlan, way: Way, figures: Figures) -> str:
    """What one wrong position costs."""
    said = [
        f"{name} {_slip_angle(way, turns, figures)}, {figures.both(plan.mm(turns))}"
        for name, turns in slips(way)
    ]
    return f"What a slip costs, round the outside: {'; '.join(said)}."


def _slip_angle(way: Way, turns: Fraction, figures: Figures) -> str:
    """What a slip turns the work: of a dial as its lines are named, else in minutes of arc."""
    if way.scale.sort == "dial":
        return marked(short_sexagesimal(turns), figures.decimal)
    return f"{arcmin_text(turns, figures.decimal)} arc minutes"


def way_lines(plan: IndexPlan, figures: Figures, most: int) -> tuple[str, ...]:
    """The first ways, in the order in which `--way` numbers them.

    Args:
        plan: with every way.
        figures: errors are told in arc minutes and, at the radius of the plan, in both units.
        most: how many ways.
    """
    return tuple(_way_line(plan, way, figures) for way in plan.ways[:most])


def _way_line(plan: IndexPlan, way: Way, figures: Figures) -> str:
    off = f"spacing up to {_off(plan, way.spacing, figures)}, off"
    if way.exact:
        off = "exact"
    return f"{way.method}, {off}{', taken here' if way is plan.way else ''}: {way_words(way)}"


def plan_text(plan: IndexPlan, title: str, figures: Figures) -> str:
    """The whole plan for people to read.

    Args:
        plan: the stops; the table has them in degrees, their errors in arc minutes.
        title: of the part.
        figures: unit and decimal mark.
    """
    own = f", where the part has {plan.part_teeth}" if plan.part_teeth else ""
    lines = [f"{title}: {plan.teeth} stops{own}", ""]
    for fact in facts(plan, figures):
        lines += paragraph(fact, "  ", "  ")
    lines += _ways_text(plan, figures)
    if plan.is_listed_inexact:
        lines += ["", *paragraph(f"INEXACT: {inexact_words(plan, figures)}", "")]
    titles = ("stop", "lap", "angle", "set to", "error '", "reading", "done")
    rows = [titles, *_rows(plan, figures.decimal)]
    return "\n".join([*lines, "", *columns(rows, frozenset({0, 1, 2, 3, 4}))]) + "\n"


def _ways_text(plan: IndexPlan, figures: Figures) -> Iterator[str]:
    """The ways, numbered; of a long list of compound and differential ones the first."""
    if not plan.ways:
        return
    yield from ("", "Ways, as --way numbers them:")
    most = sum(way.move is None for way in plan.ways) + MOST_FURTHER
    for number, line in enumerate(way_lines(plan, figures, most), 1):
        yield from paragraph(f"{number}. {line}", "  ", "   ")
    if len(plan.ways) > most:
        yield f"  {len(plan.ways) - most} more: profilegen stops --json holds them all"


def _rows(plan: IndexPlan, decimal: DecimalMark) -> Iterator[tuple[str, ...]]:
    """A row a stop, and after each lap stop N + 1, which is its stop 1."""
    for lap, back in zip(plan.laps, plan.returns, strict=True):
        yield from (_row(stop, decimal) for stop in lap)
        *cells, reading, box = _row(back, decimal)
        yield (*cells, f"{reading} (same as stop 1)", box)


def _row(stop: IndexStop, decimal: DecimalMark) -> tuple[str, ...]:
    return (
        str(stop.stop),
        str(stop.lap),
        degrees_text(stop.wanted, decimal),
        degrees_text(stop.stands, decimal),
        arcmin_text(stop.error, decimal),
        marked(stop.reading, decimal),
        "[ ]",
    )


def tick_labels(plan: IndexPlan, decimal: DecimalMark, errors: bool = False) -> tuple[str, ...]:
    """Every stop with what the dial shows, as the sheet has them beside boxes.

    Args:
        plan: the stops, lap by lap.
        decimal: the mark in a reading.
        errors: tell each stop's angle (degrees) and error (arc minutes) too.
    """
    said = list[str]()
    for lap, back in zip(plan.laps, plan.returns, strict=True):
        if len(plan.laps) > 1:
            said.append(f"lap {back.lap}")
        said += [f"{stop.stop}: {stop.reading}{_told(stop, errors)}" for stop in lap]
        said.append(f"{back.stop} = stop 1: {back.reading}{_told(back, errors)}")
    return tuple(marked(label, decimal) for label in said)


def _told(stop: IndexStop, errors: bool) -> str:
    if not errors:
        return ""
    return f" ({degrees_text(stop.wanted)}°, error {arcmin_text(stop.error)}')"


def marked(reading: str, decimal: DecimalMark) -> str:
    """A reading, in which a point is only ever a decimal mark, with the part's mark."""
    return reading.replace(".", ",") if decimal == "comma" else reading
