"""Cutters as they stand: every way round of every kind of cutter.

Owns the silhouettes of slot, ball, form and drawn cutters. Wedges come from `wedge`; a form
cutter's wheel is solved by the table of tooth forms, so that no form is known by name here. Refuses
poses.
"""

from __future__ import annotations

import math
from dataclasses import replace
from typing import TYPE_CHECKING, cast

from profilegen.cutting.profile import Profile
from profilegen.cutting.wedge import Wedge, ways_round
from profilegen.errors import InputError, Problem
from profilegen.findings.cannot_make import CannotMakeError
from profilegen.findings.finding import Finding, Phrase, in_table
from profilegen.forms.wheel import Wheel
from profilegen.geometry.chain import Chain, Role, chain, is_like, join, reverse
from profilegen.geometry.measure import bounds
from profilegen.geometry.moves import Move, moved
from profilegen.geometry.tolerance import SAME_POINT, SHORTEST_CHORD

if TYPE_CHECKING:
    from profilegen.part.base import CutterTable, WheelTable
    from profilegen.part.cutter_tables import BallCutter, DrawnCutter, FormCutter, SlotCutter

QUARTER = math.tan(math.pi / 8)
"""Bulge of a quarter turn."""


def tools_for(
    cutter: CutterTable, where: str = "cutter"
) -> tuple[Wedge, ...] | tuple[Profile, ...]:
    """Every way round in which a cutter can stand, the usual one first: its edge in mm, apex at the
    origin, infeed along -y.

    Wedges as `ways_round` gives them; a slot or ball cutter one way; a form or drawn cutter both
    ways when they differ, first as given: the face side of the wheel, or +x of the drawing, on +x.

    Args:
        cutter: as its file gives it.
        where: its key path, `cutter[2]`, for what is refused.

    Raises:
        CannotMakeError: the wheel of a form cutter cannot be made.
        InputError: a file that the cutter names has not been read (`part.references`).
    """
    match cutter.kind:
        case "slot":
            return (_profile(cutter, _slot(cast("SlotCutter", cutter))),)
        case "ball":
            return (_profile(cutter, _ball(cast("BallCutter", cutter).radius)),)
        case "form":
            return _both_ways(cutter, _form(cast("FormCutter", cutter), where))
        case "drawn":
            return _both_ways(cutter, _drawn(cast("DrawnCutter", cutter)))
        case _:
            return ways_round(cutter)


def form_findings(cutter: CutterTable, where: str) -> tuple[Finding, ...]:
    """Why the wheel of the form cutter at a key path cannot be made; nothing where it can."""
    try:
        tools_for(cutter, where)
    except CannotMakeError as refusal:
        return refusal.findings
    return ()


def mirrored(edge: Chain) -> Chain:
    """The edge of a cutter turned the other way round: mirrored in the y axis, and run again from
    its +x side; mm from the apex.
    """
    return reverse(moved(edge, Move(turn=-1.0 + 0j, flip=True)))


def _both_ways(cutter: CutterTable, edge: Chain) -> tuple[Profile, ...]:
    other = mirrored(edge)
    edges = (edge,) if is_like(edge, other, SAME_POINT) else (edge, other)
    return tuple(_profile(cutter, each) for each in edges)


def _profile(cutter: CutterTable, edge: Chain) -> Profile:
    """The tool of an edge; the body is as wide as the edge, or wider when the table says so.

    The sides of a slot or ball cutter whose edge has no given end cut as far up as they go.
    """
    endless = cutter.edge_length is None and cutter.body_width is None
    endless = endless and cutter.kind in ("slot", "ball")
    return Profile(cutter.name, cutter.kind, _on_body(cutter, edge), endless)


def _on_body(cutter: CutterTable, edge: Chain) -> Chain:
    """The edge with its straight sides up to the edge length, and a wider body's shoulders."""
    up = bounds(edge)[1] + (cutter.edge_length or 0.0)
    half = (cutter.body_width or 0.0) / 2
    right = _upwards(complex(edge.points[0]), up, half)
    left = [-z.conjugate() for z in _upwards(-complex(edge.points[-1]).conjugate(), up, half)]
    return join(
        *(_run(right[::-1][:2], Role.BODY) if len(right) == 3 else ()),
        *_run(right[1::-1], Role.EDGE),
        edge,
        *_run(left[:2], Role.EDGE),
        *(_run(left[1:], Role.BODY) if len(left) == 3 else ()),
    )


def _upwards(end: complex, up: float, half: float) -> list[complex]:
    """From the +x end of an edge up its side and out to a wider body: two points, or three."""
    top = complex(end.real, max(end.imag, up))
    return [end, top, complex(half, top.imag)] if half > end.real + SHORTEST_CHORD else [end, top]


def _run(points: list[complex], role: Role) -> tuple[Chain, ...]:
    """A straight run through two points; none when they are one point."""
    long = abs(points[1] - points[0]) >= SHORTEST_CHORD
    return (chain(points, roles=role),) if long else ()


def _slot(cutter: SlotCutter) -> Chain:
    """Corner, bottom, corner; the bottom at y 0."""
    half, corner = cutter.width / 2, cutter.corner_radius
    if half - corner < SHORTEST_CHORD:
        return _ball(half)
    bottom = chain([half - corner, corner - half], roles=Role.EDGE)
    if corner < SHORTEST_CHORD:
        return bottom
    right = chain([complex(half, corner), half - corner], [-QUARTER], Role.EDGE)
    left = chain([corner - half, complex(-half, corner)], [-QUARTER], Role.EDGE)
    return join(right, bottom, left)


def _ball(radius: float) -> Chain:
    """Two quarter turns; the tip at the origin."""
    ends = [complex(radius, radius), 0j, complex(-radius, radius)]
    return chain(ends, [-QUARTER, -QUARTER], Role.EDGE)


def _drawn(cutter: DrawnCutter) -> Chain:
    from profilegen.part.silhouette import edge_of

    if cutter.points is None:
        raise InputError(Problem(f"{cutter.name}: dxf", "this drawing has not been read"))
    return edge_of(cutter.points)


def _form(cutter: FormCutter, where: str) -> Chain:
    """The wheel's space looking up, the middle between its two tips on the infeed line.

    The apex is on that line at the height of the lowest point; the edge ends at the blank.
    """
    if isinstance(cutter.of, str):
        raise InputError(Problem(f"{cutter.name}: of", "this part file has not been read"))
    wheel = _solved(cutter.name, cutter.of, f"{where}.of")
    if not wheel.is_toothed:
        found = Finding("form-without-teeth", "refused", f"{where}.of")
        raise CannotMakeError(replace(found, about=(Phrase("form-cutter", {"name": cutter.name}),)))
    space = _space_edge(wheel)
    first, last = complex(space.points[0]), complex(space.points[-1])
    middle = first / abs(first) + last / abs(last)
    up = moved(space, Move(1j * abs(middle) / middle))
    return moved(up, Move(shift=-1j * bounds(up)[1]))


def _solved(name: str, table: WheelTable, where: str) -> Wheel:
    """The wheel of a form cutter, whose table is at a key path.

    Raises:
        CannotMakeError: it cannot be made; the findings name the cutter and the keys there.
    """
    from profilegen.forms.solve import solve
    from profilegen.part.part import bare_part

    try:
        return solve(bare_part(table))
    except CannotMakeError as error:
        raise CannotMakeError(*(_named(name, one, where) for one in error.findings)) from None


def _named(name: str, finding: Finding, where: str) -> Finding:
    about = (Phrase("form-cutter", {"name": name}), *finding.about)
    return replace(in_table(finding, "wheel", where), about=about)


def _space_edge(wheel: Wheel) -> Chain:
    """Face, root and back of one space, without the land, in the order from +x to -x."""
    pitch = wheel.space.pitch
    cut = [k for k, role in enumerate(pitch.roles.tolist()) if role != Role.LAND]
    first, last = cut[0], cut[-1] + 1
    return chain(pitch.points[first : last + 1], pitch.bulges[first:last].tolist(), Role.EDGE)
