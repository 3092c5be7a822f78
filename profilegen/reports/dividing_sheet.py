"""The index plan on one page: the way, what it costs to slip, every stop with a box to tick.

Owns the page. The list of stops is made smaller until it fits; where even the smallest lettering
does not, the page says where the rest is.
"""

from __future__ import annotations

from profilegen import __version__
from profilegen.cutting.dividing.index_plan import IndexPlan
from profilegen.drawing.boxes import Box
from profilegen.drawing.frame import PAPERS, Titles, frame
from profilegen.drawing.marks import SMALL, Block, Sheet, together
from profilegen.drawing.tables import bullets, heading
from profilegen.part.part import Part
from profilegen.reports import stop_grid
from profilegen.reports.dividing import facts, tick_labels, way_lines

SIZES = (SMALL, 2.2, 2.0, 1.8)
MOST_WAYS = 8


def dividing_sheet(part: Part, plan: IndexPlan, paper: str | None = None) -> Sheet:
    """The plan on one page."""
    page = PAPERS[paper or ("Letter" if part.units == "in" else "A4")]
    framed = frame(page, _titles(part))
    room, blocks, top = framed.room, [framed.block], framed.room.y1
    ways = way_lines(plan)
    more = (f"{len(plan.ways) - MOST_WAYS} more: profilegen stops lists them",)
    shown = ways if len(ways) <= MOST_WAYS else ways[:MOST_WAYS] + more
    for name, items in (("Before you cut", facts(plan)), ("Ways", shown)):
        head = heading(complex(room.x0, top), name, room.width)
        top -= head.height + 1.0
        body = bullets(complex(room.x0, top), items, room.width, size=2.2)
        top -= body.height + 3.0
        blocks += [head.block, body.block]
    head = heading(complex(room.x0, top), "Stops", room.width)
    rest = Box(room.x0, room.y0, room.x1, top - head.height - 1.0)
    blocks += [head.block, _stops(tick_labels(plan), rest)]
    whole = together(blocks)
    return Sheet(page.width, page.height, whole.marks, whole.boxes, f"{part.title}: stops")


def _stops(labels: tuple[str, ...], room: Box) -> Block:
    """The grid in the greatest lettering that fits, or as much of it as the smallest holds."""
    corner = complex(room.x0, room.y1)
    for size in SIZES:
        if stop_grid.height(labels, size, room.width) <= room.height:
            return stop_grid.grid(labels, size, corner, room.width)
    count = len(labels)
    while count > 1:
        count = count * 9 // 10
        shown = (*labels[:count], f"the other {len(labels) - count}: profilegen stops --csv")
        if stop_grid.height(shown, SIZES[-1], room.width) <= room.height:
            break
    return stop_grid.grid(shown, SIZES[-1], corner, room.width)


def _titles(part: Part) -> Titles:
    return Titles(
        title=part.title,
        number=part.number,
        kind="index plan",
        material=part.material,
        scale="-",
        units="mm, degrees" if part.units == "mm" else "inch, degrees",
        sheet="1 / 1",
        drawn_by=f"profilegen {__version__}",
    )
