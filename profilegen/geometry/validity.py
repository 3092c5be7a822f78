"""Whether a contour is one that can be cut: simple, closed, counter-clockwise.

Owns the sentence that says what is wrong. A wheel's outline is checked on one pitch and its two
neighbours, whatever its number of teeth. Refuses to mend anything.
"""

from __future__ import annotations

import numpy as np

from profilegen.geometry.arcs import end_tangents, start_tangents
from profilegen.geometry.chain import Chain, Contour, Curve
from profilegen.geometry.crossings import self_crossings
from profilegen.geometry.measure import area
from profilegen.geometry.moves import unrolled
from profilegen.geometry.tolerance import SPIKE_ANGLE


def why_invalid(contour: Contour, pitches: int = 1) -> str | None:
    """What is wrong with a contour, in words; None when it is simple and counter-clockwise.

    Args:
        contour: mm, with the origin as the centre of its pitches.
        pitches: how many times the contour repeats itself round the origin; only one pitch
            between its two neighbours is then looked at.

    Raises:
        ValueError: the number of segments is not a multiple of `pitches`.
    """
    if pitches < 1 or len(contour) % pitches:
        raise ValueError(f"{len(contour)} segments cannot be {pitches} like pitches")
    part: Curve = contour
    if pitches > 3:
        each = len(contour) // pitches
        part = unrolled(contour, -each, 3 * each)
    if area(contour) <= 0.0:
        return _crosses_itself(part) or "it runs clockwise"
    return _turns_back(part) or _crosses_itself(part)


def _crosses_itself(part: Curve) -> str | None:
    found = self_crossings(part).points
    if len(found) == 0:
        return None
    more = f", and at {len(found) - 1} more" if len(found) > 1 else ""
    return f"it crosses or touches itself at {_place(complex(found[0]))}{more}"


def _turns_back(part: Curve) -> str | None:
    """A joint at which the curve goes back the way it came."""
    arriving = end_tangents(part.starts, part.ends, part.bulges)
    leaving = start_tangents(part.starts, part.ends, part.bulges)
    joints = part.ends
    if isinstance(part, Chain):
        arriving, leaving, joints = arriving[:-1], leaving[1:], joints[:-1]
    else:
        leaving = np.roll(leaving, -1)
    back = np.flatnonzero(np.abs(np.angle(-leaving * np.conj(arriving))) <= SPIKE_ANGLE)
    return f"it turns straight back at {_place(complex(joints[back[0]]))}" if len(back) else None


def _place(point: complex) -> str:
    return f"x {point.real + 0.0:.4f}, y {point.imag + 0.0:.4f} mm"
