"""The sheet's pages after the first: zeros, dials and passes as tables with words about them, how
the later laps stand, and the stops that the first page has no room for.

Owns where they stand: the tables one below the other over the whole width, the words in columns
below, then the later laps, the stops beside or below, and last how the bore is made. What does not
fit goes on to a further page.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from typing import TypeAlias

from profilegen.drawing.boxes import Box
from profilegen.drawing.marks import Block, together
from profilegen.drawing.tables import Column, Laid, heading, natural_widths, table
from profilegen.figures import Figures
from profilegen.job import Job
from profilegen.sheets.section_columns import Words, columns, set_words
from profilegen.topics.drilling import drilling_tables
from profilegen.topics.setting_words import setting_sections, slotting_sections
from profilegen.topics.sheet_words import tick_heading
from profilegen.topics.topic import Section, Table, written
from profilegen.topics.touchoff_rows import pass_table, shift_table, touch_table
from profilegen.views import stop_grid
from profilegen.views.setup_view import pictured, setup_view
from profilegen.views.slot_view import slot_view

SIZE = 2.0
"""mm. Capital height in the tables."""

READABLE = 1.8
"""mm. Before the words under the tables get smaller than this they go on to a page of their own."""

GAP = 4.0
"""mm between tables."""

LATER_LAPS, SMALLEST_LATER_LAPS = 76.0, 62.0
"""mm. Height of the set-up views of the laps after the first, and how far they give way before
they go on to a page of their own."""

TICK_SIZES = (2.5, 2.2, 2.0, 1.8)
"""mm. Capital heights tried for the stops, largest first."""

TOUCHES = "What touches"
"""The column that takes the room the others leave, its words wrapped."""

WIDEST = {"On the dial": 54.0}
"""mm. Columns that wrap before they take more room than this."""


@dataclass
class _Page:
    """A page being filled downwards.

    Attributes:
        top: where the next thing stands, mm.
        blocks: what stands there already.
    """

    top: float
    blocks: list[Block] = field(default_factory=list)


def further_blocks(
    job: Job, figures: Figures, room: Box, labels: tuple[str, ...]
) -> tuple[Block, ...]:
    """What stands on each further page.

    Args:
        job: with or without cuts.
        figures: how sizes are written.
        room: of each page, mm.
        labels: the stops that are still to tick; none where the first page has them.
    """
    pages = [_Page(room.y1)]
    said = written(setting_sections(job), figures)
    if said:
        _tables(pages, job, figures, room)
        _words(pages, said, room, _wanted(job, labels, room))
    for title, whole in drilling_tables(job):
        _fill(pages, title, whole, figures, room)
    beside = _later_laps(pages, job, figures, room)
    if labels:
        _stops(pages, job, labels, room, beside)
    _bore(pages, job, figures, room)
    return tuple(together(page.blocks) for page in pages if page.blocks)


def _tables(pages: list[_Page], job: Job, figures: Figures, room: Box) -> None:
    for title, whole in (
        ("Zeros, and where to go from each", touch_table(job)),
        ("Pass by pass", pass_table(job)),
        ("The blank at hand", shift_table(job)),
    ):
        _fill(pages, title, whole, figures, room)


def _bore(pages: list[_Page], job: Job, figures: Figures, room: Box) -> None:
    """How a bore that is not round is made right to the teeth, with its picture below."""
    said, found = written(slotting_sections(job), figures), job.bore_stops
    if not said or found is None:
        return
    wanted = (LATER_LAPS + GAP, SMALLEST_LATER_LAPS + GAP)
    _words(pages, said, room, wanted, wanted[-1])
    page = pages[-1]
    low = max(room.y0, page.top - LATER_LAPS)
    box = Box(room.x0, low, room.centre.real, page.top)
    page.blocks.append(pictured(box, slot_view(job, found, figures, box.grown(-2.0))))
    page.top = low - GAP


def _wanted(job: Job, labels: tuple[str, ...], room: Box) -> tuple[float, ...]:
    """Heights (mm) that the words had better leave, best first: of the later laps, else of the
    stops."""
    if len(job.plan.cuts) > 1:
        return LATER_LAPS + GAP, SMALLEST_LATER_LAPS + GAP
    sizes = TICK_SIZES if labels else ()
    return tuple(_ticked(job, labels, size, room).height + GAP for size in sizes)


def _words(
    pages: list[_Page],
    said: tuple[Section, ...],
    room: Box,
    wanted: Sequence[float],
    least: float = 0.0,
) -> None:
    """The words in columns below what stands there already, or on a page of their own.

    They leave the first height of `wanted` (mm) free with which they stay readable, and never less
    than `least`.
    """
    rest = replace(room, y1=max(pages[-1].top, room.y0))
    words = _leaving(said, rest, wanted)
    if words.size < READABLE or words.room + least > rest.height:
        pages.append(_Page(room.y1))
        words = _leaving(said, room, wanted)
    pages[-1].blocks.append(columns(said, words, room.x0, pages[-1].top))
    pages[-1].top -= words.room + GAP


def _leaving(said: tuple[Section, ...], room: Box, wanted: Sequence[float]) -> Words:
    """The largest readable words that leave the first height of `wanted` (mm) they can, or none."""
    tried = (set_words(said, room, height) for height in wanted)
    readable = (words for words in tried if words.size >= READABLE)
    return next(readable, None) or set_words(said, room, 0.0)


def _later_laps(pages: list[_Page], job: Job, figures: Figures, room: Box) -> Box | None:
    """The set-up views of the laps after the first, side by side; the room beside a single one."""
    later = job.plan.cuts[1:]
    if not later:
        return None
    if pages[-1].top - room.y0 < SMALLEST_LATER_LAPS:
        pages.append(_Page(room.y1))
    page, wide = pages[-1], room.width / max(2, len(later))
    low = max(room.y0, page.top - LATER_LAPS)
    for place, cut in enumerate(later):
        box = Box(room.x0 + place * wide, low, room.x0 + (place + 1) * wide, page.top)
        page.blocks.append(pictured(box, setup_view(job, figures, box.grown(-2.0), cut)))
    beside = Box(room.x0 + wide + GAP, low, room.x1, page.top) if len(later) == 1 else None
    page.top = low - GAP
    return beside


def _stops(
    pages: list[_Page], job: Job, labels: tuple[str, ...], room: Box, beside: Box | None
) -> None:
    """The stops beside a later lap or below everything, or on pages of their own."""
    below = replace(room, y1=max(pages[-1].top, room.y0))
    for box in (beside, below) if beside else (below,):
        for size in TICK_SIZES:
            laid = _ticked(job, labels, size, box)
            if laid.height <= box.height:
                pages[-1].blocks.append(laid.block)
                pages[-1].top = min(pages[-1].top, box.y1 - laid.height - GAP)
                return
    for run in stop_grid.pages(labels, TICK_SIZES[0], room):
        laid = _ticked(job, run, TICK_SIZES[0], room)
        pages.append(_Page(room.y1 - laid.height - GAP, [laid.block]))


def _ticked(job: Job, labels: tuple[str, ...], size: float, box: Box) -> Laid:
    """The stops down columns from the top of a box, under what their figures are."""
    at = complex(box.x0, box.y1)
    head = heading(at, tick_heading(job), box.width, size * 1.15)
    grid = stop_grid.grid(labels, size, at - 1j * head.height, box.width)
    high = head.height + stop_grid.height(labels, size, box.width)
    return Laid(together((head.block, grid)), high)


def _fill(pages: list[_Page], title: str, rest: Table, figures: Figures, room: Box) -> None:
    """Set a table, in as many pieces as it takes."""
    rows = rest.written(figures)
    while rows:
        page = pages[-1]
        count = _fitting(title, rest, rows, room.width, page.top - room.y0)
        if count == 0 and page.blocks:
            pages.append(_Page(room.y1))
            continue
        count = max(count, 1)
        laid = _set(title, rest, rows[:count], complex(room.x0, page.top), room.width)
        page.blocks.append(laid.block)
        page.top -= laid.height + GAP
        rows = rows[count:]


Rows: TypeAlias = tuple[tuple[str, ...], ...]
"""Some rows of a table, their figures written."""


def _fitting(title: str, whole: Table, rows: Rows, width: float, high: float) -> int:
    """How many of the rows fit into this height, mm."""
    return bisect_right(
        range(1, len(rows) + 1),
        high,
        key=lambda count: _set(title, whole, rows[:count], 0j, width).height,
    )


def _set(title: str, whole: Table, rows: Rows, at: complex, width: float) -> Laid:
    """Some rows of a table under its heading, its top left corner at `at`."""
    titles, right = whole.titles, whole.right
    head = heading(at, title, width, SIZE * 1.15)
    widths = dict(zip(titles, natural_widths(titles, rows, SIZE), strict=True))
    widths = {name: min(wide, WIDEST.get(name, wide)) for name, wide in widths.items()}
    if TOUCHES in widths:
        widths[TOUCHES] = width - sum(wide for name, wide in widths.items() if name != TOUCHES)
    shown = [
        Column(name, wide, "right" if place in right else "left", place in right)
        for place, (name, wide) in enumerate(widths.items())
    ]
    body = table(at - 1j * (head.height + 0.5), shown, rows, SIZE)
    return Laid(together((head.block, body.block)), head.height + 0.5 + body.height)
