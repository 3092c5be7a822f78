"""One space enlarged, with the cutter in it, turned so that the space looks up.

Owns which sizes of the tooth are shown there: space angle, hook, land, root and depth.
"""

from __future__ import annotations

import cmath
import math
from dataclasses import dataclass

from profilegen.cutting.fit import Deviation, fit_of
from profilegen.cutting.poses import Cut
from profilegen.drawing.boxes import Box, bounds
from profilegen.drawing.dimensions import angle_arc
from profilegen.drawing.hatch import LEFT_OVER, hatch
from profilegen.drawing.layout import sides
from profilegen.drawing.lettering import text_box
from profilegen.drawing.marks import (
    CHAINED,
    DASHED,
    NARROW,
    THIN,
    WIDE,
    Block,
    Fill,
    Mark,
    Stroke,
    Text,
    together,
)
from profilegen.drawing.notes import Note, note_column
from profilegen.drawing.tables import height_of, wrap
from profilegen.drawing.view import View
from profilegen.figures import Figures
from profilegen.forms.wheel import Wheel
from profilegen.geometry.chain import Chain, chain, circle
from profilegen.geometry.measure import nearest
from profilegen.geometry.moves import Move, moved, rotation
from profilegen.job import Job
from profilegen.views.lettering_sizes import CUTTER_GREY, LETTERS

NOTES = 23.0
"""mm. Width of the column of notes at each side."""


@dataclass(frozen=True, slots=True)
class Placed:
    """The view and the move into it from base orientation, cutter and wheel alike."""

    view: View
    turned: Move

    def at(self, base: complex) -> complex:
        """Where a point of base orientation (mm) is on the page, mm."""
        return self.view.point(self.turned(base))

    def curve(self, base: Chain) -> Chain:
        """A chain of base orientation in the view's own plane: still mm of the wheel, not of the
        page.
        """
        return moved(base, self.turned)


def space_view(job: Job, figures: Figures, room: Box) -> Block:
    """The space with its cutter, its hand as seen from the free end.

    Args:
        job: the print's blank and its plan are drawn.
        figures: how sizes are written.
        room: mm on the page; its sides are kept for notes.
    """
    window = Box(room.x0 + NOTES, room.y0 + 4.5, room.x1 - NOTES, room.y1)
    placed = placed_in(job, window)
    title = Text(
        complex(room.centre.real, room.y0 + 0.6),
        "one space seen from the free end, turned to look up",
        LETTERS.size,
        "middle",
    )
    left = _left_over(job)
    blocks = [
        Block(cutter_marks(job.print_plan.cuts, placed)),
        *(Block(tuple(deviation_marks(one, placed, LEFT_OVER, "left over"))) for one in left),
        Block(metal_marks(job.wheel, placed)),
        _angle(job, placed),
        _notes(job, figures, placed, room),
        Block((title,), (text_box(title),)),
    ]
    return together(blocks)


def _left_over(job: Job) -> tuple[Deviation, ...]:
    """What a cutter that does not match leaves in the space; nothing of one that does."""
    cuts = job.print_plan.cuts
    if not cuts or cuts[0].forms != "space":
        return ()
    found = fit_of(job.wheel, cuts).left_over
    return (found,) if found.value > 0.0 else ()


def placed_in(job: Job, window: Box, stand: Move | None = None) -> Placed:
    """The wheel's space put on the page, as large as the window allows.

    Args:
        job: a wheel whose hand seen from the free end is the other one is mirrored.
        window: mm on the page; what lies outside is cut off.
        stand: from base orientation to how the wheel stands for a cut; None puts the middle of the
            gap upright.
    """
    wheel = job.wheel
    face_tip, back_tip = _tips(wheel)
    turn = stand or rotation(math.pi / 2 - cmath.phase(face_tip + back_tip))
    mirrored = job.print_plan.frame.hand_at_free_end == "counter-clockwise"
    turned = Move(-1.0 + 0j, flip=True).after(turn) if mirrored else turn
    on_land = _shown_land(wheel)
    ends = (face_tip * cmath.rect(1.0, -on_land), back_tip * cmath.rect(1.0, on_land))
    shown = bounds(turned(z) for z in (*ends, face_tip, back_tip, wheel.space.vertex))
    scale = min(window.width / (1.1 * shown.width), window.height / (1.6 * shown.height))
    about = complex(shown.centre.real, shown.centre.imag + 0.25 * shown.height)
    return Placed(View(scale, window.centre, about, window=window), turned)


def _tips(wheel: Wheel) -> tuple[complex, complex]:
    """Outer ends of face and back of space 1, base orientation; the land, if any, comes last."""
    points = wheel.space.pitch.points
    return complex(points[0]), complex(points[-2 if wheel.crest_width else -1])


def _shown_land(wheel: Wheel) -> float:
    """How much of the land is shown at each side of the space, rad: of a long one only a share."""
    face_tip, back_tip = _tips(wheel)
    gap = cmath.phase(back_tip / face_tip)
    return min(wheel.angular_pitch - gap, 0.35 * gap)


def cutter_marks(cuts: tuple[Cut, ...], placed: Placed) -> tuple[Fill | Stroke, ...]:
    """Every cut of the space at depth: filled light grey, with a narrow edge.

    Args:
        cuts: one a lap, silhouettes in mm.
        placed: how base orientation comes onto the page.
    """
    marks: list[Fill | Stroke] = []
    for cut in cuts:
        base = moved(cut.silhouette(), cut.setup_from_base.inverse())
        shape = moved(base, placed.turned)
        marks.append(Fill(placed.view.area((shape,)), CUTTER_GREY, "cutter at depth"))
        marks.append(placed.view.stroke(shape, width=NARROW))
    return tuple(marks)


def deviation_marks(found: Deviation, placed: Placed, angle: float, name: str) -> list[Mark]:
    """A region of the wrong metal: hatched, with a thin edge; nothing where there is none.

    Args:
        found: its regions in base orientation, mm.
        placed: how they come onto the page.
        angle: of the hatching from +x, rad: what tells gouge and left over apart.
        name: a word by which readers find the mark.
    """
    regions = tuple(moved(region, placed.turned) for region in found.regions)
    areas = placed.view.area(regions) if regions else ()
    if not areas:
        return []
    edge = placed.view.stroke(*regions, width=THIN)
    return [hatch(areas, angle, 0.9, THIN, name), edge]


def metal_marks(wheel: Wheel, placed: Placed) -> tuple[Stroke, ...]:
    """The outline round the space, the blank's circle and the radius through the face tip.

    Args:
        wheel: mm; two pitches to each side are drawn.
        placed: how base orientation comes onto the page.
    """
    around = [
        moved(wheel.space.pitch, rotation(k * wheel.angular_pitch)) for k in (-2, -1, 0, 1, 2)
    ]
    outline = placed.view.stroke(*(placed.curve(part) for part in around), width=WIDE, name="part")
    blank = placed.view.stroke(circle(0, wheel.radius), width=NARROW, dash=DASHED)
    reach = 0.86 * wheel.root_radius / wheel.radius
    spoke = chain([complex(wheel.radius), complex(wheel.radius * reach)])
    radius = placed.view.stroke(placed.curve(spoke), width=NARROW, dash=CHAINED)
    return outline, blank, radius


def _angle(job: Job, placed: Placed) -> Block:
    """An arc about the vertex from face to back, with an arrowhead at each."""
    span = _span(job, placed)
    if span is None:
        return Block(())
    vertex, start, sweep, radius = span
    return angle_arc(vertex, start, sweep, radius, LETTERS)


def _span(job: Job, placed: Placed) -> tuple[complex, float, float, float] | None:
    """Vertex on the page, direction of the face, sweep to the back, radius of the angle's arc."""
    face, back = job.wheel.space.face, job.wheel.space.back
    if face is None or back is None:
        return None
    start = placed.turned.direction(face.outward)
    end = placed.turned.direction(back.outward)
    radius = 0.7 * placed.view.scale * min(face.length, back.length)
    vertex = placed.at(job.wheel.space.vertex)
    return vertex, cmath.phase(start), cmath.phase(end / start), radius


def _notes(job: Job, figures: Figures, placed: Placed, room: Box) -> Block:
    """Land, hook, root and cutter in columns at both sides."""
    notes = _said(job, figures, placed)
    anchors, width = [note.anchor for note in notes], NOTES - 5.0
    heights = [
        height_of(len(wrap(note.string, width, LETTERS.size)), LETTERS.size) for note in notes
    ]
    placed_at = sides(anchors, heights)
    left = [note for note, side in zip(notes, placed_at, strict=True) if side == "left"]
    right = [note for note, side in zip(notes, placed_at, strict=True) if side == "right"]
    low, high = room.y0 + 5.0, room.y1
    columns = []
    if left:
        box = Box(room.x0, low, room.x0 + NOTES - 4.0, high)
        columns.append(note_column(left, box, "left", LETTERS.size))
    if right:
        box = Box(room.x1 - NOTES + 4.0, low, room.x1, high)
        columns.append(note_column(right, box, "right", LETTERS.size))
    return together(columns)


def _said(job: Job, figures: Figures, placed: Placed) -> list[Note]:
    wheel, space = job.wheel, job.wheel.space
    _, deepest, _ = nearest(space.pitch, 0j)
    notes = [Note(placed.at(deepest), _root_words(wheel, figures))]
    for found in _left_over(job):
        words = figures.sized("left over {}", found.value, "left_over")
        notes.append(Note(placed.at(found.at), words))
    land, hook = wheel.fact("land", None), wheel.fact("hook_angle", None)
    if land is not None:
        crest = _tips(wheel)[0] * cmath.rect(1.0, -_shown_land(wheel) / 2)
        notes.append(Note(placed.at(crest), figures.sized("land {}", land, "land")))
    if space.face is not None and space.back is not None:
        on_face = space.vertex + 0.55 * space.face.length * space.face.outward
        words = wheel.named("face")
        if hook is not None:
            words = figures.turned("face, hook {} to the radius", hook, "hook_angle")
        notes.append(Note(placed.at(on_face), words))
        vertex, start, sweep, radius = _span(job, placed) or (0j, 0.0, 0.0, 0.0)
        words = figures.turned("space angle {}", space.angle, "space_angle")
        notes.append(Note(vertex + cmath.rect(radius, start + 0.7 * sweep), words))
        on_back = space.vertex + 0.8 * space.back.length * space.back.outward
        notes.append(Note(placed.at(on_back), wheel.named("back")))
    return notes


def _root_words(wheel: Wheel, figures: Figures) -> str:
    words = [figures.sized("root Ø\xa0{}", 2 * wheel.root_radius, "root_diameter")]
    if wheel.space.root_radius:
        words.append(figures.sized("R\xa0{}", wheel.space.root_radius, "root_radius"))
    elif wheel.space.root_flat:
        words.append(figures.sized("flat\xa0{}", wheel.space.root_flat, "root_flat"))
    elif wheel.space.face is not None:
        words.append("sharp")
    return ", ".join(words)
