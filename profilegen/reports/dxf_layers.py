"""What goes on which layer of a DXF.

Owns the layers of the file to send (outline and holes, nothing else) and of the file to keep
(outline with the cutter's silhouette at every stop of every lap, in the wheel's frame).
"""

from __future__ import annotations

from profilegen.dxf.writing import CUTTER, HOLES, OUTLINE, Layer
from profilegen.geometry.moves import moved
from profilegen.job import Job


def part_layers(job: Job) -> tuple[Layer, ...]:
    """Outline and, where there are any, holes."""
    outline, *holes = job.wheel.contours
    layers = (Layer(OUTLINE, (outline,)),)
    return (*layers, Layer(HOLES, tuple(holes))) if holes else layers


def cutter_layers(job: Job) -> tuple[Layer, ...]:
    """The part, and the closed silhouettes of every cut at every stop."""
    silhouettes = tuple(
        moved(cut.silhouette(), cut.wheel_from_setup(job.wheel, stop))
        for cut in job.nominal.cuts
        for stop in range(job.wheel.teeth)
    )
    return (*part_layers(job), Layer(CUTTER, silhouettes))
