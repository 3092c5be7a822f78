"""One way to N stops: by which method, on which scale, with which move, and how exact.

Owns the records alone; `ways` finds them.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from profilegen.dividing.hardware import Scale

Method = Literal["free", "direct", "plain", "compound", "differential"]

METHODS: tuple[Method, ...] = ("free", "direct", "plain", "compound", "differential")
"""Simplest first."""


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
        scale: positions that the work can stand at, a differential way's train engaged; those of
            the first circle for a compound way.
        move: of a compound or differential way, else None.
        worst: the greatest error of a stop of any lap, turns of the work.
        even: whether the stops of each lap stand exactly a share apart.
        spacing: the greatest error between neighbouring stops of a lap or across a land, turns.
    """

    method: Method
    teeth: int
    scale: Scale
    move: Move | None
    worst: Fraction
    even: bool
    spacing: Fraction = Fraction(0)

    @property
    def exact(self) -> bool:
        """Whether every stop of every lap stands where it should."""
        return self.worst == 0

    @property
    def per_stop(self) -> Fraction:
        """Positions of the scale for each stop, but for a compound way; whole when even."""
        return Fraction(self.scale.count, self.teeth)

    @property
    def spaces(self) -> int:
        """Spaces from one stop to the next."""
        return self.move.spaces if self.move else 1

    @property
    def gathers(self) -> Fraction:
        """What each move of a compound way adds to the error, turns; 0 for the others."""
        if self.move is None or self.method != "compound":
            return Fraction(0)
        return self.move.crank / self.scale.ratio - Fraction(self.spaces, self.teeth)
