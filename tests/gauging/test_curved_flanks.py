"""Gauging and trial cuts of curved flanks, against closed forms of gears and against cut outlines.

Infeed still to go moves the spaces of a gear cut on centre along their radii: over pins by 2 per mm
(times cos(90 deg / z) for odd counts), over a span of k teeth by 2 sin(180 deg k / z): plane
trigonometry, derived apart from this program (0.90798 for 3 of 20 teeth).
"""

from __future__ import annotations

import math
from functools import cache
from typing import Any

import pytest

from profilegen.errors import InputError
from profilegen.findings.telling import told
from profilegen.geometry.chain import Role
from profilegen.geometry.moves import Move, moved, repeated, rotation
from profilegen.geometry.tooth_sizes import run_of
from profilegen.job import Job, job_for
from profilegen.part.part import Part
from profilegen.topics.gauge_words import centring_lines, how_lines


@cache
def plain(teeth: int = 20) -> Job:
    """The gear that most tests look at."""
    return job(teeth)


def job(teeth: int = 20, **tables: Any) -> Job:
    """A gear of module 1 cut by a form cutter of its own space, thinned by 0.05."""
    keys = {"kind": "spur-gear", "module": 1.0, "teeth": teeth, "thickness": 6, "thinning": 0.05}
    cutter = {"name": "form", "kind": "form", "of": keys}
    return job_for(Part.from_dict({"units": "mm", "wheel": keys, "cutter": [cutter], **tables}))


def test_what_is_measured_of_a_gear() -> None:
    """Root, tooth, span and pins, each with its nominal within limits that follow from the tooth;
    0.05 thinner than the print is 0.0366 * 2 less over 3 teeth (the cosine rule of spans)."""
    gauges = plain().gauges
    keys = [feature.key for feature in gauges.features]
    assert keys == ["outside_diameter", "thickness", "root_diameter", "chordal", "chordal_height",
                    "span", "over_pins"]  # fmt: skip
    assert all(feature.limits.has_nominal for feature in gauges.features)
    span = gauges.feature("span")
    assert span is not None
    thinner = 0.04 * math.cos(math.radians(20))
    assert span.limits.nominal - span.limits.low == pytest.approx(thinner, abs=2e-3)
    assert (gauges.pin, gauges.span_teeth) == (1.7, 3)
    assert gauges.infeed_per_size == pytest.approx(0.5, abs=1e-4)


def test_limits_follow_a_tolerance_of_the_tooth() -> None:
    """A span changes by cos a per mm of tooth thickness, the root by 1 / tan a."""
    given = job(tolerance={"tooth_thickness": "+0 -0.1"}).gauges
    span, root = given.feature("span"), given.feature("root_diameter")
    assert span is not None
    assert root is not None
    assert span.limits.high - span.limits.low == pytest.approx(0.1 * math.cos(0.349), abs=2e-3)
    assert root.limits.high - root.limits.low == pytest.approx(0.1 / math.tan(math.radians(20)))


@pytest.mark.parametrize("teeth", [20, 21, 35])
def test_what_infeed_does_to_pins_and_span(teeth: int) -> None:
    """By the closed forms, and the spaces that must be cut: 1 and 1 + k, 1 and 1 + z / 2."""
    made = plain(teeth)
    taken, count = made.taken, made.gauges.span_teeth
    assert list(taken) == ["over_pins", "span", "chordal"]
    pins, span = taken["over_pins"], taken["span"]
    share = 2.0 if teeth % 2 == 0 else 2 * math.cos(math.pi / 2 / teeth)
    assert pins.at(0.2) - pins.at(0.0) == pytest.approx(0.2 * share, abs=1e-5)
    rate = 2 * math.sin(math.pi * count / teeth)
    assert span.at(0.2) - span.at(0.0) == pytest.approx(0.2 * rate, abs=1e-5)
    assert (pins.spaces, span.spaces) == ((1, 1 + teeth // 2), (1, 1 + count))
    assert 0.5 < pins.most < 2.4
    if teeth == 20:
        assert rate == pytest.approx(0.90798, abs=5e-6)


def test_a_tooth_between_spaces_that_are_short_of_depth() -> None:
    """Lines across the tooth, its two flanks moved out along their spaces by hand."""
    made = plain().made
    thick, height = plain().taken["chordal"], made.fact("chordal.height")
    half = math.pi / 20
    back = moved(run_of(made.space.pitch, Role.BACK), rotation(-half))
    lifted = moved(moved(back, Move(shift=0.3 + 0j)), rotation(-half))
    wanted = made.radius - height
    fine = [z for z in _dense(lifted) if abs(z.real - wanted) < 1e-3]
    assert thick.at(0.3) == pytest.approx(2 * abs(fine[0].imag), abs=8e-4)
    assert thick.target == pytest.approx(made.fact("chordal.thickness"), abs=2e-3)


def _dense(curve: Any) -> list[complex]:
    """A great many points of a chain."""
    from profilegen.geometry.arcs import points_at

    found: list[complex] = []
    for share in range(2001):
        at = points_at(curve.starts, curve.ends, curve.bulges, 0 * curve.bulges + share / 2000)
        found += at.tolist()
    return found


@pytest.mark.parametrize(
    ("pin", "code"), [(1.2, "pin-falls-in"), (4.0, "pin-on-tips"), (1.7, None)]
)
def test_a_pin_of_the_part_file(pin: float, code: str | None) -> None:
    """One that rests on the root, or on the tips, is a finding with a pin that works."""
    gauges = job(gauge={"pin": pin}).gauges
    assert [finding.code for finding in gauges.findings] == ([code] if code else [])
    if code:
        assert "make gauge.pin 1.700 mm" in told(gauges.findings[0])


def test_a_span_off_the_flanks() -> None:
    """Jaws over 6 of 20 teeth touch the tips: refused, with a count that works."""
    with pytest.raises(InputError, match=r"gauge.span_teeth.*true flanks.*allowed: 3"):
        _ = job(gauge={"span_teeth": 6}).gauges
    assert repeated(job().made.space.pitch, 20) == plain().made.outline


@pytest.mark.parametrize(("side", "words"), [("above", "quarter turn"), ("behind", "too high")])
def test_centring_has_a_check_of_its_own(side: str, words: str) -> None:
    """Told where sizes are taken, and from which side the space is first read."""
    (line,) = centring_lines(job(setup={"cutter_side": side}))
    assert words in line
    assert line in list(how_lines(job(setup={"cutter_side": side})))


def test_no_centring_check_without_a_pin() -> None:
    """Nothing is told where no pin serves."""
    assert not list(centring_lines(job(gauge={"pin": 0.5})))
