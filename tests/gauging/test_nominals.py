"""With nothing measured and no tolerance given, every nominal lies within its own limits."""

from __future__ import annotations

import random
from typing import Any

import pytest

from profilegen.errors import InputError
from profilegen.findings.cannot_make import CannotMakeError
from profilegen.job import job_for
from profilegen.part.part import Part

WHEELS = 150
"""Random wheels of each kind."""


def random_ratchet(dice: random.Random) -> dict[str, Any]:
    """A ratchet of plausible sizes."""
    outside = dice.choice((12.7, 20.0, 40.0, 120.0)) * dice.uniform(0.7, 1.4)
    teeth = dice.randint(8, 60)
    return {
        "kind": "ratchet",
        "teeth": teeth,
        "outside_diameter": outside,
        "thickness": outside / 8,
        "space_angle": dice.uniform(40, 100),
        "land": outside / teeth * dice.uniform(0.1, 0.6),
        "hook_angle": dice.uniform(-5, 12),
        "root_radius": 0.005 * outside,
    }


def random_serrated(dice: random.Random) -> dict[str, Any]:
    """A serrated wheel of plausible sizes."""
    keys = random_ratchet(dice)
    del keys["hook_angle"]
    return {**keys, "kind": "serrated"}


@pytest.mark.exhaustive
@pytest.mark.parametrize("make", [random_ratchet, random_serrated])
def test_every_nominal_lies_within_its_limits(make: Any) -> None:
    """All sizes of all wheels of a kind that can be made, with and without a cutter."""
    dice, made = random.Random(7), 0
    for _ in range(WHEELS):
        keys = make(dice)
        angle = keys["space_angle"] if dice.random() < 0.6 else 0.7 * keys["space_angle"]
        cutter = {"name": "v", "kind": "vee", "included_angle": angle, "tip_radius": 0.0}
        tables: dict[str, Any] = {"units": "mm", "wheel": keys}
        if dice.random() < 0.7:
            tables["cutter"] = [cutter]
        try:
            gauges = job_for(Part.from_dict(tables)).gauges
        except (CannotMakeError, InputError):
            continue
        made += 1
        outside = [one.key for one in gauges.features if not one.limits.has_nominal]
        assert outside == [], keys
    assert made > WHEELS / 4
