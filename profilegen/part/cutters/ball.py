"""`[[cutter]] kind = "ball"`: a half circle, its sides straight on from there."""

from __future__ import annotations

from collections.abc import Iterator, Set
from typing import Literal

from pydantic import Field

from profilegen.part.base import CutterTable, KeyRule, no_tip
from profilegen.part.fields import Length


class BallCutter(CutterTable):
    """A half circle, its sides straight on from there."""

    kind: Literal["ball"] = Field(description="The shape of the edge: a half circle.")
    radius: Length = Field(description="The radius of the half circle that the cutter forms.")

    @classmethod
    def key_rules(cls, given: Set[str]) -> tuple[KeyRule, ...]:
        """Return the rule that a ball is one radius all over."""
        return no_tip(given, "a ball is one radius all over", "give radius only")

    def value_rules(self) -> Iterator[KeyRule]:
        """Yield an edge that ends before the half circle does."""
        if self.edge_length is not None and self.edge_length < self.radius:
            yield KeyRule(
                "edge_length",
                "the edge ends within the half circle",
                "at least radius",
                'a shallower round edge is kind = "drawn"',
            )
