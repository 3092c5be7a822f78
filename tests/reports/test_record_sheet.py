"""The record sheet: every feature, ten blank columns, boxes, nothing on another thing."""

from __future__ import annotations

import pytest

from profilegen.drawing.boxes import Box
from profilegen.drawing.layout import overlaps
from profilegen.drawing.marks import Text
from profilegen.job import Job, gauges_of
from profilegen.reports import gauge_words as words
from profilegen.reports.figures import figures_for
from profilegen.reports.record_sheet import PIECES, record_sheets
from profilegen.reports.sheet_words import Row, sections
from tests.parts import job, ratchet, vee
from tests.reports.test_sheets import MADE

JOBS: dict[str, Job] = {
    **MADE,
    "a pin that does not serve": job(ratchet(), vee(60), gauge={"pin": 5}),
    "inches, comma": job(
        ratchet(outside_diameter=1, land=0.02, thickness=0.125, root_radius=0.008),
        vee(60, tip_radius=0.008),
        units="in",
        decimal="comma",
        bore={"kind": "hexagon", "across_flats": 0.25},
    ),
}


def words_on(made: Job) -> list[str]:
    """Every text on every page."""
    marks = [mark for sheet in record_sheets(made) for mark in sheet.marks]
    return [mark.string for mark in marks if isinstance(mark, Text)]


@pytest.mark.parametrize("name", JOBS)
def test_nothing_stands_on_another_thing(name: str) -> None:
    """No label overlaps another or leaves the page."""
    for sheet in record_sheets(JOBS[name]):
        assert overlaps(sheet.boxes) == ()
        page = Box(0.0, 0.0, sheet.width, sheet.height)
        assert all(page.x0 <= box.x0 and box.x1 <= page.x1 for box in sheet.boxes)
        assert all(page.y0 <= box.y0 and box.y1 <= page.y1 for box in sheet.boxes)


@pytest.mark.parametrize("name", JOBS)
def test_every_feature_with_its_limits(name: str) -> None:
    """Each low and high limit stands on the sheet, and a column for each of ten pieces."""
    made, found = JOBS[name], words_on(JOBS[name])
    figures = figures_for(made.part)
    for feature in gauges_of(made).features:
        assert set(words.sizes(feature, figures)) <= set(found)
    assert {str(piece) for piece in range(1, PIECES + 1)} <= set(found)
    assert "pass" in found


@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_a_long_list_still_stands_on_one_page(paper: str) -> None:
    """Lower rows save a page: 15 sizes of an odd count with a keyway, and how they are taken."""
    keyed = {"kind": "keyed", "diameter": 6, "key_width": 2, "key_depth": 1}
    made = job(ratchet(teeth=31, hook_angle=5), vee(60), bore=keyed)
    assert len(gauges_of(made).features) == 15
    (sheet,) = record_sheets(made, paper)
    assert overlaps(sheet.boxes) == ()


def test_defaults_are_said() -> None:
    """The sheet says which limits the program chose."""
    text = " ".join(words_on(JOBS["hooked, square bore"]))
    for said in ("h11, the default", "H11, the default", "ISO 2768-m, the default"):
        assert said in text


def test_a_refused_pin_is_said() -> None:
    """The sheet is made without the pins and says why."""
    assert "rides on the tips" in " ".join(words_on(JOBS["a pin that does not serve"]))


def test_the_set_up_sheet_names_the_pins() -> None:
    """The size over pins stands under What to measure."""
    made = JOBS["hooked, square bore"]
    said = {section.heading: section.lines for section in sections(made, figures_for(made.part))}
    rows = [line for line in said["What to measure"] if isinstance(line, Row)]
    assert any(row.label == "Over two pins of Ø 1.200 mm" for row in rows)
