"""Dimensions as marks: linear, angular, and words on a leader.

Owns the drawing practice of ISO 129-1: narrow filled arrowheads, extension lines with an overrun,
words above the line and readable from below or from the right, arrows turned outside when there is
no room between. All points are mm on the page; the words come ready made. Refuses formatting of
numbers and choosing where a dimension goes.
"""

from __future__ import annotations

import cmath
from dataclasses import dataclass
from math import pi, radians

from profilegen.drawing.lettering import text_box, text_width
from profilegen.drawing.marks import NARROW, SMALL, Block, Mark, Text, line, stroke
from profilegen.drawing.symbols import ARROW, arc, arrowhead


@dataclass(frozen=True, slots=True)
class Manner:
    """How dimensions are drawn, mm.

    Attributes:
        size: height of the capitals.
        arrow: length of an arrowhead.
        rise: of the baseline above the dimension line.
        overrun: of an extension line past the dimension line, 8 line widths (ISO 129-1).
        tail: of line behind an arrowhead that is turned outside.
        width: line width.
    """

    size: float = SMALL
    arrow: float = ARROW
    rise: float = 1.0
    overrun: float = 2.0
    tail: float = 2.5
    width: float = NARROW


ORDINARY = Manner()
"""Dimensions in 2.5 mm lettering with 0.25 mm lines."""


def linear(
    a: complex,
    b: complex,
    through: complex,
    string: str,
    along: complex | None = None,
    manner: Manner = ORDINARY,
    beside: int = 1,
) -> Block:
    """The distance of two points, measured along a direction.

    Args:
        a: one measured point, mm on the page.
        b: the other one.
        through: any point that the dimension line shall pass through.
        string: the words on it: the size of the part, not that of the picture.
        along: direction of measuring, any length; from `a` to `b` when left out.
        manner: sizes of arrows, lettering and lines.
        beside: when the words do not fit between, they go past `b` (1) or past `a` (-1).

    Raises:
        ValueError: the points coincide along that direction.
    """
    way = b - a if along is None else along
    if abs(way) == 0.0 or abs(_measured(a, b, way)) < 1e-6:
        raise ValueError("a dimension needs two points that lie apart along its direction")
    way = way / abs(way) * (1.0 if _measured(a, b, way) > 0 else -1.0)
    ends = _onto(a, through, way), _onto(b, through, way)
    extensions = tuple(_extension(p, q, manner) for p, q in zip((a, b), ends, strict=True))
    shaft = _shaft(*ends, string, manner, beside)
    return Block(extensions + shaft.marks, shaft.boxes)


def horizontal(
    a: complex, b: complex, y: float, string: str, manner: Manner = ORDINARY, beside: int = 1
) -> Block:
    """The distance of two points along x.

    Args:
        a: one measured point, mm on the page.
        b: the other one.
        y: height of the dimension line, mm on the page.
        string: the words on it: the size of the part, not that of the picture.
        manner: sizes of arrows, lettering and lines.
        beside: when the words do not fit between, they go past `b` (1) or past `a` (-1).

    Raises:
        ValueError: the points coincide along x.
    """
    return linear(a, b, complex(a.real, y), string, 1.0, manner, beside)


def vertical(a: complex, b: complex, x: float, string: str, manner: Manner = ORDINARY) -> Block:
    """The distance of two points along y, read from the right.

    Args:
        a: one measured point, mm on the page.
        b: the other one.
        x: of the dimension line, mm on the page.
        string: the words on it: the size of the part, not that of the picture.
        manner: sizes of arrows, lettering and lines.

    Raises:
        ValueError: the points coincide along y.
    """
    return linear(a, b, complex(x, a.imag), string, 1j, manner)


def leader(
    tip: complex,
    knee: complex,
    string: str,
    manner: Manner = ORDINARY,
    toward: int = 0,
) -> Block:
    """Words on a landing, with a line from its knee to an arrowhead at `tip`.

    Args:
        tip: the edge that is meant, mm on the page, off the knee.
        knee: where the line bends into the level landing.
        string: the words, above the landing.
        manner: sizes.
        toward: the landing runs to the right (1) or left (-1) of the knee; 0 is away from the tip.
    """
    side = toward or (1 if knee.real >= tip.real else -1)
    length = text_width(string, manner.size) + 2 * _BESIDE
    far = knee + side * length
    text = Text(
        complex(min(knee.real, far.real) + _BESIDE, knee.imag + manner.rise), string, manner.size
    )
    head = arrowhead(tip, tip - knee, manner.arrow)
    return Block((head, line(tip, knee, far, width=manner.width), text), (text_box(text),))


def angular(
    vertex: complex,
    start: float,
    sweep: float,
    radius: float,
    string: str,
    manner: Manner = ORDINARY,
) -> Block:
    """The angle between two lines from `vertex` past the arc; its words stand level, outside it.

    Args:
        vertex: where the lines meet, mm on the page.
        start: direction of the first line, rad.
        sweep: from the first line to the second, rad, positive counter-clockwise, not 0.
        radius: of the dimension arc, mm.
        string: the words.
        manner: sizes.
    """
    text = _outside(vertex, radius, start + sweep / 2, abs(sweep), string, manner)
    marks = angle_arc(vertex, start, sweep, radius, manner).marks
    return Block((*marks, text), (text_box(text),))


def angle_arc(
    vertex: complex, start: float, sweep: float, radius: float, manner: Manner = ORDINARY
) -> Block:
    """The arc of `angular` without words, an arrowhead at each end; outside where it is short.

    An arrowhead lies along the chord of the bit of arc that it covers.

    Args:
        vertex: where the two sides meet, mm on the page.
        start: direction of the first side from +x, rad.
        sweep: to the other side, rad, counter-clockwise positive.
        radius: of the arc, mm on the page.
        manner: sizes of arrows and lines.
    """
    sense = 1.0 if sweep > 0 else -1.0
    roomy = abs(sweep) * radius >= 2 * manner.arrow + 1.0
    outward = 1.0 if roomy else -1.0
    heads = list[Mark]()
    for end, angle in ((-sense, start), (sense, start + sweep)):
        lean = -end * outward * manner.arrow / radius / 2
        way = 1j * end * outward * cmath.exp(1j * (angle + lean))
        heads.append(arrowhead(vertex + cmath.rect(radius, angle), way, manner.arrow))
    extra = 0.0 if roomy else sense * (manner.arrow + manner.tail) / radius
    shaft = stroke(arc(vertex, radius, start - extra, sweep + 2 * extra), width=manner.width)
    return Block((*heads, shaft))


_STEEPEST = radians(105.0)
"""rad. Steepest reading direction: words on a line that leans a little back still read from the
right; common practice, no published source."""

_BESIDE = 0.8
"""mm. Clear space between words and the end of the line that they stand on."""


def _outside(
    vertex: complex, radius: float, angle: float, sweep: float, string: str, manner: Manner
) -> Text:
    """Level words just outside an arc; past the extension lines when wider than the arc's chord."""
    width, out = text_width(string, manner.size), cmath.exp(1j * angle)
    reach = abs(out.real) * width / 2 + abs(out.imag) * manner.size / 2 + manner.rise
    across = abs(out.imag) * width + abs(out.real) * manner.size
    chord = 2 * radius * abs(cmath.exp(0.5j * min(sweep, pi)).imag)
    if across > chord - 2.0:
        reach += manner.overrun
    return Text(vertex + out * (radius + reach), string, manner.size, "middle", "middle")


def _shaft(a: complex, b: complex, string: str, manner: Manner, beside: int) -> Block:
    """The dimension line from `a` to `b` with its arrowheads and words."""
    length, width = abs(b - a), text_width(string, manner.size)
    way, fits = (b - a) / length, abs(b - a) >= width + 1.0
    inward = fits and length >= 2 * manner.arrow + 1.0
    tail = 0.0 if inward else manner.arrow + manner.tail
    near, far, middle = a - way * tail, b + way * tail, (a + b) / 2
    if not fits:
        away = way if beside > 0 else -way
        tip = b if beside > 0 else a
        middle = tip + away * (manner.arrow + _BESIDE + width / 2)
        end = tip + away * (manner.arrow + 2 * _BESIDE + width)
        near, far = (near, end) if beside > 0 else (end, far)
    out = way if inward else -way
    heads = (arrowhead(a, -out, manner.arrow), arrowhead(b, out, manner.arrow))
    text = _words(middle, way, string, manner)
    return Block((*heads, line(near, far, width=manner.width), text), (text_box(text),))


def _words(at: complex, way: complex, string: str, manner: Manner) -> Text:
    """Words over a line through `at`, turned so that they read from below or from the right."""
    reading = -way if (way * cmath.exp(-1j * _STEEPEST)).imag > 1e-9 else way
    foot = at + 1j * reading * manner.rise
    return Text(foot, string, manner.size, "middle", "baseline", cmath.phase(reading))


def _extension(point: complex, end: complex, manner: Manner) -> Mark:
    """The extension line from a measured point past the dimension line's end."""
    run = end - point
    if abs(run) <= 1e-6:
        return line()
    return line(point, end + run / abs(run) * manner.overrun, width=manner.width)


def _measured(a: complex, b: complex, way: complex) -> float:
    """How far b lies past a along a direction, mm."""
    return ((b - a) * way.conjugate()).real / abs(way)


def _onto(point: complex, through: complex, way: complex) -> complex:
    """Foot of a point on the line through `through` along the unit direction `way`."""
    return through + way * ((point - through) * way.conjugate()).real
