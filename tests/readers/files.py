"""The DXF files that outside readers read: jobs, versions, units."""

from __future__ import annotations

from pathlib import Path
from typing import Any, Final

from profilegen.dxf.writing import Version, dxf_bytes
from profilegen.geometry.chain import Contour
from profilegen.job import Job
from profilegen.views.dxf_layers import cutter_layers, part_layers
from tests.parts import double, job, ratchet, single, vee

VERSIONS: Final[tuple[Version, ...]] = ("R12", "R2000", "R2010")
PER_UNIT: Final = {"mm": 1.0, "in": 25.4}
"""mm."""

ROUND: Final[dict[str, Any]] = {"kind": "round", "diameter": 8}
HOLES: Final[dict[str, Any]] = {"count": 5, "circle_diameter": 14, "diameter": 2}

JOBS: Final[dict[str, Job]] = {
    "round bore and holes": job(ratchet(), vee(), bore=ROUND, holes=[HOLES]),
    "square, other hand": job(
        ratchet(hook_angle=5, rotation="counter-clockwise"),
        single(45),
        bore={"kind": "square", "across_flats": 8, "corner_radius": 0.3, "angle": 10},
    ),
    "keyed, sharp root": job(
        ratchet(root_radius=None),
        double(12, 48, tip_radius=0),
        bore={"kind": "keyed", "diameter": 10, "key_width": 3, "key_depth": 1.4},
    ),
    "no bore": job(ratchet(teeth=12, land=1.0), vee()),
}


def part_file(name: str, unit: str, version: Version, folder: Path) -> Path:
    """The file to send, written; `unit` is `mm` or `in`."""
    return _written(dxf_bytes(part_layers(JOBS[name]), _unit(unit), version), folder)


def cutter_file(name: str, unit: str, version: Version, folder: Path) -> Path:
    """The file to keep, with the cutters in it, written."""
    return _written(dxf_bytes(cutter_layers(JOBS[name]), _unit(unit), version), folder)


def contours_of(name: str) -> tuple[Contour, ...]:
    """The contours that the file to send must hold, in order."""
    return JOBS[name].wheel.contours


def _unit(unit: str) -> Any:
    return unit


def _written(data: bytes, folder: Path) -> Path:
    path = folder / "wheel.dxf"
    path.write_bytes(data)
    return path
