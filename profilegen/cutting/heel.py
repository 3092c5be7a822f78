"""The ground body behind a cutting edge, spun about the spindle, against the space it has cut.

Lengths in mm, angles in radians. The edge lies in a plane along the spindle's axis, its tip at
height 0; the metal is below, the spindle above at the height `reach`, and the body lies behind the
edge down to the tool's thickness, ground as `ground` says.

At one place along the spindle the edge stands `Y` from the axis and sweeps `hypot(Y, off)`, `off`
being how far it runs ahead of the radius line. The ground surface behind it, `b` higher at the
depth `t`, clears while `(Y - b)^2 + (t - off)^2 <= Y^2 + off^2`. Where that surface has passed the
axis the shank counts instead: something as thick as the tool holds it there, so a body has `b` at
most `Y`. More relief, less thickness and a larger circle then never do harm.

What that leaves over is a convex function of place and depth wherever the surface is a plane, so
that it is worst at a corner of that plane; on an evenly ground nose it is worst under the nose's
middle. A wedge so has four places to look at. Of any other edge the worst place and depth are found
on a grid that is narrowed about its best nodes. Derived here, no published source; tests spin
bodies of their own. Zero-margin limits: working clearance comes on top.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from operator import itemgetter
from typing import Final, Literal, NamedTuple

import numpy as np

from profilegen.cutting.ground import Edge, ridge_of, surface, vanishing
from profilegen.cutting.wedge import Wedge
from profilegen.geometry.arcs import points_at
from profilegen.geometry.chain import Indices, Points, Reals
from profilegen.geometry.tolerance import SAME_POINT

Place = Literal["nose", "face flank", "back flank", "edge"]

NODES: Final = np.linspace(0.0, 1.0, 9)
"""Fractions of each segment, and of the depth, at which the body is looked at first."""

ROUNDS: Final = 9
"""Times that the grid is looked at, narrowed to a third about its best nodes each time: in the end
its cells are 1.5e-4 of the first ones."""

KEPT: Final = 9
"""Depths of which the best node is kept each time."""

WINDOW: Final = np.linspace(-1.0, 1.0, 7)
"""Nodes to either side of one that is kept, in cells."""


def least_radius(edge: Edge, relief: float, thickness: float, off: float) -> tuple[float, Place]:
    """Least radius of the tip's circle at which the body clears, mm, and where it would rub first.

    Args:
        edge: as far as it is in the metal.
        relief: square to the edge, rad; 0 never clears.
        thickness: of the tool behind the edge, mm.
        off: the edge's distance ahead of the spindle's radius line, mm; negative behind it.
    """
    rate = math.tan(relief)
    if rate <= 0.0:
        return math.inf, "edge" if edge.wedge is None else "nose"
    reach, at = max(_asked(edge, rate, thickness, off), key=itemgetter(0))
    return math.hypot(reach, off), _place(edge, at)


def _asked(
    edge: Edge, rate: float, thickness: float, off: float
) -> Iterator[tuple[float, complex]]:
    """Heights of the axis over the tip that places of the edge ask for, the greatest among them."""
    if edge.wedge is None or not _is_plain(edge, edge.wedge):
        yield _searched(edge, rate, thickness, off)
        return
    for at, depth in _corners(edge, edge.wedge, rate, thickness):
        body = _body(edge.wedge, at.real, depth * rate, edge.ridge)
        yield at.imag + _need(depth, body - at.imag, off), at


def _is_plain(edge: Edge, wedge: Wedge) -> bool:
    """Whether the tip is in the metal and a ridge runs straight up, so that few places matter."""
    ends = edge.metal.points[[0, -1]].real
    upright = edge.ridge is None or abs(edge.ridge.real) < SAME_POINT
    return bool(ends[1] < 0.0 < ends[0]) and upright


def _corners(
    edge: Edge, wedge: Wedge, rate: float, thickness: float
) -> Iterator[tuple[complex, float]]:
    """Places of the edge and depths at one of which a wedge rubs first: where it leaves the metal,
    and, ground evenly, where nose or flat has shrunk to nothing and where the corner ends."""
    face_end, back_end = edge.metal.points[[0, -1]].tolist()
    yield face_end, thickness
    yield back_end, thickness
    if edge.ridge is not None:
        return
    blunt, at = _shrunk(wedge)
    yield complex(at, _edge(wedge, at)), min(thickness, blunt / rate)
    if blunt < thickness * rate:
        slide = ridge_of(wedge).real
        end = slide * thickness * rate - wedge.tip.real
        corner = min(max(end, back_end.real), face_end.real)
        depth = thickness if corner == end else (corner + wedge.tip.real) / (slide * rate)
        yield complex(corner, _edge(wedge, corner)), depth


def _shrunk(wedge: Wedge) -> tuple[float, float]:
    """How far the outline is drawn in when nose or flat has shrunk to nothing, and to which x."""
    if not wedge.flat:
        return wedge.nose, 0.0
    on_face, on_back = (
        math.tan((math.pi / 2 - side) / 2) for side in (wedge.face_side, wedge.back_side)
    )
    drawn_in = wedge.flat / (on_face + on_back)
    return drawn_in, wedge.flat / 2 - drawn_in * on_face


def _edge(wedge: Wedge, x: float) -> float:
    """Height of a wedge's edge over its tip."""
    return _body(wedge, x, 0.0, None)


def _body(wedge: Wedge, x: float, drawn_in: float, ridge: complex | None) -> float:
    """Height over the tip of a wedge's ground surface at `x` from the tip: the highest of two
    flanks and a tip; infinite beside a flank that lies along the infeed."""
    if ridge is not None:
        return _edge(wedge, x - (ridge * drawn_in).real) + (ridge * drawn_in).imag
    apex = ridge_of(wedge) * drawn_in - wedge.tip
    side, flank = (
        (x - apex.real, wedge.face_side) if x > apex.real else (apex.real - x, wedge.back_side)
    )
    return max(apex.imag + _over(side, math.tan(flank)), _tip(wedge, x, drawn_in))


def _over(side: float, slope: float) -> float:
    """Height of a flank at a distance from its foot, its slope being that of `x` by height."""
    if slope > 0.0:
        return side / slope
    return math.inf if side > SAME_POINT else 0.0


def _tip(wedge: Wedge, x: float, drawn_in: float) -> float:
    """Height of the surface of the nose or flat; minus infinite where there is none."""
    if not wedge.nose:
        return drawn_in if wedge.flat else -math.inf
    radius = wedge.nose - drawn_in
    low, high = -radius * math.cos(wedge.back_side), radius * math.cos(wedge.face_side)
    if not low <= x <= high or radius <= 0.0:
        return -math.inf
    return wedge.nose - math.sqrt(radius * radius - x * x)


def _need(depth: float, rise: float, off: float) -> float:
    """Least height of the axis over a place of the edge whose surface is `rise` higher at a depth:
    `(w + rise^2) / 2 rise` with `w = t^2 - 2 off t`, and where the surface has passed the axis the
    shank's `sqrt(w)`: both at once when `rise` counts up to `sqrt(w)` only."""
    wide = depth * (depth - 2 * off)
    if wide <= 0.0:
        return 0.0
    rise = min(rise, math.sqrt(wide))
    return (wide + rise * rise) / (2 * rise)


def _place(edge: Edge, at: complex) -> Place:
    """The part of the edge that a place on it belongs to."""
    if edge.wedge is None:
        return "edge"
    on_face, on_back = ((start - edge.wedge.tip).real for start in edge.wedge.edge_starts())
    if at.real > on_face - SAME_POINT:
        return "face flank"
    return "back flank" if at.real < on_back + SAME_POINT else "nose"


def _searched(edge: Edge, rate: float, thickness: float, off: float) -> tuple[float, complex]:
    """The greatest height of the axis over the tip that any place and depth asks for; the place.

    The grid is narrowed twice: along the edge alone, depth by depth, which finds the creases of
    the surface, and both ways at once.
    """
    shrinks, kinks = rate * thickness, vanishing(edge.whole)
    depths = np.append(NODES[1:], kinks[kinks <= shrinks] / shrinks)
    deep, segment, along = _crossed(len(depths), len(edge.metal), len(NODES))

    def asked(nodes: Nodes) -> tuple[Reals, Points]:
        one = nodes.segment
        ends = edge.metal.starts[one], edge.metal.ends[one], edge.metal.bulges[one]
        at = points_at(*ends, nodes.along)
        return _needed(edge, at, nodes.deep * thickness, rate, off), at

    first = Nodes(segment, NODES[along], depths[deep])
    found = (_narrowed(asked, first, window) for window in (np.zeros(1), WINDOW))
    return max(found, key=itemgetter(0))


class Nodes(NamedTuple):
    """Segments of the metal's edge, fractions of their lengths, and fractions of the depth."""

    segment: Indices
    along: Reals
    deep: Reals


def _narrowed(
    asked: Callable[[Nodes], tuple[Reals, Points]], nodes: Nodes, behind: Reals
) -> tuple[float, complex]:
    """The greatest need that is found, and where: on the nodes, and about the best of each depth
    and of all."""
    step, best, place = 1.0 / (len(NODES) - 1), 0.0, 0j
    for _ in range(ROUNDS):
        needs, at = asked(nodes)
        order = np.argsort(-needs)
        if needs[order[0]] > best:
            best, place = float(needs[order[0]]), complex(at[order[0]])
        _, leading = np.unique(nodes.deep[order], return_index=True)
        top = order[np.sort(leading)[:KEPT]]
        one, beside, below = _crossed(len(top), len(WINDOW), len(behind))
        kept = top[one]
        nodes = Nodes(
            nodes.segment[kept],
            np.clip(nodes.along[kept] + WINDOW[beside] * step, 0.0, 1.0),
            np.clip(nodes.deep[kept] + behind[below] * step, 1e-6, 1.0),
        )
        step /= 3
    return best, place


def _crossed(*counts: int) -> tuple[Indices, ...]:
    """Every combination of one of each, counted from 0."""
    return tuple(np.indices(counts).reshape(len(counts), -1))


def _needed(edge: Edge, at: Points, depth: Reals, rate: float, off: float) -> Reals:
    """`_need` of many places and depths, from the tip."""
    body = surface(edge, at.real, depth * rate)
    wide = np.maximum(depth * (depth - 2 * off), 0.0)
    rise = np.minimum(body - at.imag, np.sqrt(wide))
    with np.errstate(invalid="ignore"):
        need = np.where(wide > 0.0, (wide + rise * rise) / (2 * rise), 0.0)
    return np.asarray(at.imag + need)
