"""Sizes of trial cuts against the wheel solved again: cuts that stop short make a shallower tooth.

With one cutter that forms both flanks at offset 0 a space cut short is the same space moved out, so
a wheel of symmetrical teeth with a thicker land has it: solved by the tooth form, which knows
nothing of cuts. For other cuts the moved flanks are crossed here. No published source.
"""

from __future__ import annotations

import cmath
import math
from typing import Any

import pytest

from profilegen.cutting.trial import Land, trial_for
from profilegen.forms.solve import varied
from profilegen.gauging.pins import flanks, pin_centre
from profilegen.gauging.spans import crest_span
from profilegen.geometry.tooth_sizes import over_pins
from profilegen.job import Job
from tests.parts import job, ratchet, single, vee

SERRATED = {
    "kind": "serrated",
    "teeth": 25,
    "outside_diameter": 40,
    "thickness": 5,
    "land": 0.5,
    "space_angle": 60,
    "root_radius": 0.2,
}


@pytest.mark.parametrize("teeth", [24, 25])
@pytest.mark.parametrize("short", [0.05, 0.2])
def test_short_of_depth_it_is_the_wheel_with_a_thicker_land(teeth: int, short: float) -> None:
    """Symmetrical teeth: root up by what is short, and every size is that wheel's."""
    made = job({**SERRATED, "teeth": teeth}, vee(60))
    again = varied(made.made, root_diameter=2 * (made.made.root_radius + short))
    pin = made.gauges.pin
    assert pin is not None
    over = over_pins(pin_centre(again.space, pin), pin, teeth)
    assert made.taken["over_pins"].at(short) == pytest.approx(over, abs=1e-9)
    assert made.taken["land"].at(short) == pytest.approx(again.fact("land"), abs=1e-9)
    spanned = made.gauges.span_teeth
    chord = crest_span(20.0, teeth, again.fact("land"), spanned)
    assert made.taken["span"].at(short) == pytest.approx(chord, abs=1e-9)


@pytest.mark.parametrize(
    ("wheel", "cutter"),
    [
        ({"hook_angle": 8}, vee(60)),
        ({"hook_angle": 0}, single(60)),
        ({"hook_angle": -5}, single(60)),
        ({"hook_angle": 5}, vee(45)),
    ],
)
def test_pins_sink_with_the_flanks_that_the_last_lap_forms(
    wheel: dict[str, Any], cutter: dict[str, Any]
) -> None:
    """The flanks of the last cut lie further out along its infeed; the pin touches both lines."""
    made, short = job(ratchet(**wheel), cutter), 0.07
    pin, last = made.gauges.pin, made.plan.cuts[-1]
    assert pin is not None
    up = short * 1j * cmath.exp(-1j * last.turn)
    face, back = flanks(made.made.space)
    at_face = face.tip + (up if last.forms != "back" else 0)
    at_back = back.tip + (up if last.forms != "face" else 0)
    lines = (
        (at_face + pin / 2 * 1j * face.outward, face.outward),
        (at_back - pin / 2 * 1j * back.outward, back.outward),
    )
    (one, along), (other, way) = lines
    spread = (along.conjugate() * way).imag
    centre = one + ((other - one).conjugate() * way).imag / spread * along
    size = over_pins(centre, pin, 30)
    assert made.taken["over_pins"].at(short) == pytest.approx(size, abs=1e-9)


@pytest.mark.parametrize("key", ["land", "span", "over_pins"])
@pytest.mark.parametrize("cutter", [vee(60), single(60), vee(45)])
def test_what_is_read_says_how_deep(key: str, cutter: dict[str, Any]) -> None:
    """A size read back gives the infeed still to go; none left at full depth."""
    made = job(ratchet(hook_angle=0), cutter)
    taken = made.taken[key]
    for short in (0.0, 0.03, min(0.3, 0.5 * taken.most)):
        told = trial_for(made.made, made.plan.cuts, (Land(taken.at(short)),), taken=taken)
        assert told.remaining == pytest.approx(short, abs=1e-8)
        assert told.expected_size == pytest.approx(taken.target, abs=1e-9)


def test_the_size_at_full_depth_is_the_one_to_measure() -> None:
    """What `gauge` tells and what a trial wants are one figure."""
    made: Job = job(SERRATED, vee(60))
    for key in ("land", "span", "over_pins"):
        feature = made.gauges.feature(key)
        assert feature is not None
        assert made.taken[key].target == pytest.approx(feature.limits.nominal, abs=1e-9)
    assert made.taken["over_pins"].spaces == (1, 13)
    assert math.isclose(made.taken["land"].most, made.plan.cuts[-1].infeed_from_offset)
