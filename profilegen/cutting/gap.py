"""Where a posed cutter leaves the blank, whatever its silhouette, and the land that stays between.

Owns the two exits of a cut on the blank's circle and the land left by all laps together at any
infeed still to go. Exact on lines and arcs. Set-up pose, mm and radians. Refuses measured lands
(`trial`).
"""

from __future__ import annotations

import cmath
import math
from collections.abc import Callable
from dataclasses import dataclass

from profilegen.cutting.poses import Cut
from profilegen.forms.wheel import Wheel
from profilegen.geometry.arcs import start_tangents
from profilegen.geometry.chain import Chain, circle
from profilegen.geometry.crossings import crossings
from profilegen.geometry.moves import Move, moved


@dataclass(frozen=True, slots=True)
class Exit:
    """Where one side of a cutter leaves the blank.

    Attributes:
        cut: the cut, at full depth.
        place: on the blank's circle, mm, in the cut's set-up pose.
        along: unit tangent of the cutter's edge there, pointing out of the blank.
        base_angle: of the place from the face tip of tooth 1, rad, in base orientation.
    """

    cut: Cut
    place: complex
    along: complex
    base_angle: float


def exits(wheel: Wheel, cut: Cut, lift: float = 0.0) -> tuple[Exit, Exit] | None:
    """The exits of a cut on its face side (+x) and its back side.

    Args:
        wheel: on the blank at hand.
        cut: at full depth.
        lift: infeed still to go, mm; negative is too deep.

    Returns:
        Places in the set-up pose, mm; None when the cutter is clear of the blank.
    """
    edge = cut.tool.silhouette(4 * wheel.radius)
    posed = moved(edge, Move(shift=cut.apex + 1j * lift))
    found = crossings(posed, circle(0, wheel.radius))
    if len(found.points) < 2:
        return None
    face, back = (
        _exit(wheel, cut, posed, complex(found.points[at]), int(found.segment_a[at]), sense)
        for at, sense in ((0, -1.0), (-1, 1.0))
    )
    return face, back


def _exit(wheel: Wheel, cut: Cut, posed: Chain, place: complex, segment: int, sense: float) -> Exit:
    """One exit; `sense` is +1 where the chain runs outwards."""
    along = sense * _tangent(posed, segment, place)
    middle = wheel.angular_pitch / 2
    base = cut.setup_from_base.inverse()(place)
    return Exit(cut, place, along, cmath.phase(base * cmath.exp(-1j * middle)) + middle)


def _tangent(posed: Chain, segment: int, place: complex) -> complex:
    """Unit tangent of a segment at a place on it, in the running direction."""
    one = slice(segment, segment + 1)
    starts, ends, bulges = posed.starts[one], posed.ends[one], posed.bulges[one]
    first = complex(start_tangents(starts, ends, bulges)[0])
    chord = place - complex(starts[0])
    if bulges[0] == 0.0 or chord == 0.0:
        return first
    return (chord / abs(chord)) ** 2 / first  # an arc leans from its chord as much as at its start


def sides(wheel: Wheel, cuts: tuple[Cut, ...], remaining: float = 0.0) -> tuple[Exit, Exit] | None:
    """Face and back of the space that all laps leave.

    Args:
        wheel: on the blank at hand.
        cuts: one a lap, in their order; those before the last are at depth.
        remaining: infeed that the last lap still has to go, mm; negative is too deep.

    Returns:
        None when nothing has touched the blank.
    """
    pairs = [exits(wheel, cut, remaining if cut is cuts[-1] else 0.0) for cut in cuts]
    there = [pair for pair in pairs if pair is not None]
    if not there:
        return None
    face = min((pair[0] for pair in there), key=lambda one: one.base_angle)
    back = max((pair[1] for pair in there), key=lambda one: one.base_angle)
    return face, back


def land_left(wheel: Wheel, cuts: tuple[Cut, ...], remaining: float) -> float:
    """Chord of the land that the cuts leave, mm; negative when neighbouring spaces have met.

    The real silhouettes count, nose, flat and body too; tests hold it against a closed form for
    straight flanks.

    Args:
        wheel: on the blank at hand.
        cuts: one a lap, in their order; those before the last are at depth.
        remaining: infeed that the last lap still has to go, mm; negative is too deep.
    """
    pair = sides(wheel, cuts, remaining)
    gap = 0.0 if pair is None else pair[1].base_angle - pair[0].base_angle
    return 2 * wheel.radius * math.sin((wheel.angular_pitch - gap) / 2)


def monotone_root(rising: Callable[[float], float], low: float, high: float) -> float:
    """Where a rising function passes 0, to the last digit: bisection.

    Args:
        rising: negative at `low`; where it is nowhere 0 or more, `high` comes back.
        low: in the unit that the function takes, such as mm of infeed.
        high: alike.
    """
    for _ in range(200):
        middle = (low + high) / 2
        if middle in (low, high):
            break
        low, high = (middle, high) if rising(middle) < 0 else (low, middle)
    return high
