"""Everything known of a gear's teeth as they are made, told and measured.

A fact that a gear has not, a span that no jaws take or a cutter that no set holds, is None.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import TYPE_CHECKING, Literal

from profilegen.figures import Quantity
from profilegen.forms.involute.cutters import cutter_for
from profilegen.forms.involute.gauged import best_pin, best_span, chordal
from profilegen.forms.involute.rack import MM_PER_INCH
from profilegen.forms.involute.teeth import Teeth
from profilegen.forms.involute.tooth import Gear
from profilegen.forms.wheel import Size
from profilegen.part.how_measured import Measured

if TYPE_CHECKING:
    from profilegen.forms.involute.keys import GearKeys

THINNER, THICKER = 0.04, 0.01
"""of the module: how much thinner or thicker a tooth may come out where the part says nothing;
common practice, no published source."""


def tooth_tolerance(gear: Gear) -> Measured:
    """How the thickness of a tooth is measured, mm, and its limits where the part has none."""
    words = "up to 0.04 module thinner or 0.01 thicker"
    default = (-THINNER * gear.module, THICKER * gear.module, words)
    return Measured("Tooth thickness along the pitch circle", "Worked out from the others", default)


def sizes_of(keys: GearKeys, teeth: Teeth) -> tuple[Size, ...]:
    """Everything known, in the order in which JSON and tables tell it; lengths mm, angles rad."""
    named = {key for key in keys.model_fields_set if getattr(keys, key) is not None}
    return tuple(_sizes(keys, teeth, named))


def _size(
    named: set[str],
    key: str,
    value: float | int | str | None,
    label: str,
    quantity: Quantity = "length",
    measured: Measured | None = None,
) -> Size:
    source: Literal["given", "solved"] = "given" if key in named else "solved"
    return Size(key, value, quantity, label, source, measured)


def _sizes(keys: GearKeys, teeth: Teeth, named: set[str]) -> Iterator[Size]:
    gear = teeth.gear

    def size(
        key: str,
        value: float | int | str | None,
        label: str,
        quantity: Quantity = "length",
        measured: Measured | None = None,
    ) -> Size:
        return _size(named, key, value, label, quantity, measured)

    root = Measured("Root diameter, real material", "Point micrometer or projector")
    rack = gear.rack
    yield size("kind", keys.kind, "Kind", "text")
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
    yield size("root_diameter", 2 * teeth.root, "Root diameter, real material", "length", root)
    yield size("form_diameter", 2 * teeth.form, "Diameter where the true flank begins")
    yield size("whole_depth", gear.outside - gear.root, "Whole depth, from the outside")
    thick = tooth_tolerance(gear)
    label = "Tooth thickness along the pitch circle"
    yield size("tooth_thickness", teeth.thickness, label, "length", thick)
    yield size("tip_width", teeth.tip_width, "Width of a tip")
    yield size("thickness", keys.thickness, "Thickness")
    yield from _gauged(keys, teeth)
    yield from _form_cutter(gear.teeth)
    yield size("circular_pitch", math.pi * gear.module, "Pitch along the pitch circle")


def _plain(number: float) -> float | int:
    """A number without a unit, to six decimals, whole where it is."""
    return int(number) if number == int(number) else round(number, 6)


def _gauged(keys: GearKeys, teeth: Teeth) -> Iterator[Size]:
    gear, pitch = teeth.gear, teeth.pitch
    if (found := best_span(gear, pitch)) is not None:
        yield _size(set(), "span.teeth", found[0], "Teeth under the span", "count")
        yield _size(set(), "span.length", found[1].length, "Span over these teeth")
    else:
        yield _size(set(), "span", None, "Span")
    pins = best_pin(gear, pitch, inch=keys.diametral_pitch is not None)
    if pins is not None:
        yield _size(set(), "over_pins.pin", pins[0], "Diameter of the pins")
        yield _size(set(), "over_pins.length", pins[1], "Size over two pins")
    else:
        yield _size(set(), "over_pins", None, "Size over two pins")
    if teeth.form < gear.pitch < gear.outside:
        thickness, height = chordal(gear, teeth.thickness)
        yield _size(set(), "chordal.thickness", thickness, "Tooth thickness, straight across")
        yield _size(set(), "chordal.height", height, "Height of the tip over that thickness")
    else:
        yield _size(set(), "chordal", None, "Tooth thickness, straight across")


def _form_cutter(teeth: int) -> Iterator[Size]:
    cutter = cutter_for(teeth)
    if cutter is None:
        yield _size(set(), "form_cutter", None, "Form cutter", "text")
        return
    for key, value, label in (
        ("dp_number", cutter.dp_number, "Form cutter, number by diametral pitch"),
        ("module_number", cutter.module_number, "Form cutter, number by module"),
    ):
        yield _size(set(), f"form_cutter.{key}", value, label, "count")
    label = "Teeth that this cutter is for: order by these"
    yield _size(set(), "form_cutter.range", cutter.range, label, "text")
