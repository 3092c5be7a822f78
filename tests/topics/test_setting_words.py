"""The relief of a spun tool as the sheet tells it."""

from __future__ import annotations

import math

import pytest

from profilegen.cutting.ground import Ground
from profilegen.job import Job
from profilegen.topics.setting_words import (
    DOWN_THE_NOSE,
    GROUND,
    setting_sections,
    slotting_sections,
)
from profilegen.topics.topic import Pair, written
from profilegen.topics.touchoff_rows import needs_of
from tests.cutting.recut import Faults, made_by
from tests.parts import Keys, job, ratchet, vee

FLY: Keys = {"sweep_diameter": 30, "relief_angle": 11, "edge_thickness": 3.97}


def told(made: Job) -> dict[str, str]:
    """The rows under the heading of the relief."""
    sections = written(setting_sections(made), made.part.figures)
    (found,) = [one for one in sections if one.heading == "Relief of the tool"]
    return {line.label: line.value for line in found.lines if isinstance(line, Pair)}


def degrees(text: str) -> float:
    """The number of an angle."""
    return float(text.removesuffix("\N{DEGREE SIGN}"))


def test_both_grinds_are_told_where_the_cutter_does_not_say() -> None:
    """Down the ridge of flat flanks the relief is `asin(T / way) / 2`, `way` from the spindle's
    axis to where the edge leaves the blank (derived, no published source), and more than down an
    even nose; rounded up to what is printed."""
    made = job(ratchet(), vee(60, **FLY))
    (cut,) = made.plan.cuts
    face, back = made.made.space.face, made.made.space.back
    assert face is not None
    assert back is not None
    top = max(cut.setup_from_base(flank.tip).imag for flank in (face, back))
    way = 15.0 - (top - cut.tip.imag)
    wanted = math.degrees(math.asin(3.97 / way) / 2)
    rows = told(made)
    even, ridge = (degrees(rows[DOWN_THE_NOSE[ground]]) for ground in DOWN_THE_NOSE)
    assert wanted <= ridge < wanted + 1.1e-3
    assert even < ridge
    square = [degrees(rows[GROUND[ground]]) for ground in GROUND]
    assert square[0] == even
    half = math.radians(30)
    down = math.degrees(math.atan(math.tan(math.radians(square[1])) / math.sin(half)))
    assert down == pytest.approx(ridge, abs=3e-3)


@pytest.mark.parametrize("ground", DOWN_THE_NOSE)
def test_only_the_grind_that_the_cutter_has_is_told(ground: Ground) -> None:
    """One row where the cutter says how it is ground."""
    rows = told(job(ratchet(), vee(60, relief_ground=ground, **FLY)))
    names = [name for name in rows if name in DOWN_THE_NOSE.values()]
    assert names == [DOWN_THE_NOSE[ground]]


@pytest.mark.parametrize(
    ("side", "way"),
    [
        ("behind", "towards the column (Y)"),
        ("in front", "towards the operator (Y)"),
        ("above", "to the left (X)"),
    ],
)
def test_the_spindle_is_locked_before_the_corner_tool_goes_in(side: str, way: str) -> None:
    """The caution stands under the same heading as the tool, before it; the tool points to where
    the cutter came from, tilted up with the head: what looked up then looks to the head's side."""
    square: Keys = {"kind": "square", "across_flats": 6}
    made = job(ratchet(), vee(), bore=square, setup={"cutter_side": side})
    sections = written(slotting_sections(made), made.part.figures)
    assert [one.heading for one in sections] == [
        "The square: its pilot",
        "The square: its corners",
        "The square: the strokes",
    ]
    caution, tool, *_ = sections[1].lines
    assert isinstance(caution, str)
    assert isinstance(tool, str)
    assert caution.startswith("CAUTION: spindle isolated from its power")
    assert "locked against turning" in caution
    assert tool.startswith("Fit the corner tool.")
    assert way in tool


def test_other_bores_are_told_where_they_lie() -> None:
    """A keyway has one reading, a hexagon six and its pilot; a round bore and no cut nothing."""
    bores: list[tuple[Keys, int]] = [
        ({"kind": "keyed", "diameter": 8, "key_width": 2, "key_depth": 1}, 1),
        ({"kind": "hexagon", "across_flats": 6}, 6),
    ]
    for bore, count in bores:
        made = job(ratchet(), vee(), bore=bore)
        tool, places = written(slotting_sections(made), made.part.figures)
        rows = [line.label for line in places.lines if isinstance(line, Pair)]
        assert len(rows) == count
        pilots = [line for line in tool.lines if isinstance(line, Pair)]
        assert bool(pilots) == (bore["kind"] == "hexagon")
        assert any("locked against turning" in str(line) for line in tool.lines)
    for cutters, bore in (((vee(),), {"kind": "round", "diameter": 6}), ((), bores[0][0])):
        made = job(ratchet(), *cutters, bore=bore)
        assert written(slotting_sections(made), made.part.figures) == ()


@pytest.mark.parametrize("touch", ["top", "offset"])
def test_the_budget_told_is_that_of_the_zero_used(touch: str) -> None:
    """The accuracy that the offset needs is the tolerance over what a wheel re-cut from that very
    zero loses, shared among all that are set; table and words have the same."""
    made = job(ratchet(), vee(), setup={"touch": touch})
    (before, *_) = written(setting_sections(made), made.part.figures)
    rows = {line.label: line.value for line in before.lines if isinstance(line, Pair)}
    assert made.budget is not None
    step, is_top = 1e-4, touch == "top"
    faults = [
        Faults(offset=way) if is_top else Faults(offset_at_offset_zero=way) for way in (step, -step)
    ]
    up, down = (made_by(made, fault).land for fault in faults)
    shares = sum(not row.is_instead and abs(row.effects.land) > 1e-9 for row in made.budget.rows)
    needed = made.budget.tolerance / abs((up - down) / (2 * step)) / math.sqrt(shares)
    assert float(rows["offset"].removesuffix(" mm")) == pytest.approx(needed, abs=1e-3)
    assert needs_of(made)["offset", 1] == pytest.approx(needed, rel=1e-4)
