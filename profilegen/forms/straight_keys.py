"""The keys that tooth forms with straight flanks share, and which of them go together."""

from __future__ import annotations

import math
from collections.abc import Set
from types import MappingProxyType
from typing import Final, TypeVar

from pydantic import Field

from profilegen.forms.form import AskSome
from profilegen.forms.straight import NoTooth, Tooth
from profilegen.geometry.tolerance import SHORTEST_CHORD
from profilegen.part.base import KeyRule, ToothedTable
from profilegen.part.fields import Included, Land, Length

THINNEST_LAND = 0.2
"""mm. A thinner crest burrs, and chips when hardened; 2 % of the diameter under 10 mm."""

ALIKE: Final = 1 - 1e-9
"""Of two lands that differ by arithmetic only."""

STRAIGHT: Final = 0.1
"""of a flank: less is not offered as straight."""

DEEPEST: Final = 0.1
"""of the blank's radius: a root nearer to the axis is not offered."""

WEIGHTS: Final = MappingProxyType(
    {
        "land": 1.0,
        "root_diameter": 1.0,
        "tooth_depth": 1.0,
        "root_radius": 1.0,
        "root_flat": 1.0,
        "space_angle": 2.0,
        "hook_angle": 2.0,
        "outside_diameter": 30.0,
    }
)
"""Key -> what a change counts when a part is mended: angles more, as the cutter has them; the blank
most of the sizes."""

SIZES: Final = ("space_angle", "land", "root_diameter", "tooth_depth")
"""Two of these fix a space; the last two say the same thing."""

SPACE: Final = AskSome(
    "wheel",
    SIZES,
    "Which two of these does the print give? The program works out the others.",
)


class StraightKeys(ToothedTable):
    """Just two of land, space angle, and root diameter or tooth depth."""

    outside_diameter: Length = Field(description="The diameter over the tips of the teeth.")
    space_angle: Included | None = Field(
        default=None, description="The angle between the two flanks of one space."
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
    root_radius: Length | None = Field(
        default=None,
        description=(
            "The greatest radius allowed in the root, between the flanks; 0 is a root drawn "
            "sharp, with no limit, as when it is left out."
        ),
    )

    @classmethod
    def key_rules(cls, given: Set[str]) -> tuple[KeyRule, ...]:
        """Return the broken rules: just two sizes of the space."""
        return space_rules(given)


AnyKeys = TypeVar("AnyKeys", bound=StraightKeys)


def space_rules(given: Set[str]) -> tuple[KeyRule, ...]:
    """Return the broken rules of the sizes of a space: just two of them, one of them a depth."""
    sizes = [key for key in SIZES if key in given]
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
    rest = [key for key in SIZES if key not in sizes and not (depth and key in SIZES[2:])]
    return _joined(rest, "or") if sizes else "two of them"


def _joined(words: list[str], last: str) -> str:
    return f" {last} ".join([", ".join(words[:-1]), words[-1]] if len(words) > 1 else words)


def given(keys: StraightKeys) -> set[str]:
    """The keys that the print gives, or that have a value all the same."""
    return {key for key in type(keys).model_fields if getattr(keys, key) is not None}


def root_given(keys: StraightKeys) -> float | None:
    """Radius of the deepest material as the print gives it, mm, or None.

    Raises:
        NoTooth: the depth reaches the axis.
    """
    radius = keys.outside_diameter / 2
    if keys.root_diameter is not None:
        return keys.root_diameter / 2
    if keys.tooth_depth is None:
        return None
    if keys.tooth_depth >= radius:
        raise NoTooth("root-below-axis", keys.tooth_depth, radius, case="depth")
    return radius - keys.tooth_depth


def check_land(keys: StraightKeys, land: float) -> None:
    """Refuse a land that is none, or that leaves no space.

    Args:
        keys: for the diameter and the count.
        land: chord across the crest, mm.

    Raises:
        NoTooth: it is one.
    """
    if land < SHORTEST_CHORD:
        raise NoTooth("land-gone", land, least_land(keys.outside_diameter), case="edge")
    pitch_chord = keys.outside_diameter * math.sin(math.pi / keys.teeth)
    if land >= pitch_chord:
        raise NoTooth("space-gone", land, pitch_chord)


def least_land(diameter: float) -> float:
    """The thinnest land that survives on a wheel of this diameter, mm."""
    return THINNEST_LAND if diameter >= 10.0 else 0.02 * diameter


def is_workable(tooth: Tooth, keys: StraightKeys) -> bool:
    """Whether a tooth is one to work with: a land that survives, straight flanks, a body."""
    shortest = min(tooth.face_length, tooth.back_length)
    least = min(least_land(keys.outside_diameter), keys.land or math.inf)
    return (
        tooth.land >= least * ALIKE
        and tooth.deepest() >= DEEPEST * tooth.blank.radius
        and tooth.bluntness <= (1 - STRAIGHT) * shortest
    )
