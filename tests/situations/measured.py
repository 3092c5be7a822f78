"""What is read off a drawn bench situation: dials, what the finished wheel shows, and the heel.

Owns measuring on the polygons of `drawn`, with the wheel cut at every stop; it imports nothing of
the package, and there is no published source. Refuses to look for a setting. mm and degrees.
"""

from __future__ import annotations

import cmath
import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely import LineString, Point, Polygon, affinity
from shapely.geometry.base import BaseGeometry

from tests.situations.drawn import FINE, Bench, Points, Pose, Wheel, last, pairs, polygon, unit

RIM = 1e-5
"""mm of sagitta of the rim where whole wheels are cut: alike in wheel, spaces and blank."""

SLICES = 40
"""Depths behind the edge at which the swept body is drawn."""

PLACES = 201
"""Places along the edge at which it is compared with the edge's own sweep."""


def dials(bench: Bench, pose: Pose) -> dict[str, float]:
    """Where the cutter stands and how far it was fed in, by the names of `check --json`."""
    tip = pose.apex + bench.cutter.tip
    root = bench.in_base(pose).distance(Point(0, 0))
    return {
        "offset": pose.apex.real,
        "tip_offset": tip.real,
        "apex_height": pose.apex.imag,
        "tip_height": tip.imag,
        "infeed_from_top": bench.wheel.radius - tip.imag,
        "infeed_from_offset": bench.first_touch(pose.apex.real) - pose.apex.imag,
        "radial_depth": bench.wheel.radius - root,
        "root_diameter": 2 * root,
    }


def land(bench: Bench, poses: Sequence[Pose]) -> float:
    """The land between two spaces cut alike, straight: from where the flanks leave the rim."""
    angles = [angle for pose in poses for angle in _leaves(bench, pose)]
    width = max(angles) - min(angles)
    return bench.wheel.diameter * math.sin(math.radians(bench.wheel.pitch - width) / 2)


def _leaves(bench: Bench, pose: Pose) -> Iterator[float]:
    """Polar angles over the print at which the flanks cross the rim."""
    for flank in bench.cutter.flanks.tolist():
        along, beside = (pose.apex / flank).real, (pose.apex / flank).imag
        place = pose.apex + (math.sqrt(bench.wheel.radius**2 - beside**2) - along) * flank
        yield math.degrees(cmath.phase(place * unit(-pose.turn)))


def slope(bench: Bench, poses: Sequence[Pose], lap: int, move: complex, at_b: bool) -> float:
    """Land gained per mm by which one lap's cutter moves, by differences; `at_b`: fed in from the
    first touch at its new offset, so that it rises and falls with that touch."""
    step = 1e-3

    def moved(size: float) -> float:
        pose = poses[lap]
        apex = pose.apex + size * move
        if at_b:
            old, new = (bench.first_touch(z.real) for z in (pose.apex, apex))
            apex += 1j * (new - old)
        return land(bench, [*poses[:lap], Pose(pose.turn, apex), *poses[lap + 1 :]])

    return (moved(step) - moved(-step)) / (2 * step)


@dataclass(frozen=True)
class Finished:
    """A wheel cut at every stop: areas for one space (mm2); the gouge is of sharp-rooted teeth."""

    left_over_area: float
    gouge_area: float
    root_diameter: float


def finished(bench: Bench, poses: Sequence[Pose]) -> Finished:
    """Cut the whole wheel and lay it over the print."""
    wheel, cutters = bench.wheel, _cutters(bench, poses)
    blank = _blank(wheel)
    cut = blank.difference(_at_every_tooth(wheel, cutters))
    spaces = _at_every_tooth(wheel, wheel.space(FINE, RIM))
    teeth = blank.difference(_at_every_tooth(wheel, wheel.space(FINE, RIM, rounded=False)))
    body = max(getattr(cut, "geoms", [cut]), key=lambda piece: piece.area)
    return Finished(
        cut.intersection(spaces).area / wheel.teeth,
        teeth.difference(cut).area / wheel.teeth,
        2 * body.exterior.distance(Point(0, 0)),
    )


def _blank(wheel: Wheel) -> Polygon:
    """The round blank; its chords end where those of every space do."""
    one = (
        wheel.rim(0, wheel.width, RIM)[:-1],
        wheel.rim(wheel.width, wheel.pitch, RIM)[:-1],
    )
    return polygon(*(piece * unit(k * wheel.pitch) for k in range(wheel.teeth) for piece in one))


def _at_every_tooth(wheel: Wheel, drawing: BaseGeometry) -> BaseGeometry:
    """A drawing repeated all round."""
    turns = [k * wheel.pitch for k in range(wheel.teeth)]
    return shapely.union_all([affinity.rotate(drawing, turn, origin=(0, 0)) for turn in turns])


def _cutters(bench: Bench, poses: Sequence[Pose]) -> BaseGeometry:
    """All that the laps take, near the wheel."""
    near = Point(0, 0).buffer(bench.wheel.radius + 2)
    return shapely.union_all([bench.in_base(pose) for pose in poses]).intersection(near)


def farthest_left(bench: Bench, poses: Sequence[Pose]) -> tuple[float, set[str]]:
    """The greatest distance of what stays in the space from the print, and what of the print is as
    near as that: `face`, `root`, `back`, or more than one of them where it lies in the middle."""
    wheel = bench.wheel
    fillet, (face, back) = wheel.fillet(FINE), wheel.tips
    pieces = {"face": [face, fillet[-1]], "root": fillet, "back": [back, fillet[0]]}
    lines = {name: LineString(pairs(np.array(piece))) for name, piece in pieces.items()}
    space, edge = wheel.space(FINE, RIM), LineString(_cutters(bench, poses).boundary.coords)
    low, high = 0.0, edge.length
    for spacing in (1e-2, 1e-4, 1e-6):
        along = np.arange(low, high, spacing)
        places = shapely.line_interpolate_point(edge, along)
        far = np.min([shapely.distance(line, places) for line in lines.values()], axis=0)
        most = int(np.argmax(np.where(shapely.contains(space, places), far, 0.0)))
        low, high = along[most] - spacing, along[most] + spacing
    if not space.contains(places[most]):
        return 0.0, {""}
    least = float(far[most])
    return least, {name for name in lines if lines[name].distance(places[most]) < least + 1e-5}


@dataclass(frozen=True)
class Heel:
    """Whether the spun body stays within what its edge sweeps, and the limits of that."""

    clears: bool
    least_relief_angle: float
    greatest_thickness: float
    least_sweep_diameter: float


def heel(bench: Bench, pose: Pose, sweep: float, relief: float, thickness: float) -> Heel:
    """Sweep the body of a tool whose tip runs on a circle of diameter `sweep`, edge on a radius.

    Args:
        relief: measured square to the edge everywhere: at a depth behind the edge the outline is
            drawn in by depth times the tangent of it.
        thickness: of the body behind the edge.
    """
    ends = sorted((z * unit(pose.turn) - pose.apex).real for z in bench.wheel.tips)
    outline, tip = bench.cutter.outline(FINE), bench.cutter.tip.imag

    def clears(sweep: float = sweep, relief: float = relief, thickness: float = thickness) -> bool:
        for depth in np.linspace(0, thickness, SLICES + 1)[1:].tolist():
            body = bench.cutter.drawn_in(depth * math.tan(math.radians(relief)))
            corners = body.real[(body.real > ends[0]) & (body.real < ends[1])]
            places = np.concatenate([np.linspace(ends[0], ends[1], PLACES), corners])
            edge = sweep / 2 + tip - _lowest(outline, places)
            if np.any(np.hypot(sweep / 2 + tip - _lowest(body, places), depth) > edge):
                return False
        return True

    return Heel(
        clears(),
        last(lambda angle: clears(relief=angle), 30, 1),
        last(lambda deep: clears(thickness=deep), 0.5, 15),
        last(lambda across: clears(sweep=across), 80, 8),
    )


def _lowest(outline: Points, places: NDArray[np.float64]) -> NDArray[np.float64]:
    """Height of an outline, which opens upwards, at places across it."""
    order = np.argsort(outline.real)
    return np.interp(places, outline.real[order], outline.imag[order])
