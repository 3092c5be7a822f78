"""Small signs that stand on a drawing beside its dimensions.

Owns arrowheads, arrows of motion, centre crosses, dots, balloons and the check bar. Refuses the
placing of them.
"""

from __future__ import annotations

import cmath
from math import ceil, pi, radians, tan

from profilegen.drawing.lettering import text_box, text_width
from profilegen.drawing.marks import (
    CHAINED,
    NARROW,
    SMALL,
    WIDE,
    Block,
    Fill,
    Mark,
    Stroke,
    Text,
    bar,
    line,
    ring,
    stroke,
)
from profilegen.geometry.chain import Chain, chain, circle, contour

ARROW = 2.5
"""mm. Length of an arrowhead: ten narrow line widths (common practice, no published source)."""

ARROW_ANGLE = radians(15.0)
"""rad. The whole angle of a narrow arrowhead (ISO 129-1)."""


def arrowhead(tip: complex, towards: complex, length: float = ARROW) -> Fill:
    """A filled narrow arrowhead with its point at `tip` (mm), pointing along `towards`."""
    along = towards / abs(towards)
    half = 1j * along * length * tan(ARROW_ANGLE / 2)
    back = tip - along * length
    return Fill((contour([tip, back + half, back - half]),))


def dot(at: complex, radius: float = 0.5) -> Fill:
    """A filled round dot (mm): the end of a leader inside an area (ISO 128-2)."""
    return Fill((circle(at, radius),))


def arrow(start: complex, end: complex, width: float = WIDE, length: float = 4.0) -> Block:
    """An arrow of motion from `start` to `end` (mm), such as a feed."""
    way = (end - start) / abs(end - start)
    shaft = line(start, end - way * length * 0.8, width=width)
    return Block((shaft, _broad_head(end, way, length)))


def turn_arrow(
    centre: complex,
    radius: float,
    start: float,
    sweep: float,
    width: float = WIDE,
    length: float = 4.0,
) -> Block:
    """An arrow of turning: an arc about `centre` (mm) from angle `start` through `sweep` (rad).

    A positive sweep turns counter-clockwise.
    """
    sense = 1.0 if sweep > 0 else -1.0
    cut = min(0.8 * length / radius, abs(sweep) / 2)
    shaft = arc(centre, radius, start, sweep - sense * cut)
    tip = centre + cmath.rect(radius, start + sweep)
    way = 1j * sense * cmath.exp(1j * (start + sweep - sense * length / radius / 2))
    return Block((stroke(shaft, width=width), _broad_head(tip, way, length)))


def arc(centre: complex, radius: float, start: float, sweep: float) -> Chain:
    """An arc of a circle as a chain (mm, rad; positive sweep counter-clockwise, up to a turn)."""
    pieces = max(1, ceil(abs(sweep) / (pi / 2)))
    points = [centre + cmath.rect(radius, start + sweep * k / pieces) for k in range(pieces + 1)]
    return chain(points, [tan(sweep / pieces / 4)] * pieces)


def centre_cross(centre: complex, reach: float, turn: float = 0.0) -> Stroke:
    """Two centre lines that cross at `centre` and go `reach` mm each way, turned by `turn` rad.

    Each line starts at the centre, so that long dashes cross there.
    """
    ends = [centre + reach * cmath.exp(1j * (turn + quarter * pi / 2)) for quarter in range(4)]
    return Stroke(tuple(chain([centre, end]) for end in ends), NARROW, CHAINED)


def balloon(centre: complex, string: str, size: float = SMALL) -> Block:
    """A short string in a circle: the number of a cut, a stop or a view (mm)."""
    text = Text(centre, string, size, "middle", "middle")
    radius = max(1.1 * size, text_width(string, size) / 2 + 0.4 * size)
    return Block((ring(centre, radius), text), (text_box(text),))


def check_bar(
    start: complex, length: float, string: str, upright: bool = False, name: str = ""
) -> Block:
    """A measuring bar `length` mm long from `start` to the right (or up), its words beside it.

    The bar is filled and its ends are square, so that its ends are exactly `length` apart; ticks
    mark the tens. The words stand over it, or left of it when it is upright.
    """
    way = 1j if upright else 1.0 + 0.0j
    body = bar(start, start + length * way, 1.0, name)
    count = int(length // 10)
    ticks = [start + 10.0 * k * way + 1j * way * 0.5 for k in range(count + 1)]
    marks: list[Mark] = [body]
    for index, foot in enumerate(ticks):
        inset = 0.125 * way * ((index == 0) - (index * 10.0 == length))
        marks.append(line(foot + inset, foot + inset + 1j * way * 1.5))
    turn = pi / 2 if upright else 0.0
    at = start + (length / 2) * way + 1j * way * 2.8
    text = Text(at, string, SMALL, "middle", "baseline", turn)
    return Block((*marks, text), (text_box(text),))


def _broad_head(tip: complex, way: complex, length: float) -> Fill:
    """An arrowhead of 30 degrees for arrows of motion, so that none is taken for a dimension."""
    half = 1j * way * length * tan(radians(15.0))
    return Fill((contour([tip, tip - way * length + half, tip - way * length - half]),))
