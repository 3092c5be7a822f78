"""The parts that tests start from: dictionaries in the shape of a part file, mm and degrees."""

from __future__ import annotations

from typing import Any

from profilegen.job import Job, job_for
from profilegen.part.base import ToothedTable
from profilegen.part.part import Part

Keys = dict[str, Any]


def ratchet(**changes: Any) -> Keys:
    """A plain ratchet; a key set to None is left out."""
    wheel: Keys = {
        "kind": "ratchet",
        "teeth": 30,
        "outside_diameter": 25.4,
        "thickness": 3.0,
        "space_angle": 60,
        "land": 0.4,
        "root_radius": 0.2,
    }
    wheel.update(changes)
    return {key: value for key, value in wheel.items() if value is not None}


def vee(angle: float = 60, **changes: Any) -> Keys:
    """A symmetric cutter with a nose of 0.2 mm."""
    return {"name": "vee", "kind": "vee", "included_angle": angle, "tip_radius": 0.2, **changes}


def single(angle: float = 60, **changes: Any) -> Keys:
    """A single-angle cutter with a nose of 0.2 mm."""
    return {"name": "single", "kind": "single-angle", "angle": angle, "tip_radius": 0.2, **changes}


def double(steep: float, slack: float, **changes: Any) -> Keys:
    """A double-angle cutter with a nose of 0.2 mm."""
    angles = [steep, slack]
    return {
        "name": "double",
        "kind": "double-angle",
        "angles": angles,
        "tip_radius": 0.2,
        **changes,
    }


def teeth_of(wheel: object) -> int:
    """The count that a `[wheel]` table with teeth gives."""
    assert isinstance(wheel, ToothedTable)
    return wheel.teeth


def part(wheel: Keys | None = None, *cutters: Keys, units: str = "mm", **tables: Any) -> Part:
    """A part from its tables."""
    mapping: Keys = {
        "title": "take-up ratchet",
        "units": units,
        "wheel": wheel or ratchet(),
        **tables,
    }
    if cutters:
        mapping["cutter"] = list(cutters)
    return Part.from_dict(mapping)


def job(wheel: Keys | None = None, *cutters: Keys, **tables: Any) -> Job:
    """The job of a part from its tables."""
    return job_for(part(wheel, *cutters, **tables))
