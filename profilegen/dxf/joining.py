"""Runs of lines and arcs put end to end.

Owns which ends are one point (`JOINT`) and the order of the runs. The work grows with the number
of runs and no faster: ends are looked up in a grid.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence

import numpy as np

from profilegen.geometry.chain import Chain, Contour, Curve, chain, close, reverse
from profilegen.geometry.tolerance import SHORTEST_CHORD

JOINT = 1e-3
"""mm. Ends nearer than this are one point: what drawing programs leave between two runs that were
snapped to each other, common practice, no published source."""


def joined(curves: Sequence[Curve]) -> tuple[Curve, ...]:
    """Runs put end to end where just two ends meet within `JOINT`; closed ones as contours.

    Where three or more meet they are left as they are; a run that is nowhere longer than `JOINT`
    is dropped.

    Args:
        curves: mm, in any order, each run either way; contours pass through and come first.
    """
    done: list[Curve] = [curve for curve in curves if isinstance(curve, Contour)]
    runs = [curve for curve in curves if isinstance(curve, Chain) and _is_long(curve)]
    mate = _mates([complex(z) for run in runs for z in (run.points[0], run.points[-1])])
    used = bytearray(len(runs))
    for first in range(len(runs)):
        if not used[first]:
            done.append(_whole(runs, mate, used, first))
    return tuple(done)


def _is_long(run: Chain) -> bool:
    return bool(np.abs(run.points - run.points[0]).max() > JOINT)


def _mates(ends: list[complex]) -> dict[int, int]:
    """End -> the one other end that lies on it."""
    at: dict[int, list[int]] = {}
    for place, node in enumerate(_nodes(ends)):
        at.setdefault(node, []).append(place)
    pairs = [tuple(met) for met in at.values() if len(met) == 2]
    return {here: there for pair in pairs for here, there in (pair, pair[::-1])}


def _nodes(ends: list[complex]) -> Iterator[int]:
    """A number for each end, the same for ends within `JOINT` of the first of them."""
    cells: dict[tuple[int, int], list[int]] = {}
    for place, z in enumerate(ends):
        x, y = math.floor(z.real / JOINT), math.floor(z.imag / JOINT)
        around = (n for i in (-1, 0, 1) for j in (-1, 0, 1) for n in cells.get((x + i, y + j), ()))
        near = next((n for n in around if abs(ends[n] - z) <= JOINT), None)
        if near is None:
            cells.setdefault((x, y), []).append(place)
        yield place if near is None else near


def _whole(runs: list[Chain], mate: Mapping[int, int], used: bytearray, first: int) -> Curve:
    """A run with all that follow it, then all that lead to it; marked in `used`.

    Run k has the ends 2 k (its start) and 2 k + 1; `mate` says which end lies on which.
    """
    used[first] = True
    after, end = _following(runs, mate, used, 2 * first + 1)
    if mate.get(end) == 2 * first:
        return _closed([runs[first], *after])
    before, _ = _following(runs, mate, used, 2 * first)
    return _end_to_end([*(reverse(run) for run in before[::-1]), runs[first], *after])


def _following(
    runs: list[Chain], mate: Mapping[int, int], used: bytearray, end: int
) -> tuple[list[Chain], int]:
    """The runs that go on from an end, each turned the way it is run, and the end reached."""
    found: list[Chain] = []
    while end in mate and not used[mate[end] // 2]:
        start = mate[end]
        used[start // 2] = True
        run = runs[start // 2]
        found.append(reverse(run) if start % 2 else run)
        end = start ^ 1
    return found, end


def _end_to_end(pieces: list[Chain]) -> Chain:
    """Pieces as one run, each begun where the one before ends; one that vanishes is left out."""
    points = np.concatenate([pieces[0].points[:1], *(piece.points[1:] for piece in pieces)])
    bulges = np.concatenate([piece.bulges for piece in pieces])
    at, kept = [points[0]], []
    for place, end in enumerate(points[1:].tolist()):
        if abs(end - at[-1]) >= SHORTEST_CHORD:
            at.append(end)
            kept.append(place)
    return chain(at, bulges[kept].tolist())


def _closed(pieces: list[Chain]) -> Curve:
    """Pieces whose ends meet as a contour that begins and ends at their first point."""
    run = _end_to_end(pieces)
    points, bulges = [*run.points[:-1].tolist(), complex(run.points[0])], run.bulges.tolist()
    while abs(points[-1] - points[-2]) < SHORTEST_CHORD:
        del points[-2], bulges[-1]
    return close(chain(points, bulges))
