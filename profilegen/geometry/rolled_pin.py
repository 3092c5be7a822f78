"""A round pin rolled into a space: where it comes to rest, on any lines and arcs.

Owns the generic solver. A pin's centre keeps its radius away from the outline, so it lies on the
outline's parallel curve: lines and arcs moved out, and circles about the corners. The pin rests
where two of these cross, or one of them is level, no other part of the wheel is nearer, and a push
into the space is held. All crossings are closed forms, exact to rounding.
Refuses standard sizes and closed forms of one tooth form.
"""

from __future__ import annotations

import cmath
import math
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import combinations

import numpy as np

from profilegen.geometry.arcs import middles
from profilegen.geometry.chain import Chain, Contour, Role, reverse
from profilegen.geometry.measure import chord_centres, contains, nearest_each
from profilegen.geometry.tolerance import SAME_POINT

ON_OUTLINE = 10 * SAME_POINT
"""mm. A touch nearer to the outline than this is on it: flat arcs have far centres."""


@dataclass(frozen=True, slots=True)
class Touch:
    """One place where the pin rests.

    Attributes:
        place: mm.
        role: of the segment touched, or of both at a corner within a flank; `LAND` for a corner
            at the crest.
    """

    place: complex
    role: int


@dataclass(frozen=True, slots=True)
class Seat:
    """A pin at rest in space 1, in base orientation.

    Attributes:
        centre: of the pin, mm.
        touches: one place, or two.
    """

    centre: complex
    touches: tuple[Touch, ...]

    @property
    def is_on_flanks(self) -> bool:
        """Whether it rests on the face and on the back, and on neither's end."""
        return {touch.role for touch in self.touches} == {Role.FACE, Role.BACK}

    @property
    def is_on_tips(self) -> bool:
        """Whether it rests on a corner at the crest."""
        return any(touch.role == Role.LAND for touch in self.touches)


@dataclass(frozen=True, slots=True)
class _Way:
    """A piece of the parallel curve: a line (`radius` 0) or a whole circle.

    Attributes:
        at: a point of the line, or the circle's centre, mm.
        along: unit direction of the line, or from the centre to the middle of the arc touched; 0
            for a corner.
        radius: of the circle, mm.
        inner: whether the pin lies inside the arc it touches.
        role: of what is touched.
    """

    at: complex
    along: complex
    radius: float
    inner: bool
    role: int


def roll_in(outline: Contour, pitch: Chain, diameter: float, *, ring: bool = False) -> Seat | None:
    """Where a pin (mm) comes to rest in the space of a pitch, deepest in it; None for nowhere.

    Args:
        outline: every pitch in base orientation, counter-clockwise.
        pitch: space 1 with its land, as in `Toothing.pitch`.
        diameter: of the pin, mm.
        ring: the space opens towards the axis, with the material outside of the outline: the pin
            is pushed away from the axis.
    """
    radius, push = diameter / 2, 1 if ring else -1
    ways = tuple(_ways(reverse(pitch) if ring else pitch, radius))
    found = list(_candidates(ways, radius, push))
    if not found:
        return None
    centres = np.array([seat.centre for seat in found])
    clear = nearest_each(outline, centres)[0] >= radius - SAME_POINT
    clear &= contains(outline, centres) == ring
    held = [seat for seat, free in zip(found, clear, strict=True) if free]
    held.sort(key=lambda seat: push * abs(seat.centre), reverse=True)
    return next((seat for seat in held if _is_there(pitch, seat)), None)


def _is_there(pitch: Chain, seat: Seat) -> bool:
    """Whether a pin touches the pitch itself, and not the circle of an arc past the arc's ends."""
    places = np.array([touch.place for touch in seat.touches])
    return bool(nearest_each(pitch, places)[0].max() <= ON_OUTLINE)


def _ways(pitch: Chain, radius: float) -> Iterator[_Way]:
    """The parallel curve of the space without its land, piece by piece."""
    centres = chord_centres(pitch.starts, pitch.ends, pitch.bulges)
    space = np.flatnonzero(pitch.roles != Role.LAND).tolist()
    for n in space:
        start, end, bulge = complex(pitch.starts[n]), complex(pitch.ends[n]), pitch.bulges[n]
        role = int(pitch.roles[n])
        if bulge == 0.0:
            along = (end - start) / abs(end - start)
            yield _Way(start - 1j * radius * along, along, 0.0, False, role)
            continue
        own = abs(start - centres[n])
        if bulge > 0 or own > radius + SAME_POINT:
            around = own + radius if bulge > 0 else own - radius
            middle = complex(middles(pitch.starts[[n]], pitch.ends[[n]], pitch.bulges[[n]])[0])
            out = (middle - complex(centres[n])) / own
            yield _Way(complex(centres[n]), out, around, bool(bulge < 0), role)
    first, last = int(space[0]), int(space[-1])
    for n in range(first, last + 2):
        yield _Way(complex(pitch.points[n]), 0j, radius, False, _corner(pitch, n, first, last))


def _corner(pitch: Chain, n: int, first: int, last: int) -> int:
    """Role of a corner of the space: within one flank its own, at the crest `LAND`, else `ROOT`."""
    if n in (first, last + 1):
        return int(Role.LAND)
    before, after = int(pitch.roles[n - 1]), int(pitch.roles[n])
    return before if before == after else int(Role.ROOT)


def _candidates(ways: tuple[_Way, ...], radius: float, push: int) -> Iterator[Seat]:
    """Every place where the pin would be held by two pieces, or by one alone.

    It is pushed along the radius, outwards (1) or inwards (-1).
    """
    for one, other in combinations(ways, 2):
        for centre in _crossings(one, other):
            touches = tuple(_touch(way, centre, radius) for way in (one, other))
            if _holds(centre, touches, push):
                yield Seat(centre, touches)
    for way in ways:
        for centre in _level(way, push):
            touch = _touch(way, centre, radius)
            if push * (centre * (centre - touch.place).conjugate()).real < 0:
                yield Seat(centre, (touch,))


def _touch(way: _Way, centre: complex, radius: float) -> Touch:
    """Where a pin on a piece of the parallel curve touches the outline."""
    if way.radius == 0.0:
        return Touch(centre - radius * -1j * way.along, way.role)
    out = (centre - way.at) / abs(centre - way.at)
    return Touch(centre + radius * out if way.inner else centre - radius * out, way.role)


def _holds(centre: complex, touches: tuple[Touch, ...], push: int) -> bool:
    """Whether the push lies between the two normals."""
    one, other = ((centre - touch.place) / abs(centre - touch.place) for touch in touches)
    spread = (one.conjugate() * other).imag
    if abs(spread) < 1e-12:
        return False
    back = -push * centre / abs(centre)
    shares = ((back.conjugate() * other).imag / spread, (one.conjugate() * back).imag / spread)
    return min(shares) >= -1e-12


def _crossings(one: _Way, other: _Way) -> Iterator[complex]:
    """Where two pieces cross, as whole lines and circles."""
    if one.radius and other.radius:
        yield from _two_circles(one, other)
    elif one.radius or other.radius:
        line, ring = (other, one) if one.radius else (one, other)
        foot = line.at + ((ring.at - line.at) * line.along.conjugate()).real * line.along
        inside = ring.radius**2 - abs(foot - ring.at) ** 2
        if inside >= 0:
            half = math.sqrt(inside) * line.along
            yield from (foot + half, foot - half)
    else:
        spread = (one.along.conjugate() * other.along).imag
        if abs(spread) > 1e-12:
            reach = ((other.at - one.at).conjugate() * other.along).imag / spread
            yield one.at + reach * one.along


def _two_circles(one: _Way, other: _Way) -> Iterator[complex]:
    apart = abs(other.at - one.at)
    if apart < SAME_POINT:
        return
    cosine = (apart**2 + one.radius**2 - other.radius**2) / (2 * apart * one.radius)
    if abs(cosine) <= 1:
        along = (other.at - one.at) / apart * one.radius
        for side in (1, -1):
            yield one.at + along * cmath.exp(1j * side * math.acos(cosine))


def _level(way: _Way, push: int) -> Iterator[complex]:
    """Where a piece runs square to the radius: the pin would rest on it alone. On an arc about the
    axis it would rest anywhere: its middle."""
    if way.radius == 0.0:
        yield way.at - (way.at * way.along.conjugate()).real * way.along
    elif abs(way.at) <= SAME_POINT:
        yield way.radius * way.along
    elif way.inner:
        yield way.at * (1 + push * way.radius / abs(way.at))
