"""Teeth of clock wheels: radial flanks below the pitch circle, circular arcs above it.

Owns the tooth that wheel and pinion share, from its numbers to one pitch of outline, and the
addendum factor by an epicycloid. Refuses proportions, keys and words. Tooth 1 stands with its tip
at angle 0. Each arc runs through the point of the flank on the pitch circle and through the tip,
with the radius of the proportions, so it does not quite go on from the radial flank: `corner` says
by how much. Derived here, no published source; the tests draw the same tooth by circles through two
points and by polygons.
"""

from __future__ import annotations

import cmath
import math
from dataclasses import dataclass

import numpy as np

from profilegen.findings.finding import Refusal
from profilegen.geometry.chain import Chain, Role, chain, join, reverse
from profilegen.geometry.moves import MIRROR_X, moved, rotation
from profilegen.geometry.tolerance import SHORTEST_CHORD

FEWEST = 4
"""Teeth: with fewer, spaces open so wide that no cutter stands in them on centre."""


class NoTooth(Refusal):
    """No tooth has these sizes."""


@dataclass(frozen=True, slots=True)
class ArcTooth:
    """A symmetrical tooth of radial flanks and two arcs that meet in its tip.

    Attributes:
        teeth: count.
        pitch: radius of the pitch circle, mm.
        thickness: of a tooth along the pitch circle, mm.
        outside: radius to the tips, mm.
        arc: radius of the addendum arcs, mm.
        root: radius of the deepest material, mm.
        is_round: whether the root is one arc that runs on from both flanks, or else a flat square
            to the middle of the space.
    """

    teeth: int
    pitch: float
    thickness: float
    outside: float
    arc: float
    root: float
    is_round: bool

    @property
    def half_space(self) -> float:
        """From the middle of a space to its flank, rad: of radial flanks, the same at any depth."""
        return math.pi / self.teeth - self.thickness / (2 * self.pitch)

    @property
    def _reach(self) -> complex:
        """From the point on the pitch circle to the tip, mm, the middle of the space on +x."""
        tip = cmath.rect(self.outside, math.pi / self.teeth)
        return tip - cmath.rect(self.pitch, self.half_space)

    @property
    def _half_sweep(self) -> float:
        return math.asin(abs(self._reach) / (2 * self.arc))

    @property
    def corner(self) -> float:
        """Angle by which the arc leans in from the flank where they meet, rad; negative where it
        leans out, so that the tooth is thickest above the pitch circle."""
        return cmath.phase(self._reach) - self._half_sweep - self.half_space

    @property
    def tip_lean(self) -> float:
        """Between the arc at the tip and the radius there, rad; a right angle is a round tip."""
        return cmath.phase(self._reach) + self._half_sweep - math.pi / self.teeth

    @property
    def root_circle(self) -> tuple[float, float]:
        """Distance from the axis of the centre of a round root, and its radius, mm."""
        centre = self.root / (1 - math.sin(self.half_space))
        return centre, centre - self.root

    @property
    def flank_start(self) -> float:
        """Distance from the axis at which the radial flank begins, mm."""
        lean = math.cos(self.half_space)
        return self.root_circle[0] * lean if self.is_round else self.root / lean

    @property
    def floor_width(self) -> float:
        """Straight across the root where the flanks begin, mm."""
        return 2 * self.flank_start * math.sin(self.half_space)

    def check(self) -> None:
        """Refuse what is no tooth.

        Raises:
            NoTooth: it is none; sizes in it are mm.
        """
        if self.teeth < FEWEST:
            raise NoTooth("clock-teeth-few", self.teeth, FEWEST)
        if self.root <= 0:
            raise NoTooth("root-below-axis", self.root, 0.0, case="depth")
        if self.thickness < 2 * SHORTEST_CHORD:
            raise NoTooth("tooth-gone", self.thickness, 0.0)
        if self.half_space * self.pitch < SHORTEST_CHORD:
            raise NoTooth("space-filled", self.thickness, math.tau * self.pitch / self.teeth)
        if self.flank_start >= self.pitch - SHORTEST_CHORD:
            raise NoTooth("root-over-pitch", 2 * self.flank_start, 2 * self.pitch)
        if 2 * self.arc <= abs(self._reach):
            raise NoTooth("arc-short", self.arc, abs(self._reach) / 2)
        if self.tip_lean > math.pi / 2 + 1e-9:
            raise NoTooth("arc-past-tip", math.degrees(self.tip_lean), 90.0)

    def pitch_chain(self) -> Chain:
        """One pitch, tooth 1's tip at angle 0: arc and flank inward, root, flank and arc outward.

        Raises:
            NoTooth: it is none.
        """
        self.check()
        up = cmath.exp(1j * self.half_space)
        points = [
            self.flank_start * up,
            self.pitch * up,
            cmath.rect(self.outside, math.pi / self.teeth),
        ]
        back = chain(points, [0.0, math.tan(self._half_sweep / 2)], Role.BACK)
        face = reverse(moved(back, MIRROR_X))
        face = Chain(face.points, face.bulges, np.full(len(face), Role.FACE, dtype=np.uint8))
        sweep = math.pi - 2 * self.half_space if self.is_round else 0.0
        ends = [complex(face.points[-1]), complex(back.points[0])]
        floor = chain(ends, [-math.tan(sweep / 4)], Role.ROOT)
        return moved(join(face, floor, back), rotation(math.pi / self.teeth))


def epicycloid_addendum(teeth: int, mate: int) -> float:
    """Height over the pitch circle, in modules, at which two epicycloids meet in a point.

    They start half a tooth apart on either side of the middle of a tooth that is half the pitch
    thick, and are rolled by a circle of half the pitch diameter of the mate, which gives that one
    radial flanks.

    Args:
        teeth: of the wheel.
        mate: leaves of the pinion that it drives.
    """
    wheel, roller = teeth / 2, mate / 4
    half = math.pi / (2 * teeth)

    def place(turn: float) -> complex:
        centre = cmath.rect(wheel + roller, turn)
        return centre - cmath.rect(roller, turn * (1 + wheel / roller))

    low, high = 0.0, math.pi * roller / wheel
    for _ in range(100):
        middle = (low + high) / 2
        low, high = (middle, high) if cmath.phase(place(middle)) < half else (low, middle)
    return abs(place(high)) - wheel
