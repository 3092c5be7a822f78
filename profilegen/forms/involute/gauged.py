"""What gear teeth are gauged over: pins and spans that serve, the chord across a tooth.

Spans and pins are read off the outline that is made, so that an undercut root counts. Chordal
sizes: `t = d sin(s / d)` and `h = ha + d / 2 (1 - cos(s / d))` (handbooks of gear gauging).
"""

from __future__ import annotations

import math
from typing import Final

from profilegen.forms.involute.tooth import Gear
from profilegen.geometry.chain import Chain
from profilegen.geometry.tooth_sizes import Span, over_pins, pin_seat, span_over

PIN_FACTORS: Final = (1.7, 1.75, 1.65, 1.8, 1.85, 1.9, 2.0, 1.6, 1.5)
"""of the module: pins to try, the usual first (metric tables of sizes over pins)."""

INCH_PINS: Final = (1.728, 1.68, 1.92, 1.44)
"""of 1 / diametral pitch: the sets of wires that the trade sells (handbook tables)."""

PROUD: Final = 0.15
"""of the module: how far a pin stands over the tips at least, so that it does on thin teeth too."""

PIN_STEP: Final = 0.05
"""mm. Steps of a set of pin gauges."""


def spanned(gear: Gear) -> int:
    """Teeth between the jaws with which they touch near the pitch circle, moved by the shift."""
    middle = max(gear.pitch + gear.shift, gear.base * (1 + 1e-9))
    turn = math.acos(gear.base / middle) * gear.teeth / math.pi
    return max(2, math.ceil(turn - 1e-9))


def best_span(gear: Gear, pitch: Chain) -> tuple[int, Span] | None:
    """Teeth between the jaws, and the span, mm, where both jaws touch the flanks; the usual count
    first, then its neighbours; None where none serves.

    Args:
        gear: for the usual count.
        pitch: one pitch of the outline that is measured, mm, tooth 1 centred on +x.
    """
    first = spanned(gear)
    for count in (first, first + 1, first - 1):
        if 2 <= count < gear.teeth / 2 + 1:
            span = span_over(pitch, gear.teeth, count)
            if span.is_on_flanks:
                return count, span
    return None


def best_pin(gear: Gear, pitch: Chain, *, inch: bool) -> tuple[float, float] | None:
    """Diameter of a usual pin and the size over two, mm; None where none rests on both flanks and
    stands proud."""
    for factor in INCH_PINS if inch else PIN_FACTORS:
        pin = factor * gear.module
        pin = pin if inch else max(PIN_STEP, round(round(pin / PIN_STEP) * PIN_STEP, 9))
        seat = pin_seat(pitch, gear.teeth, pin)
        if seat is not None and seat.is_on_flanks:
            size = over_pins(seat.centre, pin, gear.teeth)
            if size > 2 * gear.outside + PROUD * gear.module:
                return pin, size
    return None


def chordal(gear: Gear, thickness: float) -> tuple[float, float]:
    """Straight across a tooth at the pitch circle, and the height of the tip over that chord, mm.

    Args:
        gear: whose pitch circle and outside count.
        thickness: of the tooth along the pitch circle, mm.
    """
    half = thickness / (2 * gear.pitch)
    return 2 * gear.pitch * math.sin(half), gear.outside - gear.pitch * math.cos(half)
