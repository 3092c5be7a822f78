"""The picture beside a starter part file: every key at the dimension it sets.

Owns the page; the views are those of the set-up sheet, with keys written in place of figures.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from profilegen.cutting.frame import OTHER_HAND
from profilegen.drawing.boxes import Box
from profilegen.drawing.lettering import text_box
from profilegen.drawing.marks import MEDIUM, SMALL, Block, Sheet, Text, paper, together
from profilegen.figures import KeyNames
from profilegen.job import Job, job_for
from profilegen.views.part_view import part_view
from profilegen.views.space_view import space_view

if TYPE_CHECKING:
    from profilegen.part.part import Part

WIDTH, HEIGHT = 200.0, 108.0
"""mm. Size of the picture."""


def key_picture(part: Part) -> Sheet:
    """The part's front and edge, and one space enlarged, with the names of the keys.

    Raises:
        CannotMakeError: the part cannot be solved.
    """
    job = _without_cutter(job_for(part))
    names = KeyNames(part.units, part.decimal)
    title = Text(
        4.0 + 1j * (HEIGHT - 7.0), f"{part.wheel.kind}: the keys of [wheel] and [bore]", MEDIUM
    )
    notes = _notes(job)
    below = [Text(4.0 + 1j * (8.0 - 4.5 * n), note, SMALL) for n, note in enumerate(notes)]
    texts = (title, *below)
    blocks = (
        Block((paper(WIDTH, HEIGHT),)),
        *_views(job, names),
        Block(texts, tuple(text_box(text) for text in texts)),
    )
    whole = together(blocks)
    return Sheet(WIDTH, HEIGHT, whole.marks, whole.boxes, f"{part.wheel.kind}: keys")


def _views(job: Job, names: KeyNames) -> tuple[Block, ...]:
    """Front and edge, and beside them one space of a wheel that has teeth."""
    if not job.wheel.is_toothed:
        return (part_view(job, names, Box(2.0, 14.0, WIDTH - 2.0, HEIGHT - 10.0)),)
    return (
        part_view(job, names, Box(2.0, 14.0, 98.0, HEIGHT - 10.0)),
        space_view(job, names, Box(100.0, 16.0, WIDTH - 2.0, HEIGHT - 12.0)),
    )


def _notes(job: Job) -> tuple[str, ...]:
    """How teeth are numbered, and which key may stand for another."""
    if not job.wheel.is_toothed:
        return ()
    numbered = OTHER_HAND[job.wheel.hand or "clockwise"]
    arrow = "rotation: the way the wheel is driven, the arrow; teeth"
    return (
        f"{'Teeth' if job.wheel.hand is None else arrow} are numbered {numbered} from tooth 1.",
        "tooth_depth may be given in place of root_diameter: half of outside_diameter less "
        "root_diameter.",
    )


def _without_cutter(job: Job) -> Job:
    """The wheel alone, its front to the free end, so that both views show one hand."""
    hand = job.wheel.hand or "clockwise"
    frame = replace(job.print_plan.frame, front="free end", hand_at_free_end=hand)
    return replace(job, print_plan=replace(job.print_plan, cuts=(), frame=frame))
