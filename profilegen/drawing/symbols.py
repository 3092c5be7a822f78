"""Small signs that stand on a drawing beside its dimensions.

Owns arrowheads, arrows of motion and centre crosses. Refuses the placing of them.
"""

from __future__ import annotations

import cmath
from math import ceil, pi, radians, tan

from profilegen.drawing.marks import (
    CHAINED,
    NARROW,
    WIDE,
    Block,
    Fill,
    Stroke,
    line,
    stroke,
)
from profilegen.geometry.chain import Chain, chain, contour

ARROW = 2.5
"""mm. Length of an arrowhead: ten narrow line widths (common practice, no published source)."""

ARROW_ANGLE = radians(15.0)
"""rad. The whole angle of a narrow arrowhead (ISO 129-1)."""


def arrowhead(tip: complex, towards: complex, length: float = ARROW) -> Fill:
    """A filled narrow arrowhead.

    Args:
        tip: its point, mm on the page.
        towards: the way it points, of any length but 0.
        length: mm; the width follows from `ARROW_ANGLE`.
    """
    along = towards / abs(towards)
    half = 1j * along * length * tan(ARROW_ANGLE / 2)
    back = tip - along * length
    return Fill((contour([tip, back + half, back - half]),))


def arrow(start: complex, end: complex, length: float = 4.0) -> Block:
    """An arrow of motion, such as a feed.

    Args:
        start: mm on the page.
        end: where its point is, mm; not at the start.
        length: of the head, mm.
    """
    way = (end - start) / abs(end - start)
    shaft = line(start, end - way * length * 0.8, width=WIDE)
    return Block((shaft, _broad_head(end, way, length)))


def turn_arrow(
    centre: complex, radius: float, start: float, sweep: float, length: float = 4.0
) -> Block:
    """An arrow of turning along an arc.

    Args:
        centre: mm on the page.
        radius: mm.
        start: direction from the centre to where it begins, rad from +x.
        sweep: how far it turns, rad, counter-clockwise positive.
        length: of the head, mm.
    """
    sense = 1.0 if sweep > 0 else -1.0
    cut = min(0.8 * length / radius, abs(sweep) / 2)
    shaft = arc(centre, radius, start, sweep - sense * cut)
    tip = centre + cmath.rect(radius, start + sweep)
    way = 1j * sense * cmath.exp(1j * (start + sweep - sense * length / radius / 2))
    return Block((stroke(shaft, width=WIDE), _broad_head(tip, way, length)))


def arc(centre: complex, radius: float, start: float, sweep: float) -> Chain:
    """An arc of a circle as a chain.

    Args:
        centre: mm.
        radius: mm.
        start: direction from the centre to its first point, rad from +x.
        sweep: rad, counter-clockwise positive, up to a turn; not 0.
    """
    pieces = max(1, ceil(abs(sweep) / (pi / 2)))
    points = [centre + cmath.rect(radius, start + sweep * k / pieces) for k in range(pieces + 1)]
    return chain(points, [tan(sweep / pieces / 4)] * pieces)


def centre_cross(centre: complex, reach: float) -> Stroke:
    """A level and an upright centre line that cross at `centre` and go `reach` mm each way.

    Each line starts at the centre, so that long dashes cross there.
    """
    ways = (1.0, 1j, -1.0, -1j)
    return Stroke(tuple(chain([centre, centre + reach * w]) for w in ways), NARROW, CHAINED)


def _broad_head(tip: complex, way: complex, length: float) -> Fill:
    """An arrowhead of 30 degrees for arrows of motion, so that none is taken for a dimension."""
    half = 1j * way * length * tan(radians(15.0))
    return Fill((contour([tip, tip - way * length + half, tip - way * length - half]),))
