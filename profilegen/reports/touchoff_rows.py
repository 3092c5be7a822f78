"""Zeros, moves, passes and checks as rows for people.

Owns the words of touching off and of running in: what the sheet says under "Where zero is", "How
far over", "How far down" and "Before you cut". Refuses places: a line is a sentence, or a pair of a
label and its value.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from itertools import groupby
from typing import TypeAlias

from profilegen.cutting.dials import Dialled
from profilegen.cutting.shop import dial_of, pass_on_dial
from profilegen.cutting.touchoff import OFFSET_ZEROS, DialMove, Route, levelled_face, shop_words
from profilegen.job import Job
from profilegen.reports.figures import Figures
from profilegen.units import format_number

Line: TypeAlias = str | tuple[str, str]
"""A sentence, or a label and its value."""

HEADER = ("Lap", "Route", "Zero", "What touches", "Then go", "By", "On the dial")

_KINDS = {
    "scratch": "scratch every stop",
    "rough": "rough",
    "finish": "finish all round",
    "recut": "again spaces 1 and 2",
}


def touch_table(job: Job, figures: Figures) -> tuple[tuple[str, ...], ...]:
    """The header and a row for every move from every zero, route A before B before the checks."""
    rows = [HEADER]
    for move in job.shop.touch_off:
        rows.append(
            (
                str(move.lap),
                move.route,
                move.zero,
                move.touches,
                f"{move.axis} {move.direction}",
                figures.length(move.amount),
                _dial_words(dial_of(job.part, move), figures),
            )
        )
    return tuple(rows)


def where_zero(job: Job, figures: Figures) -> tuple[Line, ...]:
    """For "Where zero is": both routes, the check that they are, and how to prove the centre."""
    return tuple(_where_zero(job, figures))


def _where_zero(job: Job, figures: Figures) -> Iterator[Line]:
    shop, feeler = job.shop, job.part.setup.feeler
    if not shop.plan.cuts:
        return
    for route in ("A", "B"):
        over, down = _route(job, route)
        yield (
            f"Route {route}: offset from {over.touches} ({over.zero}), infeed from {down.touches} "
            f"({down.zero}). Spindle off."
        )
    if _route(job, "A")[0].zero == _route(job, "B")[0].zero:
        yield (
            "Both routes share the zero of the offset: give the cutter's body_width, or "
            "setup.centre_height for a cutter at the side, to have a second one."
        )
    yield "Both routes end in one place: set by A, read B, and find out why if they differ."
    if feeler:
        yield ("Feeler, counted in", figures.length(feeler))
    else:
        yield "No feeler is counted in: touch metal to metal, or give setup.feeler."
    yield "Moves are told of the cutter against the work; a table goes the other way."
    more, less = (shop_words(shop.plan.frame, way)[1] for way in (1 + 0j, -1 + 0j))
    yield (
        "Proof of centre, on scrap: tip at zero offset, cut a light line along the work, turn it "
        "half round, cut again at the same setting. The two must lie on one diameter: half the "
        f"mismatch, {more} or {less}, is the error. Only then go to the offset, in one direction."
    )


def _route(job: Job, route: Route) -> tuple[DialMove, DialMove]:
    """The offset and the infeed move of one route of the first lap."""
    over, down = (m for m in job.shop.touch_off if m.route == route and m.lap == 1)
    return over, down


def how_far_over(job: Job, figures: Figures) -> tuple[Line, ...]:
    """For "How far over": the offset from every zero, backlash, and the levelled-face check."""
    return tuple(_how_far_over(job, figures))


def _how_far_over(job: Job, figures: Figures) -> Iterator[Line]:
    told: set[tuple[int, str]] = set()
    for move in job.shop.touch_off:
        if _is_offset(job, move) and (move.lap, move.zero) not in told:
            told.add((move.lap, move.zero))
            yield _move_line(job, move, figures)
    if job.plan.cuts:
        arrive = shop_words(job.plan.frame, complex(job.plan.cuts[0].offset or 1.0))[1]
        yield (
            f"Arrive going {arrive}, in every lap; if you overshoot go back more than the backlash "
            "and come again. Lock the slide."
        )
    yield from _levelled(job, figures)


def _is_offset(job: Job, move: DialMove) -> bool:
    at_side = job.plan.frame.cutter_side != "above"
    return move.zero in OFFSET_ZEROS or (move.is_setting and at_side)


def _move_line(job: Job, move: DialMove, figures: Figures) -> Line:
    lap = f"Lap {move.lap}, " if len(job.plan.cuts) > 1 else ""
    if move.is_setting:
        return f"{lap}gauge over the table, {move.touches}", figures.both(move.amount)
    dial = _dial_words(dial_of(job.part, move), figures)
    return (
        f"{lap}{move.route}, from {move.zero}: {move.axis} {move.direction}",
        figures.both(move.amount) + (f" = {dial}" if dial else ""),
    )


def _levelled(job: Job, figures: Figures) -> Iterator[Line]:
    """The check of hook and offset on the first space cut."""
    drop = levelled_face(job.made.space)
    if drop is None or not job.plan.cuts:
        return
    if abs(drop) < 5e-7:
        yield "Check: a face turned level, looking up, stands at axis height."
        return
    side = "below" if drop > 0 else "above"
    yield (
        f"Check: a face turned level, looking up, stands {side} the axis",
        figures.length(abs(drop)),
    )


def how_far_down(job: Job, figures: Figures) -> tuple[Line, ...]:
    """For "How far down": the full infeed from every zero and each pass from the chosen one."""
    return tuple(_how_far_down(job, figures))


def _how_far_down(job: Job, figures: Figures) -> Iterator[Line]:
    for move in job.shop.touch_off:
        if move.axis != "X" and not _is_offset(job, move):
            yield _move_line(job, move, figures)
    touch = job.part.setup.touch
    where = "top dead centre" if touch == "top" else "the set offset"
    for lap, passes in groupby(job.shop.passes, key=lambda one: one.lap):
        yield f"Passes of lap {lap}, infeed from the zero at {where}:"
        for one in passes:
            dial = _dial_words(pass_on_dial(job.part, job.shop, one), figures)
            yield (
                f"{one.number}  {_KINDS[one.kind]}",
                figures.length(one.from_zero(touch)) + (f" = {dial}" if dial else ""),
            )
    if job.shop.passes:
        yield "Roughing passes take equal chips. Last pass all round at one untouched dial setting."


def before_you_cut(job: Job, figures: Figures) -> tuple[Line, ...]:
    """For "Before you cut": blank, bar, feed and speed to start with."""
    return (*_blank_lines(job, figures), *_bar_lines(job, figures), *_speed_lines(job))


def _blank_lines(job: Job, figures: Figures) -> Iterator[Line]:
    found = job.shop.blank
    if found is None:
        return
    yield ("Settings are for the blank as measured", f"Ø {figures.length(2 * found.wheel.radius)}")
    for shift in found.shifts:
        lap = f", lap {shift.lap}" if shift.lap and len(found.plan.cuts) > 1 else ""
        change = f"{figures.length(shift.nominal)} becomes {figures.length(shift.measured)}"
        yield (f"{shift.label}{lap}", change)


def _bar_lines(job: Job, figures: Figures) -> Iterator[Line]:
    bar = job.shop.bar
    if bar is None:
        return
    yield ("Reach, tip to holder, at least", figures.length(bar.reach))
    yield ("Neck behind the wheel, at most", f"Ø {figures.length(bar.neck_diameter)}")
    if bar.neck_length is None or bar.approach is None or bar.feed is None:
        yield "Run-in and stick-out need the cutter's sweep_diameter."
        return
    yield ("Neck, at least this long", figures.length(bar.neck_length))
    if bar.stick_out is not None and bar.cutter_to_jaws is not None:
        yield ("Stick-out from the jaws", figures.length(bar.stick_out))
        yield ("Cutter to jaws at the end of the cut", figures.length(bar.cutter_to_jaws))
    yield (f"Feed, {bar.feed_direction}", figures.length(bar.feed))
    yield ("of it before the work and after", figures.length(bar.approach))


def _speed_lines(job: Job) -> Iterator[Line]:
    speed = job.shop.speed
    if speed is None:
        return
    decimal = job.part.decimal
    if speed.turns is not None and speed.feed is not None:
        yield ("Speed to start with", f"{math.floor(speed.turns)} turns a minute")
        yield ("Feed to start with", f"{format_number(speed.feed, 1, decimal=decimal)} mm a minute")
    else:
        surface = format_number(speed.surface, 1, decimal=decimal)
        yield ("Surface speed to start with", f"{surface} m/min at the tip")
    yield (
        f"Starting values for {speed.metal} and high-speed steel, common practice; the limits of "
        "cutter, holder and machine come first."
    )


def scratch_and_return(job: Job, figures: Figures) -> tuple[Line, ...]:
    """For "Stops" or "Before you cut": the scratch lap and the return to the start."""
    scratch = next((one for one in job.shop.passes if one.kind == "scratch"), None)
    if scratch is None:
        return ()
    infeed = figures.length(scratch.from_zero(job.part.setup.touch))
    teeth = job.made.teeth
    return (
        (
            "Scratch lap first: marking ink on the blank, the offset set, a bare mark at every "
            f"stop. Count {teeth} marks, and look for one gap that differs."
        ),
        ("Scratch, infeed from the zero", infeed),
        (
            f"Stop {teeth + 1} must fall on mark 1. If it does not, a stop is wrong: nothing is "
            "lost yet. Do the same after each lap."
        ),
    )


def pick_up(job: Job, figures: Figures) -> tuple[Line, ...]:
    """For "Stops": how to find an existing space again after the head or the work slipped."""
    cuts = job.plan.cuts
    if not cuts:
        return ()
    shift = math.degrees(0.01 / job.made.radius)
    last = next(one for one in job.shop.passes if one.lap == 1 and one.kind == "finish")
    both = cuts[0].forms == "both"
    bears = "both flanks bear" if both else f"the {cuts[0].forms} bears on its edge"
    return (
        (
            "If head or work slipped: spindle off, keep offset and infeed zeros. Ink a space of "
            f"lap 1, turn the work free until it faces the cutter, and come in gently by hand "
            f"until {bears}."
        ),
        (
            "Infeed in a finished space of lap 1",
            figures.length(last.from_zero(job.part.setup.touch)),
        ),
        (
            "In a space less deep come in as far as it was cut. Lock the work, read the head: the "
            "difference from that stop's angle is added to every stop still to cut. Turn by hand "
            "through a neighbour before power."
        ),
        ("0.01 mm at the crest is", f"{format_number(shift, 3, decimal=job.part.decimal)}°"),
    )


def _dial_words(dial: Dialled | None, figures: Figures) -> str:
    """Whole divisions, which way the numbers run, and what is left over."""
    if dial is None:
        return ""
    text = f"{dial.divisions} divisions"
    if dial.grow is not None:
        text += ", numbers growing" if dial.grow else ", numbers falling"
    if abs(dial.remainder) >= 5e-4:
        left = figures.length(abs(dial.remainder))
        text += f", {left} {'short' if dial.remainder > 0 else 'beyond'}"
    return text
