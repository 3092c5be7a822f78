"""Everything that is measured of a wheel: features with their limits, the pins, the bore.

Owns the order of the list and how limits are carried through to sizes that follow from others.
Land and angles have limits of their own; the size over pins, the span and, where the print does not
give it, the root follow from the land, at the angles as drawn (the cutter sets the angles, the
infeed sets the land). The levelled face follows from hook angle and outside diameter.
Works on any wheel of straight flanks. Refuses text for people.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING

from profilegen.errors import CannotMakeError, Finding, InputError, Problem
from profilegen.gauging import spans
from profilegen.gauging.bores import BorePlan, bore_features, bore_plan
from profilegen.gauging.feature import Feature, combined
from profilegen.gauging.lands import Lands, lands_of
from profilegen.gauging.limits import Limits, angle_limits, limits_of
from profilegen.gauging.pin_sizes import choose_pin, pin_name
from profilegen.gauging.pins import (
    BadPin,
    Infeed,
    apart,
    change_with_infeed,
    check_pin,
    over_pins,
    pin_centre,
)
from profilegen.wheels.say import Say
from profilegen.wheels.solve import resolve_for_blank
from profilegen.wheels.wheel import Wheel

if TYPE_CHECKING:
    from profilegen.part.part import Part


@dataclass(frozen=True, slots=True)
class Gauges:
    """Everything that is measured of one wheel.

    Attributes:
        features: in the order in which they are told.
        pin: diameter of the pins, mm; None where none serves.
        varied: which given the limits over pins were carried through from, in words.
        infeed_per_size: mm of further infeed per mm that the size over pins is too big, or None.
        size_per_blank: mm that the size over pins is less per mm that the blank is less, with the
            same land or root; None where nothing is measured over pins.
        span_teeth: teeth between the jaws.
        bore: pilot and slotting of a square or hexagon, or None.
        findings: why pins do not serve.
    """

    features: tuple[Feature, ...]
    pin: float | None
    varied: str
    infeed_per_size: float | None
    size_per_blank: float | None
    span_teeth: int
    bore: BorePlan | None
    findings: tuple[Finding, ...]

    def feature(self, key: str) -> Feature | None:
        """One feature by its key, or None."""
        return next((feature for feature in self.features if feature.key == key), None)

    @property
    def is_refused(self) -> bool:
        """Whether the pin of the part file cannot be used."""
        return any(finding.severity == "refused" for finding in self.findings)


def gauges_for(
    part: Part, wheel: Wheel, infeed: Infeed | None = None, root_left: float | None = None
) -> Gauges:
    """What is measured of a wheel.

    Args:
        part: with its tolerances.
        wheel: of that part.
        infeed: how the last cut moves, when there is one.
        root_left: radius of the deepest material that the cutter leaves, mm, when there is one.

    Raises:
        InputError: a class has no value at a size, a land has no space left, or a span is over
            more than half the wheel.
    """
    tolerance = part.tolerance
    outside = limits_of(tolerance, "outside_diameter", 2 * wheel.radius)
    thick = limits_of(tolerance, "thickness", wheel.thickness)
    features = [
        _outside(wheel, outside),
        Feature("thickness", "Thickness", thick, "Micrometer"),
    ]
    plan = bore_plan(part)
    bore = bore_features(part.bore, tolerance)
    if wheel.space.face is None or wheel.space.back is None or wheel.fact("land") is None:
        return Gauges((*features, *bore), None, "", None, None, 0, plan, ())
    lands = lands_of(part, wheel, root_left)
    pin, findings = _pin(part, wheel, lands)
    span = _span_teeth(part, wheel)
    features += _tooth_features(part, wheel, lands, outside, span)
    if pin is not None:
        features.append(_over_pins(wheel, lands, pin))
    per_size = per_blank = None
    if pin is not None:
        per_blank = _size_per_blank(part, wheel, lands, pin)
        if infeed is not None:
            change = change_with_infeed(wheel.space, wheel.teeth, pin, infeed)
            per_size = 1 / change if change > 0 else None
    varied, measured = lands.varied_words, (*features, *bore)
    return Gauges(measured, pin, varied, per_size, per_blank, span, plan, findings)


def _outside(wheel: Wheel, limits: Limits) -> Feature:
    """A tooth faces a space where the count is odd: then only the blank can be measured."""
    tool = "Micrometer" if wheel.teeth % 2 == 0 else "Micrometer, before toothing"
    return Feature("outside_diameter", "Outside diameter", limits, tool)


def _span_teeth(part: Part, wheel: Wheel) -> int:
    land = wheel.fact("land") or 0.0
    most = spans.greatest_span(wheel.radius, wheel.teeth, land)
    given = part.gauge.span_teeth if part.gauge else None
    if given is None:
        return min(most, spans.usual_span(wheel.teeth))
    if given > most:
        text = "so many teeth reach past half the wheel, where a caliper slips off"
        raise InputError(Problem("gauge.span_teeth", text, str(given), f"up to {most}"))
    return given


def _tooth_features(
    part: Part, wheel: Wheel, lands: Lands, outside: Limits, span: int
) -> Iterator[Feature]:
    """Root, land, angles, span and levelled face."""
    tolerance, land, radius = part.tolerance, lands.land, wheel.radius
    yield from _roots(wheel, lands.root)
    yield Feature("land", "Land, straight across", land, "Loupe with scale, or projector")
    for key, label in (("space_angle", "Space angle"), ("hook_angle", "Hook angle")):
        value = wheel.fact(key)
        if value is not None and wheel.space.face is not None:
            leg = wheel.space.face.length
            limits = angle_limits(tolerance, key, value, leg)
            yield Feature(key, label, limits, "Projector or template", "angle")
            if key == "hook_angle":
                yield _levelled(outside, limits)
    if span > 1:
        sizes = tuple(
            spans.crest_span(diameter / 2, wheel.teeth, each, span)
            for diameter in (outside.low, outside.high)
            for each in (land.low, land.high)
        )
        nominal = spans.crest_span(radius, wheel.teeth, land.nominal, span)
        over = combined(nominal, sizes, "follows from land and outside diameter")
        yield Feature("span", f"Over the crests of {span} teeth", over, "Caliper")


def _roots(wheel: Wheel, root: Limits) -> Iterator[Feature]:
    """The root diameter, and over an odd count what a point micrometer reads in its place."""
    is_even, share = wheel.teeth % 2 == 0, apart(wheel.teeth)
    tool = "Point micrometer or projector" if is_even else "By the next size, or projector"
    yield Feature("root_diameter", "Root diameter", root, tool)
    if not is_even:
        sizes = (share * root.low, share * root.high)
        across = combined(share * root.nominal, sizes, "follows from the root diameter")
        label = "Root to root, nearly opposite"
        yield Feature("across_roots", label, across, "Point micrometer")


def _levelled(outside: Limits, hook: Limits) -> Feature:
    """Height of the levelled face over the axis, minus below."""
    nominal = spans.levelled_face(outside.nominal / 2, hook.nominal)
    sizes = tuple(
        spans.levelled_face(diameter / 2, angle)
        for diameter in (outside.low, outside.high)
        for angle in (hook.low, hook.high)
    )
    limits = combined(nominal, sizes, "follows from hook angle and outside diameter")
    label = "Levelled face, height over the axis"
    return Feature("levelled_face", label, limits, "Height gauge or indicator")


def _over_pins(wheel: Wheel, lands: Lands, pin: float) -> Feature:
    sizes = [over_pins(pin_centre(each, pin), pin, wheel.teeth) for each in lands.spaces]
    limits = combined(sizes[0], tuple(sizes), f"follows from the {lands.varied_words}")
    return Feature("over_pins", "Over two pins", limits, "Micrometer and two pins", over=pin)


def _size_per_blank(part: Part, wheel: Wheel, lands: Lands, pin: float) -> float | None:
    """From the wheel solved again on a blank that is a hair smaller; None where none is."""
    hair = 1e-4 * wheel.radius
    try:
        other = resolve_for_blank(part, 2 * (wheel.radius - hair), lands.varied).space
    except CannotMakeError:
        return None
    less = abs(pin_centre(wheel.space, pin)) - abs(pin_centre(other, pin))
    return less * apart(wheel.teeth) / hair


def _pin(part: Part, wheel: Wheel, lands: Lands) -> tuple[float | None, tuple[Finding, ...]]:
    """The pin of the part file or a standard one, and why none serves."""
    given = part.gauge.pin if part.gauge else None
    if given is None:
        pin = choose_pin(lands.spaces, wheel.teeth, part.units)
        if pin is not None:
            return pin, ()
        text = (
            "no standard pin rests on both flanks and stands proud of the crests, so none is "
            "proposed: try one with gauge.pin, or measure land and root"
        )
        return None, (Finding("pin-none", "note", text, "gauge.pin"),)
    for space in lands.spaces:
        try:
            check_pin(space, wheel.teeth, given)
        except BadPin as error:
            return None, (_refusal(part, lands, wheel, given, error),)
    return given, ()


def _refusal(part: Part, lands: Lands, wheel: Wheel, given: float, error: BadPin) -> Finding:
    """The finding of a pin that does not serve, with one that would."""
    good = choose_pin(lands.spaces, wheel.teeth, part.units)

    def name(pin: float) -> str:
        return pin_name(pin, part.units, Say(part).length(pin))

    advice = f"make gauge.pin {name(good)}" if good else "take gauge.pin out"
    text = f"a pin of {name(given)} {error}: {advice}"
    return Finding(error.code, "refused", text, "gauge.pin", given, error.limit)
