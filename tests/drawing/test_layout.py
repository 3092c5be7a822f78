"""Layout: columns of labels and flow, on boxes alone."""

from __future__ import annotations

from itertools import combinations, pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import LineString

from profilegen.drawing.boxes import Box
from profilegen.drawing.layout import (
    Side,
    column,
    even_room,
    flow,
    overlaps,
    sides,
)

ANCHORS = st.lists(
    st.tuples(st.integers(0, 400), st.integers(0, 900)), min_size=1, max_size=12, unique=True
)


@given(ANCHORS, st.lists(st.integers(3, 14), min_size=12, max_size=12), st.sampled_from([-1, 1]))
def test_leaders_never_cross(points: list[tuple[int, int]], heights: list[int], way: int) -> None:
    """Leaders of a column never cross and labels never overlap, wherever the anchors lie."""
    anchors = [complex(way * x / 4, y / 10) for x, y in points]
    side: Side = "right" if way > 0 else "left"
    sizes = [(20.0, float(h)) for h in heights[: len(anchors)]]
    slots = column(anchors, sizes, way * 110.0, side, (-100.0, 200.0))
    assert overlaps([slot.box for slot in slots]) == ()
    for a, b in combinations(slots, 2):
        one, two = (LineString([(z.real, z.imag) for z in slot.path]) for slot in (a, b))
        assert not one.crosses(two)


@given(ANCHORS)
def test_labels_stay_by_their_anchors_when_there_is_room(points: list[tuple[int, int]]) -> None:
    """A single label stands level with its anchor; all stay inside a room that is enough."""
    anchors = [complex(x / 4, y / 10) for x, y in points]
    slots = column(anchors, [(10.0, 4.0)] * len(anchors), 110.0, "right", (-20.0, 120.0))
    assert all(s.box.y0 >= -20.0 - 1e-9 and s.box.y1 <= 120.0 + 1e-9 for s in slots)
    single = column(anchors[:1], [(10.0, 4.0)], 110.0, "right", (-20.0, 120.0))[0]
    assert single.path[1].imag == pytest.approx(anchors[0].imag)


def test_anchor_in_the_column_is_refused() -> None:
    """An anchor behind the knees cannot have a leader and is refused."""
    with pytest.raises(ValueError, match="anchor lies in the column"):
        column([120 + 0j], [(10.0, 4.0)], 110.0, "right", (0.0, 50.0))


def test_sides_part_left_from_right() -> None:
    """No label on the right has an anchor left of one whose label is on the left."""
    anchors = [0j, 10 + 0j, 20 + 1j, 30 + 0j, 40 + 5j, 50 + 0j]
    found = sides(anchors, [4.0] * 6)
    assert found == ("left", "left", "left", "right", "right", "right")


@given(st.lists(st.floats(1, 40), max_size=15), st.integers(1, 4))
def test_flow_keeps_order_and_room(heights: list[float], columns: int) -> None:
    """Blocks keep their order, never overlap, pass the room only alone; the even room is enough."""
    room = even_room(heights, columns, 2.0)
    places = flow(heights, room + 1e-6, 2.0)
    assert max((c for c, _ in places), default=0) < columns
    for ((c0, t0), h0), ((c1, t1), _) in pairwise(zip(places, heights, strict=True)):
        assert (c1 == c0 and t1 >= t0 + h0) or (c1 == c0 + 1 and t1 == 0.0)


def test_overlaps_finds_pairs_in_order() -> None:
    """Overlapping pairs come as indices; boxes that only touch do not count."""
    boxes = [Box(0, 0, 2, 2), Box(2, 0, 4, 2), Box(1, 1, 3, 3), Box(9, 9, 9, 9)]
    assert overlaps(boxes) == ((0, 2), (1, 2))
