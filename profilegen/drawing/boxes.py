"""Upright rectangles on paper.

Owns `Box`, the only thing that layout looks at. Refuses turned rectangles: a turned label is
boxed by its bounds.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Box:
    """An upright rectangle, mm on the page, y up.

    Attributes:
        x0: left edge.
        y0: bottom edge.
        x1: right edge, not left of `x0`.
        y1: top edge, not below `y0`.

    Raises:
        ValueError: an edge on the wrong side of the other, or not a number.
    """

    x0: float
    y0: float
    x1: float
    y1: float

    def __post_init__(self) -> None:
        if not (self.x0 <= self.x1 and self.y0 <= self.y1):
            raise ValueError(f"a box needs x0 <= x1 and y0 <= y1, got {self}")

    @property
    def width(self) -> float:
        """Size along x, mm."""
        return self.x1 - self.x0

    @property
    def height(self) -> float:
        """Size along y, mm."""
        return self.y1 - self.y0

    @property
    def centre(self) -> complex:
        """The middle, mm."""
        return complex(self.x0 + self.x1, self.y0 + self.y1) / 2

    @property
    def corners(self) -> tuple[complex, complex, complex, complex]:
        """The corners counter-clockwise from the bottom left, mm."""
        low, high = complex(self.x0, self.y0), complex(self.x1, self.y1)
        return low, complex(self.x1, self.y0), high, complex(self.x0, self.y1)

    def grown(self, by: float) -> Box:
        """The box with every edge moved out.

        Args:
            by: mm; negative moves in, at most to the middle.
        """
        dx, dy = max(by, -self.width / 2), max(by, -self.height / 2)
        return Box(self.x0 - dx, self.y0 - dy, self.x1 + dx, self.y1 + dy)

    def shifted(self, by: complex) -> Box:
        """The box moved by a vector, mm."""
        return Box(self.x0 + by.real, self.y0 + by.imag, self.x1 + by.real, self.y1 + by.imag)

    def overlaps(self, other: Box) -> bool:
        """Whether the two share area; touching edges do not count."""
        return (
            self.x0 < other.x1 and other.x0 < self.x1 and self.y0 < other.y1 and other.y0 < self.y1
        )

    def holds(self, other: Box) -> bool:
        """Whether the other lies inside; touching edges count as inside."""
        return (
            self.x0 <= other.x0
            and other.x1 <= self.x1
            and self.y0 <= other.y0
            and other.y1 <= self.y1
        )


def bounds(points: Iterable[complex]) -> Box:
    """The smallest box that holds the points.

    Args:
        points: mm on the page, at least one; only points: an arc between two may reach out of it.

    Raises:
        ValueError: there is no point.
    """
    at = list(points)
    if not at:
        raise ValueError("no point to put a box round")
    xs, ys = [z.real for z in at], [z.imag for z in at]
    return Box(min(xs), min(ys), max(xs), max(ys))
