"""`[wheel] kind = "ratchet"`: the keys of a ratchet wheel.

Owns: which keys a ratchet has and which of them go together.
Refuses: whether the wheel they describe can be made.
"""

from __future__ import annotations

from collections.abc import Set
from typing import ClassVar, Literal

from pydantic import Field, StrictBool

from profilegen.part.base import KeyRule, WheelTable
from profilegen.part.fields import Hook, Included, Land, Length, Rotation

_SIZES = ("space_angle", "land", "root_diameter", "tooth_depth")


class Ratchet(WheelTable):
    """A ratchet wheel: just two of land, space angle, and root diameter or tooth depth."""

    left_out_at_zero: ClassVar = frozenset({"root_radius", "root_flat"})

    kind: Literal["ratchet"] = Field(description="The tooth form: a ratchet wheel.")
    outside_diameter: Length = Field(description="The diameter over the tips of the teeth.")
    space_angle: Included | None = Field(
        default=None, description="The angle between face and back of one space."
    )
    land: Land | None = Field(
        default=None,
        description="The straight width across the crest of a tooth, at the outside diameter.",
    )
    root_diameter: Length | None = Field(
        default=None,
        description="Twice the distance from the axis to the deepest material really left.",
    )
    tooth_depth: Length | None = Field(
        default=None,
        description=(
            "The radial depth from the outside diameter to the deepest material really left."
        ),
    )
    hook_angle: Hook = Field(
        default=0.0,
        description=(
            "The angle of the face against the radius through its tip, positive when the tip "
            "overhangs the root."
        ),
    )
    root_radius: Length | None = Field(
        default=None,
        description=(
            "The greatest radius allowed in the root, between face and back; 0 is a root drawn "
            "sharp, with no limit, as when it is left out."
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
        return (*_space_rules(given), *_root_rules(given))


def _space_rules(given: Set[str]) -> tuple[KeyRule, ...]:
    sizes = [key for key in _SIZES if key in given]
    allowed = "just two of: space_angle, land, and root_diameter or tooth_depth"
    if {"root_diameter", "tooth_depth"} <= given:
        return (
            KeyRule(
                "tooth_depth",
                "root_diameter and tooth_depth say the same thing twice",
                "root_diameter or tooth_depth",
                "take out one of them" + (_add(sizes) if len(sizes) == 2 else ""),
            ),
        )
    if len(sizes) > 2:
        return (
            KeyRule(
                "",
                f"{_joined(sizes, 'and')} are all given: two of them fix the third",
                allowed,
                f"take out one of {_joined(sizes, 'or')}",
            ),
        )
    if len(sizes) < 2:
        message = f"only {sizes[0]} is given" if sizes else "the space between teeth has no size"
        return (KeyRule("", message, allowed, f"add {_missing(sizes)}"),)
    return ()


def _add(sizes: list[str]) -> str:
    return f", then add {_missing(sizes)}"


def _missing(sizes: list[str]) -> str:
    depth = {"root_diameter", "tooth_depth"} & set(sizes)
    rest = [key for key in _SIZES if key not in sizes and not (depth and key in _SIZES[2:])]
    return _joined(rest, "or") if sizes else "two of them"


def _joined(words: list[str], last: str) -> str:
    return f" {last} ".join([", ".join(words[:-1]), words[-1]] if len(words) > 1 else words)


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
