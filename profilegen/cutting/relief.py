"""What can be told of a spun tool's relief: whether its heel clears, and what would do.

The least relief, the greatest thickness and the least circle at which the ground body of `heel`
clears, and how far included angle and tip move when the edge stands off the spindle's radius line.
Lengths in mm, angles in radians.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field, replace
from operator import itemgetter
from typing import TYPE_CHECKING, Final

from profilegen.cutting.ground import Edge, Ground, edge_of, ridge_of
from profilegen.cutting.heel import Place, least_radius
from profilegen.cutting.poses import Cut
from profilegen.cutting.wedge import Wedge
from profilegen.figures import ANGLE
from profilegen.findings.finding import Fact, Finding, Make, Phrase, bounded, mm, rad
from profilegen.forms.wheel import Wheel

if TYPE_CHECKING:
    from profilegen.part.base import CutterTable
    from profilegen.part.part import Part

WORKING: Final = math.radians(3)
"""rad: working clearance over the limit, 2 to 3 degrees; common practice, no published source."""

THINNEST: Final = 0.2
"""mm: no bit or insert is thinner below its edge."""

GREATEST: Final = math.radians(45)
"""rad: relief angles beyond it leave no edge."""

NOISE: Final = 1e-7
"""of a size: what the narrowed grid leaves open."""

STANDING_TOOL: Final = (
    "Turning bits and inserts are made to stand still: ask the holder's maker for the greatest "
    "speed, and whether it may be spun at all; its screw is not made for the pull of the spin.",
    "Balance it, or keep the speed low enough that the machine runs quietly.",
    "Close the guard, and stand out of the plane in which the tool turns.",
    "Turn the spindle by hand through a whole turn first, at full depth and over the whole feed.",
)
"""Cautions for a tool that was made to stand still; they defer to its maker and the machine's
manual."""


@dataclass(frozen=True, slots=True)
class Relief:
    """Whether a tool clears, and by how much; None where the cutter says too little.

    Attributes:
        clears: whether the heel clears, with no margin.
        least_relief_angle: at this sweep and thickness, rad.
        greatest_thickness: at this sweep and relief, mm.
        least_sweep_diameter: of the tip, at this relief and thickness, mm.
        place: where it would rub first.
        margin: relief angle over the least, rad.
        off: how far off the radius line, ahead positive, the next three are told for, mm: as the
            cutter stands, or 0.1 when it stands on the line.
        tip_rise: how much farther out the tip runs than one on the line at the same stick-out, mm.
        angle_change: of the included angle at the tip for it, rad; None for curved edges.
        relief_change: of the working relief at the tip for it, rad; ahead gains it.
        ground: the way of grinding that all of it holds for.
    """

    clears: bool | None = None
    least_relief_angle: float | None = field(default=None, metadata=ANGLE)
    greatest_thickness: float | None = None
    least_sweep_diameter: float | None = None
    place: Place | None = None
    margin: float | None = field(default=None, metadata=ANGLE)
    off: float | None = None
    tip_rise: float | None = None
    angle_change: float | None = field(default=None, metadata=ANGLE)
    relief_change: float | None = field(default=None, metadata=ANGLE)
    ground: Ground | None = None


def relief_for(
    edges: tuple[Edge, ...],
    relief: float | None,
    thickness: float | None,
    sweep_diameter: float | None,
    off: float = 0.0,
) -> Relief:
    """What can be said of a tool from those of its three sizes that are known.

    Args:
        edges: as far as they are in the metal, one a lap; none says nothing.
        relief: square to the edges, rad, or None.
        thickness: of the tool behind the edge, mm, or None.
        sweep_diameter: of the circle that the tip runs on, mm, or None.
        off: the edge's distance ahead of the spindle's radius line, mm; negative behind it.
    """
    if not edges:
        return Relief()
    sweep = None if sweep_diameter is None else sweep_diameter / 2

    def need(angle: float, depth: float) -> tuple[float, Place]:
        return max((least_radius(edge, angle, depth, off) for edge in edges), key=itemgetter(0))

    least = place = angle = thick = None
    if relief is not None and thickness is not None:
        least, place = need(relief, thickness)
    if sweep is not None and thickness is not None:
        angle = _passing(lambda a: sweep / need(a, thickness)[0] - 1.0, 0.0, GREATEST)
    if sweep is not None and relief is not None:
        ends = 2 * sweep + abs(off), NOISE * sweep
        thick = _passing(lambda t: sweep - need(relief, t)[0], *ends) if relief else 0.0
    return Relief(
        None if least is None or sweep is None else least <= sweep * (1 + NOISE),
        angle,
        thick,
        None if least is None or math.isinf(least) else 2 * least,
        place,
        None if angle is None or relief is None else relief - angle,
        *_off_line(edges[0], sweep, off or OFF),
    )


def _passing(spare: Callable[[float], float], fails: float, passes: float) -> float | None:
    """The value at which `spare` turns from negative to positive, on the side that passes; None
    when it is negative at `passes`.

    False position, halved where it lingers on one side (the Illinois rule).
    """
    high, low = spare(passes), spare(fails)
    if high < 0.0:
        return None
    side = 0
    for _ in range(80):
        if low >= 0.0 or abs(passes - fails) <= NOISE * abs(passes):
            break
        middle = (fails * high - passes * low) / (high - low)
        value = spare(middle)
        if value >= 0.0:
            passes, high, low = middle, value, low / 2 if side > 0 else low
            side = 1
        else:
            fails, low, high = middle, value, high / 2 if side < 0 else high
            side = -1
        if value == 0.0:
            break
    return passes


OFF: Final = 0.1
"""mm off the radius line for which the changes are told when the edge stands on it."""


def _off_line(
    edge: Edge, sweep: float | None, off: float
) -> tuple[float | None, float | None, float | None, float | None]:
    """`off`, rise of the tip, change of the included angle and of the relief.

    Args:
        edge: its wedge is what is asked.
        sweep: radius of the circle that the tip runs on, mm.
        off: of the edge from the radius line, mm, less than `sweep`.
    """
    if sweep is None or sweep <= abs(off):
        return None, None, None, None
    wedge = edge.wedge
    change = None if wedge is None else swept_angle(wedge, sweep, off) - wedge.angle
    return off, tip_rise(sweep, off), change, math.asin(off / sweep)


def down_the_nose(edge: Edge, relief: float) -> float | None:
    """Relief as it reads straight down the tip, from the cutting direction, rad: the same on a
    nose or flat that is ground evenly, more down the ridge in which two flanks meet,
    `atan(tan(relief) / sin(A / 2))` for equal ones.

    Args:
        edge: of a wedge; None comes back for one that is none.
        relief: square to the edges, rad.
    """
    if edge.wedge is None:
        return None
    if edge.ridge is None and (edge.wedge.nose or edge.wedge.flat):
        return relief
    return math.atan(math.tan(relief) * ridge_of(edge.wedge).imag)


def tip_rise(sweep: float, off: float) -> float:
    """How much farther out the tip runs than one on the radius line at the same stick-out, mm:
    `sweep - sqrt(sweep^2 - off^2)`.

    Args:
        sweep: radius of the tip's circle, mm, more than `off`.
        off: of the edge from the radius line, mm; ahead and behind are alike.
    """
    return sweep - math.sqrt(sweep * sweep - off * off)


def swept_angle(wedge: Wedge, sweep: float, off: float) -> float:
    """Included angle that an edge off the radius line sweeps, rad.

    The flanks come out curved: this is the angle at the tip.

    Args:
        wedge: its angles as they are on the edge.
        sweep: radius of the tip's circle, mm, more than `off`.
        off: of the edge from the radius line, mm; ahead and behind are alike.
    """
    shrink = math.sqrt(sweep * sweep - off * off) / sweep
    sides = (math.tan(wedge.face_side), math.tan(wedge.back_side))
    return sum(math.atan(side / shrink) for side in sides)


def swept_error(wedge: Wedge, sweep: float, off: float, depth: float) -> float:
    """Greatest distance of the swept flanks from the edge's own, mm.

    Args:
        wedge: its angles as they are on the edge.
        sweep: radius of the tip's circle, mm.
        off: of the edge from the radius line, mm.
        depth: how far up from the tip the flanks count, mm.
    """
    tall = math.sqrt(sweep * sweep - off * off)
    sinks = sweep - math.hypot(tall - depth, off)
    return (depth - sinks) * math.sin(max(wedge.face_side, wedge.back_side))


def relief_of(part: Part, wheel: Wheel, cuts: tuple[Cut, ...]) -> Relief:
    """The relief of the cutter that is set up, as its edge stands, mm and rad; all None without
    cuts.

    Args:
        part: for the cutter's relief angle, thickness, sweep, and how it is ground.
        wheel: for the blank, mm.
        cuts: of that cutter, at full depth.
    """
    found = _table(part, cuts)
    if found is None:
        return Relief()
    cutter = found[1]
    sizes = (cutter.relief_angle, cutter.edge_thickness, cutter.sweep_diameter)
    ground = cutter.relief_ground
    told = relief_for(edges_of(wheel, cuts, ground), *sizes, cutter.edge_ahead)
    return told if told == Relief() else replace(told, ground=ground)


def edges_of(wheel: Wheel, cuts: tuple[Cut, ...], ground: Ground) -> tuple[Edge, ...]:
    """The edges of all laps that reach into the blank.

    Args:
        wheel: on the blank that is cut, mm.
        cuts: at full depth.
        ground: `round` square to the whole edge, `flanks` each flank by itself.
    """
    edges = (edge_of(wheel, cut, ground) for cut in cuts)
    return tuple(edge for edge in edges if edge is not None)


def _table(part: Part, cuts: tuple[Cut, ...]) -> tuple[int, CutterTable] | None:
    """Number from 1 and table of the cutter that is set up."""
    name = cuts[0].tool.name if cuts else None
    numbered = enumerate(part.cutters, 1)
    return next(((number, one) for number, one in numbered if one.name == name), None)


def relief_findings(part: Part, relief: Relief, cuts: tuple[Cut, ...]) -> tuple[Finding, ...]:
    """Heels that rub or clear by less than a working clearance, and edges that stand so far off
    the spindle's radius line that the flanks come out of another shape."""
    found = _table(part, cuts)
    if found is None:
        return ()
    number, cutter = found
    key, accept = f"cutter[{number}]", part.setup.accept
    return (*_heel(cutter, key, relief), *_off_the_line(cutter, key, cuts, accept))


def _heel(cutter: CutterTable, key: str, relief: Relief) -> Iterator[Finding]:
    angle, least = cutter.relief_angle, relief.least_relief_angle
    if relief.clears is False:
        yield _rubs(cutter, key, relief)
    if not relief.clears or angle is None or least is None or _is_bound(least):
        return
    if angle < least + math.radians(2):
        passing, about = least + WORKING, (cutter.name,)
        make = Make(f"{key}.relief_angle", "at least", rad(passing, "at least"))
        yield bounded("relief-tight", "note", make, angle, passing, about=about)


def _off_the_line(
    cutter: CutterTable, key: str, cuts: tuple[Cut, ...], accept: float
) -> Iterator[Finding]:
    off, sweep = cutter.edge_ahead, cutter.sweep_diameter
    if not off or sweep is None:
        return
    wedges = [(cut.tool, cut.infeed_from_top) for cut in cuts if isinstance(cut.tool, Wedge)]
    worst = max((swept_error(one, sweep / 2, off, depth) for one, depth in wedges), default=0.0)
    if worst > accept:
        make = Make(f"{key}.edge_ahead", "", 0)
        yield Finding(
            "edge-off-line",
            "caution",
            make.key,
            worst,
            accept,
            facts={"off": mm(abs(off)), "worst": mm(worst)},
            case="ahead" if off > 0 else "behind",
            advice=Phrase("on-the-line", {"make": make}),
            about=(cutter.name,),
        )


def _is_bound(least: float) -> bool:
    """Whether the working clearance would ask for more relief than an edge can have."""
    return least + WORKING >= GREATEST


def _rubs(cutter: CutterTable, key: str, relief: Relief) -> Finding:
    facts: dict[str, Fact] = {"place": relief.place or ""}
    sweep, least = cutter.sweep_diameter or 0.0, relief.least_sweep_diameter
    if least is not None and least < 8 * sweep:
        make = Make(f"{key}.sweep_diameter", "at least", mm(least, "at least"))
        found = bounded("heel-rubs", "caution", make, sweep, least, facts, (cutter.name,))
        return replace(found, advice=(make, *_other_ways(key, relief)))
    angle = relief.least_relief_angle
    if angle is not None and not _is_bound(angle):
        has = cutter.relief_angle or 0.0
        make = Make(f"{key}.relief_angle", "at least", rad(angle, "at least"))
        return bounded("heel-rubs", "caution", make, has, angle, facts, (cutter.name,))
    where = f"{key}.edge_thickness"
    return Finding(
        "heel-rubs",
        "caution",
        where,
        cutter.edge_thickness or 0.0,
        facts=facts,
        advice=Phrase("less-or-another", {"key": where}),
        about=(cutter.name,),
    )


def _other_ways(key: str, relief: Relief) -> Iterator[Phrase]:
    angle, thick = relief.least_relief_angle, relief.greatest_thickness
    if angle is not None and not _is_bound(angle):
        more = rad(angle, "at least")
        yield Phrase("or-write", {"key": f"{key}.relief_angle", "value": more})
    if thick is not None and thick > THINNEST:
        less = mm(thick, "at most")
        yield Phrase("or-write", {"key": f"{key}.edge_thickness", "value": less})


def standing_tool_cautions(cutter: CutterTable) -> tuple[str, ...]:
    """Cautions for the sheet when the cutter is a spun bit or insert: one edge, or a thickness."""
    spun = cutter.teeth == 1 or cutter.edge_thickness is not None
    return STANDING_TOOL if spun else ()
