"""Trial cuts: what measured sizes say about the depth reached, and how much deeper to go.

Owns the correction of the last lap by a bracketed root on the size that was taken (a land, a size
over pins, a span), the rounding towards less metal off, the run-out that lands spread round the
wheel show, and what is to be put right before feeding. Refuses a size that this geometry cannot
give; refuses text.
Formulas: geometry of `gap`, least squares on mean and first harmonic; no published source.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from typing import Literal

import numpy as np

from profilegen.cutting.budget import GREATEST_RUN_OUT
from profilegen.cutting.gap import land_left, monotone_root
from profilegen.cutting.poses import Cut
from profilegen.cutting.taken import Taken, land_taken
from profilegen.cutting.touch import infeed_from
from profilegen.figures import ANGLE
from profilegen.findings.cannot_make import CannotMakeError
from profilegen.findings.finding import Finding, mm
from profilegen.forms.wheel import Wheel
from profilegen.geometry.tolerance import SAME_ANGLE, SAME_POINT
from profilegen.part.how_measured import LAND
from profilegen.units import MM_PER_INCH, Unit

STEP = {"mm": 0.01, "in": float(MM_PER_INCH) / 2000}
"""Step of a correction, mm: 0.01 mm or half a thou, what a hand dial can be set to."""


@dataclass(frozen=True, slots=True)
class Land:
    """One measured size: a land as a rule.

    Attributes:
        value: mm; of a land, its chord.
        space: the stop whose space it follows, from 1 (it stands between this space and the next),
            or None when it is not said.
    """

    value: float
    space: int | None = None


@dataclass(frozen=True, slots=True)
class RunOut:
    """What the lands of one turn show.

    Attributes:
        reading: what an indicator on the blank would show, mm: twice the eccentricity.
        swing: amplitude of the land, mm, plus and minus.
        high_spot: direction of the high spot from the land after space 1, rad, the way in which the
            stops count; the land is least there.
        rest: greatest deviation of a land from mean and swing, mm.
    """

    reading: float
    swing: float
    high_spot: float = field(metadata=ANGLE)
    rest: float


@dataclass(frozen=True, slots=True)
class Trial:
    """What trial cuts say.

    Attributes:
        taken: the size that was measured.
        lands: as measured.
        mean: size that the correction is worked from, mm.
        scatter: greatest less least, mm.
        remaining: infeed still to go on the last lap, mm, unrounded; negative when too deep.
        step: mm of the dial that the correction is rounded to.
        to_feed: the correction, whole steps towards less metal off, mm, never negative.
        target: size at full depth, mm.
        expected: size after `to_feed`, mm.
        lap: the lap that is corrected.
        laps: how many there are.
        allowed: least and greatest size within tolerance, mm.
        from_top: infeed reached from the top zero, metal to metal, mm.
        from_offset: infeed reached from the offset zero, metal to metal, mm.
        dial_from_top: infeed reached from the top zero taken through the feeler, as the sheet's
            passes count, mm.
        dial_from_offset: the same from the offset zero taken through the feeler, mm.
        runout: or None when too few lands, or lands on one side only, were measured.
        run_out_limit: greatest run-out of the blank, mm.
    """

    taken: Taken
    lands: tuple[Land, ...]
    mean: float
    scatter: float
    remaining: float
    step: float
    to_feed: float
    target: float
    expected: float
    lap: int
    laps: int
    allowed: tuple[float, float]
    from_top: float
    from_offset: float
    dial_from_top: float
    dial_from_offset: float
    runout: RunOut | None
    run_out_limit: float = GREATEST_RUN_OUT

    @property
    def is_too_deep(self) -> bool:
        """Whether more metal is off than the print wants."""
        return self.remaining < -SAME_POINT

    @property
    def expected_size(self) -> float:
        """Size after the unrounded correction, mm; what is there already when too deep."""
        return self.mean if self.is_too_deep else self.target

    @property
    def unexplained(self) -> float:
        """Greatest deviation of a land that is no swing once a turn, mm: from mean and swing, or
        from the mean where the lands do not settle a swing."""
        if self.runout is not None:
            return self.runout.rest
        return max(abs(land.value - self.mean) for land in self.lands)

    @property
    def expected_ends(self) -> tuple[float, float]:
        """Least and greatest land after `to_feed` on this blank as it runs, mm."""
        spread = self.unexplained + (self.runout.swing if self.runout is not None else 0.0)
        return self.expected - spread, self.expected + spread

    @property
    def put_right_first(self) -> Literal["run-out", "stops"] | None:
        """What spoils the lands more than depth can mend, or None.

        `run-out`: the swing takes a land out of its tolerance, or the blank runs out more than its
        limit while there is still depth to cut. `stops`: the rest is the greater, and takes a land
        out of tolerance or more than a quarter of it to each side (common practice, no published
        source).
        """
        low, high = self.allowed
        swing = self.runout.swing if self.runout is not None else 0.0
        is_spread = _within(self.expected, self.allowed) and not all(
            _within(end, self.allowed) for end in self.expected_ends
        )
        if self.unexplained >= swing and (is_spread or self.unexplained > (high - low) / 4):
            return "stops"
        if self.runout is None:
            return None
        is_unusual = self.runout.reading > self.run_out_limit + SAME_POINT
        return "run-out" if is_spread or (is_unusual and self.to_feed > 0) else None


def _within(land: float, allowed: tuple[float, float]) -> bool:
    return allowed[0] - SAME_POINT <= land <= allowed[1] + SAME_POINT


@dataclass(frozen=True, slots=True)
class Limits:
    """Sizes that trial cuts can show, mm.

    Attributes:
        target: at full depth.
        untouched: before it can first be measured: every size is less.
    """

    target: float
    untouched: float


def limits_of(taken: Taken) -> Limits:
    """The limits of one size, mm: at full depth, and before it can first be measured."""
    return Limits(taken.target, taken.at(taken.most + SAME_POINT))


def remaining_for(taken: Taken, value: float) -> float:
    """Infeed that the last lap still has to go when it leaves a size, mm; negative: too deep.

    Args:
        taken: the size as a function of that infeed.
        value: what was measured, mm.

    Raises:
        CannotMakeError: no depth leaves such a size.
    """
    return monotone_root(lambda t: taken.at(t) - value, _too_deep(taken, value), taken.most)


def _too_deep(taken: Taken, value: float) -> float:
    """An infeed still to go, below 0, that leaves less than this size, mm; refused if none does."""
    limits = limits_of(taken)
    if not 0 < value < limits.untouched - SAME_POINT:
        raise CannotMakeError(_unreachable(taken, value, limits))
    low = -taken.most
    while taken.at(low) > value:
        low *= 2
        if low < -100 * taken.most:
            raise CannotMakeError(_unreachable(taken, value, limits))
    return low


def _unreachable(taken: Taken, value: float, limits: Limits) -> Finding:
    where = "--land" if taken.key == "land" else "--take"
    return Finding(
        "land-unreachable",
        "refused",
        where,
        value,
        limits.untouched,
        facts={
            "name": taken.label,
            "size": mm(value),
            "untouched": mm(limits.untouched),
            "target": mm(limits.target),
            "how": taken.how,
        },
        case="shallow" if value > 0 else "none",
    )


def trial_for(
    wheel: Wheel,
    cuts: tuple[Cut, ...],
    lands: tuple[Land, ...],
    step: float = STEP["mm"],
    *,
    taken: Taken | None = None,
    feeler: float = 0.0,
    tolerance: tuple[float, float] = LAND,
    run_out_limit: float = GREATEST_RUN_OUT,
) -> Trial:
    """What sizes measured on trial cuts say about the last lap, earlier laps being at depth.

    Args:
        wheel: the wheel wanted, its blank at nominal size.
        cuts: its cuts, one a lap.
        lands: one or more, all of one size; lands with a space may show run-out.
        step: of the dial, mm, that the correction is rounded down to.
        taken: the size that was measured; the land when left out.
        feeler: through which the infeed's zeros are taken, mm.
        tolerance: least and greatest deviation of the size from that at full depth, mm.
        run_out_limit: greatest run-out of the blank, mm.

    Raises:
        CannotMakeError: a size that no depth of this geometry leaves.
        ValueError: no cuts or no lands.
    """
    if not cuts or not lands:
        raise ValueError("a trial needs cuts and lands")
    taken = taken or land_taken(wheel, cuts)
    values = [land.value for land in lands]
    _too_deep(taken, max(values))
    fitted = _harmonic(wheel, lands) if taken.shows_run_out else None
    mean = fitted[0] if fitted else math.fsum(values) / len(values)
    remaining = remaining_for(taken, mean)
    to_feed = max(0.0, math.floor(remaining / step + 1e-6) * step)
    last, target = cuts[-1], taken.target
    return Trial(
        taken,
        lands,
        mean,
        max(values) - min(values),
        remaining,
        step,
        to_feed,
        target,
        taken.at(remaining - to_feed),
        last.lap,
        len(cuts),
        (target + tolerance[0], target + tolerance[1]),
        last.infeed_from_top - remaining,
        last.infeed_from_offset - remaining,
        infeed_from(last, "top", feeler) - remaining,
        infeed_from(last, "offset", feeler) - remaining,
        None if fitted is None else _run_out(wheel, cuts, fitted),
        run_out_limit,
    )


def _harmonic(wheel: Wheel, lands: tuple[Land, ...]) -> tuple[float, complex, float] | None:
    """Mean, first harmonic (amplitude and direction) and rest of the lands; None when they do not
    settle it: under three places, or none in half a turn."""
    placed = [(land.space, land.value) for land in lands if land.space is not None]
    spots = sorted({(space - 1) % wheel.teeth for space, _ in placed})
    if len(spots) < 3:
        return None
    around = [*spots[1:], spots[0] + wheel.teeth]
    if max(after - before for before, after in zip(spots, around, strict=True)) > wheel.teeth / 2:
        return None
    angle = np.array([space - 1 for space, _ in placed]) * wheel.angular_pitch
    value = np.array([land for _, land in placed])
    table = np.stack((np.ones_like(angle), np.cos(angle), np.sin(angle)), axis=1)
    mean, cosine, sine = np.linalg.lstsq(table, value, rcond=None)[0].tolist()
    rest = float(np.max(np.abs(table @ np.array([mean, cosine, sine]) - value)))
    return mean, complex(cosine, sine), rest


def land_per_radius(wheel: Wheel, cuts: tuple[Cut, ...]) -> float:
    """Change of the land for a blank bigger by 1 mm of radius, the depth kept from the axis, mm
    per mm; negative as a rule, for the cut is then deeper."""
    step = 1e-4 * wheel.radius
    above, below = (
        land_left(replace(wheel, radius=wheel.radius + way), cuts, 0.0) for way in (step, -step)
    )
    return (above - below) / (2 * step)


def _run_out(
    wheel: Wheel, cuts: tuple[Cut, ...], fitted: tuple[float, complex, float]
) -> RunOut | None:
    rate = land_per_radius(wheel, cuts)
    if abs(rate) < 1e-6:
        return None
    _, harmonic, rest = fitted
    eccentricity = harmonic / rate
    high = math.atan2(eccentricity.imag, eccentricity.real) % math.tau
    high = 0.0 if math.tau - high < 1e3 * SAME_ANGLE else high
    return RunOut(2 * abs(eccentricity), abs(harmonic), high, rest)


def trial_table(
    wheel: Wheel, cuts: tuple[Cut, ...], step: float, steps: tuple[int, ...] = (6, 4, 2, 1, 0, -1)
) -> Iterator[tuple[float, float]]:
    """Infeed still to go and the land it shows, mm, for the sheet.

    Rows that no trial cut can show are left out; a negative infeed is too deep.

    Args:
        wheel: on the blank at hand.
        cuts: one a lap; none gives no row.
        step: of the infeed's dial, mm of travel.
        steps: how many of them are still to go, row by row.
    """
    if not cuts:
        return
    taken = land_taken(wheel, cuts)
    untouched = limits_of(taken).untouched
    for count in steps:
        land = taken.at(count * step)
        if count * step < taken.most and 0 < land < untouched:
            yield count * step, land


def suits_other_unit(value: float, unit: Unit, limits: Limits) -> float | None:
    """The size (mm) that the same bare number means in the other unit, when only that makes sense.

    Args:
        value: mm, as read in the part's unit.
        unit: that unit.
        limits: of the size.
    """
    factor = float(MM_PER_INCH)
    other = value / factor if unit == "in" else value * factor
    if unit == "in":
        fits = value >= limits.untouched and limits.target / 10 < other < limits.untouched
    else:
        most = min(limits.untouched, 6 * limits.target)
        fits = value < limits.target / 5 and limits.target / 2 <= other < most
    return other if fits else None
