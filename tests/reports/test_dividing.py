"""The set-up sheet of a part with dividing hardware."""

from __future__ import annotations

import re

from profilegen.drawing.boxes import Box
from profilegen.drawing.layout import overlaps
from profilegen.output.svg import svg_bytes
from profilegen.reports.dividing import plan_dict, plan_text, way_lines
from profilegen.reports.sheet import setup_sheets
from tests.cutting.dividing.hardware import PLATES, WHEELS
from tests.parts import job, ratchet, single

HARDWARE = {"kind": "worm", "ratio": 40, "plates": PLATES, "change_wheels": WHEELS}
TWO_LAPS = job(ratchet(hook_angle=5), single(45), dividing=HARDWARE)


def test_every_reading_stands_on_the_setup_sheet() -> None:
    """Each stop of both laps has what the head shows beside its box, nothing on another thing."""
    sheets, index = setup_sheets(TWO_LAPS), TWO_LAPS.plan.index
    assert index is not None
    said = [re.findall(r'aria-label="([^"]*)"', svg_bytes(sheet).decode()) for sheet in sheets]
    labels = {label for page in said for label in page}
    assert len(index.stops) == 60
    assert {f"{stop.stop}: {stop.reading}" for stop in index.stops} <= labels
    for sheet in sheets:
        page = Box(0, 0, sheet.width, sheet.height)
        assert overlaps(sheet.boxes) == ()
        assert all(page.holds(box) for box in sheet.boxes)


def test_text_and_dictionary_say_the_same() -> None:
    """Every way of the dictionary is a numbered line of the text, until the further ones are many;
    each lap ends with the return to its stop 1."""
    index = TWO_LAPS.plan.index
    assert index is not None
    text, ways = plan_text(index, "two laps"), plan_dict(index)["ways"]
    flat = " ".join(text.split())
    for line, way in zip(way_lines(index), ways, strict=False):
        assert line in flat
        assert line.endswith(way["words"]) or "more:" in line
    assert len(re.findall(r"^ *31 .*\(same as stop 1\)", text, re.MULTILINE)) == 2


def test_warnings_stand_with_compound_and_differential_ways() -> None:
    """Those ways and only those have warnings."""
    index = TWO_LAPS.plan.index
    assert index is not None
    for way in plan_dict(index)["ways"]:
        assert bool(way["warnings"]) == (way["method"] in ("compound", "differential"))
