"""The enlarged space: large for any count of teeth, its notes clear of each other."""

from __future__ import annotations

import pytest

from profilegen.drawing.boxes import Box, bounds
from profilegen.drawing.layout import overlaps
from profilegen.views.space_view import placed_in, space_view
from tests.parts import job, ratchet, single, vee

ROOM = Box(0.0, 0.0, 88.0, 42.0)
FEW = [(2, 90), (3, 90), (4, 90), (6, 80), (8, 70)]


@pytest.mark.parametrize("rotation", ["clockwise", "counter-clockwise"])
@pytest.mark.parametrize(("hook", "depth"), [(0, 2), (0, 6), (12, 4), (25, 3)])
@pytest.mark.parametrize(("teeth", "angle"), FEW)
def test_the_space_fills_its_window_and_no_note_lies_on_another(
    teeth: int, angle: int, hook: int, depth: int, rotation: str
) -> None:
    """However long the land is, the space takes half of the window one way; labels stay apart."""
    wheel = ratchet(
        teeth=teeth,
        outside_diameter=40,
        land=None,
        tooth_depth=depth,
        space_angle=angle,
        hook_angle=hook,
        rotation=rotation,
    )
    for cutter in (vee(angle), single(60)):
        made = job(wheel, cutter)
        drawn = space_view(made, made.part.figures, ROOM)
        assert overlaps(drawn.boxes) == ()
        assert all(ROOM.holds(box) for box in drawn.boxes)
    window = Box(0.0, 0.0, 42.0, 36.0)
    placed, space = placed_in(made, window), made.wheel.space
    shown = bounds(map(placed.at, (space.pitch.points[0], space.pitch.points[-2], space.vertex)))
    assert window.holds(shown)
    assert shown.width > 0.5 * window.width or shown.height > 0.5 * window.height
