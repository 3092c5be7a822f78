"""Contours seen line by line: pieces that only rise or fall, and where a level line meets them.

Owns the half-open rule by which every level line meets a contour an even number of times, corners
and turning points included. Serves hatching and the question whether a point is inside.
"""

from __future__ import annotations

import cmath
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import pi, sqrt

from profilegen.geometry.arcs import centres, radii, sweeps
from profilegen.geometry.chain import Contour, Points, Reals

_FLAT = 1e-6
"""mm. An arc that rises no more than this is taken as its chord."""


@dataclass(frozen=True, slots=True)
class Piece:
    """A line, or part of an arc without its highest or lowest point inside.

    Attributes:
        start: mm.
        end: mm.
        centre: of the arc, mm.
        radius: of the arc, mm.
        half: 1 for the arc right of its centre, -1 left of it, 0 for a line.
    """

    start: complex
    end: complex
    centre: complex = 0j
    radius: float = 0.0
    half: float = 0.0

    @property
    def low(self) -> float:
        """Lowest y; the piece owns the level lines from here up to, not including, `high`."""
        return min(self.start.imag, self.end.imag)

    @property
    def high(self) -> float:
        """Highest y."""
        return max(self.start.imag, self.end.imag)

    def x_at(self, y: float) -> float:
        """Where the level line at a height meets the piece, its x in mm.

        Args:
            y: mm, one that the piece owns: from `low` to under `high`.
        """
        if self.half == 0.0:
            share = (y - self.start.imag) / (self.end.imag - self.start.imag)
            return self.start.real + (self.end.real - self.start.real) * share
        return self.centre.real + self.half * sqrt(
            max(self.radius**2 - (y - self.centre.imag) ** 2, 0.0)
        )


def is_inside(contours: Sequence[Contour], at: complex) -> bool:
    """Whether a point lies in an area (even-odd), arcs counted exactly.

    Args:
        contours: of the area, mm; which way they run does not matter.
        at: mm, off the edges: on one the answer may be either.
    """
    right = [
        piece
        for each in contours
        for piece in pieces(each)
        if piece.low <= at.imag < piece.high and piece.x_at(at.imag) > at.real
    ]
    return len(right) % 2 == 1


def pieces(each: Contour, turn: complex = 1.0 + 0j) -> Iterator[Piece]:
    """The pieces of a contour that only rise or only fall, after a turn (unit complex number)."""
    starts, ends, bulges = each.starts * turn, each.ends * turn, each.bulges
    flat = abs(bulges) * abs(ends - starts) / 2 <= _FLAT
    rounds = _rounds(starts, ends, bulges)
    for a, b, is_flat, (centre, radius, sweep) in zip(
        starts.tolist(), ends.tolist(), flat.tolist(), rounds, strict=True
    ):
        if is_flat:
            yield Piece(a, b)
            continue
        begin = cmath.phase(a - centre)
        stops = [a, *_extremes(centre, radius, begin, sweep), b]
        turns = [0.0, *_extreme_turns(begin, sweep), sweep]
        for k in range(len(stops) - 1):
            middle = begin + (turns[k] + turns[k + 1]) / 2
            side = 1.0 if cmath.exp(1j * middle).real > 0 else -1.0
            yield Piece(stops[k], stops[k + 1], centre, radius, side)


def _rounds(starts: Points, ends: Points, bulges: Reals) -> Iterator[tuple[complex, float, float]]:
    return zip(
        centres(starts, ends, bulges).tolist(),
        radii(starts, ends, bulges).tolist(),
        sweeps(bulges).tolist(),
        strict=True,
    )


def _extreme_turns(begin: float, sweep: float) -> list[float]:
    """Turns from the start at which an arc passes its highest or lowest point, in order."""
    found = [
        turn
        for k in range(-4, 5)
        if min(0.0, sweep) < (turn := pi / 2 + k * pi - begin) < max(0.0, sweep)
    ]
    return sorted(found, key=abs)


def _extremes(centre: complex, radius: float, begin: float, sweep: float) -> list[complex]:
    return [centre + cmath.rect(radius, begin + turn) for turn in _extreme_turns(begin, sweep)]
