"""Chains and contours: lines and circular arcs with shared end points and a role a segment.

Owns the two shapes of the program and what must hold for them. A `Chain` is open, a `Contour`
closed; both are frozen, with read-only arrays. A segment is its two points and a bulge,
`tan(sweep / 4)`, positive when the arc turns counter-clockwise: `(x, y, bulge)` is also what a
DXF polyline stores. Refuses NaN, chords too short to have a direction, and arcs over a half turn.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from enum import IntEnum
from itertools import pairwise
from typing import TYPE_CHECKING, TypeAlias, overload

import numpy as np

from profilegen.geometry.tolerance import FLATTEST_SAGITTA, SHORTEST_CHORD

if TYPE_CHECKING:
    import numpy.typing as npt

Points: TypeAlias = "npt.NDArray[np.complex128]"
Reals: TypeAlias = "npt.NDArray[np.float64]"
Roles: TypeAlias = "npt.NDArray[np.uint8]"
Indices: TypeAlias = "npt.NDArray[np.intp]"
Flags: TypeAlias = "npt.NDArray[np.bool_]"


class Role(IntEnum):
    """What a segment is to the wheel or the cutter; carried by every operation."""

    NONE = 0
    FACE = 1
    BACK = 2
    ROOT = 3
    LAND = 4
    BORE = 5
    HOLE = 6
    EDGE = 7
    BODY = 8
    BLANK = 9


@dataclass(frozen=True, eq=False, slots=True)
class Chain:
    """An open run of segments.

    Attributes:
        points: complex128, shape (n + 1,), mm.
        bulges: float64, shape (n,), `tan(sweep / 4)`, 0 for a line, within -1 and 1.
        roles: uint8, shape (n,), values of `Role`.

    Raises:
        ValueError: fewer than one segment, shapes that do not fit, a number that is not finite,
            a chord under `SHORTEST_CHORD`, or a bulge beyond a half turn.
    """

    points: Points
    bulges: Reals
    roles: Roles

    def __post_init__(self) -> None:
        _store(self, closed=False)

    @property
    def starts(self) -> Points:
        """Start point of each segment, complex128, shape (n,), mm."""
        return self.points[:-1]

    @property
    def ends(self) -> Points:
        """End point of each segment, complex128, shape (n,), mm."""
        return self.points[1:]

    def __len__(self) -> int:
        return len(self.bulges)

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Chain) and _same_bytes(self, other)

    def __hash__(self) -> int:
        return hash(self.points.tobytes())


@dataclass(frozen=True, eq=False, slots=True)
class Contour:
    """A closed run of segments; the last one ends at the first point.

    Attributes:
        points: complex128, shape (n,), mm, the start of each segment.
        bulges: float64, shape (n,), `tan(sweep / 4)`, 0 for a line, within -1 and 1.
        roles: uint8, shape (n,), values of `Role`.

    Raises:
        ValueError: fewer than two segments, or as for `Chain`.
    """

    points: Points
    bulges: Reals
    roles: Roles

    def __post_init__(self) -> None:
        _store(self, closed=True)

    @property
    def starts(self) -> Points:
        """Start point of each segment, complex128, shape (n,), mm."""
        return self.points

    @property
    def ends(self) -> Points:
        """End point of each segment, complex128, shape (n,), mm."""
        return np.concatenate((self.points[1:], self.points[:1]))

    def __len__(self) -> int:
        return len(self.bulges)

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Contour) and _same_bytes(self, other)

    def __hash__(self) -> int:
        return hash(self.points.tobytes())


Curve: TypeAlias = Chain | Contour


def chain(
    points: Iterable[complex], bulges: Sequence[float] | None = None, roles: Sequence[int] | int = 0
) -> Chain:
    """Build a chain from any sequences.

    Args:
        points: n + 1 points, mm; neighbours share theirs.
        bulges: `tan(sweep / 4)` of each of the n segments, counter-clockwise positive; None for
            lines alone.
        roles: one for each segment, or one that serves all.

    Raises:
        ValueError: as `Chain` tells.
    """
    return Chain(*_arrays(points, bulges, roles, closed=False))


def contour(
    points: Iterable[complex], bulges: Sequence[float] | None = None, roles: Sequence[int] | int = 0
) -> Contour:
    """Build a contour from any sequences.

    Args:
        points: n points, mm; the last segment runs back to the first, which is not repeated.
        bulges: `tan(sweep / 4)` of each of the n segments, counter-clockwise positive; None for
            lines alone.
        roles: one for each segment, or one that serves all.

    Raises:
        ValueError: as `Contour` tells.
    """
    return Contour(*_arrays(points, bulges, roles, closed=True))


def circle(centre: complex, radius: float, role: int = 0, start_angle: float = 0.0) -> Contour:
    """A full circle, counter-clockwise: two half turns of bulge exactly 1.

    Args:
        centre: mm.
        radius: mm, positive: a hole's contour is `reverse` of it.
        role: of both halves.
        start_angle: from +x to the first point, rad, counter-clockwise positive.
    """
    step = radius * np.exp(1j * start_angle)
    return contour([centre + step, centre - step], [1.0, 1.0], role)


@overload
def reverse(curve: Chain) -> Chain: ...
@overload
def reverse(curve: Contour) -> Contour: ...
def reverse(curve: Curve) -> Curve:
    """The same points run the other way; the roles stay with their segments."""
    if isinstance(curve, Chain):
        return Chain(curve.points[::-1], -curve.bulges[::-1], curve.roles[::-1])
    points = np.roll(curve.points[::-1], 1)
    return Contour(points, -curve.bulges[::-1], curve.roles[::-1])


def join(*chains: Chain) -> Chain:
    """Chains end to end as one; each must start exactly where the one before it ends.

    Raises:
        ValueError: an end point is not the next start point, bit for bit.
    """
    for left, right in pairwise(chains):
        if left.points[-1] != right.points[0]:
            raise ValueError(f"chains do not meet: {left.points[-1]} and {right.points[0]}")
    points = np.concatenate([chains[0].points[:1], *(c.points[1:] for c in chains)])
    bulges = np.concatenate([c.bulges for c in chains])
    return Chain(points, bulges, np.concatenate([c.roles for c in chains]))


def close(curve: Chain) -> Contour:
    """A chain whose ends coincide, as a contour.

    Raises:
        ValueError: the last point is not the first, bit for bit.
    """
    if curve.points[0] != curve.points[-1]:
        raise ValueError(f"the chain is open: {curve.points[0]} and {curve.points[-1]}")
    return Contour(curve.points[:-1], curve.bulges, curve.roles)


def is_like(left: Curve, right: Curve, tolerance: float) -> bool:
    """Whether two curves agree in kind, roles, start and shape.

    Args:
        left: a chain or a contour.
        right: the same kind; a contour that begins at another of its points is not alike.
        tolerance: greatest distance of points, and greatest difference of sagittas, mm.
    """
    if type(left) is not type(right) or len(left) != len(right):
        return False
    sagitta = np.abs(left.ends - left.starts) / 2
    return bool(
        np.array_equal(left.roles, right.roles)
        and np.all(np.abs(left.points - right.points) <= tolerance)
        and np.all(np.abs(left.bulges - right.bulges) * sagitta <= tolerance)
    )


def _arrays(
    points: Iterable[complex],
    bulges: Sequence[float] | None,
    roles: Sequence[int] | int,
    closed: bool,
) -> tuple[Points, Reals, Roles]:
    at = np.array(list(points), dtype=np.complex128)
    count = max(len(at) - (not closed), 0)
    bulge = np.zeros(count) if bulges is None else np.array(bulges, dtype=np.float64)
    role = np.full(count, roles) if isinstance(roles, int) else np.array(roles)
    return at, bulge, role.astype(np.uint8)


def _store(curve: Chain | Contour, *, closed: bool) -> None:
    """Check and freeze the arrays of a new curve."""
    points = np.array(curve.points, dtype=np.complex128) + 0.0
    bulges = np.array(curve.bulges, dtype=np.float64) + 0.0
    roles = np.array(curve.roles, dtype=np.uint8)
    count = len(points) - (not closed)
    if count < 1 + closed or bulges.shape != (count,) or roles.shape != (count,):
        raise ValueError(f"{len(points)} points, {bulges.shape} bulges, {roles.shape} roles")
    if not (np.isfinite(points).all() and np.isfinite(bulges).all()):
        raise ValueError("a coordinate or bulge is not a finite number")
    chords = np.abs((np.roll(points, -1) if closed else points[1:]) - points[:count])
    if (chords < SHORTEST_CHORD).any():
        at = int(np.argmin(chords))
        raise ValueError(f"segment {at} is {chords[at]:.3g} mm long, under {SHORTEST_CHORD:.0e} mm")
    if (np.abs(bulges) > 1.0).any():
        raise ValueError("an arc turns by more than half a turn")
    bulges[np.abs(bulges) * chords / 2 < FLATTEST_SAGITTA] = 0.0
    for name, array in (("points", points), ("bulges", bulges), ("roles", roles)):
        array.setflags(write=False)
        object.__setattr__(curve, name, array)


def _same_bytes(left: Curve, right: Curve) -> bool:
    return (
        left.points.tobytes() == right.points.tobytes()
        and left.bulges.tobytes() == right.bulges.tobytes()
        and left.roles.tobytes() == right.roles.tobytes()
    )
