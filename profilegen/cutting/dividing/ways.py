"""Every feasible way to N stops, simplest first.

Owns: `Way`, the plain ways and the order. Refuses: numerals (`readings`) and stops (`index_plan`).
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from profilegen.cutting.dividing.hardware import Scale, scales
from profilegen.part.dividing.base import DividingTable
from profilegen.part.dividing.worm import WormDividing

Method = Literal["free", "direct", "plain", "compound", "differential"]


@dataclass(frozen=True, slots=True)
class Move:
    """What is done at the crank for each stop of a compound or differential way.

    Attributes:
        turns: whole turns of the crank.
        holes: on each circle, negative against the first one.
        circles: hole counts of the circles, both on one plate.
        spaces: how many stops one move passes over.
        wheels: of a differential train, driver on the spindle first: (driver, driven) or
            (driver, first stud, second stud, driven).
        with_crank: whether the plate turns the same way as the crank; None without a train.
    """

    turns: int
    holes: tuple[int, ...]
    circles: tuple[int, ...]
    spaces: int = 1
    wheels: tuple[int, ...] = ()
    with_crank: bool | None = None

    @property
    def crank(self) -> Fraction:
        """The crank's movement against the plate, turns."""
        pairs = zip(self.holes, self.circles, strict=True)
        return self.turns + sum((Fraction(n, c) for n, c in pairs), Fraction(0))


@dataclass(frozen=True, slots=True)
class Way:
    """One way to N stops.

    Attributes:
        method: how it is done.
        teeth: N.
        scale: positions that a plain way stands at; those of the first circle otherwise.
        move: of a compound or differential way, else None.
        worst: the greatest error of a stop of the first lap, turns of the work.
    """

    method: Method
    teeth: int
    scale: Scale
    move: Move | None
    worst: Fraction

    @property
    def exact(self) -> bool:
        """Whether every stop of the first lap stands where it should."""
        return self.worst == 0

    @property
    def per_stop(self) -> Fraction:
        """Positions of the scale for each stop of a plain way; whole when exact."""
        return Fraction(self.scale.count, self.teeth)


def rounded(wanted: Fraction, scale: Scale) -> Fraction:
    """The position of a scale nearest to an angle, both turns; a tie goes to the even position."""
    return Fraction(nearest_whole(wanted.numerator * scale.count, wanted.denominator), scale.count)


def nearest_whole(over: int, under: int) -> int:
    """The whole number nearest to a quotient of whole numbers; a tie goes to the even one."""
    whole, rest = divmod(over, under)
    return whole + (2 * rest > under or (2 * rest == under and whole % 2 == 1))


def worst_rounding(teeth: int, scale: Scale) -> Fraction:
    """The greatest error of N stops each put to the nearest position, turns.

    The stops leave every remainder that is a multiple of gcd(count, N) modulo N.
    """
    remainders = {k * scale.count % teeth for k in range(teeth)}
    return Fraction(max(min(r, teeth - r) for r in remainders), teeth * scale.count)


def ways_for(table: DividingTable, teeth: int) -> tuple[Way, ...]:
    """Every way, simplest first: exact direct or plain ones, or else the nearest one; then compound
    and differential ones. Empty when no scale has N positions."""
    known = [scale for scale in scales(table) if scale.count >= teeth]
    method: Method = "plain" if isinstance(table, WormDividing) else "direct"
    plain = [Way(method, teeth, s, None, worst_rounding(teeth, s)) for s in known]
    exact = [way for way in plain if way.exact]
    nearest = sorted(plain, key=lambda way: way.worst)[:1]
    first = tuple(exact or nearest)
    if not isinstance(table, WormDividing):
        return first
    from profilegen.cutting.dividing.compound import compound_ways
    from profilegen.cutting.dividing.differential import differential_ways

    than = first[0].worst if first else Fraction(1)
    return (*first, *compound_ways(table, teeth, than), *differential_ways(table, teeth))
