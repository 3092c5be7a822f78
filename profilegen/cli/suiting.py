"""Values that suit the wheel asked for, not the one in the starter.

The defaults of questions and their limits, as far as the answers before settle them. A default is
only offered: nothing here is put into a file unasked.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from contextlib import suppress
from typing import TYPE_CHECKING, Any, Final, cast

from profilegen.errors import InputError
from profilegen.findings.cannot_make import CannotMakeError
from profilegen.part.missing_lines import USUAL
from profilegen.units import MM_PER_INCH, Unit, UnitsError, parse_length

if TYPE_CHECKING:
    from profilegen.cli.answers import Key

Tables = Mapping[str, Any]
Sizes = Mapping[str, float]
"""Name -> mm or rad, of what is settled so far."""

_LIKE: Final = {
    "wheel.thickness": "outside_diameter",
    "wheel.land": "pitch",
    "wheel.tooth_depth": "pitch",
    "wheel.root_radius": "pitch",
    "bore.diameter": "root_diameter",
    "bore.across_flats": "root_diameter",
    "bore.key_width": "bore_diameter",
    "bore.key_depth": "bore_diameter",
    "bore.flat_to_far_side": "bore_diameter",
    "cutter.tip_radius": "pitch",
}
"""Key -> what its default grows with."""

_BELOW: Final[Mapping[str, Callable[[Sizes], float]]] = {
    "wheel.land": lambda sizes: sizes["pitch"],
    "wheel.root_diameter": lambda sizes: sizes["outside_diameter"],
    "wheel.tooth_depth": lambda sizes: sizes["outside_diameter"] / 2,
    "bore.diameter": lambda sizes: sizes["root_diameter"],
    "bore.across_flats": lambda sizes: sizes["root_diameter"],
    "bore.key_width": lambda sizes: sizes["bore_diameter"],
    "bore.flat_to_far_side": lambda sizes: sizes["bore_diameter"],
}
"""Key -> what it must be less than, mm, whatever else is asked for."""


def below(given: Tables, table: str, key: str, unit: Unit) -> float | None:
    """What a length must be less than, mm, by the answers so far; None where they do not say."""
    limit = _BELOW.get(f"{table}.{key}")
    with suppress(KeyError):
        return limit(_sizes(given, unit)) if limit else None
    return None


def suited(shown: object, key: Key, starter: Tables, given: Tables) -> object:
    """A default that suits the answers so far, as a part file has it: a length in the unit of the
    key, an angle in degrees.

    Args:
        shown: that of the starter, or None; it is returned where the answers do not speak of it.
        key: what is asked for.
        starter: its tables.
        given: the answers, by table.
    """
    like, here = _sizes(starter, key.unit), _sizes(given, key.unit)
    with suppress(KeyError, UnitsError):
        match f"{key.table}.{key.name}":
            case "wheel.root_diameter":
                depth = (like["outside_diameter"] - _mm(shown, key.unit)) / like["pitch"]
                size = here["outside_diameter"] - depth * here["pitch"]
                return number(size, key.unit, 4) if _differ(like, here, "pitch") else shown
            case "cutter.included_angle" | "cutter.angle":
                return (
                    _degrees(here)
                    if _differ(like, here, "space_angle")
                    else shown or _degrees(here)
                )
            case "cutter.name" if key.kind == "vee" and _differ(like, here, "space_angle"):
                return f"{_degrees(here)} degree point"
            case "cutter.tip_radius" if "root_radius" in given.get("wheel", {}):
                return given["wheel"]["root_radius"]
            case where if where in _LIKE:
                return _grown(shown, key.unit, where, like, here)
    return shown


def _grown(shown: object, unit: Unit, where: str, like: Sizes, here: Sizes) -> object:
    """A size of the starter, or a usual one, grown as the wheel has grown."""
    by = _LIKE[where]
    if shown is not None and not _differ(like, here, by):
        return shown
    usual = USUAL.get(where)
    size = _mm(shown, unit) if shown is not None else usual
    return number(cast(float, size) * here[by] / like[by], unit) if size is not None else None


def _differ(like: Sizes, here: Sizes, name: str) -> bool:
    return not math.isclose(like[name], here[name], rel_tol=1e-9)


def _degrees(here: Sizes) -> int | float:
    """The space angle in whole degrees, or as it is where that is none: never more."""
    degrees = math.degrees(here["space_angle"])
    return math.floor(degrees + 1e-6) if degrees >= 1 else round(degrees, 2)


def _mm(value: object, unit: Unit) -> float:
    return parse_length(cast("str | float", value), unit)


def number(mm: float, unit: Unit, digits: int = 2) -> float:
    """A size in a unit, of so many digits that count."""
    size = mm / float(MM_PER_INCH) if unit == "in" else mm
    return float(f"{size:.{digits}g}")


def _sizes(tables: Tables, unit: Unit) -> Sizes:
    """What the tables of a part settle, so far as they go."""
    found: dict[str, float] = {}
    wheel, bore = tables.get("wheel", {}), tables.get("bore", {})
    with suppress(KeyError, UnitsError):
        found["bore_diameter"] = _mm(bore["diameter"], unit)
    with suppress(KeyError, UnitsError):
        found["outside_diameter"] = _mm(wheel["outside_diameter"], unit)
        found["pitch"] = math.pi * found["outside_diameter"] / wheel["teeth"]
    from profilegen.forms.solve import solve
    from profilegen.part.part import Part

    with suppress(InputError, CannotMakeError):
        solved = solve(Part.from_dict({"units": unit, "wheel": wheel}))
        found["outside_diameter"] = 2 * solved.radius
        found["pitch"] = math.pi * found["outside_diameter"] / max(solved.teeth, 1)
        known = {key: solved.fact(key, None) for key in ("root_diameter", "space_angle")}
        found |= {key: size for key, size in known.items() if size is not None}
    return found
