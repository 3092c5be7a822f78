"""How well cuts form a space: gouge, left-over, and what comes out.

Owns the comparison of the cut metal with the finished wheel, by exact regions in base orientation:
what is cut of the teeth (gouge), what stays in the space (left-over), the greatest distance of each
from the wanted outline along its normal, and the land, root and hook that result.
"""

from __future__ import annotations

import cmath
import math
from dataclasses import dataclass
from functools import reduce
from typing import Literal

import numpy as np

from profilegen.cutting.neighbours import (
    SPAN,
    metal_near,
    outline_near,
    space_region,
    stops_near,
    strictest_pitch,
)
from profilegen.cutting.poses import SILHOUETTE_TOP, Cut
from profilegen.forms.wheel import Wheel
from profilegen.geometry.arcs import end_tangents, points_at, start_tangents
from profilegen.geometry.chain import Contour, Curve, Points, Role, circle
from profilegen.geometry.crossings import crossings
from profilegen.geometry.measure import area, bounds, nearest, nearest_each
from profilegen.geometry.moves import moved, rotation
from profilegen.geometry.regions import intersect, subtract, unite
from profilegen.geometry.tolerance import SAME_POINT

Verdict = Literal["forms", "leaves", "gouges", "cannot-enter"]
Regions = tuple[Contour, ...]

NEAR_ROOT = 0.2
"""of a flank's length from the vertex: what lies nearer than this is said to be at the root."""

TILTS = (0.0, math.pi / 4, math.pi / 8, 3 * math.pi / 8)
"""rad, of the boxes by which regions that lie apart are told before any of their edges is cut."""

_PLACES = {Role.FACE: "face", Role.BACK: "back", Role.ROOT: "root", Role.LAND: "land"}


@dataclass(frozen=True, slots=True)
class Deviation:
    """Metal on the wrong side of the wanted outline.

    Attributes:
        value: greatest distance from the wanted outline, along its normal, mm; 0 for none.
        at: where, mm, base orientation.
        where: `face`, `back`, `root`, `land`, `neighbour`, or empty for none.
        area: for one space, mm2.
        regions: outer contours counter-clockwise, holes clockwise.
    """

    value: float
    at: complex
    where: str
    area: float
    regions: Regions


NOTHING = Deviation(0.0, 0j, "", 0.0, ())


@dataclass(frozen=True, slots=True)
class Fit:
    """What the cuts of one space make of it.

    Attributes:
        gouge: metal cut off a tooth.
        left_over: metal left in the space.
        land: that results, mm, negative when the spaces have met.
        root_radius: of the deepest cut, mm.
        hook: of the face that results, at the blank's rim, rad.
        below_root: how far the cuts go below a root that the print fixes, a flat or an exact one,
            on the radius, mm; 0 where the print gives only the greatest radius.
    """

    gouge: Deviation
    left_over: Deviation
    land: float
    root_radius: float
    hook: float
    below_root: float = 0.0

    @property
    def root_diameter(self) -> float:
        """Twice `root_radius`, mm."""
        return 2 * self.root_radius

    def verdict(self, accept: float) -> Verdict:
        """What the fit comes to, in one word.

        Args:
            accept: deviation still called usable, mm. A cut below a fixed root counts as a gouge.
        """
        if max(self.gouge.value, self.below_root) > accept:
            return "gouges"
        return "leaves" if self.left_over.value > accept else "forms"


def fit_of(wheel: Wheel, cuts: tuple[Cut, ...]) -> Fit:
    """Compare the cuts of one space with the wheel: deviations in mm, along the outline's normal.

    Args:
        wheel: the finished wheel; what each stop cuts of the neighbours' teeth counts too.
        cuts: one a lap; together they make the space.

    Raises:
        ValueError: there is no cut.
    """
    if not cuts:
        raise ValueError("no cut to compare")
    swept = _swept(wheel, cuts)
    beside = [_turned(swept, k * wheel.angular_pitch) for k in stops_near(wheel) if k]
    limit = strictest_pitch(wheel.space)
    gouge = intersect(swept, metal_near(wheel, limit))
    left = _less(space_region(wheel.space, wheel.radius), [swept, *beside] if gouge else [swept])
    later = [_turned(gouge, k * wheel.angular_pitch) for k in range(1, SPAN + 1)] if gouge else []
    rim = _rim(wheel, swept)
    deepest = min(cut.root_radius for cut in cuts)
    is_fixed = wheel.space.root_flat > 0.0 or wheel.space.exact_root
    return Fit(
        gouge=_deviation(wheel, gouge, outline_near(wheel, limit), _area(_less(gouge, later))),
        left_over=_deviation(wheel, left, outline_near(wheel, wheel.space.pitch), _area(left)),
        land=rim.land,
        root_radius=deepest,
        hook=rim.hook,
        below_root=max(0.0, wheel.root_radius - deepest) if is_fixed else 0.0,
    )


@dataclass(frozen=True, slots=True)
class _Rim:
    land: float
    hook: float


def _swept(wheel: Wheel, cuts: tuple[Cut, ...]) -> Regions:
    """What the cuts of one space sweep, in base orientation, closed a little above the blank: the
    taller it is, the more neighbours it seems to reach."""
    top = min(SILHOUETTE_TOP, 1 + wheel.angular_pitch / 10)
    shapes: list[Regions] = [
        (moved(cut.silhouette(top), cut.setup_from_base.inverse()),) for cut in cuts
    ]
    return reduce(unite, shapes)


def _turned(regions: Regions, angle: float) -> Regions:
    return tuple(moved(contour, rotation(angle)) for contour in regions)


def _less(region: Contour | Regions, others: list[Regions]) -> Regions:
    """A region without others, those that cannot reach it passed over."""
    rest: Regions = (region,) if isinstance(region, Contour) else region
    for other in others:
        if rest and other and _may_meet(rest, other):
            rest = subtract(rest, other)
    return rest


def _may_meet(left: Regions, right: Regions) -> bool:
    """Whether the boxes round two sets of regions overlap, upright and at every tilt tried."""
    return all(_boxes_meet(_turned(left, tilt), _turned(right, tilt)) for tilt in TILTS)


def _boxes_meet(left: Regions, right: Regions) -> bool:
    a = np.array([bounds(contour) for contour in left])
    b = np.array([bounds(contour) for contour in right])
    low = np.maximum(a[:, :2].min(axis=0), b[:, :2].min(axis=0))
    high = np.minimum(a[:, 2:].max(axis=0), b[:, 2:].max(axis=0))
    return bool(np.all(low <= high))


def _area(regions: Regions) -> float:
    return float(sum(area(contour) for contour in regions))


def _deviation(wheel: Wheel, regions: Regions, wanted: Curve, size: float) -> Deviation:
    """The place of the regions' edges that lies farthest from the wanted outline."""
    if not regions:
        return NOTHING
    value, at = max(
        (_farthest_from(contour, wanted) for contour in regions), key=lambda one: one[0]
    )
    if value <= SAME_POINT:
        return NOTHING
    return Deviation(value, at, _place(wheel, wanted, at), size, regions)


def _farthest_from(contour: Contour, wanted: Curve) -> tuple[float, complex]:
    """Greatest distance of a contour from a curve: samples, then a closer look about the best.

    The last samples are 2e-8 of a segment apart: the distance often has a sharp top, as far from
    one flank as from the other, and is found no better than they are close.
    """
    fractions = np.linspace(0.0, 1.0, 17)
    starts, ends, bulges = contour.starts, contour.ends, contour.bulges
    spread = np.repeat(np.arange(len(contour)), len(fractions))
    along = np.tile(fractions, len(contour))
    width = fractions[1]
    best = (0.0, 0j)
    for _ in range(12):
        points = points_at(starts[spread], ends[spread], bulges[spread], along)
        gap, _, _ = nearest_each(wanted, points)
        top = int(np.argmax(gap))
        if gap[top] >= best[0]:
            best = (float(gap[top]), complex(points[top]))
        keep = np.argsort(gap)[-4:]
        spread = np.repeat(spread[keep], 9)
        around = np.linspace(-width, width, 9)
        along = np.clip((along[keep][:, None] + around).ravel(), 0.0, 1.0)
        width /= 4
    return best


def _place(wheel: Wheel, wanted: Curve, at: complex) -> str:
    """The name of the wanted outline next to a point; a flank's first part is still the root."""
    _, foot, segment = nearest(wanted, at)
    is_whole = len(wanted.points) == len(wanted)
    count = len(wanted) // (wheel.teeth if is_whole else 2 * SPAN + 1)
    role = Role(int(wanted.roles[segment]))
    if role not in (Role.FACE, Role.BACK, Role.ROOT):
        return _PLACES.get(role, "outline")
    if segment // count != (0 if is_whole else SPAN):
        return "neighbour"
    flank = wheel.space.face if role == Role.FACE else wheel.space.back
    low = flank is not None and abs(foot - wheel.space.vertex) < NEAR_ROOT * flank.length
    return "root" if low else wheel.named(_PLACES[role])


def _rim(wheel: Wheel, swept: Regions) -> _Rim:
    """Land and hook where the swept metal leaves the blank's rim."""
    outer = max(swept, key=area)
    found = crossings(outer, circle(0, wheel.radius))
    if len(found.points) < 2:
        return _Rim(2 * wheel.radius * math.sin(wheel.angular_pitch / 2), 0.0)
    middle = cmath.phase(complex(np.mean(found.points)))
    angles = np.angle(found.points * cmath.exp(-1j * middle))
    face, back = int(np.argmin(angles)), int(np.argmax(angles))
    gap = float(angles[back] - angles[face])
    land = 2 * wheel.radius * math.sin((wheel.angular_pitch - gap) / 2)
    return _Rim(land, _hook(outer, found.points, found.segment_a, face))


def _hook(
    outer: Contour, points: Points, segments: np.ndarray[tuple[int], np.dtype[np.intp]], face: int
) -> float:
    """Angle of the swept edge against the radius at the face's rim, positive undercut, rad."""
    at = int(segments[face])
    here = slice(at, at + 1)
    ends = (outer.starts[here], outer.ends[here], outer.bulges[here])
    tangent = (start_tangents(*ends)[0] + end_tangents(*ends)[0]) / 2
    point = complex(points[face])
    outward = tangent if (tangent * point.conjugate()).real > 0 else -tangent
    return cmath.phase(complex(outward) / point)
