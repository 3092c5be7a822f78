"""Everything that is measured of a wheel: features with their limits, the pins, the bore.

Owns the order of the list, the pin that is laid in, and whether the cutter set up leaves another
space than the print's. What follows from other sizes is carried through by solving the wheel again
(`driven`, `follows`). On a measured blank everything but the outside diameter's own limits is told
for that blank. Works on any wheel whose depth sets a size. Refuses text for people.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from profilegen.cutting.fit import Fit, fit_of
from profilegen.errors import InputError, Problem
from profilegen.findings.cannot_make import CannotMakeError
from profilegen.findings.finding import Finding, Make, Phrase, refused
from profilegen.forms.form import Hold
from profilegen.forms.solve import resolve_for_blank
from profilegen.forms.wheel import Toothing, Wheel
from profilegen.gauging import spans
from profilegen.gauging.bores import BorePlan, bore_features, bore_plan
from profilegen.gauging.curved_flanks import (
    curved_pin,
    curved_span,
    infeed_per_pin_size,
    is_curved,
)
from profilegen.gauging.driven import ROOT, Driven, driven_of
from profilegen.gauging.feature import Feature
from profilegen.gauging.follows import tooth_features
from profilegen.gauging.pin_sizes import choose_pin, pin_fact
from profilegen.gauging.pins import BadPin, Infeed, change_with_infeed, check_pin, pin_centre
from profilegen.geometry.tolerance import SAME_POINT
from profilegen.geometry.tooth_sizes import apart
from profilegen.part.limits import Limits, limits_of

if TYPE_CHECKING:
    from profilegen.cutting.poses import Cut
    from profilegen.part.part import Part

LEAST_LEFT = 5e-4
"""mm. Metal left in a space that can be measured, and is not written as 0.000."""


@dataclass(frozen=True, slots=True)
class Gauges:
    """Everything that is measured of one wheel.

    Attributes:
        features: in the order in which they are told.
        pin: diameter of the pins, mm; None where none serves.
        varied: which given the limits over pins were carried through from, in words.
        infeed_per_size: mm of further infeed per mm that the size over pins is too big, or None.
        size_per_blank: mm that the size over pins is less per mm that the blank is less, with the
            same land or root; None on a measured blank, or where nothing is measured over pins.
        root_per_blank: the same of the root diameter; None too where its limits are its own.
        span_teeth: teeth between the jaws.
        bore: pilot and slotting of a square or hexagon, or None.
        findings: why pins do not serve.
        blank: diameter of the measured blank for which the sizes are told, mm; None where they
            are those of the print's blank.
        leaves: what the cutter set up makes where that is not the space of the print, which the
            features go on telling; else None.
    """

    features: tuple[Feature, ...]
    pin: float | None
    varied: str
    infeed_per_size: float | None
    size_per_blank: float | None
    root_per_blank: float | None
    span_teeth: int
    bore: BorePlan | None
    findings: tuple[Finding, ...]
    blank: float | None
    leaves: Fit | None

    def feature(self, key: str) -> Feature | None:
        """One feature by its key, or None."""
        return next((feature for feature in self.features if feature.key == key), None)

    @property
    def is_refused(self) -> bool:
        """Whether the pin of the part file cannot be used."""
        return bool(refused(self.findings))


def gauges_for(part: Part, wheel: Wheel, made: Wheel, cuts: tuple[Cut, ...]) -> Gauges:
    """What is measured of a wheel, limits in mm and rad.

    Args:
        part: with its tolerances.
        wheel: of that part, on the print's blank.
        made: on the blank at hand; the same wheel where none is measured.
        cuts: by which it is made of that blank; none without a cutter.

    Raises:
        InputError: as `asked.measuring_problems` tells, all of it at once.
    """
    tolerance = part.tolerance
    outside = limits_of(tolerance, "outside_diameter", 2 * wheel.radius)
    thick = limits_of(tolerance, "thickness", wheel.thickness)
    features = (
        _outside(wheel, outside),
        Feature("thickness", "Thickness", thick, "Micrometer"),
    )
    plan, blank, leaves = bore_plan(part), _measured(part, made), _leaves(made, cuts)
    bore = bore_features(part.bore, tolerance)
    curved = made.is_toothed and is_curved(made)
    if not made.is_toothed or not made.driving or (curved and made.hand is not None):
        told = (*features, *bore)
        return Gauges(told, None, "", None, None, None, 0, plan, (), blank, leaves)
    forming = cuts if leaves is None else ()
    root_left = min((cut.root_radius for cut in forming), default=None)
    driven = driven_of(part, wheel, made, root_left)
    pin, findings = curved_pin(part, driven.wheels) if curved else _pin(part, made, driven)
    span = span_teeth(part, made)
    if blank is not None:
        outside = Limits(blank, blank, blank, "the blank as measured")
    teeth = tooth_features(tolerance, made, driven, outside, span, pin)
    per = infeed_per_pin_size if curved else _infeed_per_size
    per_size = per(made, forming, pin) if pin is not None else None
    moves = blank is None and not curved
    per_blank = _per_blank(part, made, driven, pin) if moves else (None, None)
    told = (*features, *teeth, *bore)
    return Gauges(
        told, pin, driven.words, per_size, *per_blank, span, plan, findings, blank, leaves
    )


def _measured(part: Part, made: Wheel) -> float | None:
    """Diameter of the measured blank of which the wheel is made, mm; None without one."""
    given = part.blank.diameter
    is_it = given is not None and abs(given - 2 * made.radius) <= SAME_POINT
    return given if is_it else None


def _leaves(made: Wheel, cuts: tuple[Cut, ...]) -> Fit | None:
    """What a deepest plunge makes where it leaves metal that can be measured; else None."""
    if not cuts or cuts[0].forms != "space":
        return None
    fit = fit_of(made, cuts)
    return fit if fit.left_over.value > LEAST_LEFT else None


def _infeed_per_size(made: Wheel, cuts: tuple[Cut, ...], pin: float) -> float | None:
    """By the last cut that forms a flank; None without one, or where it does not move the pin."""
    last = next((cut for cut in reversed(cuts) if cut.forms != "middle"), None)
    if last is None:
        return None
    infeed = Infeed(last.turn, last.forms != "back", last.forms != "face")
    change = change_with_infeed(made.space, made.teeth, pin, infeed)
    return 1 / change if change > 0 else None


def _outside(wheel: Wheel, limits: Limits) -> Feature:
    """A tooth faces a space where the count is odd: then only the blank can be measured."""
    tool = "Micrometer" if wheel.teeth % 2 == 0 else "Micrometer, before toothing"
    return Feature("outside_diameter", "Outside diameter", limits, tool)


def span_teeth(part: Part, wheel: Wheel) -> int:
    """How many teeth a caliper is laid over: as the part asks, or about a fifth of all; over
    curved flanks as many as the form tells, 0 where none serves.

    Raises:
        InputError: more are asked for than lie within half the wheel, or jaws over so many do not
            touch the true flanks.
    """
    if not wheel.is_toothed:
        return 0
    if is_curved(wheel):
        return curved_span(part, wheel)
    most = spans.greatest_span(wheel.radius, wheel.teeth, wheel.crest_width)
    given = part.gauge.span_teeth if part.gauge else None
    if given is None:
        return min(most, spans.usual_span(wheel.teeth))
    if given > most:
        raise InputError(_too_many(given, most))
    return given


def _too_many(given: int, most: int) -> Problem:
    text = "so many teeth reach past half the wheel, where a caliper slips off"
    if most < 2:
        hint = "no caliper spans the teeth of this wheel: take gauge.span_teeth out"
        return Problem("gauge.span_teeth", text, str(given), hint=hint)
    return Problem("gauge.span_teeth", text, str(given), f"up to {most}")


def _per_blank(
    part: Part, wheel: Wheel, driven: Driven, pin: float | None
) -> tuple[float | None, float | None]:
    """Size over pins and root diameter, from the wheel solved again on a blank that is a hair
    smaller; None where there is none, or where the size does not follow."""
    hair = 1e-4 * wheel.radius
    try:
        other = resolve_for_blank(part, 2 * (wheel.radius - hair), _held(driven))
    except CannotMakeError:
        return None, None
    over = root = None
    if pin is not None:
        less = abs(pin_centre(wheel.space, pin)) - abs(pin_centre(other.space, pin))
        over = less * apart(wheel.teeth) / hair
    if driven.root_follows:
        root = (wheel.root_radius - other.root_radius) / hair
    return over, root


def _spaces(driven: Driven) -> tuple[Toothing, ...]:
    return tuple(wheel.space for wheel in driven.wheels)


def _held(driven: Driven) -> Hold:
    return "root" if driven.key == ROOT else "land"


def _pin(part: Part, wheel: Wheel, driven: Driven) -> tuple[float | None, tuple[Finding, ...]]:
    """The pin of the part file or a standard one, and why none serves."""
    given = part.gauge.pin if part.gauge else None
    if given is None:
        pin = choose_pin(_spaces(driven), wheel.teeth, part.units)
        if pin is not None:
            return pin, ()
        return None, (Finding("pin-none", "note", "gauge.pin"),)
    for space in _spaces(driven):
        try:
            check_pin(space, wheel.teeth, given)
        except BadPin as error:
            return None, (_refusal(part, driven, wheel, given, error.finding),)
    return given, ()


def _refusal(part: Part, driven: Driven, wheel: Wheel, given: float, error: Finding) -> Finding:
    """The finding of a pin that does not serve, with one that would."""
    good = choose_pin(_spaces(driven), wheel.teeth, part.units)
    where, advice = "gauge.pin", Phrase("take-out", {"key": "gauge.pin"})
    make = Make(where, "", pin_fact(good, part.units)) if good else None
    pin = pin_fact(given, part.units)
    return replace(error, where=where, facts={"pin": pin}, advice=make or advice)
