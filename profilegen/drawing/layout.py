"""Layout as arithmetic on boxes and intervals alone.

Owns labels in columns whose leaders never cross, blocks in columns and the test for overlap.
Refuses to know what is in a box.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from profilegen.drawing.boxes import Box

Side = Literal["left", "right"]

GAP = 2.0
"""mm. Least distance between labels of a column."""

LANDING = 3.0
"""mm. Length of the level part of a leader."""


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
    """Every pair of boxes (mm) that share area, as indices in order; touching does not count."""
    order = sorted(range(len(boxes)), key=lambda i: boxes[i].x0)
    pairs = list[tuple[int, int]]()
    for place, i in enumerate(order):
        for j in order[place + 1 :]:
            if boxes[j].x0 >= boxes[i].x1:
                break
            if boxes[i].overlaps(boxes[j]):
                pairs.append((min(i, j), max(i, j)))
    return tuple(sorted(pairs))


def flow(heights: Sequence[float], room: float, gap: float) -> tuple[tuple[int, float], ...]:
    """Blocks one under the other, a new column where the next would pass the room.

    Args:
        heights: of the blocks, mm.
        room: height of a column, mm.
        gap: between two blocks, mm.

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
    """The least room at which `flow` needs no more than so many columns, mm, to 0.01 mm.

    Args:
        heights: of the blocks, mm; the tallest is the least room.
        columns: how many there may be.
        gap: between two blocks, mm.
    """
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
    port: float = 1.25,
) -> tuple[Slot, ...]:
    """Labels in one column beside a drawing, near their anchors, with leaders that do not cross.

    A leader runs straight from its anchor to a knee `LANDING` before the column, then level to
    its label. The topmost knee takes the anchor under whose line to it all the others lie, and so
    on down: what is left is then always below the last line, so that no two can cross.

    Args:
        anchors: what the labels speak of, mm on the page.
        sizes: width and height of each label, mm.
        x: the column's edge towards the drawing.
        side: on which side of the drawing the column stands.
        room: lowest and highest y of the column; used from the top on when it is too short.
        port: how far under a label's top its leader arrives, mm.

    Returns:
        a slot for each label, in the order given.

    Raises:
        ValueError: an anchor does not lie on the drawing's side of the knees.
    """
    out = 1.0 if side == "right" else -1.0
    knee_x = x - out * LANDING
    if any((knee_x - z.real) * out <= 0 for z in anchors):
        raise ValueError("an anchor lies in the column of its labels")
    tops, order = _settled(anchors, [h for _, h in sizes], knee_x, room, port)
    found = dict[int, Slot]()
    for top, i in zip(tops, order, strict=True):
        width, height = sizes[i]
        left = x if side == "right" else x - width
        knee = complex(knee_x, top - port)
        box = Box(left, top - height, left + width, top)
        found[i] = Slot(box, (anchors[i], knee, complex(x, top - port)))
    return tuple(found[i] for i in range(len(anchors)))


def sides(anchors: Sequence[complex], heights: Sequence[float]) -> tuple[Side, ...]:
    """A side for every label: those left of an upright line go left, so that no leader crosses it.

    The line stands where both columns are as nearly equally full as can be.

    Args:
        anchors: what the labels speak of, mm on the page.
        heights: of the labels, mm; one for each anchor.
    """
    order = sorted(range(len(anchors)), key=lambda i: (anchors[i].real, i))
    total = sum(heights) + GAP * len(heights)
    best, filled, cut = abs(total), 0.0, 0
    for place, i in enumerate(order, 1):
        filled += heights[i] + GAP
        if abs(total - 2 * filled) < best:
            best, cut = abs(total - 2 * filled), place
    left = set(order[:cut])
    return tuple("left" if i in left else "right" for i in range(len(anchors)))


def _columns(heights: Sequence[float], room: float, gap: float) -> int:
    return max((place[0] for place in flow(heights, room, gap)), default=-1) + 1


def _settled(
    anchors: Sequence[complex],
    heights: Sequence[float],
    knee_x: float,
    room: tuple[float, float],
    port: float,
) -> tuple[list[float], list[int]]:
    """Tops from above and which label has each.

    Where the tops hang on the order (labels of unlike height) they are stacked again until the
    order stands; failing that all labels get the tallest one's pitch, which hangs on nothing.
    """
    order = sorted(range(len(anchors)), key=lambda i: (-anchors[i].imag, i))
    wanted = [anchors[i].imag + port for i in order]
    for _ in range(len(anchors) + 1):
        tops = _stacked(wanted, [heights[i] for i in order], room)
        again = _swept(anchors, tops, knee_x, port)
        if again == order:
            return tops, order
        order = again
    tops = _stacked(wanted, [max(heights)] * len(wanted), room)
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
    wanted: Sequence[float], heights: Sequence[float], room: tuple[float, float]
) -> list[float]:
    """Tops of labels from above, none overlapping, nearest to those wanted (least squares).

    Neighbours that would overlap are pooled (isotonic regression); the room's ends then clip.
    """
    offsets = [0.0]
    for height in heights[:-1]:
        offsets.append(offsets[-1] + height + GAP)
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
