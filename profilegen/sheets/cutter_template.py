"""The cutter template: the edge of one cutter, enlarged, to grind it by and to check it.

Owns what is drawn and dimensioned: the edge as a hairline, both flank angles from the infeed, the
arcs and the flat of the tip, the width, the centre line. Bars, pages and words stand as on the
template of the part. Works on any silhouette; refuses wheels.
"""

from __future__ import annotations

import cmath
import math
from dataclasses import dataclass
from typing import Literal

import numpy as np

from profilegen.cutting.poses import Tool
from profilegen.cutting.profile import Profile
from profilegen.cutting.wedge import Wedge
from profilegen.drawing.dimensions import angular, horizontal, leader
from profilegen.drawing.marks import (
    CHAINED,
    DASHED,
    HAIR,
    MEDIUM,
    NARROW,
    SMALL,
    THIN,
    Block,
    Sheet,
    line,
    together,
)
from profilegen.drawing.marks import paper as paper_mark
from profilegen.drawing.view import View
from profilegen.figures import Figures
from profilegen.geometry.arcs import centres, middles, radii
from profilegen.geometry.chain import Chain, Role
from profilegen.geometry.measure import bounds
from profilegen.sheets.template import (
    FOOT,
    MARGIN,
    check_bars,
    foot_words,
    page_for,
    print_words,
    ratio,
)

SCALES = (50.0, 20.0, 10.0, 5.0, 2.0, 1.0, 0.5, 0.2, 0.1)
"""To 1, largest first: those of ISO 5455."""

ROOM_WIDE, ROOM_HIGH = 150.0, 175.0
"""mm. What an edge may take up on the smallest page, its dimensions left out."""

WORDS = 50.0
"""mm. What words beside a flank along the infeed take from that width, on both sides."""

ENDLESS = 12.0
"""mm. Height at which an edge is cut off that has no end of its own."""

LEVEL = math.radians(0.01)
"""rad. A flank nearer than this to the infeed is said to lie along it."""


def cutter_template(
    tool: Tool,
    figures: Figures,
    scale: float | None = None,
    paper: Literal["A4", "Letter"] | None = None,
) -> Sheet:
    """The template of a cutter at `scale` to 1, or at the largest scale that suits the page.

    Args:
        tool: the cutter, the way round in which it is drawn.
        figures: the unit and decimal mark of what is written.
        scale: to 1; chosen when left out, 10:1 where it fits.
        paper: smallest page; by the unit when left out.
    """
    edge = _shown(tool)
    left, low, right, high = bounds(edge)
    flanks = _straight_flanks(tool.edge if isinstance(tool, Profile) else edge)
    room = ROOM_WIDE - (WORDS if any(not flank.leans for flank in flanks) else 0.0)
    chosen = scale or next((s for s in SCALES if _fits(edge, s, room)), SCALES[-1])
    wide, tall = (right - left) * chosen, (high - low) * chosen
    page, width, height = page_for(
        wide + 10.0, tall + 36.0, paper or ("Letter" if figures.unit == "in" else "A4")
    )
    middle = complex(
        MARGIN + 12 + (width - 2 * MARGIN - 12) / 2,
        MARGIN + FOOT + (height - 2 * MARGIN - FOOT) / 2,
    )
    about = complex((left + right) / 2, (low + high) / 2)
    view = View(chosen, middle, about)
    blocks = (
        Block((paper_mark(width, height),)),
        _edge(edge, view),
        _flanks(flanks, view, figures, high),
        _tip(edge, view, figures),
        _width(edge, view, figures),
        check_bars(height, figures.unit),
        _words(tool, figures, chosen, page),
    )
    whole = together(blocks)
    return Sheet(
        width, height, whole.marks, whole.boxes, f"{tool.name}: cutter template {ratio(chosen)}"
    )


def _shown(tool: Tool) -> Chain:
    """As much of the silhouette as is drawn: the whole edge, or a piece of one that has no end."""
    match tool:
        case Wedge():
            spread = math.tan(tool.face_side) + math.tan(tool.back_side)
            least = 3.0 * max(abs(start.imag) for start in tool.edge_starts())
            height = max(min(ENDLESS, 15.0 / spread), least)
            if math.isfinite(tool.edge_top):
                height = 1.15 * tool.edge_top
        case Profile():
            left, low, right, high = bounds(tool.edge)
            height = high + ((right - left) if tool.endless else 0.15 * (high - low))
    return tool.silhouette(height)


def _fits(edge: Chain, scale: float, room: float) -> bool:
    left, low, right, high = bounds(edge)
    return (right - left) * scale <= room and (high - low) * scale <= ROOM_HIGH


def _edge(edge: Chain, view: View) -> Block:
    """The edge, the body above it dashed, and the centre line."""
    _, low, _, high = bounds(edge)
    reach = 8.0 / view.scale
    cutting = [_piece(edge, k) for k in range(len(edge)) if edge.roles[k] != Role.BODY]
    body = [_piece(edge, k) for k in range(len(edge)) if edge.roles[k] == Role.BODY]
    axis = line(
        view.point(complex(0, low - reach)),
        view.point(complex(0, high + reach)),
        width=NARROW,
        dash=CHAINED,
        name="centre line",
    )
    return Block(
        (
            view.stroke(*cutting, width=HAIR, name="edge"),
            view.stroke(*body, width=THIN, dash=DASHED, name="body"),
            axis,
        )
    )


def _piece(edge: Chain, k: int) -> Chain:
    return Chain(edge.points[k : k + 2], edge.bulges[k : k + 1], edge.roles[k : k + 1])


@dataclass(frozen=True, slots=True)
class _FlankLine:
    """A straight flank of the edge: its lower and upper end, mm, and its lean from the infeed."""

    foot: complex
    top: complex
    side: Literal[1, -1]

    @property
    def lean(self) -> float:
        """From the infeed, rad, positive when the cutter gets wider upwards."""
        return self.side * math.atan2((self.top - self.foot).real, (self.top - self.foot).imag)

    @property
    def leans(self) -> bool:
        """Whether it does not lie along the infeed."""
        return abs(self.lean) >= LEVEL

    @property
    def vertex(self) -> complex:
        """Where the flank meets the centre line, or its foot when that is on it or far below."""
        if not self.leans:
            return self.foot
        way = (self.top - self.foot) / (self.top - self.foot).real
        at = self.foot - way * self.foot.real
        near = abs(at - self.foot) < abs(self.top - self.foot)
        return complex(0.0, at.imag) if near and at.imag < self.foot.imag + 1e-9 else self.foot


def _straight_flanks(edge: Chain) -> list[_FlankLine]:
    """The uppermost straight piece of edge on each side, +x first."""
    found: list[_FlankLine] = []
    straight = [k for k in range(len(edge)) if edge.roles[k] != Role.BODY and edge.bulges[k] == 0.0]
    starts, ends = edge.starts, edge.ends
    for side, order in ((1, straight), (-1, straight[::-1])):
        for k in order:
            upper, lower = (starts[k], ends[k]) if side == 1 else (ends[k], starts[k])
            if upper.imag - lower.imag > 1e-6:
                found.append(_FlankLine(complex(lower), complex(upper), 1 if side == 1 else -1))
                break
    return found


def _flanks(flanks: list[_FlankLine], view: View, figures: Figures, top: float) -> Block:
    """The angle of each flank, from the infeed; two sides along it need no words."""
    blocks = []
    for flank in flanks:
        vertex = view.point(flank.vertex)
        if not flank.leans:
            if any(other.leans for other in flanks):
                at = view.point(flank.foot + 0.6 * (flank.top - flank.foot))
                knee = at + complex(6.0 * flank.side, 6.0)
                blocks.append(leader(at, knee, "along the infeed", toward=flank.side))
            continue
        reach = view.scale * min(abs(flank.top - flank.vertex), 1.1 * (top - flank.vertex.imag))
        radius = 0.72 * reach
        if flank.vertex == flank.foot:
            up = line(vertex, vertex + 1j * (radius + 2.0), width=THIN, dash=CHAINED)
            blocks.append(Block((up,)))
        said = figures.angle(abs(flank.lean))
        blocks.append(angular(vertex, math.pi / 2, -flank.side * flank.lean, radius, said))
    return together(blocks)


def _tip(edge: Chain, view: View, figures: Figures) -> Block:
    """The radius of every size of arc once, and the width of a level bottom."""
    arcs = np.flatnonzero((edge.bulges != 0.0) & (edge.roles != Role.BODY))
    sizes = radii(edge.starts, edge.ends, edge.bulges)
    blocks, told = [], list[float]()
    for k in sorted(arcs.tolist(), key=lambda k: edge.points[k].imag):
        if any(math.isclose(sizes[k], size, rel_tol=1e-6) for size in told) or len(told) == 4:
            continue
        told.append(float(sizes[k]))
        blocks.append(_radius(edge, k, float(sizes[k]), view, figures, len(told)))
    return together([*blocks, _bottom(edge, view, figures)])


def _radius(edge: Chain, k: int, size: float, view: View, figures: Figures, place: int) -> Block:
    """A leader from outside the cutter to the middle of an arc."""
    one = slice(k, k + 1)
    starts, ends, bulges = edge.starts[one], edge.ends[one], edge.bulges[one]
    on = complex(middles(starts, ends, bulges)[0])
    centre = complex(centres(starts, ends, bulges)[0])
    side = 1 if on.real > 1e-9 else -1
    out = cmath.exp(1j * (-math.pi / 2 + side * math.radians(35)))
    if edge.bulges[k] < 0 and abs(on.real) < 1e-9:
        on = centre + size * out
    tip = view.point(on)
    knee = tip + out * (9.0 + 7.0 * (place - 1))
    return leader(tip, knee, f"R {figures.size(size)}", toward=1 if side > 0 else -1)


def _bottom(edge: Chain, view: View, figures: Figures) -> Block:
    """The width of a level bottom, or that the tip is sharp."""
    low = bounds(edge)[1]
    for k in range(len(edge)):
        a, b = complex(edge.starts[k]), complex(edge.ends[k])
        if edge.bulges[k] == 0.0 and max(a.imag, b.imag) < low + 1e-6:
            at = view.point(b), view.point(a)
            return horizontal(*at, at[0].imag - 16.0, figures.size(abs(b - a)))
    return Block(())


def _width(edge: Chain, view: View, figures: Figures) -> Block:
    """The width across the upper ends of the edge, above the cutter."""
    cutting = np.flatnonzero(edge.roles != Role.BODY)
    right = complex(edge.points[cutting[0]])
    left = complex(edge.points[cutting[-1] + 1])
    y = view.point(complex(0, bounds(edge)[3])).imag + 12.0
    return horizontal(view.point(left), view.point(right), y, figures.size((right - left).real))


_KINDS = {
    "vee": "vee cutter",
    "single-angle": "single-angle cutter",
    "double-angle": "double-angle cutter",
    "slot": "slot cutter",
    "ball": "ball cutter",
    "form": "form cutter",
    "drawn": "cutter as drawn",
}


def _words(tool: Tool, figures: Figures, scale: float, page: str) -> Block:
    """What it is, how to print it, how it is used, and what can hurt."""
    included = ""
    if isinstance(tool, Wedge):
        included = f", {figures.angle(tool.angle)} included, {_tip_words(tool, figures)}"
    unit = "mm" if figures.unit == "mm" else "inches"
    lines = [
        (MEDIUM, True, tool.name),
        (SMALL, False, f"{_KINDS.get(tool.kind, tool.kind)}{included}"),
        (
            SMALL,
            False,
            f"angles from the infeed (chained line); lengths in {unit}; scale {ratio(scale)} on "
            f"{page}",
        ),
        (SMALL, True, print_words(figures.unit)),
        (
            SMALL,
            False,
            "Compare in the plane of the cutting edge, under a projector or a lens of this scale.",
        ),
        (
            SMALL,
            False,
            "Grinding: eye protection, guards in place; the machine's manual and local rules come "
            "first.",
        ),
    ]
    return foot_words(lines)


def _tip_words(wedge: Wedge, figures: Figures) -> str:
    if wedge.nose:
        return f"tip R {figures.size(wedge.nose)}"
    return f"tip flat {figures.size(wedge.flat)}" if wedge.flat else "tip sharp"
