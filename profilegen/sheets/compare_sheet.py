"""The picture to choose a cutter from: the best few laid over the space, enlarged.

Owns the panels: the wanted outline, the cutter at depth in light grey, gouge hatched at 45 degrees,
left-over at 135 degrees, and the value of each in figures below.
"""

from __future__ import annotations

import cmath
from typing import TYPE_CHECKING

from profilegen.cutting.compare import Match
from profilegen.cutting.touch import infeed_from
from profilegen.drawing.boxes import Box
from profilegen.drawing.frame import frame
from profilegen.drawing.hatch import GOUGE, LEFT_OVER
from profilegen.drawing.lettering import text_box
from profilegen.drawing.marks import SMALL, THIN, Block, Mark, Sheet, Text, outline_of, together
from profilegen.drawing.notes import Note, note_column
from profilegen.drawing.tables import fitted, heading, paragraph
from profilegen.figures import Figures
from profilegen.findings.telling import told
from profilegen.forms.wheel import Wheel
from profilegen.geometry.measure import nearest
from profilegen.job import Job
from profilegen.sheets.page import page_of, titles_of
from profilegen.topics.zero_words import IN_SHORT, ZERO, feeler_line, from_zero
from profilegen.views.space_view import (
    Placed,
    cutter_marks,
    deviation_marks,
    metal_marks,
    placed_in,
)

if TYPE_CHECKING:
    from profilegen.part.part import Part

NOTES = 24.0
"""mm at the right of a panel, for the sizes that come out."""

PANELS = 6
"""Cutters drawn: what comes after them is in the table only."""


def compare_sheet(job: Job, matches: tuple[Match, ...], paper: str | None = None) -> Sheet:
    """The best few cutters over the space, two in a row, best first.

    Args:
        job: whose wheel they are tried on.
        matches: best first; each is drawn over the print's space, as large as its panel in mm
            allows.
        paper: None for A4 with mm parts, Letter with inch parts.
    """
    page = page_of(job.part, paper)
    figures = job.part.figures
    framed = frame(page, titles_of(job.part, "cutter comparison", "1 / 1", "not to scale"))
    room = framed.room
    words = (
        "Best first. Grey: the cutter at depth. Hatched like / : cut off a tooth (gouge). "
        "Hatched like "
        "\\ : left in the space; their figures are the greatest distance from the wanted outline. "
        f"{IN_SHORT} {feeler_line(job.part)}"
    )
    top = heading(complex(room.x0, room.y1), "Cutters over one space", room.width, SMALL * 1.3)
    said = paragraph(complex(room.x0, room.y1 - top.height - 1.0), words, room.width)
    below = room.y1 - top.height - said.height - 4.0
    shown = [match for match in matches if match.cuts][:PANELS]
    rows = max(1, -(-len(shown) // 2))
    high = (below - room.y0) / max(rows, 2)
    blocks = [framed.block, top.block, said.block]
    for index, match in enumerate(shown):
        row, column = divmod(index, 2)
        x0, y1 = room.x0 + column * room.width / 2, below - row * high
        box = Box(x0, y1 - high, x0 + room.width / 2, y1)
        blocks.append(_panel(job, figures, match, box.grown(-1.0), index + 1))
    whole = together(blocks)
    return Sheet(page.width, page.height, whole.marks, whole.boxes, f"{job.part.title}: cutters")


def _panel(job: Job, figures: Figures, match: Match, box: Box, place: int) -> Block:
    """One cutter: name above, picture, verdict and figures below."""
    window = Box(box.x0 + 2.0, box.y0 + 16.0, box.x1 - NOTES, box.y1 - 6.0)
    placed = placed_in(job, window, match.cuts[0].setup_from_base)
    name = fitted(
        Text(complex(box.x0 + 2.0, box.y1 - 4.4), f"{place}  {match.cutter}", SMALL, bold=True),
        box.width - 4.0,
    )
    words = paragraph(
        complex(box.x0 + 2.0, box.y0 + 14.0),
        panel_words(job.part, job.made, match, figures),
        box.width - 4.0,
        2.0,
    )
    marks: list[Mark] = [outline_of(box, THIN), *cutter_marks(match.cuts, placed)]
    if match.fit is not None:
        marks += deviation_marks(match.fit.left_over, placed, LEFT_OVER, "left over")
        marks += deviation_marks(match.fit.gouge, placed, GOUGE, "gouge")
    marks += [*metal_marks(job.wheel, placed), name]
    room = Box(box.x1 - NOTES + 4.0, window.y0, box.x1 - 1.0, window.y1)
    seen = [
        note for note in _sizes(match, figures, placed, job.wheel) if _is_in(window, note.anchor)
    ]
    notes = note_column(seen, room, "right", 2.0)
    return together((Block(tuple(marks), (text_box(name),)), words.block, notes))


def _is_in(window: Box, place: complex) -> bool:
    """Whether a place is in the picture; what lies outside stands in the words below it."""
    return window.x0 <= place.real <= window.x1 and window.y0 <= place.imag <= window.y1


def _sizes(match: Match, figures: Figures, placed: Placed, wheel: Wheel) -> list[Note]:
    """What comes out, each size at its place: land, root, and the worst gouge and left-over."""
    fit = match.fit
    if fit is None:
        return []
    deepest = min(match.cuts, key=lambda cut: cut.root_radius)
    _, foot, _ = nearest(deepest.silhouette(), 0j)
    root = placed.at(deepest.setup_from_base.inverse()(foot))
    notes = [
        Note(
            placed.at(cmath.rect(wheel.radius, wheel.crest_angle)),
            f"{wheel.named('land')} {figures.size(fit.land)}",
        ),
        Note(root, f"root Ø\xa0{figures.size(2 * fit.root_radius)}"),
    ]
    for name, found in (("gouge", fit.gouge), ("left over", fit.left_over)):
        if found.value > 0.0:
            notes.append(Note(placed.at(found.at), f"{name} {figures.size(found.value)}"))
    return notes


def panel_words(part: Part, wheel: Wheel, match: Match, figures: Figures) -> str:
    """Verdict, laps, deviations with their places, and how each lap is set."""
    if match.fit is None:
        return f"cannot enter: {told(match.why, figures) if match.why else ''}"
    fit, laps = match.fit, len(match.cuts)
    said = [match.verdict, f"{laps} lap{'s' if laps > 1 else ''}"]
    for name, found in (("gouge", fit.gouge), ("left over", fit.left_over)):
        where = f" at the {wheel.named(found.where)}" if found.where else ""
        said.append(f"{name} {figures.length(found.value)}{where}")
    words = "; ".join(said) + "."
    for cut in match.cuts:
        lap = f" Lap {cut.lap}, {wheel.named(cut.forms)}:" if laps > 1 else " Set:"
        offset = figures.size(cut.offset if abs(cut.offset) > 5e-9 else 0.0)
        infeeds = ", ".join(
            f"{from_zero(zero)} {figures.size(infeed_from(cut, zero, part.setup.feeler or 0.0))}"
            for zero in ZERO
        )
        words += f"{lap} offset {offset}, infeed {infeeds}."
    return words
