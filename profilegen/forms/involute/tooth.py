"""The tooth that a rack cuts: flank and root in closed form, and the pitch of the outline.

A space is looked at with its middle on +x. The rack's tooth stands in it and rolls: when the gear
has turned by t, the rack has run r t along the pitch circle's tangent. A place of the rack cuts
where the normal there runs through the pitch point (the law of gearing). Its straight flank gives
the involute of the base circle; the round of its tip gives the root, a curve parallel to the
trochoid of the round's centre. With h, the depth of that centre under the rolling line, and f, the
radius of the round, the root ends on the line of action h / sin(a) + f from the pitch point. While
that is no more than r sin(a), root and involute meet there with one tangent, a double root of any
function that looks for a crossing; past it the root cuts into the involute, undercut, and crosses
it once. Derived here from the law of gearing; tests sweep the rack through a blank.
"""

from __future__ import annotations

import cmath
import math
from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from profilegen.findings.finding import Refusal
from profilegen.forms.involute.rack import Factors
from profilegen.geometry.arcfit import Complexes, Fitted, Smooth, fit_arcs
from profilegen.geometry.chain import Chain, Reals, Role, chain, join, reverse
from profilegen.geometry.moves import MIRROR_X, moved, rotation
from profilegen.geometry.tolerance import SHORTEST_CHORD


class NoGear(Refusal):
    """A gear with these sizes has no teeth."""


def involute(angle: float) -> float:
    """`tan a - a`: what an involute has unwound at a pressure angle (rad), rad."""
    return math.tan(angle) - angle


@dataclass(frozen=True, slots=True)
class Gear:
    """What the rack, its place and the blank make of a gear.

    Attributes:
        teeth: how many.
        module: mm.
        pressure_angle: of the rack, rad.
        rack: its proportions.
        shift: of the rack's reference line outwards from the pitch circle, mm, thinning taken off.
        outside: radius of the blank, mm.
    """

    teeth: int
    module: float
    pressure_angle: float
    rack: Factors
    shift: float
    outside: float

    @property
    def pitch(self) -> float:
        """Radius of the pitch circle, mm."""
        return self.module * self.teeth / 2

    @property
    def base(self) -> float:
        """Radius of the base circle, mm."""
        return self.pitch * math.cos(self.pressure_angle)

    @property
    def root(self) -> float:
        """Radius of the root circle, mm."""
        return self.pitch - self.rack.dedendum * self.module + self.shift

    @property
    def thickness(self) -> float:
        """Of a tooth along the pitch circle, mm."""
        return math.pi * self.module / 2 + 2 * self.shift * math.tan(self.pressure_angle)

    @property
    def tip_round(self) -> float:
        """Radius of the rack's tip round, mm."""
        return self.rack.tip_radius * self.module

    @property
    def depth(self) -> float:
        """Of the tip round's centre under the rolling line, mm; negative when above it."""
        return (self.rack.dedendum - self.rack.tip_radius) * self.module - self.shift

    @property
    def half_tip(self) -> float:
        """From the middle of the rack's tooth to the centre of its tip round, mm."""
        slope, rack = math.tan(self.pressure_angle), self.rack
        half = math.pi / 4 - (rack.dedendum - rack.tip_radius) * slope
        return self.module * (half - rack.tip_radius / math.cos(self.pressure_angle))

    @property
    def margin(self) -> float:
        """How far short of the base circle's tangent point the root ends on the line of action, mm;
        negative: the teeth are undercut."""
        reach = self.depth / math.sin(self.pressure_angle) + self.tip_round
        return self.pitch * math.sin(self.pressure_angle) - reach

    def half_space(self, radius: float) -> float:
        """Half of a space between the involutes at a radius (mm, not under the base), rad."""
        at_pitch = (math.pi * self.module - self.thickness) / 2 / self.pitch
        unwound = math.sqrt(max(radius**2 / self.base**2 - 1, 0.0))
        return at_pitch - involute(self.pressure_angle) + unwound - math.atan(unwound)

    def half_tooth(self, radius: float) -> float:
        """Half of a tooth between its involutes at a radius (mm), rad; negative past its point."""
        return math.pi / self.teeth - self.half_space(radius)

    def arc_thickness(self, radius: float) -> float:
        """Of a tooth along a circle of this radius (mm, on the involute), mm."""
        return 2 * radius * self.half_tooth(radius)

    def pointed_radius(self) -> float:
        """Where the involutes of a tooth meet, mm."""
        low, high = self.base, 2 * self.base
        while self.half_tooth(high) > 0:
            low, high = high, 2 * high
        return falling_root(self.half_tooth, low, high)

    def root_places(self, lean: Reals) -> Complexes:
        """Places of the root, mm, by how far its normal leans from the radius on the rack, rad."""
        run = self.depth * np.tan(lean)
        across = run + self.tip_round * np.sin(lean)
        up = self.pitch - self.depth - self.tip_round * np.cos(lean)
        return np.asarray((up + 1j * across) * np.exp(-1j * self._turned(run)))

    def root_ways(self, lean: Reals) -> Complexes:
        """Directions of the root there, towards the tip, each of length 1; `lean` in rad."""
        run = self.depth * np.tan(lean)
        return np.asarray((np.sin(lean) + 1j * np.cos(lean)) * np.exp(-1j * self._turned(run)))

    def _turned(self, run: Reals) -> Reals:
        return np.asarray((run - self.half_tip) / self.pitch)

    def root_end(self) -> float:
        """Lean at which the root gives way to the involute, rad.

        Raises:
            NoGear: it cuts away all of the involute.
        """
        last = math.pi / 2 - self.pressure_angle
        if self.margin >= 0:
            return last
        low = falling_root(lambda lean: self.base - abs(self._root_at(lean)), 0.0, last)
        return falling_root(self._under, low, last)

    def _root_at(self, lean: float) -> complex:
        return complex(self.root_places(np.array([lean]))[0])

    def _under(self, lean: float) -> float:
        """How far the root stands in the tooth, behind the involute, rad."""
        at = self._root_at(lean)
        return cmath.phase(at) - self.half_space(abs(at))

    def form_radius(self) -> float:
        """Where the involute begins, mm."""
        if self.margin >= 0:
            return math.hypot(self.base, self.margin)
        return abs(self._root_at(self.root_end()))

    def check(self) -> None:
        """Refuse teeth that are none.

        Raises:
            NoGear: with what was found and what it is held against, mm.
        """
        if self.thickness <= 0:
            raise NoGear("tooth-gone", self.thickness, 0.0)
        if self.root <= 0:
            raise NoGear("root-below-axis", self.root, 0.0, case="depth")
        self._check_flank()

    def _check_flank(self) -> None:
        form, point = self.form_radius(), self.pointed_radius()
        if np.angle(self.root_places(np.linspace(0, self.root_end(), 65))).max() >= (
            math.pi / self.teeth
        ):
            raise NoGear("undercut-through")
        if form >= min(self.outside, point) - SHORTEST_CHORD:
            raise NoGear("flank-gone", 2 * self.outside, 2 * form)
        if self.arc_thickness(self.outside) < 2 * SHORTEST_CHORD:
            raise NoGear("tip-past-point", 2 * self.outside, 2 * point)


def half_outline(gear: Gear, tolerance: float) -> tuple[Chain, float]:
    """From the middle of the root up one flank to the tip, the space's middle on +x.

    Returns:
        The chain (role `ROOT`, then `BACK`), and its greatest distance from the true form, mm.
    """
    end = gear.root_end()
    root = fitted_root(gear, end, tolerance)
    base, form = gear.base, abs(complex(root.points[-1]))
    start, stop = (math.sqrt(max(r**2 / base**2 - 1, 0.0)) for r in (form, gear.outside))
    turn = cmath.exp(1j * gear.half_space(base))
    flank = fit_arcs(
        Smooth(
            lambda t: base * turn * np.exp(1j * t) * (1 - 1j * t),
            lambda t: turn * np.exp(1j * t),
            start,
            stop,
        ),
        tolerance,
    )
    points = flank.points.copy()
    points[0] = root.points[-1]
    chain_up = join(*floored(root), Fitted(points, flank.bulges, 0.0).chain(Role.BACK))
    return chain_up, max(root.error, flank.error)


def fitted_root(gear: Gear, end: float, tolerance: float) -> Fitted:
    """The root's curve up to a lean (rad), within a tolerance, mm."""
    return fit_arcs(Smooth(gear.root_places, gear.root_ways, 0.0, end), tolerance)


def floored(root: Fitted) -> tuple[Chain, ...]:
    """The root's curve, mm, with the half of the root circle before it where there is one; the
    middle of the space on +x."""
    curve, first = root.chain(Role.ROOT), complex(root.points[0])
    if first.imag < SHORTEST_CHORD:
        points = curve.points.copy()
        points[0] = abs(first)
        return (Chain(points, curve.bulges, curve.roles),)
    floor = chain([abs(first), first], [math.tan(cmath.phase(first) / 4)], Role.ROOT)
    return floor, curve


def pitch_of(gear: Gear, tolerance: float) -> tuple[Chain, float]:
    """One pitch of the outline, mm, tooth 1 centred on +x: flank, root, flank, crest; its error.

    Args:
        gear: as the rack generates it.
        tolerance: how far arcs and lines may stand off the true curves, mm, as the error does.

    Raises:
        NoGear: there are no teeth.
    """
    gear.check()
    up, error = half_outline(gear, tolerance)
    return pitch_with(up, gear.teeth), error


def pitch_with(up: Chain, teeth: int) -> Chain:
    """One pitch, tooth 1 centred on +x, of which half a space is given.

    Args:
        up: from the middle of the root to the tip (roles `ROOT`, then `BACK`), the space's middle
            on +x, mm.
        teeth: of the whole wheel.
    """
    down = reverse(moved(up, MIRROR_X))
    roles = np.where(down.roles == Role.BACK, Role.FACE, down.roles).astype(np.uint8)
    down = Chain(down.points, down.bulges, roles)
    tip, step = complex(up.points[-1]), cmath.exp(2j * math.pi / teeth)
    over = tip.conjugate() * step
    crest = chain([tip, over], [math.tan(cmath.phase(over / tip) / 4)], Role.LAND)
    return moved(join(down, up, crest), rotation(math.pi / teeth))


def falling_root(value: Callable[[float], float], low: float, high: float) -> float:
    """Where a function passes from over 0 at `low` to under 0 at `high`, to the last digit."""
    for _ in range(200):
        middle = (low + high) / 2
        if middle in (low, high):
            break
        low, high = (middle, high) if value(middle) > 0 else (low, middle)
    return high
