"""The set-up sheet: four pictures, eleven headings and the stops, on one page to pin up.

Owns where everything stands on the page: pictures above, words in three columns below, the stops
across the foot. The words are set as large as the page allows; the pictures take the rest.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from profilegen import __version__
from profilegen.drawing.boxes import Box
from profilegen.drawing.frame import PAPERS, Paper, Titles, frame
from profilegen.drawing.layout import even_room, flow
from profilegen.drawing.marks import THIN, Block, Sheet, outline_of, together
from profilegen.drawing.tables import Laid, heading, pairs, paragraph
from profilegen.job import Job
from profilegen.reports import stop_grid as stops
from profilegen.reports.figures import Figures, figures_for
from profilegen.reports.part_view import part_view
from profilegen.reports.plan_view import plan_view
from profilegen.reports.setting_words import setting_sections
from profilegen.reports.setup_view import setup_view
from profilegen.reports.sheet_words import Row, Section, sections, stop_labels
from profilegen.reports.space_view import space_view

SIZES = (2.5, 2.2, 2.0, 1.8, 1.6, 1.4, 1.2)
"""mm. Capital heights tried for the words, largest first; 1.8 is the smallest of ISO 3098."""

READABLE = 1.8
"""mm. Before the words get smaller than this the stops move to pages of their own."""

PICTURES = 104.0
"""mm. Least height of the pictures."""

COLUMNS, GUTTER = 3, 4.0

TICK_SIZE = 2.5
"""mm. Capital height of the stops on pages of their own."""


@dataclass(frozen=True, slots=True)
class _Words:
    """The words set at one size, not yet placed.

    Attributes:
        size: capital height, mm.
        width: of a column, mm.
        room: height of the columns, mm.
    """

    size: float
    width: float
    room: float


def setup_sheets(job: Job, paper: str | None = None) -> tuple[Sheet, ...]:
    """The set-up sheet on A4, or Letter for inch parts, unless a paper is named.

    The first page has the pictures, the eleven headings and every stop to tick at its foot; the
    second one the zeros, dials and passes. Where the stops would make the words too small to read
    at the machine they follow on pages of their own.
    """
    page = PAPERS[paper or ("Letter" if job.part.units == "in" else "A4")]
    figures, labels = figures_for(job.part), stop_labels(job)
    room = frame(page, _titles(job, "1 / 1")).room
    setting = setting_sections(job, figures)
    said = sections(job, figures)
    words = _words(said, room, stops.height(labels, READABLE, room.width) + PICTURES)
    foot, shown = stops.height(labels, words.size, room.width), labels
    ticks: tuple[tuple[str, ...], ...] = ()
    if words.size < READABLE:
        said = sections(job, figures, ticked_elsewhere=True)
        words = _words(said, room, PICTURES)
        foot, ticks, shown = 0.0, stops.pages(labels, TICK_SIZE, room), ()
    count = 1 + bool(setting) + len(ticks)
    sheets = [_page(job, figures, page, said, shown, words, foot, count)]
    if setting:
        sheets.append(_setting(job, page, setting, count))
    for run in ticks:
        sheets.append(_ticks(job, page, run, len(sheets) + 1, count))
    return tuple(sheets)


def _setting(job: Job, page: Paper, said: tuple[Section, ...], count: int) -> Sheet:
    """The page of zeros, dials and passes."""
    framed = frame(page, _titles(job, f"2 / {count}"))
    words = _words(said, framed.room, 0.0)
    whole = together((framed.block, _columns(said, words, framed.room.x0, framed.room.y1)))
    return Sheet(page.width, page.height, whole.marks, whole.boxes, _title(job))


def _page(
    job: Job,
    figures: Figures,
    page: Paper,
    said: tuple[Section, ...],
    labels: tuple[str, ...],
    words: _Words,
    foot: float,
    count: int,
) -> Sheet:
    """The page with the pictures and the words."""
    framed = frame(page, _titles(job, f"1 / {count}"))
    room = framed.room
    split = room.y0 + foot + words.room
    pictures = Box(room.x0, split + 2.0, room.x1, room.y1)
    blocks = [
        framed.block,
        _pictures(job, figures, pictures),
        _columns(said, words, room.x0, split),
        stops.grid(labels, words.size, complex(room.x0, room.y0 + foot - 1.0), room.width),
    ]
    whole = together(blocks)
    return Sheet(page.width, page.height, whole.marks, whole.boxes, _title(job))


def _ticks(job: Job, page: Paper, labels: tuple[str, ...], number: int, count: int) -> Sheet:
    """A page of stops to tick."""
    framed = frame(page, _titles(job, f"{number} / {count}"))
    room = framed.room
    head = heading(complex(room.x0, room.y1), "Stops", room.width, TICK_SIZE * 1.15)
    top = complex(room.x0, room.y1 - head.height)
    grid = stops.grid(labels, TICK_SIZE, top, room.width)
    whole = together((framed.block, head.block, grid))
    return Sheet(page.width, page.height, whole.marks, whole.boxes, _title(job))


def _title(job: Job) -> str:
    return f"{job.part.title}: set-up sheet"


def _titles(job: Job, sheet: str) -> Titles:
    part = job.part
    return Titles(
        title=part.title,
        number=part.number,
        kind="set-up sheet",
        material=part.material,
        scale="not to scale",
        units="mm, degrees" if part.units == "mm" else "inch, degrees",
        sheet=sheet,
        drawn_by=f"profilegen {__version__}",
    )


def _words(said: tuple[Section, ...], room: Box, rest: float) -> _Words:
    """The largest lettering with which the words leave `rest` mm of the room's height free."""
    width = (room.width - (COLUMNS - 1) * GUTTER) / COLUMNS
    words = _Words(SIZES[0], width, 0.0)
    for size in SIZES:
        heights = [_set(section, 0j, width, size).height for section in said]
        words = _Words(size, width, even_room(heights, COLUMNS, 1.6 * size))
        if words.room + rest <= room.height:
            break
    return words


def _columns(said: tuple[Section, ...], words: _Words, x: float, top: float) -> Block:
    gap = 1.6 * words.size
    heights = [_set(section, 0j, words.width, words.size).height for section in said]
    places = flow(heights, words.room, gap)
    return together(
        [
            _set(
                section,
                complex(x + column * (words.width + GUTTER), top - down),
                words.width,
                words.size,
            ).block
            for section, (column, down) in zip(said, places, strict=True)
        ]
    )


def _set(section: Section, at: complex, width: float, size: float) -> Laid:
    """One section, its top left corner at `at`."""
    head = heading(at, section.heading, width, size * 1.15)
    blocks, used = [head.block], head.height + 0.1 * size
    for said in section.lines:
        top = at - 1j * used
        match said:
            case Row(label, value):
                laid = pairs(top, [(label, value or "…" * 9)], width, size)
            case str(text):
                laid = paragraph(top, text, width, size)
        blocks.append(laid.block)
        used += laid.height + 0.35 * size
    return Laid(together(blocks), used)


def _pictures(job: Job, figures: Figures, room: Box) -> Block:
    """Part and set-up above, space and plan below, each in its own thin frame."""
    middle = room.centre.real
    low = room.y0 + 0.44 * room.height
    places: tuple[tuple[Callable[[Box], Block], Box], ...] = (
        (lambda box: part_view(job, figures, box), Box(room.x0, low, middle, room.y1)),
        (lambda box: setup_view(job, figures, box), Box(middle, low, room.x1, room.y1)),
        (lambda box: space_view(job, figures, box), Box(room.x0, room.y0, middle, low)),
        (lambda box: plan_view(job, box), Box(middle, room.y0, room.x1, low)),
    )
    blocks = []
    for draw, box in places:
        blocks.append(Block((outline_of(box.grown(-0.5), THIN),)))
        blocks.append(draw(box.grown(-2.0)))
    return together(blocks)
