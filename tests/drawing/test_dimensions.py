"""Dimensions: where arrows point, where words stand, what touches what."""

from __future__ import annotations

import cmath
import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import LineString, Polygon, box

from profilegen.drawing.dimensions import (
    angular,
    horizontal,
    leader,
    linear,
    vertical,
)
from profilegen.drawing.marks import Block, Fill, Stroke, Text
from profilegen.drawing.symbols import ARROW_ANGLE, arrowhead, turn_arrow


def tips(block: Block) -> list[tuple[complex, complex]]:
    """Point and pointing direction of every arrowhead in a block."""
    found = []
    for mark in block.marks:
        if isinstance(mark, Fill):
            tip, left, right = (complex(z) for z in mark.contours[0].points)
            way = tip - (left + right) / 2
            found.append((tip, way / abs(way)))
    return found


def words(block: Block) -> Text:
    """The one text of a block."""
    (text,) = (mark for mark in block.marks if isinstance(mark, Text))
    return text


def lines(block: Block) -> list[LineString]:
    """Every straight segment of a block's strokes."""
    return [
        LineString([(a.real, a.imag), (b.real, b.imag)])
        for mark in block.marks
        if isinstance(mark, Stroke)
        for curve in mark.curves
        for a, b, k in zip(curve.starts, curve.ends, curve.bulges, strict=True)
        if k == 0.0
    ]


def clear(block: Block) -> bool:
    """Whether no line or arrowhead of a dimension runs through its words."""
    label = block.boxes[0]
    area = box(label.x0, label.y0, label.x1, label.y1)
    heads = [
        Polygon([(z.real, z.imag) for z in mark.contours[0].points])
        for mark in block.marks
        if isinstance(mark, Fill)
    ]
    return not any(area.intersects(each) for each in [*lines(block), *heads])


def test_roomy_dimension_points_outwards() -> None:
    """With room between, both arrows touch the extension lines from inside."""
    block = horizontal(10 + 5j, 60 + 9j, 30.0, "50.0")
    (a, to_a), (b, to_b) = sorted(tips(block), key=lambda t: t[0].real)
    assert [a, b, to_a, to_b] == pytest.approx([10 + 30j, 60 + 30j, -1, 1])
    assert clear(block)


@pytest.mark.parametrize("width", [0.4, 3.0, 8.5])
@pytest.mark.parametrize("beside", [1, -1])
def test_narrow_dimension_turns_its_arrows_outside(width: float, beside: int) -> None:
    """Without room the arrows stand outside and point at each other, the words beside."""
    block = horizontal(10 + 5j, 10 + width + 5j, 30.0, "12.345", beside=beside)
    (a, to_a), (b, to_b) = sorted(tips(block), key=lambda t: t[0].real)
    assert [a, b, to_a, to_b] == pytest.approx([10 + 30j, 10 + width + 30j, 1, -1])
    label = block.boxes[0]
    assert label.x0 > 10 + width if beside > 0 else label.x1 < 10
    assert clear(block)


def test_upright_dimension_reads_from_the_right() -> None:
    """The words of an upright dimension read upwards, left of its line (ISO 129-1)."""
    for a, b in ((5j, 60j), (60j, 5j)):
        block = vertical(a, b, 30.0, "55")
        assert words(block).turn == pytest.approx(math.pi / 2)
        assert block.boxes[0].x1 < 30.0
        assert clear(block)


@given(st.floats(-3.2, 3.2), st.floats(0.5, 60))
def test_words_are_never_upside_down(angle: float, length: float) -> None:
    """Words read from below or from the right, leaning back at most 15 degrees."""
    end = 20j + cmath.rect(length, angle)
    block = linear(20j, end, end + 1j * cmath.rect(12.0, angle), "Ø 12.5")
    assert math.radians(-75.001) <= words(block).turn <= math.radians(105.001)
    assert [abs(tip) > 0 for tip, _ in tips(block)] == [True, True]


def test_dimension_measures_along_its_direction() -> None:
    """Both arrow points are the feet of the measured points on the dimension line."""
    way = cmath.exp(0.3j)
    block = linear(3 + 4j, 40 + 9j, 10 + 30j, "x", along=way)
    for (tip, _), point in zip(tips(block), (3 + 4j, 40 + 9j), strict=True):
        assert ((tip - point) * way.conjugate()).real == pytest.approx(0.0, abs=1e-9)
        assert ((tip - (10 + 30j)) * way.conjugate()).imag == pytest.approx(0.0, abs=1e-9)


def test_points_above_each_other_have_no_width() -> None:
    """A dimension of nothing is refused."""
    with pytest.raises(ValueError, match="apart"):
        horizontal(1 + 2j, 1 + 9j, 20.0, "0")


def test_extension_lines_overrun() -> None:
    """Extension lines start at the outline and end 2 mm past the line: 8 widths (ISO 129-1)."""
    block = horizontal(0j, 40 + 0j, 15.0, "40")
    ends = sorted(each.bounds[3] for each in lines(block))
    assert ends[-2:] == pytest.approx([17.0, 17.0])


@pytest.mark.parametrize("angle", [-2.8, -1.6, -0.4, 0.6, 1.5, 2.5])
def test_leader_points_away_from_its_words(angle: float) -> None:
    """A leader's arrow touches what is meant, coming from the knee, clear of the words."""
    out = cmath.exp(1j * angle)
    block = leader(20 * out, 28 * out, "Ø 40")
    ((tip, way),) = tips(block)
    assert tip == pytest.approx(20 * out)
    assert way == pytest.approx(-out)
    assert clear(block)


def test_leader_lands_where_told() -> None:
    """Left to itself the landing runs away from the tip; told a side, it runs there."""
    assert leader(0j, 5 + 5j, "edge").boxes[0].x0 > 5
    assert leader(0j, 5 + 5j, "edge", toward=-1).boxes[0].x1 < 5


@given(st.floats(-3.1, 3.1), st.floats(0.02, 3.0), st.sampled_from([-1, 1]), st.floats(8, 60))
def test_angle_arrows_lie_on_the_arc(start: float, sweep: float, way: int, size: float) -> None:
    """Both arrow points are where the lines meet the arc; words stand outside, clear of all."""
    block = angular(1 + 2j, start, way * sweep, size, "12° 30′")
    ends = [1 + 2j + cmath.rect(size, start), 1 + 2j + cmath.rect(size, start + way * sweep)]
    assert [tip for tip, _ in tips(block)] == pytest.approx(ends)
    label = block.boxes[0]
    nearest = complex(np.clip(1, label.x0, label.x1), np.clip(2, label.y0, label.y1))
    assert abs(nearest - (1 + 2j)) > size
    assert clear(block)


def test_roomy_angle_points_outwards() -> None:
    """With room the arrows of an angle point away from each other, without at each other."""
    for sweep, sign in ((1.0, 1), (0.05, -1)):
        (_, first), (_, second) = tips(angular(0j, 0.0, sweep, 30.0, "x"))
        assert (first.imag < 0) == (sign > 0)
        assert ((second * cmath.exp(-1j * sweep)).imag > 0) == (sign > 0)


def test_arrowhead_is_fifteen_degrees() -> None:
    """A narrow arrowhead 3.5 mm long is 0.92 mm wide (ISO 129-1: 15 degrees)."""
    _, left, right = arrowhead(0j, 1 + 0j, 3.5).contours[0].points
    assert abs(left - right) == pytest.approx(0.92, abs=0.005)
    assert pytest.approx(math.radians(15)) == ARROW_ANGLE


def test_turn_arrow_goes_its_way() -> None:
    """A positive sweep turns counter-clockwise: the arrow at the right points up."""
    for sweep, sign in ((1.0, 1), (-1.0, -1)):
        block = turn_arrow(0j, 20.0, -sweep, sweep)
        ((tip, way),) = tips(block)
        assert tip == pytest.approx(20 + 0j)
        assert way.imag * sign > 0.9
