"""Everything known of a spur gear's teeth, told and measured.

Spans and pins are measured on the outline that is made, so that an undercut root counts. Chordal
sizes: `t = d sin(s / d)` and `h = ha + d / 2 (1 - cos(s / d))` (handbooks of gear gauging). The
cutters of a set of eight: ranges of tooth counts as the trade sells them; by diametral pitch number
1 cuts the largest counts, by module number 1 the smallest (both remembered; catalogues of cutters).
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final, Literal

from profilegen.figures import Quantity
from profilegen.forms.spur_gear.rack import MM_PER_INCH
from profilegen.forms.spur_gear.tooth import Gear
from profilegen.forms.wheel import Size
from profilegen.geometry.chain import Chain
from profilegen.geometry.tooth_sizes import Span, over_pins, pin_seat, span_over
from profilegen.part.how_measured import Measured

if TYPE_CHECKING:
    from profilegen.forms.spur_gear.keys import SpurGear

CUTTERS: Final = ((135, 0), (55, 134), (35, 54), (26, 34), (21, 25), (17, 20), (14, 16), (12, 13))
"""Tooth counts of each cutter of a set of eight, first to last; 0 is a rack."""

PIN_FACTORS: Final = (1.7, 1.75, 1.65, 1.8, 1.85, 1.9, 2.0, 1.6, 1.5)
"""of the module: pins to try, the usual first (metric tables of sizes over pins)."""

INCH_PINS: Final = (1.728, 1.68, 1.92, 1.44)
"""of 1 / diametral pitch: the sets of wires that the trade sells (handbook tables)."""

PROUD: Final = 0.15
"""of the module: how far a pin stands over the tips at least, so that it does on thin teeth too."""

PIN_STEP: Final = 0.05
"""mm. Steps of a set of pin gauges."""

THINNER, THICKER = 0.04, 0.01
"""of the module: how much thinner or thicker a tooth may come out where the part says nothing;
common practice, no published source."""


@dataclass(frozen=True, slots=True)
class Cutter:
    """The cutter of a set of eight for one count of teeth.

    Attributes:
        dp_number: where numbers fall with the count, as on diametral-pitch cutters.
        module_number: where they rise, as on module cutters.
        range: counts that it cuts, in words.
    """

    dp_number: int
    module_number: int
    range: str


def cutter_for(teeth: int) -> Cutter | None:
    """The form cutter for a count; None under 12 teeth, for which no set has one."""
    for number, (low, high) in enumerate(CUTTERS, start=1):
        if teeth >= low:
            return Cutter(number, 9 - number, f"{low} to {high}" if high else f"{low} to a rack")
    return None


def spanned(gear: Gear) -> int:
    """Teeth between the jaws with which they touch near the pitch circle, moved by the shift."""
    middle = max(gear.pitch + gear.shift, gear.base * (1 + 1e-9))
    turn = math.acos(gear.base / middle) * gear.teeth / math.pi
    return max(2, math.ceil(turn - 1e-9))


def best_span(gear: Gear, pitch: Chain) -> tuple[int, Span] | None:
    """Teeth between the jaws, and the span, where both jaws touch the flanks; the usual count
    first, then its neighbours; None where none serves."""
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


def tooth_tolerance(gear: Gear) -> Measured:
    """How the thickness of a tooth is measured, and its limits where the part has none."""
    words = "up to 0.04 module thinner or 0.01 thicker"
    default = (-THINNER * gear.module, THICKER * gear.module, words)
    return Measured("Tooth thickness along the pitch circle", "Worked out from the others", default)


def sizes_of(keys: SpurGear, gear: Gear, pitch: Chain) -> tuple[Size, ...]:
    """Everything known, in the order in which JSON and tables tell it."""
    named = {key for key in keys.model_fields_set if getattr(keys, key) is not None}
    return tuple(_sizes(keys, gear, pitch, named))


def _size(
    named: set[str],
    key: str,
    value: float | int | str,
    label: str,
    quantity: Quantity = "length",
    measured: Measured | None = None,
) -> Size:
    source: Literal["given", "solved"] = "given" if key in named else "solved"
    return Size(key, value, quantity, label, source, measured)


def _sizes(keys: SpurGear, gear: Gear, pitch: Chain, named: set[str]) -> Iterator[Size]:
    def size(
        key: str,
        value: float | int | str,
        label: str,
        quantity: Quantity = "length",
        measured: Measured | None = None,
    ) -> Size:
        return _size(named, key, value, label, quantity, measured)

    root = Measured("Root diameter, real material", "Point micrometer or projector")
    rack = gear.rack
    yield size("kind", "spur-gear", "Kind", "text")
    yield size("teeth", gear.teeth, "Teeth", "count")
    yield size("angular_pitch", math.tau / gear.teeth, "Angular pitch", "angle")
    yield size("module", gear.module, "Module")
    yield size("diametral_pitch", _plain(MM_PER_INCH / gear.module), "Diametral pitch", "count")
    yield size("pressure_angle", gear.pressure_angle, "Pressure angle", "angle")
    yield size("rack", keys.rack_name, "Rack", "text")
    yield size("addendum", rack.addendum * gear.module, "Addendum of the rack")
    yield size("dedendum", rack.dedendum * gear.module, "Dedendum of the rack")
    yield size("rack_tip_radius", gear.tip_round, "Tip radius of the rack")
    yield size("profile_shift", _plain(keys.profile_shift), "Profile shift, in modules", "count")
    yield size("thinning", keys.thinning, "Thinning, along the pitch circle")
    yield size("pitch_diameter", 2 * gear.pitch, "Pitch diameter")
    yield size("base_diameter", 2 * gear.base, "Base circle diameter")
    yield size("outside_diameter", 2 * gear.outside, "Outside diameter")
    yield size("root_diameter", 2 * gear.root, "Root diameter, real material", "length", root)
    yield size("form_diameter", 2 * gear.form_radius(), "Diameter where the true flank begins")
    yield size("whole_depth", gear.outside - gear.root, "Whole depth, from the outside")
    thick = tooth_tolerance(gear)
    label = "Tooth thickness along the pitch circle"
    yield size("tooth_thickness", gear.thickness, label, "length", thick)
    yield size("tip_width", tip_width(gear), "Width of a tip")
    yield size("thickness", keys.thickness, "Thickness")
    yield from _gauged(keys, gear, pitch)
    yield from _form_cutter(gear)
    yield size("circular_pitch", math.pi * gear.module, "Pitch along the pitch circle")


def _plain(number: float) -> float | int:
    """A number without a unit, to six decimals, whole where it is."""
    return int(number) if number == int(number) else round(number, 6)


def tip_width(gear: Gear) -> float:
    """Straight across the tip of a tooth, mm."""
    return 2 * gear.outside * math.sin(gear.half_tooth(gear.outside))


def chordal(gear: Gear) -> tuple[float, float]:
    """Straight thickness at the pitch circle, and the height of the tip over that chord, mm."""
    half = gear.thickness / (2 * gear.pitch)
    return 2 * gear.pitch * math.sin(half), gear.outside - gear.pitch * math.cos(half)


def _gauged(keys: SpurGear, gear: Gear, pitch: Chain) -> Iterator[Size]:
    found = best_span(gear, pitch)
    if found is not None:
        yield _size(set(), "span.teeth", found[0], "Teeth under the span", "count")
        yield _size(set(), "span.length", found[1].length, "Span over these teeth")
    pins = best_pin(gear, pitch, inch=keys.diametral_pitch is not None)
    if pins is not None:
        yield _size(set(), "over_pins.pin", pins[0], "Diameter of the pins")
        yield _size(set(), "over_pins.length", pins[1], "Size over two pins")
    if gear.form_radius() < gear.pitch < gear.outside:
        thickness, height = chordal(gear)
        yield _size(set(), "chordal.thickness", thickness, "Tooth thickness, straight across")
        yield _size(set(), "chordal.height", height, "Height of the tip over that thickness")


def _form_cutter(gear: Gear) -> Iterator[Size]:
    cutter = cutter_for(gear.teeth)
    if cutter is None:
        return
    for key, value, label in (
        ("dp_number", cutter.dp_number, "Form cutter, number by diametral pitch"),
        ("module_number", cutter.module_number, "Form cutter, number by module"),
    ):
        yield _size(set(), f"form_cutter.{key}", value, label, "count")
    label = "Teeth that this cutter is for: order by these"
    yield _size(set(), "form_cutter.range", cutter.range, label, "text")
