"""Where holes are drilled: every hole of every circle by its coordinates, and by which drill.

x and y are counted from the wheel's axis, seen from the front, hole 1 on +x, holes numbered
counter-clockwise. A dividing head comes to the same holes by its stops.
"""

from __future__ import annotations

import cmath
import math
from collections.abc import Iterator
from typing import TYPE_CHECKING

from profilegen.dividing.index_plan import IndexPlan, arcmin_text, degrees_text
from profilegen.figures import Figure, mm, rad
from profilegen.gauging.drills import drill_for
from profilegen.topics.topic import Line, Row, Table
from profilegen.units import format_number

if TYPE_CHECKING:
    from profilegen.forms.wheel import Round, Wheel
    from profilegen.job import Job
    from profilegen.units import Unit

BESIDE = 2
"""Holes that stand beside each other in one row of the table."""

HEADER = ("circle", "hole", "angle_deg", "x_mm", "y_mm", "hole_mm", "drill", "done")
"""Of the list for programs and spreadsheets; `done` is left empty: it is ticked at the machine."""

SET_HEADER = ("set_angle", "error_arcmin", "reading")
"""What dividing hardware adds; `set_angle` in degrees."""


def drilled(wheel: Wheel) -> tuple[Round, ...]:
    """The rounds that are drilled."""
    return tuple(of for of in wheel.rounds if of.size)


def places(of: Round) -> tuple[tuple[float, complex], ...]:
    """Angle (rad, 0 to under a turn) and middle (mm) of each hole, from hole 1 on."""
    turns = [of.first + math.tau * k / of.count for k in range(of.count)]
    return tuple((turn, cmath.rect(of.diameter / 2, turn)) for turn in turns)


def drilling_lines(job: Job) -> Iterator[Line]:
    """How every circle is drilled, sizes in mm; nothing of a wheel that has none."""
    circles = drilled(job.made)
    for of in circles:
        sizes = Figure((of.size, of.diameter), "length", words="Ø {} on Ø {}")
        yield Row(f"{of.name.capitalize()}, {of.count} holes", sizes)
        yield Row(f"{of.name.capitalize()}, by", drill_words(of.size, job.part.units))
    if circles:
        yield (
            "Spot every hole with a centre drill at its place first. x and y count from the axis, "
            "seen from the front; hole 1 stands on +x, and holes are numbered counter-clockwise. "
            "Come to each from the same side, so that backlash stays on one side."
        )


def drilling_tables(job: Job) -> Iterator[tuple[str, Table]]:
    """A table for each circle: hole, angle (rad), x and y (mm from the axis, seen from the front),
    some beside each other."""
    for of in drilled(job.made):
        cells = [(str(n), rad(t), mm(z.real), mm(z.imag)) for n, (t, z) in enumerate(places(of), 1)]
        high = -(-len(cells) // BESIDE)
        rows = []
        for row in range(high):
            across = cells[row::high]
            blank = ("", "", "", "") * (BESIDE - len(across))
            rows.append((*(cell for four in across for cell in four), *blank))
        titles = tuple(f"{name}{' ' * k}" for k in range(BESIDE) for name in _TITLES)
        yield f"{of.name.capitalize()}: where its holes stand", Table(titles, tuple(rows))


_TITLES = ("hole", "angle", "x", "y")


def drill_words(size: float, unit: Unit) -> str:
    """The drill for a hole (mm), and whether it is reamed after."""
    drill = drill_for(size, unit)
    if drill is None:
        return "a boring tool: no drill is so small or so big"
    exact = abs(drill.diameter - size) < 5e-4
    return f"drill {drill.name}" if exact else f"drill {drill.name}, then ream or bore to size"


def drilling_rows(
    wheel: Wheel, plans: tuple[IndexPlan, ...], unit: Unit
) -> tuple[tuple[str, ...], ...]:
    """The header and a row a hole, mm and degrees, with what the dividing hardware shows behind.

    Args:
        wheel: with drilled circles.
        plans: of every round of the wheel, in their order.
        unit: of the part: whose drills are named.
    """
    known = any(plan.way is not None for plan in plans)
    rows: list[tuple[str, ...]] = [(*HEADER, *SET_HEADER) if known else HEADER]
    for number, (of, plan) in enumerate(zip(wheel.rounds, plans, strict=True), 1):
        if of.size:
            rows += _rows(number, of, plan, unit, known)
    return tuple(rows)


def _rows(
    number: int, of: Round, plan: IndexPlan, unit: Unit, known: bool
) -> Iterator[tuple[str, ...]]:
    drill = drill_words(of.size, unit)
    for stop, (_, at) in zip(plan.stops, places(of), strict=True):
        where = tuple(format_number(value, 4) for value in (at.real, at.imag, of.size))
        row = (str(number), str(stop.stop), degrees_text(stop.wanted), *where, drill, "")
        if known:
            row += (degrees_text(stop.stands), arcmin_text(stop.error), stop.reading)
        yield row
