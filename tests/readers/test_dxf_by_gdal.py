"""DXF read by GDAL, which did not write it, as strings of short chords.

Tolerance: a chord over an angle d of an arc of radius r and sweep s leaves out at most r^2 s d^2 /
    12 of
its area; GDAL is told d = 0.05 degrees.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from pathlib import Path

import numpy as np
import pyogrio
import pytest
import shapely

from profilegen.dxf.writing import Version
from profilegen.geometry.arcs import radii, sweeps
from profilegen.geometry.chain import Contour
from profilegen.geometry.measure import area
from tests.readers.files import JOBS, PER_UNIT, VERSIONS, contours_of, cutter_file, part_file

STEP_DEG = 0.05


@pytest.fixture(autouse=True)
def _short_chords() -> Iterator[None]:
    """Have arcs read as chords over 0.05 degrees, for the one test only."""
    pyogrio.set_gdal_config_options({"OGR_ARC_STEPSIZE": str(STEP_DEG)})
    yield
    pyogrio.set_gdal_config_options({"OGR_ARC_STEPSIZE": None})


def read(path: Path) -> list[tuple[str, shapely.Geometry]]:
    """Layer and shape of every entity, in order."""
    meta, _, shapes, fields = pyogrio.raw.read(path)
    layers = fields[list(meta["fields"]).index("Layer")]
    return list(zip(layers, shapely.from_wkb(shapes), strict=True))


def left_out(contour: Contour) -> float:
    """Greatest area between the contour and GDAL's chords, mm2."""
    arcs = contour.bulges != 0.0
    starts, ends, bulges = contour.starts[arcs], contour.ends[arcs], contour.bulges[arcs]
    radius, sweep = radii(starts, ends, bulges), np.abs(sweeps(bulges))
    return float(np.sum(radius**2 * sweep)) * math.radians(STEP_DEG) ** 2 / 12


@pytest.mark.parametrize("version", VERSIONS)
@pytest.mark.parametrize("unit", PER_UNIT)
@pytest.mark.parametrize("name", JOBS)
def test_every_contour_is_one_closed_shape_of_the_right_area(
    name: str, unit: str, version: Version, tmp_path: Path
) -> None:
    """One closed string a contour, on its layer, with the contour's area in the file's unit."""
    found, wanted = read(part_file(name, unit, version, tmp_path)), contours_of(name)
    assert [layer for layer, _ in found] == ["OUTLINE", *["HOLES"] * (len(wanted) - 1)]
    for (_, shape), contour in zip(found, wanted, strict=True):
        points = shapely.get_coordinates(shape)
        assert points[0] == pytest.approx(points[-1], abs=1e-12)
        size = shapely.Polygon(points).area * PER_UNIT[unit] ** 2
        assert size == pytest.approx(abs(area(contour)), abs=left_out(contour) + 1e-9)


@pytest.mark.parametrize("unit", PER_UNIT)
def test_part_is_the_outline_less_its_holes(unit: str, tmp_path: Path) -> None:
    """The face of the whole wheel, holes taken off, is the package's."""
    name = "round bore and holes"
    (_, outline), *holes = read(part_file(name, unit, "R2010", tmp_path))
    rings = [shapely.get_coordinates(shape) for _, shape in holes]
    face = shapely.Polygon(shapely.get_coordinates(outline), rings)
    contours = contours_of(name)
    assert face.is_valid
    assert face.area * PER_UNIT[unit] ** 2 == pytest.approx(
        sum(area(one) for one in contours), abs=sum(left_out(one) for one in contours) + 1e-9
    )


@pytest.mark.exhaustive
@pytest.mark.parametrize("name", JOBS)
def test_cutters_touch_the_wheel_and_stand_in_no_tooth(name: str, tmp_path: Path) -> None:
    """Every silhouette of the file to keep is one closed string outside the outline read with
    it."""
    found = read(cutter_file(name, "mm", "R2010", tmp_path))
    outline = shapely.Polygon(shapely.get_coordinates(found[0][1]))
    tools = [
        shapely.Polygon(shapely.get_coordinates(s)) for n, s in found if n.startswith("CUTTER")
    ]
    made = JOBS[name]
    assert len(tools) == made.wheel.teeth * len(made.plan.cuts)
    for tool in tools:
        assert tool.is_valid
        assert outline.intersection(tool).area < 1e-4
        assert outline.distance(tool) < 1e-6
