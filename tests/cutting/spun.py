"""Tools spun in numbers: the ground body as points, turned about the spindle.

Nothing here knows the package's formulas. The edge is a row of points. A body ground evenly is what
shapely leaves of the edge's outline when it draws it in, slice by slice; a body of two flat flanks
is the edge moved up its ridge. Each point of its surface turns about the spindle on a circle of its
own, and clears where that circle is no larger than the one that the edge itself sweeps at
the same place along the spindle. Above the spindle's axis stands a shank as thick as the tool.
Lengths in mm, angles in radians.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cached_property
from random import Random

import numpy as np
import numpy.typing as npt
from shapely.geometry import Polygon
from shapely.geometry.polygon import orient

from profilegen.cutting.ground import Edge, Ground, ridge_of
from profilegen.cutting.poses import Tool
from profilegen.cutting.wedge import Wedge
from profilegen.geometry.chain import contour
from profilegen.geometry.measure import tessellate
from profilegen.geometry.moves import Move, moved
from profilegen.geometry.regions import clip

Reals = npt.NDArray[np.float64]

FAR = 300.0
STATIONS, SLICES, PASSES = 60, 16, 3


def edge_to(tool: Tool, deep: float, ground: Ground = "round") -> Edge:
    """The edge of a tool that is in the metal up to a height over its tip."""
    whole = moved(tool.silhouette(tool.tip.imag + FAR), Move(shift=-tool.tip))
    corners = [complex(-999, -9), complex(999, -9), complex(999, deep), complex(-999, deep)]
    (metal,) = clip(whole, contour(corners))
    if not isinstance(tool, Wedge):
        return Edge(whole, metal, None, None)
    return Edge(whole, metal, tool, ridge_of(tool) if ground == "flanks" else None)


@dataclass(frozen=True)
class Spun:
    """A tool and how it is ground and set."""

    tool: Tool
    deep: float
    relief: float
    thickness: float
    off: float
    ground: Ground

    @property
    def edge(self) -> Edge:
        """The edge in the metal."""
        return edge_to(self.tool, self.deep, self.ground)

    @cached_property
    def outline(self) -> npt.NDArray[np.complex128]:
        """The edge as chords, up to well above the metal."""
        tall = self.deep + 2 * self.thickness + 5.0
        return tessellate(edge_to(self.tool, tall).metal, 1e-5)


def any_spun(random: Random, tool: Tool | None = None) -> Spun:
    """Slim and wide wedges, sharp, round and flat; shallow and deep; off the line or on it."""
    grounds: tuple[Ground, ...] = ("round", "flanks") if tool is None else ("round",)
    return Spun(
        tool or any_wedge(random),
        random.uniform(0.3, 9.0),
        math.radians(random.uniform(3, 30)),
        random.uniform(0.5, 5.0),
        random.choice((0.0, random.uniform(-0.5, 0.5))),
        random.choice(grounds),
    )


def any_wedge(random: Random) -> Wedge:
    """A vee, single-angle or double-angle cutter."""
    low, high = (math.radians(random.uniform(*span)) for span in ((5, 40), (8, 60)))
    sides = random.choice(((high, high), (0.0, high), (high, 0.0), (low, high)))
    tip = random.choice(({}, {"nose": 10 ** random.uniform(-1.3, 0.3)}, {"flat": random.random()}))
    return Wedge("w", "wedge", *sides, **tip)


def least_radius_by_spinning(spun: Spun) -> float:
    """Least radius of the tip's circle at which no point of the body leaves the swept space: of
    every sampled point of the surface, then of more about the worst of them."""
    points = tessellate(spun.edge.metal, 1e-5)
    run = np.concatenate(([0.0], np.cumsum(np.abs(np.diff(points)))))
    even = np.linspace(0, run[-1], STATIONS)
    along = np.unique([*run, *(run[:-1] + run[1:]) / 2, *even])
    depth = _slices(0, spun.thickness)
    worst = 0.0
    for _ in range(PASSES):
        x, edge = (np.interp(along, run, part) for part in (points.real, points.imag))
        need = np.array([_least_axes(spun, x, edge, t) for t in depth.tolist()])
        worst = max(worst, float(need.max()))
        slice_, station = divmod(int(np.argmax(need)), need.shape[1])
        near = along[max(station - 1, 0)], along[min(station + 1, len(along) - 1)]
        step = depth[1] - depth[0]
        along = np.linspace(*near, STATIONS // 4)
        depth = _slices(depth[slice_] - step, min(depth[slice_] + step, spun.thickness))
    return math.hypot(worst, spun.off)


def _slices(low: float, high: float) -> Reals:
    return np.linspace(low, high, SLICES + 1)[1:]


def _least_axes(spun: Spun, x: Reals, edge: Reals, depth: float) -> Reals:
    """Least height of the axis over the tip at which each point of one slice clears: bisection."""
    body = _surface(spun, x, depth * math.tan(spun.relief))
    low, high = edge, np.full(len(edge), 2000.0)
    for _ in range(36):
        axis = (low + high) / 2
        below = np.maximum(axis - body, 0.0)
        clears = np.hypot(below, spun.off - depth) <= np.hypot(axis - edge, spun.off) + 1e-12
        low, high = np.where(clears, low, axis), np.where(clears, axis, high)
    return high


def _surface(spun: Spun, x: Reals, drawn_in: float) -> Reals:
    """Height of the body's surface at each x, the flanks drawn in by so much."""
    outline = spun.outline
    if spun.ground == "round":
        shape = Polygon([(z.real, z.imag) for z in outline.tolist()]).buffer(-drawn_in)
        if shape.is_empty:
            return np.full(len(x), np.inf)
        ring = np.array([complex(*xy) for xy in orient(shape).exterior.coords[:-1]])
        first = np.lexsort((ring.real, -ring.imag.round(6)))[0]
        return _height(np.roll(ring, -first), x)
    assert isinstance(spun.tool, Wedge)
    lean = (spun.tool.back_side - spun.tool.face_side) / 2
    slide = drawn_in / math.sin(spun.tool.angle / 2) * complex(-math.sin(lean), math.cos(lean))
    return _height(outline[::-1] + slide, x)


def _height(outline: npt.NDArray[np.complex128], x: Reals) -> Reals:
    """Height of an outline that runs down on the left and up on the right; infinite beside it."""
    across = np.maximum.accumulate(outline.real)
    return np.asarray(np.interp(x, across, outline.imag, np.inf, np.inf))
