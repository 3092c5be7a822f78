"""The same space with another land: how the size over pins and the root follow it.

Owns re-solving a straight-flanked space at the limits of its land or root: face tip, hook angle and
space angle stay, the back moves, and the root moves with the crossing of the flanks. Formula: two
lines crossing, derived here, no published source; the tests solve the whole part again instead.
"""

from __future__ import annotations

import cmath
import math
from dataclasses import replace

from profilegen.gauging.pins import flanks
from profilegen.geometry.chain import Chain, Role
from profilegen.geometry.measure import nearest
from profilegen.geometry.tolerance import SHORTEST_CHORD
from profilegen.wheels.wheel import Space


class NoSpace(ValueError):
    """No space of these flanks has this land or root."""


def with_land(space: Space, teeth: int, land: float) -> Space:
    """The space that leaves another land (chord, mm).

    Raises:
        NoSpace: the land fills the pitch, or the root does not fit between the flanks.
    """
    face, back = flanks(space)
    radius = abs(face.tip)
    if land >= 2 * radius * math.sin(math.pi / teeth):
        raise NoSpace("the land fills the pitch")
    if land <= SHORTEST_CHORD:
        raise NoSpace("no land is left")
    tip = cmath.rect(radius, math.tau / teeth - 2 * math.asin(land / (2 * radius)))
    vertex = _crossing(face.tip, face.outward, tip, back.outward)
    shift = vertex - space.vertex
    lengths = [((at - vertex) / way).real for at, way in _ends(space, tip)]
    taken = [((at - space.vertex) / way).real for at, way in _root_ends(space)]
    if any(has <= need + SHORTEST_CHORD for has, need in zip(lengths, taken, strict=True)):
        raise NoSpace("the root does not fit between the flanks")
    points = space.pitch.points + shift
    crests = 1 + sum(space.pitch.roles == Role.LAND)
    points[0], points[-crests:] = face.tip, space.pitch.points[-crests:]
    points[-crests] = tip
    bulges = space.pitch.bulges.copy()
    if bulges[-1] != 0.0:
        bulges[-1] = math.tan(math.asin(land / (2 * radius)) / 2)
    return replace(
        space,
        pitch=Chain(points, bulges, space.pitch.roles),
        face=replace(face, length=lengths[0]),
        back=replace(back, tip=tip, length=lengths[1]),
        vertex=vertex,
    )


def land_for_root(space: Space, teeth: int, root: float) -> float:
    """The land (mm) that leaves the deepest material at `root` from the axis (mm), by bisection.

    Raises:
        NoSpace: no land does.
    """
    face, _ = flanks(space)
    low, high = 2 * SHORTEST_CHORD, 2 * abs(face.tip) * math.sin(math.pi / teeth)
    if deepest_at(space, teeth, low) > root:
        raise NoSpace("the lands are gone before this root is reached")
    for _ in range(80):
        middle = (low + high) / 2
        low, high = (middle, high) if deepest_at(space, teeth, middle) < root else (low, middle)
    return (low + high) / 2


def deepest_at(space: Space, teeth: int, land: float) -> float:
    """Distance from the axis to the deepest material with this land, mm; infinite without one."""
    try:
        return deepest(with_land(space, teeth, land))
    except NoSpace:
        return math.inf


def deepest(space: Space) -> float:
    """Distance from the axis to the deepest material really left, mm."""
    return nearest(space.pitch, 0j)[0]


def _crossing(at: complex, along: complex, to: complex, way: complex) -> complex:
    spread = (along.conjugate() * way).imag
    return at + ((to - at).conjugate() * way).imag / spread * along


def _ends(space: Space, tip: complex) -> tuple[tuple[complex, complex], ...]:
    face, back = flanks(space)
    return (face.tip, face.outward), (tip, back.outward)


def _root_ends(space: Space) -> tuple[tuple[complex, complex], ...]:
    """Where the flanks end at the root, each with its direction."""
    face, back = flanks(space)
    at_back = int((space.pitch.roles == Role.BACK).argmax())
    return (
        (complex(space.pitch.points[1]), face.outward),
        (complex(space.pitch.points[at_back]), back.outward),
    )
