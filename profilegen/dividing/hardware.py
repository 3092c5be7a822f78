"""What the hardware of `[dividing]` can stand at, as exact fractions of a turn.

Owns: one `Scale` for each way of counting: a hole circle, a dial, a motor's steps.
Refuses: which of them to take (`ways`).
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from fractions import Fraction
from typing import TYPE_CHECKING, Literal, TypeGuard, cast

if TYPE_CHECKING:
    from profilegen.part.dividing_tables import (
        DividingTable,
        MotorDividing,
        NotchedDividing,
        PlateDividing,
        TableDividing,
        WormDividing,
    )

Sort = Literal["plate", "vernier", "notches", "crank", "dial", "steps"]


@dataclass(frozen=True, slots=True)
class Scale:
    """Evenly spaced positions of the work.

    Attributes:
        sort: what is counted.
        count: of positions in one turn of the work.
        circle: holes on the circle of a crank (1: whole turns only), else positions of the plate.
        ratio: turns of crank or handwheel for one turn of the work; 1 without a worm.
        plate: from 1, the plate of a worm head on which the circle is; else 0.
    """

    sort: Sort
    count: int
    circle: int
    ratio: int = 1
    plate: int = 0

    @property
    def step(self) -> Fraction:
        """One position to the next, turns of the work."""
        return Fraction(1, self.count)


def is_worm(table: DividingTable) -> TypeGuard[WormDividing]:
    """Whether the hardware is a worm head with a crank."""
    return table.kind == "worm"


def scales(table: DividingTable) -> tuple[Scale, ...]:
    """Every scale of the hardware, coarsest counting first."""
    if is_worm(table):
        return _cranks(table)
    match table.kind:
        case "plate":
            return _plate(cast("PlateDividing", table))
        case "notched":
            notches = cast("NotchedDividing", table).notches
            return (Scale("notches", notches, notches),)
        case "table":
            return (_dial(cast("TableDividing", table)),)
        case _:
            steps = cast("MotorDividing", table).in_a_turn
            return (Scale("steps", steps, steps),)


def _plate(table: PlateDividing) -> tuple[Scale, ...]:
    plain = Scale("plate", table.holes, table.holes)
    if table.vernier is None:
        return (plain,)
    return (plain, Scale("vernier", table.holes * table.vernier, table.holes))


def _dial(table: TableDividing) -> Scale:
    finest = table.graduation if table.vernier is None else table.vernier
    return Scale("dial", round(2 * math.pi / finest), 1, table.ratio)


def _cranks(table: WormDividing) -> tuple[Scale, ...]:
    """Whole turns, then every different circle, on the first plate that has it."""
    found = {1: Scale("crank", table.ratio, 1, table.ratio)}
    for number, plate in enumerate(table.plates, 1):
        for circle in plate:
            scale = Scale("crank", table.ratio * circle, circle, table.ratio, number)
            found.setdefault(circle, scale)
    return tuple(found.values())


def nearest_position(over: int, under: int) -> int:
    """The position nearest to a quotient of whole numbers.

    A stop halfway between two goes to the greater, so that evenly spaced stops are rounded alike.

    Args:
        over: of either sign.
        under: positive.
    """
    return (2 * over + under) // (2 * under)
