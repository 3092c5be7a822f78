"""The set-up sheet of a part with dividing hardware."""

from __future__ import annotations

import math
import re
from typing import Any

import pytest

from profilegen.dividing.index_plan import degrees_text
from profilegen.dividing.of_part import plan_of
from profilegen.dividing.ways import ways_for
from profilegen.drawing.boxes import Box
from profilegen.drawing.layout import overlaps
from profilegen.figures import Figures
from profilegen.output.json_text import json_text
from profilegen.output.svg import svg_bytes
from profilegen.sheets.setup_sheet import setup_sheets
from profilegen.topics.check_text import check_text
from profilegen.topics.dicts import plan_dict
from profilegen.topics.index_text import facts, plan_text, tick_labels, way_lines
from profilegen.topics.sheet_words import sections
from profilegen.topics.stop_rows import stop_rows
from profilegen.topics.topic import Pair, written
from tests.dividing.hardware import PLATES, WHEELS, head, made, planned
from tests.parts import job, ratchet, single, vee

HARDWARE = {"kind": "worm", "ratio": 40, "plates": PLATES, "change_wheels": WHEELS}
MM = Figures("mm", "point")
TWO_LAPS = job(ratchet(hook_angle=5), single(45), dividing=HARDWARE)


def test_every_reading_stands_on_the_setup_sheet() -> None:
    """Each stop of both laps has what the head shows beside its box, nothing on another thing."""
    sheets, index = setup_sheets(TWO_LAPS), TWO_LAPS.index
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
    index = TWO_LAPS.index
    assert index is not None
    text, ways = plan_text(index, "two laps", MM), plan_dict(index)["ways"]
    flat, shown = " ".join(text.split()), sum(way["circles"] is None for way in ways) + 8
    for number, (line, way) in enumerate(zip(way_lines(index, MM, shown), ways, strict=False), 1):
        assert f"{number}. {line}" in flat
        assert line.endswith(way["words"])
    assert (f"{len(ways) - shown} more" in flat) == (len(ways) > shown)
    assert len(re.findall(r"^ *31 .*\(same as stop 1\)", text, re.MULTILINE)) == 2


def test_warnings_stand_with_compound_and_differential_ways() -> None:
    """Those ways and only those have warnings."""
    index = TWO_LAPS.index
    assert index is not None
    for way in plan_dict(index)["ways"]:
        assert bool(way["warnings"]) == (way["method"] in ("compound", "differential"))


def said(teeth: int, way: int | None = None, kind: str = "worm", **keys: Any) -> str:
    """The facts of a plan of 25 mm outside diameter, in one line; of the plain head at first."""
    plan = planned(made(kind, **keys) if keys else head(), teeth, [0.0], 12.5, way)
    return " ".join(facts(plan, MM))


def test_slips_and_their_cost() -> None:
    """On a wheel of radius 12.5 mm one degree is 0.218 mm, ten are 2.182 mm (arc, no published
    source); a whole turn of a crank at 40:1 is 9 degrees. Both circles of a compound way can be
    missed; with a train engaged a hole turns the work by another share: 127 times 5 of them."""
    spin = said(30, kind="plate", holes=36, vernier=10)
    assert "one vernier position 60.000 arc minutes, 0.218 mm" in spin
    assert "one hole of the plate 600.000 arc minutes, 2.182 mm" in spin
    assert "one turn of the crank 540.000 arc minutes" in said(30)
    compound = said(77, way=2)
    assert "one hole of the 21 circle 25.714 arc minutes" in compound
    assert "one hole of the 33 circle 16.364 arc minutes" in compound
    train = said(127, 1, ratio=40, plates=PLATES, change_wheels=WHEELS)
    assert f"one hole of the 15 circle {21600 / 127 / 5:.3f} arc minutes" in train


def test_a_vernier_mark_costs_seconds() -> None:
    """Of a dial a slip is told as its lines are: ten seconds, and four degrees a turn at 90:1."""
    text = said(30, kind="table", ratio=90, graduation="1 min", vernier="10 sec")
    assert 'one mark of the dial 10", 0.001 mm' in text
    assert "one turn of the handwheel 4° 00' 00\", 0.873 mm" in text
    coarse = said(30, kind="table", ratio=90, graduation="1 min")
    assert "one mark of the dial 1' 00\"" in coarse


@pytest.mark.parametrize(
    ("teeth", "holes", "first", "then"),
    [
        (77, (9, 3), "first the crank on against the plate by 9 holes of the 21 circle",
         "then crank and plate together on by 3 holes of the 33 circle"),
        (87, (23, -11), "first crank and plate together back by 11 holes of the 33 circle, past "
         "the hole by more than the backlash and on to it again",
         "then the crank on against the plate by 23 holes of the 29 circle"),
    ],
)  # fmt: skip
def test_a_compound_move_is_told_in_the_order_of_its_making(
    teeth: int, holes: tuple[int, int], first: str, then: str
) -> None:
    """The movement against the dial comes first and only once; arms are set on both circles."""
    ways = ways_for(head(), teeth)
    number = next(n for n, w in enumerate(ways, 1) if w.move and w.move.holes == holes)
    text = said(teeth, number)
    assert f"Each move: {first}; {then}." in text
    assert "minus" not in text
    for count, circle in zip(holes, ways[number - 1].move.circles, strict=True):  # type: ignore[union-attr]
        assert (
            f"arms {abs(count)} holes apart ({abs(count) + 1} with the pin's own) on the " in text
        )
        assert f"on the {circle} circle" in text


def test_a_way_is_listed_once() -> None:
    """37 by change wheels is a whole turn of the crank on whatever circle: one line of it."""
    plan = planned(head(change_wheels=WHEELS), 37, [0.0], 12.5)
    lines = way_lines(plan, MM, len(plan.ways))
    assert len(set(lines)) == len(lines) == 2


def test_every_kind_says_how_it_counts_and_turns() -> None:
    """The way, from where readings count, the sense and the side of the backlash, for each kind."""
    kinds: dict[str, dict[str, Any]] = {
        "2 of 60 notches": {"kind": "notched", "notches": 60},
        "5 of 150 holes": {"kind": "plate", "holes": 150},
        "400 steps": {"kind": "motor", "steps": 12000},
        "12° 00' 00\"": {"kind": "table", "ratio": 90, "graduation": "1 min"},
        "1 turn + 5/15": {"kind": "worm", "ratio": 40, "plates": PLATES},
    }
    for words, keys in kinds.items():
        text = said(30, **keys)
        assert f"{words} for each stop" in text
        for always in ("at stop 1 of lap 1", "Turn the work", "from lap to lap", "backlash"):
            assert always in text


def test_the_closing_label_counts_on() -> None:
    """127 moves of 5/15 are 42 turns and 5 holes: so the sheet has it beside the last box."""
    table = head(change_wheels=WHEELS)
    labels = tick_labels(planned(table, 127, [0.0], 12.5, 1), "point")
    assert labels[-2:] == (
        "127: 42 turns, hole 0 of 15",
        "128 = stop 1: 42 turns, hole 5 of 15",
    )


def test_errors_are_told_three_ways() -> None:
    """11 stops on whole degrees, 25 mm outside diameter (IDX-100, derived, no published source:
    0.4545 degrees a stop, 0.7273 between neighbours); 5/11 either way gather to 10/11."""
    text = said(11, kind="plate", holes=36, vernier=10)
    assert "a stop is up to 27.273 arc minutes, 0.099 mm" in text
    assert "between neighbours of a lap up to 43.636 arc minutes, 0.159 mm" in text
    assert "accumulated, between any two stops of a lap, up to 54.545 arc minutes" in text


def test_the_setup_sheet_says_what_is_dialled() -> None:
    """Under Stops: the way, from where readings count and, when it is not exact, by how much; the
    check says the way too."""
    hardware, wide = {"kind": "plate", "holes": 36, "vernier": 10}, {"land": "0.3"}
    for teeth, exact in ((30, True), (32, False)):
        made_of = job(ratchet(teeth=teeth), vee(), dividing=hardware, tolerance=wide)
        said = {part.heading: part.lines for part in written(sections(made_of), MM)}["Stops"]
        words = " ".join(line.label if isinstance(line, Pair) else str(line) for line in said)
        way = "12 vernier positions for each stop" if exact else "nearest vernier position"
        assert f"Direct: {way}" in words
        assert "count from 0 at stop 1" in words
        assert ("A land is off by up to" in words) == (not exact)
        assert f"Direct: {way}" in check_text(made_of)


def test_a_second_lap_is_begun_from_the_closing_stop() -> None:
    """The words say from where it is turned on, how far, which way, and what is then read."""
    index = TWO_LAPS.index
    words = " ".join(facts(index, MM))
    said = f"{degrees_text(index.turned_on(2))}° {index.turn}, as to every stop, to "
    assert f"From the closing stop of lap 1 turn the work on by {said}" in words
    assert f"{said}{index.laps[1][0].reading}: stop 1 of lap 2." in words


def test_a_lap_that_needs_no_turn_is_begun_where_the_work_stands() -> None:
    """The backs lie 24 degrees from the faces, two whole pitches: nothing is turned, and the first
    reading of the second lap is the closing one of the first."""
    made_of = job(ratchet(space_angle=69), vee(45), dividing=HARDWARE)
    index = made_of.index
    assert made_of.plan.cuts[1].wheel_angle == pytest.approx(math.radians(-24))
    assert index.stops[30].reading == index.returns[0].reading == "40 turns, hole 0 of 15"
    assert "Leave the work at the closing stop of lap 1, 40 turns, hole 0 of 15" in " ".join(
        facts(index, MM)
    )


def test_no_readings_stand_on_a_sheet_of_refused_stops() -> None:
    """24 stops on 40 holes: neither sheet nor list nor dictionary has a reading; what is said in
    their place says why."""
    plate = {"kind": "plate", "holes": 40}
    made_of = job(ratchet(teeth=24), vee(), dividing=plate)
    sheets = setup_sheets(made_of)
    said = [re.findall(r'aria-label="([^"]*)"', svg_bytes(sheet).decode()) for sheet in sheets]
    labels = [label for page in said for label in page]
    assert not [label for label in labels if re.search(r"\bhole \d", label)]
    assert not [label for label in labels if re.match(r"\d+(:| +\d+\.\d{3}$)", label)]
    assert "NO READINGS" in " ".join(labels)
    assert "NOT TO BE CUT AS IT STANDS: the stops are not exact" in " ".join(labels)
    assert "1.330 mm" in " ".join(labels)
    assert stop_rows(made_of)[0][-1] == "done"
    assert "hole 5" not in json_text(made_of.as_dict())
    assert "nearest hole" not in check_text(made_of)


def test_without_hardware_the_sense_is_told_all_the_same() -> None:
    """Angles alone still say which way the work turns, where a second lap begins, and the check."""
    bare = job(ratchet(hook_angle=5), single(45))
    plan = plan_of(bare.part, bare.wheel, bare.plan.frame, bare.plan.cuts)
    text = " ".join(facts(plan, MM))
    for always in ("No [dividing]", "Lap 2: draw", "Turn the work counter-clockwise", "meet"):
        assert always in text
