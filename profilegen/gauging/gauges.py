"""Everything that is measured of a wheel: features with their limits, the pins, the bore.

Owns the order of the list and how limits are carried through to sizes that follow from others.
Land and angles have limits of their own; the size over pins, the span and, where the print does not
give it, the root follow from the land, at the angles as drawn (the cutter sets the angles, the
infeed sets the land). The levelled face follows from hook angle and outside diameter. On a measured
blank everything but the outside diameter's own limits is told for that blank; owns too whether
the cutter set up leaves another space than the print's.
Works on any wheel of straight flanks. Refuses text for people.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING

from profilegen.cutting.fit import Fit, fit_of
from profilegen.errors import CannotMakeError, Finding, InputError, Problem, refused
from profilegen.gauging import spans
from profilegen.gauging.bores import BorePlan, bore_features, bore_plan
from profilegen.gauging.feature import Feature, combined
from profilegen.gauging.lands import Lands, lands_of
from profilegen.gauging.pin_sizes import choose_pin, pin_name
from profilegen.gauging.pins import (
    BadPin,
    Infeed,
    apart,
    change_with_infeed,
    check_pin,
    flanks,
    over_pins,
    pin_centre,
)
from profilegen.gauging.varied import deepest
from profilegen.geometry.tolerance import SAME_POINT
from profilegen.part.limits import Limits, angle_limits, limits_of
from profilegen.wheels.say import Say
from profilegen.wheels.solve import resolve_for_blank
from profilegen.wheels.wheel import Wheel

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
    """What is measured of a wheel.

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
    features = [
        _outside(wheel, outside),
        Feature("thickness", "Thickness", thick, "Micrometer"),
    ]
    plan, blank, leaves = bore_plan(part), _measured(part, made), _leaves(made, cuts)
    bore = bore_features(part.bore, tolerance)
    if made.space.face is None or made.space.back is None or made.fact("land", None) is None:
        told = (*features, *bore)
        return Gauges(told, None, "", None, None, None, 0, plan, (), blank, leaves)
    forming = cuts if leaves is None else ()
    root_left = min((cut.root_radius for cut in forming), default=None)
    lands = lands_of(part, wheel, made, root_left)
    pin, findings = _pin(part, made, lands)
    span = span_teeth(part, made)
    if blank is not None:
        outside = Limits(blank, blank, blank, "the blank as measured")
    features += _tooth_features(part, made, lands, outside, span)
    per_size = None
    if pin is not None:
        features.append(_over_pins(made, lands, pin))
        per_size = _infeed_per_size(made, pin, forming)
    per_blank = _per_blank(part, made, lands, pin) if blank is None else (None, None)
    varied, told = lands.varied_words, (*features, *bore)
    return Gauges(told, pin, varied, per_size, *per_blank, span, plan, findings, blank, leaves)


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


def _infeed_per_size(made: Wheel, pin: float, cuts: tuple[Cut, ...]) -> float | None:
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
    """How many teeth a caliper is laid over: as the part asks, or about a fifth of all.

    Raises:
        InputError: more are asked for than lie within half the wheel.
    """
    land = wheel.fact("land", 0.0)
    most = spans.greatest_span(wheel.radius, wheel.teeth, land)
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


def _tooth_features(
    part: Part, wheel: Wheel, lands: Lands, outside: Limits, span: int
) -> Iterator[Feature]:
    """Root, land, angles, span and levelled face."""
    tolerance, land, radius = part.tolerance, lands.land, wheel.radius
    yield from _roots(wheel, lands.root)
    yield Feature("land", "Land, straight across", land, "Loupe with scale, or projector")
    face, back = flanks(wheel.space)
    shorter = min(face.length, back.length)
    legs = (("space_angle", "Space angle", shorter), ("hook_angle", "Hook angle", face.length))
    for key, label, leg in legs:
        value = wheel.fact(key, None)
        if value is not None:
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
        over = combined(nominal, sizes, f"follows from land and {_across(outside)}")
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
    limits = combined(nominal, sizes, f"follows from hook angle and {_across(outside)}")
    label = "Levelled face, height over the axis"
    return Feature("levelled_face", label, limits, "Height gauge or indicator")


def _across(outside: Limits) -> str:
    """What a size over the rim follows from: the outside diameter, or the one blank at hand."""
    return outside.source if outside.low == outside.high else "outside diameter"


def _over_pins(wheel: Wheel, lands: Lands, pin: float) -> Feature:
    sizes = [over_pins(pin_centre(each, pin), pin, wheel.teeth) for each in lands.spaces]
    limits = combined(sizes[0], tuple(sizes[1:]), f"follows from the {lands.varied_words}")
    return Feature("over_pins", "Over two pins", limits, "Micrometer and two pins", over=pin)


def _per_blank(
    part: Part, wheel: Wheel, lands: Lands, pin: float | None
) -> tuple[float | None, float | None]:
    """Size over pins and root diameter, from the wheel solved again on a blank that is a hair
    smaller; None where there is none, or where the size does not follow."""
    hair = 1e-4 * wheel.radius
    try:
        other = resolve_for_blank(part, 2 * (wheel.radius - hair), lands.varied).space
    except CannotMakeError:
        return None, None
    over = root = None
    if pin is not None:
        less = abs(pin_centre(wheel.space, pin)) - abs(pin_centre(other, pin))
        over = less * apart(wheel.teeth) / hair
    if lands.root_follows:
        root = (deepest(wheel.space) - deepest(other)) / hair
    return over, root


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
