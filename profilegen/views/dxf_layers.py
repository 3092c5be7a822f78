"""What goes on which layer of a DXF.

Owns the layers of the file to send (outline and holes, nothing else), of the file to keep (outline
with the cutter's silhouette at every stop of every lap, in the wheel's frame), and of the
comparison of cutters (the best few over one space each, side by side).
"""

from __future__ import annotations

from collections.abc import Sequence

from profilegen.cutting.compare import Match
from profilegen.cutting.neighbours import outline_near
from profilegen.dxf.writing import (
    CUTTER,
    GOUGE,
    HOLES,
    LEFT_OVER,
    OUTLINE,
    SHEET,
    Label,
    Layer,
)
from profilegen.forms.wheel import Wheel
from profilegen.geometry.chain import Curve
from profilegen.geometry.measure import bounds
from profilegen.geometry.moves import Move, moved
from profilegen.job import Job


def part_layers(job: Job) -> tuple[Layer, ...]:
    """Outline and, where there are any, holes: the print's wheel in mm, seen from its front."""
    outline, *holes = job.wheel.contours
    layers = (Layer(OUTLINE, (outline,)),)
    return (*layers, Layer(HOLES, tuple(holes))) if holes else layers


def cutter_layers(job: Job) -> tuple[Layer, ...]:
    """The part, and the closed silhouettes of every cut at every stop: mm, seen from the front, on
    the print's blank.
    """
    silhouettes = tuple(
        moved(cut.silhouette(), cut.wheel_from_setup(job.wheel, stop))
        for cut in job.print_plan.cuts
        for stop in range(job.wheel.teeth)
    )
    return (*part_layers(job), Layer(CUTTER, silhouettes))


def comparison_layers(wheel: Wheel, matches: Sequence[Match]) -> tuple[Layer, ...]:
    """Cutters over one space and its neighbours, true size, side by side in the order given.

    Each stands as its first cut does, the space looking up, its name below it. Those that cannot
    enter the space are left out.

    Args:
        wheel: the print's, mm.
        matches: with the cuts of each, best first.
    """
    layers = {name: Layer(name, ()) for name in (OUTLINE, CUTTER, GOUGE, LEFT_OVER, SHEET)}
    left = 0.0
    for number, match in enumerate((one for one in matches if one.fit is not None), start=1):
        near = moved(outline_near(wheel, wheel.space.pitch), match.cuts[0].setup_from_base)
        low_x, low_y, high_x, high_y = bounds(near)
        place = Move(shift=complex(left - low_x, -low_y)).after(match.cuts[0].setup_from_base)
        height = 0.04 * (high_y - low_y + high_x - low_x)
        name = Label(complex(left, -2 * height), f"{number}  {match.cutter}", height)
        for layer, curves in _compared(wheel, match).items():
            seen = tuple(moved(curve, place) for curve in curves)
            layers[layer] = Layer(layer, (*layers[layer].curves, *seen))
        layers[SHEET] = Layer(SHEET, (), (*layers[SHEET].labels, name))
        left += 1.3 * (high_x - low_x)
    return tuple(layers.values())


def _compared(wheel: Wheel, match: Match) -> dict[str, tuple[Curve, ...]]:
    """What one cutter makes of the space, in base orientation."""
    cuts = (moved(cut.silhouette(), cut.setup_from_base.inverse()) for cut in match.cuts)
    curves: dict[str, tuple[Curve, ...]] = {
        OUTLINE: (outline_near(wheel, wheel.space.pitch),),
        CUTTER: tuple(cuts),
    }
    if match.fit is not None:
        curves[GOUGE] = match.fit.gouge.regions
        curves[LEFT_OVER] = match.fit.left_over.regions
    return curves
