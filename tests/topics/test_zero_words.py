"""One name per zero: each infeed that is printed is the one of the zero that it names.

What an infeed from a zero is, the test finds by itself: for the top zero by subtraction, for the
offset zero by letting the cutter down on the blank as polygons. Derived, no published source.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

import pytest
from shapely import prepare
from shapely.geometry import Point

from profilegen.cutting.compare import compared_cutters
from profilegen.cutting.poses import Cut
from profilegen.cutting.trial import Land, trial_for
from profilegen.drawing.marks import Sheet, Text
from profilegen.geometry.moves import Move, moved
from profilegen.job import Job
from profilegen.setting.trial_dial import DialStand
from profilegen.sheets.compare_sheet import compare_sheet
from profilegen.sheets.setup_sheet import setup_sheets
from profilegen.topics.check_text import check_text
from profilegen.topics.cutter_text import cutter_text
from profilegen.topics.sheet_words import sections
from profilegen.topics.topic import Pair, written
from profilegen.topics.touchoff_rows import pass_table, shift_table, touch_table
from profilegen.topics.trial_text import trial_text
from profilegen.topics.zero_words import ZERO
from tests.geometry.oracles import polygon
from tests.parts import Keys, job, ratchet, single, vee

SIDES = ("above", "behind", "in front")
FIGURE = r"(\d+\.\d{3})(?: mm)?"


def made(touch: str, side: str, feeler: float, cutter: Keys, **tables: Keys) -> Job:
    """A job with every zero there is."""
    setup: Keys = {"touch": touch, "cutter_side": side, "centre_height": 80, "edge_finder": 10}
    if feeler:
        setup["feeler"] = feeler
    return job(ratchet(hook_angle=5), cutter, setup=setup, **tables)


def infeeds(cut: Cut, feeler: float) -> dict[str, float]:
    """From each zero to full depth, mm; the chords of the polygons put the second 1e-5 mm off."""
    blank = Point(0, 0).buffer(cut.blank_radius + feeler, quad_segs=4000)
    low, high = 0.0, 3 * cut.blank_radius
    prepare(blank)
    for _ in range(32):  # to 1e-8 mm
        middle = (low + high) / 2
        raised = polygon(moved(cut.silhouette(), Move(shift=1j * middle)))
        low, high = (middle, high) if blank.intersects(raised) else (low, middle)
    return {"top": cut.blank_radius + feeler - cut.tip.imag, "offset": high}


def texts(sheet: Sheet) -> list[str]:
    """Everything that is lettered on a sheet."""
    return [mark.string for mark in sheet.marks if isinstance(mark, Text)]


def everything(done: Job) -> str:
    """All that people are told of a job, each line as it stands."""
    matches = compared_cutters(done.wheel, done.part.cutters, done.part.setup)
    lines = [check_text(done), cutter_text(done, matches, 0.02, done.plan.cutter)]
    lines += [text for sheet in setup_sheets(done) for text in texts(sheet)]
    lines += texts(compare_sheet(done, matches))
    told = trial_for(done.made, done.plan.cuts, (Land(0.6),), feeler=done.part.setup.feeler or 0)
    lines += [trial_text(done, told, DialStand(1.0, zero)) for zero in ZERO]
    return "\n".join(lines)


def named(done: Job) -> Iterator[tuple[str, int, float]]:
    """Zero, lap and figure of every infeed to full depth on sheet, in tables and in texts."""
    figures, laps = done.part.figures, [cut.lap for cut in done.plan.cuts]
    down = next(s for s in written(sections(done), figures) if s.heading == "How far down")
    rows = [line for line in down.lines if isinstance(line, Pair) and "zero" in line.label]
    for number, row in enumerate(rows):
        (zero,) = re.findall("from the (top|offset) zero", row.label)
        yield zero, laps[number // 2], float(row.value.split()[0])
    for line in check_text(done).splitlines():
        for zero, size in re.findall(rf"Infeed from the (top|offset) zero +{FIGURE}", line):
            yield zero, 0, float(size)
    table = pass_table(done)
    titles, passes = table.titles, table.written(figures)
    (at,) = (n for n, title in enumerate(titles) if title.startswith("Infeed"))
    zero = titles[at].split()[-2]
    for one in passes:
        if "again" in one[titles.index("For")]:
            lap = int(one[0]) if titles[0] == "Lap" else 1
            yield zero, lap, float(one[at].split()[0])
    moves = touch_table(done)
    for cell in moves.written(figures):
        cells = dict(zip(moves.titles, cell, strict=True))
        if cells["Zero"].endswith(" zero"):
            yield cells["Zero"].split()[0], int(cells.get("Lap", 1)), float(cells["By"].split()[0])


@pytest.mark.parametrize("feeler", [0.0, 0.137])
@pytest.mark.parametrize("side", SIDES)
@pytest.mark.parametrize("touch", ["top", "offset"])
@pytest.mark.parametrize("cutter", [vee(), single(45)])
def test_every_infeed_is_that_of_the_zero_it_names(
    cutter: Keys, touch: str, side: str, feeler: float
) -> None:
    """On the sheet, in its tables, in `check`: each names its zero and counts the feeler in."""
    done = made(touch, side, feeler, cutter)
    true = {cut.lap: infeeds(cut, feeler) for cut in done.plan.cuts}
    found = list(named(done))
    assert len(found) == 7 * len(done.plan.cuts)
    for zero, lap, size in found:
        wanted = [true[lap][zero]] if lap else [one[zero] for one in true.values()]
        assert min(abs(size - one) for one in wanted) < 6e-4, (zero, lap, size, wanted)


@pytest.mark.parametrize("side", SIDES)
@pytest.mark.parametrize("touch", ["top", "offset"])
def test_metal_to_metal_is_printed_nowhere_beside_a_feeler(touch: str, side: str) -> None:
    """With a feeler no infeed without it is on any page, and the sheet says so once."""
    done = made(touch, side, 0.137, vee(), blank={"diameter": 25.2, "hold": "root"})
    said, figures = everything(done), done.part.figures
    for plan in (done.print_plan, done.plan):
        for cut in plan.cuts:
            for bare in (cut.infeed_from_top, cut.infeed_from_offset):
                assert figures.size(bare) not in said
    rows = {row[0]: row[1:] for row in shift_table(done).written(figures)}
    for zero, size in infeeds(done.plan.cuts[0], 0.137).items():
        assert float(rows[f"Infeed from the {zero} zero"][1].split()[0]) == pytest.approx(
            size, abs=6e-4
        )
    sheet = " ".join(text for page in setup_sheets(done) for text in texts(page))
    assert sheet.count("feeler of 0.137 mm") == 1


@pytest.mark.parametrize("side", SIDES)
def test_no_zero_has_a_letter(side: str) -> None:
    """Top zero and offset zero are the only names, on every page and in every text."""
    for cutter in (vee(), single(45)):
        said = everything(made("offset", side, 0.05, cutter))
        assert re.findall(r"\b(?:[Zz]ero|[Rr]oute|from)[ \xa0][AB]\b|\b[AB]:", said) == []
        assert "top dead" not in said
        for zero in ("top zero", "offset zero"):
            assert zero in said


@pytest.mark.parametrize("side", SIDES)
def test_a_height_gauge_counts_the_feeler_for_every_side(side: str) -> None:
    """Where the cutter lies on the gauge, or under it, the feeler lies between; where it is only
    level with it, the row says that there is none."""
    for cutter in (vee(), vee(60, body_width=7), single()):
        plain, thick = (
            next(m for m in made("top", side, feeler, cutter).touch_off if m.zero == "height")
            for feeler in (0.0, 0.137)
        )
        counted = abs(abs(thick.amount - plain.amount) - 0.137) < 1e-9
        assert counted != ("without the feeler" in thick.touches)
        assert counted or thick.amount == plain.amount
