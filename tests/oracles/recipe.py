"""How the kernel's answers are made: from the numbers of a print and the dials, by booleans alone.

Nothing of the package under test is used. An outline is a disc less one wedge a space: the face
line runs from the face tip at the hook angle, the back line from the back tip at the space angle
further, and
the kernel finds rounding, overlap and areas. A cut wheel is a disc less the cutters, placed by
offset, tip height and wheel angle as a machinist would place them. Gouge and left-over of a fit are
booleans of the two, and their greatest distances the kernel's own.
"""

from __future__ import annotations

import cmath
import math
from collections.abc import Iterator
from functools import cache
from typing import Any

from tests.oracles import kernel
from tests.oracles.kernel import Shape
from tests.oracles.rows import (
    BORES,
    CUT,
    FITS,
    OUTLINES,
    SETTINGS,
    SHAPES,
    TRIED,
    Disc,
    Keys,
    Rows,
)

Answers = dict[str, float]


def wedge(
    apex: complex, right: complex, left: complex, nose: float, flat: float, far: float
) -> Shape:
    """The plane between two rays from the apex, its tip rounded or cut square to the bisector.

    `right` and `left` are unit directions, counter-clockwise from right to left.
    """
    if flat:
        back = flat / 2 / math.sin(cmath.phase(left / right) / 2)
        tips = [apex + back * left, apex + back * right]
        return kernel.polygon([*tips, apex + far * right, apex + far * left])
    sharp = kernel.polygon([apex, apex + far * right, apex + far * left])
    return kernel.rounded(sharp, [apex], nose) if nose else sharp


def _hand(keys: Keys, *at: complex) -> list[complex]:
    """The points as the part's hand has them: mirrored in the x axis for the other one."""
    other = keys.get("rotation") == "counter-clockwise"
    return [point.conjugate() if other else point for point in at]


def _meet(start: complex, along: complex, other: complex, direction: complex) -> complex:
    """Where two lines cross, by Cramer's rule."""
    gap, cross = other - start, (along.conjugate() * direction).imag
    return start + along * ((gap.conjugate() * direction).imag / cross)


def _flank_lines(keys: Keys) -> tuple[complex, complex, complex, complex]:
    """Vertex of space 1 of the clockwise hand, outward directions of face and back, back tip."""
    radius = keys["outside_diameter"] / 2
    land_turn = 2 * math.asin(keys["land"] / 2 / radius)
    back_tip = cmath.rect(radius, math.tau / keys["teeth"] - land_turn)
    face = cmath.exp(1j * math.radians(keys.get("hook_angle", 0)))
    back = face * cmath.exp(1j * math.radians(keys["space_angle"]))
    return _meet(complex(radius), face, back_tip, back), face, back, back_tip


def space_wedge(keys: Keys) -> Shape:
    """The wedge that makes space 1 of a ratchet, from the numbers of its print."""
    vertex, face, back, _ = _flank_lines(keys)
    nose, flat = keys.get("root_radius", 0.0), keys.get("root_flat", 0.0)
    apex, right, left = _hand(keys, vertex, face, back)
    if keys.get("rotation") == "counter-clockwise":
        right, left = left, right
    return wedge(apex, right, left, nose, flat, 1.5 * keys["outside_diameter"])


def wheel_from(keys: Keys, tools: list[Shape]) -> Answers:
    """A disc less the tools at every pitch, and what one pitch of tools takes out of it."""
    radius, teeth = keys["outside_diameter"] / 2, keys["teeth"]
    blank = kernel.disc(0j, radius)
    at = [kernel.turned(tool, math.tau * k / teeth) for k in range(teeth) for tool in tools]
    left = kernel.combined("subtract", blank, at)
    answers = {key: kernel.measured(left)[key] for key in ("wires", "area", "perimeter", "ixx")}
    return {**answers, "root_radius": min(kernel.distance_from_axis(tool) for tool in tools)}


def outline(keys: Keys) -> dict[str, Answers]:
    """The wheel, and its space 1 alone: where it lies tells the hand."""
    tool = space_wedge(keys)
    blank = kernel.disc(0j, keys["outside_diameter"] / 2)
    return {
        "wheel": wheel_from(keys, [tool]),
        "space": kernel.measured(kernel.combined("intersect", blank, [tool])),
    }


def _flank_angles(cutter: Keys, offset_flank: float) -> tuple[float, float]:
    """Right and left flank angle from the infeed, degrees, of the way round that is dialled."""
    match cutter["kind"]:
        case "vee":
            return cutter["included_angle"] / 2, cutter["included_angle"] / 2
        case "single-angle":
            return 0.0, cutter["angle"]
        case _:
            angles = sorted(cutter["angles"])
            return (angles[0], angles[1]) if offset_flank == 0 else (angles[1], angles[0])


def cutter_shape(cutter: Keys, far: float) -> Shape:
    """A cutter with its apex at the origin, the middle of a slot's bottom, and infeed along -y."""
    if cutter["kind"] == "ball":
        r = cutter["radius"]
        return kernel.face_of([(r, r, 0), (r, far, 0), (-r, far, 0), (-r, r, 1)])
    if cutter["kind"] == "slot":
        half, corner = cutter["width"] / 2, cutter.get("corner_radius", 0.0)
        sides = kernel.polygon([-half + 0j, half + 0j, half + far * 1j, -half + far * 1j])
        return kernel.rounded(sides, [-half + 0j, half + 0j], corner) if corner else sides
    return _wedge_cutter(cutter, far)


def _wedge_cutter(cutter: Keys, far: float) -> Shape:
    right, left = (math.radians(angle) for angle in _flank_angles(cutter, 0))
    edges = 1j * cmath.exp(-1j * right), 1j * cmath.exp(1j * left)
    flat = cutter.get("tip_flat", 0.0)
    if not flat:
        return wedge(0j, *edges, cutter.get("tip_radius", 0.0), 0.0, far)
    lift = flat / (math.tan(right) + math.tan(left))
    tips = [edge * lift / edge.imag for edge in edges]
    return kernel.polygon([tips[1], tips[0], edges[0] * far, edges[1] * far])


def posed_cutter(keys: Keys, cutter: Keys, dial: Answers) -> tuple[Shape, complex]:
    """One cutter in the set-up pose turned into the wheel, and its apex in the set-up pose.

    Offset is dialled to the apex, tip height to the lowest point, which the kernel finds; the flank
    that forms the face is the one at the side of a positive offset.
    """
    at_origin = cutter_shape(cutter, 50 * keys["outside_diameter"])
    apex = complex(dial["offset"], dial["tip_height"] - kernel.lowest(at_origin).imag)
    return at_origin, apex


def cut_wheel(keys: Keys, cutter: Keys, dials: list[Answers]) -> dict[str, Answers]:
    """What the cutters leave of the blank, and where each one's apex and deepest place come to
    lie."""
    hand = -1.0 if keys.get("rotation") == "counter-clockwise" else 1.0
    tools, answers = [], {}
    for number, dial in enumerate(dials, start=1):
        shape, apex = posed_cutter(keys, cutter, dial)
        tool = kernel.turned(kernel.shifted(shape, apex), -hand * math.radians(dial["wheel_angle"]))
        tools.append(tool)
        deepest = kernel.distance_from_axis(tool)
        answers[f"cut {number}"] = {"apex_height": apex.imag, "root_radius": deepest}
    return {"wheel": wheel_from(keys, tools), **answers}


REACH = 5
"""Pitches on each side of space 1 within which its wheel and its cuts are made."""

NOTHING = 1e-6
"""mm: a region that reaches no farther than this is none."""


def fit(keys: Keys, cutter: Keys, dials: list[Answers], setting: complex) -> dict[str, Any]:
    """What cutters moved away from their dials gouge and leave, in the clockwise hand.

    Distances: of the metal that the cuts of space 1 take below the limit, from the limit; of what
    stays in space 1 after all cuts, from the outline drawn. Areas: of one space, all cuts made; for
    the gouge that of a sector one pitch wide, into which the gouges of every space reach.
    """
    keys = {key: value for key, value in keys.items() if key != "rotation"}
    blank = kernel.disc(0j, keys["outside_diameter"] / 2)
    tools = [
        kernel.combined("intersect", blank, [one]) for one in _set(keys, cutter, dials, setting)
    ]
    cuts = _at_stops(keys, tools)
    wanted, space = _wheel_near(tuple(keys.items()))
    metal, _ = _wheel_near(tuple(limit_keys(keys).items()))
    left = kernel.combined("subtract", space, cuts)
    gouge = kernel.combined("intersect", metal, tools)
    in_pitch = kernel.combined(
        "intersect", kernel.combined("intersect", metal, cuts), [_pitch(keys)]
    )
    return {
        "gouge": _deviation(limit_keys(keys), gouge, metal, in_pitch),
        "left_over": _deviation(keys, left, wanted, left),
    }


@cache
def _wheel_near(items: tuple[tuple[str, Any], ...]) -> tuple[Shape, Shape]:
    """The wheel of a print about space 1, and that space."""
    keys = dict(items)
    blank, one = kernel.disc(0j, keys["outside_diameter"] / 2), space_wedge(keys)
    wheel = kernel.combined("subtract", blank, _at_stops(keys, [one]))
    return wheel, kernel.combined("intersect", blank, [one])


def limit_keys(keys: Keys) -> Keys:
    """The sharp root that a cutter may go down to, unless the root is wanted exactly as drawn."""
    rounding = () if keys.get("root_exact") else ("root_radius", "root_flat")
    return {key: value for key, value in keys.items() if key not in rounding}


def _set(keys: Keys, cutter: Keys, dials: list[Answers], setting: complex) -> Iterator[Shape]:
    """The cutters of space 1, moved by a setting and turned from the infeed to the wheel."""
    by = setting * math.pi * keys["outside_diameter"] / keys["teeth"]
    for dial in dials:
        shape, apex = posed_cutter(keys, cutter, dial)
        yield kernel.turned(kernel.shifted(shape, apex + by), -math.radians(dial["turn"]))


def _stops(keys: Keys) -> list[float]:
    """Turns of the stops about space 1, rad: all of them when they are few."""
    count = min(keys["teeth"], 2 * REACH + 1)
    return [math.tau / keys["teeth"] * (k - count // 2) for k in range(count)]


def _at_stops(keys: Keys, tools: list[Shape]) -> list[Shape]:
    return [kernel.turned(tool, stop) for stop in _stops(keys) for tool in tools]


def _pitch(keys: Keys) -> Shape:
    """A sector one pitch wide, its sides clear of every corner of the outline."""
    start = cmath.rect(2 * keys["outside_diameter"], -0.37 * math.tau / keys["teeth"])
    return kernel.polygon([0j, start, start * cmath.exp(1j * math.tau / keys["teeth"])])


def _deviation(keys: Keys, region: Shape, wheel: Shape, sized: Shape) -> dict[str, Any]:
    """Greatest distance of a region's edge from a wheel's outline, next to what, and the area."""
    outline = kernel.edges_of(wheel)
    farthest = kernel.farthest(region, outline) if kernel.count(region) else [(0.0, 0j)]
    value = farthest[0][0]
    if value < NOTHING:
        return {"value": 0.0, "area": 0.0, "where": ""}
    ties = [at for gap, at in farthest if gap > value - NOTHING]
    nearest = [foot for at in ties for foot in kernel.feet(outline, at)[1]]
    words = set[str]().union(*(_places(keys, foot) for foot in nearest))
    where = words.pop() if len(words) == 1 else ""
    return {"value": value, "area": kernel.measured(sized)["area"], "where": where}


def _places(keys: Keys, foot: complex) -> set[str]:
    """What of the outline a place on it belongs to: more than one word at a corner.

    The first fifth of a flank, from the vertex, is still the root.
    """
    vertex, face, back, back_tip = _flank_lines(keys)
    radius, close = keys["outside_diameter"] / 2, 1e-5
    found = {"land"} if abs(abs(foot) - radius) < close else set()
    for turn in _stops(keys):
        for name, along, tip in (("face", face, complex(radius)), ("back", back, back_tip)):
            at = (foot * cmath.exp(-1j * turn) - vertex) / along
            length = abs(tip - vertex)
            if abs(at.imag) < close and -close < at.real < length + close:
                own = "root" if at.real < length / 5 else name
                found.add("neighbour" if turn else own)
    nearest = min(_stops(keys), key=lambda turn: abs(foot - vertex * cmath.exp(1j * turn)))
    return found or {"neighbour" if nearest else "root"}


def bore(keys: Keys) -> Answers:
    """A bore from its numbers."""
    turn = math.radians(keys["angle"])
    half = keys.get("diameter", 0.0) / 2
    match keys["kind"]:
        case "square" | "hexagon":
            sides = 4 if keys["kind"] == "square" else 6
            reach = keys["across_flats"] / 2 / math.cos(math.pi / sides)
            corners = [cmath.rect(reach, (2 * k + 1) * math.pi / sides) for k in range(sides)]
            shape = kernel.polygon(corners)
            if keys["corner_radius"]:
                shape = kernel.rounded(shape, corners, keys["corner_radius"])
        case "keyed":
            side, floor = keys["key_width"] / 2, half + keys["key_depth"]
            key = kernel.polygon([-side * 1j, floor - side * 1j, floor + side * 1j, side * 1j])
            shape = kernel.combined("unite", kernel.disc(0j, half, 2.0), [key])
        case _:
            flat = keys["flat_to_far_side"] - half
            box = [-2 * half - 2j * half, flat - 2j * half, flat + 2j * half, -2 * half + 2j * half]
            shape = kernel.combined("intersect", kernel.disc(0j, half, 3.0), [kernel.polygon(box)])
    return kernel.measured(kernel.turned(shape, turn))


def shape_of(spec: Disc | Rows) -> Shape:
    """A disc or a face of lines and arcs."""
    if isinstance(spec, tuple):
        return kernel.disc(*spec)
    return kernel.face_of(spec)


def booleans(first: Disc | Rows, second: Disc | Rows) -> dict[str, Answers]:
    """The three booleans of two shapes."""
    kinds = ("subtract", "intersect", "unite")
    made = ((kind, kernel.combined(kind, shape_of(first), [shape_of(second)])) for kind in kinds)
    return {kind: {"wires": 0} if kernel.count(s) == 0 else kernel.measured(s) for kind, s in made}


def derive(dials: dict[str, dict[str, list[Answers]]]) -> Iterator[tuple[str, str, dict[str, Any]]]:
    """Every answer: its table, its row and its numbers."""
    for name, keys in OUTLINES.items():
        yield "outlines", name, outline(keys)
    for name, (keys, cutter) in CUT.items():
        yield "cut", name, cut_wheel(keys, cutter, dials["cut"][name])
    for pair, setting in TRIED:
        answer = fit(*FITS[pair], dials["fits"][pair], SETTINGS[setting])
        yield "fits", f"{pair}, {setting}", answer
    for name, keys in BORES.items():
        yield "bores", name, {"bore": bore(keys)}
    for name, (first, second) in SHAPES.items():
        yield "shapes", name, booleans(first, second)
