"""Bench situations drawn on paper: wheel and cutter as polygons, the dials found by trying.

Owns a drawing made separately from the package, of which it imports nothing; no published source.
Where the cutter must stand is found by the requirement itself: lowered until it would touch the
finished metal, moved over and turned until least is left. Refuses bores, hands and flats at tips.

Base frame: wheel centre at 0, the face's tip of space 1 at R on +x, the space counter-clockwise of
it. Set-up pose: turned by `turn`, the cutter coming down along -y with its apex at `apex`. Points
are complex numbers, mm; angles in degrees. Arcs are chords with their ends on the arc.
"""

from __future__ import annotations

import cmath
import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely import Polygon
from shapely.geometry.base import BaseGeometry

Points = NDArray[np.complex128]
COARSE = 1e-4
"""mm of sagitta while areas are only compared: the least lies where flanks or corners touch."""
FINE = 1e-7
"""mm of sagitta where sizes are read off."""
FAR = 80.0
"""mm: length of the drawn flanks."""


def unit(angle: float) -> complex:
    """The point at 1 mm in the direction of an angle, degrees."""
    return cmath.rect(1.0, math.radians(angle))


def arc(centre: complex, radius: float, start: float, end: float, sagitta: float) -> Points:
    """Chords from one polar angle to another; of a radius of nothing its centre twice."""
    step = 2 * math.acos(1 - sagitta / radius) if radius else 4.0
    count = max(1, math.ceil(math.radians(abs(end - start)) / step))
    turned: Points = np.exp(1j * np.radians(np.linspace(start, end, count + 1)))
    return centre + radius * turned


def pairs(points: Points) -> NDArray[np.float64]:
    """Complex numbers as shapely wants them."""
    return points.view(np.float64).reshape(-1, 2)


def polygon(*pieces: Points | Sequence[complex]) -> Polygon:
    """A closed drawing of pieces one after the other."""
    return Polygon(pairs(np.concatenate(pieces)))


def meet(p: complex, along: complex, q: complex, other: complex) -> complex:
    """Where two lines cross, each given by a point and a direction."""
    cross = (along.conjugate() * other).imag
    return p + along * ((q - p).conjugate() * other).imag / cross


def golden(size: Callable[[float], float], low: float, high: float, near: float) -> float:
    """The place of the least of something with one valley, by golden sections."""
    part = (math.sqrt(5) - 1) / 2
    a, b = high - part * (high - low), low + part * (high - low)
    at_a, at_b = size(a), size(b)
    while high - low > near:
        if at_a <= at_b:
            high, b, at_b = b, a, at_a
            a = high - part * (high - low)
            at_a = size(a)
        else:
            low, a, at_a = a, b, at_b
            b = low + part * (high - low)
            at_b = size(b)
    return a if at_a <= at_b else b


def last(holds: Callable[[float], bool], good: float, bad: float) -> float:
    """The last value from `good` towards `bad` for which something holds, by halving."""
    while abs(bad - good) > 1e-10:
        middle = (good + bad) / 2
        good, bad = (middle, bad) if holds(middle) else (good, middle)
    return good


@dataclass(frozen=True)
class Wheel:
    """A ratchet from its print: mm and degrees."""

    teeth: int
    diameter: float
    land: float
    space_angle: float
    hook: float
    root_radius: float

    @property
    def radius(self) -> float:
        """Of the rim."""
        return self.diameter / 2

    @property
    def pitch(self) -> float:
        """Angular pitch."""
        return 360 / self.teeth

    @property
    def width(self) -> float:
        """Angle of a space at the rim."""
        return self.pitch - 2 * math.degrees(math.asin(self.land / self.diameter))

    @property
    def tips(self) -> tuple[complex, complex]:
        """Where face and back end at the rim."""
        return complex(self.radius), self.radius * unit(self.width)

    @property
    def vertex(self) -> complex:
        """Where face and back would meet if sharp."""
        face, back = self.tips
        return meet(face, unit(self.hook), back, unit(self.hook + self.space_angle))

    def rim(self, start: float, end: float, sagitta: float) -> Points:
        """A piece of the rim."""
        return arc(0j, self.radius, start, end, sagitta)

    def fillet(self, sagitta: float) -> Points:
        """The rounded root, from the back to the face."""
        half = self.space_angle / 2
        centre = self.vertex + self.root_radius / math.sin(math.radians(half)) * unit(
            self.hook + half
        )
        ends = (self.hook + self.space_angle + 90, self.hook + 270)
        return arc(centre, self.root_radius, *ends, sagitta)

    def space(self, sagitta: float, rim: float, rounded: bool = True) -> Polygon:
        """Space 1 as wanted, or with the sharp vertex that no cutter may pass."""
        root = self.fillet(sagitta) if rounded else [self.vertex]
        return polygon(self.rim(0, self.width, rim), root)

    def strip(self, back: bool, wide: float) -> BaseGeometry:
        """Of the sharp space what lies along the face, or along the back."""
        tip = self.tips[back]
        into = wide * unit(self.hook + self.space_angle - 90 if back else self.hook + 90)
        band = polygon([tip, self.vertex, self.vertex + into, tip + into])
        return self.space(COARSE, COARSE, rounded=False).intersection(band)

    def metal(self) -> Polygon:
        """Finished metal round space 1, three spaces of it, their vertices sharp."""
        turns = [k * self.pitch for k in (-1, 0, 1)]
        rims = [self.rim(turn + self.width - self.pitch, turn, COARSE) for turn in turns]
        roots = [np.array([self.vertex * unit(turn)]) for turn in turns]
        end = self.rim(self.pitch + self.width, 2 * self.pitch, COARSE)
        return polygon(
            [0j], *(piece for two in zip(rims, roots, strict=True) for piece in two), end
        )


@dataclass(frozen=True)
class Cutter:
    """A vee from its flanks' angles to the infeed and its nose; the right flank is on +x."""

    right: float
    left: float
    nose: float

    def from_apex(self, square: float) -> complex:
        """The place at a distance square to both flanks."""
        half = math.radians(self.right + self.left) / 2
        return square / math.sin(half) * unit(90 + (self.left - self.right) / 2)

    @property
    def tip(self) -> complex:
        """The lowest place of the nose, seen from the apex."""
        return self.from_apex(self.nose) - 1j * self.nose

    @property
    def flanks(self) -> Points:
        """The directions of the flanks up from the apex."""
        return np.array([unit(90 - self.right), unit(90 + self.left)])

    def outline(self, sagitta: float) -> Points:
        """End of the right flank, end of the left one, and the nose; the apex at 0."""
        nose = arc(self.from_apex(self.nose), self.nose, 180 + self.left, 360 - self.right, sagitta)
        return np.concatenate([FAR * self.flanks, nose])

    def drawn_in(self, square: float) -> Points:
        """The outline drawn in square to the edge: flanks moved in, the nose about its centre."""
        inner = replace(self, nose=max(self.nose - square, 0.0))
        return inner.outline(FINE) + self.from_apex(square)


@dataclass(frozen=True)
class Pose:
    """A setting: turn of the wheel, degrees, and the cutter's apex in the set-up pose, mm."""

    turn: float
    apex: complex


class Bench:
    """A wheel and a cutter set up together."""

    def __init__(self, wheel: Wheel, cutter: Cutter) -> None:
        self.wheel, self.cutter = wheel, cutter
        self.metal = wheel.metal()
        shapely.prepare(self.metal)
        self.outline = {size: cutter.outline(size) for size in (COARSE, FINE)}
        # What comes within the nose's radius of its core touches the cutter: a nose without chords.
        right, left = FAR * cutter.flanks
        self.core = cutter.from_apex(cutter.nose) + np.array([right, 0j, left])

    def in_base(self, pose: Pose, sagitta: float = FINE) -> Polygon:
        """The cutter drawn over the print."""
        return polygon((self.outline[sagitta] + pose.apex) * unit(-pose.turn))

    def lowered(self, work: Polygon, turn: float, offset: float, high: float, low: float) -> Pose:
        """Lowered at an offset until it would touch the work, which lies in the base frame."""
        core, up = (self.core + offset) * unit(-turn), 1j * unit(-turn)

        def clear(height: float) -> bool:
            at = shapely.linestrings(pairs(core + up * height))
            return not shapely.dwithin(work, at, self.cutter.nose)

        return Pose(turn, complex(offset, last(clear, high, low)))

    def deepest(self, turn: float, offset: float) -> Pose:
        """As deep as the finished metal allows."""
        return self.lowered(
            self.metal, turn, offset, self.wheel.radius + 1, 0.2 * self.wheel.radius
        )

    def first_touch(self, offset: float) -> float:
        """Height of the apex at which it first touches the blank at an offset."""
        radius = self.wheel.radius
        top = math.degrees(math.acos(offset / radius))
        cap = polygon([0j], self.wheel.rim(top - 2, top + 2, FINE / 50))
        shapely.prepare(cap)
        level = math.sqrt(radius**2 - offset**2)
        return self.lowered(cap, 0.0, offset, level + 3, level - 3).apex.imag

    def best(self, left: Callable[[Polygon], float], low: float, high: float, near: float) -> Pose:
        """Turn (between two), offset and depth that leave least, as `left` counts it."""

        def at_turn(turn: float) -> Pose:
            xs = [(z * unit(turn)).real for z in (*self.wheel.tips, self.wheel.vertex)]

            def of_offset(offset: float) -> float:
                pose = self.deepest(turn, offset)
                if abs(pose.apex + self.cutter.from_apex(self.cutter.nose)) > self.wheel.radius:
                    return 1e3 + abs(offset - (xs[0] + xs[1]) / 2)
                return left(self.in_base(pose, COARSE))

            return self.deepest(turn, golden(of_offset, min(xs) - 0.3, max(xs) + 0.3, near / 4))

        return at_turn(golden(lambda t: left(self.in_base(at_turn(t), COARSE)), low, high, near))
