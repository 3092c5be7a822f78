"""`[[cutter]] kind = "slot"`: two straight sides and a level bottom."""

from __future__ import annotations

from collections.abc import Iterator, Set
from typing import Literal

from pydantic import Field

from profilegen.part.base import CutterTable, KeyRule, no_tip
from profilegen.part.fields import Length, LengthOrZero


class SlotCutter(CutterTable):
    """Two straight sides and a level bottom, its corners sharp or rounded."""

    kind: Literal["slot"] = Field(
        description="The shape of the edge: straight sides and a level bottom."
    )
    width: Length = Field(description="The width of the slot it cuts, across both sides.")
    corner_radius: LengthOrZero = Field(
        default=0.0, description="The radius of both corners, measured; 0 when they are sharp."
    )

    @classmethod
    def key_rules(cls, given: Set[str]) -> tuple[KeyRule, ...]:
        """Return the rule that a slot cutter has corners and no tip."""
        return no_tip(given, "a slot cutter has two corners and no tip", "give corner_radius")

    def value_rules(self) -> Iterator[KeyRule]:
        """Yield corners that do not fit the width or the edge."""
        if 2 * self.corner_radius > self.width:
            yield KeyRule(
                "corner_radius",
                "the corners are rounder than the cutter is wide",
                "up to half the width",
                'a cutter with one round end is kind = "ball"',
            )
        if self.edge_length is not None and self.edge_length < self.corner_radius:
            yield KeyRule(
                "edge_length",
                "the edge ends within its corner, so the sides have no edge",
                "at least corner_radius",
            )
