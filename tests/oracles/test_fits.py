"""The fit of a cutter on a wheel against the regions that an exact kernel made of both.

The kernel places the cutters at stored dials, as the package posed them or wrongly on purpose, and
makes the wheel from the numbers of its print; `recipe.py` says how. No published source: two
independent constructions must agree.
"""

from __future__ import annotations

import cmath
import json
import math
from functools import cache
from typing import Any

import pytest

from profilegen.cutting.fit import Deviation, Fit, fit_of
from profilegen.cutting.poses import Cut, Tool, posed_cut
from profilegen.cutting.tools import tools_for
from profilegen.forms.solve import solve
from profilegen.forms.wheel import Wheel
from profilegen.part.part import Part
from tests.oracles.derive import DIALS, dials_of_fits
from tests.oracles.rows import FITS, SETTINGS, TRIED
from tests.oracles.test_answers import Answers, answers

VALUE = 1e-7
"""mm. Found: 3.9e-8, on edges of some mm."""

AREA = 1e-9
"""mm2. Found: 3e-11."""

ALONG = 5e-6
"""mm2, where an edge of the cutter lies along a flank. Found: 3.4e-6: the search ends some 1e-8 rad
from the flank, and two edges so near are one to the kernel, while shapely has the sliver between
them as the package has it, to 1e-8."""

DIAL = 1e-3
"""mm or degrees: the search of a plunge ends on a grid, and a rounding may end it elsewhere."""


@cache
def dials() -> Any:
    """The stored dials of every pair."""
    return json.loads(DIALS.read_text())["fits"]


def cut_at(wheel: Wheel, tool: Tool, dial: Answers, by: complex) -> Cut:
    """A cut at a dial, moved in the set-up pose by a step (mm)."""
    turn = math.radians(dial["turn"])
    apex = complex(dial["offset"], dial["tip_height"] - tool.tip.imag) + by
    return posed_cut(wheel, tool, "space", 1, turn, apex * cmath.exp(-1j * turn))


@cache
def fit(pair: str, setting: str) -> Fit:
    """The package's fit of a row."""
    keys, cutter = FITS[pair]
    part = Part.from_dict({"units": "mm", "wheel": keys, "cutter": [cutter]})
    wheel, tool = solve(part), tools_for(part.cutters[0])[0]
    by = SETTINGS[setting] * wheel.radius * wheel.angular_pitch
    return fit_of(wheel, tuple(cut_at(wheel, tool, dial, by) for dial in dials()[pair]))


def test_stored_dials_are_those_of_today() -> None:
    """The dials by which the kernel placed the cutters are those the comparison gives today."""
    today = dials_of_fits()
    assert dials().keys() == today.keys()
    for pair, cuts in dials().items():
        assert len(cuts) == len(today[pair])
        for cut, now in zip(cuts, today[pair], strict=True):
            assert now == pytest.approx(cut, abs=DIAL)


@pytest.mark.parametrize(("pair", "setting"), TRIED)
def test_gouge_and_left_over(pair: str, setting: str) -> None:
    """Greatest distance and area of gouge and left-over are the kernel's."""
    answer, made = answers("fits")[f"{pair}, {setting}"], fit(pair, setting)
    is_along = setting in ("as posed", "too deep")
    for mine, its in ((made.gouge, answer["gouge"]), (made.left_over, answer["left_over"])):
        assert mine.value == pytest.approx(its["value"], abs=VALUE)
        assert mine.area == pytest.approx(its["area"], abs=ALONG if is_along else AREA)


def test_cutters_as_posed_gouge_nothing_and_wrong_ones_do() -> None:
    """The kernel finds no gouge where the package posed the cutter, and one where it is wrong.

    One wrong row gouges nothing: a very wide space, the cutter set over its neighbour.
    """
    found = {row: answers("fits")[", ".join(row)]["gouge"]["value"] for row in TRIED}
    assert {value for (_, setting), value in found.items() if setting == "as posed"} == {0.0}
    clear = [row for row in TRIED if row[1] != "as posed" and found[row] < 0.01]
    assert clear == [("six teeth: single-angle too wide", "over a neighbour")]


def test_where_the_greatest_deviation_lies() -> None:
    """Flank, root or neighbour is the kernel's word wherever only one is nearest."""
    told: list[tuple[Deviation, str]] = []
    for pair, setting in TRIED:
        answer, made = answers("fits")[f"{pair}, {setting}"], fit(pair, setting)
        told += [(made.gouge, answer["gouge"]["where"])]
        told += [(made.left_over, answer["left_over"]["where"])]
    sure = [(mine.where, word) for mine, word in told if word]
    assert [mine for mine, _ in sure] == [word for _, word in sure]
    assert {word for _, word in sure} == {"face", "back", "root", "neighbour"}
