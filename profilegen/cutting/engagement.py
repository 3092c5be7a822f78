"""How much of the blank a cut takes away, and where the cutter leaves it.

Owns the cutter over the blank as upright strips: the area removed at any infeed, which way a
cutter set a little aside removes less, and how far the turning cutter stands from the end of the
work when it first touches it. A later lap finds what the laps before it have left: there the metal
is summed over small cells.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from profilegen.cutting.poses import Cut
from profilegen.geometry.chain import Points, Reals
from profilegen.geometry.measure import contains, tessellate
from profilegen.geometry.moves import rotation

STRIPS = 640
"""Upright strips over the width of one cut; their area errs by less than 1e-3 of itself."""

COLUMNS, ROWS, NEIGHBOURS = 160, 400, 2
"""Cells over a later lap's cut, and how many spaces to each side may have been cut into it."""

LEVELS = 65
"""Infeeds at which the area is summed before an infeed is read off between them."""


@dataclass(frozen=True, slots=True)
class Engagement:
    """A cut at full depth over the blank, set-up pose.

    Attributes:
        width: of one strip, mm.
        metal: height of metal taken in each strip, mm, shape (n,); negative where it clears.
        whole: infeed from first contact to full depth, mm.
        left: height of the blank's rim where the cutter leaves it on its -x side, mm.
        right: the same on its +x side, mm.
    """

    width: float
    metal: Reals
    whole: float
    left: float
    right: float

    def area(self, lift: float) -> float:
        """Area removed, mm2, seen along the wheel axis.

        Args:
            lift: infeed still to go, mm; 0 at full depth, `whole` at first contact.
        """
        return float(np.maximum(self.metal - lift, 0.0).sum() * self.width)

    def infeeds(self, total: float, count: int) -> tuple[float, ...]:
        """Infeeds from first contact after which 1/n, 2/n ... of the last one's area is gone, mm.

        For a sharp wedge on a flat blank they are `total * sqrt(k / count)` (plane geometry).

        Args:
            total: the last of them, mm from first contact.
            count: n, at least 1: how many come back, `total` with them.
        """
        levels = total * np.linspace(0.0, 1.0, LEVELS)
        lifts = self.whole - levels[:, None]
        areas = np.maximum(self.metal - lifts, 0.0).sum(axis=1) * self.width
        wanted = areas[-1] * np.arange(1, count) / count
        inner = np.interp(np.sqrt(wanted), np.sqrt(areas), levels)
        return (*map(float, inner), total)

    @property
    def less_metal(self) -> complex:
        """The way (+1 or -1) in which a cutter set a little aside removes less."""
        return complex(1.0 if self.right <= self.left else -1.0)


@dataclass(frozen=True, slots=True)
class Leftover:
    """A cut at full depth over what earlier laps have left, set-up pose.

    Attributes:
        cell: area of one cell of metal, mm2.
        lifts: for every cell that the cut takes, the infeed still to go when it is reached, mm,
            rising.
        whole: infeed from first contact on a whole blank to full depth, mm.
    """

    cell: float
    lifts: Reals
    whole: float

    def area(self, lift: float) -> float:
        """Area removed from what earlier laps have left, mm2.

        Args:
            lift: infeed still to go, mm; 0 at full depth.
        """
        return self.cell * (len(self.lifts) - int(np.searchsorted(self.lifts, lift)))

    def infeeds(self, total: float, count: int) -> tuple[float, ...]:
        """Infeeds from first contact on a whole blank after which 1/n, 2/n ... of the area that is
        gone at the last one is gone, mm.

        Args:
            total: the last of them, mm.
            count: n. Where nothing is left to take, `total` alone comes back.
        """
        gone = self.lifts[self.lifts >= self.whole - total][::-1]
        if len(gone) == 0:
            return (total,)
        at = [gone[max(0, round(len(gone) * k / count) - 1)] for k in range(1, count)]
        return (*(self.whole - float(lift) for lift in at), total)


def leftover_of(cut: Cut, earlier: tuple[Cut, ...], pitch: float) -> Leftover:
    """The cut over the blank that earlier laps have cut all round, at full depth.

    Args:
        cut: of a later lap.
        earlier: the cuts of the laps before it.
        pitch: from one space to the next, rad.
    """
    edge, across = _over_the_blank(cut, cut.blank_radius)
    low, high = float(across.min()), float(across.max())
    wide = (high - low) / COLUMNS
    xs: Reals = low + wide * (np.arange(COLUMNS, dtype=np.float64) + 0.5)
    floor = _heights(edge, xs)
    bottom = float(floor.min())
    tall = (cut.blank_radius - bottom) / ROWS
    ys: Reals = bottom + tall * (np.arange(ROWS, dtype=np.float64) + 0.5)
    lifts = ys[:, None] - floor[None, :]
    places = xs[None, :] + 1j * ys[:, None]
    there = (lifts >= 0.0) & (np.abs(places) <= cut.blank_radius)
    points, found = places[there], lifts[there]
    solid = np.ones(len(points), dtype=bool)
    from_here = cut.setup_from_base.inverse()
    for before in earlier:
        hollow = before.silhouette()
        for stop in range(-NEIGHBOURS, NEIGHBOURS + 1):
            move = before.setup_from_base.after(rotation(stop * pitch).after(from_here))
            solid &= ~contains(hollow, move(points))
    return Leftover(wide * tall, np.sort(found[solid]), cut.infeed_from_offset)


def engagement_of(cut: Cut) -> Engagement:
    """The cut over the whole blank, at full depth, mm in the set-up pose: no lap before it
    counts.
    """
    radius = cut.blank_radius
    edge, across = _over_the_blank(cut, radius)
    low, high = float(across.min()), float(across.max())
    width = (high - low) / STRIPS
    xs: Reals = low + width * (np.arange(STRIPS, dtype=np.float64) + 0.5)
    metal = np.sqrt(np.maximum(radius**2 - xs**2, 0.0)) - _heights(edge, xs)
    left, right = (math.sqrt(max(radius**2 - x**2, 0.0)) for x in (low, high))
    return Engagement(width, metal, cut.infeed_from_offset, left, right)


def end_chord(cut: Cut, sweep: float, radius: float | None = None) -> float:
    """How far the axis of the turning cutter, at full depth, stands from the end of the work when
    it first touches it, along the wheel's axis, mm.

    At every place across, the edge runs on a circle of its own, smaller than the tip's by its
    height above the tip; `metal` of the blank reach into it: half that chord, the widest of all.

    Args:
        cut: at full depth.
        sweep: diameter of the circle that the tip runs on, mm.
        radius: of what has the end, true with the wheel's axis, mm; of the blank when left out. 0
            is returned for what lies within the roots.
    """
    radius = cut.blank_radius if radius is None else radius
    if radius <= cut.root_radius:
        return 0.0
    edge, across = _over_the_blank(cut, radius)
    xs = np.concatenate([across, np.linspace(across.min(), across.max(), STRIPS)])
    heights = _heights(edge, xs)
    metal = np.sqrt(np.maximum(radius**2 - xs**2, 0.0)) - heights
    runs_on = np.maximum(sweep / 2 - (heights - cut.tip.imag), 0.0)
    within = np.clip(metal, 0.0, runs_on)
    return float(np.sqrt(within * (2 * runs_on - within)).max())


def _over_the_blank(cut: Cut, radius: float) -> tuple[Points, Reals]:
    """The cutter's edge at full depth, and the places across at which it is within `radius`, mm."""
    edge = tessellate(cut.tool.silhouette(2 * radius - cut.apex_height), 1e-5) + cut.apex
    return edge, np.concatenate([edge[np.abs(edge) < radius], _on_circle(edge, radius)]).real


def _on_circle(edge: Points, radius: float) -> Points:
    """Where a polyline meets the blank's circle."""
    start, step = edge[:-1], np.diff(edge)
    square, half = np.abs(step) ** 2, (start.conj() * step).real
    root = np.sqrt(np.maximum(half**2 - square * (np.abs(start) ** 2 - radius**2), 0.0))
    shares = np.stack([(-half - root) / square, (-half + root) / square])
    found = start + shares * step
    keep = (shares >= 0) & (shares <= 1) & (np.abs(np.abs(found) - radius) < 1e-6)
    return np.asarray(found[keep])


def _heights(edge: Points, xs: Reals) -> Reals:
    """Lowest height of the edge over each x, mm; infinite beside it."""
    if np.all(np.diff(edge.real) <= 0):
        return np.asarray(np.interp(xs, edge.real[::-1], edge.imag[::-1]))
    start, end = edge[:-1], edge[1:]
    wide = np.where(start.real == end.real, np.inf, end.real - start.real)
    share = (xs[:, None] - start.real) / wide
    over = (share >= 0) & (share <= 1) & np.isfinite(wide)
    heights = start.imag + share * (end.imag - start.imag)
    return np.asarray(np.where(over, heights, np.inf).min(axis=1))
