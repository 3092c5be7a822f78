"""The words of making a bore that is not round: pilot, head readings, strokes, cautions.

The gauge text and the set-up sheet say the same lines. The head readings need a cut, because they
count from stop 1; without one the corners are told from the face tip of tooth 1.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from profilegen.dividing.bore_stops import BoreStop, BoreStops, upright_words
from profilegen.dividing.index_plan import degrees_text
from profilegen.figures import Figure, Figures, mm
from profilegen.gauging.bores import BorePlan, bore_plan
from profilegen.gauging.drills import GREATEST
from profilegen.gauging.slotting import Slotting, flats_after
from profilegen.job import Job
from profilegen.topics.index_text import marked
from profilegen.topics.topic import Line, Row, Table, Topic, topics

SLOT_SAFETY: Final = (
    "spindle isolated from its power, not only switched off, and locked against turning. Eye "
    "protection and a guard: a hardened tool can shatter. Feed straight, never force or pull a "
    "tool that has stuck. Lock head and slides before each stroke; keep fingers out of it. The "
    "machine's manual, local rules and qualified practice come first."
)
"""Usual cautions when slotting with a standing spindle."""

NAMES: Final = {"square": "square", "hexagon": "hexagon", "keyed": "keyway", "d-bore": "flat"}
"""What is made in each kind of bore."""

UNEVEN = 5e-4
"""mm. Unevenness of the corners that is written as more than 0.000."""


def pilot_table(plan: BorePlan) -> Table:
    """Every drill: its name, diameter (mm), share of flat left (per cent), and a mark."""
    rows = tuple(
        (
            pilot.drill.name,
            mm(pilot.drill.diameter),
            Figure(f"{100 * pilot.share:.0f}", "text", words="{} %"),
            "proposed" if pilot == plan.usual else "",
        )
        for pilot in plan.pilots
    )
    return Table(("drill", "diameter", "flat left", ""), rows)


def no_pilot(plan: BorePlan, figures: Figures) -> str:
    """What to do where the lists of drills have none.

    Args:
        plan: the bore, mm.
        figures: the unit in which its sizes are told.
    """
    most = figures.length(GREATEST[plan.sides] * plan.across_flats)
    return (
        f"No listed drill lies between {figures.length(plan.across_flats)} and {most}: make the "
        "pilot another way, such as by boring."
    )


def _pilot_lines(plan: BorePlan, figures: Figures) -> Iterator[Line]:
    """The drill to take, for the sheet."""
    if plan.usual is None:
        yield no_pilot(plan, figures)
        return
    drill = plan.usual.drill
    yield Row(f"Pilot, drill {drill.name}", mm(drill.diameter, "Ø {}"))


def _stand_lines(job: Job, plan: BorePlan, slotting: Slotting) -> Iterator[Line]:
    """How the head is stood up, and the pilot drilled on it."""
    pilot = plan.usual.drill if plan.usual else None
    if pilot is None:
        return
    yield f"{_upright(job)} Its axis must lie true to the quill's travel."
    blank, figures = job.part.blank, job.part.figures
    wheels = f" of {blank.count} wheels" if blank.count > 1 else ""
    yield Row(f"Pilot, drill {pilot.name}", mm(pilot.diameter, "Ø {}"))
    yield Row("Its depth, at least", mm(slotting.pilot_depth))
    yield (
        f"The stroke of {figures.length(slotting.stroke)}{wheels} ends "
        f"{figures.length(blank.parting_width)} beyond the part-off plane, and the rest is room "
        "for chips."
    )


def _upright(job: Job) -> str:
    """How the head is tilted up, and how it then stands to the way it stood at the cut."""
    frame, grip = job.plan.frame, "With the work still gripped as it was cut"
    stand = f"{grip}, tilt the head up under the quill until the free end looks up"
    if not job.plan.cuts:
        return f"{stand}."
    if frame.cutter_side == "above":
        return (
            f"{stand}; do not turn it round: what looked up at the cut now looks "
            f"{upright_words(frame)}."
        )
    return (
        f"{stand}; do not turn it round: what looked {upright_words(frame)} at the cut still does."
    )


def _corner_lines(job: Job, slotting: Slotting) -> Iterator[Line]:
    """What can hurt, which way the tool points, and where the head brings each corner to it."""
    yield f"CAUTION: {SLOT_SAFETY}"
    found = job.bore_stops
    if found is None:
        corners = ", ".join(job.part.figures.angle(corner) for corner in slotting.corners)
        yield (
            "Four stops of 90 deg. Corners from the face tip of tooth 1, counter-clockwise seen "
            f"from the front: {corners}."
        )
        return
    yield (
        f"Fit the corner tool. Its 90 deg corner points straight away from the axis, "
        f"{upright_words(job.plan.frame)}: the side that the toothing cutter came in from."
    )
    yield from _readings(job, found)


def _place_lines(job: Job, found: BoreStops) -> Iterator[Line]:
    """Where a tool stands to the corners, the keyway or the flat of a bore that is made another way
    than by the corner tool."""
    frame = job.plan.frame
    line, each = upright_words(frame), "the" if len(found.stops) == 1 else "each"
    if frame.cutter_side == "above":
        line = f"up, or {line} with the head tilted up until the free end looks up"
    yield (
        f"With the work still gripped as it was cut the readings from stop 1 bring {each} "
        f"{found.place} to the side that the toothing cutter came in from: {line}. Stand the tool "
        "there."
    )
    yield f"CAUTION, where a tool in the standing spindle slots it: {SLOT_SAFETY}"


def _readings(job: Job, found: BoreStops) -> Iterator[Line]:
    """Every place with what the head shows there, counted from stop 1 of lap 1."""
    figures = job.part.figures
    index, lap = job.index, " of lap 1" if len(job.plan.cuts) > 1 else ""
    yield (
        f"Come to stop 1{lap} again, read it as 0, and turn the work {index.turn}, seen from its "
        "free end, as to every stop:"
    )
    for number, stop in enumerate(found.stops, 1):
        name = found.place if len(found.stops) == 1 else f"{found.place} {number}"
        yield _reading(name.capitalize(), stop, figures)
    if found.uneven > UNEVEN:
        yield (
            f"CAUTION: this hardware has no even share of a turn for them: a {found.place} is up "
            f"to {figures.length(found.uneven)} off against another, at the bore."
        )
    elif found.off > UNEVEN:
        yield (
            f"All stand {figures.angle(found.turned)} off where the print has them, by the same "
            f"way: {figures.length(found.off)} at the bore."
        )


def _reading(name: str, stop: BoreStop, figures: Figures) -> Row:
    """What the hardware shows at a place, beside its angle; the angle, beside its name, where there
    is no hardware, and of a dial in degrees what that shows."""
    angle = f"{degrees_text(stop.wanted, figures.decimal, 3)}°"
    if stop.reading is None:
        return Row(name, angle)
    reading = marked(stop.reading, figures.decimal)
    return Row(name if "°" in reading else angle, reading)


def _travel_lines(slotting: Slotting, pilot: float, figures: Figures) -> Iterator[Line]:
    """How far the tool goes, and what its corner and the pilot as drilled change in that."""
    corner, travel = slotting.corner_radius, figures.length(slotting.travel)
    tool = f"a tool corner of R {figures.length(corner)}" if corner else "a sharp tool corner"
    yield (
        f"Zero: the tool's corner just touches the pilot's wall. Travel from there to the corner, "
        f"with {tool}: {travel}, in {slotting.strokes} strokes of {figures.length(slotting.step)} "
        "or less; the last ones without further infeed."
    )
    if corner:
        yield (
            f"A sharp tool travels {figures.length(slotting.sharp_travel)} for the same flats: "
            f"after {travel} they are {figures.length(flats_after(slotting.travel, pilot))}."
        )
    else:
        yield "A tool corner with a radius travels 0.414 of that radius less, for the same flats."
    yield (
        "Measure the pilot first: zero is its real wall. Take half of what it measures over "
        f"{figures.length(pilot)} off the travel, or the flats come out 0.707 of it too big; under "
        "that size add half."
    )


def _stroke_lines(job: Job, plan: BorePlan, slotting: Slotting) -> Iterator[Line]:
    """The strokes of the corner tool."""
    if plan.usual is None:
        return
    yield from _travel_lines(slotting, plan.usual.drill.diameter, job.part.figures)
    if job.web is not None:
        yield Row("Wall left from corner to root", mm(job.web))


def bore_sections(job: Job) -> tuple[Topic, ...]:
    """How a bore that is not round is made, in the order of the work; nothing for others.

    A square is slotted with the part still on the bar; of others the place is told.
    """
    plan, kind, found = bore_plan(job.part), job.part.bore.kind, job.bore_stops
    if plan is not None and plan.slotting is not None:
        square = (job, plan, plan.slotting)
        return topics(
            {
                "The square: its pilot": _stand_lines(*square),
                "The square: its corners": _corner_lines(job, plan.slotting),
                "The square: the strokes": _stroke_lines(*square),
            }
        )
    if found is None:
        return ()
    pilot = () if plan is None else _pilot_lines(plan, job.part.figures)
    return topics(
        {
            f"The {NAMES[kind]}: the tool": (*pilot, *_place_lines(job, found)),
            f"The {NAMES[kind]}: its place": _readings(job, found),
        }
    )
