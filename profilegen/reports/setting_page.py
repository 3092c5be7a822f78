"""The sheet's second page: zeros, dials and passes as tables, and the words about them.

Owns where they stand: the tables one below the other over the whole width, the words in columns
below. What does not fit goes on to a further page.
"""

from __future__ import annotations

from bisect import bisect_right
from dataclasses import dataclass, field, replace

from profilegen.drawing.boxes import Box
from profilegen.drawing.marks import Block, together
from profilegen.drawing.tables import Column, Laid, heading, natural_widths, table
from profilegen.job import Job
from profilegen.reports.figures import Figures
from profilegen.reports.section_columns import columns, set_words
from profilegen.reports.setting_words import setting_sections
from profilegen.reports.touchoff_rows import Table, pass_table, shift_table, touch_table

SIZE = 2.0
"""mm. Capital height in the tables."""

READABLE = 1.8
"""mm. Before the words under the tables get smaller than this they go on to a page of their own."""

GAP = 4.0
"""mm between tables."""

TOUCHES = "What touches"
"""The column that takes the room the others leave, its words wrapped."""

WIDEST = {"On the dial": 46.0}
"""mm. Columns that wrap before they take more room than this."""

FIGURES = ("By", "Infeed from the zero", "Print", "Here")
"""Columns of figures, set to the right and bold."""


@dataclass
class _Page:
    """A page being filled downwards.

    Attributes:
        top: where the next thing stands, mm.
        blocks: what stands there already.
    """

    top: float
    blocks: list[Block] = field(default_factory=list)


def setting_blocks(job: Job, figures: Figures, room: Box) -> tuple[Block, ...]:
    """What stands on each page inside `room` (mm); no page without a cut."""
    said = setting_sections(job, figures)
    if not said:
        return ()
    pages = [_Page(room.y1)]
    for title, (titles, rows) in (
        ("Zeros, and where to go from each", touch_table(job, figures)),
        ("Pass by pass", pass_table(job, figures)),
        ("The blank at hand", shift_table(job, figures)),
    ):
        _fill(pages, title, (titles, rows), room)
    rest = replace(room, y1=pages[-1].top)
    words = set_words(said, rest, 0.0)
    if words.size < READABLE or words.room > rest.height:
        pages.append(_Page(room.y1))
        words = set_words(said, room, 0.0)
    pages[-1].blocks.append(columns(said, words, room.x0, pages[-1].top))
    return tuple(together(page.blocks) for page in pages)


def _fill(pages: list[_Page], title: str, rest: Table, room: Box) -> None:
    """Set a table, in as many pieces as it takes."""
    titles, rows = rest
    while rows:
        page = pages[-1]
        count = _fitting(title, (titles, rows), room.width, page.top - room.y0)
        if count == 0 and page.blocks:
            pages.append(_Page(room.y1))
            continue
        count = max(count, 1)
        laid = _set(title, (titles, rows[:count]), complex(room.x0, page.top), room.width)
        page.blocks.append(laid.block)
        page.top -= laid.height + GAP
        rows = rows[count:]


def _fitting(title: str, whole: Table, width: float, high: float) -> int:
    """How many of the rows fit into this height, mm."""
    titles, rows = whole
    return bisect_right(
        range(1, len(rows) + 1),
        high,
        key=lambda count: _set(title, (titles, rows[:count]), 0j, width).height,
    )


def _set(title: str, whole: Table, at: complex, width: float) -> Laid:
    """One table under its heading, its top left corner at `at`."""
    titles, rows = whole
    head = heading(at, title, width, SIZE * 1.15)
    widths = dict(zip(titles, natural_widths(titles, rows, SIZE), strict=True))
    widths = {name: min(wide, WIDEST.get(name, wide)) for name, wide in widths.items()}
    if TOUCHES in widths:
        widths[TOUCHES] = width - sum(wide for name, wide in widths.items() if name != TOUCHES)
    shown = [
        Column(name, wide, "right" if name in FIGURES else "left", name in FIGURES)
        for name, wide in widths.items()
    ]
    body = table(at - 1j * (head.height + 0.5), shown, rows, SIZE)
    return Laid(together((head.block, body.block)), head.height + 0.5 + body.height)
