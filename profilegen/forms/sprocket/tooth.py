"""The tooth of a sprocket: the seat of a roller, a flank on each side, and the crest.

A gap is three arcs, each tangent to the next: the seat, about a point on the line through the
middle of the gap; and two flanks, hollow towards the roller's way out, which the teeth show as
convex. Formulas of ISO 606; that the least seat, the greatest angle and the smaller flank radius
make the narrowest gap is by geometry (a larger convex flank stands farther into the gap).
"""

from __future__ import annotations

import cmath
import math
from dataclasses import dataclass

from profilegen.findings.finding import Refusal, mm
from profilegen.forms.sprocket.keys import GapForm, Sprocket
from profilegen.geometry.chain import Chain, Role, chain, join
from profilegen.geometry.moves import moved, rotation
from profilegen.geometry.tolerance import SHORTEST_CHORD

USUAL_TIP = 0.6
"""Of the pitch, above the cotangent: outside diameter of a tooth that is not topped, `p (0.6 +
cot(180 deg / z))` (ASME B29.1, as handbooks print it)."""

LEAST_CREST = 0.05
"""Of the roller: width of the crest that a tip diameter which is not given leaves at least; common
practice, no published source."""


class NoGap(Refusal):
    """Sizes that leave no gap, or no tooth."""


@dataclass(frozen=True, slots=True)
class Limits:
    """What ISO 606 allows, mm and rad; least and greatest.

    Attributes:
        tip: diameter over the tips.
        seat: radius of the roller's seat.
        angle: between the ends of the seat, seen from its centre.
        flank: radius of a flank.
    """

    tip: tuple[float, float]
    seat: tuple[float, float]
    angle: tuple[float, float]
    flank: tuple[float, float]


def limits_of(pitch: float, roller: float, teeth: int) -> Limits:
    """Limits of tip, seat, angle and flank for a chain and a count.

    Args:
        pitch: of the chain, mm.
        roller: diameter, mm.
        teeth: of the sprocket.
    """
    d = pitch_diameter(pitch, teeth)
    seat = 0.505 * roller
    return Limits(
        tip=(d + pitch * (1 - 1.6 / teeth) - roller, d + 1.25 * pitch - roller),
        seat=(seat, seat + 0.069 * math.cbrt(roller)),
        angle=(math.radians(120 - 90 / teeth), math.radians(140 - 90 / teeth)),
        flank=(0.12 * roller * (teeth + 2), 0.008 * roller * (teeth**2 + 180)),
    )


def pitch_diameter(pitch: float, teeth: int) -> float:
    """Of the circle through the middles of the rollers, mm: `p / sin(180 deg / z)`."""
    return pitch / math.sin(math.pi / teeth)


@dataclass(frozen=True, slots=True)
class Gap:
    """One gap, its middle on +x, mm and rad.

    Attributes:
        teeth: of the sprocket.
        root: radius under the seat.
        seat: radius of the seat.
        angle: between the ends of the seat, seen from its centre.
        flank: radius of a flank.
        tip: radius over the tips.
    """

    teeth: int
    root: float
    seat: float
    angle: float
    flank: float
    tip: float

    @property
    def seat_centre(self) -> float:
        """How far the middle of the seat lies from the axis, mm."""
        return self.root + self.seat

    @property
    def seat_end(self) -> complex:
        """Where the seat gives way to the flank above +x, mm."""
        return self.seat_centre + self.seat * self._out

    @property
    def flank_centre(self) -> complex:
        """Middle of the flank above +x, mm: in the tooth."""
        return self.seat_centre + (self.seat + self.flank) * self._out

    @property
    def _out(self) -> complex:
        """Direction from the seat's centre to its end above +x."""
        return cmath.exp(1j * (math.pi - self.angle / 2))

    def pointed(self) -> float:
        """Radius at which the flanks of a tooth meet, mm.

        Raises:
            NoGap: they never do.
        """
        along = self.flank_centre * cmath.exp(-1j * math.pi / self.teeth)
        if abs(along.imag) >= self.flank:
            raise NoGap("tooth-gone", case="gaps")
        return along.real + math.sqrt(self.flank**2 - along.imag**2)

    def flank_at(self, radius: float) -> complex:
        """Where the flank above +x crosses a circle about the axis, mm.

        Args:
            radius: mm, between the seat's end and the point of the tooth.
        """
        middle, r = self.flank_centre, self.flank
        reach = (radius**2 - abs(middle) ** 2 - r**2) / (2 * r * abs(middle))
        return middle + cmath.rect(r, cmath.phase(middle) - math.acos(max(-1.0, min(1.0, reach))))

    def half_crest(self, radius: float) -> float:
        """Half of a tooth at a radius (mm), seen from the axis, rad."""
        return math.pi / self.teeth - cmath.phase(self.flank_at(radius))

    def check(self) -> None:
        """Refuse a gap that is none.

        Raises:
            NoGap: with what was found and what it is held against, mm.
        """
        if self.root <= 0:
            raise NoGap("root-below-axis", self.root, 0.0, case="depth")
        if cmath.phase(self.seat_end) >= math.pi / self.teeth:
            raise NoGap("tooth-gone", case="seats")
        point, least = self.pointed(), abs(self.seat_end)
        if self.tip <= least + SHORTEST_CHORD:
            raise NoGap("tip-below-seat", 2 * self.tip, 2 * least)
        if self.tip >= point or 2 * self.tip * self.half_crest(self.tip) < 2 * SHORTEST_CHORD:
            facts = {"point": mm(2 * point)}
            raise NoGap("tip-past-point", 2 * self.tip, 2 * point, case="at", facts=facts)


def gap_of(keys: Sprocket) -> Gap:
    """The gap of these keys, mm and rad, not checked; tips not given are the usual ones."""
    size, teeth = keys.roller, keys.teeth
    limits = limits_of(size.pitch, size.roller, teeth)
    seat, angle, flank = drawn_at(limits, keys.gap_form)
    root = keys.root_diameter or pitch_diameter(size.pitch, teeth) - size.roller
    gap = Gap(teeth, root / 2, seat, angle, flank, (keys.tip_diameter or 0.0) / 2)
    if keys.tip_diameter is not None:
        return gap
    return Gap(teeth, root / 2, seat, angle, flank, usual_tip(gap, size.pitch, size.roller))


def drawn_at(limits: Limits, form: GapForm) -> tuple[float, float, float]:
    """Seat radius, seat angle and flank radius of the narrowest or of the widest gap, mm and rad.

    A larger convex flank stands farther into the gap, so the narrowest gap has the larger one.
    """
    at = 0 if form == "minimum" else 1
    return limits.seat[at], limits.angle[1 - at], limits.flank[1 - at]


def usual_tip(gap: Gap, pitch: float, roller: float) -> float:
    """The radius over the tips where the print gives none, mm: the usual one, within the limits
    and short of the point of the tooth.

    Raises:
        NoGap: the flanks never meet.
    """
    usual = pitch * (USUAL_TIP + 1 / math.tan(math.pi / gap.teeth)) / 2
    limits = limits_of(pitch, roller, gap.teeth).tip
    low, high = abs(gap.seat_end), min(usual, limits[1] / 2, gap.pointed())
    if 2 * high * gap.half_crest(high) >= LEAST_CREST * roller:
        return high
    for _ in range(60):
        middle = (low + high) / 2
        wide = 2 * middle * gap.half_crest(middle) >= LEAST_CREST * roller
        low, high = (middle, high) if wide else (low, middle)
    return low


def pitch_of(gap: Gap) -> Chain:
    """One pitch of the outline, mm, tooth 1 centred on +x: flank, seat, flank, crest.

    Raises:
        NoGap: there are no teeth.
    """
    gap.check()
    tip, end, step = gap.flank_at(gap.tip), gap.seat_end, cmath.exp(2j * math.pi / gap.teeth)
    turned = cmath.phase((tip - gap.flank_centre) / (end - gap.flank_centre))
    flank = chain([end, tip], [math.tan(turned / 4)], Role.BACK)
    down = chain([tip.conjugate(), end.conjugate()], [math.tan(turned / 4)], Role.FACE)
    seat = chain([end.conjugate(), gap.root, end], [-math.tan(gap.angle / 8)] * 2, Role.ROOT)
    over = tip.conjugate() * step
    crest = chain([tip, over], [math.tan(cmath.phase(over / tip) / 4)], Role.LAND)
    return moved(join(down, seat, flank, crest), rotation(math.pi / gap.teeth))
