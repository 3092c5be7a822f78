"""What is told of a gear that a range cutter makes: its own sizes, beside them the true gear's."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Literal

from profilegen.figures import Quantity
from profilegen.forms.form_cut_gear.keys import FormCutGear
from profilegen.forms.form_cut_gear.tooth import FormCut
from profilegen.forms.involute.sizes import sizes_of
from profilegen.forms.involute.teeth import Teeth
from profilegen.forms.involute.tooth import NoGear, pitch_of
from profilegen.forms.wheel import Size
from profilegen.geometry.chain import Chain
from profilegen.geometry.tooth_sizes import over_pins, pin_seat, span_over

Found = tuple[str, float | int | None, str, Quantity]
"""Key, value, label, quantity."""


def cut_sizes(keys: FormCutGear, cut: FormCut, teeth: Teeth) -> tuple[Size, ...]:
    """Everything known, in order: of the tooth that is made, of its flank against the true one, of
    the true gear over the same pins and teeth. Lengths are mm, angles rad.

    Args:
        keys: of the wheel.
        cut: by them.
        teeth: that the cutter leaves.
    """
    own = sizes_of(keys, teeth)
    source: Literal["given", "solved"] = "solved" if keys.made_for is None else "given"
    label = "Teeth whose space the cutter has"
    made_for = Size("made_for", keys.cutter_teeth, "count", label, source)
    more = (
        Size(key, value, quantity, label, "solved")
        for key, value, label, quantity in (*_departures(cut), *_true(cut, keys, own))
    )
    return (*own, made_for, *more)


def _departures(cut: FormCut) -> Iterator[Found]:
    gear = cut.gear
    for key, radius, where in (
        ("tip", gear.outside, "at the tip"),
        ("pitch_circle", gear.pitch, "at the pitch circle"),
        ("form_circle", gear.form_radius(), "where the true flank begins"),
    ):
        label = f"Flank inside the true one (below 0: outside), {where}"
        value = cut.departure(radius) if gear.base <= radius <= gear.outside else None
        yield f"departure.{key}", value, label, "length"


def _true(cut: FormCut, keys: FormCutGear, own: tuple[Size, ...]) -> Iterator[Found]:
    gear, pitch = cut.gear, _true_pitch(cut, keys.fit_tolerance)
    told = {size.key: size.number for size in own if isinstance(size.value, int | float)}
    count, pin = told.get("span.teeth"), told.get("over_pins.pin")
    span = None if pitch is None or count is None else _span(pitch, gear.teeth, int(count))
    pins = None if pitch is None or pin is None else _pins(pitch, gear.teeth, pin)
    form = 2 * gear.form_radius()
    about = "True gear: "
    yield "true_gear.form_diameter", form, f"{about}diameter where its flank begins", "length"
    yield "true_gear.tooth_thickness", gear.thickness, f"{about}tooth thickness", "length"
    yield "true_gear.span", span, f"{about}span over as many teeth", "length"
    yield "true_gear.over_pins", pins, f"{about}size over the same pins", "length"


def _true_pitch(cut: FormCut, tolerance: float) -> Chain | None:
    try:
        return pitch_of(cut.gear, tolerance)[0]
    except NoGear:
        return None


def _span(pitch: Chain, teeth: int, spanned: int) -> float | None:
    span = span_over(pitch, teeth, spanned)
    return span.length if span.is_on_flanks else None


def _pins(pitch: Chain, teeth: int, pin: float) -> float | None:
    seat = pin_seat(pitch, teeth, pin)
    return None if seat is None or not seat.is_on_flanks else over_pins(seat.centre, pin, teeth)
