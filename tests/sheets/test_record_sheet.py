"""The record sheet: every feature, ten blank columns, boxes, nothing on another thing."""

from __future__ import annotations

import pytest

from profilegen.cutting.fit import fit_of
from profilegen.drawing.boxes import Box
from profilegen.drawing.layout import overlaps
from profilegen.drawing.marks import Text
from profilegen.job import Job
from profilegen.sheets.record_sheet import PIECES, record_sheets
from profilegen.topics import gauge_words as words
from profilegen.topics.gauge_text import gauge_text
from profilegen.topics.sheet_words import sections
from profilegen.topics.topic import Pair, written
from tests.parts import job, ratchet, vee
from tests.sheets.test_sheets import MADE

JOBS: dict[str, Job] = {
    **MADE,
    "a pin that does not serve": job(ratchet(), vee(60), gauge={"pin": 5}),
    "measured blank, root held": job(ratchet(), vee(60), blank={"diameter": 25.1, "hold": "root"}),
    "does not match": job(ratchet(hook_angle=5), vee(75), setup={"accept": 0.5}),
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
    figures = made.part.figures
    for feature in made.gauges.features:
        assert set(map(figures.told, words.sizes(feature))) <= set(found)
    assert {str(piece) for piece in range(1, PIECES + 1)} <= set(found)
    assert "pass" in found


@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_a_long_list_still_stands_on_one_page(paper: str) -> None:
    """Lower rows save a page: 15 sizes of an odd count with a keyway, and how they are taken."""
    keyed = {"kind": "keyed", "diameter": 6, "key_width": 2, "key_depth": 1}
    made = job(ratchet(teeth=31, hook_angle=5), vee(60), bore=keyed)
    assert len(made.gauges.features) == 15
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


def measured(made: Job) -> tuple[dict[str, str], str]:
    """Under What to measure of the set-up sheet: the rows, and the sentences in one."""
    said = {
        section.heading: section.lines for section in written(sections(made), made.part.figures)
    }
    lines = said["What to measure"]
    rows = {line.label: line.value for line in lines if isinstance(line, Pair)}
    return rows, " ".join(line for line in lines if isinstance(line, str))


def test_the_set_up_sheet_names_the_pins() -> None:
    """The size over pins stands under What to measure."""
    rows, said = measured(JOBS["hooked, square bore"])
    assert "Over two pins of Ø 1.200 mm" in rows
    assert "as measured" not in said


def test_a_measured_blank_is_said_on_every_sheet() -> None:
    """The set-up sheet has root and pins of a wheel drawn for that blank; text and record sheet say
    for which blank they are, and what misses the print's tolerances."""
    made = job(ratchet(), vee(60), blank={"diameter": 25.3})
    rows, said = measured(made)
    again, _ = measured(job(ratchet(outside_diameter=25.3), vee(60)))
    assert rows == again
    assert said.startswith("For the blank as measured.")
    head = "For the blank as measured, Ø 25.300 mm"
    for told in (gauge_text(made), " ".join(words_on(made))):
        assert head in told
        assert "measure the blank first" not in told
        assert "these miss" not in told
    held = JOBS["measured blank, root held"]
    for told in (gauge_text(held), " ".join(words_on(held))):
        missed = "on this blank: root diameter; land, straight across; over the crests of 6 teeth"
        assert missed in " ".join(told.split())


def test_a_cutter_that_does_not_match_is_said_on_every_sheet() -> None:
    """First of all: what it leaves and makes. The set-up sheet has those sizes and no pins, and
    nobody is told to go deeper by the pins."""
    made = JOBS["does not match"]
    fit, figures = fit_of(made.made, made.plan.cuts), made.part.figures
    leaves = f"leaves {figures.length(fit.left_over.value)} at the {fit.left_over.where}"
    sizes = [figures.length(fit.land), "-10.000°", figures.length(2 * fit.root_radius)]
    rows, said = measured(made)
    assert said.startswith(f"The cutter set up does not match: it {leaves}.")
    assert set(sizes) <= set(rows.values())
    assert not any("pins" in label for label in rows)
    makes = f"{leaves}; it makes land {sizes[0]}, hook {sizes[1]}, root Ø {sizes[2]};"
    for told in (gauge_text(made), " ".join(words_on(made))):
        told = " ".join(told.split())
        assert makes in told
        assert told.index(makes) < told.index("Outside diameter")
        assert "more infeed" not in told
    assert "does not match" not in gauge_text(JOBS["hooked, square bore"])
