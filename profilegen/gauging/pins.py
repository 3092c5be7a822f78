"""Two round pins in opposite spaces of straight flanks: the size over them, and what it tells.

Owns the closed forms, for a space of any hook: the pin's centre lies `s = (d / 2) / sin(A / 2)` up
the bisector from the root vertex, `Rc` from the axis; the size is `2 Rc + d` over an even count of
teeth and `2 Rc cos(90 deg / N) + d` over an odd one. In a ring, whose spaces open towards the axis
and so have a negative space angle, the size between the pins is `2 Rc - d` and
`2 Rc cos(90 deg / N) - d`. Owns what a wrong size says of the infeed, and
why a pin does not serve. Formulas: plane trigonometry, derived here, no published source for
ratchets; `seat` finds the same centres without them. Base orientation, mm and radians.
"""

from __future__ import annotations

import cmath
import math
from dataclasses import dataclass

from profilegen.findings.finding import Refusal, mm
from profilegen.forms.wheel import Flank, Toothing
from profilegen.geometry.chain import Contour
from profilegen.geometry.measure import bounds, nearest
from profilegen.geometry.moves import Move, moved, repeated
from profilegen.geometry.rolled_pin import Seat, roll_in
from profilegen.geometry.tolerance import SAME_POINT
from profilegen.geometry.tooth_sizes import apart


class BadPin(Refusal):
    """A pin that does not rest on both flanks, or not proud of the crests: its diameter as value,
    and as limit the diameter that would just do, mm."""


@dataclass(frozen=True, slots=True)
class Infeed:
    """How the last cut moves with infeed.

    Attributes:
        turn: from base orientation to its set-up pose, rad.
        face: whether it forms the face.
        back: whether it forms the back.
    """

    turn: float
    face: bool = True
    back: bool = True


def flanks(space: Toothing) -> tuple[Flank, Flank]:
    """Face and back, mm in base orientation.

    Raises:
        ValueError: one is curved.
    """
    if space.face is None or space.back is None:
        raise ValueError("a curved flank: roll the pin in instead")
    return space.face, space.back


def pin_centre(space: Toothing, diameter: float) -> complex:
    """Centre of a pin that touches both straight flanks, mm in base orientation.

    Args:
        space: with straight flanks, taken as if they had no end.
        diameter: of the pin, mm.
    """
    face, _ = flanks(space)
    half = space.angle / 2
    return space.vertex + diameter / 2 / math.sin(abs(half)) * face.outward * cmath.exp(1j * half)


def contact_length(space: Toothing, diameter: float) -> float:
    """How far up each flank from the root vertex a pin touches, mm.

    Args:
        space: with straight flanks.
        diameter: of the pin, mm.
    """
    return diameter / 2 / math.tan(abs(space.angle) / 2)


def diameter_touching_at(space: Toothing, length: float) -> float:
    """The pin that touches the flanks at a place, its diameter in mm.

    Args:
        space: with straight flanks.
        length: from the root vertex up along a flank, mm.
    """
    return 2 * length * math.tan(abs(space.angle) / 2)


def root_length(space: Toothing) -> float:
    """How far up from the vertex the flanks begin, above the root as drawn, mm."""
    half = abs(space.angle) / 2
    return space.root_radius / math.tan(half) + space.root_flat / 2 / math.sin(half)


def between_pins(centre: complex, diameter: float, teeth: int) -> float:
    """Size between two pins in opposite spaces of a ring, mm.

    Args:
        centre: of one pin from the ring's axis, mm.
        diameter: of the pins, mm.
        teeth: of the whole ring; an odd count measures over a chord.
    """
    return 2 * abs(centre) * apart(teeth) - diameter


def change_with_infeed(space: Toothing, teeth: int, diameter: float, infeed: Infeed) -> float:
    """How much the size over pins falls for each mm of further infeed, mm per mm.

    With both flanks cut at once the pin sinks along the infeed and this is `2 y / Rc` (even count),
    y the height of its centre in the set-up pose. A cut of one flank lets the pin slide along the
    other.

    Args:
        space: with straight flanks, base orientation.
        teeth: of the whole wheel.
        diameter: of the pins, mm.
        infeed: how the last cut goes, and which flanks it moves.
    """
    centre, move = pin_centre(space, diameter), pin_moves(space, infeed)
    return -2 * apart(teeth) * (move * centre.conjugate()).real / abs(centre)


def pin_moves(space: Toothing, infeed: Infeed) -> complex:
    """How a pin at rest moves per mm of further infeed, in base orientation, mm per mm."""
    face, back = flanks(space)
    down = -1j * cmath.exp(-1j * infeed.turn)
    normals = (1j * face.outward, -1j * back.outward)
    sinks = [
        (down * normal.conjugate()).real if moves else 0.0
        for normal, moves in zip(normals, (infeed.face, infeed.back), strict=True)
    ]
    spread = (normals[0].conjugate() * normals[1]).imag
    return 1j * (sinks[1] * normals[0] - sinks[0] * normals[1]) / spread


def contacts(space: Toothing, centre: complex, diameter: float) -> tuple[complex, complex]:
    """Where a pin touches the two straight flanks, face first, mm in base orientation.

    Args:
        space: with straight flanks.
        centre: of the pin, mm, as `pin_centre` gives it.
        diameter: of the pin, mm.
    """
    face, back = flanks(space)
    return (
        centre - diameter / 2 * 1j * face.outward,
        centre + diameter / 2 * 1j * back.outward,
    )


def stands_proud(outline: Contour, centre: complex, diameter: float, teeth: int) -> float:
    """How far a pin stands over the wheel towards its anvil, mm; negative when below the crests.

    Both anvils are square to the line of the two centres, which leans over an odd count: forwards
    at one pin and backwards at the other. The lesser of the two counts.

    Args:
        outline: of the whole wheel, mm.
        centre: of the pin from the wheel axis, mm.
        diameter: of the pin, mm.
        teeth: of the whole wheel.
    """
    sides = _lines_of_centres(centre, teeth)
    return min(_past_the_wheel(outline, centre, towards) for towards in sides) + diameter / 2


def _past_the_wheel(outline: Contour, centre: complex, towards: complex) -> float:
    """How far a place lies past the whole wheel in a direction, mm."""
    wheel = bounds(moved(outline, Move(turn=towards.conjugate())))[2]
    return (centre * towards.conjugate()).real - wheel


def reaches_in(outline: Contour, centre: complex, diameter: float, teeth: int) -> float:
    """How far a pin in a ring reaches past the crests towards its opposite, mm; else negative.

    Args:
        outline: of the ring's teeth, mm.
        centre: of the pin from the axis, mm.
        diameter: of the pin, mm.
        teeth: of the whole ring.
    """
    inmost = centre - diameter / 2 * _lines_of_centres(centre, teeth)[0]
    return nearest(outline, 0j)[0] - abs(inmost)


def _lines_of_centres(centre: complex, teeth: int) -> tuple[complex, complex]:
    """Unit directions from the opposite pin's centre to this one's, this being either of the two.

    From the radius they lean 90 deg over an odd count of teeth, one way and the other.
    """
    outward = centre / abs(centre)
    lean = cmath.exp(1j * math.acos(apart(teeth)))
    return outward * lean, outward * lean.conjugate()


def least_proud(space: Toothing, outline: Contour, teeth: int) -> float:
    """The smallest pin that stands proud of the crests, mm, by bisection."""
    past = reaches_in if space.inside else stands_proud
    low, high = 0.0, 2 * abs(space.vertex)
    for _ in range(60):
        middle = (low + high) / 2
        proud = past(outline, pin_centre(space, middle), middle, teeth)
        low, high = (low, middle) if proud > 0 else (middle, high)
    return high


def check_pin(space: Toothing, teeth: int, diameter: float) -> Seat:
    """A pin rolled in, proved to rest on both flanks and to stand proud.

    Args:
        space: with straight flanks, base orientation.
        teeth: of the whole wheel.
        diameter: of the pin, mm.

    Raises:
        BadPin: it falls in, rides on the tips, or lies below the crests.
        ValueError: a flank is curved.
    """
    face, back = flanks(space)
    outline = repeated(space.pitch, teeth)
    ring = space.inside
    seat = roll_in(outline, space.pitch, diameter, ring=ring)
    closed = pin_centre(space, diameter)
    if seat is not None and seat.is_on_flanks and abs(seat.centre - closed) <= SAME_POINT:
        if (reaches_in if ring else stands_proud)(outline, closed, diameter, teeth) > 0:
            return seat
        limit = least_proud(space, outline, teeth)
        case = "ring" if ring else ""
        raise BadPin("pin-not-proud", diameter, limit, case=case, facts={"pin": mm(diameter)})
    shortest = min(face.length, back.length)
    if seat is None or seat.is_on_tips or contact_length(space, diameter) > shortest:
        limit = diameter_touching_at(space, shortest)
        raise BadPin("pin-on-tips", diameter, limit, facts={"pin": mm(diameter)})
    limit = diameter_touching_at(space, root_length(space))
    raise BadPin("pin-falls-in", diameter, limit, facts={"pin": mm(diameter)})
