"""Rows for people: every figure is there, in the part's unit, and nothing is said without a cut."""

from __future__ import annotations

import cmath
import math
import re
from collections.abc import Callable, Iterable

import numpy as np
import pytest
from shapely import Point, Polygon
from shapely.geometry.base import BaseGeometry

from profilegen.cutting.touch import touch_place
from profilegen.geometry.measure import tessellate
from profilegen.geometry.moves import moved
from profilegen.job import Job
from profilegen.setting.own_dials import pass_on_dial
from profilegen.topics import touchoff_rows as rows
from profilegen.topics.topic import Grid, Line, Pair, told
from tests.parts import Keys, job, ratchet, single, vee

SECTIONS: list[Callable[[Job], Iterable[Line]]] = [
    rows.where_zero,
    rows.how_far_over,
    rows.how_far_down,
    rows.before_you_cut,
    rows.scratch_and_return,
    rows.pick_up,
]


def lines(made: Job, section: Callable[[Job], Iterable[Line]]) -> tuple[str | Pair | Grid, ...]:
    """The lines of one section as they are read."""
    return told(section(made), made.part.figures)


def text(made: Job, section: Callable[[Job], Iterable[Line]]) -> str:
    """All of them in one."""
    said = lines(made, section)
    return "\n".join(": ".join(line[:2]) if isinstance(line, Pair) else str(line) for line in said)


def said(made: Job) -> str:
    """Everything that is said of a job."""
    return "\n".join(text(made, section) for section in SECTIONS)


@pytest.mark.parametrize("cutter", [vee(), vee(45), single(), vee(sweep_diameter=30, teeth=1)])
@pytest.mark.parametrize("side", ["behind", "in front", "above"])
@pytest.mark.parametrize("units", ["mm", "in"])
def test_every_move_and_pass_is_said(cutter: Keys, side: str, units: str) -> None:
    """Each amount of the table and each infeed stands in the rows, in the part's unit."""
    wheel = ratchet(outside_diameter="25.4 mm", thickness="3 mm", land="0.4 mm")
    wheel["root_radius"] = "0.2 mm"
    cutter = {**cutter, "tip_radius": "0.2 mm"}
    setup = {"cutter_side": side, "centre_height": "80 mm"}
    made = job(wheel, cutter, units=units, setup=setup)
    figures, whole = made.part.figures, said(made)
    moves, passes = (
        {cell for row in table(made).written(figures) for cell in row}
        for table in (rows.touch_table, rows.pass_table)
    )
    assert {figures.length(move.amount) for move in made.touch_off} <= moves
    assert {figures.length(one.from_zero("top")) for one in made.passes} <= passes
    assert "nan" not in whole
    assert "None" not in whole


def test_nothing_is_said_without_a_cut() -> None:
    """A wheel without a cutter has nothing to touch off."""
    assert said(job(ratchet())).strip() == ""
    assert rows.touch_table(job(ratchet())).rows == ()


def test_dials_are_told_in_turns_and_the_figure_to_stop_at() -> None:
    """Turns of the handwheel and the dial's own figure, which way the numbers run, no count of
    divisions; a dial that does not say how far a turn goes has no turns."""
    dial = {"division": 0.05, "per_turn": 2, "increases": "down"}
    made = job(ratchet(), single(), setup={"flat": "down", "dials": {"z": dial}})
    table = rows.touch_table(made)
    assert table.titles == ("Sets the", "Zero", "What touches", "Then go", "By", "On the dial")
    cells = {row[2]: row[5] for row in table.written(made.part.figures)}
    assert cells["its flat on the top of the blank"] == "6 turns, dial 0.70, growing"
    grazing = cells["its tip, on both sides of the axis by turns"]
    assert grazing == "dial 1.80, falling"
    plain = {"division": 0.05, "increases": "down"}
    without = job(ratchet(), single(), setup={"flat": "down", "dials": {"z": plain}})
    bare = rows.touch_table(without).written(without.part.figures)
    assert bare[0][5] == "12.70 by its numbers, growing"
    assert "turn" not in " ".join(row[5] for row in bare)


def test_a_dial_of_an_inch_slide_has_its_own_figures() -> None:
    """A division written in inches marks the dial in inches, in a part in mm too, 62.5 divisions a
    turn: 25.4 mm less the rest are 16 turns of 0.0625 in."""
    dial = {"division": "0.001 in", "per_turn": "0.0625 in", "increases": "down"}
    made = job(
        ratchet(outside_diameter=50.8), single(), setup={"flat": "down", "dials": {"z": dial}}
    )
    found = rows.touch_table(made).written(made.part.figures)
    assert found[0][5] == "16 turns, dial 0.000, growing"


def test_the_exact_move_is_told_where_the_budget_needs_it() -> None:
    """A remainder stands beside the figure only where it is more than the land allows."""
    for division, wanted in ((0.02, False), (2.0, True)):
        dial = {"division": division, "per_turn": 4, "increases": "towards the operator"}
        made = job(ratchet(hook_angle=5), vee(), setup={"dials": {"y": dial}})
        needs = rows.needs_of(made)
        dials = [row[-1] for row in rows.pass_table(made).written(made.part.figures)]
        assert any("exact is" in one for one in dials) is wanted
        for one, words in zip(made.passes, dials, strict=True):
            found = pass_on_dial(made.part, made.setting, one)
            assert found is not None
            assert ("exact is" in words) == (abs(found.remainder) > needs["infeed", 1])


def test_a_measured_blank_is_told_with_what_moves() -> None:
    """The rows say that the settings are for the blank at hand, and how each size changes."""
    made = job(ratchet(), vee(), blank={"diameter": 25.2, "hold": "root"})
    table = rows.shift_table(made)
    assert table.titles == ("On the blank as measured", "Print", "Here")
    ends = {name: sizes for name, *sizes in table.written(made.part.figures)}
    assert ends["Outside diameter"] == ["25.400 mm", "25.200 mm"]
    assert ends["Land"][0] == "0.400 mm" != ends["Land"][1]
    assert rows.shift_table(job(ratchet(), vee())).rows == ()


def test_sign_of_the_levelled_face() -> None:
    """A hooked face stands below the axis, a leaning one above, a radial one level with it."""
    for hook, words in ((5, "below the axis: 1.107 mm"), (-5, "above the axis"), (0, "at axis")):
        made = job(ratchet(hook_angle=hook), vee())
        assert words in text(made, rows.how_far_over)


def test_speeds_are_called_starting_values() -> None:
    """Speed and feed are marked as a start, and the makers' limits come first."""
    made = job(ratchet(), vee(sweep_diameter=30, teeth=1), material="brass")
    found = text(made, rows.before_you_cut)
    assert "Starting values for brass" in found
    assert "limits of cutter, holder and machine come first" in found


@pytest.mark.parametrize(("sweep", "words"), [("1.2 in", "in a minute"), (None, "ft/min at the")])
def test_an_inch_part_is_told_in_inches_and_feet(sweep: str | None, words: str) -> None:
    """Feeds, surface speeds and the little turn at the crest are in the part's own unit."""
    wheel = ratchet(outside_diameter=1.5, thickness=0.2, land=0.02, root_radius=0.01)
    cutter = {**vee(tip_radius=0.008), **({"sweep_diameter": sweep} if sweep else {})}
    made = job(wheel, cutter, units="in", material="brass")
    whole = said(made)
    assert words in whole
    assert " mm" not in whole
    assert "0.0005 in at the crest" in whole


@pytest.mark.parametrize("zero", ["top", "offset"])
@pytest.mark.parametrize("rotation", ["clockwise", "counter-clockwise"])
@pytest.mark.parametrize("first", ["face", "back"])
@pytest.mark.parametrize("dial", ["clockwise", "counter-clockwise"])
@pytest.mark.parametrize("cutter", [vee(45), single(40)])
def test_a_later_lap_touches_an_uncut_crest(
    cutter: Keys, dial: str, first: str, rotation: str, zero: str
) -> None:
    """Turned as the line says, the blank of lap 1, cut by polygons, is whole where lap 2 touches,
    and cut to both sides alike."""
    setup = {"first": first, "touch": zero, "cutter_side": "above"}
    dividing = {"kind": "motor", "steps": 36000, "dial_increases": dial}
    wheel = ratchet(teeth=12, land=1.0, rotation=rotation)
    made = job(wheel, cutter, setup=setup, dividing=dividing)
    one, two = made.plan.cuts
    counts = (dial == "counter-clockwise") == (rotation == "clockwise")
    stands = one.turn + math.radians(made.index.stops[12].angle) * (1 if counts else -1)
    said = [str(line) for line in lines(made, rows.where_zero) if f"for {zero}" in line[0]]
    found = re.search(r"tooth (\d+).*?([\d.]+)° (clockwise|counter-clockwise)", said[0])
    assert found is not None
    assert len(said) == 1
    flips = made.plan.frame.view_from_setup.flip
    sense = 1 if (found[3] == "counter-clockwise") != flips else -1
    turn = cmath.exp(1j * (stands + sense * math.radians(float(found[2]))))
    radius = made.wheel.radius
    rim = radius * np.exp(2j * np.pi * np.arange(7200) / 7200)
    blank: BaseGeometry = Polygon([(z.real, z.imag) for z in rim.tolist()])
    for stop in range(12):
        shape = tessellate(moved(one.silhouette(), one.setup_from_base.inverse()), 1e-5)
        around = shape * cmath.exp(1j * stop * made.wheel.angular_pitch)
        blank = blank - Polygon([(z.real, z.imag) for z in around.tolist()])
    at = 1j * radius if zero == "top" else touch_place(two)
    on_wheel = at / turn
    gap = [
        next(k for k in range(2000) if not _is_metal(blank, on_wheel * cmath.exp(1e-3j * k * way)))
        for way in (1, -1)
    ]
    assert min(gap) > 20
    assert abs(gap[0] - gap[1]) <= 2
    tooth = cmath.phase(on_wheel) / made.wheel.angular_pitch
    assert round(tooth) % 12 == (int(found[1]) - 1) % 12


@pytest.mark.parametrize("head", ["left", "right"])
@pytest.mark.parametrize("side", ["behind", "in front", "above"])
@pytest.mark.parametrize("cutter", [vee(45), single(40), single(60), vee(60)])
@pytest.mark.parametrize("first", ["face", "back"])
def test_the_offset_is_come_to_as_its_first_zero_is_left(
    first: str, cutter: Keys, side: str, head: str
) -> None:
    """The way told for each lap is that of the first offset row of its table: the touch and the cut
    then lie on one side of the backlash."""
    setup = {"first": first, "cutter_side": side, "head": head}
    made = job(ratchet(teeth=12, land=1.0, hook_angle=8), cutter, setup=setup)
    table = rows.touch_table(made)
    ways: dict[str, str] = {}
    for row in table.written(made.part.figures):
        cells = dict(zip(table.titles, row, strict=True))
        if cells["Sets the"] == "offset":
            ways.setdefault(cells.get("Lap", "1"), cells["Then go"].partition(" ")[2])
    line = str(lines(made, rows.how_far_over)[0])
    if len(set(ways.values())) == 1:
        assert line.startswith(f"Arrive going {ways['1']}")
    else:
        assert all(f"in lap {lap} going {way}" in line for lap, way in ways.items())


def test_a_later_lap_keeps_the_feed_of_lap_1() -> None:
    """The end face is cut when lap 2 comes to it, so there is one feed, from the whole blank."""
    made = job(ratchet(teeth=12, land=1.0), vee(45, sweep_diameter=40))
    assert [move.lap for move in made.touch_off if move.sets == "feed"] == [1]
    assert "X keeps its zero and its end from lap 1" in said(made)


def _is_metal(shape: BaseGeometry, place: complex) -> bool:
    """Whether there is metal just inside a place of the rim."""
    return bool(shape.contains(Point(place.real * 0.9999, place.imag * 0.9999)))


def test_a_lap_is_felt_again_in_plain_words() -> None:
    """After a slip the sheet says what touches what: flank by flank, or both sides of a cut that
    only the first of three laps made."""
    for cutter, words in (
        (vee(60), "until both flanks touch the cutter."),
        (vee(45), "until the face lies along the cutter's edge."),
        (vee(24, tip_radius=0.05), "Ink a space that only lap 1 has cut"),
    ):
        made = job(ratchet(), cutter)
        found = text(made, rows.pick_up)
        assert words in found
        assert "bear" not in found


@pytest.mark.parametrize(
    ("side", "cutter", "words"),
    [
        ("behind", vee(), "the cutter's body_width or setup.centre_height gives a second one."),
        ("above", vee(), ": the cutter's body_width gives a second one."),
        ("above", vee(edge_length=4), "The offset has one zero only."),
    ],
)
def test_a_second_zero_is_promised_only_where_there_is_one(
    side: str, cutter: Keys, words: str
) -> None:
    """The line names the keys that would give one, and none where none does."""
    made = job(ratchet(), cutter, setup={"cutter_side": side})
    assert words in text(made, rows.where_zero)
