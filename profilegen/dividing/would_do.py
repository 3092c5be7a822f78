"""What hardware would make a count that this one cannot: positions in a turn, never another count.

Owns the least positions that serve, the turn between laps counted in, and the advice that names
them.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import islice
from math import gcd, lcm
from typing import TYPE_CHECKING

from profilegen.dividing.hardware import Scale, is_worm
from profilegen.dividing.rounding import spacing_rounding
from profilegen.findings.finding import Fact, Make, Phrase

if TYPE_CHECKING:
    from profilegen.dividing.laps import Laps
    from profilegen.part.dividing_tables import DividingTable, WormDividing

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


@dataclass(frozen=True, slots=True)
class Wanted:
    """What the positions are wanted for.

    Attributes:
        teeth: N.
        laps: where each lap begins.
        radius: of the outside, mm.
        may_lose: mm that a land may be off; 0 to have it exact.
        between: what it is that may: `land`, or `tooth` where teeth have none.
    """

    teeth: int
    laps: Laps
    radius: float
    may_lose: float
    between: str = "land"

    @property
    def serve(self) -> str:
        """What hardware does whose error the teeth may have."""
        return f"keep every {self.between} within its limits"

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


def would_do(table: DividingTable, wanted: Wanted) -> Phrase | None:
    """What would make the count on hardware of this kind, and the key to change; None where no such
    hardware is known.

    Args:
        table: the hardware that cannot make it.
        wanted: the count, and by how many mm a land may be off.
    """
    if is_worm(table):
        return _circle(table, wanted)
    return _on_the_spindle(table.kind, wanted) if table.kind in HOLES else _steps(table, wanted)


def _circle(table: WormDividing, wanted: Wanted) -> Phrase | None:
    """The circles of a worm head's plates, and that change wheels may do."""
    bare = None if table.plates else Phrase("no-plates")
    train = "" if table.change_wheels else Phrase("or-train")
    holes = wanted.exact // gcd(wanted.exact, table.ratio)
    if holes <= MOST_HOLES:
        return Phrase("circle-exact", {"bare": bare or "", "holes": holes, "train": train})
    found = tuple(islice(wanted.within(table.ratio), 3))
    if found:
        either = _either(found)
        facts = {"bare": bare or "", "holes": either, "between": wanted.between, "train": train}
        return Phrase("circle-within", facts)
    return _finer(wanted, bare or "") or bare


def _on_the_spindle(kind: str, wanted: Wanted) -> Phrase | None:
    """The holes or notches of a plate."""
    found = holes_for(wanted)
    if not found:
        return _finer(wanted)
    make = Make(KEYS[kind], "", found[0])
    if wanted.exact <= MOST_HOLES:
        return Phrase("holes-exact", {"counts": _either(found), "make": make})
    facts: dict[str, Fact] = {"counts": _either(found), "between": wanted.between, "make": make}
    return Phrase("holes-within", facts)


def _steps(table: DividingTable, wanted: Wanted) -> Phrase | None:
    """The positions of a dial or motor."""
    if wanted.exact > 100 * MOST_HOLES:
        return _finer(wanted)
    fine: Phrase | str = ""
    if wanted.fine:
        fine = Phrase("or-finer", {"fine": wanted.fine, "between": wanted.between})
    return Phrase("steps", {"exact": wanted.exact, "fine": fine, "key": KEYS[table.kind]})


def _finer(wanted: Wanted, bare: Phrase | str = "") -> Phrase | None:
    """What any hardware must have, where no plate is known."""
    if not wanted.fine:
        return None
    facts = {"bare": bare, "positions": wanted.fine, "between": wanted.between}
    return Phrase("finer", facts)


def _either(counts: tuple[int, ...]) -> str:
    """Counts in words, such as `24, 48 or 72`."""
    *first, last = map(str, counts)
    return f"{', '.join(first)} or {last}" if first else last
