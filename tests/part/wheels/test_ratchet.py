"""The rules between the keys of a ratchet: what is there, what to add, what to take out."""

from __future__ import annotations

from typing import Any

import pytest
from pydantic import ValidationError

from profilegen.part.part import Part
from profilegen.part.wheels.ratchet import Ratchet
from tests.part.samples import only, wheel

SIZES = {"space_angle": 60, "land": 0.4, "root_diameter": 34, "tooth_depth": 2}


def _sizes(*names: str) -> dict[str, Any]:
    return {key: value if key in names else None for key, value in SIZES.items()}


@pytest.mark.parametrize(
    "names",
    [
        ("space_angle", "land"),
        ("space_angle", "root_diameter"),
        ("space_angle", "tooth_depth"),
        ("land", "root_diameter"),
        ("land", "tooth_depth"),
    ],
)
def test_any_two_sizes_are_enough(names: tuple[str, str]) -> None:
    """Two of land, space angle and depth describe the space."""
    part = Part.from_dict(wheel(**_sizes(*names)))
    assert {key for key in SIZES if getattr(part.wheel, key) is not None} == set(names)


@pytest.mark.parametrize(
    ("names", "words"),
    [
        ((), "add two of them"),
        (("land",), "only land is given"),
        (("land",), "add space_angle, root_diameter or tooth_depth"),
        (("root_diameter",), "add space_angle or land"),
        (("space_angle", "land", "root_diameter"), "take out one of space_angle, land or root_d"),
        (("space_angle", "land", "tooth_depth"), "two of them fix the third"),
        (("land", "root_diameter", "tooth_depth"), "say the same thing twice"),
        (("root_diameter", "tooth_depth"), "take out one of them, then add space_angle or land"),
    ],
)
def test_other_counts_are_told_with_what_to_do(names: tuple[str, ...], words: str) -> None:
    """The message names what is there and the hint what to add or take out."""
    problem = only(wheel(**_sizes(*names)))
    assert problem.where in ("wheel", "wheel.tooth_depth")
    assert words in str(problem)


@pytest.mark.parametrize(
    ("keys", "where"),
    [
        ({"root_flat": 0.2}, "wheel.root_flat"),
        ({"root_radius": None, "root_exact": True}, "wheel.root_exact"),
        ({"root_radius": None, "root_flat": 0.2, "root_exact": True}, "wheel.root_exact"),
    ],
)
def test_a_root_has_one_form(keys: dict[str, Any], where: str) -> None:
    """A radius or a flat, and `root_exact` only beside a radius."""
    assert only(wheel(**keys)).where == where


def test_the_model_alone_keeps_the_same_rules() -> None:
    """A model made in Python, without a file, refuses what a file is refused for."""
    keys = {"kind": "ratchet", "teeth": 30, "outside_diameter": 38, "thickness": 4, "land": 0.4}
    with pytest.raises(ValidationError, match="only land is given"):
        Ratchet.model_validate(keys)
    assert Ratchet.model_validate({**keys, "space_angle": 60}).land == 0.4
