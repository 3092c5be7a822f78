"""Sizes of the teeth with their limits: those of the tooth form, and readings of any teeth.

Owns the readings: across the roots, the levelled face, over the crests, over pins. The limits of a
reading are its least and greatest over the limits of what it follows from. Refuses which pin is
laid in (`gauges`), and the wheels at the limits of what the depth sets (`driven`).
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from itertools import product
from typing import TYPE_CHECKING

from profilegen.forms.wheel import Wheel
from profilegen.gauging import spans
from profilegen.gauging.curved_flanks import is_curved, pin_over, span_of
from profilegen.gauging.driven import ROOT, Driven
from profilegen.gauging.feature import Feature, combined
from profilegen.gauging.pins import pin_centre
from profilegen.geometry.tooth_sizes import apart, over_pins
from profilegen.part.limits import Limits, angle_limits, limits_of

if TYPE_CHECKING:
    from profilegen.part.measuring import Tolerance


@dataclass(frozen=True, slots=True)
class _Teeth:
    """What the readings are taken of.

    Attributes:
        tolerance: of the part, or None.
        wheel: on the blank at hand.
        driven: what the depth sets.
        outside: limits of the outside diameter, mm.
        span: teeth between the jaws.
        pin: diameter of the pins, mm, or None.
    """

    tolerance: Tolerance | None
    wheel: Wheel
    driven: Driven
    outside: Limits
    span: int
    pin: float | None

    @property
    def across(self) -> str:
        """What a size over the rim follows from: the outside diameter, or the one at hand."""
        return self.outside.source if self.outside.low == self.outside.high else "outside diameter"

    def limits(self, key: str) -> Limits:
        """Limits of a size of the form."""
        if key == self.driven.size.key:
            return self.driven.limits
        if key == ROOT:
            return self.driven.root
        size = self.wheel.size(key)
        if size is None or size.measured is None:
            raise KeyError(key)
        value = self.wheel.fact(key)
        if size.quantity == "angle":
            return angle_limits(self.tolerance, key, value, size.measured)
        return limits_of(self.tolerance, key, value, size.measured)


def tooth_features(
    tolerance: Tolerance | None,
    wheel: Wheel,
    driven: Driven,
    outside: Limits,
    span: int,
    pin: float | None,
) -> Iterator[Feature]:
    """Everything that the form has measured of its teeth, in its order.

    Args:
        tolerance: of the part.
        wheel: on the blank at hand.
        driven: what the depth sets, with its limits.
        outside: limits of the outside diameter, mm.
        span: teeth between the jaws.
        pin: diameter of the pins, mm, or None.
    """
    teeth = _Teeth(tolerance, wheel, driven, outside, span, pin)
    for key in wheel.measured:
        if key in READINGS:
            yield from READINGS[key](teeth)
            continue
        size = wheel.size(key)
        if size is not None and size.measured is not None:
            how = size.measured
            yield Feature(key, how.label, teeth.limits(key), how.tool, size.quantity)


def _across_roots(teeth: _Teeth) -> Iterator[Feature]:
    """Over an odd count, what a point micrometer reads in place of the root diameter."""
    count, root = teeth.wheel.teeth, teeth.driven.root
    if count % 2 == 0:
        return
    share = apart(count)
    sizes = (share * root.low, share * root.high)
    across = combined(share * root.nominal, sizes, "follows from the root diameter")
    yield Feature("across_roots", "Root to root, nearly opposite", across, "Point micrometer")


def _levelled_face(teeth: _Teeth) -> Iterator[Feature]:
    """Height of the levelled face over the axis, minus below."""
    hook, outside = teeth.limits("hook_angle"), teeth.outside
    nominal, *ends = (
        spans.levelled_face(diameter / 2, angle)
        for diameter, angle in (
            (2 * teeth.wheel.radius, hook.nominal),
            *product((outside.low, outside.high), (hook.low, hook.high)),
        )
    )
    limits = combined(nominal, tuple(ends), f"follows from hook angle and {teeth.across}")
    label = "Levelled face, height over the axis"
    yield Feature("levelled_face", label, limits, "Height gauge or indicator")


def _span(teeth: _Teeth) -> Iterator[Feature]:
    """Over the outer corners of neighbouring crests."""
    if teeth.span < 2:
        return
    if is_curved(teeth.wheel):
        yield _over_flanks(teeth)
        return
    size, outside = teeth.driven.limits, teeth.outside
    nominal, *ends = (
        spans.crest_span(diameter / 2, teeth.wheel.teeth, width, teeth.span)
        for diameter, width in (
            (2 * teeth.wheel.radius, teeth.wheel.crest_width),
            *product((outside.low, outside.high), (size.low, size.high)),
        )
    )
    source = f"follows from {teeth.driven.size.label.lower()} and {teeth.across}"
    over = combined(nominal, tuple(ends), source)
    yield Feature("span", f"Over the crests of {teeth.span} teeth", over, "Caliper")


def _over_pins(teeth: _Teeth) -> Iterator[Feature]:
    """Over two pins in opposite spaces, or as near opposite as the count allows."""
    if teeth.pin is None:
        return
    pin, count = teeth.pin, teeth.wheel.teeth
    if is_curved(teeth.wheel):
        sizes = (pin_over(wheel, pin) for wheel in teeth.driven.wheels)
        nominal, *ends = (size for size in sizes if size is not None)
    else:
        nominal, *ends = (
            over_pins(pin_centre(wheel.space, pin), pin, count) for wheel in teeth.driven.wheels
        )
    limits = combined(nominal, tuple(ends), f"follows from the {teeth.driven.words}")
    yield Feature("over_pins", "Over two pins", limits, "Micrometer and two pins", over=pin)


def _over_flanks(teeth: _Teeth) -> Feature:
    """Over the outer flanks of neighbouring teeth, between flat jaws."""
    nominal, *ends = (span_of(wheel, teeth.span) for wheel in teeth.driven.wheels)
    limits = combined(nominal, tuple(ends), f"follows from the {teeth.driven.words}")
    return Feature("span", f"Span over {teeth.span} teeth", limits, "Flat-jawed or disc micrometer")


def _chordal(teeth: _Teeth) -> Iterator[Feature]:
    """Straight across a tooth, and the height to which a tooth vernier is set for it."""
    wheels, height = teeth.driven.wheels, teeth.wheel.fact("chordal.height", None)
    sizes = [wheel.fact("chordal.thickness", None) for wheel in wheels]
    if height is None or None in sizes:
        return
    nominal, *ends = (size for size in sizes if size is not None)
    limits = combined(nominal, tuple(ends), f"follows from the {teeth.driven.words}")
    yield Feature("chordal", "Tooth thickness, straight across", limits, "Gear-tooth vernier")
    outside = teeth.outside
    low, high = (height + (end - outside.nominal) / 2 for end in (outside.low, outside.high))
    at = Limits(height, low, high, f"follows from the {teeth.across}")
    yield Feature("chordal_height", "Height the vernier is set to", at, "Gear-tooth vernier")


READINGS: dict[str, Callable[[_Teeth], Iterator[Feature]]] = {
    "across_roots": _across_roots,
    "levelled_face": _levelled_face,
    "span": _span,
    "over_pins": _over_pins,
    "chordal": _chordal,
}
"""Key -> the reading, of the wheels whose form names it."""
