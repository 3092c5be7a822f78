"""The words of the set-up sheet: what stands under each of its eleven headings.

Refuses places and sizes of lettering: a section is a topic, and the sheet sets it.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator

from profilegen.cutting.fit import Fit
from profilegen.cutting.frame import OPPOSITE
from profilegen.cutting.poses import Cut, root_left
from profilegen.cutting.trial import trial_table
from profilegen.cutting.wedge import Wedge
from profilegen.dividing.index_plan import IndexPlan, degrees_text
from profilegen.figures import Figures, both, mm, rad
from profilegen.findings.telling import told
from profilegen.forms.wheel import Wheel
from profilegen.gauging.curved_flanks import is_curved
from profilegen.geometry.tolerance import SAME_POINT
from profilegen.job import Job
from profilegen.setting.touchoff import is_level, levelled_face, shop_words
from profilegen.setting.trial_dial import table_step_of
from profilegen.topics import gauge_words
from profilegen.topics.drilling import drilling_lines
from profilegen.topics.index_text import (
    COUNTED,
    lap_changes,
    tick_labels,
)
from profilegen.topics.lap_words import formed
from profilegen.topics.shared_rows import WAY_ROUND, hole_rows, row_of, way_round_lines
from profilegen.topics.topic import Line, Row, Topic, topics
from profilegen.topics.turning_words import (
    approach_words,
    has_no_readings,
    round_lines,
    way_taken,
)
from profilegen.topics.zero_words import depth_rows, feeler_line, from_zero, offset_zero, top_zero
from profilegen.units import DecimalMark

EQUAL_TEETH = "Equal tips all round: stops and run-out are good. One swing a turn is run-out."
EQUAL_LANDS = "Equal lands all round: stops and run-out are good. One swing a turn is run-out."
"""What the lands say of the setting."""

SAFETY = (
    "Spindle off and stopped before you measure, touch off, index or reach in.",
    "Eye protection and a guard for chips; no gloves, rings, loose sleeves or long hair near "
    "the spindle.",
    "Turn the spindle by hand first: the whole tool must clear work, head and vice. Stay out "
    "of a fly "
    "cutter's plane.",
    "A tool made to stand still is not made to be spun: ask its maker's limits, keep the "
    "speed low.",
    "Lock head and slides before each cut. The machine's manual, local rules and qualified "
    "practice "
    "come before this sheet.",
)
"""Usual shop cautions; they defer to the machine's manual and local rules."""


def sections(job: Job, ticked_elsewhere: bool = False) -> tuple[Topic, ...]:
    """All sections of the sheet, in the order of the headings.

    `ticked_elsewhere` says that the stops to tick stand on the next page.
    """
    if not job.wheel.is_toothed:
        return topics(_of_no_teeth(job, ticked_elsewhere))
    said: dict[str, Iterable[Line]] = {
        "Before you cut": _before(job),
        WAY_ROUND: way_round_lines(job),
        "Where zero is": _zero(job),
        "How far over": _over(job),
        "How far down": _down(job),
        "Stops": _stops(job, ticked_elsewhere),
        "Trial cuts": _trial(job),
        "What to measure": _measure(job),
        "The bore": _bore(job),
        "Cautions": SAFETY,
        "As it came out": _record(job),
    }
    return tuple(Topic(heading, tuple(lines)) for heading, lines in said.items())


def _of_no_teeth(job: Job, ticked_elsewhere: bool) -> dict[str, Iterable[Line]]:
    """What is said of a wheel that no cutter is set up for."""
    where = "on a later page of the PDF" if ticked_elsewhere else "below"
    ticked = () if has_no_readings(job) else (f"Tick them {where}: {_tick_unit(job)}.",)
    return {
        "Before you cut": _before(job),
        "Sizes": map(row_of, job.made.sizes),
        "Where to drill": drilling_lines(job),
        "Stops": (*round_lines(job), *ticked),
        "The bore": _bore(job),
        "Cautions": SAFETY,
        "As it came out": (*(Row(label, "") for label in ("Outside Ø", "Bore", "Date, by")),),
    }


def _before(job: Job) -> Iterator[Line]:
    wheel, part, figures = job.wheel, job.part, job.part.figures
    stock = f" of {part.material}" if part.material else ""
    yield Row("Blank, turned true", mm(2 * job.made.radius, "Ø {}"))
    yield Row("Thickness", mm(wheel.thickness))
    count = part.blank.count
    blanks = "One blank" if count == 1 else f"One bar for {count} wheels"
    run_out = f", run-out within {figures.at_most(job.run_out_limit)}"
    yield f"{blanks}{stock}{run_out}; grip it so that it cannot turn."
    for cut in job.plan.cuts[:1]:
        yield Row("Cutter", cut.tool.name)
        yield _cutter_words(cut, figures)
        if job.setting.bar is not None:
            if job.setting.bar.sweep is not None:
                yield Row("Its tip runs on", mm(job.setting.bar.sweep, "Ø {}"))
            yield Row("Reach, tip to holder, at least", mm(job.setting.bar.reach))
    if job.wheel.is_toothed and not job.plan.cuts:
        yield "No cut is set up: the part file needs a [[cutter]] that can form the space."
    for finding in job.findings:
        if finding.severity == "caution" or (
            finding.severity == "note" and not job.wheel.is_toothed
        ):
            yield f"{finding.severity.capitalize()}: {told(finding, figures)}."


def _cutter_words(cut: Cut, figures: Figures) -> str:
    wedge = cut.tool
    if not isinstance(wedge, Wedge):
        return f"{wedge.kind} cutter."
    angles = (
        f"{figures.angle(wedge.angle)} included"
        if math.isclose(wedge.face_side, wedge.back_side)
        else f"{figures.angle(wedge.face_side)} on the face, "
        f"{figures.angle(wedge.back_side)} on the back"
    )
    tip = "sharp tip"
    if wedge.nose:
        tip = f"tip radius {figures.length(wedge.nose)}"
    if wedge.flat:
        tip = f"tip flat {figures.length(wedge.flat)}"
    return f"{wedge.kind}, {angles}, {tip}."


def _zero(job: Job) -> Iterator[Line]:
    if not job.plan.cuts:
        yield "Needs a cutter."
        return
    frame, touch = job.plan.frame, job.part.setup.touch
    yield f"Infeed runs {frame.infeed_words}; offset counts from the wheel axis."
    yield f"{top_zero(frame)} Draw back, then set the offset."
    yield f"{offset_zero()} Both lead to the same depth: set by one, check by the other."
    yield (f"Spindle off, by hand. Passes count {from_zero(touch)}. {feeler_line(job.part)}")


def _over(job: Job) -> Iterator[Line]:
    if not job.plan.cuts:
        yield "Needs a cutter."
        return
    for cut in job.plan.cuts:
        yield from _lap(job, cut)
        yield Row(f"Apex off the axis{_side(job, cut.offset)}", both(abs(cut.offset)))
        if abs(cut.tip.real - cut.offset) > 1e-6:
            side = _side(job, cut.tip.real)
            yield Row(f"Tip off the axis{side}", both(abs(cut.tip.real)))
        yield f"Move the cutter {_offset_words(job, cut)}."
    yield "Come to it in one direction, so that backlash stays on one side; lock the slide."


def _side(job: Job, offset: float) -> str:
    """The side of the axis on which an offset lies, in shop words; nothing for none."""
    if abs(offset) < 5e-7:
        return ""
    frame = job.plan.frame
    lies = frame.face_tooth_lies if offset > 0 else OPPOSITE[frame.face_tooth_lies]
    return f", {frame.looks(lies)}"


def _offset_words(job: Job, cut: Cut) -> str:
    if abs(cut.offset) < 5e-7:
        return "to the axis: the apex stands level with it"
    axis, words = shop_words(job.plan.frame, complex(cut.offset))
    if job.wheel.hand is None:
        return f"{words} ({axis})"
    owner = "towards" if cut.offset > 0 else "away from"
    return f"{words} ({axis}), {owner} the tooth that owns the face"


def _down(job: Job) -> Iterator[Line]:
    if not job.plan.cuts:
        yield "Needs a cutter."
        return
    for cut in job.plan.cuts:
        yield from _lap(job, cut)
        yield from depth_rows(job.part, cut)
    if not has_no_readings(job):
        yield from lap_changes(job.index, job.part.figures)


def _lap(job: Job, cut: Cut) -> Iterator[Line]:
    """The lap that the next rows belong to, when there is more than one."""
    if len(job.plan.cuts) > 1:
        yield f"Lap {cut.lap}, {formed(job.wheel, cut)}:"


def _stops(job: Job, ticked_elsewhere: bool) -> Iterator[Line]:
    teeth, index, pitch = job.wheel.teeth, job.index, job.wheel.angular_pitch
    yield (
        f"{teeth} stops of {job.part.figures.angle(pitch)}; stop {teeth + 1} is stop 1 again. "
        f"{approach_words(index.turn)}"
    )
    yield from way_taken(job)
    if has_no_readings(job):
        return
    if index.way is not None:
        yield COUNTED[index.way.scale.sort]
        if not index.exact:
            yield Row("A stop is off its place by up to", mm(index.mm(index.spread.worst)))
            yield Row(f"A {index.between} is off by up to", mm(index.mm(index.spread.spacing)))
    where = "on a later page of the PDF" if ticked_elsewhere else "below"
    yield f"Tick them {where}: {_tick_unit(job)}."


def tick_heading(job: Job) -> str:
    """What stands over the stops to tick, on a page where nothing else says what they are."""
    return f"Stops: {_tick_unit(job)}"


def _tick_unit(job: Job) -> str:
    """What the figures beside the stops are."""
    index, start = job.index, "stop 1 of lap 1" if len(job.plan.cuts) > 1 else "stop 1"
    if index.way is None:
        return f"degrees from {start}"
    told = {
        "plate": "hole numbers, from hole 0 at stop 1",
        "notches": "notch numbers, from notch 0 at stop 1",
        "vernier": "hole and vernier numbers, from 0 at stop 1",
        "crank": "turns of the crank and holes, from stop 1",
        "dial": "degrees, minutes and seconds from stop 1",
        "steps": "steps from stop 1",
    }[index.way.scale.sort]
    return told.replace("stop 1", start)


def stop_labels(job: Job) -> tuple[str, ...]:
    """`number angle` of every stop in order, degrees within one turn, or what the dividing hardware
    shows; laps are separated by a heading. None where the hardware is refused."""
    decimal = job.part.decimal
    if has_no_readings(job):
        return ()
    if len(job.indexes) == 1:
        return _labels(job.index, decimal)
    return tuple(
        label
        for of, index in zip(job.made.rounds, job.indexes, strict=True)
        for label in (of.name, *_labels(index, decimal))
    )


def _labels(index: IndexPlan, decimal: DecimalMark) -> tuple[str, ...]:
    """The stops of one plan, to tick."""
    if index.way is not None:
        return tick_labels(index, decimal)
    labels = list[str]()
    for number, lap in enumerate(index.laps, 1):
        if len(index.laps) > 1:
            labels.append(f"lap {number}")
        labels += [f"{stop.stop}  {degrees_text(stop.wanted, decimal, 3)}" for stop in lap]
    return tuple(labels)


def _trial(job: Job) -> Iterator[Line]:
    cuts = job.plan.cuts
    if not cuts:
        yield "Needs a cutter."
        return
    if "land" not in job.taken:
        yield from _trial_by_size(job)
        return
    spaces, lands = _trial_spaces(job.made.teeth)
    yield (
        f"Cut {spaces} short of depth{_in_last_lap(job)} and measure the {lands} lands between "
        "them; the infeed still to go is then"
    )
    rows = list(trial_table(job.made, cuts, table_step_of(job.part)))
    if len({round(land, 6) for _, land in rows}) < 2:
        yield "nothing that a land shows: this flank lies along the infeed. Go by the dial."
        return
    for remaining, land in rows:
        words = "{} too deep" if remaining < 0 else "{} to go"
        yield Row(f"land {job.part.figures.length(land)}", mm(abs(remaining), words))
    yield "Between rows take a share in proportion."


def _trial_by_size(job: Job) -> Iterator[Line]:
    """Teeth that show no land: by the first size that trial cuts of them show."""
    if not job.taken:
        yield "These cuts show no size that can be measured. Go by the dial."
        return
    taken = next(iter(job.taken.values()))
    spaces = " and ".join(str(space) for space in taken.spaces or (1, 2))
    yield (
        f"Cut spaces {spaces} short of depth and take the {taken.label}, {taken.how}; the infeed "
        "still to go is then"
    )
    step = table_step_of(job.part)
    for count in (6, 4, 2, 1, 0, -1):
        if count * step < taken.most:
            words = "too deep" if count < 0 else "to go"
            size = job.part.figures.length(taken.at(count * step))
            yield Row(size, mm(abs(count * step), f"{{}} {words}"))
    yield "Between rows take a share in proportion."


def _trial_spaces(teeth: int) -> tuple[str, str]:
    """The spaces to cut for the trial, and how many whole lands they leave between them."""
    if teeth > 3:
        return "three neighbouring spaces", "two"
    return ("both spaces", "two") if teeth == 2 else ("all three spaces", "three")


def _in_last_lap(job: Job) -> str:
    """Which lap the trial is of, when there is more than one: the others are at full depth."""
    if len(job.plan.cuts) < 2:
        return ""
    last = job.plan.cuts[-1]
    forms = formed(job.wheel, last)
    return f" in lap {last.lap}, {forms}, with the laps before it done there at full depth,"


def _measure(job: Job) -> Iterator[Line]:
    wheel, gauges, figures = job.made, job.gauges, job.part.figures
    if gauges.leaves is not None:
        yield f"{gauge_words.mismatch(gauges.leaves, figures)}. These are the sizes it makes."
    if gauges.blank is not None:
        yield "For the blank as measured."
    yield Row("Outside diameter", mm(2 * wheel.radius))
    if gauges.leaves is not None:
        yield from _measure_left(gauges.leaves, wheel)
        yield EQUAL_LANDS if wheel.has_lands else EQUAL_TEETH
        return
    left = root_left(wheel, job.plan.cuts)
    if abs(left - wheel.root_radius) > max(SAME_POINT, wheel.fit_error):
        yield Row("Root diameter, by this cutter's tip", mm(2 * left))
        yield Row("Root diameter, as drawn", mm(2 * wheel.root_radius))
    else:
        yield Row("Root diameter, real material", mm(2 * left))
    land, height = wheel.fact("land", None), levelled_face(wheel.space)
    if land is not None:
        yield Row("Land, straight across", mm(land))
        limits = gauges.feature("land")
        if limits is not None:
            yield Row("Limits of the land", gauge_words.between(limits))
    if height is not None and is_level(height):
        yield Row("Level face, looking up", "at axis height")
    elif height is not None:
        side = "below" if height < 0 else "above"
        yield Row(f"Level face, looking up: {side} the axis by", mm(abs(height)))
    over = gauges.feature("over_pins")
    if over is not None:
        yield Row(gauge_words.named(over, figures), gauge_words.sizes(over)[0])
        yield Row("Limits over pins", gauge_words.between(over))
    if is_curved(wheel):
        yield from _span(job)
        yield from gauge_words.centring_lines(job)
    else:
        yield EQUAL_LANDS


def _span(job: Job) -> Iterator[Line]:
    """Over the flanks of some teeth, where jaws find them."""
    over = job.gauges.feature("span")
    if over is not None:
        yield Row(over.label, gauge_words.sizes(over)[0])
        yield Row("Limits of the span", gauge_words.between(over))


def _measure_left(left: Fit, wheel: Wheel) -> Iterator[Line]:
    """What a cutter that does not match makes; pins say nothing of such a space."""
    yield Row("Root diameter, by this cutter", mm(2 * left.root_radius))
    yield Row(f"{wheel.named('land').capitalize()}, by this cutter", mm(left.land))
    if wheel.has_lands:
        yield Row("Hook at the rim, by this cutter", rad(left.hook))


def _bore(job: Job) -> Iterator[Line]:
    wheel = job.wheel
    if wheel.bore is None:
        yield "None."
    for fact in wheel.bore_sizes:
        if fact.key == "kind":
            if wheel.bore is not None:
                yield Row("Form", str(fact.value))
        elif fact.key == "web":
            reach = wheel.root_radius - fact.number
            yield Row(fact.label, mm(root_left(job.made, job.plan.cuts) - reach))
            if job.part.hub is not None:
                yield Row("Wall, bore to hub", mm(job.part.hub.diameter / 2 - reach))
        elif not (fact.key == "corner_radius" and fact.value == 0.0):
            yield row_of(fact)
    if job.bore_stops is not None:
        yield "Its place at the head, from stop 1: on the last page of the PDF."
    yield from hole_rows(job.part)


def _record(job: Job) -> Iterator[Line]:
    read = {"Span": "span", "Over pins": "over_pins"}
    teeth = [label for label, key in read.items() if job.gauges.feature(key) is not None]
    if not is_curved(job.made):
        teeth = ["Land, least", "Land, greatest"]
    for label in ("Blank Ø", "Offset set", "Infeed used", *teeth, "Root Ø"):
        yield Row(label, "")
    yield Row("Date, by", "")
