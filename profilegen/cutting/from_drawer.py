"""A part without cutters that has a drawer: whose cutters it gets, and which is set up.

Owns that choice and what is said about it. Refuses to read files (`part.drawer`).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import TYPE_CHECKING

from profilegen.findings.finding import Finding
from profilegen.forms.wheel import Wheel

if TYPE_CHECKING:
    from profilegen.cutting.compare import Each, Match
    from profilegen.part.drawer import Drawer
    from profilegen.part.part import Part


def with_drawn_cutters(
    part: Part, wheel: Wheel, each: Each = map
) -> tuple[Part, tuple[Finding, ...]]:
    """The part with the cutters of the drawer that it names or that lies beside it, when it has
    none of its own.

    The drawer is read now, unless the part has its cutters already (`cutters_from`). The best of
    them is set up, and that is told, when the part asks for none; `each` tries them all, as `map`
    does.

    Raises:
        InputError: the drawer cannot be read, or lacks the cutter that is asked for.
    """
    if not wheel.is_toothed:
        return part, ()
    if not part.cutters:
        from profilegen.part.drawer import has_drawer, with_drawer

        part = with_drawer(part)[0] if has_drawer(part) else part
    if not part.cutters_from or part.setup.cutter is not None:
        return part, ()
    from profilegen.cutting.compare import compared_cutters

    best = compared_cutters(wheel, part.cutters, part.setup, each)[0].cutter
    facts = {"cutter": best, "drawer": part.cutters_from}
    return _set_up(part, best), (Finding("cutter-chosen", "note", "setup.cutter", facts=facts),)


def with_one_set_up(part: Part, drawer: Drawer, matches: Sequence[Match]) -> Part:
    """The part with the cutters of a drawer; set up is the one that it names, else the first of its
    own, else the best of the drawer.

    Args:
        part: as it is read.
        drawer: whose cutters it gets.
        matches: of all of them, best first.
    """
    names = [cutter.name for cutter in drawer.cutters]
    usual = names[0] if drawer.path is None else matches[0].cutter
    chosen = part.setup.cutter if part.setup.cutter in names else usual
    return _set_up(replace(part, cutters=drawer.cutters), chosen)


def _set_up(part: Part, cutter: str) -> Part:
    """The part with one of its cutters set up, by name."""
    return replace(part, setup=part.setup.model_copy(update={"cutter": cutter}))
