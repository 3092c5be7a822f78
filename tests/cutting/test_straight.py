"""Land against infeed, by closed form and by cutting a blank with polygons."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest
from shapely.geometry import Polygon
from shapely.geometry.base import BaseGeometry

from profilegen.geometry.chain import circle
from profilegen.geometry.moves import Move, moved
from tests.cutting.straight import land_at
from tests.cutting.test_cut_by_boolean import polygon
from tests.parts import job, ratchet, single, vee

CUTS: list[tuple[dict[str, Any], dict[str, Any]]] = [
    ({}, vee(60)),
    ({"hook_angle": 6}, single(60)),
    ({"rotation": "counter-clockwise"}, vee(45)),
]


@pytest.mark.parametrize(("wheel", "cutter"), CUTS)
def test_full_depth_leaves_the_land_of_the_print(
    wheel: dict[str, Any], cutter: dict[str, Any]
) -> None:
    """With nothing to go the land is the wheel's."""
    made = job(ratchet(**wheel), cutter)
    assert land_at(made.wheel, made.plan.cuts, 0.0) == pytest.approx(0.4, abs=1e-12)


@pytest.mark.parametrize(("wheel", "cutter"), CUTS)
def test_land_short_of_depth_is_what_a_cut_blank_shows(
    wheel: dict[str, Any], cutter: dict[str, Any]
) -> None:
    """Two neighbouring spaces cut short leave, along the rim, the land of the closed form."""
    made = job(ratchet(**wheel), cutter)
    remaining = 0.3
    blank: BaseGeometry = polygon(circle(0, made.wheel.radius))
    for cut in made.plan.cuts:
        lift = remaining if cut is made.plan.cuts[-1] else 0.0
        tool = moved(cut.silhouette(), Move(shift=1j * lift))
        for stop in (0, 1):
            blank = blank.difference(polygon(moved(tool, cut.wheel_from_setup(made.wheel, stop))))
    assert isinstance(blank, Polygon)
    rim = np.array([complex(*xy) for xy in blank.exterior.coords[:-1]])
    rim = rim[np.abs(rim) > made.wheel.radius * (1 - 1e-7)]
    angles = np.sort(np.angle(rim))
    gaps = np.diff(angles, append=angles[0] + 2 * np.pi)
    first, second = np.flatnonzero(gaps > 0.05)
    runs = angles[second] - angles[first + 1], angles[first] - angles[(second + 1) % len(angles)]
    land = 2 * made.wheel.radius * np.sin(min(run % (2 * np.pi) for run in runs) / 2)
    assert land == pytest.approx(land_at(made.wheel, made.plan.cuts, remaining), abs=1e-5)


@pytest.mark.parametrize(
    ("angle", "rate"), [(45, 0.88), (60, 1.27), (70, 1.54)]
)  # derived for R 12.7, radial face, flat on the face, depth near 2 mm; no published source
def test_land_changes_with_depth_as_the_workshop_table_says(angle: float, rate: float) -> None:
    """Land lost a millimetre of depth for three cutter angles."""
    wheel = ratchet(teeth=20, land=None, tooth_depth=2.0, space_angle=angle, root_radius=None)
    made = job(wheel, single(angle, tip_radius=0))
    step = 0.01
    low = land_at(made.wheel, made.plan.cuts, -step)
    high = land_at(made.wheel, made.plan.cuts, step)
    assert (high - low) / (2 * step) == pytest.approx(rate, abs=0.02)


def test_clear_of_the_blank_is_told() -> None:
    """Lifted out of the blank there is no land to speak of."""
    made = job(ratchet(), single(60))
    with pytest.raises(ValueError, match="clear of the blank"):
        land_at(made.wheel, made.plan.cuts, 30.0)
