"""Layout as arithmetic on boxes and intervals alone.

Owns lanes for dimensions, labels in columns whose leaders never cross, blocks in columns, standard
scales and the test for overlap. Refuses to know what is in a box.
"""

from __future__ import annotations

from bisect import insort
from collections.abc import Sequence
from dataclasses import dataclass
from heapq import heappop, heappush
from typing import Literal

from profilegen.drawing.boxes import Box

Side = Literal["left", "right"]


SCALES: tuple[float, ...] = (
    *(100.0, 50.0, 20.0, 10.0, 5.0, 2.0, 1.0),
    *(1 / 2, 1 / 5, 1 / 10, 1 / 20, 1 / 50, 1 / 100, 1 / 200, 1 / 500, 1 / 1000),
)
"""Paper length over real length: ISO 5455, largest first, and 100:1 in the same series."""


@dataclass(frozen=True, slots=True)
class Slot:
    """A place for a label in a column, with the way of its leader.

    Attributes:
        box: where the label goes, mm on the page.
        path: of the leader, from the anchor over a knee to the label's edge.
    """

    box: Box
    path: tuple[complex, complex, complex]


def overlaps(boxes: Sequence[Box]) -> tuple[tuple[int, int], ...]:
    """Every pair of boxes that share area, as indices in order; touching does not count."""
    order = sorted(range(len(boxes)), key=lambda i: boxes[i].x0)
    pairs = list[tuple[int, int]]()
    for place, i in enumerate(order):
        for j in order[place + 1 :]:
            if boxes[j].x0 >= boxes[i].x1:
                break
            if boxes[i].overlaps(boxes[j]):
                pairs.append((min(i, j), max(i, j)))
    return tuple(sorted(pairs))


def lanes(intervals: Sequence[tuple[float, float]], gap: float = 0.0) -> tuple[int, ...]:
    """A lane for every interval, so that intervals in one lane stay `gap` apart.

    As few lanes as can be: the greatest number of intervals over one point (interval colouring by
    start). Lane 0, next to the part, gets the shortest ones. Intervals that touch may share a
    lane when `gap` is 0.
    """
    spans = [(min(span), max(span)) for span in intervals]
    free, busy, found = list[int](), list[tuple[float, int]](), [0] * len(spans)
    count = 0
    for index in sorted(range(len(spans)), key=lambda i: (spans[i], i)):
        while busy and busy[0][0] + gap <= spans[index][0]:
            insort(free, heappop(busy)[1])
        if not free:
            free, count = [count], count + 1
        found[index] = free.pop(0)
        heappush(busy, (spans[index][1], found[index]))
    return _short_lanes_first(spans, found, count)


def fit_scale(size: tuple[float, float], room: tuple[float, float]) -> float:
    """The largest standard scale (ISO 5455) at which `size` fits `room`, widths and heights in mm.

    Returns:
        paper length over real length: 5 for 5:1, 0.5 for 1:2; `scale_name` writes it.

    Raises:
        ValueError: it does not fit at the smallest scale.
    """
    for scale in SCALES:
        if all(s * scale <= r + 1e-9 for s, r in zip(size, room, strict=True)):
            return scale
    raise ValueError(f"{size[0]:g} x {size[1]:g} mm does not fit {room[0]:g} x {room[1]:g} mm")


def scale_name(scale: float) -> str:
    """A scale as drawings write it: `5:1`, `1:1`, `1:2`."""
    return f"{scale:.6g}:1" if scale >= 1 else f"1:{1 / scale:.6g}"


def flow(heights: Sequence[float], room: float, gap: float) -> tuple[tuple[int, float], ...]:
    """Blocks one under the other, a new column where the next would pass `room`.

    Returns:
        for each block its column, from 0 without end, and its distance from the column's top, mm.
        A block taller than the room has a column to itself.
    """
    column, top, places = 0, 0.0, list[tuple[int, float]]()
    for height in heights:
        if top > 0 and top + height > room + 1e-9:
            column, top = column + 1, 0.0
        places.append((column, top))
        top += height + gap
    return tuple(places)


def even_room(heights: Sequence[float], columns: int, gap: float) -> float:
    """The least room at which `flow` needs no more than `columns` columns (mm), to 0.01 mm."""
    low, high = max(heights, default=0.0), sum(heights) + gap * len(heights)
    if _columns(heights, low, gap) <= columns:
        return low
    while high - low > 0.01:
        middle = (low + high) / 2
        low, high = (low, middle) if _columns(heights, middle, gap) <= columns else (middle, high)
    return high


def column(
    anchors: Sequence[complex],
    sizes: Sequence[tuple[float, float]],
    x: float,
    side: Side,
    room: tuple[float, float],
    gap: float = 2.0,
    landing: float = 3.0,
    port: float = 1.25,
) -> tuple[Slot, ...]:
    """Labels in one column beside a drawing, near their anchors, with leaders that do not cross.

    A leader runs straight from its anchor to a knee `landing` mm before the column, then level to
    its label. The topmost knee takes the anchor under whose line to it all the others lie, and so
    on down: what is left is then always below the last line, so that no two can cross.

    Args:
        anchors: what the labels speak of, mm on the page.
        sizes: width and height of each label, mm.
        x: the column's edge towards the drawing.
        side: on which side of the drawing the column stands.
        room: lowest and highest y of the column; used from the top on when it is too short.
        gap: between labels, mm.
        landing: length of the level part of a leader, mm.
        port: how far under a label's top its leader arrives, mm.

    Returns:
        a slot for each label, in the order given.

    Raises:
        ValueError: an anchor does not lie on the drawing's side of the knees.
    """
    out = 1.0 if side == "right" else -1.0
    knee_x = x - out * landing
    if any((knee_x - z.real) * out <= 0 for z in anchors):
        raise ValueError("an anchor lies in the column of its labels")
    tops, order = _settled(anchors, [h for _, h in sizes], knee_x, room, gap, port)
    found = dict[int, Slot]()
    for top, i in zip(tops, order, strict=True):
        width, height = sizes[i]
        left = x if side == "right" else x - width
        knee = complex(knee_x, top - port)
        box = Box(left, top - height, left + width, top)
        found[i] = Slot(box, (anchors[i], knee, complex(x, top - port)))
    return tuple(found[i] for i in range(len(anchors)))


def sides(
    anchors: Sequence[complex], heights: Sequence[float], gap: float = 2.0
) -> tuple[Side, ...]:
    """A side for every label: those left of an upright line go left, so that no leader crosses it.

    The line stands where both columns are as nearly equally full as can be (heights in mm).
    """
    order = sorted(range(len(anchors)), key=lambda i: (anchors[i].real, i))
    total = sum(heights) + gap * len(heights)
    best, filled, cut = abs(total), 0.0, 0
    for place, i in enumerate(order, 1):
        filled += heights[i] + gap
        if abs(total - 2 * filled) < best:
            best, cut = abs(total - 2 * filled), place
    left = set(order[:cut])
    return tuple("left" if i in left else "right" for i in range(len(anchors)))


def _columns(heights: Sequence[float], room: float, gap: float) -> int:
    return max((place[0] for place in flow(heights, room, gap)), default=-1) + 1


def _short_lanes_first(
    spans: Sequence[tuple[float, float]], found: Sequence[int], count: int
) -> tuple[int, ...]:
    """The same lanes numbered by the mean length in them, shortest first."""
    lengths: list[list[float]] = [[] for _ in range(count)]
    for (low, high), lane in zip(spans, found, strict=True):
        lengths[lane].append(high - low)
    means = [sum(inside) / len(inside) for inside in lengths]
    ranked = sorted(range(count), key=lambda lane: (means[lane], lane))
    place = {lane: rank for rank, lane in enumerate(ranked)}
    return tuple(place[lane] for lane in found)


def _settled(
    anchors: Sequence[complex],
    heights: Sequence[float],
    knee_x: float,
    room: tuple[float, float],
    gap: float,
    port: float,
) -> tuple[list[float], list[int]]:
    """Tops from above and which label has each.

    Where the tops hang on the order (labels of unlike height) they are stacked again until the
    order stands; failing that all labels get the tallest one's pitch, which hangs on nothing.
    """
    order = sorted(range(len(anchors)), key=lambda i: (-anchors[i].imag, i))
    wanted = [anchors[i].imag + port for i in order]
    for _ in range(len(anchors) + 1):
        tops = _stacked(wanted, [heights[i] for i in order], room, gap)
        again = _swept(anchors, tops, knee_x, port)
        if again == order:
            return tops, order
        order = again
    tops = _stacked(wanted, [max(heights)] * len(wanted), room, gap)
    return tops, _swept(anchors, tops, knee_x, port)


def _swept(
    anchors: Sequence[complex], tops: Sequence[float], knee_x: float, port: float
) -> list[int]:
    """From the topmost knee down, the anchor under whose line to the knee all others lie."""
    left, order = list(range(len(anchors))), list[int]()
    for top in tops:
        knee = complex(knee_x, top - port)
        steep = {i: (anchors[i].imag - knee.imag) / abs(anchors[i].real - knee_x) for i in left}
        chosen = max(left, key=lambda i: (steep[i], -abs(anchors[i].real - knee_x), -i))
        left.remove(chosen)
        order.append(chosen)
    return order


def _stacked(
    wanted: Sequence[float], heights: Sequence[float], room: tuple[float, float], gap: float
) -> list[float]:
    """Tops of labels from above, none overlapping, nearest to those wanted (least squares).

    Neighbours that would overlap are pooled (isotonic regression); the room's ends then clip.
    """
    offsets = [0.0]
    for height in heights[:-1]:
        offsets.append(offsets[-1] + height + gap)
    pools = list[tuple[float, int]]()
    for want, offset in zip(wanted, offsets, strict=False):
        mean, count = want + offset, 1
        while pools and pools[-1][0] < mean:
            above, many = pools.pop()
            mean = (above * many + mean * count) / (many + count)
            count += many
        pools.append((mean, count))
    free = [mean for mean, count in pools for _ in range(count)]
    low = room[0] + offsets[-1] + (heights[-1] if heights else 0.0)
    return [min(max(z, low), room[1]) - offset for z, offset in zip(free, offsets, strict=False)]
