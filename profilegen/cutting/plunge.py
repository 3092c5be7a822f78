"""The deepest plunge of any silhouette that nowhere enters the finished tooth.

Owns the search over wheel angle and offset for cutters whose flanks do not match: every candidate
is
the exact first contact of the wheel with the cutter, all candidates in one broadcast; the best is
the one that leaves least in the space, found on a grid that closes in on itself.
"""

from __future__ import annotations

import cmath
import math
from dataclasses import dataclass

import numpy as np

from profilegen.cutting.neighbours import barrier, strictest_pitch
from profilegen.cutting.poses import Cut, NoPose, Tool, check_edge, posed_cut
from profilegen.cutting.wedge import Wedge
from profilegen.forms.wheel import Wheel
from profilegen.geometry.chain import Chain, Contour, Flags, Reals
from profilegen.geometry.contact import first_contacts
from profilegen.geometry.measure import tessellate
from profilegen.geometry.tolerance import SAME_POINT, SHORTEST_CHORD

TURNS, PLACES = 41, 13
"""Candidates of the first grid: wheel angles, and places of the tip across the space."""

ROUNDS, CLOSER, NARROWER = 14, 7, 0.4
"""Rounds of closing in, candidates a side of each, and how much narrower each one is."""

COLUMNS = 96
"""Upright strips in which the metal removed is summed when candidates are compared."""

WIDEST_TURN = math.radians(75)
"""rad. Of the space's middle from the infeed, each way."""


@dataclass(frozen=True, slots=True)
class _Search:
    """What every candidate shares.

    Attributes:
        wheel: the finished wheel.
        near: the finished wheel round the space, closed by the blank's rim: what may be touched.
        edge: the cutter's silhouette, high enough for every candidate.
        tip: of the cutter, from its apex, mm.
        xs: of the strips, from the apex, mm.
        ys: of the edge at the strips, above the apex, mm.
        middle: of the space from +x, rad, base orientation.
    """

    wheel: Wheel
    near: Contour
    edge: Chain
    tip: complex
    xs: Reals
    ys: Reals
    middle: float

    def heights(self, turns: Reals, offsets: Reals) -> Reals:
        """Height of the apex above the axis at the deepest plunge, mm; nan where nothing stops
        it."""
        shifts = -offsets.astype(np.complex128)
        return -first_contacts(self.near, self.edge, 1j, np.exp(1j * turns), shifts)

    def in_space(self, turns: Reals, offsets: Reals, heights: Reals) -> Flags:
        """Whether the tip stands in space 1 and not in one beside it."""
        tips = (offsets + 1j * heights + self.tip) * np.exp(-1j * (turns + self.middle))
        return np.asarray(np.abs(np.angle(tips)) <= self.wheel.angular_pitch / 2)

    def removed(self, offsets: Reals, heights: Reals) -> Reals:
        """Area of the blank under the cutter at each candidate, mm2."""
        across = offsets[..., None] + self.xs
        rim = np.sqrt(np.maximum(self.wheel.radius**2 - across**2, 0.0))
        under = np.maximum(rim - heights[..., None] - self.ys, 0.0)
        return np.asarray(under.sum(axis=-1) * (self.xs[1] - self.xs[0]))


def deepest_plunge(
    wheel: Wheel, tool: Tool, turn: float | None = None, offset: float | None = None
) -> Cut:
    """The one cut that leaves least in the space and enters no tooth.

    Args:
        wheel: the finished wheel.
        tool: the cutter as it stands.
        turn: of the wheel from base orientation to the set-up pose, rad, when it is given.
        offset: of the apex from the axis, mm, when it is given.

    Raises:
        NoPose: the cutter cannot enter the space at all, or is a wedge without flanks.
    """
    if isinstance(tool, Wedge):
        check_edge(tool)
    search = _search(wheel, tool)
    turns = np.array([turn]) if turn is not None else _turns(search)
    places = wheel.angular_pitch * np.linspace(-0.5, 0.5, PLACES)
    best = _best_of(search, turns, places, offset, (wheel.radius + wheel.root_radius) / 2)
    if best is None or best.removed <= SAME_POINT:
        raise NoPose("cutter-cannot-enter")
    spans = 2 * WIDEST_TURN / (TURNS - 1), wheel.angular_pitch / (PLACES - 1)
    for _ in range(ROUNDS):
        near = np.linspace(-1, 1, CLOSER)
        turns = best.turn + spans[0] * near if turn is None else np.array([turn])
        closer = _best_of(search, turns, best.place + spans[1] * near, offset, best.tip_radius)
        if closer is not None and closer.removed >= best.removed:
            best = closer
        spans = spans[0] * NARROWER, spans[1] * NARROWER
    apex = complex(best.offset, best.height) * cmath.exp(-1j * best.turn)
    cut = posed_cut(wheel, tool, "space", 1, best.turn, apex)
    across_the_crests = wheel.radius * math.cos(_gap(wheel) / 2)
    if cut.root_radius >= across_the_crests - SHORTEST_CHORD:
        raise NoPose("cutter-cannot-enter", case="crests")
    return cut


def _gap(wheel: Wheel) -> float:
    """Angle of the space at the blank's rim, rad."""
    return wheel.angular_pitch + 2 * (wheel.crest_angle - cmath.phase(wheel.space.pitch.points[0]))


@dataclass(frozen=True, slots=True)
class _Candidate:
    """One pose.

    Attributes:
        removed: area under the cutter, mm2.
        turn: of the wheel, rad.
        place: of the tip across the space, rad from its middle.
        offset: of the apex, mm.
        height: of the apex, mm.
        tip_radius: of the tip from the axis, mm.
    """

    removed: float
    turn: float
    place: float
    offset: float
    height: float
    tip_radius: float


def _search(wheel: Wheel, tool: Tool) -> _Search:
    edge = tool.silhouette(3 * wheel.radius)
    left, right = float(edge.points.real.min()), float(edge.points.real.max())
    limit = 1.2 * 2 * wheel.radius * math.sin(min(wheel.angular_pitch, math.pi) / 2)
    left, right = max(left, -limit), min(right, limit)
    step = (right - left) / COLUMNS
    xs = np.asarray(left + step * (np.arange(COLUMNS) + 0.5), dtype=np.float64)
    middle = wheel.crest_angle + wheel.angular_pitch / 2
    near = barrier(wheel, strictest_pitch(wheel.space))
    ys = _edge_heights(edge, xs, 2 * wheel.radius)
    return _Search(wheel, near, edge, tool.tip, xs, ys, middle)


def _edge_heights(edge: Chain, xs: Reals, top: float) -> Reals:
    """Height of the silhouette above the apex at each x, at most `top`, mm, to a hundredth of a
    mm."""
    points = tessellate(edge, 0.01)
    start, end = points[:-1], points[1:]
    wide = np.where(start.real == end.real, np.inf, end.real - start.real)
    share = (xs[:, None] - start.real) / wide
    heights = start.imag + share * (end.imag - start.imag)
    return np.asarray(
        np.where((share >= 0) & (share <= 1) & np.isfinite(wide), heights, top).min(axis=1)
    )


def _turns(search: _Search) -> Reals:
    """Wheel angles worth trying: the space looks up, more or less."""
    return math.pi / 2 - search.middle + np.linspace(-WIDEST_TURN, WIDEST_TURN, TURNS)


def _best_of(
    search: _Search, turns: Reals, places: Reals, offset: float | None, tip_radius: float
) -> _Candidate | None:
    """The candidate that removes most, or None when none removes anything.

    A candidate is a turn and a place of the tip across the space: these two are nearly independent,
    while turn and offset lie along a narrow ridge. `tip_radius` turns places into offsets.
    """
    turn, place = (grid.ravel() for grid in np.meshgrid(turns, places, indexing="ij"))
    offsets = tip_radius * np.cos(turn + search.middle + place) - search.tip.real
    if offset is not None:
        offsets = np.full_like(offsets, offset)
    heights = search.heights(turn, offsets)
    removed = search.removed(offsets, heights)
    removed = np.where(search.in_space(turn, offsets, heights), removed, -1.0)
    top = int(np.argmax(removed))
    if removed[top] <= 0.0:
        return None
    tip = complex(offsets[top], heights[top]) + search.tip
    across = cmath.phase(tip * cmath.exp(-1j * (float(turn[top]) + search.middle)))
    return _Candidate(
        float(removed[top]),
        float(turn[top]),
        across,
        float(offsets[top]),
        float(heights[top]),
        abs(tip),
    )
