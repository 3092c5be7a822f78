"""A usual value of every key that a table must have: what a hint writes for a missing line.

Owns: data, and its spelling in TOML. Refuses: being a default; the value is only ever shown.
"""

from __future__ import annotations

from typing import Final

from profilegen.units import MM_PER_INCH, Unit

USUAL: Final[dict[str, float | str]] = {
    "units": '"mm"',
    "wheel.teeth": "30",
    "wheel.thickness": 4.0,
    "wheel.outside_diameter": 38.0,
    "wheel.module": 1.0,
    "wheel.belt": '"XL"',
    "wheel.circles": "[{ holes = 24, circle_diameter = 40, hole_diameter = 3 }]",
    "bore.diameter": 10.0,
    "bore.across_flats": 9.0,
    "bore.key_width": 3.0,
    "bore.key_depth": 1.4,
    "bore.flat_to_far_side": 9.0,
    "hub.diameter": 20.0,
    "hub.length": 6.0,
    "hub.side": '"front"',
    "holes.count": "6",
    "holes.circle_diameter": 24.0,
    "holes.diameter": 3.0,
    "cutter.name": '"60 degree point"',
    "cutter.included_angle": '"60 deg"',
    "cutter.angle": '"60 deg"',
    "cutter.angles": '["15 deg", "45 deg"]',
    "cutter.width": 3.0,
    "cutter.radius": 2.0,
    "cutter.of": '"mate.toml"',
    "setup.dials.division": 0.02,
    "dividing.holes": "60",
    "dividing.notches": "60",
    "dividing.ratio": "40",
    "dividing.graduation": '"1 min"',
    "dividing.steps": "12800",
}
"""Table and key -> mm, or the value as it stands in a file where it is no length."""


def usual_line(table: str, key: str, unit: Unit) -> str:
    """Return a line to write for a key, such as `teeth = 30`, or an empty text for a key that no
    table must have.

    Args:
        table: its name, empty for the top of the file.
        key: that is missing.
        unit: in which a usual length is written, bare: mm or in.
    """
    value = USUAL.get(f"{table}.{key}" if table else key, "")
    if isinstance(value, float):
        value = f"{value / float(MM_PER_INCH):.3f}" if unit == "in" else str(value)
    return f"{key} = {value}" if value else ""
