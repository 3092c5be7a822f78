"""First contact against hand-worked cases, invariances and the contact of fine polygons."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from profilegen.geometry.chain import Chain, chain, circle, reverse
from profilegen.geometry.contact import first_contact, first_contacts
from profilegen.geometry.distance import distance
from profilegen.geometry.measure import nearest
from profilegen.geometry.moves import MIRROR_X, Move, moved
from tests import strategies as own
from tests.geometry.oracles import travel_by_chords

steady = settings(derandomize=True, deadline=None, max_examples=60)

VEE = chain([-5 + 5j * math.sqrt(3), 0, 5 + 5j * math.sqrt(3)])


def is_well_posed(curve: Chain, along: complex) -> bool:
    """Whether no line lies so nearly along the travel that `SAME_POINT` across is 0.1 mm along."""
    chord = curve.ends - curve.starts
    slope = np.abs((chord / along).imag) / np.abs(chord)
    return bool(np.all((slope > 1e-5) | (np.abs(curve.bulges) > 1e-2)))


def test_apex_of_a_vee_meets_a_blank_where_the_circle_says() -> None:
    """A 60 deg vee over a blank of radius 12.7 at offset 5 touches with its apex."""
    found = first_contact(moved(VEE, Move(shift=5 + 20j)), circle(0, 12.7), -1j)
    assert found is not None
    height = math.sqrt(12.7**2 - 25)
    assert found.travel == pytest.approx(20 - height, abs=1e-14)
    assert found.point == pytest.approx(5 + 1j * height, abs=1e-14)
    assert found.what == "vertex"


def test_nose_meets_a_blank_as_two_circles_do() -> None:
    """A nose of radius q at offset x comes to rest with its centre at sqrt((R + q)^2 - x^2)."""
    radius, nose, offset = 12.7, 0.2, 5.5
    found = first_contact(circle(offset + 20j, nose), circle(0, radius), -1j)
    assert found is not None
    centre = offset + 1j * math.sqrt((radius + nose) ** 2 - offset**2)
    assert found.travel == pytest.approx(20 - centre.imag, abs=2e-14)
    assert found.point == pytest.approx(centre / abs(centre) * radius, abs=1e-13)
    assert found.what == "tangent"


def test_circle_meets_a_line_at_its_radius() -> None:
    """A circle that comes down on a sloping line stops when its centre is a radius away."""
    line = chain([-5, 5 + 3j])
    for moving, fixed, where in (
        (circle(20j, 2), line, 1),
        (moved(line, Move(shift=20j)), circle(0, 2), -1),
    ):
        found = first_contact(moving, fixed, -1j)
        assert found is not None
        middle = 1.5j * (where == 1) + (1.5j if where < 0 else 0)
        assert found.travel == pytest.approx(
            20 + where * (-1.5) - 2 * math.hypot(1, 0.3), abs=1e-13
        )
        assert found.what == "tangent"
        assert middle == 1.5j


def test_edge_of_the_moving_curve_meets_a_corner() -> None:
    """A flat that comes down on a corner is met by the corner, in the middle of the flat."""
    found = first_contact(chain([-3 + 9j, 3 + 9j]), chain([-5, 1 + 2j, 5]), -1j)
    assert found is not None
    assert (found.travel, found.point, found.what) == (7, 1 + 2j, "edge")


def test_circle_that_starts_inside_another_touches_from_outside_first() -> None:
    """First contact is counted from infinitely far, so that the travel may be negative."""
    found = first_contact(circle(0, 2), circle(0, 5), 1)
    assert found is not None
    assert found.travel == pytest.approx(-7, abs=1e-15)
    assert found.point == pytest.approx(-5, abs=1e-15)


def test_inner_contact_of_arcs_is_found() -> None:
    """A small circle that drops into a half round trough rests on its bottom, off to no side."""
    trough = chain([-5, 5], [1.0])
    for offset in (0.0, 1.0, -2.5):
        found = first_contact(circle(offset + 20j, 2), trough, -1j)
        assert found is not None
        height = -math.sqrt(9 - offset**2) + 0.0
        assert found.travel == pytest.approx(20 - height, abs=1e-13)


def test_shadows_that_miss_have_no_contact_and_grazing_has() -> None:
    """Circles whose centres pass at the sum of their radii touch; a little farther they do not."""
    graze = first_contact(circle(7 + 20j, 2), circle(0, 5), -1j)
    assert graze is not None
    assert graze.travel == pytest.approx(20, abs=1e-3)
    assert first_contact(circle(7.000001 + 20j, 2), circle(0, 5), -1j) is None
    turns, shifts = np.ones(2, complex), np.array([7 + 20j, 7.1 + 20j])
    travels = first_contacts(circle(0, 2), circle(0, 5), -1j, turns, shifts)
    assert np.isnan(travels).tolist() == [False, True]


def test_flat_against_flat_touches_all_along() -> None:
    """Two level lines touch at once with all of their common length; a vertex is told."""
    found = first_contact(chain([-1 + 3j, 1 + 3j]), chain([-5, 5]), -1j)
    assert found is not None
    assert (found.travel, found.what) == (3, "vertex")


def test_line_along_the_travel_meets_end_on() -> None:
    """A line that lies along the way of travel touches with its leading end."""
    found = first_contact(chain([2 + 9j, 2 + 4j]), chain([0, 4 + 2j]), -1j)
    assert found is not None
    assert (found.travel, found.point) == (3, 2 + 1j)
    same = first_contact(chain([9j, 4j]), chain([1j, -3j]), -1j)
    assert same is not None
    assert same.travel == 3


@pytest.mark.parametrize("bulge", [1e-3, 1e-5, 2.5e-8, -2.5e-8])
def test_flat_arcs_are_met_to_the_last_digits(bulge: float) -> None:
    """The crest of an arc of sweep 1e-7 meets a level line, and a ball, where its rise says."""
    arc = chain([10, -10 + 0j], [bulge])
    rise = 10 * bulge
    level = first_contact(chain([-1 + 4j, 1 + 4j]), arc, -1j)
    assert level is not None
    assert level.travel == pytest.approx(4 - (rise if bulge > 0 else rise * 0.99), abs=1e-14)
    ball = first_contact(circle(4j, 1.0), arc, -1j)
    assert ball is not None
    assert ball.travel == pytest.approx(3 - rise, abs=2e-14)
    other = first_contact(moved(chain([10, -10 + 0j], [-1e-6]), Move(shift=4j)), arc, -1j)
    assert other is not None
    assert other.travel == pytest.approx(4 - rise - 1e-5 if bulge > -1e-6 else 4, abs=2e-14)


@steady
@given(own.chains(), own.chains(), own.angles)
def test_contact_agrees_with_chords(moving: Chain, fixed: Chain, angle: float) -> None:
    """The travel is that of fine chords, within what their error makes on the steepest meeting."""
    along = complex(math.cos(angle), math.sin(angle))
    found, rough = first_contact(moving, fixed, along), travel_by_chords(moving, fixed, along, 1e-4)
    if rough is None:
        return
    assert found is not None
    assert found.travel <= rough + 2e-2
    after = moved(moving, Move(shift=found.travel * along))
    assert nearest(fixed, found.point)[0] <= 1e-7
    assert nearest(after, found.point)[0] <= 1e-7


@steady
@given(own.chains(), own.chains(), own.angles, st.floats(1e-2, 5.0))
def test_before_the_contact_the_curves_are_apart(
    moving: Chain, fixed: Chain, angle: float, short: float
) -> None:
    """At any travel short of the first contact the curves do not touch; at it they do."""
    along = complex(math.cos(angle), math.sin(angle))
    assume(is_well_posed(moving, along) and is_well_posed(fixed, along))
    found = first_contact(moving, fixed, along)
    assume(found is not None)
    assert found is not None
    assert distance(moved(moving, Move(shift=(found.travel - short) * along)), fixed) > 0
    assert distance(moved(moving, Move(shift=found.travel * along)), fixed) <= 1e-7


@steady
@given(own.chains(), own.chains(), own.angles, own.moves())
def test_contact_goes_with_the_curves(
    moving: Chain, fixed: Chain, angle: float, move: Move
) -> None:
    """Moving or mirroring the whole scene changes no travel."""
    along = complex(math.cos(angle), math.sin(angle))
    assume(is_well_posed(moving, along) and is_well_posed(fixed, along))
    first = first_contact(moving, fixed, along)
    second = first_contact(moved(moving, move), moved(fixed, move), move.direction(along))
    assume(first is not None and second is not None)
    assert first is not None
    assert second is not None
    assert second.travel == pytest.approx(first.travel, abs=1e-3)


@steady
@given(own.chains(), own.chains())
def test_contact_is_mutual(moving: Chain, fixed: Chain) -> None:
    """What A travels to B along d, B travels to A against d; backwards curves are no other."""
    forth, back = first_contact(moving, fixed, -1j), first_contact(fixed, moving, 1j)
    assert (forth is None) == (back is None)
    if forth is not None and back is not None:
        assert forth.travel == pytest.approx(back.travel, abs=1e-6)
        same = first_contact(reverse(moving), fixed, -1j)
        assert same is not None
        assert same.travel == pytest.approx(forth.travel, abs=1e-6)


@steady
@given(own.chains(), own.contours(), st.lists(own.moves(flip=False), min_size=1, max_size=9))
def test_many_poses_get_the_answers_of_one(moving: Chain, fixed: Chain, poses: list[Move]) -> None:
    """A broadcast over poses gives for each pose what that pose gives alone."""
    turns = np.array([pose.turn for pose in poses])
    shifts = np.array([pose.shift for pose in poses])
    travels = first_contacts(moving, fixed, 2j, turns, shifts)
    for travel, pose in zip(travels, poses, strict=True):
        alone = first_contact(moved(moving, pose), fixed, 1j)
        assert np.isnan(travel) == (alone is None)
        assert alone is None or travel == pytest.approx(alone.travel, abs=1e-9)


def test_poses_broadcast_and_keep_their_shape() -> None:
    """Turns and shifts broadcast against each other; blocks of poses change no answer."""
    turns = np.exp(1j * np.linspace(-0.4, 0.4, 301))[:, None]
    shifts = np.array([20j, 1 + 20j, 3 + 20j])
    travels = first_contacts(VEE, circle(0, 12.7), -1j, turns, shifts)
    assert travels.shape == (301, 3)
    expected = 20 - np.sqrt(12.7**2 - shifts.real**2)
    assert np.allclose(travels, expected, rtol=0, atol=1e-13)


def test_mirrored_scene_mirrors_the_place() -> None:
    """The place of contact is mirrored with the curves."""
    moving, fixed = moved(VEE, Move(shift=5 + 20j)), circle(0, 12.7)
    there = first_contact(moved(moving, MIRROR_X), moved(fixed, MIRROR_X), 1j)
    here = first_contact(moving, fixed, -1j)
    assert here is not None
    assert there is not None
    assert there.point == pytest.approx(here.point.conjugate(), abs=1e-13)
