"""The picture to choose a cutter from: every panel told in figures, nothing on another thing."""

from __future__ import annotations

from functools import cache

import pytest

from profilegen.cutting.compare import Match, compared_cutters
from profilegen.drawing.boxes import Box
from profilegen.drawing.layout import overlaps
from profilegen.job import Job
from profilegen.part.drawer import load_drawer
from profilegen.part.shipped import drawer_path
from profilegen.sheets.compare_sheet import PANELS, compare_sheet
from tests.parts import Keys, job, ratchet, vee
from tests.sheets.written import labels

WHEELS: dict[str, Keys] = {
    "radial": ratchet(),
    "other hand, hooked": ratchet(hook_angle=12, space_angle=50, rotation="counter-clockwise"),
    "three teeth": ratchet(teeth=3, outside_diameter=20, land=6, space_angle=100),
    "no cutter matches": ratchet(space_angle=73, hook_angle=4),
}


@cache
def compared(name: str) -> tuple[Job, tuple[Match, ...]]:
    """A wheel's job, and what the cutters of the shipped drawer make of it."""
    made = job(WHEELS[name], vee())
    drawer = load_drawer(drawer_path("mm"))
    return made, tuple(compared_cutters(made.wheel, drawer, made.part.setup))


@pytest.mark.parametrize("paper", ["A4", "Letter"])
@pytest.mark.parametrize("name", WHEELS)
def test_labels_keep_clear_and_sizes_are_told(name: str, paper: str) -> None:
    """Every panel shows land and root, and the left-over or gouge where there is one."""
    made, matches = compared(name)
    sheet = compare_sheet(made, matches, paper)
    assert overlaps(sheet.boxes) == ()
    assert all(Box(0, 0, sheet.width, sheet.height).holds(box) for box in sheet.boxes)
    said = labels(sheet)
    shown = [match for match in matches if match.cuts][:PANELS]
    assert len([label for label in said if label.startswith("land ")]) == len(shown)
    for match in shown:
        assert match.fit is not None
        if match.fit.left_over.value > 1e-3:
            assert any(f"{match.fit.left_over.value:.3f}" in label for label in said)
