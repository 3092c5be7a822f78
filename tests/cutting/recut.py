"""A wheel as a faulty set-up really makes it: straight flanks laid where they are, then cut.

Uses the poses of the plan and plane geometry only, none of the sensitivities under test.
"""

from __future__ import annotations

import cmath
import math
from dataclasses import dataclass, field, replace

from profilegen.cutting.poses import Cut, posed_cut
from profilegen.cutting.wedge import Wedge
from profilegen.geometry.measure import nearest
from profilegen.geometry.moves import Move, moved
from profilegen.job import Job


@dataclass(frozen=True)
class Faults:
    """Setting errors, mm and rad; `lap` is the one that infeed and offset are of."""

    infeed: float = 0.0
    offset: float = 0.0
    offset_at_offset_zero: float = 0.0
    blank_radius: float = 0.0
    blank_radius_at_offset_zero: float = 0.0
    blank_radius_from_axis: float = 0.0
    cutter_angle: float = 0.0
    tilt: float = 0.0
    tip: float = 0.0
    lap: int = 1


@dataclass(frozen=True)
class Made:
    """What came out: land and root diameter, mm; hook, rad; flanks in base orientation."""

    land: float
    hook: float
    root: float
    face: tuple[complex, complex] = field(default=(0j, 0j))
    back: tuple[complex, complex] = field(default=(0j, 0j))


def made_by(job: Job, faults: Faults) -> Made:
    """Cut every space with these faults."""
    radius = job.wheel.radius + (
        faults.blank_radius + faults.blank_radius_at_offset_zero + faults.blank_radius_from_axis
    )
    face = back = (0j, 0j)
    roots = []
    for cut in job.plan.cuts:
        tool, apex, tilt = _posed(job, cut, faults, radius)
        base = cut.setup_from_base.inverse()
        turn = cmath.exp(1j * tilt)
        if cut.forms in ("both", "face"):
            face = base(apex), base.direction(tool.face_edge * turn)
        if cut.forms in ("both", "back"):
            back = base(apex), base.direction(tool.back_edge * turn)
        shape = moved(tool.silhouette(4 * radius), Move(turn, apex))
        roots.append(nearest(shape, 0j)[0])
    tip, heel = (leaves(line, radius) for line in (face, back))
    gap = cmath.phase(heel / tip)
    land = 2 * radius * math.sin((job.wheel.angular_pitch - gap) / 2)
    return Made(land, cmath.phase(face[1] / tip), 2 * min(roots), face, back)


def _posed(job: Job, cut: Cut, faults: Faults, radius: float) -> tuple[Wedge, complex, float]:
    """The faulty cutter, its apex in the set-up pose, and its tilt."""
    wedge = _ground(cut.wedge, faults)
    mine = len(job.plan.cuts) == 1 or faults.lap == cut.lap
    tip = cut.tip + faults.blank_radius * 1j
    if mine:
        tip += complex(faults.offset + faults.offset_at_offset_zero, -faults.infeed)
    if (mine and faults.offset_at_offset_zero) or faults.blank_radius_at_offset_zero:
        blank = replace(job.wheel, radius=radius)
        now = posed_cut(blank, wedge, cut.forms, 1, 0.0, tip - wedge.tip).infeed_from_offset
        tip += 1j * (now - cut.infeed_from_offset)
    return wedge, tip - wedge.tip * cmath.exp(1j * faults.tilt), faults.tilt


def _ground(wedge: Wedge, faults: Faults) -> Wedge:
    """The cutter with its angle and tip off; the angle of a flat flank is not."""
    face = back = faults.cutter_angle / 2
    if wedge.face_side == 0:
        face, back = 0.0, faults.cutter_angle
    ground = replace(wedge, face_side=wedge.face_side + face, back_side=wedge.back_side + back)
    if wedge.flat:
        return replace(ground, flat=wedge.flat + faults.tip)
    return replace(ground, nose=wedge.nose + faults.tip)


def leaves(line: tuple[complex, complex], radius: float, centre: complex = 0j) -> complex:
    """Where a line (point, outward direction) leaves a circle about `centre`, mm."""
    start, along = line[0] - centre, line[1] / abs(line[1])
    foot = (start / along).imag
    return centre + along * complex(math.sqrt(radius**2 - foot**2), foot)
