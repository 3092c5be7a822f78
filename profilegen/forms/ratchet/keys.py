"""`[wheel] kind = "ratchet"`: the keys of a ratchet wheel.

Owns: which keys a ratchet has and which of them go together.
Refuses: whether the wheel they describe can be made.
"""

from __future__ import annotations

from collections.abc import Set
from typing import ClassVar, Literal

from pydantic import Field, StrictBool

from profilegen.forms.straight_keys import StraightKeys, space_rules
from profilegen.part.base import KeyRule
from profilegen.part.fields import Hook, Included, Length, Rotation


class Ratchet(StraightKeys):
    """A ratchet wheel: just two of land, space angle, and root diameter or tooth depth."""

    left_out_at_zero: ClassVar = frozenset({"root_radius", "root_flat"})

    kind: Literal["ratchet"] = Field(description="The tooth form: a ratchet wheel.")
    space_angle: Included | None = Field(
        default=None, description="The angle between face and back of one space."
    )
    hook_angle: Hook = Field(
        default=0.0,
        description=(
            "The angle of the face against the radius through its tip, positive when the tip "
            "overhangs the root."
        ),
    )
    root_flat: Length | None = Field(
        default=None,
        description=(
            "The width of a flat root, square to the bisector of face and back; 0 is a root drawn "
            "sharp, as when it is left out."
        ),
    )
    root_exact: StrictBool = Field(
        default=False,
        description="Whether the root must have just this root_radius, not a smaller one.",
    )
    rotation: Rotation = Field(
        default="clockwise",
        description="The way a pawl pushing on the faces drives the wheel, seen from the front.",
    )

    @classmethod
    def key_rules(cls, given: Set[str]) -> tuple[KeyRule, ...]:
        """Return the broken rules: just two sizes of the space, one form of root."""
        return (*space_rules(given), *_root_rules(given))


def _root_rules(given: Set[str]) -> tuple[KeyRule, ...]:
    rules = []
    if {"root_radius", "root_flat"} <= given:
        rules.append(
            KeyRule(
                "root_flat",
                "a root is rounded or flat, not both",
                "root_radius or root_flat",
                "take out one of them",
            )
        )
    if "root_exact" in given and "root_radius" not in given:
        rules.append(
            KeyRule(
                "root_exact",
                "root_exact belongs to a root_radius, and there is none",
                "root_exact beside root_radius",
                "add root_radius or take out root_exact",
            )
        )
    return tuple(rules)
