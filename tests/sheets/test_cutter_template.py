"""The template of a cutter: true to scale, with its angles, tip and width, all on the page."""

from __future__ import annotations

import math
from itertools import combinations

import numpy as np
import pytest

from profilegen.cutting.tools import tools_for
from profilegen.drawing.boxes import Box
from profilegen.drawing.marks import Sheet, Stroke, Text
from profilegen.figures import Figures
from profilegen.geometry.measure import bounds
from profilegen.part.drawer import load_drawer
from profilegen.part.shipped import drawer_path
from profilegen.sheets.cutter_template import cutter_template
from tests.parts import Keys, part, ratchet

FIGURES = Figures("mm", "point")
SHIPPED = [cutter for unit in ("mm", "in") for cutter in load_drawer(drawer_path(unit))]
MADE: list[Keys] = [
    {"name": "f", "kind": "form", "of": ratchet()},
    {"name": "d", "kind": "drawn", "points": [[-4, 6], [-1, 0], [1, 0], [3, 6]]},
    {"name": "s", "kind": "slot", "width": 1, "edge_length": 5, "body_width": 8},
    {"name": "t", "kind": "vee", "included_angle": 40, "tip_flat": 0.5, "body_width": 6},
]
EVERY = [*SHIPPED, *part(None, *MADE).cutters]


def texts(sheet: Sheet) -> list[str]:
    """Everything that is written."""
    return [mark.string for mark in sheet.marks if isinstance(mark, Text)]


def edge(sheet: Sheet) -> Stroke:
    """The edge as drawn."""
    (mark,) = [m for m in sheet.marks if isinstance(m, Stroke) and m.name == "edge"]
    return mark


@pytest.mark.parametrize("cutter", EVERY, ids=[cutter.name for cutter in EVERY])
def test_every_cutter_stands_on_its_page_with_no_words_over_each_other(cutter: object) -> None:
    """Also those that no drawing was made for by hand."""
    for tool in tools_for(cutter):  # type: ignore[arg-type]
        sheet = cutter_template(tool, FIGURES)
        page = Box(0.0, 0.0, sheet.width, sheet.height)
        assert (sheet.width, sheet.height) == (210.0, 297.0)
        assert all(page.holds(box) for box in sheet.boxes)
        for a, b in combinations(sheet.boxes, 2):
            assert not a.overlaps(b), (a, b)


@pytest.mark.parametrize("scale", [1.0, 10.0, 20.0])
def test_the_edge_is_drawn_to_scale(scale: float) -> None:
    """A slot of 2 mm is 2 N mm wide on paper, and the bars are 100 mm at every scale."""
    table = part(None, {"name": "s", "kind": "slot", "width": 2.0}).cutters[0]
    sheet = cutter_template(tools_for(table)[0], FIGURES, scale)
    boxes = np.array([bounds(curve) for curve in edge(sheet).curves])
    assert boxes[:, 2].max() - boxes[:, 0].min() == pytest.approx(2.0 * scale)
    bars = [m for m in sheet.marks if isinstance(m, Stroke) and m.name.startswith("check bar ")]
    long = [abs(m.curves[0].points[-1] - m.curves[0].points[0]) for m in bars]
    assert sorted(round(size, 9) for size in long)[-2:] == [100.0, 100.0]


def test_both_flank_angles_and_the_tip_are_told() -> None:
    """A double-angle cutter has each angle from the infeed, its tip radius and its width."""
    keys = {"name": "a", "kind": "double-angle", "angles": [15, 45], "tip_radius": 0.2}
    table = part(None, {**keys, "body_width": 12}).cutters[0]
    said = texts(cutter_template(tools_for(table)[0], FIGURES))
    assert {"15.000°", "45.000°", "R 0.200", "12.000"} <= set(said)
    assert any("60.000° included" in line for line in said)


def test_a_flank_along_the_infeed_is_told_in_words() -> None:
    """A single-angle cutter has one angle and one flank along the infeed."""
    table = part(None, {"name": "a", "kind": "single-angle", "angle": 60}).cutters[0]
    said = texts(cutter_template(tools_for(table)[0], FIGURES))
    assert "along the infeed" in said
    assert "60.000°" in said


def test_angles_of_a_drawn_edge_are_those_of_its_points() -> None:
    """atan(3 / 6) and atan(2 / 6) from the infeed, by hand."""
    table = part(None, MADE[1]).cutters[0]
    said = texts(cutter_template(tools_for(table)[0], FIGURES))
    for run in (3, 2):
        assert f"{math.degrees(math.atan2(run, 6)):.3f}°" in said


def test_ten_to_one_where_it_fits() -> None:
    """A common point is drawn 10:1; a scale that does not fit takes a bigger page."""
    table = part(None, {"name": "v", "kind": "vee", "included_angle": 60}).cutters[0]
    tool = tools_for(table)[0]
    assert any("scale 10:1" in line for line in texts(cutter_template(tool, FIGURES)))
    assert cutter_template(tool, FIGURES, 50.0).width > 210.0
