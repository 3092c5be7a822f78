"""A toothing is held to what it says of itself: its count, which way it looks, what stands at 0."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from profilegen.forms.solve import solve
from profilegen.forms.wheel import Toothing
from profilegen.geometry.moves import moved, rotation
from profilegen.part.part import Part
from tests.gauging.test_ring_pins import ring_space
from tests.parts import job, ratchet


@pytest.fixture
def teeth() -> Toothing:
    """Thirty ratchet teeth, the face tip of tooth 1 at angle 0."""
    return job(ratchet()).wheel.space


def test_teeth_stand_where_they_say(teeth: Toothing) -> None:
    """A pitch that is turned is refused, and one whose crest is said to stand at the face tip."""
    turned = moved(teeth.pitch, rotation(math.radians(0.001)))
    with pytest.raises(ValueError, match="face tip of tooth 1 is said to stand at angle 0"):
        replace(teeth, pitch=turned)
    with pytest.raises(ValueError, match="crest of tooth 1 is said to stand at angle 0"):
        replace(teeth, at_zero="crest")


def test_a_pitch_is_one_pitch(teeth: Toothing) -> None:
    """A count that is not that of the pitch is told, and not drawn."""
    with pytest.raises(ValueError, match="does not end one of 31 teeth on"):
        replace(teeth, teeth=teeth.teeth + 1)


def test_teeth_look_the_way_they_say(teeth: Toothing) -> None:
    """Teeth on the outside are none of a bore, and those of a ring none of a wheel."""
    with pytest.raises(ValueError, match="said to look inwards"):
        replace(teeth, inside=True)
    with pytest.raises(ValueError, match="said to look outwards"):
        replace(ring_space(24), inside=False)


@pytest.mark.parametrize(("count", "land", "angle"), [(2, 8, 150), (3, 4, 120), (12, 2, 60)])
def test_the_crest_of_few_teeth_stands_at_angle_0(count: int, land: float, angle: float) -> None:
    """Of two teeth the crests stand on both sides of the turn's end: the middle is found on its
    own side."""
    keys = {"kind": "serrated", "teeth": count, "outside_diameter": 20, "thickness": 5}
    tables = {"units": "mm", "wheel": {**keys, "land": land, "space_angle": angle}}
    assert solve(Part.from_dict(tables)).crest_angle == pytest.approx(0, abs=1e-9)
