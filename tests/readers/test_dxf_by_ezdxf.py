"""DXF read again by ezdxf: units, layers, one polyline a contour, bulges to the last digit.

ezdxf also wrote the file, so what stands here is that nothing is lost on the way; GDAL is the
reader from outside.
"""

from __future__ import annotations

import io
from pathlib import Path
from typing import Any

import ezdxf
import numpy as np
import pytest

from profilegen.dxf.writing import Version
from profilegen.geometry.chain import Contour
from profilegen.geometry.measure import bounds
from tests.readers.files import JOBS, PER_UNIT, VERSIONS, contours_of, cutter_file, part_file

UNITS = {"mm": (4, 1), "in": (1, 0)}
"""`$INSUNITS` and `$MEASUREMENT`: DXF reference, header section, from memory."""

every_version = pytest.mark.parametrize("version", VERSIONS)
every_unit = pytest.mark.parametrize("unit", PER_UNIT)
every_job = pytest.mark.parametrize("name", JOBS)


def rows(entity: Any) -> np.ndarray:
    """The x, y, bulge of a closed polyline of either kind."""
    if entity.dxftype() == "LWPOLYLINE":
        return np.array(list(entity.get_points("xyb")))
    return np.array([(*v.dxf.location.vec2, v.dxf.bulge) for v in entity.vertices])


def is_circle(contour: Contour) -> bool:
    """Whether the contour is two half turns."""
    return len(contour) == 2 and bool(np.all(np.abs(contour.bulges) == 1.0))


@every_version
@every_unit
@every_job
def test_contours_verbatim(name: str, unit: str, version: Version, tmp_path: Path) -> None:
    """One closed polyline a contour with its bulges as they are, a CIRCLE for a round one."""
    document = ezdxf.readfile(part_file(name, unit, version, tmp_path))
    entities: list[Any] = list(document.modelspace())
    scale = PER_UNIT[unit]
    for entity, contour in zip(entities, contours_of(name), strict=True):
        if is_circle(contour):
            assert entity.dxftype() == "CIRCLE"
            assert entity.dxf.radius * scale == pytest.approx(
                bounds(contour)[2] - entity.dxf.center.x * scale
            )
            continue
        assert entity.dxftype() == ("POLYLINE" if version == "R12" else "LWPOLYLINE")
        assert entity.is_closed if version == "R12" else entity.closed
        read = rows(entity)
        assert np.array_equal(read[:, 2], contour.bulges)
        points = read[:, 0] + 1j * read[:, 1]
        assert np.max(np.abs(points * scale - contour.points)) < 1e-13


@every_version
@every_unit
def test_units_and_extents(unit: str, version: Version, tmp_path: Path) -> None:
    """The header says the unit where the version can, and the true extents always."""
    document = ezdxf.readfile(part_file("round bore and holes", unit, version, tmp_path))
    if version != "R12":
        assert (document.header["$INSUNITS"], document.header["$MEASUREMENT"]) == UNITS[unit]
        assert document.units == UNITS[unit][0]
    box = np.array(bounds(contours_of("round bore and holes")[0])) / PER_UNIT[unit]
    assert document.header["$EXTMIN"][:2] == pytest.approx(tuple(box[:2]), abs=1e-12)
    assert document.header["$EXTMAX"][:2] == pytest.approx(tuple(box[2:]), abs=1e-12)


@every_unit
def test_r12_says_its_unit_in_a_comment(unit: str, tmp_path: Path) -> None:
    """R12 carries no units, so its first lines say them to whoever opens it as text."""
    text = part_file("no bore", unit, "R12", tmp_path).read_text()
    assert text.startswith("999\n")
    assert {"mm": "millimetres", "in": "inches"}[unit] in text.splitlines()[1]


@every_version
def test_layers(version: Version, tmp_path: Path) -> None:
    """Fixed layer names, all colour 7 and continuous, each entity by layer."""
    document = ezdxf.readfile(cutter_file("round bore and holes", "mm", version, tmp_path))
    names = ["OUTLINE", "HOLES", "CUTTER-NOT-FOR-CUTTING"]
    for name in names:
        layer = document.layers.get(name)
        assert layer.color == 7
        assert layer.dxf.linetype.upper() == "CONTINUOUS"
    used = [entity.dxf.layer for entity in document.modelspace()]
    assert sorted(set(used), key=names.index) == names
    assert used == sorted(used, key=names.index)
    assert all(entity.dxf.color == 256 for entity in document.modelspace())


@every_version
@every_job
def test_file_to_send_holds_no_cutter(name: str, version: Version, tmp_path: Path) -> None:
    """Nothing but outline and holes is in the file that a vendor cuts."""
    document = ezdxf.readfile(part_file(name, "mm", version, tmp_path))
    assert {entity.dxf.layer for entity in document.modelspace()} <= {"OUTLINE", "HOLES"}
    assert not document.layers.has_entry("CUTTER-NOT-FOR-CUTTING")


@every_version
@every_unit
@every_job
def test_audit_is_clean(name: str, unit: str, version: Version, tmp_path: Path) -> None:
    """The library's audit finds no error and mends nothing."""
    audit = ezdxf.readfile(cutter_file(name, unit, version, tmp_path)).audit()
    assert not audit.errors
    assert not audit.fixes


@every_version
def test_reading_from_text_changes_nothing(version: Version, tmp_path: Path) -> None:
    """Read, written and read again, the file holds the same shapes."""
    first = ezdxf.readfile(part_file("keyed, sharp root", "mm", version, tmp_path))
    stream = io.StringIO()
    first.write(stream)
    second = ezdxf.read(io.StringIO(stream.getvalue()))
    for one, other in zip(first.modelspace(), second.modelspace(), strict=True):
        assert np.array_equal(rows(one), rows(other))
