"""The solver of the straight-flanked ratchet space.

Owns the trigonometry between land, space angle, hook angle, root and blank, in base orientation:
face tip `T = (R, 0)`, back tip `Q = R exp(i phi)`, face outward at the hook angle `g`, back outward
at `g + A`, root vertex `P = T - s u = Q - t v`. Any two of land, space angle and root fix the
third.
Refuses to know part files, holes and findings: what has no solution is a `NoTooth` that says why.
Formulas: derived here from the sine and cosine rules, no published source; the tests build the same
teeth by line and circle intersection.
"""

from __future__ import annotations

import cmath
import math
from collections.abc import Callable
from dataclasses import dataclass

from profilegen.findings.finding import Refusal
from profilegen.geometry.chain import Chain, Role, chain
from profilegen.geometry.tolerance import SHORTEST_CHORD


class NoTooth(Refusal):
    """No tooth has these sizes."""


@dataclass(frozen=True, slots=True)
class Blank:
    """What the three unknowns stand on: radius mm, tooth count, hook angle rad, and the root's
    shape.

    Attributes:
        radius: of the blank, mm.
        teeth: count.
        hook: between the face and the radius through its tip, rad, positive undercut.
        root_radius: mm, 0 when the root is sharp or flat.
        root_flat: width across the root, square to the bisector, mm, 0 when sharp or round.
    """

    radius: float
    teeth: int
    hook: float
    root_radius: float = 0.0
    root_flat: float = 0.0

    @property
    def face(self) -> complex:
        """Unit direction of the face, outward."""
        return cmath.exp(1j * self.hook)

    def back_tip(self, land: float) -> complex:
        """Outer end of the back, mm, with the face tip of tooth 1 at angle 0.

        Args:
            land: chord across the crest, mm.
        """
        half = land / (2 * self.radius)
        return cmath.rect(self.radius, math.tau / self.teeth - 2 * math.asin(half))

    def land_from(self, back_tip: complex) -> float:
        """Land chord that a back tip leaves, mm; negative when the spaces overlap.

        Args:
            back_tip: on the blank's circle, mm, with the face tip of tooth 1 at angle 0.
        """
        return 2 * self.radius * math.sin((math.tau / self.teeth - cmath.phase(back_tip)) / 2)


@dataclass(frozen=True, slots=True)
class Tooth:
    """A solved space in base orientation.

    Attributes:
        blank: what it stands on.
        vertex: where face and back would meet if sharp, mm.
        angle: space angle, rad.
        land: chord across the crest, mm.
    """

    blank: Blank
    vertex: complex
    angle: float
    land: float

    @property
    def back(self) -> complex:
        """Unit direction of the back, outward."""
        return cmath.exp(1j * (self.blank.hook + self.angle))

    @property
    def face_length(self) -> float:
        """From the vertex to the face tip, mm."""
        return abs(self.blank.radius - self.vertex)

    @property
    def back_length(self) -> float:
        """From the vertex to the back tip, mm."""
        return abs(self.blank.back_tip(self.land) - self.vertex)

    @property
    def bluntness(self) -> float:
        """Length from the vertex along each flank to where the root begins, mm."""
        half = self.angle / 2
        return self.blank.root_radius / math.tan(half) + self.blank.root_flat / 2 / math.sin(half)

    @property
    def nose_centre(self) -> complex:
        """Centre of the root arc, mm; the vertex itself when there is no arc."""
        bisector = self.blank.face * cmath.exp(0.5j * self.angle)
        return self.vertex + bisector * self.blank.root_radius / math.sin(self.angle / 2)

    def root_ends(self) -> tuple[complex, complex]:
        """Where the root meets the face and the back, mm."""
        return (
            self.vertex + self.bluntness * self.blank.face,
            self.vertex + self.bluntness * self.back,
        )

    def deepest(self) -> float:
        """Distance from the axis to the deepest material really left, mm."""
        on_face, on_back = self.root_ends()
        reach = [
            _to_segment(self.blank.radius + 0j, on_face),
            _to_segment(on_back, self.blank.back_tip(self.land)),
        ]
        if self.blank.root_flat:
            reach.append(_to_segment(on_face, on_back))
        centre, q = self.nose_centre, self.blank.root_radius
        middle = -self.blank.face * cmath.exp(0.5j * self.angle)
        if q and abs(cmath.phase(-centre / middle)) <= (math.pi - self.angle) / 2:
            reach.append(abs(centre) - q)
        return min(reach)

    def pitch_chain(self) -> Chain:
        """One pitch: face inward, root, back outward, land."""
        radius = self.blank.radius
        next_tip = cmath.rect(radius, math.tau / self.blank.teeth)
        back_tip = self.blank.back_tip(self.land)
        land_bulge = math.tan(cmath.phase(next_tip / back_tip) / 4)
        if self.bluntness == 0.0:
            points = [radius, self.vertex, back_tip, next_tip]
            return chain(points, [0, 0, land_bulge], [Role.FACE, Role.BACK, Role.LAND])
        points = [radius, *self.root_ends(), back_tip, next_tip]
        root_bulge = -math.tan((math.pi - self.angle) / 4) if self.blank.root_radius else 0.0
        roles = [Role.FACE, Role.ROOT, Role.BACK, Role.LAND]
        return chain(points, [0, root_bulge, 0, land_bulge], roles)


def from_land_and_angle(blank: Blank, land: float, angle: float) -> Tooth:
    """The tooth with this land and space angle, its face tip at angle 0.

    Args:
        blank: with hook and shape of the root.
        land: chord across the crest, mm.
        angle: between face and back, rad.

    Raises:
        NoTooth: there is none.
    """
    return _checked(_crossed(blank, land, angle))


def from_land_and_root(blank: Blank, land: float, root: float) -> Tooth:
    """The tooth with this land and root, its face tip at angle 0.

    Direct for a sharp or round root: the nose centre lies `q` from the face line and `root + q`
    from the axis, and the back is the tangent from its tip to the nose. A flat, or a root whose
    deepest material is not on its arc, is found by bisection on the vertex.

    Args:
        blank: with hook and shape of the root; its radius is q.
        land: chord across the crest, mm.
        root: radius of the deepest material, mm.

    Raises:
        NoTooth: there is none.
    """
    back_tip = blank.back_tip(land)
    if not blank.root_flat:
        reach = back_tip - _nose_on_face(blank, root)
        if abs(reach) > blank.root_radius:
            back = reach * cmath.exp(-1j * math.asin(blank.root_radius / abs(reach)))
            tooth = _through(blank, land, back)
            if tooth is not None and _is_close(tooth.deepest(), root):
                return _checked(tooth)
    return _by_bisection(blank, root, lambda vertex: _through(blank, land, back_tip - vertex))


def from_angle_and_root(blank: Blank, angle: float, root: float) -> Tooth:
    """The tooth with this space angle and root, its face tip at angle 0.

    Args:
        blank: with hook and shape of the root.
        angle: between face and back, rad.
        root: radius of the deepest material, mm.

    Raises:
        NoTooth: there is none.
    """
    if not blank.root_flat:
        bisector = blank.face * cmath.exp(0.5j * angle)
        vertex = _nose_on_face(blank, root) - bisector * blank.root_radius / math.sin(angle / 2)
        tooth = _at_vertex(blank, vertex, angle)
        if tooth is not None and _is_close(tooth.deepest(), root):
            return _checked(tooth)
    return _by_bisection(blank, root, lambda vertex: _at_vertex(blank, vertex, angle))


def _nose_on_face(blank: Blank, root: float) -> complex:
    """Nose centre tangent to the face with its deepest point at `root` from the axis."""
    q, sideways = blank.root_radius, blank.root_radius - blank.radius * math.sin(blank.hook)
    inside = (root + q) ** 2 - sideways**2
    if inside <= 0:
        raise NoTooth("root-below-face", root, abs(sideways) - q)
    along = blank.radius * math.cos(blank.hook) - math.sqrt(inside)
    if along <= 0:
        raise NoTooth("root-outside-blank", root, blank.radius)
    return blank.radius + (1j * q - along) * blank.face


def _through(blank: Blank, land: float, back: complex) -> Tooth | None:
    """The tooth whose back runs along `back` (any length) out of its tip, or None."""
    angle = cmath.phase(back / blank.face)
    if not 0 < angle < math.pi:
        return None
    try:
        return _crossed(blank, land, angle)
    except NoTooth:
        return None


def _crossed(blank: Blank, land: float, angle: float) -> Tooth:
    """The vertex where the two flanks cross, before the root is asked to fit."""
    back = blank.face * cmath.exp(1j * angle)
    tips = blank.radius - blank.back_tip(land)
    along_face = _cross(tips, back) / math.sin(angle)
    along_back = _cross(tips, blank.face) / math.sin(angle)
    if along_face <= 0 or along_back <= 0:
        raise NoTooth("flanks-miss")
    return Tooth(blank, blank.radius - along_face * blank.face, angle, land)


def _at_vertex(blank: Blank, vertex: complex, angle: float) -> Tooth | None:
    """The tooth with its vertex there; the land is what the back leaves at the blank."""
    if abs(vertex) >= blank.radius:
        return None
    back = blank.face * cmath.exp(1j * angle)
    across = _cross(vertex, back)
    along = math.sqrt(blank.radius**2 - across**2) - (vertex * back.conjugate()).real
    return Tooth(blank, vertex, angle, blank.land_from(vertex + along * back))


def _by_bisection(blank: Blank, root: float, at: Callable[[complex], Tooth | None]) -> Tooth:
    """The tooth whose deepest material is at `root`, over all vertices along the face line."""
    if root >= blank.radius:
        raise NoTooth("root-outside-blank", root, blank.radius)
    shallow, deep = 0.0, blank.radius * math.cos(blank.hook)
    for _ in range(200):
        middle = (shallow + deep) / 2
        tooth = at(blank.radius - middle * blank.face)
        if tooth is not None and (tooth.deepest() < root):
            deep = middle
        else:
            shallow = middle
    tooth = at(blank.radius - deep * blank.face)
    if tooth is None or not _is_close(tooth.deepest(), root):
        raise NoTooth("root-unreachable", root)
    return _checked(tooth)


def _checked(tooth: Tooth) -> Tooth:
    """Refuse a space past the axis, a land that is gone and a root that runs off its flanks."""
    foot = (tooth.vertex * tooth.blank.face.conjugate()).real
    if foot <= 0:
        raise NoTooth("root-below-axis", foot, 0.0)
    if tooth.land <= SHORTEST_CHORD:
        raise NoTooth("land-gone", tooth.land, 0)
    shortest = min(tooth.face_length, tooth.back_length)
    if tooth.bluntness >= shortest - SHORTEST_CHORD:
        share = shortest / tooth.bluntness if tooth.bluntness else 0.0
        size = tooth.blank.root_radius or tooth.blank.root_flat
        raise NoTooth("root-too-big", size, size * share)
    return tooth


def _to_segment(start: complex, end: complex) -> float:
    """Least distance from the axis to a straight piece, mm."""
    along = end - start
    if along == 0:
        return abs(start)
    share = -(start * along.conjugate()).real / abs(along) ** 2
    return abs(start + along * min(max(share, 0.0), 1.0))


def _cross(left: complex, right: complex) -> float:
    return (left.conjugate() * right).imag


def _is_close(value: float, wanted: float) -> bool:
    return abs(value - wanted) <= 1e-9 * max(1.0, wanted)
