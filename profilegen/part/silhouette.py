"""Whether a drawn silhouette is one that a cutter can have.

Owns the check and its sentences, and the edge as a chain in the order of all cutters' edges: from
the +x side over the tip to the -x side. Refuses to mend anything but the order.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from profilegen.geometry.chain import Chain, Contour, Role, chain, contour, reverse
from profilegen.geometry.crossings import self_crossings
from profilegen.geometry.measure import area, bounds
from profilegen.geometry.tolerance import SHORTEST_CHORD


def edge_of(rows: Sequence[tuple[float, float, float]]) -> Chain:
    """The edge through rows, run from its +x side to its -x side, mm.

    Args:
        rows: x and y (mm, the infeed along -y) and bulge (`tan(sweep / 4)`, counter-clockwise
            positive) of each point, from either side; the last bulge is not used.

    Raises:
        ValueError: two points coincide.
    """
    edge = chain(
        [complex(x, y) for x, y, _ in rows], [bulge for _, _, bulge in rows[:-1]], Role.EDGE
    )
    return edge if edge.points[0].real >= edge.points[-1].real else reverse(edge)


def why_no_edge(rows: Sequence[tuple[float, float, float]]) -> str:
    """What keeps rows from being a cutter's edge, or an empty text.

    Args:
        rows: x and y (mm) and bulge, as `edge_of` takes them.
    """
    same = next((n for n, (a, b) in enumerate(_pairs(rows), 1) if abs(b - a) < SHORTEST_CHORD), 0)
    if same:
        return f"points {same} and {same + 1} are one point"
    edge = edge_of(rows)
    first, last = complex(edge.points[0]), complex(edge.points[-1])
    if abs(first - last) < SHORTEST_CHORD:
        return "the silhouette is closed at the top, where the cutter's body goes on"
    crossing = self_crossings(edge).points
    if len(crossing):
        at = complex(crossing[0])
        return f"the silhouette crosses itself at x {at.real + 0.0:.4g}, y {at.imag + 0.0:.4g} mm"
    return _why_not_up(edge, first, last)


def _why_not_up(edge: Chain, first: complex, last: complex) -> str:
    """What keeps the body from going straight up from both ends of a simple edge."""
    if first.real - last.real < SHORTEST_CHORD:
        return "both ends lie one above the other, so the cutter has no width"
    left, low, right, high = bounds(edge)
    if high > max(first.imag, last.imag) + SHORTEST_CHORD or high - low < SHORTEST_CHORD:
        return "the silhouette opens the wrong way: its two ends must be its highest points"
    closed = _closed(edge, first, last, high + (right - left))
    if len(self_crossings(closed).points):
        return "the silhouette opens the wrong way: the body above an end runs into the edge"
    if area(closed) > 0.0:
        return "the silhouette opens the wrong way: the tip must point down, along -y"
    return ""


def _closed(edge: Chain, first: complex, last: complex, top: float) -> Contour:
    points = [*edge.points.tolist(), complex(last.real, top), complex(first.real, top)]
    return contour(points, [*edge.bulges.tolist(), 0.0, 0.0, 0.0])


def _pairs(rows: Sequence[tuple[float, float, float]]) -> list[tuple[complex, complex]]:
    points = [complex(x, y) for x, y, _ in rows]
    return list(pairwise(points))
