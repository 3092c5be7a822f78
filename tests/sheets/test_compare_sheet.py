"""The picture to choose a cutter from: every panel told in figures, nothing on another thing."""

from __future__ import annotations

import re

import pytest

from profilegen.cutting.compare import compared_cutters
from profilegen.drawing.boxes import Box
from profilegen.drawing.layout import overlaps
from profilegen.output.svg import svg_bytes
from profilegen.part.drawer import load_drawer
from profilegen.part.shipped import drawer_path
from profilegen.sheets.compare_sheet import PANELS, compare_sheet
from tests.parts import Keys, job, ratchet, vee

WHEELS: dict[str, Keys] = {
    "radial": ratchet(),
    "other hand, hooked": ratchet(hook_angle=12, space_angle=50, rotation="counter-clockwise"),
    "three teeth": ratchet(teeth=3, outside_diameter=20, land=6, space_angle=100),
    "no cutter matches": ratchet(space_angle=73, hook_angle=4),
}


@pytest.mark.parametrize("paper", ["A4", "Letter"])
@pytest.mark.parametrize("name", WHEELS)
def test_labels_keep_clear_and_sizes_are_told(name: str, paper: str) -> None:
    """Every panel shows land and root, and the left-over or gouge where there is one."""
    made = job(WHEELS[name], vee())
    matches = compared_cutters(made.wheel, load_drawer(drawer_path("mm")), made.part.setup)
    sheet = compare_sheet(made, matches, paper)
    assert overlaps(sheet.boxes) == ()
    assert all(Box(0, 0, sheet.width, sheet.height).holds(box) for box in sheet.boxes)
    said = re.findall(r'aria-label="([^"]*)"', svg_bytes(sheet).decode())
    shown = [match for match in matches if match.cuts][:PANELS]
    assert len([label for label in said if label.startswith("land ")]) == len(shown)
    for match in shown:
        assert match.fit is not None
        if match.fit.left_over.value > 1e-3:
            assert any(f"{match.fit.left_over.value:.3f}" in label for label in said)
