"""Any smooth curve as circular arcs that share their tangents, within a stated tolerance.

A curve is two functions of one parameter: where it is, and which way it runs. It is followed by
biarcs: two arcs with one tangent where they meet, through the points and tangents of a piece of the
curve. The error is measured on the curve, at many places of every piece, as the distance to the
arcs. A piece is made as long as the tolerance lets it be, so that short arcs stand where the curve
bends fast. Biarcs: the one whose two tangent lengths are equal (a standard construction).
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from typing import Any, Final

import numpy as np
import numpy.typing as npt

from profilegen.geometry.chain import Chain, Points, Reals, chain
from profilegen.geometry.tolerance import FLATTEST_SAGITTA, SAME_POINT, SHORTEST_CHORD

Complexes = npt.NDArray[np.complexfloating[Any, Any]]
"""What arithmetic makes of `Points`."""

DEFAULT_TOLERANCE: Final = 1e-3
"""mm. Greatest distance of an arc from the curve that it stands for: a thousandth, which no gauge
of a gear tooth shows."""

PLACES: Final = 65
"""Of the curve at which the error of a piece is measured; at the worst a parabola goes between."""

CLOSE_ENOUGH: Final = 0.97
"""Share of the tolerance that a piece must use before the search for a longer one ends."""

MOST_ROUNDS: Final = 60
"""Of the search for one piece's length; bisection ends well before."""

MOST_PIECES: Final = 10_000
"""Of one curve: a tolerance that needs more is refused."""


@dataclass(frozen=True, slots=True)
class Smooth:
    """A curve to be followed: no corner and no place where it stands still and turns back.

    Attributes:
        point: parameters, shape (n,) -> places, complex, shape (n,), mm.
        along: parameters, shape (n,) -> direction of travel, complex, shape (n,), of any length but
            0.
        start: parameter of the first place.
        end: parameter of the last place, greater than `start`.
    """

    point: Callable[[Reals], Complexes]
    along: Callable[[Reals], Complexes]
    start: float
    end: float


@dataclass(frozen=True, slots=True)
class Fitted:
    """Arcs and lines that follow a curve.

    Attributes:
        points: complex128, shape (n + 1,), mm; the first and the last are the curve's own.
        bulges: float64, shape (n,), `tan(sweep / 4)`.
        error: greatest distance of the curve from them, mm.
    """

    points: Points
    bulges: Reals
    error: float

    def chain(self, role: int = 0) -> Chain:
        """The same as a chain of one role, points in mm."""
        return chain(self.points, self.bulges.tolist(), role)


@dataclass(frozen=True, slots=True)
class _Piece:
    """A stretch of the curve and the arcs that stand for it; infinite error where none do."""

    start: float
    end: float
    error: float
    points: list[complex] = field(default_factory=list)
    bulges: list[float] = field(default_factory=list)


def fit_arcs(curve: Smooth, tolerance: float = DEFAULT_TOLERANCE) -> Fitted:
    """Arcs and lines along a curve, tangent to each other, none farther from it than `tolerance`.

    Args:
        curve: what to follow.
        tolerance: mm, over 0.

    Raises:
        ValueError: no tolerance, a parameter range that does not run forwards, a curve that stands
            still or is not there, or one that takes more than `MOST_PIECES` pieces.
    """
    if not tolerance > 0 or not curve.end > curve.start:
        raise ValueError("a fit needs a tolerance over 0 and an end after its start")
    pieces = list(_pieces(curve, tolerance))
    if len(pieces) > 1:
        pieces = _evened(curve, tolerance, pieces)
    points, bulges = [pieces[0].points[0]], list[float]()
    for piece in pieces:
        points += piece.points[1:]
        bulges += piece.bulges
    return Fitted(np.array(points), np.array(bulges), max(piece.error for piece in pieces))


def _evened(curve: Smooth, tolerance: float, pieces: list[_Piece]) -> list[_Piece]:
    """The same number of pieces with the error shared out, where that can be had at once.

    The error of a piece grows as the cube of its length, so the cube root of the last one's says
    how far the tolerance may fall before another piece is needed.
    """
    full = len(pieces) - 1 + (pieces[-1].error / tolerance) ** (1 / 3)
    less = tolerance * min(1.0, 1.03 * full / len(pieces)) ** 3
    if less >= tolerance or less < SAME_POINT:
        return pieces
    others = []
    for piece in _pieces(curve, less):
        others.append(piece)
        if len(others) > len(pieces):
            return pieces
    return others


def _pieces(curve: Smooth, tolerance: float) -> Iterator[_Piece]:
    """Piece after piece, each as long as the tolerance allows."""
    at, guess = curve.start, curve.end - curve.start
    for _ in range(MOST_PIECES):
        piece = _longest(curve, at, guess, tolerance)
        yield piece
        at, guess = piece.end, piece.end - piece.start
        if at >= curve.end:
            return
    raise ValueError(f"the curve takes more than {MOST_PIECES} pieces")


def _longest(curve: Smooth, at: float, guess: float, tolerance: float) -> _Piece:
    """The longest piece from a parameter on that is within tolerance.

    The whole rest is tried first; then the length is taken from the error by the cube law, and
    halved where that law does not hold.

    Raises:
        ValueError: even a piece too short to have a direction is not within it.
    """
    whole = _piece(curve, at, curve.end)
    if whole.error <= tolerance:
        return whole
    low, best = 0.0, None
    high, length = curve.end - at, min(guess, (curve.end - at) / 2)
    for _ in range(MOST_ROUNDS):
        piece = _piece(curve, at, at + length)
        if piece.error <= tolerance:
            low, best = length, piece
            if piece.error >= CLOSE_ENOUGH * tolerance or high - low <= 1e-9 * high:
                break
        else:
            high = length
        length = _next_length(piece.error, tolerance, length, low, high)
    if best is None:
        raise ValueError("no arcs follow the curve: it stands still, or is not there")
    return best


def _next_length(error: float, tolerance: float, length: float, low: float, high: float) -> float:
    """Length to try next: by the cube law where it falls well between the bounds, else half way."""
    if SAME_POINT < error < math.inf:
        aimed: float = length * ((1 + CLOSE_ENOUGH) / 2 * tolerance / error) ** (1 / 3)
        if low < aimed < high:
            return aimed
    return (low + high) / 2


def _piece(curve: Smooth, start: float, end: float) -> _Piece:
    """The arcs of one stretch with the error that they reach."""
    places = np.linspace(start, end, PLACES)
    points, along = curve.point(places), curve.along(places)
    turns = np.angle(along[1:] / along[:-1])
    if np.abs(np.cumsum(turns)).max() > math.pi * (1 + 1e-12):
        return _Piece(start, end, math.inf)
    first, last = complex(points[0]), complex(points[-1])
    ways = complex(along[0] / abs(along[0])), complex(along[-1] / abs(along[-1]))
    arcs = _biarc(first, last, *ways)
    if arcs is None:
        return _Piece(start, end, math.inf)
    corners, bulges = arcs
    return _Piece(start, end, _error(points, corners, bulges), corners, bulges)


def _biarc(
    first: complex, last: complex, leaving: complex, arriving: complex
) -> tuple[list[complex], list[float]] | None:
    """Corners and bulges of the arcs through two places with two unit directions: one arc or line
    where one does, else two; None where the places are too near or an arc passes a half turn."""
    chord = last - first
    if abs(chord) < 4 * SHORTEST_CHORD:
        return None
    out, home = _lean(leaving, chord), _lean(chord, arriving)
    if abs(out - home) * abs(chord) <= SAME_POINT:
        return [first, last], [_bulge(chord, (out + home) / 2)]
    both = leaving + arriving
    spread = max(0.0, 2 - 2 * (leaving.conjugate() * arriving).real)
    towards = (chord.conjugate() * both).real
    reach = towards + math.sqrt(towards**2 + spread * abs(chord) ** 2)
    if reach <= SAME_POINT * abs(chord):
        return None
    length = abs(chord) ** 2 / reach
    joint = (first + last + length * (leaving - arriving)) / 2
    halves = joint - first, last - joint
    if min(abs(half) for half in halves) < SHORTEST_CHORD:
        return None
    leans = _lean(leaving, halves[0]), _lean(halves[1], arriving)
    if max(abs(lean) for lean in leans) > math.pi / 2:
        return None
    return [first, joint, last], [_bulge(*each) for each in zip(halves, leans, strict=True)]


def _lean(one: complex, other: complex) -> float:
    """Turn from one direction to another, rad, within half a turn each way."""
    across = one.conjugate() * other
    return math.atan2(across.imag, across.real)


def _bulge(chord: complex, lean: float) -> float:
    """Bulge of an arc that leaves its chord by `lean` rad, half its sweep; a line where flat."""
    bulge = math.tan(lean / 2)
    return bulge if abs(bulge * chord) / 2 >= FLATTEST_SAGITTA else 0.0


def _error(points: Complexes, corners: list[complex], bulges: list[float]) -> float:
    """Greatest distance of places of the curve from its arcs, mm, and between them by a parabola.

    A place belongs to the first arc until it passes the normal at the joint.
    """
    off = _off(points, corners[0], corners[1], bulges[0])
    if len(bulges) > 1:
        later = ((points - corners[1]) * _along_joint(corners, bulges[0]).conjugate()).real > 0
        off = np.where(later, _off(points, corners[1], corners[2], bulges[1]), off)
    return _peak(np.abs(off))


def _along_joint(corners: list[complex], bulge: float) -> complex:
    """Direction at the joint, of any length."""
    half = complex(1, bulge)
    return (corners[1] - corners[0]) * half * half


def _off(points: Complexes, start: complex, end: complex, bulge: float) -> Reals:
    """Signed distance of places from a line or from an arc's whole circle, mm."""
    chord = end - start
    if bulge == 0.0:
        return np.asarray(((points - start) * chord.conjugate()).imag / abs(chord))
    centre = (start + end) / 2 + 1j * chord * (1 - bulge**2) / (4 * bulge)
    return np.asarray(np.abs(points - centre) - abs(start - centre))


def _peak(off: Reals) -> float:
    """Greatest of values along a curve, with the top of the parabola through the three about it."""
    at = int(np.argmax(off))
    if not 0 < at < len(off) - 1:
        return float(off[at])
    before, top, after = (float(each) for each in off[at - 1 : at + 2])
    bend = 2 * top - before - after
    return top + (after - before) ** 2 / (8 * bend) if bend > 0 else top
