"""A cutter that cannot reach: its spindle or holder in the work, or the tool in jaws or chuck.

Owns the findings. The lengths they are held against are made in `bar`, the holder taken as if it
lay across the whole work: plane geometry, derived here; a test moves the tool as points in space.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from profilegen.cutting.poses import Cut
from profilegen.findings.finding import Finding, Make, Severity, bounded, mm
from profilegen.geometry.tolerance import SAME_POINT
from profilegen.setting.bar import CLEAR, Bar

if TYPE_CHECKING:
    from profilegen.part.base import CutterTable
    from profilegen.part.part import Part


def clash_findings(
    part: Part, cutter: CutterTable | None, cuts: tuple[Cut, ...], bar: Bar
) -> Iterator[Finding]:
    """What the tool runs into on its way; nothing where its sweep is not given.

    Args:
        part: for the hub, the jaws and the work that the holder passes over.
        cutter: that is set up, or None.
        cuts: of the blank at hand.
        bar: lengths along the wheel axis, mm.
    """
    if cutter is None or bar.sweep is None:
        return
    yield from _holder_findings(part, cutter, bar)
    if part.hub is not None and bar.behind is not None and bar.stick_out is None:
        yield from _jaw_findings(part, part.hub.length, bar.behind, cuts)


def _holder_findings(part: Part, cutter: CutterTable, bar: Bar) -> Iterator[Finding]:
    """The holder, or the bare axis of the spindle, reaches the work before the cutter is at
    depth."""
    has = ((bar.sweep or 0.0) - (cutter.holder_diameter or 0.0)) / 2
    needs = bar.reach - CLEAR
    if has >= needs - SAME_POINT:
        return
    where = f"cutter[{part.cutters.index(cutter) + 1}].sweep_diameter"
    sweep = bar.sweep or 0.0
    least = sweep + 2 * (needs - has)
    make, facts = Make(where, "at least", mm(least, "at least")), {"inside": mm(needs - has)}
    case = "holder" if cutter.holder_diameter else "spindle"
    yield bounded("holder-touches", "refused", make, sweep, least, facts, (cutter.name,), case)


def _jaw_findings(
    part: Part, hub: float, needed: float, cuts: tuple[Cut, ...]
) -> Iterator[Finding]:
    """A wheel gripped by its hub: the tool runs out over the jaws, and nothing is left to grip."""
    root = 2 * min(cut.root_radius for cut in cuts)
    make = Make("setup.jaw_diameter", "at most", mm(root, "at most"))
    severity: Severity = "refused" if part.setup.jaw_diameter is not None else "caution"
    yield Finding(
        "jaws-in-the-way",
        severity,
        make.key,
        hub,
        needed,
        make.remedy if part.setup.chuck_diameter is None else None,
        {"needed": mm(needed), "hub": mm(hub)},
        advice=make,
    )
