"""The values behind a `#` in a file that was asked for: samples that suit its wheel.

Each is tried on the wheel as if its `#` were taken away. One that makes a refusal or a caution is
not shown, and with it the keys that belong to it.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from dataclasses import replace
from typing import TYPE_CHECKING, Any, Final

from profilegen.cli.answers import literal
from profilegen.cli.filling import Samples
from profilegen.cli.suiting import number
from profilegen.errors import InputError
from profilegen.findings.cannot_make import CannotMakeError
from profilegen.job import Job, job_for
from profilegen.part.checking import check_table

if TYPE_CHECKING:
    from profilegen.part.part import Part

Table = Mapping[str, Any]

_SIZES: Final = ("space_angle", "land", "root_diameter", "tooth_depth")
_SPUN: Final = ("sweep_diameter", "holder_diameter", "relief_angle", "edge_thickness")
_GRIP: Final = ("chuck_diameter", "jaw_diameter", "jaw_length")
_TOOTH: Final = ("land", "tooth_thickness")
"""Of the tooth's own size, whichever the starter shows."""

_OF_WHEEL: Final[Mapping[str, tuple[str, ...]]] = {
    "wheel": (*_SIZES, "root_radius"),
    "tolerance": _TOOTH,
    "gauge": ("pin", "span_teeth"),
    "cutter": (*_SPUN, "relief_ground"),
    "setup": ("cutter", "centre_height", *_GRIP),
    "blank": ("diameter", "bar_diameter"),
    "dividing": ("kind", "holes", "vernier", "dial_increases", "way"),
}
"""The samples that suit one wheel and not another."""


def samples_for(job: Job | None, shown: Mapping[str, Table], given: Mapping[str, Table]) -> Samples:
    """The samples for a job; none of those that depend on the wheel where there is no job.

    Lengths are in the unit of the part, written as TOML.

    Args:
        job: what the answers make, or None.
        shown: those of the starter, by table.
        given: the answers, by table.
    """
    found: dict[str, dict[str, str | None]] = {
        table: dict.fromkeys(keys) for table, keys in _OF_WHEEL.items()
    }
    if job is None:
        return found
    found["wheel"] |= _sizes(job)
    known = {one.code for one in job.findings if one.severity != "note"}
    for table, tries in _tries(job, shown):
        for extra in tries:
            if _suits(job.part, table, given.get(table, {}), extra, known):
                found[table] |= {key: literal(value) for key, value in extra.items()}
                break
    return found


def _sizes(job: Job) -> dict[str, str]:
    """The sizes of the tooth that were not given, as solved."""
    if job.wheel.fact("space_angle", None) is None:
        return {}
    unit = job.part.units
    lengths = {key: number(job.wheel.fact(key), unit, 4) for key in _SIZES[1:]}
    angle = round(math.degrees(job.wheel.fact("space_angle")), 3)
    return {"space_angle": literal(f"{angle:g} deg")} | {k: literal(v) for k, v in lengths.items()}


def _tries(job: Job, shown: Mapping[str, Table]) -> Iterator[tuple[str, list[dict[str, Any]]]]:
    """What to try in each table, the first that suits counts; of a wheel that no cutter is set up
    for only the dividing hardware."""
    if not job.wheel.is_toothed:
        yield "dividing", [dict(shown["dividing"])]
        return
    part, unit, outside = job.part, job.part.units, 2 * job.wheel.radius
    gauges = job.gauges
    depth = job.wheel.fact("tooth_depth", None)
    if depth is not None:
        yield "wheel", [{"root_radius": number(0.1 * depth, unit)}]
    yield (
        "tolerance",
        [{key: shown["tolerance"][key]} for key in _TOOTH if key in shown["tolerance"]],
    )
    yield "gauge", [{"pin": number(gauges.pin, unit, 4)}] if gauges.pin else []
    yield "gauge", [{"span_teeth": gauges.span_teeth}]
    yield "cutter", [{key: shown["cutter"][key] for key in _SPUN}]
    yield "cutter", [{"relief_ground": shown["cutter"]["relief_ground"]}]
    yield "setup", [{"cutter": part.cutters[0].name}] if part.cutters else []
    yield "setup", [{"centre_height": shown["setup"]["centre_height"]}]
    grown = dict(zip(_GRIP, (2.5 * outside, 1.5 * outside, 0.75 * outside), strict=True))
    yield "setup", [{key: number(size, unit) for key, size in grown.items()}]
    yield "blank", [{"diameter": number(outside, unit, 6)}]
    yield "blank", [{"bar_diameter": number(outside, unit, 6)}]
    plate = dict(shown["dividing"])
    own = plate | {"holes": job.wheel.teeth * -(-24 // job.wheel.teeth)}
    del own["vernier"]
    yield "dividing", [plate, own]


def _suits(part: Part, table: str, given: Table, extra: Table, known: set[str]) -> bool:
    """Whether keys added to a table pass the checks and bring no new refusal or caution."""
    checked = check_table(table, table, {**given, **extra}, part.units).table
    if checked is None:
        return False
    changed: dict[str, Any] = {table: checked}
    if table == "cutter":
        update = {key: getattr(checked, key) for key in extra}
        changed = {"cutters": (part.cutters[0].model_copy(update=update),)}
    try:
        job = job_for(replace(part, **changed))
    except (InputError, CannotMakeError):
        return False
    return all(one.code in known for one in job.findings if one.severity != "note")
