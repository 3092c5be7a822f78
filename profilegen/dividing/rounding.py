"""How far stops are off that are put to the nearest position of a scale, each by itself.

Closed forms, exact, so that many scales are compared without their stops; a test lists the stops.
"""

from __future__ import annotations

from fractions import Fraction
from math import gcd

from profilegen.dividing.hardware import Scale
from profilegen.dividing.laps import Laps


def worst_rounding(teeth: int, scale: Scale, begin: Fraction = Fraction(0)) -> Fraction:
    """The greatest error of N stops, each put to the nearest position, turns.

    In positions of the scale the stops lie, whole ones left out, a constant share t apart from the
    least, s, on; the worst is one of the two next to one half.

    Args:
        teeth: N, evenly spaced.
        scale: on which they are put.
        begin: where the first stop should stand, turns of the work from a position of the scale.
    """
    share = Fraction(gcd(scale.count, teeth), teeth)
    least = begin * scale.count % share
    below = least + share * ((Fraction(1, 2) - least) // share)
    return max(below, 1 - below - share) / scale.count


def spacing_rounding(teeth: int, scale: Scale, laps: Laps) -> Fraction:
    """The greatest error between neighbouring stops of a lap, or across a land, turns.

    Args:
        teeth: N.
        scale: to whose nearest position each stop is put.
        laps: where each begins, and which two leave the lands.
    """
    pitch = Fraction(1, teeth)
    pairs = [(begin, begin + pitch) for begin in laps.begins]
    if laps.lands is not None:
        face = laps.begins[laps.lands.faces - 1] + laps.lands.step * pitch
        pairs.append((laps.begins[laps.lands.backs - 1], face))
    return max(_between(teeth, scale.count, *pair) for pair in pairs)


def _between(teeth: int, count: int, one: Fraction, other: Fraction) -> Fraction:
    """The greatest error of the way from each stop counted from `one` to that from `other`, turns.

    The way is w whole positions and a rest; put to positions it comes to w or to w + 1, by where
    the first stop lies between two of them: of those places each is a constant share from the next.
    """
    rest = (other - one) * count % 1
    if not rest:
        return Fraction(0)
    share = Fraction(gcd(count, teeth), teeth)
    least = (one * count + Fraction(1, 2)) % share
    shorter = rest if least < 1 - rest else Fraction(0)
    longer = 1 - rest if least + 1 - share >= 1 - rest else Fraction(0)
    return max(shorter, longer) / count
