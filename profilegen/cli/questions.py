"""Which keys `start KIND --ask` asks for, in which order: data, one list a kind.

A new kind that can be started is one line here and its two starter files.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final


@dataclass(frozen=True, slots=True)
class Ask:
    """Ask for the value of one key."""

    table: str
    key: str


@dataclass(frozen=True, slots=True)
class AskSome:
    """Ask which of some keys the print gives, then for the value of each.

    Attributes:
        table: where they stand.
        keys: to choose from.
        question: what is asked.
    """

    table: str
    keys: tuple[str, ...]
    question: str


@dataclass(frozen=True, slots=True)
class AskKind:
    """Ask for the kind of a table, then for the keys of that kind.

    Attributes:
        table: which table.
        extra: further keys that are asked for, where the kind has them and its rules allow.
    """

    table: str
    extra: tuple[str, ...] = ()


Step = Ask | AskSome | AskKind

QUESTIONS: Final[dict[str, tuple[Step, ...]]] = {
    "ratchet": (
        Ask("", "title"),
        Ask("", "number"),
        Ask("", "material"),
        Ask("wheel", "teeth"),
        Ask("wheel", "outside_diameter"),
        Ask("wheel", "thickness"),
        AskSome(
            "wheel",
            ("space_angle", "land", "root_diameter", "tooth_depth"),
            "Which two of these does the print give? The program works out the others.",
        ),
        Ask("wheel", "hook_angle"),
        Ask("wheel", "root_radius"),
        Ask("wheel", "rotation"),
        AskKind("bore", ("corner_radius",)),
        AskKind("cutter", ("tip_radius", "corner_radius", "dxf", "layer")),
        Ask("setup", "head"),
        Ask("setup", "cutter_side"),
        Ask("setup", "front"),
        Ask("setup", "spindle"),
    ),
}
"""Kind -> what is asked, in order."""
