"""What a careful machinist objects to in a gear that a range cutter makes.

Limits are common practice, no published source.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from profilegen.findings.finding import Fact, Finding, Make, bounded, mm
from profilegen.forms.involute.care import of_cutter, thin_tip

if TYPE_CHECKING:
    from profilegen.forms.form_cut_gear.keys import FormCutGear
    from profilegen.forms.form_cut_gear.tooth import FormCut


def cautions_of(keys: FormCutGear, cut: FormCut) -> Iterator[Finding]:
    """Everything to be said of such a gear that can be made."""
    yield from _proud(keys, cut)
    yield from _hollow(cut)
    yield from _shift(keys, cut)
    yield from thin_tip(cut.gear, max(cut.gear.pitch, cut.form()), cut.tip_width)
    yield from of_cutter(keys.teeth)


def _proud(keys: FormCutGear, cut: FormCut) -> Iterator[Finding]:
    """A cutter for more teeth leaves metal outside the true flank."""
    if keys.cutter_teeth <= keys.teeth:
        return
    most = max(-cut.departure(cut.gear.outside), 0.0)
    make = Make("wheel.made_for", "at most", keys.teeth)
    facts: dict[str, Fact] = {"made_for": keys.cutter_teeth, "proud": mm(most)}
    yield bounded("flank-proud", "caution", make, keys.cutter_teeth, keys.teeth, facts)


def _hollow(cut: FormCut) -> Iterator[Finding]:
    """The cutter's own gear is undercut, and the hollow is wider than its mouth."""
    if cut.is_hollow():
        made, form = cut.maker.teeth, mm(2 * cut.form())
        facts: dict[str, Fact] = {"made_for": made, "true_from": form}
        yield Finding("cutter-hollow", "note", "wheel.made_for", made, facts=facts)


def _shift(keys: FormCutGear, cut: FormCut) -> Iterator[Finding]:
    """A standard cutter knows no shift: it is only set less deep, or deeper."""
    shift = keys.profile_shift
    if shift:
        case = "" if shift > 0 else "in"
        facts = {"by": mm(abs(shift) * keys.size), "off": mm(cut.departure(cut.gear.outside))}
        where = "wheel.profile_shift"
        yield Finding("shift-by-depth", "note", where, shift, 0.0, facts=facts, case=case)
