"""Rigid moves and repetition.

Owns `Move`, the one form of "turn over, turn round, shift". A move is named target-from-source:
`wheel_from_cutter` takes points of the cutter's frame into the wheel's.
"""

from __future__ import annotations

import cmath
from dataclasses import dataclass
from itertools import pairwise
from typing import TypeVar, overload

import numpy as np

from profilegen.geometry.chain import Chain, Contour, Curve, Points
from profilegen.geometry.tolerance import SHORTEST_CHORD

SPECK = 2 * SHORTEST_CHORD
"""mm. Shortest segment of a curve that is drawn to a scale: twice what a curve may have, so that
the rounding of the move that follows makes none too short."""

AnyCurve = TypeVar("AnyCurve", bound=Curve)


@dataclass(frozen=True, slots=True)
class Move:
    """A rigid move of the plane: mirror in the x axis (or not), then turn, then shift.

    Attributes:
        turn: unit complex number, `exp(1j * angle)`.
        shift: mm.
        flip: whether the plane is first mirrored in the x axis.
    """

    turn: complex = 1.0 + 0.0j
    shift: complex = 0.0j
    flip: bool = False

    @overload
    def __call__(self, at: complex) -> complex: ...
    @overload
    def __call__(self, at: Points) -> Points: ...
    def __call__(self, at: complex | Points) -> complex | Points:
        """Where a point, or an array of points, goes (mm)."""
        return self.direction(at) + self.shift

    @overload
    def direction(self, along: complex) -> complex: ...
    @overload
    def direction(self, along: Points) -> Points: ...
    def direction(self, along: complex | Points) -> complex | Points:
        """Where a direction, or an array of directions, goes: turned and mirrored, never shifted,
        so that a length in mm stays as it is.
        """
        return self.turn * (along.conjugate() if self.flip else along)

    def after(self, first: Move) -> Move:
        """The single move that does `first` and then this one.

        Named target-from-source: `a_from_b.after(b_from_c)` is `a_from_c`.
        """
        turn = self.turn * (first.turn.conjugate() if self.flip else first.turn)
        return Move(turn, self(first.shift), self.flip != first.flip)

    def inverse(self) -> Move:
        """The move that undoes this one."""
        turn = self.turn if self.flip else self.turn.conjugate()
        back = -self.shift * self.turn.conjugate()
        return Move(turn, back.conjugate() if self.flip else back, self.flip)


def rotation(angle: float) -> Move:
    """Turn about the origin by `angle` rad, counter-clockwise positive."""
    return Move(turn=cmath.exp(1j * angle))


MIRROR_X = Move(flip=True)
"""Mirror in the x axis: the move between the two hands of a wheel."""


def moved(curve: AnyCurve, move: Move) -> AnyCurve:
    """The curve after a move, mm; a mirrored contour is run backwards, so that its area keeps its
    sign.

    Args:
        curve: a chain is not run backwards by a mirror: its bulges change sign.
        move: named target-from-source.
    """
    points, bulges = move(curve.points), curve.bulges
    if not move.flip:
        return type(curve)(points, bulges, curve.roles)
    if isinstance(curve, Chain):
        return type(curve)(points, -bulges, curve.roles)
    return type(curve)(np.roll(points[::-1], 1), bulges[::-1], curve.roles[::-1])


def scaled(curve: AnyCurve, factor: float) -> AnyCurve:
    """The curve with every length multiplied by a factor, about the origin.

    Segments that come out shorter than `SPECK` are left out: they could not be stored. A curve of
    nothing else becomes a circle or a line of that size, for something stands there.

    Args:
        curve: mm.
        factor: positive; mm on the paper for each mm of the part, or such a scale.
    """
    is_open = isinstance(curve, Chain)
    points = curve.points * factor
    ends = points if is_open else np.append(points, points[:1])
    chords = np.abs(np.diff(ends))
    if (chords >= SPECK).all():
        return type(curve)(points, curve.bulges, curve.roles)
    stops = _apart(ends)
    least = 1 if is_open else 2
    if len(stops) <= least:
        bulges = np.full(least, 0.0 if is_open else 1.0)
        return type(curve)(points[0] + np.array([0.0, SPECK]), bulges, curve.roles[:least])
    longest = [first + int(np.argmax(chords[first:last])) for first, last in pairwise(stops)]
    kept = stops if is_open else stops[:-1]
    return type(curve)(ends[kept], curve.bulges[longest], curve.roles[longest])


def _apart(points: Points) -> list[int]:
    """Numbers of points, each at least `SPECK` from the one before: the first, and the last where
    it is as far from any other."""
    last = len(points) - 1
    stops = [0]
    for place in range(1, last):
        if abs(points[place] - points[stops[-1]]) >= SPECK:
            stops.append(place)
    while stops and abs(points[last] - points[stops[-1]]) < SPECK:
        stops.pop()
    return [*stops, last]


def repeated(pitch: Chain, count: int) -> Contour:
    """One pitch, repeated round the origin counter-clockwise, as a closed contour.

    Args:
        pitch: mm; it must end where it starts turned by `2 pi / count` rad. Its last point is
            dropped, so that neighbours share theirs.
        count: how many pitches stand in a turn.

    Raises:
        ValueError: the chain does not span one pitch.
    """
    step = np.exp(2j * np.pi * np.arange(count) / count)
    gap = abs(pitch.points[-1] - pitch.points[0] * step[1 % count])
    if gap > 1e-9 * abs(pitch.points[0]) + 1e-9:
        raise ValueError("the chain does not span one pitch")
    points = np.outer(step, pitch.points[:-1]).ravel()
    return Contour(points, np.tile(pitch.bulges, count), np.tile(pitch.roles, count))


def unrolled(curve: Curve, first: int, count: int) -> Chain:
    """A run of segments of a curve, as a chain.

    Args:
        curve: of a contour the run may wrap round its start.
        first: segment that it begins with, from 0; negative counts back from the end.
        count: how many segments, at least one.
    """
    at = (first + np.arange(count + 1)) % len(curve.points)
    return Chain(curve.points[at], curve.bulges[at[:-1]], curve.roles[at[:-1]])
