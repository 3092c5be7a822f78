"""`template --of cutter`: which cutter, and the file that its template becomes.

Owns the choice by `--cutter`, `[setup] cutter`, or the first of the drawer in use, which is said.
"""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from profilegen.cli.producing import Paper, picture
from profilegen.cli.saying import talk
from profilegen.cli.standard_input import plain_name
from profilegen.cli.writing import Outgoing
from profilegen.errors import InputError, Problem

if TYPE_CHECKING:
    from profilegen.drawing.marks import Sheet
    from profilegen.part.base import CutterTable
    from profilegen.part.drawer import Drawer
    from profilegen.part.part import Part


@dataclass(frozen=True, slots=True)
class CutterTemplate:
    """The sheet of one cutter."""

    cutter: str
    sheet: Sheet

    def outgoing(self, ending: str, base: Path) -> Outgoing:
        """The sheet as `svg` or `pdf` at `base` (folder and stem), the cutter's name behind."""
        data = picture([self.sheet], f".{ending}")
        of = plain_name(self.cutter) or "template"
        name = f"{base.name}-cutter-{of}.{ending}"
        return Outgoing(base.parent / name, data, "print", f"template of {self.cutter}")


def cutter_template_of(
    part: Part, name: str | None, drawer: str | None, scale: float | None, paper: Paper | None
) -> CutterTemplate:
    """Draw one cutter, the usual way round.

    Args:
        part: its cutters, or those of its drawer, are looked through.
        name: of the cutter; None for the one that is set up, or else the first.
        drawer: a file that goes before the part's cutters; or None.
        scale: mm on the sheet for each mm of the cutter; None for what the sheet has room for.
        paper: None for A4 with mm parts, Letter with inch parts.

    Raises:
        InputError: the drawer cannot be read, or has no such cutter.
        CannotMakeError: the wheel of a form cutter cannot be made.
    """
    from profilegen.cutting.tools import tools_for
    from profilegen.findings.cannot_make import told_in
    from profilegen.part.drawer import choose_drawer
    from profilegen.sheets.cutter_template import cutter_template

    chosen = choose_drawer(part, drawer)
    cutter = _cutter(chosen, part, name)
    talk(f"cutter: {cutter.name}, from {chosen.name}")
    where = f"cutter[{chosen.cutters.index(cutter) + 1}]"
    with told_in(part.figures):
        tool = tools_for(cutter, where)[0]
    sheet = cutter_template(tool, part.figures, scale, paper)
    return CutterTemplate(cutter.name, sheet)


def _cutter(drawer: Drawer, part: Part, name: str | None) -> CutterTable:
    """The cutter of this name, or else the one that is set up, or else the first."""
    names = [cutter.name for cutter in drawer.cutters]
    if name is None:
        set_up = part.setup.cutter
        return drawer.cutters[names.index(set_up) if set_up in names else 0]
    if name in names:
        return drawer.cutters[names.index(name)]
    from difflib import get_close_matches

    close = get_close_matches(name, names, n=1, cutoff=0.5)
    hint = f'did you mean "{close[0]}"?' if close else ""
    known = ", ".join(f'"{known}"' for known in names)
    raise InputError(
        Problem("--cutter", f"{drawer.name} has no cutter of this name", name[:60], known, hint)
    )
