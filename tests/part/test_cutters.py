"""The cutter kinds slot, ball, form and drawn: what they take, and what is said to bad keys."""

from __future__ import annotations

import math

import pytest

from profilegen.part.base import WheelTable
from profilegen.part.cutter_tables import DrawnCutter, FormCutter, SlotCutter
from profilegen.part.part import Part
from tests.part.samples import problems as problems_of
from tests.part.samples import take_up
from tests.parts import Keys, ratchet, teeth_of

POINTS = [[4, 6], [1, 0], [-1, 0], [-4, 6]]


def one(**keys: object) -> Keys:
    """The sample part with one cutter of these keys."""
    return take_up(cutter=[{"name": "it", **keys}], setup=None)


def test_lengths_of_the_new_kinds_are_in_the_parts_unit() -> None:
    """Widths, radii and points are lengths like all others."""
    mapping = one(kind="slot", width="1/8 in", corner_radius=0.1)
    cutter = Part.from_dict(mapping).cutters[0]
    assert isinstance(cutter, SlotCutter)
    assert cutter.width == pytest.approx(3.175)
    mapping = {**one(kind="drawn", points=POINTS), "units": "in"}
    drawn = Part.from_dict(mapping).cutters[0]
    assert isinstance(drawn, DrawnCutter)
    assert drawn.points is not None
    assert drawn.points[0] == pytest.approx((101.6, 152.4, 0.0))


def test_a_form_cutter_holds_the_checked_wheel() -> None:
    """The table in `of` becomes a wheel, checked like `[wheel]`."""
    cutter = Part.from_dict(one(kind="form", of=ratchet(teeth=24))).cutters[0]
    assert isinstance(cutter, FormCutter)
    assert isinstance(cutter.of, WheelTable)
    assert teeth_of(cutter.of) == 24


BAD = [
    (one(kind="slot", width=1, corner_radius=0.6), "cutter[1].corner_radius", "rounder"),
    (
        one(kind="slot", width=1, corner_radius=0.3, edge_length=0.2),
        "cutter[1].edge_length",
        "edge",
    ),
    (one(kind="slot", width=1, tip_radius=0.1), "cutter[1].tip_radius", "corner"),
    (one(kind="slot"), "cutter[1].width", "missing"),
    (one(kind="ball", radius=1, edge_length=0.5), "cutter[1].edge_length", "half circle"),
    (one(kind="vee", included_angle=60, tip_flat=2, body_width=1), "cutter[1].tip_flat", "tip"),
    (one(kind="double-angle", angles=[-10, 30]), "cutter[1].angles[1]", "out of range"),
    (one(kind="form", of=ratchet(teeth=0)), "cutter[1].of.teeth", "too small"),
    (one(kind="form", of=ratchet(tooths=3)), "cutter[1].of.tooths", "no key"),
    (one(kind="form", of=12), "cutter[1].of", "a wheel is wanted"),
    (one(kind="drawn"), "cutter[1]", "no cutting edge"),
    (one(kind="drawn", points=POINTS, dxf="a.dxf", layer="A"), "cutter[1].dxf", "twice"),
    (one(kind="drawn", dxf="a.dxf"), "cutter[1].layer", "layer is missing"),
    (one(kind="drawn", points=[[0, 0]]), "cutter[1].points", "cannot be drawn"),
    (one(kind="drawn", points=[[0, 0], [1]]), "cutter[1].points", "point 2"),
    (one(kind="drawn", points=[[0, 0], [1, "x"]]), "cutter[1].points", "point 2"),
    *(
        (one(kind="drawn", points=[[0, 0, bulge], [1, 1]]), "cutter[1].points", "bulge of point 1")
        for bulge in (2, 10**400, -(10**400), math.inf, math.nan, "0.5", True)
    ),
    (one(kind="drawn", points=[[1, 0], [1, 0], [2, 2]]), "cutter[1].points", "one point"),
    (
        one(kind="drawn", points=[[4, 6], [-2, 0], [2, 0], [-4, 6]]),
        "cutter[1].points",
        "crosses itself",
    ),
    (one(kind="drawn", points=[[4, 0], [0, 6], [-4, 0]]), "cutter[1].points", "wrong way"),
    (one(kind="drawn", points=[[4, 6], [0, 0], [4, 8]]), "cutter[1].points", "no width"),
    (one(kind="drawn", points=[[4, 6], [0, 0], [-4, 6], [4, 6]]), "cutter[1].points", "closed"),
]


@pytest.mark.parametrize(("mapping", "where", "words"), BAD)
def test_bad_cutters_are_told_by_key_path(mapping: Keys, where: str, words: str) -> None:
    """Each is told once, at its key, in plain words."""
    found = {problem.where: str(problem) for problem in problems_of(mapping)}
    assert where in found
    assert words in found[where]


def test_all_problems_of_a_form_cutter_are_told_at_once() -> None:
    """The wheel within and the cutter round it are both checked."""
    mapping = one(kind="form", of=ratchet(teeth=0, land=-1), edge_length=0)
    assert {problem.where for problem in problems_of(mapping)} == {
        "cutter[1].of.teeth",
        "cutter[1].of.land",
        "cutter[1].edge_length",
    }
