"""The land that straight flanks leave before the cut is at full depth, in closed form.

A second way to `gap.land_left`: both flanks' crossings with the blank's circle, derived here, no
published source; `test_straight.py` cuts the blank by polygons.
"""

from __future__ import annotations

import cmath
import math

from profilegen.cutting.poses import Cut
from profilegen.forms.wheel import Wheel


def land_at(wheel: Wheel, cuts: tuple[Cut, ...], remaining: float) -> float:
    """Chord of the land when the last lap still has `remaining` mm of infeed to go, mm.

    The other lap, if there is one, is at full depth. Negative when the spaces have met.

    Raises:
        ValueError: there is no cut, or the cutter is still clear of the blank.
    """
    face = back = None
    for cut in cuts:
        lift = remaining if cut is cuts[-1] else 0.0
        if cut.forms in ("both", "face"):
            face = _crossing(cut, cut.wedge.face_edge, lift)
        if cut.forms in ("both", "back"):
            back = _crossing(cut, cut.wedge.back_edge, lift)
    if face is None or back is None:
        raise ValueError("the cuts do not form both flanks")
    gap = cmath.phase(back / face)
    return 2 * wheel.radius * math.sin((wheel.angular_pitch - gap) / 2)


def _crossing(cut: Cut, edge: complex, lift: float) -> complex:
    """Where an edge leaves the blank, in base orientation."""
    apex = cut.apex + 1j * lift
    across = (apex.conjugate() * edge).imag
    inside = cut.blank_radius**2 - across**2
    if inside <= 0:
        raise ValueError("the cutter is clear of the blank")
    along = math.sqrt(inside) - (apex * edge.conjugate()).real
    return cut.setup_from_base.inverse()(apex + along * edge)
