"""What the attack found, each as a case of its own, and a few cases of every sort."""

from __future__ import annotations

import json
import random
from typing import Any

import pytest

from profilegen.errors import ProfilegenError
from profilegen.findings.cannot_make import CannotMakeError
from profilegen.part.load import loads
from profilegen.part.part import Part
from tests.attack.__main__ import main
from tests.attack.drawings import drawing_of
from tests.attack.sorts import SORTS, case_of
from tests.attack.texts import text_of
from tests.part.samples import take_up, wheel
from tests.parts import job, ratchet

_DRAWN = {"name": "drawn", "kind": "drawn"}

TOLD: list[tuple[dict[str, Any], str]] = [
    (take_up(**{"\x07": 1}), r"\x07"),
    (wheel(**{"\x1b[31m": 1}), r"wheel.\x1b[31m"),
    (take_up(**{"": 1}), '""'),
    (take_up(cutter=[_DRAWN | {"points": [[4, 6], [0, 0, 10**400], [-4, 6]]}]), "cutter[1].points"),
]
"""Part dictionaries that were told badly, and the path at which they are told."""


@pytest.mark.parametrize(("part", "where"), TOLD)
def test_what_was_found_is_told_in_signs_that_can_be_printed(
    part: dict[str, Any], where: str
) -> None:
    """Odd keys are shown by their codes, an empty one by its quotes."""
    with pytest.raises(ProfilegenError) as caught:
        Part.from_dict(part)
    assert [problem.where for problem in caught.value.problems] == [where]


def test_a_tab_in_the_line_to_write_is_shown_as_a_blank() -> None:
    """It would shift the rest of the line on a terminal."""
    with pytest.raises(ProfilegenError) as caught:
        loads('title: "a\tb"\n')
    (problem, *_) = caught.value.problems
    assert '| title = "a b"' in problem.excerpt


@pytest.mark.parametrize("root", [{"root_diameter": 22.0}, {"tooth_depth": 1.7}])
def test_no_land_and_a_root_without_an_angle_is_told(root: dict[str, float]) -> None:
    """A land of 0 is given, and refused: it is not left out, which would leave one size alone."""
    with pytest.raises(CannotMakeError) as caught:
        job(ratchet(land=0.0, space_angle=None, **root))
    assert [finding.code for finding in caught.value.findings] == ["land-gone"]


def test_an_even_grind_of_an_edge_that_hardly_shrinks_overflows_nothing() -> None:
    """A form cutter ground round, on the way to no relief at all: its kinks lie infinitely deep."""
    mate = ratchet(teeth=23, root_flat=0.15, root_radius=None, space_angle=None, root_diameter=23.0)
    form = {
        "name": "form",
        "kind": "form",
        "of": mate,
        "sweep_diameter": 40.0,
        "relief_angle": 22.0,
        "relief_ground": "round",
        "edge_thickness": 5.0,
        "edge_ahead": 4.0,
    }
    made = job(ratchet(teeth=44, space_angle=None, root_diameter=22.0), form)
    assert json.dumps(made.as_dict(), allow_nan=False)


@pytest.mark.parametrize("sort", SORTS)
def test_a_few_cases_of_every_sort_hold(sort: str) -> None:
    """The attack itself runs; longer ones are run by hand and in the gate."""
    for number in range({"make": 2, "kill": 1}.get(sort, 40)):
        found = case_of(sort, 0, number)
        assert found is None, f"{sort} {number}: {found.text}"


def test_a_fault_is_named_with_the_way_to_repeat_it(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """And the attack ends with 1."""

    def fails(*_: object) -> None:
        raise ZeroDivisionError("by nothing")

    monkeypatch.setitem(SORTS, "text", fails)
    assert main(["--sort", "text", "--rounds", "5", "--seed", "3"]) == 1
    told = capsys.readouterr().out
    assert "python -m tests.attack --seed 3 --sort text --case 0" in told
    assert "5 x ZeroDivisionError" in told


def test_a_case_is_the_same_each_time() -> None:
    """Whatever ran before it."""
    for maker in (drawing_of, text_of):
        assert maker(random.Random("1 x 5")) == maker(random.Random("1 x 5"))


@pytest.mark.parametrize(("sort", "seed", "number"), [("make", 1, 16)])
def test_cases_that_once_failed_hold(sort: str, seed: int, number: int) -> None:
    """A gouge outside the picture of the comparison has no leader there."""
    assert case_of(sort, seed, number) is None
