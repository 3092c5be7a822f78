"""The check template: the part at true size, with bars that prove the print.

Owns what stands on it and where: outline and holes, centre cross, tooth numbers, a bar of known
length in each direction, and the words that say what it is good for.
"""

from __future__ import annotations

import cmath
import math
from dataclasses import dataclass

from profilegen.drawing.lettering import text_box, text_width
from profilegen.drawing.marks import (
    HAIR,
    MEDIUM,
    NARROW,
    SMALL,
    Block,
    Mark,
    Sheet,
    Text,
    line,
    stroke,
    together,
)
from profilegen.drawing.marks import paper as paper_mark
from profilegen.drawing.tables import fitted
from profilegen.figures import Figures
from profilegen.forms.wheel import Wheel
from profilegen.geometry.moves import Move, moved, scaled
from profilegen.job import Job
from profilegen.units import MM_PER_INCH, Unit


@dataclass(frozen=True, slots=True)
class CheckBar:
    """A bar that proves the print, by a rule of the part's own unit.

    Attributes:
        name: its length in words.
        length: on paper, at every scale, mm.
        parts: into which its ticks divide it.
    """

    name: str
    length: float
    parts: int


CHECK_BARS: dict[Unit, CheckBar] = {
    "mm": CheckBar("100 mm", 100.0, 10),
    "in": CheckBar("4 in", 4 * float(MM_PER_INCH), 8),
}

MARGIN = 10.0
"""mm. Printers leave about this much blank."""

FOOT = 58.0
"""mm. Height of the words below the drawing."""

PAGES = (
    ("A4", 210.0, 297.0),
    ("A3", 297.0, 420.0),
    ("A2", 420.0, 594.0),
    ("A1", 594.0, 841.0),
    ("A0", 841.0, 1189.0),
)
"""ISO 216 sizes, mm, upright."""

LETTER = ("Letter", 215.9, 279.4)
"""ANSI Y14.1 size A, mm, upright."""


def template(job: Job, scale: float = 1.0, paper: str | None = None) -> Sheet:
    """The template sheet.

    A wheel too big for the paper takes the next ISO size, or a sheet of its own size.

    Args:
        job: the print's wheel is drawn, seen from its front.
        scale: mm on the sheet for each mm of the part.
        paper: the smallest one to take; None for A4 with mm parts, Letter with inch parts.
    """
    wheel, figures = job.wheel, job.part.figures
    size = 2 * wheel.radius * scale
    name, width, height = page_for(
        size, size, paper or ("Letter" if job.part.units == "in" else "A4")
    )
    centre = complex(
        MARGIN + 12 + (width - 2 * MARGIN - 12) / 2,
        MARGIN + FOOT + (height - 2 * MARGIN - FOOT) / 2,
    )
    blocks = (
        Block((paper_mark(width, height),)),
        _part(wheel, centre, scale),
        *((_numbers(wheel, centre, scale),) if wheel.is_toothed else ()),
        check_bars(height, job.part.units),
        _words(job, figures, scale, name),
    )
    whole = together(blocks)
    title = f"{job.part.title}: template {ratio(scale)}"
    return Sheet(width, height, whole.marks, whole.boxes, title)


def page_for(wide: float, high: float, paper: str) -> tuple[str, float, float]:
    """The smallest page on which a drawing stands above the words: its name, width and height, mm.

    Args:
        wide: of the drawing, mm.
        high: of the drawing, mm.
        paper: `A4` or `Letter`, the smallest that is tried; what no ISO page holds gets a page of
            its own.
    """
    first = [LETTER] if paper == "Letter" else []
    for name, width, height in (*first, *PAGES):
        if wide + 2 * MARGIN + 28 <= width and high + 2 * MARGIN + FOOT + 16 <= height:
            return name, width, height
    return "own size", max(210.0, wide + 2 * MARGIN + 40), high + 2 * MARGIN + FOOT + 30


def _part(wheel: Wheel, centre: complex, scale: float) -> Block:
    """Outline and holes as hairlines, and the centre cross."""
    at = Move(shift=centre)
    curves = tuple(moved(scaled(curve, scale), at) for curve in wheel.contours)
    arm = min(6.0, wheel.radius * scale / 2)
    cross = (
        line(centre - arm, centre + arm, width=HAIR, name="centre"),
        line(centre - 1j * arm, centre + 1j * arm, width=HAIR, name="centre"),
    )
    return Block((stroke(*curves, width=HAIR, name="part"), *cross))


def _numbers(wheel: Wheel, centre: complex, scale: float) -> Block:
    """Tooth numbers round the outside; every fifth one when they would touch."""
    radius = wheel.radius * scale
    size = SMALL
    widest = text_width(str(wheel.teeth), size)
    apart = math.ceil((widest + 1.2) * wheel.teeth / (math.tau * (radius + 3.0)))
    marks: list[Mark] = []
    for tooth in _numbered(wheel.teeth, apart):
        out = wheel.wheel_from_base.direction(
            cmath.exp(1j * (wheel.angular_pitch * (tooth - 1) + wheel.crest_angle))
        )
        reach = radius + 1.2 + abs(out.real) * widest / 2 + abs(out.imag) * size / 2
        marks.append(
            Text(centre + out * reach, str(tooth), size, "middle", "middle", name="tooth number")
        )
    return Block(tuple(marks), tuple(text_box(mark) for mark in marks if isinstance(mark, Text)))


def _numbered(teeth: int, apart: int) -> tuple[int, ...]:
    """The teeth that carry their number: 1, and then in round steps at least `apart` teeth on."""
    step = next((n for n in (1, 2, 5, 10, 20, 50, 100, 200) if n >= apart), teeth)
    first = 1 if step < 5 else step
    rest = range(first + step if first == 1 else first, teeth + 1, step)
    return (1, *(n for n in rest if n - 1 >= apart and teeth + 1 - n >= apart))


def check_bars(height: float, unit: Unit) -> Block:
    """A bar along the foot and one up the left side of a page, to measure whether it was printed
    at its size.

    Args:
        height: of the page, mm.
        unit: mm or in, in which the bars are of a round length.
    """
    bar = CHECK_BARS[unit]
    low, half = complex(MARGIN + 14, MARGIN + 6), bar.length / 2
    up = complex(MARGIN + 4, min(MARGIN + FOOT + 20, height - MARGIN - bar.length - 4))
    across = (*_bar(bar, low, 1.0), Text(low + half + 2j, f"{bar.name} across", SMALL, "middle"))
    along = (
        *_bar(bar, up, 1j),
        Text(up + 4 + 1j * half, f"{bar.name} up", SMALL, "middle", turn=math.pi / 2),
    )
    marks = (*across, *along)
    return Block(marks, tuple(text_box(mark) for mark in marks if isinstance(mark, Text)))


def _bar(bar: CheckBar, start: complex, along: complex) -> tuple[Mark, ...]:
    """A line of exactly its length with an upright tick at each end and at every part between."""
    end, tick = start + bar.length * along, 1j * along
    name = "check bar x" if along.real else "check bar y"
    ticks = tuple(
        line(at - 1.0 * tick, at, width=HAIR)
        for at in (start + bar.length / bar.parts * n * along for n in range(1, bar.parts))
    )
    return (
        line(start, end, width=NARROW, name=name),
        line(start - 2 * tick, start + 2 * tick, width=HAIR, name="check bar end"),
        line(end - 2 * tick, end + 2 * tick, width=HAIR, name="check bar end"),
        *ticks,
    )


def print_words(unit: Unit) -> str:
    """How to print, and that the bars are measured."""
    return (
        f"Print at 100 %, actual size; this bar is {CHECK_BARS[unit].name}: measure it, and the "
        "one at the left."
    )


def _driven(job: Job) -> str:
    """The way the wheel is driven; nothing of symmetrical teeth."""
    return "" if job.wheel.hand is None else f"driven {job.wheel.hand}; "


def _counted(wheel: Wheel) -> str:
    """What stands round the wheel, and how many."""
    rounds = wheel.rounds
    if len(rounds) == 1 and not rounds[0].size:
        return f"{rounds[0].count} {rounds[0].name}"
    return f"circles of {', '.join(str(of.count) for of in rounds)} holes"


def _words(job: Job, figures: Figures, scale: float, page: str) -> Block:
    """What it is, how to print it, what it is good for."""
    part = job.part
    title = f"{part.number}  {part.title}".strip() if part.number else part.title
    lines = [
        (MEDIUM, True, title),
        (
            SMALL,
            False,
            f"outside diameter {figures.both(2 * job.wheel.radius)}, {_counted(job.wheel)}",
        ),
        (
            SMALL,
            False,
            f"seen from the front; {_driven(job)}scale {ratio(scale)} on {page}",
        ),
        (SMALL, True, print_words(part.units)),
        (SMALL, False, "If a bar is wrong, print again at 100 x (drawn / measured) per cent."),
        (
            SMALL,
            False,
            "Good for a look, a filing guide and a count of teeth; not for measuring teeth."
            if job.wheel.is_toothed
            else "Good for a look and a count; not for measuring, and not to drill or mark by.",
        ),
    ]
    return foot_words(lines)


def foot_words(lines: list[tuple[float, bool, str]]) -> Block:
    """Lines one below the other at the foot of a page.

    Args:
        lines: height of the capitals (mm), whether they are bold, and the words of each.
    """
    marks: list[Text] = []
    y = MARGIN + FOOT - 8
    for size, bold, string in lines:
        text = Text(complex(MARGIN + 14, y), string, size, bold=bold)
        marks.append(fitted(text, 168.0, size))
        y -= 2.4 * size if bold else 2.0 * size
    return Block(tuple(marks), tuple(text_box(mark) for mark in marks))


def ratio(scale: float) -> str:
    """A scale as drawings write it, such as `10:1`.

    Args:
        scale: mm on paper for each mm of the part; under 1 it is written `1:2`.
    """
    return f"{scale:g}:1" if scale >= 1 else f"1:{1 / scale:g}"
