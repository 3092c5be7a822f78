"""Things far too small to be seen, on paper and in drawings: everything is made all the same."""

from __future__ import annotations

from typing import Any

import pytest

from profilegen.geometry.moves import SPECK
from profilegen.output.registry import OUTPUTS, Options, build
from tests.parts import job, ratchet, vee

BIG = ratchet(teeth=60, outside_diameter=3000.0, land=10.0, thickness=30.0)
"""A wheel so big that a sheet shows it at less than a hundredth of its size."""

TINY: dict[str, dict[str, Any]] = {
    "corner": {"bore": {"kind": "square", "across_flats": 90.0, "corner_radius": 1e-6}},
    "hole": {"holes": [{"count": 3, "circle_diameter": 500.0, "diameter": 1e-6}]},
    "bore": {"bore": {"kind": "round", "diameter": 1e-6}},
    "root": {"wheel": BIG | {"root_radius": None, "root_flat": 1e-6}},
    "edge": {"cutters": [{"name": "d", "kind": "drawn", "points": [
        [60.0, 90.0], [0.0, 0.0], [-1e-6, 0.0], [-60.0, 90.0]]}]},
    "nose": {"cutters": [vee(60, tip_radius=1e-6)]},
}  # fmt: skip


@pytest.mark.parametrize("name", TINY)
def test_a_size_of_a_millionth_on_a_wheel_of_three_metres(name: str) -> None:
    """Drawn to scale its segments are shorter than any curve may have, `SPECK` and less; only
    templates are drawn to the scale that is asked for."""
    assert SPECK > 1e-6 * 25.4 / 3000
    tables = {"wheel": BIG, "cutters": [vee(60)]} | TINY[name]
    wheel = {key: value for key, value in tables.pop("wheel").items() if value is not None}
    made = job(wheel, *tables.pop("cutters"), **tables)
    for kind, output in OUTPUTS.items():
        if made.plan.cuts or not output.needs_cut:
            for scale in (0.1, 1.0) if "template" in kind else (1.0,):
                assert build(made, kind, Options(scale=scale)).data
