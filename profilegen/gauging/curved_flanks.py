"""Teeth with curved flanks: the pin that serves, what pins, spans and chords read, and what trial
cuts show.

Everything is read off the outline. A cutter that forms both flanks of a space moves the whole space
with it, whatever the flanks' shape: infeed still to go lifts it along the infeed. A pin rises with
its space, so the size over two opposite pins is `2 t` more (odd counts: times cos(90 deg / z)); the
two outer flanks of k teeth move apart by `2 t sin(180 deg k / z)`. Plane trigonometry, derived
here. Refuses cuts of one flank at a time.
"""

from __future__ import annotations

import cmath
from collections.abc import Iterator
from dataclasses import replace
from typing import TYPE_CHECKING

from profilegen.cutting.gap import monotone_root
from profilegen.cutting.taken import Taken
from profilegen.errors import InputError, Problem
from profilegen.findings.finding import Fact, Finding, Make, Phrase
from profilegen.forms.wheel import Wheel
from profilegen.gauging.pin_sizes import pin_fact
from profilegen.geometry.chain import Role
from profilegen.geometry.rolled_pin import Seat
from profilegen.geometry.tooth_sizes import across_tooth, over_pins, pin_seat, span_over

if TYPE_CHECKING:
    from profilegen.cutting.poses import Cut
    from profilegen.part.part import Part
    from profilegen.units import Unit

LEAST_PROUD = 0.02
"""of the pin's diameter: the least that it stands over the tips."""


def is_curved(wheel: Wheel) -> bool:
    """Whether a flank of the teeth is curved."""
    return wheel.space.face is None or wheel.space.back is None


def pin_over(wheel: Wheel, pin: float) -> float | None:
    """Size over two pins (mm) laid in the outline; None where they find no rest."""
    seat = pin_seat(wheel.space.pitch, wheel.teeth, pin)
    return None if seat is None else over_pins(seat.centre, pin, wheel.teeth)


def span_of(wheel: Wheel, teeth: int) -> float:
    """Span over the flanks of so many teeth, mm."""
    return span_over(wheel.space.pitch, wheel.teeth, teeth).length


def chord_of(wheel: Wheel, lift: float = 0.0) -> float | None:
    """Straight across a tooth at the height that the form tells, its spaces `lift` mm short of
    depth; None where the form tells of none, or a flank does not reach so far."""
    height = wheel.fact("chordal.height", None)
    if height is None:
        return None
    return across_tooth(wheel.space.pitch, wheel.teeth, wheel.radius - height, lift)


def curved_pin(part: Part, wheels: tuple[Wheel, ...]) -> tuple[float | None, tuple[Finding, ...]]:
    """The pin of the part file, or the one that the form tells of, mm, and why none serves.

    Args:
        part: with `[gauge] pin`, or without.
        wheels: as drawn, and at its limits: it must serve for all.
    """
    usual: float | None = wheels[0].fact("over_pins.pin", None)
    given = part.gauge.pin if part.gauge else None
    if given is None:
        if usual is not None and all(_fault(wheel, usual) is None for wheel in wheels):
            return usual, ()
        return None, (Finding("pin-none", "note", "gauge.pin", case="curved"),)
    faults = [one for wheel in wheels if (one := _fault(wheel, given, part.units)) is not None]
    if not faults:
        return given, ()
    advice: Fact = Phrase("take-out", {"key": "gauge.pin"})
    if usual is not None:
        advice = Make("gauge.pin", "", pin_fact(usual, part.units))
    return None, (replace(faults[0], limit=usual, advice=advice),)


def _fault(wheel: Wheel, pin: float, unit: Unit = "mm") -> Finding | None:
    """What keeps a pin (mm) from serving; None where nothing does."""
    seat, facts = pin_seat(wheel.space.pitch, wheel.teeth, pin), {"pin": pin_fact(pin, unit)}
    where = "gauge.pin"
    if seat is None or seat.is_on_tips:
        return Finding("pin-on-tips", "refused", where, pin, facts=facts)
    if not _rests(wheel, seat):
        if wheel.pins_rest_on == "root":
            return Finding("pin-not-seated", "refused", where, pin, facts=facts)
        return Finding("pin-falls-in", "refused", where, pin, facts=facts, case="curved")
    if over_pins(seat.centre, pin, wheel.teeth) < 2 * wheel.radius + LEAST_PROUD * pin:
        return Finding("pin-not-proud", "refused", where, pin, facts=facts, case="curved")
    return None


def _rests(wheel: Wheel, seat: Seat) -> bool:
    """Whether a pin lies where it must: on both flanks, or in the round of the root."""
    if wheel.pins_rest_on == "root":
        return all(touch.role == Role.ROOT for touch in seat.touches)
    return seat.is_on_flanks


def infeed_per_pin_size(wheel: Wheel, cuts: tuple[Cut, ...], pin: float) -> float | None:
    """mm of further infeed per mm that the size over pins is too big; None without a cut that forms
    both flanks."""
    taken = _pins_taken(wheel, cuts[-1], pin) if cuts and _forms_both(cuts) else None
    if taken is None:
        return None
    step = 1e-4 * wheel.radius
    return step / (taken.at(step) - taken.at(0.0))


def _forms_both(cuts: tuple[Cut, ...]) -> bool:
    return len(cuts) == 1 and cuts[0].forms in ("both", "space")


def curved_taken(
    wheel: Wheel, cuts: tuple[Cut, ...], pin: float | None, spanned: int, has_chord: bool
) -> Iterator[Taken]:
    """What trial cuts of one lap show, mm: over pins, over a span, across a tooth.

    Args:
        wheel: whose sizes they are, mm.
        cuts: nothing is told where they do not form both flanks at once.
        pin: diameter, mm; None where none serves.
        spanned: teeth between the jaws; 0 for none.
        has_chord: whether a tooth is measured straight across.
    """
    if not _forms_both(cuts):
        return
    last = cuts[-1]
    if pin is not None and (pins := _pins_taken(wheel, last, pin)) is not None:
        yield pins
    if spanned > 0 and span_over(wheel.space.pitch, wheel.teeth, spanned).is_on_flanks:
        yield _span_taken(wheel, last, spanned)
    if has_chord:
        yield _chord_taken(wheel, last)


def _lifting(cut: Cut) -> complex:
    """Which way a space moves per mm of infeed still to go, in base orientation."""
    return 1j * cmath.exp(-1j * cut.turn)


def _pins_taken(wheel: Wheel, last: Cut, pin: float) -> Taken | None:
    seat = pin_seat(wheel.space.pitch, wheel.teeth, pin)
    if seat is None or not _rests(wheel, seat):
        return None
    lift = _lifting(last)
    return Taken(
        "over_pins",
        "size over pins",
        "sizes over pins",
        lambda remaining: over_pins(seat.centre + remaining * lift, pin, wheel.teeth),
        _until_out(wheel, last, tuple(_places(seat))),
        "with both pins in the spaces cut",
        spaces=(1, 1 + wheel.teeth // 2),
    )


def _places(seat: Seat) -> Iterator[complex]:
    yield from (touch.place for touch in seat.touches)


def _span_taken(wheel: Wheel, last: Cut, teeth: int) -> Taken:
    span, lift = span_over(wheel.space.pitch, wheel.teeth, teeth), _lifting(last)
    turned = cmath.exp(1j * teeth * wheel.angular_pitch)
    across = (span.high - span.low) / abs(span.high - span.low)
    rate = ((lift * turned - lift) * across.conjugate()).real
    return Taken(
        "span",
        f"span over {teeth} teeth",
        f"spans over {teeth} teeth",
        lambda remaining: span.length + remaining * rate,
        _until_out(wheel, last, (span.low,)),
        "flat jaws between the two spaces cut, lightly closed",
        spaces=(1, 1 + teeth),
    )


def _chord_taken(wheel: Wheel, last: Cut) -> Taken:
    def chord(remaining: float) -> float:
        return chord_of(wheel, remaining) or 0.0

    most = last.infeed_from_offset
    while most > 1e-3 and chord_of(wheel, most) is None:
        most *= 0.9
    return Taken(
        "chordal",
        "tooth thickness, straight across",
        "tooth thicknesses",
        chord,
        most,
        "tooth vernier set to the height told, on the tooth between the spaces cut",
        spaces=(1, 2),
    )


def _until_out(wheel: Wheel, last: Cut, places: tuple[complex, ...]) -> float:
    """Infeed still to go at which the first of some contacts leaves the blank, mm."""
    lift = _lifting(last)

    def past(remaining: float) -> float:
        return max(abs(place + remaining * lift) for place in places) - wheel.radius

    touch = last.infeed_from_offset
    return touch if past(touch) < 0 else monotone_root(past, 0.0, touch)


def curved_span(part: Part, wheel: Wheel) -> int:
    """How many teeth lie between the jaws: as the part asks, or as the form tells; 0 for none.

    Raises:
        InputError: jaws over so many do not touch the true flanks.
    """
    usual = int(wheel.fact("span.teeth", 0))
    given = part.gauge.span_teeth if part.gauge else None
    if given is None:
        return usual
    lie = given < wheel.teeth / 2 + 1
    if lie and span_over(wheel.space.pitch, wheel.teeth, given).is_on_flanks:
        return given
    text = "over so many teeth the jaws do not touch the true flanks"
    hint = "" if usual else "no jaws span the teeth of this wheel: take gauge.span_teeth out"
    raise InputError(
        Problem("gauge.span_teeth", text, str(given), str(usual) if usual else "", hint)
    )
