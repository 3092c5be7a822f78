"""The index plan on one page: the way, what it costs to slip, every stop with a box to tick.

Owns the page. The list of stops is made smaller until it fits; where that would be too small to
read at the machine, the stops follow on pages of their own.
"""

from __future__ import annotations

from profilegen.cutting.dividing.index_plan import IndexPlan
from profilegen.drawing.boxes import Box
from profilegen.drawing.frame import Paper, frame
from profilegen.drawing.marks import SMALL, Block, Sheet, together
from profilegen.drawing.tables import Laid, bullets, heading, paragraph
from profilegen.part.part import Part
from profilegen.reports import stop_grid
from profilegen.reports.dividing import facts, tick_labels, way_lines
from profilegen.reports.figures import figures_for
from profilegen.reports.page import page_of, titles_of

KIND = "index plan"

SIZES = (SMALL, 2.2, 2.0, 1.8)
"""mm. Capital heights tried for the stops; 1.8 is the smallest of ISO 3098."""

WORDS = 2.2
"""mm. Capital height of the words."""

MOST_WAYS = 8


def dividing_sheets(part: Part, plan: IndexPlan, paper: str | None = None) -> tuple[Sheet, ...]:
    """The plan on one page, or with its stops on further pages where they are many."""
    page = page_of(part, paper)
    room = frame(page, titles_of(part, KIND, "1 / 1", "-")).room
    said, rest = _words(part, plan, room)
    labels = tick_labels(plan, part.decimal)
    fitting = [s for s in SIZES if stop_grid.height(labels, s, room.width) <= rest.height]
    if fitting:
        corner = complex(rest.x0, rest.y1)
        grid = stop_grid.grid(labels, fitting[0], corner, rest.width)
        return (_sheet(part, page, (*said, grid), "1 / 1"),)
    runs = stop_grid.pages(labels, SIZES[-1], room)
    count = len(runs) + 1
    pages = f"pages 2 to {count}" if count > 2 else "page 2"
    where = f"Tick them on {pages} of the PDF."
    note = paragraph(complex(rest.x0, rest.y1), where, rest.width, WORDS).block
    sheets = [_sheet(part, page, (*said, note), f"1 / {count}")]
    for number, run in enumerate(runs, 2):
        head = heading(complex(room.x0, room.y1), "Stops", room.width)
        corner = complex(room.x0, room.y1 - head.height)
        grid = stop_grid.grid(run, SIZES[-1], corner, room.width)
        sheets.append(_sheet(part, page, (head.block, grid), f"{number} / {count}"))
    return tuple(sheets)


def _words(part: Part, plan: IndexPlan, room: Box) -> tuple[list[Block], Box]:
    """What stands above the stops, down to their heading, and the room below it."""
    figures, blocks, top = figures_for(part), list[Block](), room.y1

    def put(laid: Laid, gap: float) -> None:
        nonlocal top
        blocks.append(laid.block)
        top -= laid.height + gap

    def at() -> complex:
        return complex(room.x0, top)

    put(heading(at(), "Before you cut", room.width), 1.0)
    put(bullets(at(), facts(plan, figures), room.width, size=WORDS), 3.0)
    if plan.ways:
        put(heading(at(), "Ways", room.width), 1.0)
        ways = way_lines(plan, figures, MOST_WAYS)
        put(bullets(at(), ways, room.width, "{n}.", size=WORDS), 2.0)
    if len(plan.ways) > MOST_WAYS:
        more = f"{len(plan.ways) - MOST_WAYS} more: profilegen stops lists them."
        put(paragraph(at(), more, room.width, WORDS), 2.0)
    put(heading(at() - 1j, "Stops", room.width), 2.0)
    return blocks, Box(room.x0, room.y0, room.x1, top)


def _sheet(part: Part, page: Paper, blocks: tuple[Block, ...], number: str) -> Sheet:
    whole = together((frame(page, titles_of(part, KIND, number, "-")).block, *blocks))
    return Sheet(page.width, page.height, whole.marks, whole.boxes, f"{part.title}: stops")
