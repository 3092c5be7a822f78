"""The wheel round one space: what a cutter may touch there.

Owns the pieces of outline and metal near space 1, in base orientation, that fit and plunge compare
a cutter with: one pitch with its neighbours, whatever the number of teeth.
"""

from __future__ import annotations

import math

import numpy as np

from profilegen.forms.wheel import Toothing, Wheel
from profilegen.geometry.chain import Chain, Contour, Role, chain, close, join, reverse
from profilegen.geometry.moves import moved, repeated, rotation

SPAN = 2
"""Pitches on each side of the space that a cutter is compared with."""


def strictest_pitch(space: Toothing) -> Chain:
    """One pitch with the sharpest root allowed, mm in base orientation: no cutter may pass it.

    A root radius or flat on the print is the greatest one allowed, so a sharper cutter may go on to
    the vertex, unless the root is wanted exactly as drawn.
    """
    rounded = space.root_radius or space.root_flat
    if space.face is None or space.back is None or space.exact_root or not rounded:
        return space.pitch
    points = [complex(space.pitch.points[0]), space.vertex, space.back.tip]
    flanks = chain(points, None, [Role.FACE, Role.BACK])
    rest = space.pitch.roles == Role.LAND
    at = int(np.flatnonzero(rest)[0])
    land = Chain(space.pitch.points[at:], space.pitch.bulges[at:], space.pitch.roles[at:])
    flanks = Chain(np.append(flanks.points[:-1], land.points[0]), flanks.bulges, flanks.roles)
    return join(flanks, land)


def space_region(space: Toothing, radius: float) -> Contour:
    """What is to be removed in one space: its drawn flanks and root, and the blank's rim.

    Args:
        space: with flanks of any form.
        radius: of the blank, mm; the space's outer corners must lie on it.

    Returns:
        Counter-clockwise, mm, base orientation; the rim has the role `BLANK`.
    """
    cut = _without_land(space.pitch)
    start, end = complex(cut.points[-1]), complex(cut.points[0])
    turn = np.angle(end / start)
    rim = chain([start, end], [math.tan(float(turn) / 4)], Role.BLANK)
    return reverse(close(join(cut, rim)))


def outline_near(wheel: Wheel, pitch: Chain) -> Chain | Contour:
    """The pitch repeated over the space and its neighbours; the whole outline when that is less.

    Args:
        wheel: for the count of teeth.
        pitch: space 1 with its land, or a stricter one, mm, in base orientation.
    """
    if wheel.teeth <= 2 * SPAN + 2:
        return repeated(pitch, wheel.teeth)
    return _run(pitch, wheel.angular_pitch)


def barrier(wheel: Wheel, pitch: Chain) -> Contour:
    """The outline near the space, closed by the blank's rim: what a plunging cutter may touch
    first.

    Args:
        wheel: for the count and the blank.
        pitch: space 1 with its land, or a stricter one, mm in base orientation.
    """
    near = outline_near(wheel, pitch)
    if isinstance(near, Contour):
        return near
    start, end = complex(near.points[0]), complex(near.points[-1])
    pieces = 4
    sweep = math.tau - (2 * SPAN + 1) * wheel.angular_pitch
    turns = np.exp(1j * sweep * np.arange(1, pieces) / pieces)
    rim = chain([end, *(end * turns), start], [math.tan(sweep / pieces / 4)] * pieces, Role.BLANK)
    return close(join(near, rim))


def metal_near(wheel: Wheel, pitch: Chain) -> Contour:
    """The metal under that outline, down to a tenth of the root: counter-clockwise, mm, in base
    orientation.
    """
    if wheel.teeth <= 2 * SPAN + 2:
        return repeated(pitch, wheel.teeth)
    run = _run(pitch, wheel.angular_pitch)
    inner = 0.1 * wheel.root_radius
    end, start = complex(run.points[-1]), complex(run.points[0])
    low_end, low_start = end / abs(end) * inner, start / abs(start) * inner
    sweep = (2 * SPAN + 1) * wheel.angular_pitch
    if sweep > math.pi:
        middle = low_end * np.exp(-0.5j * sweep)
        points, bulge = [end, low_end, complex(middle), low_start, start], -math.tan(sweep / 8)
        return close(join(run, chain(points, [0.0, bulge, bulge, 0.0])))
    points = [end, low_end, low_start, start]
    return close(join(run, chain(points, [0.0, -math.tan(sweep / 4), 0.0])))


def stops_near(wheel: Wheel) -> tuple[int, ...]:
    """The stops, 0 that of the space, whose cuts can reach it."""
    if wheel.teeth <= 2 * SPAN + 2:
        return tuple(range(wheel.teeth))
    return tuple(range(-SPAN, SPAN + 1))


def _run(pitch: Chain, step: float) -> Chain:
    """The pitch and its neighbours, end to end with shared points."""
    pieces = [moved(pitch, rotation(k * step)) for k in range(-SPAN, SPAN + 1)]
    points = [piece.points[:-1] for piece in pieces] + [pieces[-1].points[-1:]]
    bulges = np.tile(pitch.bulges, len(pieces))
    return Chain(np.concatenate(points), bulges, np.tile(pitch.roles, len(pieces)))


def _without_land(pitch: Chain) -> Chain:
    """Face, root and back; of pointed teeth the whole pitch."""
    land = np.flatnonzero(pitch.roles == Role.LAND)
    cut = int(land[0]) if len(land) else len(pitch)
    return Chain(pitch.points[: cut + 1], pitch.bulges[:cut], pitch.roles[:cut])
