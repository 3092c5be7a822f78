"""A cutter that cannot reach: its spindle or holder in the work, or the tool in jaws or chuck.

Owns the findings. The lengths they are held against are made in `bar`, the holder taken as if it
lay across the whole work: plane geometry, derived here; a test moves the tool as points in space.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from profilegen.cutting.poses import Cut
from profilegen.errors import Finding, Remedy, Severity
from profilegen.forms.say import Say
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
    least, say = (bar.sweep or 0.0) + 2 * (needs - has), Say(part)
    what = "its holder" if cutter.holder_diameter else "the axis of its spindle"
    text = f"{cutter.name}: {what} stands {say.length(needs - has)} inside the work at full depth"
    yield say.sized("holder-touches", "refused", text, where, bar.sweep or 0.0, least)


def _jaw_findings(
    part: Part, hub: float, needed: float, cuts: tuple[Cut, ...]
) -> Iterator[Finding]:
    """A wheel gripped by its hub: the tool runs out over the jaws, and nothing is left to grip."""
    say, known = Say(part), part.setup.jaw_diameter is not None
    root = 2 * min(cut.root_radius for cut in cuts)
    text = (
        f"gripped by its hub, the wheel must stand {say.length(needed)} clear of jaws and chuck "
        f"that the tool runs out over, and the hub is {say.length(hub)} long: put it on an arbor "
        "and write blank.bar_diameter, or grip it below the roots: make setup.jaw_diameter at most "
        f"{say.bound(root, 'at most')}"
    )
    alone = part.setup.chuck_diameter is None
    remedy = Remedy("setup.jaw_diameter", say.typed(root, "at most")) if alone else None
    severity: Severity = "refused" if known else "caution"
    yield Finding("jaws-in-the-way", severity, text, "setup.jaw_diameter", hub, needed, remedy)
