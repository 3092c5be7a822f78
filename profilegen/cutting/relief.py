"""Will the heel of a relieved tool rub when it is spun.

Owns the least swept radius, least relief angle and greatest thickness at which the body behind the
edge stays inside the surface that the edge sweeps: at the nose and on both flanks, for an edge on
the spindle's radius line or `off` it; and how far included angle and tip move when it is off.

The body is the edge's outline drawn in by `t tan(relief)` at the depth `t` behind the edge, down to
the tool's thickness. At a place whose edge stands `Y` (mm, along the infeed) from the spindle's
axis, drawn in by `b` along the infeed, it clears while `t^2 - 2 off t + b^2 <= 2 Y b`. `off` is
positive when the edge runs ahead of the radius line. Derived here, no published source; a test
sweeps the body point by point. Zero-margin limits: working clearance comes on top.
"""

from __future__ import annotations

import cmath
import math
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any, Final, Literal

from profilegen.cutting.gap import exits
from profilegen.cutting.poses import Cut
from profilegen.cutting.profile import Profile
from profilegen.cutting.wedge import Wedge
from profilegen.errors import Finding
from profilegen.geometry.arcs import end_tangents, middles, start_tangents
from profilegen.wheels.say import Say
from profilegen.wheels.wheel import Wheel

if TYPE_CHECKING:
    from profilegen.part.base import CutterTable
    from profilegen.part.part import Part

WORKING: Final = math.radians(3)
"""rad: working clearance over the limit, 2 to 3 degrees; common practice, no published source."""

THINNEST: Final = 0.2
"""mm: no bit or insert is thinner below its edge."""

GREATEST: Final = math.radians(45)
"""rad: relief angles beyond it leave no edge."""

Place = Literal["nose", "face flank", "back flank", "edge"]

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
        tip_rise: how much farther out the tip runs for it, mm.
        angle_change: of the included angle at the tip for it, rad; None for curved edges.
        relief_change: of the working relief at the tip for it, rad; ahead gains it.
    """

    clears: bool | None = None
    least_relief_angle: float | None = None
    greatest_thickness: float | None = None
    least_sweep_diameter: float | None = None
    place: Place | None = None
    margin: float | None = None
    off: float | None = None
    tip_rise: float | None = None
    angle_change: float | None = None
    relief_change: float | None = None


@dataclass(frozen=True, slots=True)
class Edge:
    """A cutting edge as far as it is in the metal.

    Attributes:
        wedge: the cutter, or None for any other silhouette.
        flanks: (name, height above the tip of its last place in the metal (mm), angle from the
            infeed (rad)).
    """

    wedge: Wedge | None
    flanks: tuple[tuple[Place, float, float], ...]


def edge_of(wheel: Wheel, cut: Cut) -> Edge:
    """The edge of one cut at full depth, up to where it leaves the blank."""
    pair = exits(wheel, cut)
    heights = [side.place.imag - cut.tip.imag for side in pair] if pair else [0.0, 0.0]
    tool = cut.tool
    if isinstance(tool, Wedge):
        return Edge(
            tool,
            (
                ("face flank", max(heights[0], 0.0), tool.face_side),
                ("back flank", max(heights[1], 0.0), tool.back_side),
            ),
        )
    return Edge(None, tuple(_tangents(tool, max(heights))))


def _tangents(tool: Profile, top: float) -> Iterator[tuple[Place, float, float]]:
    """Places of a drawn edge below `top` mm with the angle of its tangent from the infeed."""
    edge, low = tool.edge, tool.tip.imag
    starts, ends, bulges = edge.starts, edge.ends, edge.bulges
    for places, tangents in (
        (starts, start_tangents(starts, ends, bulges)),
        (middles(starts, ends, bulges), ends - starts),
        (ends, end_tangents(starts, ends, bulges)),
    ):
        for place, tangent in zip(places.tolist(), tangents.tolist(), strict=True):
            height = min(place.imag - low, top)
            yield "edge", height, math.asin(min(1.0, abs(tangent.real) / abs(tangent)))


def radial_relief(relief: float, flank: float) -> float:
    """Relief along the infeed of a flank at an angle from it, rad: `atan(tan(relief) / sin a)`."""
    return math.atan2(math.tan(relief), math.sin(flank))


def least_sweep(edge: Edge, relief: float, thickness: float, off: float = 0.0) -> float:
    """Least radius of the tip's circle at which the heel clears, mm.

    Args:
        edge: as far as it is in the metal.
        relief: rad, square to the edge; 0 never clears.
        thickness: of the tool behind the edge, mm.
        off: the edge's distance ahead of the spindle's radius line, mm.
    """
    return max((at for _, at in _needs(edge, relief, thickness, off)), default=0.0)


def _needs(
    edge: Edge, relief: float, thickness: float, off: float
) -> Iterator[tuple[Place, float]]:
    """The least radius of the tip's circle that each place asks for, mm."""
    if math.tan(relief) <= 0.0:
        yield "nose", math.inf
        return
    if edge.wedge is not None:
        for height, t, b in _nose(edge.wedge, math.tan(relief), thickness):
            yield "nose", math.hypot(height + _reach_needed(t, b, off), off)
    for place, height, flank in edge.flanks:
        reach = height + _flank_reach(radial_relief(relief, flank), thickness, off)
        yield place, math.hypot(reach, off)


def _reach_needed(depth: float, drawn_in: float, off: float) -> float:
    """Least distance of an edge from the spindle's axis, along the infeed, mm."""
    return (depth * depth - 2 * off * depth + drawn_in * drawn_in) / (2 * drawn_in)


def _flank_reach(radial: float, thickness: float, off: float) -> float:
    """The same for a flank of radial relief `radial`: `T / sin(2 radial)` on the radius line.

    At 45 degrees and over the body has passed the axis before it could rub.
    """
    slope = math.tan(radial)
    whole = _reach_needed(thickness, thickness * slope, off)
    if slope < 1.0:
        return max(whole, -off / slope)
    if off >= 0.0:
        return 0.0
    ending = -2 * off * slope / (slope * slope - 1) if slope > 1.0 else math.inf
    return min(max(whole, -off / slope), max(ending, -off / slope))


def _nose(wedge: Wedge, rate: float, thickness: float) -> Iterator[tuple[float, float, float]]:
    """Places of the tip that may rub: height of the edge above the tip, depth behind it, and how
    far the body is drawn in along the infeed there, mm; `rate` is the tangent of the relief.

    Until the nose (or flat) has shrunk to nothing its lowest place counts, then the corner between
    the flanks; of a tip between unequal flanks the corner wanders sideways.
    """
    blunt = _shrinks_at(wedge) / rate
    if blunt > 0.0:
        depth = min(thickness, blunt)
        yield 0.0, depth, depth * rate
    if thickness <= blunt:
        return
    bisector = 1j * cmath.exp(0.5j * (wedge.back_side - wedge.face_side))
    steps = 1 if math.isclose(wedge.face_side, wedge.back_side) else 8
    for step in range(1, steps + 1):
        depth = blunt + (thickness - blunt) * step / steps
        corner = bisector * depth * rate / math.sin(wedge.angle / 2) - wedge.tip
        height = _edge_height(wedge, corner.real)
        yield height, depth, corner.imag - height


def _shrinks_at(wedge: Wedge) -> float:
    """How far the outline is drawn in when nose or flat has shrunk to nothing, mm."""
    if not wedge.flat:
        return wedge.nose
    shrink = (math.tan((math.pi / 2 - side) / 2) for side in (wedge.face_side, wedge.back_side))
    return wedge.flat / sum(shrink)


def _edge_height(wedge: Wedge, x: float) -> float:
    """Height of the edge above its tip, `x` mm to the face side of the tip."""
    on_face, on_back = (start - wedge.tip for start in wedge.edge_starts())
    if on_back.real <= x <= on_face.real:
        return wedge.nose - math.sqrt(max(wedge.nose**2 - x * x, 0.0)) if wedge.nose else 0.0
    start, side = (on_face, wedge.face_side) if x > 0 else (on_back, wedge.back_side)
    return start.imag + abs(x - start.real) / math.tan(side) if side else math.inf


def relief_for(
    edges: tuple[Edge, ...],
    relief: float | None,
    thickness: float | None,
    sweep_diameter: float | None,
    off: float = 0.0,
) -> Relief:
    """What can be said of a tool from those of its three sizes that are known (rad, mm)."""
    sweep = None if sweep_diameter is None else sweep_diameter / 2

    def need(angle: float, depth: float) -> float:
        return max(least_sweep(edge, angle, depth, off) for edge in edges)

    least = need(relief, thickness) if relief is not None and thickness is not None else None
    angle = thick = None
    if sweep is not None and thickness is not None:
        angle = _least(lambda a: need(a, thickness) <= sweep, GREATEST)
    if sweep is not None and relief is not None:
        over = _least(lambda t: need(relief, t) > sweep, 4 * sweep)
        thick = 0.0 if relief == 0.0 else over
    return Relief(
        None if least is None or sweep is None else least <= sweep * (1 + 1e-12),
        angle,
        thick,
        None if least is None or math.isinf(least) else 2 * least,
        None if relief is None or thickness is None else _first(edges, relief, thickness, off),
        None if angle is None or relief is None else relief - angle,
        *_off_line(edges[0], sweep, off or OFF),
    )


def _first(edges: tuple[Edge, ...], relief: float, thickness: float, off: float) -> Place | None:
    needs = [need for edge in edges for need in _needs(edge, relief, thickness, off)]
    return max(needs, key=lambda need: need[1])[0] if needs else None


def _least(holds: Callable[[float], bool], high: float) -> float | None:
    """The least value up to `high` from which something holds; None when it never does."""
    if not holds(high):
        return None
    low = 0.0
    for _ in range(60):
        middle = (low + high) / 2
        low, high = (low, middle) if holds(middle) else (middle, high)
    return high


OFF: Final = 0.1
"""mm off the radius line for which the changes are told when the edge stands on it."""


def _off_line(
    edge: Edge, sweep: float | None, off: float
) -> tuple[float | None, float | None, float | None, float | None]:
    """`off`, rise of the tip, change of the included angle and of the relief."""
    if sweep is None or sweep <= abs(off):
        return None, None, None, None
    wedge = edge.wedge
    change = None if wedge is None else swept_angle(wedge, sweep, off) - wedge.angle
    return off, tip_rise(sweep, off), change, math.asin(off / sweep)


def relief_down_the_nose(sweep: float, thickness: float) -> float | None:
    """Least relief at the tip when it is measured straight down the tool, not square to the edges,
    and the nose does not shrink below the edge: `asin(T / r) / 2`, rad; None where none clears."""
    return math.asin(thickness / sweep) / 2 if thickness <= sweep else None


def tip_rise(sweep: float, off: float) -> float:
    """How much farther out the tip runs, moved `off` mm sideways from the radius line at the same
    stick-out `sweep` (mm): `sqrt(sweep^2 + off^2) - sweep`."""
    return math.hypot(sweep, off) - sweep


def swept_angle(wedge: Wedge, sweep: float, off: float) -> float:
    """Included angle that an edge `off` mm off the radius line sweeps, rad.

    The flanks come out curved: this is the angle at the tip. `sweep` is the radius of the tip's
    circle, mm.
    """
    shrink = math.sqrt(sweep * sweep - off * off) / sweep
    sides = (math.tan(wedge.face_side), math.tan(wedge.back_side))
    return sum(math.atan(side / shrink) for side in sides)


def swept_error(wedge: Wedge, sweep: float, off: float, depth: float) -> float:
    """Greatest distance of the swept flanks from the edge's own, up to `depth` mm above the tip,
    for an edge `off` mm off the radius line on a tip circle of radius `sweep`, mm."""
    tall = math.sqrt(sweep * sweep - off * off)
    sinks = sweep - math.hypot(tall - depth, off)
    return (depth - sinks) * math.sin(max(wedge.face_side, wedge.back_side))


def relief_of(part: Part, wheel: Wheel, cuts: tuple[Cut, ...]) -> Relief:
    """The relief of the cutter that is set up, as its edge stands; all None without cuts."""
    found = _table(part, cuts)
    if found is None:
        return Relief()
    cutter = found[1]
    edges = tuple(edge_of(wheel, cut) for cut in cuts)
    sizes = (cutter.relief_angle, cutter.edge_thickness, cutter.sweep_diameter)
    return relief_for(edges, *sizes, cutter.edge_ahead)


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
    say, key = Say(part), f"cutter[{number}]"
    return (*_heel(say, cutter, key, relief), *_off_the_line(say, cutter, key, cuts))


def _heel(say: Say, cutter: CutterTable, key: str, relief: Relief) -> Iterator[Finding]:
    angle, least = cutter.relief_angle, relief.least_relief_angle
    if relief.clears is False:
        yield _rubs(say, cutter, key, relief)
    if not relief.clears or angle is None or least is None or _is_bound(least):
        return
    if angle < least + math.radians(2):
        text = f"{cutter.name}: the heel clears with less than 2° to spare when it is spun"
        where = f"{key}.relief_angle"
        yield say.turned("relief-tight", "note", text, where, angle, least + WORKING, "at least")


def _off_the_line(
    say: Say, cutter: CutterTable, key: str, cuts: tuple[Cut, ...]
) -> Iterator[Finding]:
    off, sweep, accept = cutter.edge_ahead, cutter.sweep_diameter, say.part.setup.accept
    if not off or sweep is None:
        return
    wedges = [(cut.tool, cut.infeed_from_top) for cut in cuts if isinstance(cut.tool, Wedge)]
    worst = max((swept_error(one, sweep / 2, off, depth) for one, depth in wedges), default=0.0)
    if worst > accept:
        text = (
            f"{cutter.name}: its edge stands {say.length(abs(off))} "
            f"{'ahead of' if off > 0 else 'behind'} the spindle's radius line, so the flanks come "
            f"out up to {say.length(worst)} off: set the edge on the line and make "
            f"{key}.edge_ahead 0"
        )
        yield Finding("edge-off-line", "caution", text, f"{key}.edge_ahead", worst, accept)


def _is_bound(least: float) -> bool:
    """Whether the working clearance would ask for more relief than an edge can have."""
    return least + WORKING >= GREATEST


def _rubs(say: Say, cutter: CutterTable, key: str, relief: Relief) -> Finding:
    text = f"{cutter.name}: spun on this sweep its heel rubs at the {relief.place}"
    sweep, least = cutter.sweep_diameter or 0.0, relief.least_sweep_diameter
    if least is not None and least < 8 * sweep:
        more = _other_ways(say, key, relief)
        found = say.sized("heel-rubs", "caution", text, f"{key}.sweep_diameter", sweep, least)
        return replace(found, message=found.message + more)
    angle = relief.least_relief_angle
    if angle is not None and not _is_bound(angle):
        has = cutter.relief_angle or 0.0
        return say.turned(
            "heel-rubs", "caution", text, f"{key}.relief_angle", has, angle, "at least"
        )
    thick = cutter.edge_thickness or 0.0
    text = f"{text}: make {key}.edge_thickness less, or set up another cutter"
    return Finding("heel-rubs", "caution", text, f"{key}.edge_thickness", thick)


def _other_ways(say: Say, key: str, relief: Relief) -> str:
    words = ""
    if relief.least_relief_angle is not None:
        words += f", or {key}.relief_angle {say.turn_bound(relief.least_relief_angle, 'at least')}"
    if relief.greatest_thickness is not None and relief.greatest_thickness > THINNEST:
        words += f", or {key}.edge_thickness {say.bound(relief.greatest_thickness, 'at most')}"
    return words


def standing_tool_cautions(cutter: CutterTable) -> tuple[str, ...]:
    """Cautions for the sheet when the cutter is a spun bit or insert: one edge, or a thickness."""
    spun = cutter.teeth == 1 or cutter.edge_thickness is not None
    return STANDING_TOOL if spun else ()


def relief_as_dict(relief: Relief) -> dict[str, Any]:
    """Relief as JSON has it: mm and degrees, null where the cutter says too little.

    The last three keys are for an edge `off_line` mm off the spindle's radius line.
    """

    def degrees(angle: float | None) -> float | None:
        return None if angle is None else math.degrees(angle)

    return {
        "clears": relief.clears,
        "least_relief_angle": degrees(relief.least_relief_angle),
        "greatest_thickness": relief.greatest_thickness,
        "least_sweep_diameter": relief.least_sweep_diameter,
        "place": relief.place,
        "margin": degrees(relief.margin),
        "off_line": relief.off,
        "tip_rise_off_line": relief.tip_rise,
        "angle_change_off_line": degrees(relief.angle_change),
        "relief_change_off_line": degrees(relief.relief_change),
    }
