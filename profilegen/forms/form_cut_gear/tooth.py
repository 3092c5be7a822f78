"""The tooth that a range cutter really makes, and how far it stands off the true one.

The cutter has the space of a gear of the same module with another count, the lowest of its range.
It goes in until its space is as deep in the wheel as the rack's would be: the whole space is moved
out along its middle by the difference of the two root circles. Its flanks stay the involutes of the
other gear's base circle, so the wheel's are off the true form, most at the tip. Where the space is
wider inside than further out, undercut, a cutter fed straight in clears the way up: the wall
stands straight from the widest place. Derived here by plane geometry.

How far a place stands off an involute, square to it, is the arc of the base circle between that
involute and the one through the place: `rb (angle of the place - angle of the flank at its
radius)`.
"""

from __future__ import annotations

import cmath
import math
from collections.abc import Callable
from dataclasses import dataclass, field

import numpy as np

from profilegen.forms.involute.teeth import Teeth
from profilegen.forms.involute.tooth import (
    Gear,
    NoGear,
    falling_root,
    fitted_root,
    floored,
    pitch_with,
)
from profilegen.geometry.arcfit import Complexes, Fitted, Smooth, fit_arcs
from profilegen.geometry.chain import Chain, Reals, Role, chain, join
from profilegen.geometry.moves import Move, moved
from profilegen.geometry.tolerance import SAME_POINT, SHORTEST_CHORD

MOST_UNWOUND = 1e3
"""rad that an involute is looked at: more than any space needs."""


TIPS_TRIED = 33
"""Radii from flank to outside at which a tooth must have a width: far past its point it seems to
have one again, on the other side of the wheel."""


@dataclass(frozen=True, slots=True)
class FormCut:
    """A gear and the cutter that is used for it.

    Attributes:
        gear: as the rack would generate it, where the cutter is set to.
        maker: the gear whose space the cutter has, without shift; its outside does not count.
        root_end: lean at which the root ends: at the flank, or where the space is widest, rad.
        flank_start: how far the involute is unwound where the flank begins, rad.
    """

    gear: Gear
    maker: Gear
    root_end: float = field(init=False)
    flank_start: float = field(init=False)

    def __post_init__(self) -> None:
        """Work out where root and flank meet, once."""
        object.__setattr__(self, "root_end", self._root_end())
        object.__setattr__(self, "flank_start", self._flank_start())

    @property
    def lift(self) -> float:
        """From the axis of the cutter's gear to the wheel's, the other way, mm: how far the
        cutter's space stands further out than in its own gear."""
        return self.gear.root - self.maker.root

    def flank(self, unwound: Reals) -> Complexes:
        """Places of the flank, mm, by how far the involute is unwound, rad; the space's middle on
        +x."""
        turn = self.maker.base * cmath.exp(1j * self._start)
        return np.asarray(turn * np.exp(1j * unwound) * (1 - 1j * unwound) + self.lift)

    def flank_at(self, unwound: float) -> complex:
        """One place of it, mm, by how far the involute is unwound, rad."""
        start = self.maker.base * cmath.exp(1j * (self._start + unwound))
        return start * complex(1, -unwound) + self.lift

    @property
    def _start(self) -> float:
        return self.maker.half_space(self.maker.base)

    def root_at(self, lean: float) -> complex:
        """A place of the root, mm, by the lean of its normal, rad."""
        return complex(self.maker.root_places(np.array([lean]))[0]) + self.lift

    def is_hollow(self) -> bool:
        """Whether the cutter's gear is undercut so far that its space is wider inside than at the
        start of the flank."""
        return self.root_end < self.maker.root_end()

    def _overhang(self, lean: float) -> float:
        """From the way of the root there to straight up, rad; negative where it turns inwards."""
        maker = self.maker
        turned = (maker.depth * math.tan(lean) - maker.half_tip) / maker.pitch
        return math.pi / 2 - lean - turned

    def _root_end(self) -> float:
        end = self.maker.root_end()
        return falling_root(self._overhang, 0.0, end) if self._overhang(end) < 0 else end

    def _flank_start(self) -> float:
        end = self.root_end
        if self.is_hollow():
            widest = self.root_at(end).imag
            return _where(lambda t: self.flank_at(t).imag - widest)
        form = abs(self.root_at(end) - self.lift)
        return math.sqrt(max((form / self.maker.base) ** 2 - 1, 0.0))

    def form(self) -> float:
        """From the wheel's axis to where the flank begins, mm."""
        return abs(self.flank_at(self.flank_start))

    def deepest(self) -> float:
        """From the wheel's axis to the deepest place of the root, mm."""
        leans = np.linspace(0.0, self.root_end, 65)
        return float(np.abs(self.maker.root_places(leans) + self.lift).min())

    def unwound_at(self, radius: float) -> float:
        """How far the involute is unwound where it meets a circle about the wheel's axis (mm),
        rad."""
        return _where(lambda t: abs(self.flank_at(t)) - radius)

    def half_space(self, radius: float) -> float:
        """Half of the space at a radius from the wheel's axis, mm, on flank or root, rad."""
        if radius >= self.form():
            return cmath.phase(self.flank_at(self.unwound_at(radius)))
        end = self.root_end
        widest = self.root_at(end)
        if radius >= abs(widest):
            return math.asin(widest.imag / radius)
        lean = falling_root(lambda lean: radius - abs(self.root_at(lean)), 0.0, end)
        return cmath.phase(self.root_at(lean))

    def thickness(self) -> float:
        """Of a tooth along the pitch circle, mm, the flank going on where the outside is less."""
        pitch = self.gear.pitch
        half = cmath.phase(self.flank_at(self.unwound_at(pitch)))
        return 2 * pitch * (math.pi / self.gear.teeth - half)

    def tip_width(self, outside: float) -> float:
        """Straight across a tip at an outside radius, mm; negative past the point."""
        half = cmath.phase(self.flank_at(self.unwound_at(outside)))
        return 2 * outside * math.sin(math.pi / self.gear.teeth - half)

    def departure(self, radius: float) -> float:
        """How far the tooth stands inside the true flank, from where that crosses a circle (mm),
        square to it, mm; negative where metal stands outside of it."""
        base, off = self.gear.base, 0.0
        unwound = math.sqrt(max(radius**2 - base**2, 0.0))
        for _ in range(40):
            last, place = off, math.hypot(base, unwound - off)
            off = base * (self.half_space(place) - self.gear.half_space(place))
            if abs(off - last) < 1e-12:
                break
        return off

    def check(self) -> None:
        """Refuse teeth that are none.

        Raises:
            NoGear: with what was found and what it is held against, mm.
        """
        if self.gear.root <= 0:
            raise NoGear("root-below-axis", self.gear.root, 0.0, case="depth")
        half = math.pi / self.gear.teeth
        leans = np.linspace(0, self.root_end, 65)
        if np.angle(self.maker.root_places(leans) + self.lift).max() >= half:
            raise NoGear("undercut-through")
        outside, form = self.gear.outside, self.form()
        is_there = self.root_end > 0 and self.unwound_at(outside) > self.flank_start
        if not is_there or form >= outside - SHORTEST_CHORD:
            raise NoGear("flank-gone", 2 * outside, 2 * form)
        if self.thickness() <= 0:
            raise NoGear("tooth-gone", self.thickness(), 0.0)
        below = form
        for radius in np.linspace(form, outside, TIPS_TRIED)[1:].tolist():
            if self.tip_width(radius) < 2 * SHORTEST_CHORD:
                point = falling_root(self.tip_width, below, radius)
                raise NoGear("tip-past-point", 2 * outside, 2 * point)
            below = radius

    def half_outline(self, tolerance: float) -> tuple[Chain, float]:
        """From the middle of the root up one flank to the tip, the space's middle on +x.

        Returns:
            The chain (role `ROOT`, then `BACK`), and its greatest distance from the form, mm.
        """
        root = fitted_root(self.maker, self.root_end, tolerance)
        floor = moved(join(*floored(root)), Move(shift=complex(self.lift)))
        start, last = self.flank_start, complex(floor.points[-1])
        turn = cmath.exp(1j * self._start)
        curve = Smooth(
            self.flank,
            lambda t: turn * np.exp(1j * t),
            start,
            self.unwound_at(self.gear.outside),
        )
        flank = fit_arcs(curve, tolerance)
        points, error = flank.points.copy(), max(root.error, flank.error)
        wall: tuple[Chain, ...] = ()
        if abs(points[0] - last) >= SHORTEST_CHORD:
            wall = (chain([last, complex(points[0])], roles=Role.ROOT),)
        else:
            points[0] = last
        return join(floor, *wall, Fitted(points, flank.bulges, 0.0).chain(Role.BACK)), error

    def teeth(self, tolerance: float) -> Teeth:
        """The teeth that are made, arcs within a tolerance, mm.

        Raises:
            NoGear: there are none.
        """
        self.check()
        up, error = self.half_outline(tolerance)
        gear = self.gear
        pitch, root = pitch_with(up, gear.teeth), float(np.abs(up.points).min())
        thick, width = self.thickness(), self.tip_width(gear.outside)
        return Teeth(gear, pitch, error, root, self.form(), thick, width)


def _where(rising: Callable[[float], float]) -> float:
    """Where a function of the unwound angle passes 0, rad; 0 where it is not under 0 there."""
    if rising(0.0) >= -SAME_POINT:
        return 0.0
    high = 1.0
    while rising(high) < 0 and high < MOST_UNWOUND:
        high *= 2
    return falling_root(lambda t: -rising(t), 0.0, high)
