"""The set-up frame: how the wheel and the cutter stand on the machine, as the machinist sees them.

Owns the relation between head, cutter side, flat, spindle, hand, feed and force, and the one rigid
move from the set-up pose to the view. The view looks along the wheel axis from the free end towards
the head, x right, y up (for a cutter at the side up is the machine's Z). Derived from the motions
of the machine, no published source; a test moves the cutter's teeth as polygons and compares.

Machine axes: X along the table and the wheel axis, to the right; Y away from the operator, towards
the column; Z up. A cutter `behind` or `in front` runs on an upright spindle, its turn seen from
above; a cutter `above` runs on an arbor along Y, its turn seen by the operator.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal, Protocol

from profilegen.forms.wheel import Rotation
from profilegen.geometry.moves import Move

if TYPE_CHECKING:
    from profilegen.part.part import Part

Side = Literal["above", "behind", "in front"]
Direction = Literal["down", "up", "left", "right"]
OPPOSITE: dict[Direction, Direction] = {
    "down": "up",
    "up": "down",
    "left": "right",
    "right": "left",
}
"""Directions in the view."""
OTHER_HAND: dict[Rotation, Rotation] = {
    "clockwise": "counter-clockwise",
    "counter-clockwise": "clockwise",
}


class Setup(Protocol):
    """What the frame needs of the part file's `[setup]`."""

    @property
    def front(self) -> Literal["free end", "head"]:
        """Where the face that the print shows points."""
        ...

    @property
    def head(self) -> Literal["left", "right"]:
        """Where the head stands, seen by the operator."""
        ...

    @property
    def cutter_side(self) -> Side:
        """Where the cutter stands to the work."""
        ...

    @property
    def spindle(self) -> Rotation:
        """The way the cutter turns."""
        ...


@dataclass(frozen=True, slots=True)
class Frame:
    """One way to stand on the machine.

    Attributes:
        head: side of the table on which the head stands, seen by the operator.
        cutter_side: where the cutter stands to the work.
        front: where the face that the print shows is.
        spindle: turn of the cutter.
        hand_at_free_end: hand of the wheel seen from the free end; of symmetrical teeth, the hand
            whose base orientation is seen there.
        enters_at: end of the wheel at which a conventional cut enters.
        pushes: what that cut does to the work.
    """

    head: Literal["left", "right"]
    cutter_side: Side
    front: Literal["free end", "head"]
    spindle: Rotation
    hand_at_free_end: Rotation
    enters_at: Literal["free end", "chuck side"]
    pushes: Literal["into the chuck", "pulls out"]

    @property
    def column_at(self) -> Literal["left", "right"]:
        """Side of the view on which the column stands; the operator stands on the other."""
        return "right" if self.head == "left" else "left"

    @property
    def view_from_setup(self) -> Move:
        """From the set-up pose (seen from the wheel's clockwise side) to the view."""
        quarter = {"above": 1.0 + 0j, "right": -1j, "left": 1j}
        turn = quarter["above" if self.cutter_side == "above" else self.cutter_at]
        if self.hand_at_free_end == "clockwise":
            return Move(turn)
        return Move(-turn, flip=True)

    @property
    def cutter_at(self) -> Literal["left", "right"]:
        """Side of the view on which a cutter at the side stands."""
        if self.cutter_side == "behind":
            return self.column_at
        return "left" if self.column_at == "right" else "right"

    @property
    def face_tooth_lies(self) -> Direction:
        """Direction in the view from the wheel axis of a positive offset."""
        towards = self.view_from_setup.direction(1 + 0j)
        if abs(towards.imag) > 0.5:
            return "up" if towards.imag > 0 else "down"
        return "right" if towards.real > 0 else "left"

    def looks(self, way: Direction) -> str:
        """A direction of the view as the operator calls it."""
        if way in ("up", "down"):
            return way
        return "towards the column" if way == self.column_at else "towards the operator"

    @property
    def stops_turn(self) -> Rotation:
        """The way the wheel is turned from stop to stop, seen from the free end.

        Stops count counter-clockwise seen from the front.
        """
        return "counter-clockwise" if self.front == "free end" else "clockwise"

    @property
    def offset_words(self) -> str:
        """The way the cutter moves for a positive offset, in shop words."""
        lies = self.face_tooth_lies
        return f"{self.looks(lies)} ({'Z' if lies in ('down', 'up') else 'Y'})"

    @property
    def infeed_words(self) -> str:
        """The way the cutter moves to cut deeper, in shop words."""
        return {
            "above": "down (Z)",
            "behind": "towards the operator (Y)",
            "in front": "towards the column (Y)",
        }[self.cutter_side]


def frame_for(setup: Setup, hand: Rotation | None) -> Frame:
    """The frame in which a wheel of this hand (seen from its front), or of none, stands."""
    rotation = hand or "clockwise"
    seen = rotation if setup.front == "free end" else OTHER_HAND[rotation]
    towards_left = (setup.spindle == "clockwise") == (setup.cutter_side != "in front")
    into_chuck = towards_left == (setup.head == "left")
    return Frame(
        head=setup.head,
        cutter_side=setup.cutter_side,
        front=setup.front,
        spindle=setup.spindle,
        hand_at_free_end=seen,
        enters_at="free end" if into_chuck else "chuck side",
        pushes="into the chuck" if into_chuck else "pulls out",
    )


def approach(part: Part, frame: Frame) -> Rotation:
    """The way the work is turned to every stop, in every lap and between laps, seen from its free
    end: the one rule for lists, sheets and papers.

    It is the way the dial of `[dividing]` increases; without hardware, the way of the set-up frame.
    """
    return frame.stops_turn if part.dividing is None else part.dividing.dial_increases
