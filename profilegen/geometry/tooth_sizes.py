"""Sizes read on one pitch of any outline: over pins, over flanks between anvils, across a tooth.

A pitch is an open chain from one tooth's tip to the next: face, root, back, land; whatever made it,
these are the sizes that a gauge would show. Flanks may be of any lines and arcs. Teeth are
numbered from 1, tooth 1 at the start of the pitch; space 1 is the pitch's own, space n stands n - 1
pitches on. Refuses names of tooth forms, and what a wrong size means.
"""

from __future__ import annotations

import cmath
import math
from dataclasses import dataclass

import numpy as np

from profilegen.geometry.arcs import points_at
from profilegen.geometry.chain import Chain, Contour, Role, chain
from profilegen.geometry.crossings import crossings
from profilegen.geometry.measure import fraction_facing
from profilegen.geometry.moves import Move, moved, repeated, rotation
from profilegen.geometry.rolled_pin import Seat, roll_in
from profilegen.geometry.tolerance import SAME_POINT

FEWEST_APART = 7
"""Teeth from which on a space is looked at with its two neighbours alone."""


@dataclass(frozen=True, slots=True)
class Span:
    """Neighbouring teeth between two parallel anvils.

    Attributes:
        length: mm.
        low: where one anvil touches, mm, in base orientation.
        high: where the other one does.
        is_on_flanks: whether neither touches an end of its flank, a tip or the start of the root.
    """

    length: float
    low: complex
    high: complex
    is_on_flanks: bool


def run_of(pitch: Chain, *roles: int) -> Chain:
    """The stretch of a pitch, mm, with these roles, from its first such segment to its last.

    Args:
        pitch: one pitch of the outline.
        roles: what the segments of the stretch may be.

    Raises:
        ValueError: there is none.
    """
    found = np.flatnonzero(np.isin(pitch.roles, roles))
    if not len(found):
        raise ValueError("the pitch has no such stretch")
    first, last = int(found[0]), int(found[-1]) + 1
    return Chain(pitch.points[first : last + 1], pitch.bulges[first:last], pitch.roles[first:last])


def apart(teeth: int) -> float:
    """Distance of two opposite pins' centres over twice their distance from the axis.

    Args:
        teeth: an odd count leaves no space just opposite: then it is `cos(90 degrees / N)`.
    """
    return 1.0 if teeth % 2 == 0 else math.cos(math.pi / (2 * teeth))


def over_pins(centre: complex, diameter: float, teeth: int) -> float:
    """Size over two pins in opposite spaces, as near opposite as the count allows, mm.

    Args:
        centre: of one pin from the wheel axis, mm.
        diameter: of the pins, mm.
        teeth: of the whole wheel; an odd count measures over a chord.
    """
    return 2 * abs(centre) * apart(teeth) + diameter


def metal_about(pitch: Chain, teeth: int) -> Contour:
    """The metal round space 1, mm: the whole wheel, or the space and its neighbours down to the
    axis where there are many teeth.

    Args:
        pitch: one pitch of the outline, mm.
        teeth: of the whole wheel.
    """
    if teeth < FEWEST_APART:
        return repeated(pitch, teeth)
    step = math.tau / teeth
    pieces = [moved(pitch, rotation(turn * step)) for turn in (-1, 0, 1)]
    points = np.concatenate([*(piece.points[:-1] for piece in pieces), pieces[2].points[-1:]])
    bulges = np.concatenate([np.tile(pitch.bulges, 3), [0.0, 0.0]])
    roles = np.concatenate([np.tile(pitch.roles, 3), [0, 0]]).astype(np.uint8)
    return Contour(np.append(points, 0j), bulges, roles)


def pin_seat(pitch: Chain, teeth: int, diameter: float) -> Seat | None:
    """Where a pin (mm) comes to rest in space 1 of an outside toothing; None for nowhere."""
    return roll_in(metal_about(pitch, teeth), pitch, diameter)


def span_over(pitch: Chain, teeth: int, spanned: int) -> Span:
    """Over the outer flanks of neighbouring teeth, mm, the anvils square to the line through the
    middle of the group, as flanks that are each other's mirror image hold them.

    The teeth lie between space 1 and space 1 + `spanned`.

    Args:
        pitch: one pitch of the outline, mm.
        teeth: of the whole wheel.
        spanned: how many lie between the anvils.
    """
    step = math.tau / teeth
    middle = _space_middle(pitch, step) + spanned * step / 2
    turn = rotation(-middle)
    back = moved(run_of(pitch, Role.BACK), turn)
    face = moved(run_of(pitch, Role.FACE), turn.after(rotation(spanned * step)))
    low, low_inside = _lowest(back, -1)
    high, high_inside = _lowest(face, 1)
    out = turn.inverse()
    return Span(high.imag - low.imag, out(low), out(high), low_inside and high_inside)


def across_tooth(pitch: Chain, teeth: int, height: float, lift: float = 0.0) -> float | None:
    """Straight across a tooth at a distance from the axis, mm; None where a flank does not reach.

    Args:
        pitch: of symmetrical teeth.
        teeth: of the wheel.
        height: of the chord above the axis, along the middle of the tooth, mm.
        lift: by which the spaces on both sides are not yet at their depth, mm.
    """
    step = math.tau / teeth
    middle = _space_middle(pitch, step)
    lifted = lift * cmath.exp(1j * middle)
    tooth = rotation(-middle - step / 2)
    back = moved(moved(run_of(pitch, Role.BACK), Move(shift=lifted)), tooth)
    reach = 2 * abs(pitch.points[0])
    found = crossings(back, chain([complex(height, -reach), complex(height, 0.0)]))
    return 2 * abs(complex(found.points[0]).imag) if len(found.points) else None


def _space_middle(pitch: Chain, step: float) -> float:
    """Angle of the middle of space 1, rad: half a pitch from the middle of the crest, or from the
    tip of pointed teeth, in which the pitch ends."""
    land = np.flatnonzero(pitch.roles == Role.LAND)
    first = int(land[0]) if len(land) else len(pitch)
    return (cmath.phase(pitch.points[first]) + cmath.phase(pitch.points[-1])) / 2 - step / 2


def _lowest(flank: Chain, side: int) -> tuple[complex, bool]:
    """The place farthest up (side 1) or down (-1), and whether it is within the flank."""
    starts, ends, bulges = flank.starts, flank.ends, flank.bulges
    fraction = fraction_facing(starts, ends, bulges, side * 1j)
    arcs = ~np.isnan(fraction)
    tops = points_at(starts[arcs], ends[arcs], bulges[arcs], fraction[arcs])
    places = np.concatenate([flank.points, tops])
    best = complex(places[int(np.argmax(side * places.imag))])
    ends_at = (complex(flank.points[0]), complex(flank.points[-1]))
    return best, min(abs(best - end) for end in ends_at) > SAME_POINT
