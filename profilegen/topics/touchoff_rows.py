"""Zeros, moves, passes and checks as rows for people.

Owns the words of touching off and of running in: the tables of zeros, of passes and of what a
measured blank moves, and the lines beside them.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING, TypeAlias

from profilegen.cutting.gap import land_left
from profilegen.cutting.poses import Cut
from profilegen.figures import Figure, Figures, mm, rad
from profilegen.job import Job
from profilegen.setting.dials import SHARES, Dialled
from profilegen.setting.metals import is_hardened
from profilegen.setting.own_dials import dial_of, infeed_dial, pass_on_dial
from profilegen.setting.passes import Pass
from profilegen.setting.touchoff import (
    DialMove,
    Zero,
    is_level,
    levelled_face,
    second_zero_keys,
    shop_words,
    side_touched,
    turn_to_uncut_crest,
)
from profilegen.topics.lap_words import felt, inked
from profilegen.topics.topic import Line, Row, Table
from profilegen.topics.zero_words import ZERO, from_zero
from profilegen.units import MM_PER_INCH, Unit, format_length, format_number

if TYPE_CHECKING:
    from profilegen.part.dials import Dial

ZEROS = ("Lap", "Sets the", "Zero", "What touches", "Then go", "By", "On the dial")
SIZE_THEN = "Size then"
"""Of the first size that trial cuts show, where teeth have no land."""

PASSES = ("Lap", "Pass", "For", "Infeed", "Land then", "On the dial")
"""Titles; that of the infeed goes on with its zero."""

MOVED = ("On the blank as measured", "Print", "Here")

_ZEROS: dict[Zero, str] = {
    "top": ZERO["top"],
    "offset": ZERO["offset"],
    "flat": "flat",
    "body": "side",
    "height": "height gauge",
    "both sides": "both sides",
    "edge finder": "edge finder",
    "end face": "end face",
}
"""The zero of a move as the table calls it."""

METRES_PER_FOOT = 0.3048

_KINDS = {
    "scratch": "a scratch at every stop",
    "rough": "roughing, all round",
    "finish": "finishing, all round",
    "recut": "spaces 1 and 2 again, as set",
}


def touch_table(job: Job) -> Table:
    """A row for every zero and the move from it, mm: lap by lap, offset before infeed before feed,
    the zero to set by before its checks."""
    needs = needs_of(job)
    rows = [
        (
            str(move.lap),
            move.sets,
            _ZEROS[move.zero],
            move.touches,
            f"{'gauge' if move.is_setting else move.axis} {move.direction}",
            mm(move.amount),
            _move_dial(job, move, needs),
        )
        for move in job.touch_off
    ]
    return _without_blanks(ZEROS, rows)


def pass_table(job: Job) -> Table:
    """A row for every pass, its infeed (mm) from the zero that `[setup] touch` names."""
    needs = needs_of(job)
    rows = [
        (
            str(one.lap),
            str(one.number),
            _KINDS[one.kind],
            mm(one.from_zero(job.part.setup.touch)),
            _size_then(job, one),
            _pass_dial(job, one, needs),
        )
        for one in job.passes
    ]
    named = {
        "Infeed": f"Infeed {from_zero(job.part.setup.touch)}",
        "Land then": "Land then" if "land" in job.taken else SIZE_THEN,
    }
    titles = tuple(named.get(title, title) for title in PASSES)
    return _without_blanks(titles, rows)


def _size_then(job: Job, one: Pass) -> str | Figure:
    """The land after a pass of the last lap, or the first size that trial cuts show where there is
    none; before that lap nothing is whole."""
    cuts = job.plan.cuts
    if one.lap != cuts[-1].lap or one.kind == "scratch":
        return ""
    left = cuts[-1].infeed_from_offset - one.from_contact
    if "land" in job.taken:
        return mm(land_left(job.made, cuts, left))
    shown = next(iter(job.taken.values()), None)
    return mm(shown.at(left)) if shown is not None and left < shown.most else ""


def shift_table(job: Job) -> Table:
    """A row (mm) for all that another blank than the print's moves; no rows on the print's."""
    found = job.setting.blank
    if found is None:
        return Table(MOVED, ())
    rows = [("Outside diameter", 2 * job.wheel.radius, 2 * found.wheel.radius)]
    for shift in found.shifts:
        lap = f", lap {shift.lap}" if shift.lap and len(found.plan.cuts) > 1 else ""
        rows.append((f"{shift.label}{lap}", *shift.told))
    return Table(MOVED, tuple((name, mm(a), mm(b)) for name, a, b in rows))


def _without_blanks(titles: tuple[str, ...], rows: Sequence[tuple[str | Figure, ...]]) -> Table:
    """The table without those columns, lap and dial, that say nothing or the same in every row."""
    kept = [
        at
        for at, title in enumerate(titles)
        if title not in ("Lap", "On the dial") or len({row[at] for row in rows}) > 1
    ]
    shown = tuple(tuple(row[at] for at in kept) for row in rows)
    return Table(tuple(titles[at] for at in kept), shown)


def where_zero(job: Job) -> Iterator[Line]:
    """For "Where zero is": what to set by, what checks it, and how to prove the centre."""
    if not job.plan.cuts:
        return
    more, less = (shop_words(job.plan.frame, way)[1] for way in (1 + 0j, -1 + 0j))
    arrive = _arrival(job, job.plan.cuts[0])
    is_fed = any(move.sets == "feed" for move in job.touch_off)
    sets = "offset, the infeed and the feed" if is_fed else "offset and the infeed"
    yield (
        f"Set the {sets} each by its first zero in the table, the infeed "
        f"{from_zero(job.part.setup.touch)}. Touch with the spindle off, turned by hand."
    )
    if is_fed and len(job.plan.cuts) > 1:
        yield "X keeps its zero and its end from lap 1: a later lap finds the end face cut already."
    if sum(move.sets == "offset" and move.lap == 1 for move in job.touch_off) == 1:
        keys = " or ".join(second_zero_keys(job.part, job.plan.frame, job.plan.cuts[0]))
        yield "The offset has one zero only" + (f": {keys} gives a second one." if keys else ".")
    yield (
        "Its other zeros lead to the same place: read them as a check, and find out why if one "
        "differs."
    )
    if any(move.zero == "both sides" for move in job.touch_off):
        yield (
            f"Touching on both sides: with the tip beside the blank touch it on one side going "
            f"{less}, on the other going {more}. Read both as for going {arrive}: after the touch "
            "that was taken the other way turn back until the slide just begins to move, and read "
            "there; a readout is read at the touch. The middle of the two is zero."
        )
    yield from _uncut_crests(job)
    yield "Moves are told of the cutter against the work; a table goes the other way."
    if any(dial.per_turn is None for dial in job.part.dials.values()):
        yield "A dial without per_turn in the part file is told without turns: count them yourself."
    if job.part.dials:
        yield (
            "Each dial is at 0 where its move begins; its figure is to a tenth of a division, "
            "rounded to the side that leaves metal."
        )
    yield from _dials_read(job)
    yield (
        "Proof of centre, on scrap: tip at zero offset, cut a light line along the work, turn it "
        "half round, cut again at the same setting. The two must lie on one diameter: half the "
        f"mismatch, {more} or {less}, is the error. Only then go to the offset, in one direction."
    )


def _dials_read(job: Job) -> Iterator[Line]:
    """How each dial that the part names is marked."""
    figures = job.part.figures
    for axis, dial in sorted(job.part.dials.items()):
        turn = "" if dial.per_turn is None else f", one turn {figures.length(dial.per_turn)}"
        words = f"Dial of {axis.upper()}: one division is {figures.length(dial.division)}{turn}"
        if dial.reads == "diameter":
            words += "; it reads diameters, twice the way that the slide goes"
        yield f"{words}."


def _uncut_crests(job: Job) -> Iterator[Line]:
    """For every lap but the first: the zeros of lap 1 stand; and how to touch again all the same,
    where there is still blank to touch."""
    first = job.plan.cuts[0]
    for cut in job.plan.cuts[1:]:
        axis, way = shop_words(job.plan.frame, complex(cut.offset - first.offset or 1.0))
        yield Row(
            f"Lap {cut.lap}: keep the zeros of lap 1, the blank is cut now. From the offset of lap "
            f"1 go {axis} {way} by",
            mm(abs(cut.offset - first.offset)),
        )
        yield (
            f"A zero that is lost in lap {cut.lap} is touched on an uncut crest. From stop 1 of "
            f"this lap turn the work as told here, seen from the free end; touch; come to stop 1 "
            f"again {job.index.turn}, as to every stop. Do not touch on both sides."
        )
        yield from _crest_turns(job, cut)


def _crest_turns(job: Job, cut: Cut) -> Iterator[Line]:
    """The turn that brings an uncut crest to each place that is touched in a later lap."""
    here, frame = job.at_first_stop(cut), job.plan.frame
    for move in job.touch_off:
        side = side_touched(move.zero, here) if move.lap == cut.lap else None
        if side is None:
            continue
        turn, tooth = turn_to_uncut_crest(job.made, job.plan.cuts, here, side)
        way = "counter-clockwise" if (turn > 0) != frame.view_from_setup.flip else "clockwise"
        yield Row(f"for {_ZEROS[move.zero]}, tooth {tooth}", rad(abs(turn), f"{{}} {way}"))


def how_far_over(job: Job) -> Iterator[Line]:
    """For "How far over": backlash, and the levelled-face check."""
    if job.plan.cuts:
        yield from _arrivals(job)
        yield from _levelled(job)


def _arrivals(job: Job) -> Iterator[Line]:
    """From which side the offset is come to, lap by lap: the way of the move from the zero it is
    set by, so that the backlash lies as it lay at the touch."""
    ways = {cut.lap: _arrival(job, cut) for cut in job.plan.cuts}
    again = (
        "whichever zero it is set from: where the move goes the other way, go past by more than "
        "the backlash and come back. Lock the slide."
    )
    if len(set(ways.values())) == 1:
        every = ", in every lap" if len(ways) > 1 else ""
        yield f"Arrive going {ways[1]}{every}; {again}"
        return
    told = ", ".join(f"in lap {lap} going {way}" for lap, way in ways.items())
    yield f"Arrive {told}; {again}"


def _arrival(job: Job, cut: Cut) -> str:
    """The way of the first offset move of a lap; to a height gauge the way to its side."""
    moves = [move for move in job.touch_off if move.lap == cut.lap]
    first = next(move for move in moves if move.sets == "offset")
    if first.is_setting:
        return shop_words(job.plan.frame, complex(cut.offset or 1.0))[1]
    return first.direction


def _levelled(job: Job) -> Iterator[Line]:
    """The check of hook and offset on the first space cut."""
    height = levelled_face(job.made.space)
    if height is None or job.wheel.hand is None or not job.plan.cuts:
        return
    if is_level(height):
        yield "Check: a face turned level, looking up, stands at axis height."
        return
    side = "below" if height < 0 else "above"
    yield Row(f"Check: a face turned level, looking up, stands {side} the axis", mm(abs(height)))


def how_far_down(job: Job) -> Iterator[Line]:
    """For "How far down": what the passes count from, and how the last one is taken."""
    if job.passes:
        yield (
            f"The passes count {from_zero(job.part.setup.touch)}. Roughing passes take equal chips "
            "of what is left; the last goes all round at one untouched dial setting."
        )


def before_you_cut(job: Job) -> Iterator[Line]:
    """For "Before you cut": blank, bar, feed and speed to start with."""
    yield from _bar_lines(job)
    yield from _speed_lines(job)


def _bar_lines(job: Job) -> Iterator[Line]:
    bar = job.setting.bar
    if bar is None:
        return
    count = job.part.blank.count
    if count > 1:
        pitch = job.part.pitch_on_bar
        yield Row("Wheels one behind the other", str(count))
        yield Row("From face to face, parting and lapping in it", mm(pitch))
    yield Row("Reach, tip to holder, at least", mm(bar.reach))
    if bar.gripped_by == "bar":
        yield Row("Neck behind the wheel, at most", mm(bar.neck_diameter, "Ø {}"))
    overrun = bar.overrun
    if bar.neck_length is None or overrun is None or bar.feed is None or bar.behind is None:
        yield "Run-in and stick-out need the cutter's sweep_diameter."
        return
    if bar.gripped_by == "bar":
        yield Row("Neck, at least this long", mm(bar.neck_length))
    else:
        yield Row("Hub out of the jaws, at least", mm(bar.behind))
    if bar.stick_out is None:
        yield "The hub is shorter than that: see the caution under Before you cut."
    if bar.stick_out is not None and bar.cutter_to_jaws is not None:
        yield Row("Stick-out from the jaws", mm(bar.stick_out))
        yield Row("Tool to jaws, where it comes nearest", mm(bar.cutter_to_jaws))
    yield Row(f"Feed, {bar.feed_direction}", mm(bar.feed))
    start = bar.feed - bar.cut_length - overrun
    yield Row("from the cutter's axis before the end face", mm(start))
    yield Row("to the cutter's axis past the far face", mm(overrun))


def _speed_lines(job: Job) -> Iterator[Line]:
    speed = job.setting.speed
    if speed is None:
        if job.plan.cuts:
            yield no_speed(job.part.material)
        return
    decimal, unit = job.part.decimal, job.part.units
    if speed.turns is not None and speed.feed is not None:
        yield Row("Speed to start with", f"{math.floor(speed.turns)} turns a minute")
        feed = speed.feed / float(MM_PER_INCH) if unit == "in" else speed.feed
        told = format_number(feed, 2 if unit == "in" else 1, decimal=decimal)
        yield Row("Feed to start with", f"{told} {unit} a minute")
    else:
        surface = speed.surface / METRES_PER_FOOT if unit == "in" else speed.surface
        told = format_number(surface, 0 if unit == "in" else 1, decimal=decimal)
        per = "ft/min" if unit == "in" else "m/min"
        yield Row("Surface speed to start with", f"{told} {per} at the tip")
    source = f"for {speed.metal} and high-speed steel, common practice"
    yield (
        f"Starting values {source if speed.metal else 'by setup.surface_speed'}; the limits of "
        "cutter, holder and machine come first."
    )


def no_speed(material: str) -> str:
    """Why no speed is told, and which key gives one."""
    if not material:
        why = "the part names no material"
    elif is_hardened(material):
        why = f"{material}: no speed is known for a hardened metal"
    else:
        why = f"{material}: no speed is known for this metal"
    return (
        f"No speed and no feed: {why}. Give setup.surface_speed from the chart of your cutter's "
        "maker, or for this metal."
    )


def scratch_and_return(job: Job) -> tuple[Line, ...]:
    """For "Stops" or "Before you cut": the scratch lap and the return to the start."""
    scratch = next((one for one in job.passes if one.kind == "scratch"), None)
    if scratch is None:
        return ()
    infeed = mm(scratch.from_zero(job.part.setup.touch))
    teeth = job.made.teeth
    return (
        (
            "Scratch lap first: marking ink on the blank, the offset set, a bare mark at every "
            f"stop, come to {job.index.turn} as for cutting. Count {teeth} marks, and look "
            "for one gap that differs."
        ),
        Row(f"Scratch, infeed {from_zero(job.part.setup.touch)}", infeed),
        (
            f"Stop {teeth + 1} must fall on mark 1. If it does not, a stop is wrong: nothing is "
            "lost yet. After each lap too stop "
            f"{teeth + 1} must find the space of stop 1."
        ),
    )


def _lap_1(job: Job) -> str:
    """That the offset of lap 1 is set again, where there are more laps."""
    return "" if len(job.plan.cuts) == 1 else ", set offset and infeed of lap 1 again"


def pick_up(job: Job) -> tuple[Line, ...]:
    """For "Stops": how to find an existing space again after the head or the work slipped."""
    cuts = job.plan.cuts
    if not cuts:
        return ()
    figures = job.part.figures
    little = 0.0005 * float(MM_PER_INCH) if figures.unit == "in" else 0.01
    last = next(one for one in job.passes if one.lap == 1 and one.kind == "finish")
    return (
        (
            f"If head or work slipped: spindle off, keep the infeed zero{_lap_1(job)}. Ink "
            f"{inked(cuts[0])}, turn the work free until it faces the cutter, and come in gently "
            f"by hand until {felt(job.wheel, cuts[0])}."
        ),
        Row(
            f"Infeed in a finished space of lap 1, {from_zero(job.part.setup.touch)}",
            mm(last.from_zero(job.part.setup.touch)),
        ),
        (
            "In a space less deep come in as far as it was cut. Lock the work; take up the "
            f"backlash of the head {job.index.turn}, as for every stop, and read it: the "
            "difference from that stop's reading is added to every stop still to cut. Turn by "
            "hand through a neighbour before power."
        ),
        Row(f"{figures.length(little)} at the crest is", rad(little / job.made.radius)),
    )


Needs: TypeAlias = dict[tuple[str, int], float]
"""Setting (`offset` or `infeed`) and lap -> how well it must be set, mm."""


def needs_of(job: Job) -> Needs:
    """How well (mm) every setting of every lap must be set to hold the land, by the rows of the
    error budget that count with the zero used."""
    rows = job.budget.rows if job.budget is not None else ()
    return {
        (row.setting, cut.lap): row.needed
        for row in rows
        for cut in job.plan.cuts
        if row.lap in (None, cut.lap) and not row.is_instead
    }


def _move_dial(job: Job, move: DialMove, needs: Needs) -> str:
    found, dial = dial_of(job.part, move), job.part.dials.get(move.axis.lower())
    if found is None or dial is None:
        return ""
    need = math.inf if move.sets == "feed" else needs.get((move.sets, move.lap), 0.0)
    return dial_words(found, dial, need, job.part.figures)


def _pass_dial(job: Job, one: Pass, needs: Needs) -> str:
    found, dial = pass_on_dial(job.part, job.setting, one), infeed_dial(job.part)
    if found is None or dial is None:
        return ""
    return dial_words(found, dial, needs.get(("infeed", one.lap), 0.0), job.part.figures)


def dial_words(found: Dialled, dial: Dial, need: float, figures: Figures) -> str:
    """Turns and the figure to stop at, such as `4 turns, dial 1.86`; which way the numbers run;
    and how much more or less the exact move is where that is over `need` (mm)."""
    reading = _on_dial(found.reading, dial, figures)
    if found.turns is None:
        text = f"{reading} by its numbers"
    else:
        turns = f"{found.turns} turn{'' if found.turns == 1 else 's'}, " if found.turns else ""
        text = f"{turns}dial {reading}"
    if found.grow is not None:
        text += ", growing" if found.grow else ", falling"
    elif found.other is not None:
        text += f" ({_on_dial(found.other, dial, figures)} if they fall)"
    left = figures.length(abs(found.remainder))
    if abs(found.remainder) > need and left != figures.length(0.0):
        text += f"; exact is {left} {'more' if found.remainder > 0 else 'less'}"
    return text


def _on_dial(mm: float, dial: Dial, figures: Figures) -> str:
    """A figure as the dial's numbers have it: in the dial's unit, with the decimals of a division,
    or those of its tenth where they are needed."""
    unit = dial.unit or figures.unit
    coarse, fine = (_decimals(size, unit) for size in (dial.division, dial.division / SHARES))
    told = [
        format_length(mm, unit, decimal=figures.decimal, places=places, with_unit=False)
        for places in (coarse, fine)
    ]
    return told[0] if told[1].rstrip("0") == told[0].rstrip("0") else told[1]


def _decimals(mm: float, unit: Unit) -> int:
    """Decimals that a length has in a unit, 6 at most."""
    size = mm / float(MM_PER_INCH) if unit == "in" else mm
    return next((n for n in range(6) if abs(round(size, n) - size) < 1e-9), 6)
