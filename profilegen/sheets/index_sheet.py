"""The index plan on one page: the way, what it costs to slip, every stop with a box to tick.

Owns the page. The stops are lettered as big as the fewest pages allow, and begin below the words;
those of a plan that is not exact have angle and error too, where that takes no page more.
"""

from __future__ import annotations

from profilegen.dividing.index_plan import IndexPlan
from profilegen.drawing.boxes import Box
from profilegen.drawing.frame import Paper, frame
from profilegen.drawing.marks import Block, Sheet, together
from profilegen.drawing.tables import Laid, bullets, heading, paragraph
from profilegen.part.part import Part
from profilegen.sheets.page import page_of, titles_of
from profilegen.topics.index_text import facts, inexact_words, tick_labels, way_lines
from profilegen.views import stop_grid

KIND = "index plan"

SIZES = tuple(tenths / 10 for tenths in range(35, 17, -1))
"""mm. Capital heights tried for the stops; 1.8 is the smallest of ISO 3098."""

FEWEST = 5
"""Lines of stops that are worth beginning below the words when they go on on other pages."""

WORDS = 2.2
"""mm. Capital height of the words."""

MOST_WAYS = 8


def dividing_sheets(part: Part, plan: IndexPlan, paper: str | None = None) -> tuple[Sheet, ...]:
    """The plan on one page, or with its stops on further pages where they are many."""
    page = page_of(part, paper)
    room = frame(page, titles_of(part, KIND, "1 / 1", "-")).room
    said, rest = _words(part, plan, room)
    size, runs = _set(plan, part, rest, room)
    count, first = len(runs), runs[0]
    if count > 1:
        pages = f"pages 2 to {count}" if count > 2 else "page 2"
        where = f"Tick them {'here and ' if first else ''}on {pages} of the PDF."
        note = paragraph(complex(rest.x0, rest.y1), where, rest.width, WORDS)
        said.append(note.block)
        rest = Box(rest.x0, rest.y0, rest.x1, rest.y1 - note.height - 1.0)
    if first:
        said.append(stop_grid.grid(first, size, complex(rest.x0, rest.y1), rest.width))
    sheets = [_sheet(part, page, tuple(said), f"1 / {count}")]
    for number, run in enumerate(runs[1:], 2):
        head = heading(complex(room.x0, room.y1), _over_the_stops(plan), room.width)
        corner = complex(room.x0, room.y1 - head.height)
        grid = stop_grid.grid(run, size, corner, room.width)
        sheets.append(_sheet(part, page, (head.block, grid), f"{number} / {count}"))
    return tuple(sheets)


Runs = tuple[tuple[str, ...], ...]
"""Labels of each page; those of the first, below the words, may be none."""


def _set(plan: IndexPlan, part: Part, rest: Box, room: Box) -> tuple[float, Runs]:
    """Capital height and labels of each page: as few pages as there can be, then with errors if the
    plan has any, then as big as it goes."""
    found = [
        (size, _runs(tick_labels(plan, part.decimal, told), size, rest, room))
        for told in ((False,) if plan.exact else (True, False))
        for size in SIZES
    ]
    return min(found, key=lambda each: len(each[1]))


def _runs(labels: tuple[str, ...], size: float, rest: Box, room: Box) -> Runs:
    if stop_grid.height(labels, size, rest.width) <= rest.height:
        return (labels,)
    height = rest.height - 3 * WORDS - 1.0
    worth = height >= FEWEST * stop_grid.PITCH * size
    first = stop_grid.fitting(labels, size, rest.width, height) if worth else 0
    return (labels[:first], *stop_grid.pages(labels[first:], size, room))


def _words(part: Part, plan: IndexPlan, room: Box) -> tuple[list[Block], Box]:
    """What stands above the stops, down to their heading, and the room below it."""
    figures, blocks, top = part.figures, list[Block](), room.y1

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
        more = f"{len(plan.ways) - MOST_WAYS} more: profilegen stops --json holds them all."
        put(paragraph(at(), more, room.width, WORDS), 2.0)
    put(heading(at() - 1j, _over_the_stops(plan), room.width), 2.0)
    if plan.is_listed_inexact:
        put(paragraph(at(), f"INEXACT: {inexact_words(plan, figures)}", room.width, WORDS), 2.0)
    return blocks, Box(room.x0, room.y0, room.x1, top)


def _over_the_stops(plan: IndexPlan) -> str:
    return "Stops, INEXACT" if plan.is_listed_inexact else "Stops"


def _sheet(part: Part, page: Paper, blocks: tuple[Block, ...], number: str) -> Sheet:
    whole = together((frame(page, titles_of(part, KIND, number, "-")).block, *blocks))
    return Sheet(page.width, page.height, whole.marks, whole.boxes, f"{part.title}: stops")
