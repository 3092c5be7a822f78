"""Part dictionaries from the program's own JSON Schema, plausible and hostile mixed.

A key that is added to the schema is attacked from that day on: what its values look like is read
off its schema; only how big they usually are is known here, as a share of the wheel's size.
"""

from __future__ import annotations

import cmath
import math
import random
import re
from contextlib import suppress
from functools import cache
from typing import Any

from profilegen.errors import InputError
from profilegen.part.part import Part
from profilegen.part.schema import part_schema

Keys = dict[str, Any]
Schema = dict[str, Any]

USUAL: dict[str, tuple[float, float]] = {
    "outside_diameter": (2.0, 2.0),
    "thickness": (0.02, 0.6),
    "root_diameter": (1.3, 1.97),
    "tooth_depth": (0.02, 0.4),
    "land": (0.002, 0.2),
    "root_radius": (0.001, 0.1),
    "root_flat": (0.001, 0.1),
    "diameter": (0.1, 1.9),
    "across_flats": (0.1, 1.0),
    "corner_radius": (0.0, 0.1),
    "key_width": (0.03, 0.3),
    "key_depth": (0.01, 0.2),
    "flat_to_far_side": (0.2, 1.0),
    "circle_diameter": (0.5, 1.5),
    "tip_radius": (0.0, 0.05),
    "tip_flat": (0.0, 0.05),
    "edge_length": (0.05, 1.0),
    "sweep_diameter": (0.5, 4.0),
    "width": (0.02, 0.3),
    "radius": (0.01, 0.3),
    "offset": (-0.5, 0.5),
    "run_out": (0.0, 0.002),
    "feeler": (0.0, 0.01),
    "accept": (0.0, 0.02),
    "pin": (0.02, 0.3),
    "bar_diameter": (0.5, 2.0),
}
"""Key -> least and greatest share of the wheel's radius; other lengths take any share."""

OPTIONAL_TABLES = {
    "bore": 0.7,
    "hub": 0.2,
    "holes": 0.15,
    "cutter": 0.8,
    "setup": 0.5,
    "blank": 0.3,
    "dividing": 0.4,
    "gauge": 0.3,
    "tolerance": 0.4,
}
"""Table -> how often a part has it; another one of the schema as often as a hub."""

HOSTILE: tuple[Any, ...] = (
    *(math.nan, math.inf, -math.inf, 1e308, -1e308, 1e20, 5e-324, 1e-9, -0.0, 0, 0.0, -1, 1, 2),
    *(10**400, 2**63, 10**18, True, False, "", " ", "\0", "\x1b[31m", "\u202eabc", "x" * 5000),
    *("nan", "inf", "1e999", "-1", "0", "1/0", "3/32 in", "8,26 mm", "1,250", "Ø40", "R0.3", "18T"),
    *("60 deg", "12°30'", "H7", "+0.02 -0.05", "-1 +1", "JS9", "ISO 2768-m", "\ud800", "../../x"),
    *([], {}, [[]], [1, 2, 3], [math.nan], {"kind": "ratchet"}, {"kind": {}}, [{}], None, (1, 2)),
)
STRANGERS = ("od", "z", "kind", "teeth ", "", "\x07", "land", "x" * 3000)
TOLERANCES = ("0.05", "+0.02 -0", "+0.1 +0.02", "h11", "H7", "JS9", "IT7", "F8", "2", "ISO 2768-v")
GENERAL = tuple(f"ISO 2768-{letter}" for letter in "fmcv")


@cache
def schema() -> Schema:
    """The schema of a whole part file."""
    return part_schema()


def part_of(rng: random.Random) -> Keys:
    """A part dictionary: plausible, and in two of five hostile somewhere."""
    part = plausible_part(rng)
    for _ in range(rng.choice((0, 0, 0, 1, 3))):
        _spoil(rng, part)
    return part


def plausible_part(rng: random.Random) -> Keys:
    """A part dictionary as a person might write it, mostly mended until it is allowed."""
    part = _plausible(rng)
    return _mended(part) if rng.random() < 0.9 else part


def _mended(part: Keys) -> Keys:
    """A part without the keys that are told to be wrong, as far as leaving them out helps."""
    for _ in range(8):
        try:
            Part.from_dict(part)
        except InputError as error:
            for problem in error.problems:
                _leave_out(part, problem.where)
        else:
            break
    return part


def _leave_out(part: Keys, where: str) -> None:
    """Take the key of a path out of a part, or the table that lacks it; never the wheel."""
    steps: list[Any] = re.findall(r"[^.\[\]]+", where)
    steps = [int(step) - 1 if step.isdigit() else step for step in steps]
    holders: list[Any] = [part]
    for step in steps[:-1]:
        with suppress(KeyError, IndexError, TypeError):
            holders.append(holders[-1][step])
    for holder, step in list(zip(holders, steps, strict=False))[::-1]:
        if step == "wheel" and holder is part:
            return
        with suppress(KeyError, IndexError, TypeError):
            del holder[step]
            return


def _plausible(rng: random.Random) -> Keys:
    size = math.exp(rng.uniform(math.log(3.0), math.log(200.0)))
    part: Keys = {"title": "ratchet", "wheel": _wheel(rng, size)}
    part["units"] = rng.choice(("mm", "mm", "in"))
    tables = schema()["properties"]
    for name in sorted(tables):
        table = _kind_of(rng, tables[name])
        if name == "wheel" or rng.random() >= OPTIONAL_TABLES.get(name, 0.2):
            continue
        if tables[name].get("type") == "array":
            part[name] = [_named(rng, name, tables[name]["items"], size, n) for n in range(3)]
            del part[name][rng.choice((1, 1, 2, 3)) :]
        elif table.get("type") == "object":
            part[name] = _table(rng, table, size, name)
        elif name not in part and name not in ("drawer", "shop"):
            part[name] = _value(rng, name, table, size)
    _linked(rng, part)
    return part if part["units"] == "mm" or rng.random() < 0.1 else _inches(part)


def _linked(rng: random.Random, part: Keys) -> None:
    """Let what is named be there, mostly: the cutter that is set up, the blank near the wheel."""
    names = [cutter["name"] for cutter in part.get("cutter", [])]
    setup, blank = part.get("setup", {}), part.get("blank", {})
    if "cutter" in setup:
        setup["cutter"] = rng.choice(names) if names else "none"
    if "diameter" in blank:
        blank["diameter"] = part["wheel"]["outside_diameter"] * rng.uniform(0.97, 1.02)


def _inches(value: Any) -> Any:
    """The same lengths written in inches, roughly: whatever is written as a float."""
    match value:
        case dict():
            return {key: one if "angle" in str(key) else _inches(one) for key, one in value.items()}
        case list():
            return [_inches(one) for one in value]
        case float():
            return round(value / 25.4, 4)
        case _:
            return value


def _wheel(rng: random.Random, radius: float) -> Keys:
    """A wheel of which two of land, space angle and root are given, mostly within reason."""
    wheel = _table(rng, _kind_of(rng, schema()["properties"]["wheel"]), radius, "wheel")
    teeth = rng.choice((rng.randint(4, 60), rng.randint(2, 200), rng.randint(6, 30)))
    pitch = 2 * radius * math.sin(math.pi / teeth)
    land = pitch * rng.uniform(0.01, 0.6)
    depth = (pitch - land) * rng.uniform(0.3, 1.5)
    wheel |= {"teeth": teeth, "outside_diameter": 2 * radius}
    given = _triple(rng, radius, 2 * math.asin(pitch / 2 / radius), land, depth)
    for key in ("land", "space_angle", "root_diameter", "tooth_depth"):
        wheel.pop(key, None)
    keys = rng.sample(sorted(given), rng.choice((2, 2, 2, 2, 2, 2, 2, 1, 3)))
    wheel |= {key: round(given[key], rng.choice((1, 2, 3, 6))) for key in keys}
    for key in ("root_radius", "root_flat"):
        if key in wheel:
            wheel[key] = round(pitch * rng.uniform(0.0, 0.2), 3)
    if rng.random() < 0.8:
        wheel.pop(rng.choice(("root_radius", "root_flat")), None)
    wheel["hook_angle"] = rng.choice((0, rng.uniform(-10.0, 20.0)))
    return wheel


def _triple(
    rng: random.Random, radius: float, pitch: float, land: float, depth: float
) -> dict[str, float]:
    """Land, space angle and root of one tooth with a radial face, or of none at all."""
    space = radius * cmath.exp(1j * (pitch - 2 * math.asin(land / 2 / radius)))
    angle = math.degrees(cmath.phase(space - (radius - depth)))
    root = {"root_diameter": 2 * (radius - depth), "tooth_depth": depth}
    key = rng.choice(sorted(root))
    given = {"land": land, "space_angle": angle, key: root[key]}
    return {name: value * rng.choice((1.0, 1.0, 1.0, 0.9, 1.1)) for name, value in given.items()}


def _kind_of(rng: random.Random, found: Schema) -> Schema:
    """One alternative of a schema, where it has several."""
    if "allOf" in found:
        return _kind_of(rng, rng.choice([one["then"] for one in found["allOf"]]))
    if "then" in found and "examples" not in found:
        return _kind_of(rng, rng.choice([{"type": "string"}, found["then"]]))
    return found


def _named(rng: random.Random, table: str, items: Schema, size: float, place: int) -> Keys:
    one = _table(rng, _kind_of(rng, items), size, table)
    if "name" in one:
        one["name"] = f"{table} {place}"
    return one


def _table(rng: random.Random, found: Schema, size: float, table: str) -> Keys:
    required = found.get("required", [])
    share = rng.choice((0.15, 0.4, 0.8))
    return {
        key: _value(rng, key, value, size)
        for key, value in found.get("properties", {}).items()
        if key in required or rng.random() < (0.5 if table == "tolerance" else share)
    }


def _value(rng: random.Random, key: str, found: Schema, size: float) -> Any:
    """A value that a key's schema allows, as big as it usually is."""
    found = _kind_of(rng, found)
    if "const" in found:
        return found["const"]
    if "enum" in found:
        return rng.choice(found["enum"])
    kinds = found.get("type", "object")
    examples = found.get("examples", [])
    match kinds:
        case "boolean":
            return rng.random() < 0.5
        case "integer":
            return _whole(rng, found)
        case "array":
            return _list(rng, key, found, size)
        case "object":
            return _table(rng, found, size, key)
        case "string":
            return rng.choice(("one", "2", "Öse", "x" * 60))
    if "ISO 2768-m" in examples:
        return rng.choice(TOLERANCES)
    if "object" in kinds:
        return _wheel(rng, size)
    if "integer" in kinds:
        return rng.choice((_whole(rng, found), "40:1"))
    return _number(rng, key, examples, size)


def _number(rng: random.Random, key: str, examples: list[Any], size: float) -> Any:
    if any("deg" in str(one) or "min" in str(one) for one in examples) or "angle" in key:
        return rng.choice((rng.uniform(0.0, 90.0), rng.uniform(-10.0, 30.0), "60 deg", "12°30'"))
    if rng.random() < 0.05:
        return rng.choice(examples or [1.0])
    low, high = USUAL.get(key, (0.0, 3.0))
    return round(size * rng.uniform(low, high), rng.choice((1, 2, 3, 6)))


def _whole(rng: random.Random, found: Schema) -> int:
    low, high = found.get("minimum", 1), found.get("maximum", 1000)
    return rng.choice((rng.randint(low, high), rng.randint(low, min(high, low + 40)), low, high))


def _list(rng: random.Random, key: str, found: Schema, size: float) -> list[Any]:
    if "prefixItems" in found:
        return [_value(rng, key, one, size) for one in found["prefixItems"]]
    if key == "points":
        return _edge(rng, size)
    items = found.get("items", {"type": "integer"})
    return [_value(rng, key, items, size) for _ in range(rng.randint(1, 6))]


def _edge(rng: random.Random, size: float) -> list[list[float]]:
    """A drawn edge: up one side over a tip and up the other, or any points at all."""
    if rng.random() < 0.3:
        spots = [[rng.uniform(-1, 1) * size, rng.uniform(-1, 1) * size] for _ in range(5)]
        return [[*spot, rng.choice((0.0, 0.5, -1.0))] for spot in spots]
    width, height, count = size * rng.uniform(0.05, 0.5), size * rng.uniform(0.1, 1.0), 4
    right = [[width * k / count, height * (k / count) ** 1.2] for k in range(count, 0, -1)]
    bulge = rng.choice((0.0, 0.0, 0.1, -0.1))
    return [[*spot, bulge] for spot in (*right, [0.0, 0.0], *([-x, y] for x, y in right[::-1]))]


def _spoil(rng: random.Random, part: Keys) -> None:
    """Put something hostile in one place: a value, a missing key, a key too many, a list."""
    table: Any = part
    for _ in range(8):
        inner = [one for one in _within(table) if isinstance(one, dict | list) and one]
        if not inner or rng.random() < 0.2:
            break
        table = rng.choice(inner)
    if isinstance(table, list):
        table[rng.randrange(len(table))] = rng.choice(HOSTILE)
        return
    key = rng.choice(sorted(table, key=str)) if table else "kind"
    match rng.randrange(6):
        case 0:
            table.pop(key, None)
        case 1:
            table[rng.choice(STRANGERS)] = rng.choice(HOSTILE)
        case 2 if isinstance(table.get(key), float):
            table[key] *= rng.choice((0.0, -1.0, 1e-6, 1e-3, 25.4, 1 / 25.4, 1e3, 1e6))
        case _:
            table[key] = rng.choice(HOSTILE)


def _within(table: Any) -> list[Any]:
    return list(table.values()) if isinstance(table, dict) else list(table)
