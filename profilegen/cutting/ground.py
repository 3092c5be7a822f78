"""The edge of a cutter in the metal, and the ground surface behind it.

Lengths in mm, angles in radians; the edge from its +x side to its -x side, its tip at height 0, the
body above. A tool is ground in one of two ways. `round`: evenly all round, so that the outline at
the depth `t` behind the edge is the edge drawn in by `t tan(relief)`, and a nose shrinks.
`flanks`: two flat flanks with the tip stoned along the ridge between them, so that the outline
slides along that ridge and keeps its shape.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

import numpy as np

from profilegen.cutting.poses import Cut
from profilegen.cutting.wedge import Wedge
from profilegen.forms.wheel import Wheel
from profilegen.geometry.arcs import centres, end_tangents, radii, start_tangents, sweeps
from profilegen.geometry.chain import Chain, Reals, circle
from profilegen.geometry.crossings import crossings
from profilegen.geometry.moves import Move, moved
from profilegen.geometry.regions import split
from profilegen.geometry.tolerance import SAME_ANGLE

Ground = Literal["round", "flanks"]


@dataclass(frozen=True, slots=True)
class Edge:
    """A cutting edge and the part of it that is in the metal, from its +x side to its -x side.

    Attributes:
        whole: far above the metal on both sides, the tip at height 0.
        metal: the part of `whole` between the places where it leaves the blank.
        wedge: the cutter; None for any other silhouette.
        ridge: how far the outline slides when the flanks are drawn in by 1 mm; None for a body
            ground evenly.
    """

    whole: Chain
    metal: Chain
    wedge: Wedge | None
    ridge: complex | None


def edge_of(wheel: Wheel, cut: Cut, ground: Ground = "round") -> Edge | None:
    """The edge of one cut at full depth; None when it does not reach into the blank.

    A cutter that is no wedge has no flat flanks, and counts as ground evenly.

    Args:
        wheel: for the blank, mm.
        cut: in the set-up pose.
        ground: `round` square to the whole edge, `flanks` each flank by itself.

    Returns:
        In its own frame, the tip at the origin.
    """
    tool = cut.tool
    edge = tool.silhouette(4 * wheel.radius)
    found = crossings(moved(edge, Move(shift=cut.apex)), circle(0, wheel.radius))
    if len(found.points) < 2:
        return None
    ends = [0, len(found.points) - 1]
    pieces = split(edge, found.segment_a[ends].tolist(), found.fraction_a[ends].tolist())
    whole, metal = (moved(one, Move(shift=-tool.tip)) for one in (edge, pieces[1]))
    if not isinstance(tool, Wedge):
        return Edge(whole, metal, None, None)
    return Edge(whole, metal, tool, ridge_of(tool) if ground == "flanks" else None)


def ridge_of(wedge: Wedge) -> complex:
    """How far the line in which both flanks meet moves when each is drawn in by 1 mm."""
    return (wedge.face_edge + wedge.back_edge) / math.sin(wedge.angle)


def surface(edge: Edge, x: Reals, drawn_in: Reals) -> Reals:
    """Height of the ground surface where its outline is drawn in, mm over the edge's tip.

    Args:
        edge: in its own frame, the tip at height 0.
        x: across the cutter, mm, shape (n,).
        drawn_in: how far the outline lies within the edge there, square to it, mm, shape (n,).

    Returns:
        Shape (n,); not finite where the outline is not there: -inf for a body ground evenly, inf
        for one whose flanks are ground apart.
    """
    if edge.ridge is None:
        return _parallel(edge.whole, x, drawn_in)
    slide = edge.ridge * drawn_in
    height = _parallel(edge.whole, x - slide.real, np.zeros_like(x))
    return np.where(np.isneginf(height), np.inf, height + slide.imag)


def _parallel(edge: Chain, x: Reals, drawn_in: Reals) -> Reals:
    """Height at each `x` of the outline that lies `drawn_in` inside the edge: the highest of the
    circles about its points and of the parallels of its lines and arcs."""
    x, d = x[:, None], drawn_in[:, None]
    heights = (_circles(edge, x, d), _lines(edge, x, d), _arcs(edge, x, d))
    return np.asarray(np.max(np.concatenate(heights, axis=1), axis=1))


def _circles(edge: Chain, x: Reals, d: Reals) -> Reals:
    square = d * d - (x - edge.points.real) ** 2
    return np.where(square >= 0.0, edge.points.imag + np.sqrt(np.maximum(square, 0.0)), -np.inf)


def _lines(edge: Chain, x: Reals, d: Reals) -> Reals:
    straight = (edge.bulges == 0.0) & (edge.ends.real != edge.starts.real)
    starts, along = edge.starts[straight], (edge.ends - edge.starts)[straight]
    inward = -1j * along / np.abs(along)
    part = (x - starts.real - d * inward.real) / along.real
    height = starts.imag + d * inward.imag + part * along.imag
    return np.where((part >= -1e-12) & (part <= 1.0 + 1e-12), height, -np.inf)


def _arcs(edge: Chain, x: Reals, d: Reals) -> Reals:
    bent = edge.bulges != 0.0
    starts, ends, bulges = edge.starts[bent], edge.ends[bent], edge.bulges[bent]
    middle, sense = centres(starts, ends, bulges), np.sign(bulges)
    radius = radii(starts, ends, bulges) + sense * d
    side = x - middle.real
    square = radius * radius - side * side
    rise = sense * np.sqrt(np.maximum(square, 0.0))
    facing = -sense * 1j * (ends - starts) / np.abs(ends - starts)
    inside = side * facing.real + rise * facing.imag >= radius * (
        np.cos(sweeps(bulges) / 2) - 1e-12
    )
    return np.where((radius > 0.0) & (square >= 0.0) & inside, middle.imag + rise, -np.inf)


def vanishing(edge: Chain) -> Reals:
    """How far an edge is drawn in when a hollow arc of it, or a line between two corners, has
    shrunk to nothing, mm, shape (n,): one for each segment.
    """
    starts, ends, bulges = edge.starts, edge.ends, edge.bulges
    into, out = end_tangents(starts, ends, bulges), start_tangents(starts, ends, bulges)
    corner = np.pad(np.tan(np.angle(into[:-1] / out[1:]) / 2), 1)
    lines = np.abs(ends - starts) / np.maximum(corner[:-1] + corner[1:], SAME_ANGLE)
    return np.where(bulges == 0.0, lines, radii(starts, ends, bulges))
