"""What is to be said of a plan on its hardware: whether its stops do, and how its moves are made.

One rule for every command: stops whose spacing is off by more than a land may be are refused;
within it they are taken, with a caution. Only `profilegen stops --allow-error` lists the others.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from profilegen.dividing.hardware import scales
from profilegen.dividing.readings import warnings
from profilegen.dividing.would_do import HOLES, KEYS, Wanted, holes_for, would_do
from profilegen.findings.finding import Fact, Finding, Make, Phrase, Remedy, Severity, mm

if TYPE_CHECKING:
    from profilegen.dividing.index_plan import IndexPlan
    from profilegen.dividing.way import Way
    from profilegen.part.dividing_tables import DividingTable
    from profilegen.part.part import Part


def index_findings(part: Part, plan: IndexPlan) -> tuple[Finding, ...]:
    """Everything to be said of a plan; nothing of angles alone."""
    if part.dividing is None or plan.way is None:
        return ()
    return (*_inexact(part.dividing, plan), *_moves(plan.way))


def _inexact(table: DividingTable, plan: IndexPlan) -> Iterator[Finding]:
    """The finding of stops that are not exact."""
    if plan.exact:
        return
    error = plan.mm(plan.spread.spacing)
    severity: Severity = "caution" if plan.fits or plan.allowed else "refused"
    advice, where, remedy = _would_do(table, plan)
    allow = Phrase("allow-error") if severity == "refused" else None
    yield Finding(
        "index-inexact",
        severity,
        where,
        error,
        plan.may_lose,
        remedy,
        {
            "error": mm(error),
            "between": plan.between,
            "may": mm(plan.may_lose),
            "more": _more(advice, allow),
        },
        case="fits" if plan.fits else "",
    )


def _more(*said: Phrase | None) -> Fact:
    """What is told behind the sentence, each thing behind a semicolon."""
    more: Fact = ""
    for one in reversed(said):
        if one is not None:
            more = Phrase("more", {"first": one, "rest": more})
    return more


def _would_do(table: DividingTable, plan: IndexPlan) -> tuple[Phrase | None, str, Remedy | None]:
    """What to do, the key to change, and the value to write where one is known."""
    best = plan.ways[0]
    if plan.way is not best and (best.exact or plan.mm(best.spacing) <= plan.may_lose):
        how = Phrase("way-exact", {"method": best.method})
        if not best.exact:
            how = Phrase("way-within", {"method": best.method, "between": plan.between})
        make = Make("dividing.way", "", 1)
        if plan.number != table.way or plan.part_teeth:
            return Phrase("say-way", {"how": how}), make.key, None
        return Phrase("make-way", {"how": how, "make": make}), make.key, make.remedy
    less = 0.0 if plan.fits else plan.may_lose
    wanted = Wanted(plan.teeth, plan.starts, plan.radius, less, plan.between)
    remedy = None if plan.part_teeth else _remedy(table, wanted)
    return would_do(table, wanted), KEYS[table.kind], remedy


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
        yield Finding(code, "caution", "dividing.way", facts={"how": how})


def too_coarse(table: DividingTable, wanted: Wanted) -> Finding:
    """The refusal of hardware with fewer positions than stops."""
    most = max(scale.count for scale in scales(table))
    return Finding(
        "index-too-coarse",
        "refused",
        KEYS[table.kind],
        wanted.teeth,
        most,
        _remedy(table, wanted),
        {"most": most, "teeth": wanted.teeth, "would_do": would_do(table, wanted) or ""},
    )
