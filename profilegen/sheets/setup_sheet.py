"""The set-up sheet: four pictures, eleven headings and the stops on a page to pin up, and the rest.

Owns where everything stands on the first page: what stops the work at its head, pictures above,
words in three columns below, the stops across the foot. The words are set as large as the page
allows; the pictures take the rest.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from profilegen.drawing.boxes import Box
from profilegen.drawing.frame import FRAME, Framed, Paper, frame
from profilegen.drawing.marks import SMALL, Block, Sheet, outline_of, together
from profilegen.drawing.tables import paragraph
from profilegen.figures import Figures
from profilegen.findings.finding import refused
from profilegen.findings.telling import told
from profilegen.job import Job
from profilegen.sheets.page import page_of, titles_of
from profilegen.sheets.section_columns import Words, columns, set_words
from profilegen.sheets.setting_page import further_blocks
from profilegen.topics.sheet_words import sections, stop_labels
from profilegen.topics.topic import Section, written
from profilegen.views import stop_grid as stops
from profilegen.views.part_view import part_view
from profilegen.views.plan_view import plan_view
from profilegen.views.setup_view import pictured, setup_view
from profilegen.views.space_view import space_view

KIND = "set-up sheet"

READABLE = 1.8
"""mm. Before the words get smaller than this the stops move to a further page."""

PICTURES, SMALLEST_PICTURES = 104.0, 96.0
"""mm. Least height of the pictures, and how far they give way before the stops move."""


def setup_sheets(job: Job, paper: str | None = None) -> tuple[Sheet, ...]:
    """The set-up sheet on A4, or Letter for inch parts, unless a paper is named.

    The first page has the pictures, the eleven headings and every stop to tick at its foot; the
    further ones the zeros, dials and passes, and how the later laps stand. Where the stops would
    make the words too small to read at the machine they come last.
    """
    page = page_of(job.part, paper)
    figures, labels = job.part.figures, stop_labels(job)
    room, said = _opened(job, page, "1 / 1").room, written(sections(job), figures)
    words, shown = _first_words(said, room, stops.height(labels, READABLE, room.width)), labels
    if words.size < READABLE:
        said, shown = written(sections(job, ticked_elsewhere=True), figures), ()
        words = _first_words(said, room, 0.0)
    further = further_blocks(job, figures, room, () if shown else labels)
    count = 1 + len(further)
    return (
        _page(job, figures, page, said, shown, words, count),
        *(_framed(job, page, block, n, count) for n, block in enumerate(further, 2)),
    )


def _first_words(said: tuple[Section, ...], room: Box, foot: float) -> Words:
    """The words of the first page; before they get too small to read the pictures give way."""
    words = set_words(said, room, foot + PICTURES)
    return words if words.size >= READABLE else set_words(said, room, foot + SMALLEST_PICTURES)


def _opened(job: Job, page: Paper, number: str) -> Framed:
    """A page with its frame and, at its head, what stops the work; its room lies below that."""
    framed = frame(page, titles_of(job.part, KIND, number, "not to scale"))
    stops_it = [told(one, job.part.figures) for one in refused(job.findings)]
    if not stops_it:
        return framed
    room, inset = framed.room, 2.0
    said = f"NOT TO BE CUT AS IT STANDS: {'; '.join(stops_it)}."
    at = complex(room.x0 + inset, room.y1 - inset)
    words = paragraph(at, said, room.width - 2 * inset, SMALL, bold=True)
    edge = Box(room.x0, at.imag - words.height - inset, room.x1, room.y1)
    block = together((framed.block, Block((outline_of(edge, FRAME),)), words.block))
    return replace(framed, block=block, room=Box(room.x0, room.y0, room.x1, edge.y0 - 2.0))


def _framed(job: Job, page: Paper, block: Block, number: int, count: int) -> Sheet:
    """A further page."""
    framed = _opened(job, page, f"{number} / {count}")
    whole = together((framed.block, block))
    return Sheet(page.width, page.height, whole.marks, whole.boxes, _title(job))


def _page(
    job: Job,
    figures: Figures,
    page: Paper,
    said: tuple[Section, ...],
    labels: tuple[str, ...],
    words: Words,
    count: int,
) -> Sheet:
    """The page with the pictures and the words, and at its foot the stops."""
    framed = _opened(job, page, f"1 / {count}")
    room = framed.room
    foot = stops.height(labels, words.size, room.width) if labels else 0.0
    split = room.y0 + foot + words.room
    pictures = Box(room.x0, split + 2.0, room.x1, room.y1)
    blocks = [
        framed.block,
        _pictures(job, figures, pictures),
        columns(said, words, room.x0, split),
        stops.grid(labels, words.size, complex(room.x0, room.y0 + foot - 1.0), room.width),
    ]
    whole = together(blocks)
    return Sheet(page.width, page.height, whole.marks, whole.boxes, _title(job))


def _title(job: Job) -> str:
    return f"{job.part.title}: {KIND}"


def _pictures(job: Job, figures: Figures, room: Box) -> Block:
    """Part and set-up above, space and plan below, each in its own thin frame; the part alone where
    no teeth are cut."""
    if not job.wheel.is_toothed:
        return pictured(room, part_view(job, figures, room.grown(-2.0)))
    middle, first = room.centre.real, job.plan.cuts[0] if job.plan.cuts else None
    low = room.y0 + 0.44 * room.height
    places: tuple[tuple[Callable[[Box], Block], Box], ...] = (
        (lambda box: part_view(job, figures, box), Box(room.x0, low, middle, room.y1)),
        (lambda box: setup_view(job, figures, box, first), Box(middle, low, room.x1, room.y1)),
        (lambda box: space_view(job, figures, box), Box(room.x0, room.y0, middle, low)),
        (lambda box: plan_view(job, box), Box(middle, room.y0, room.x1, low)),
    )
    blocks = []
    for draw, box in places:
        blocks.append(pictured(box, draw(box.grown(-2.0))))
    return together(blocks)
