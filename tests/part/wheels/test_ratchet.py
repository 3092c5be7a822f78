"""The rules between the keys of a ratchet: what is there, what to add, what to take out."""

from __future__ import annotations

from typing import Any

import pytest
from pydantic import ValidationError

from profilegen.forms.ratchet import Ratchet
from profilegen.part.part import Part
from tests.part.samples import only, problems, wheel

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


@pytest.mark.parametrize("zero", [0, 0.0, "0", "0 mm", "0.000 in"])
@pytest.mark.parametrize("key", ["root_radius", "root_flat"])
def test_a_root_of_0_is_one_left_out(key: str, zero: object) -> None:
    """0 says what leaving the key out says: drawn sharp, with no limit; the other form may stand
    beside it."""
    other = "root_flat" if key == "root_radius" else "root_radius"
    keys = {"root_radius": None, **_sizes("land", "space_angle")}
    left_out, at_zero = wheel(**keys), wheel(**{**keys, key: zero})
    assert Part.from_dict(at_zero).wheel == Part.from_dict(left_out).wheel
    beside = Part.from_dict(wheel(**{**keys, key: zero, other: 0.2})).wheel
    assert isinstance(beside, Ratchet)
    assert getattr(beside, other) == 0.2


def test_a_root_of_0_cannot_be_exact() -> None:
    """`root_exact` wants a radius, and there is none."""
    assert only(wheel(root_radius=0, root_exact=True)).where == "wheel.root_exact"


def test_a_guessed_key_makes_no_second_problem() -> None:
    """An unknown key that is near a known one is told by itself: no rule is broken by a guess."""
    problem = only(wheel(space_angle=60, land=0.4, root_diametre=34))
    assert problem.where == "wheel.root_diametre"
    assert only(wheel(space_angle=60, land=None, lnad=0.4)).where == "wheel.lnad"


def test_a_rule_broken_with_and_without_the_guess_is_told() -> None:
    """Three sizes are one too many whatever the unknown key is."""
    three = _sizes("space_angle", "land", "root_diameter")
    found = problems(wheel(**three, hook_anlge=5))
    assert [problem.where for problem in found] == ["wheel.hook_anlge", "wheel"]
