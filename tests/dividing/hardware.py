"""The hardware that the dividing tests use."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, cast

from profilegen.dividing.hardware import scales
from profilegen.dividing.index_plan import IndexPlan, index_plan
from profilegen.dividing.laps import laps_of
from profilegen.dividing.spread import Lands
from profilegen.dividing.way import Way
from profilegen.dividing.ways import ways_for
from profilegen.part.dividing_tables import DividingTable, WormDividing
from profilegen.part.kinds import model

PLATES = [[15, 16, 17, 18, 19, 20], [21, 23, 27, 29, 31, 33], [37, 39, 41, 43, 47, 49]]
"""IDX-01: the common set of three plates; a stored club article that quotes a handbook."""

WHEELS = [24, 24, 28, 32, 40, 44, 48, 56, 64, 72, 86, 100]
"""IDX-73: the change wheels of the handbook's tables; remembered."""


def made(kind: str, **keys: Any) -> DividingTable:
    """A table `[dividing]` of one kind."""
    return cast(DividingTable, model("dividing", kind).model_validate({"kind": kind, **keys}))


def head(**keys: Any) -> WormDividing:
    """A worm head of 40 to 1 with the three plates."""
    return cast(WormDividing, made("worm", **{"ratio": 40, "plates": PLATES, **keys}))


SPIN = made("plate", holes=36, vernier=10)
"""IDX-97."""


def exact_counts(table: DividingTable, most: int = 1000) -> tuple[int, ...]:
    """Every count from 2 to `most` that divides the positions of a dial or circle of the table."""
    sizes = [scale.count for scale in scales(table)]
    return tuple(n for n in range(2, most + 1) if any(size % n == 0 for size in sizes))


def planned(
    table: DividingTable,
    teeth: int,
    starts: Sequence[float],
    radius: float,
    way: int | None = None,
    reverse: bool = False,
    lands: Lands | None = None,
) -> IndexPlan:
    """The plan of a wheel on its own, by the first way or that of a number."""
    laps = laps_of(starts, teeth, reverse, lands)
    ways = ways_for(table, teeth, laps)
    return index_plan(ways, ways[(way or 1) - 1], teeth, laps, radius)


def number_of(ways: Sequence[Way], method: str) -> int:
    """The number of the first way of a method."""
    return next(n for n, way in enumerate(ways, 1) if way.method == method)
