"""Marks and boxes: the small builders."""

from __future__ import annotations

import pytest

from profilegen.drawing.boxes import Box, bounds
from profilegen.drawing.marks import Block, Text, line, outline_of, stroke, together
from profilegen.geometry.chain import chain


def test_line_merges_doubled_points() -> None:
    """A line drops points on each other, and is an empty stroke when nothing is left."""
    assert len(line(0j, 0j, 5 + 0j, 5 + 0j, 9 + 1j).curves[0]) == 2
    assert line(1j, 1j).curves == ()
    assert line().curves == ()


def test_blocks_add_up_in_order() -> None:
    """Blocks together keep the order of marks and of boxes."""
    one = Block((Text(0j, "a"),), (Box(0, 0, 1, 1),))
    two = Block((line(2j, 3j), stroke(chain([0j, 1j]))))
    assert together([one, two]) == one + two
    assert (one + two).marks[0] == one.marks[0]


def test_box_arithmetic() -> None:
    """Boxes grow, shift, hold and overlap; touching is not overlapping."""
    box = Box(0, 0, 4, 2)
    assert box.grown(1) == Box(-1, -1, 5, 3)
    assert box.grown(-9).width == 0
    assert box.shifted(1 + 2j) == Box(1, 2, 5, 4)
    assert box.holds(Box(0, 0, 1, 1))
    assert not box.overlaps(Box(4, 0, 5, 2))
    assert box.centre == 2 + 1j
    assert len(outline_of(box).curves[0]) == 4


def test_wrong_boxes_are_refused() -> None:
    """A box inside out, a box of NaN and bounds of nothing are refused."""
    with pytest.raises(ValueError, match="x0 <= x1"):
        Box(1, 0, 0, 1)
    with pytest.raises(ValueError, match="x0 <= x1"):
        Box(0, float("nan"), 1, 1)
    with pytest.raises(ValueError, match="no point"):
        bounds([])
