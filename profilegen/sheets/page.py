"""The page that a part's sheet stands on, and what its title block says.

Owns the paper that suits a part and the title block's words. Refuses what stands on the page.
"""

from __future__ import annotations

from profilegen import __version__
from profilegen.drawing.frame import PAPERS, Paper, Titles
from profilegen.part.part import Part


def page_of(part: Part, paper: str | None = None) -> Paper:
    """The named paper, or else A4 for a mm part and Letter for an inch part, upright."""
    return PAPERS[paper or ("Letter" if part.units == "in" else "A4")]


def titles_of(part: Part, kind: str, sheet: str, scale: str) -> Titles:
    """The title block of one sheet.

    Args:
        part: whose title, number, material and unit it says.
        kind: of document, such as `record sheet`.
        sheet: number of this sheet and of all, such as `1 / 2`.
        scale: of the main view, or words for none.
    """
    return Titles(
        title=part.title,
        number=part.number,
        kind=kind,
        material=part.material,
        scale=scale,
        units="mm, degrees" if part.units == "mm" else "inch, degrees",
        sheet=sheet,
        drawn_by=f"profilegen {__version__}",
    )
