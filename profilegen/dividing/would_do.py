"""What hardware would make a count that this one cannot: positions in a turn, never another count.

Owns the least positions that serve, the turn between laps counted in, and the words that name them.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import islice
from math import gcd, lcm
from typing import TYPE_CHECKING, Final

from profilegen.dividing.hardware import Scale, is_worm
from profilegen.dividing.rounding import spacing_rounding

if TYPE_CHECKING:
    from profilegen.dividing.laps import Laps
    from profilegen.part.dividing.base import DividingTable
    from profilegen.part.dividing.worm import WormDividing

MOST_HOLES = 1000
"""Holes or notches of one circle that are looked for."""

KEYS = {
    "plate": "dividing.holes",
    "notched": "dividing.notches",
    "worm": "dividing.plates",
    "table": "dividing.graduation",
    "motor": "dividing.steps",
}
"""The key of each kind of hardware that gives it other positions."""

HOLES = {"plate": "holes", "notched": "notches"}
"""What the positions of a plate on the spindle are."""


SERVE: Final = "keep every land within its limits"
"""What hardware does whose error a land may have."""

NO_PLATES = (
    "[dividing] gives no plates, so only whole turns of the crank are possible: write what plates "
    "the head has"
)


@dataclass(frozen=True, slots=True)
class Wanted:
    """What the positions are wanted for.

    Attributes:
        teeth: N.
        laps: where each lap begins.
        radius: of the outside, mm.
        may_lose: mm that a land may be off; 0 to have it exact.
    """

    teeth: int
    laps: Laps
    radius: float
    may_lose: float

    @property
    def exact(self) -> int:
        """The least positions in a turn that every stop of every lap stands at."""
        return lcm(self.teeth, *(begin.denominator for begin in self.laps.begins))

    @property
    def fine(self) -> int:
        """Positions that come within what a land may be off, whichever they are: no spacing is off
        by a whole one."""
        return math.ceil(2 * math.pi * self.radius / self.may_lose) if self.may_lose > 0 else 0

    def within(self, ratio: int = 1) -> Iterator[int]:
        """The least circles on which the stops of each lap are even and come within what a land may
        be off, mm at the outside; up to `MOST_HOLES`, and none where nothing may be lost.

        Args:
            ratio: turns of the crank for one turn of the work; 1 for a plate on the spindle.
        """
        least = self.teeth // gcd(self.teeth, ratio)
        if not self.may_lose:
            return
        for holes in range(least, MOST_HOLES + 1, least):
            scale = Scale("plate", ratio * holes, holes)
            off = float(spacing_rounding(self.teeth, scale, self.laps)) * 2 * math.pi * self.radius
            if holes > 1 and off <= self.may_lose:
                yield holes


def holes_for(wanted: Wanted) -> tuple[int, ...]:
    """Up to three counts of holes on the spindle that would do; exact where a plate can be.

    Args:
        wanted: the count, and by how many mm a land may be off where none of `MOST_HOLES` is exact.
    """
    least = wanted.exact
    if least <= MOST_HOLES:
        return tuple(islice(range(least, MOST_HOLES + 1, least), 3))
    return tuple(islice(wanted.within(), 3))


def words_for(table: DividingTable, wanted: Wanted) -> str:
    """What would make the count on hardware of this kind, and the key to change; nothing where no
    such hardware is known.

    Args:
        table: the hardware that cannot make it.
        wanted: the count, and by how many mm a land may be off.
    """
    if is_worm(table):
        return _circle(table, wanted)
    return _on_the_spindle(table.kind, wanted) if table.kind in HOLES else _steps(table, wanted)


def _circle(table: WormDividing, wanted: Wanted) -> str:
    """The circles of a worm head's plates, and that change wheels may do."""
    train = "" if table.change_wheels else ", or dividing.change_wheels if the head takes them"
    bare = "" if table.plates else f"{NO_PLATES}; "
    where = f"in dividing.plates{train}"
    holes = wanted.exact // gcd(wanted.exact, table.ratio)
    if holes <= MOST_HOLES:
        return f"{bare}a circle that is a multiple of {holes} holes would be exact, {where}"
    found = tuple(islice(wanted.within(table.ratio), 3))
    if found:
        return f"{bare}a circle of {_either(found)} holes would {SERVE}, {where}"
    return f"{bare}{_finer(wanted)}"


def _on_the_spindle(kind: str, wanted: Wanted) -> str:
    """The holes or notches of a plate."""
    found = holes_for(wanted)
    if not found:
        return _finer(wanted)
    do = "be exact" if wanted.exact <= MOST_HOLES else SERVE
    return f"{_either(found)} positions in a turn would {do}: make {KEYS[kind]} {found[0]}"


def _steps(table: DividingTable, wanted: Wanted) -> str:
    """The positions of a dial or motor."""
    if wanted.exact > 100 * MOST_HOLES:
        return _finer(wanted)
    text = f"a multiple of {wanted.exact} positions in a turn would be exact"
    fine = f", and {wanted.fine} or more would {SERVE}" if wanted.fine else ""
    return f"{text}{fine}, by {KEYS[table.kind]}"


def _finer(wanted: Wanted) -> str:
    """What any hardware must have, where no plate is known."""
    if not wanted.fine:
        return ""
    return f"hardware of {wanted.fine} positions in a turn or more would {SERVE}"


def _either(counts: tuple[int, ...]) -> str:
    """Counts in words, such as `24, 48 or 72`."""
    *first, last = map(str, counts)
    return f"{', '.join(first)} or {last}" if first else last
