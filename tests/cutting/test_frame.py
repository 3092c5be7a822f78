"""The set-up frame against the machine itself, moved as polygons and as cutter teeth.

The construction knows the machine only: a table axis X, a column at +Y, a spindle that turns. It
cuts
a disc with a half vee whose flat looks down, turns the disc, and looks along the axis from the free
end. No published source; the table of hands is derived.
"""

from __future__ import annotations

import math
from typing import Literal

import numpy as np
import pytest
from shapely import affinity
from shapely.geometry import Point, Polygon
from shapely.geometry.base import BaseGeometry

from profilegen.geometry.measure import tessellate
from profilegen.geometry.moves import moved
from tests.parts import job, ratchet, single

Head = Literal["left", "right"]
Side = Literal["behind", "in front"]

# Head, cutter side, hand of the wheel seen from the free end, end where a conventional cut enters,
# force:
# flat down, spindle clockwise from above. Derived, no published source.
HANDS: list[tuple[Head, Side, str, str, str]] = [
    ("left", "behind", "clockwise", "free end", "into the chuck"),
    ("left", "in front", "counter-clockwise", "chuck side", "pulls out"),
    ("right", "behind", "counter-clockwise", "chuck side", "pulls out"),
    ("right", "in front", "clockwise", "free end", "into the chuck"),
]
TEETH, RADIUS, DEPTH = 12, 12.7, 2.0


def machine_wheel(side: Side) -> BaseGeometry:
    """A disc cut by a half vee, flat down, at every stop, in (y, z) of the machine."""
    towards = 1.0 if side == "behind" else -1.0
    apex = towards * (RADIUS - DEPTH)
    reach = 10.0
    cutter = Polygon(
        [
            (apex, 0),
            (apex + towards * reach, 0),
            (apex + towards * reach, reach * math.tan(math.pi / 3)),
        ]
    )
    wheel: BaseGeometry = Point(0, 0).buffer(RADIUS, quad_segs=2000)
    for stop in range(TEETH):
        wheel = wheel.difference(affinity.rotate(cutter, 360 * stop / TEETH, origin=(0, 0)))
    return wheel


def seen_from_free_end(wheel: BaseGeometry, head: Head) -> BaseGeometry:
    """Looking towards -X (head left) the column, +Y, is at the right; towards +X at the left."""
    return wheel if head == "left" else affinity.scale(wheel, -1, 1, origin=(0, 0))


def tooth_velocity(side: Side) -> float:
    """X component of the speed of the cutting tooth: clockwise from above, at the work's side of
    the spindle."""
    spin = np.array([0.0, 0.0, -1.0])
    to_work = np.array([0.0, -1.0 if side == "behind" else 1.0, 0.0])
    return float(np.cross(spin, to_work)[0])


@pytest.mark.parametrize(("head", "side", "hand", "enters", "force"), HANDS)
def test_hand_feed_and_force(head: Head, side: Side, hand: str, enters: str, force: str) -> None:
    """Hand, feed end and force are what the moved machine does."""
    made = job(
        ratchet(
            teeth=TEETH,
            outside_diameter=2 * RADIUS,
            land=None,
            tooth_depth=DEPTH,
            root_radius=None,
            rotation=hand,
        ),
        single(60, tip_radius=0),
        setup={"head": head, "cutter_side": side, "flat": "down"},
    )
    frame = made.plan.frame
    assert (frame.hand_at_free_end, frame.enters_at, frame.pushes) == (hand, enters, force)
    (cut,) = made.plan.cuts
    view_from_wheel = frame.view_from_setup.after(cut.wheel_from_setup(made.wheel).inverse())
    points = tessellate(moved(made.wheel.outline, view_from_wheel), 1e-6)
    drawn = Polygon(list(zip(points.real, points.imag, strict=True)))
    built = seen_from_free_end(machine_wheel(side), head)
    assert drawn.symmetric_difference(built).area < 2e-3
    to_head = -1.0 if head == "left" else 1.0
    into_chuck = tooth_velocity(side) == to_head
    assert force == ("into the chuck" if into_chuck else "pulls out")
    # A conventional cut feeds the work against the teeth: the cutter travels with its teeth's own
    # motion over the work, so it enters at the end that the teeth come from.
    comes_from_free_end = tooth_velocity(side) == to_head
    assert enters == ("free end" if comes_from_free_end else "chuck side")


@pytest.mark.parametrize(("head", "side", "hand", "enters", "force"), HANDS)
def test_contradiction_is_refused(
    head: Head, side: Side, hand: str, enters: str, force: str
) -> None:
    """A flat that makes the other hand is refused, and turned over the same wheel passes."""
    other = "clockwise" if hand == "counter-clockwise" else "counter-clockwise"
    setup = {"head": head, "cutter_side": side, "flat": "down"}
    wheel = ratchet(rotation=other)
    assert [f.code for f in job(wheel, single(60), setup=setup).findings] == ["hand-contradiction"]
    turned = job(wheel, single(60), setup={**setup, "front": "head"})
    assert not turned.is_refused
    assert turned.plan.frame.hand_at_free_end == hand


def test_spindle_reversed_swaps_feed_and_force_only() -> None:
    """The other spindle turn makes the same wheel from the other end."""
    made = job(ratchet(), single(60), setup={"spindle": "counter-clockwise", "flat": "down"})
    frame = made.plan.frame
    assert (frame.hand_at_free_end, frame.enters_at) == ("clockwise", "chuck side")
    assert frame.pushes == "pulls out"


def test_positive_offset_goes_towards_the_face_tooth() -> None:
    """With the flat down the tooth that owns the face lies below, so a positive offset lowers the
    cutter."""
    for head, side, hand, _, _ in HANDS:
        made = job(
            ratchet(rotation=hand),
            single(60),
            setup={"head": head, "cutter_side": side, "flat": "down"},
        )
        assert made.plan.frame.face_tooth_lies == "down"
        assert made.plan.flat == "down"
