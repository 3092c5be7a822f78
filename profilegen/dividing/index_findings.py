"""What is to be said of a plan on its hardware: whether its stops do, and how its moves are made.

One rule for every command: stops whose spacing is off by more than a land may be are refused;
within it they are taken, with a caution. Only `profilegen stops --allow-error` lists the others.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from profilegen.dividing.hardware import scales
from profilegen.dividing.readings import warnings
from profilegen.dividing.would_do import HOLES, KEYS, Wanted, holes_for, words_for
from profilegen.errors import Finding, Remedy, Severity
from profilegen.units import both_units

if TYPE_CHECKING:
    from profilegen.dividing.index_plan import IndexPlan
    from profilegen.dividing.way import Way
    from profilegen.part.dividing.base import DividingTable
    from profilegen.part.part import Part


def index_findings(part: Part, plan: IndexPlan) -> tuple[Finding, ...]:
    """Everything to be said of a plan, in the part's unit; nothing of angles alone."""
    if part.dividing is None or plan.way is None:
        return ()
    return (*_inexact(part, part.dividing, plan), *_moves(plan.way))


def _inexact(part: Part, table: DividingTable, plan: IndexPlan) -> Iterator[Finding]:
    """The finding of stops that are not exact."""
    if plan.exact:
        return
    error = plan.mm(plan.spread.spacing)
    severity: Severity = "caution" if plan.fits or plan.allowed else "refused"
    off, may = (
        both_units(mm, first=part.units, decimal=part.decimal) for mm in (error, plan.may_lose)
    )
    only = "" if plan.fits else "only "
    text = (
        f"the stops are not exact: the way from one to the next is up to {off} off round the "
        f"outside, and a land with it, where it may be {only}{may} off"
    )
    advice, where, remedy = _would_do(table, plan)
    text += f"; {advice}" if advice else ""
    if severity == "refused":
        text += "; profilegen stops --allow-error lists them all the same"
    yield Finding("index-inexact", severity, text, where, error, plan.may_lose, remedy)


def _would_do(table: DividingTable, plan: IndexPlan) -> tuple[str, str, Remedy | None]:
    """What to do, the key to change, and the value to write where one is known."""
    best = plan.ways[0]
    if plan.way is not best and (best.exact or plan.mm(best.spacing) <= plan.may_lose):
        does = "is exact" if best.exact else "keeps every land within its limits"
        how = f"way 1 ({best.method}) {does}"
        key = "dividing.way"
        if plan.number != table.way or plan.part_teeth:
            return f"{how}: say --way 1", key, None
        return f"{how}: make {key} 1, or say --way 1", key, Remedy(key, 1)
    less = 0.0 if plan.fits else plan.may_lose
    wanted = Wanted(plan.teeth, plan.starts, plan.radius, less)
    remedy = None if plan.part_teeth else _remedy(table, wanted)
    return words_for(table, wanted), KEYS[table.kind], remedy


def _remedy(table: DividingTable, wanted: Wanted) -> Remedy | None:
    """The count of holes or notches to write; the number of a way is of the hardware as it is."""
    if table.kind not in HOLES or table.way is not None:
        return None
    found = holes_for(wanted)
    return Remedy(KEYS[table.kind], found[0]) if found else None


def _moves(way: Way) -> Iterator[Finding]:
    """How the moves of a compound or differential way are made without spoiling the wheel."""
    said = warnings(way)
    if said:
        how = " ".join(said).removesuffix(".")
        code = "index-compound" if way.method == "compound" else "index-differential"
        yield Finding(code, "caution", f"{way.method} dividing. {how}", "dividing.way")


def too_coarse(table: DividingTable, wanted: Wanted) -> Finding:
    """The refusal of hardware with fewer positions than stops."""
    most = max(scale.count for scale in scales(table))
    text = (
        f"the hardware has only {most} positions in a turn, too few for {wanted.teeth} stops; "
        f"{words_for(table, wanted)}"
    )
    remedy = _remedy(table, wanted)
    return Finding(
        "index-too-coarse", "refused", text, KEYS[table.kind], wanted.teeth, most, remedy
    )
