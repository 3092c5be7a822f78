"""The parts and shapes that the kernel's answers are for: data only, mm and degrees.

Part rows are the tables of a part file. They give land and space angle, so that no outline needs a
solver: both flank lines follow from the numbers of the print. No published source: two independent
constructions must agree.
"""

from __future__ import annotations

from typing import Any

Keys = dict[str, Any]


def _wheel(teeth: int, diameter: float, angle: float, land: float, **more: Any) -> Keys:
    sizes = {"teeth": teeth, "outside_diameter": diameter, "space_angle": angle, "land": land}
    return {"kind": "ratchet", "thickness": 3.0, **sizes, **more}


def _cutter(kind: str, tip_radius: float | None, **more: Any) -> Keys:
    tip = {} if tip_radius is None else {"tip_radius": tip_radius}
    return {"name": kind, "kind": kind, **tip, **more}


OTHER = {"rotation": "counter-clockwise"}

OUTLINES: dict[str, Keys] = {
    "round": _wheel(30, 25.4, 60, 0.4, root_radius=0.2),
    "sharp": _wheel(30, 25.4, 60, 0.4),
    "flat": _wheel(30, 25.4, 60, 0.4, root_flat=0.3),
    "hooked": _wheel(30, 38, 60, 0.4, hook_angle=5, root_radius=0.2),
    "hooked, other hand": _wheel(24, 38, 50, 0.5, hook_angle=8, root_radius=0.3, **OTHER),
    "hooked sharp": _wheel(20, 32, 60, 0.5, hook_angle=10),
    "hooked flat, other hand": _wheel(16, 50, 60, 1.0, hook_angle=12, root_flat=0.6, **OTHER),
    "leaning": _wheel(30, 25.4, 60, 0.4, hook_angle=-6, root_radius=0.2),
    "leaning sharp, other hand": _wheel(18, 30, 70, 0.6, hook_angle=-8, **OTHER),
    "leaning flat": _wheel(12, 40, 80, 1.2, hook_angle=-4, root_flat=0.5),
    "coarse": _wheel(6, 40, 85, 6.0, hook_angle=2, root_radius=1.0),
    "wide": _wheel(12, 45, 90, 1.5, root_radius=0.8),
    "fine": _wheel(100, 60, 60, 0.3, hook_angle=3, root_radius=0.1),
    "tiny": _wheel(15, 4, 55, 0.1, root_radius=0.03),
    "large": _wheel(48, 320, 65, 3.0, hook_angle=6, root_radius=1.5, **OTHER),
}

CUT: dict[str, tuple[Keys, Keys]] = {
    "vee": (OUTLINES["round"], _cutter("vee", 0.2, included_angle=60)),
    "vee hooked": (OUTLINES["hooked"], _cutter("vee", 0.2, included_angle=60)),
    "vee flat": (OUTLINES["flat"], _cutter("vee", None, included_angle=60, tip_flat=0.3)),
    "single leaning": (OUTLINES["leaning"], _cutter("single-angle", 0.2, angle=60)),
    "single, other hand": (OUTLINES["hooked, other hand"], _cutter("single-angle", 0.3, angle=50)),
    "double": (OUTLINES["hooked"], _cutter("double-angle", 0.2, angles=[12, 48])),
    "two laps vee": (OUTLINES["hooked"], _cutter("vee", 0.2, included_angle=45)),
    "two laps single": (OUTLINES["round"], _cutter("single-angle", 0.2, angle=45)),
    "two laps double, other hand": (
        OUTLINES["hooked, other hand"],
        _cutter("double-angle", 0.3, angles=[15, 25]),
    ),
    "two laps leaning": (OUTLINES["leaning"], _cutter("vee", 0.2, included_angle=50)),
    "two laps sharp": (OUTLINES["hooked sharp"], _cutter("vee", 0.0, included_angle=40)),
    "two laps sharp, other hand": (
        OUTLINES["leaning sharp, other hand"],
        _cutter("single-angle", 0.0, angle=50),
    ),
    "two laps small nose": (OUTLINES["round"], _cutter("vee", 0.1, included_angle=40)),
    "two laps flat tip": (OUTLINES["flat"], _cutter("vee", None, included_angle=45, tip_flat=0.1)),
}
"""Wheel and cutter; the cutter is placed by the dials that the program publishes."""

FIT_WHEELS: dict[str, Keys] = {
    "radial": OUTLINES["round"],
    "hooked, root exact": OUTLINES["hooked"] | {"root_exact": True},
    "leaning, other hand": _wheel(24, 30, 65, 0.5, hook_angle=-6, root_radius=0.25, **OTHER),
    "flat root": _wheel(9, 40, 70, 4.0, root_flat=0.6),
    "six teeth": OUTLINES["coarse"],
    "fine": OUTLINES["fine"],
}


def _fit_cutters(space: float, tip: float) -> dict[str, Keys]:
    """The cutters for a space of this angle (degrees) whose root has about this radius."""
    return {
        "vee too wide": _cutter("vee", tip / 2, included_angle=space + 15),
        "vee too blunt": _cutter("vee", 3 * tip, included_angle=space),
        "two laps": _cutter("vee", tip / 2, included_angle=space - 20),
        "single-angle": _cutter("single-angle", tip / 2, angle=space),
        "single-angle too wide": _cutter("single-angle", tip, angle=min(space + 12, 89)),
        "double-angle": _cutter("double-angle", 2 * tip, angles=[14, space - 10]),
        "flat tip": _cutter("vee", None, included_angle=space - 15, tip_flat=4 * tip),
        "slot": _cutter("slot", None, width=5 * tip),
        "slot, round corners": _cutter("slot", None, width=4 * tip, corner_radius=tip),
        "ball": _cutter("ball", None, radius=3 * tip),
    }


FITS: dict[str, tuple[Keys, Keys]] = {
    f"{wheel}: {name}": (keys, cutter)
    for wheel, keys in FIT_WHEELS.items()
    for name, cutter in _fit_cutters(
        keys["space_angle"], keys.get("root_radius", keys.get("root_flat", 0.0) / 2)
    ).items()
}
"""Wheel and cutter; placed as published, and then wrongly on purpose (`SETTINGS`)."""

SETTINGS: dict[str, complex] = {
    "as posed": 0j,
    "too deep": -0.08j,
    "aside": -0.3 + 0j,
    "over a neighbour": -0.8 + 0j,
}
"""How far the cutter is moved from the published place, in pitches along the blank's rim: offset
and, upwards, height."""

TRIED = [
    (pair, setting)
    for number, pair in enumerate(FITS)
    for setting in ("as posed", list(SETTINGS)[1 + number % 3])
]
"""Every pair as posed, and once set wrongly."""

BORES: dict[str, Keys] = {
    "square": {"kind": "square", "across_flats": 9.0, "corner_radius": 0.3, "angle": 10},
    "square sharp": {"kind": "square", "across_flats": 6.0, "corner_radius": 0, "angle": 0},
    "hexagon": {"kind": "hexagon", "across_flats": 8.0, "corner_radius": 0.5, "angle": 7},
    "keyed": {"kind": "keyed", "diameter": 12.0, "key_width": 4.0, "key_depth": 1.8, "angle": 30},
    "keyed shallow": {
        "kind": "keyed",
        "diameter": 12.0,
        "key_width": 6,
        "key_depth": 0.2,
        "angle": 0,
    },
    "d-bore": {"kind": "d-bore", "diameter": 6.0, "flat_to_far_side": 5.5, "angle": -20},
}

Disc = tuple[complex, float]
Rows = list[tuple[float, float, float]]

LENS: Rows = [(-3, 0, 0.6), (3, 0, 0.4)]
CRESCENT: Rows = [(0, -4, 0.7), (0, 4, -0.3)]
NOSED: Rows = [(9, 6.5, 0), (4.4, 0.3, 0.5), (4.4, -0.3, 0), (9, -6.5, 0)]
TOOTH: Rows = [(2, 0, 0), (7, 1, 0.2), (5, 4, -0.15), (1, 2, 0)]
SLOT: Rows = [(-2, -1, 0), (2, -1, 1), (2, 1, 0), (-2, 1, 1)]
WEDGE: Rows = [(2.5, -0.5, 0), (9, -5, 0), (9, 4, 0)]
LONG: Rows = [(-8, -0.7, 0), (8, -0.5, 0), (8, 0.6, 0.05), (-8, 0.4, 0)]

SHAPES: dict[str, tuple[Disc | Rows, Disc | Rows]] = {
    "disc and disc": ((0j, 5.0), (4 + 1j, 3.0)),
    "disc and wedge": ((0j, 6.0), WEDGE),
    "disc and nosed wedge": ((0j, 6.5), NOSED),
    "disc and lens": ((1 + 2j, 2.5), LENS),
    "lens and crescent": (LENS, CRESCENT),
    "crescent and disc": (CRESCENT, (1 + 0j, 3.0)),
    "tooth and slot": (TOOTH, SLOT),
    "slot and long bar": (SLOT, LONG),
    "disc across a long bar": ((0j, 4.0), LONG),
    "wedge and nosed wedge": (WEDGE, NOSED),
    "disc inside a disc": ((0j, 5.0), (0.5 + 0j, 2.0)),
    "discs apart": ((0j, 2.0), (6 + 1j, 2.5)),
}
"""Pairs of shapes with arc edges, counter-clockwise; each is subtracted, intersected and united."""
