"""Where a wedge cutter stands when it forms a space: turn of the wheel, offset, height, depths.

Owns the poses of one cut and of two cuts a space, by flank matching, nose and flat included, and
the three depths with their datums. Works on any `Toothing` with straight flanks. Set-up pose: the
space looks up, infeed along -y, offset positive towards the tooth that owns the face (+x); mm and
radians.
Formulas: derived here from plane trigonometry, no published source; the tests cut a disc with the
posed wedges and compare it with the outline.
"""

from __future__ import annotations

import cmath
import math
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Literal, TypeAlias

from profilegen.cutting.profile import Profile
from profilegen.cutting.wedge import Wedge
from profilegen.figures import ANGLE
from profilegen.findings.finding import Refusal
from profilegen.forms.wheel import Flank, Toothing, Wheel
from profilegen.geometry.chain import Chain, Contour, Role, chain, circle, close, reverse
from profilegen.geometry.chain import join as join_chains
from profilegen.geometry.contact import first_contact
from profilegen.geometry.measure import nearest
from profilegen.geometry.moves import Move, moved, rotation
from profilegen.geometry.tolerance import SAME_ANGLE, SAME_POINT, SHORTEST_CHORD

if TYPE_CHECKING:
    from profilegen.part.tables import Setup

Forms = Literal["both", "face", "back", "middle", "space"]

Tool: TypeAlias = Wedge | Profile

SILHOUETTE_TOP = 1.12
"""of the blank radius: the height above the axis at which a drawn silhouette ends, clear of the
blank."""


@dataclass(frozen=True, slots=True)
class Cut:
    """One cut, in the set-up pose.

    Attributes:
        tool: the cutter as it stands.
        forms: the flanks it forms.
        lap: the round of stops it belongs to, from 1.
        turn: from base orientation to the set-up pose, rad, counter-clockwise positive.
        wheel_angle: turn of the wheel from the first cut, rad, counter-clockwise positive seen from
            the front; the hand of the wheel is in it.
        apex: offset + 1j * height of the cutter's apex from the wheel axis, mm.
        blank_radius: mm.
        root_radius: from the axis to the deepest material this cut removes, mm.
        infeed_from_offset: from the first touch of the real silhouette on the blank, coming down at
            the set offset, mm.
    """

    tool: Tool
    forms: Forms
    lap: int
    turn: float
    wheel_angle: float = field(metadata=ANGLE)
    apex: complex
    blank_radius: float
    root_radius: float
    infeed_from_offset: float

    @property
    def wedge(self) -> Wedge:
        """The cutter as a wedge; raises TypeError when its silhouette is no wedge."""
        if not isinstance(self.tool, Wedge):
            raise TypeError(f"{self.tool.name} is no wedge cutter")
        return self.tool

    @property
    def offset(self) -> float:
        """Of the apex from the wheel axis, square to the infeed, mm."""
        return self.apex.real

    @property
    def apex_height(self) -> float:
        """Of the apex above the wheel axis, along the infeed, mm."""
        return self.apex.imag

    @property
    def tip(self) -> complex:
        """Lowest real point, mm in the set-up pose; the middle of a flat."""
        return self.apex + self.tool.tip

    @property
    def radial_depth(self) -> float:
        """Blank radius less the radius of the deepest material removed, mm."""
        return self.blank_radius - self.root_radius

    @property
    def root_diameter(self) -> float:
        """Twice `root_radius`, mm."""
        return 2 * self.root_radius

    @property
    def infeed_from_top(self) -> float:
        """From the tip touching the blank at top dead centre, mm; also the reach the tool needs."""
        return self.blank_radius - self.tip.imag

    def silhouette(self, top: float = SILHOUETTE_TOP) -> Contour:
        """The silhouette at full depth in the set-up pose, counter-clockwise, closed, mm.

        Args:
            top: height above the wheel axis at which it is closed, in blank radii, over 1.
        """
        edge = self.tool.silhouette(top * self.blank_radius - self.apex.imag)
        return reverse(moved(closed(edge), Move(shift=self.apex)))

    @property
    def setup_from_base(self) -> Move:
        """From base orientation to the set-up pose of this cut at its first stop."""
        return rotation(self.turn)

    def wheel_from_setup(self, wheel: Wheel, stop: int = 0) -> Move:
        """From the set-up pose at a stop to the wheel seen from its front, mm.

        Args:
            wheel: that is cut; its hand decides whether the move mirrors.
            stop: from 0; stops follow each other counter-clockwise round the wheel in base
                orientation, as the spaces do.
        """
        to_stop = rotation(stop * wheel.angular_pitch)
        return wheel.wheel_from_base.after(to_stop.after(self.setup_from_base.inverse()))


def closed(edge: Chain) -> Contour:
    """A cutter's edge closed by a straight top, mm: clockwise as the edge runs from +x to -x."""
    top = chain([edge.points[-1], edge.points[0]], roles=Role.BODY)
    return close(join_chains(edge, top))


def root_left(wheel: Wheel, cuts: tuple[Cut, ...]) -> float:
    """Radius of the deepest material that the cuts leave, mm; of the root drawn without a cut."""
    return min((cut.root_radius for cut in cuts), default=wheel.root_radius)


def is_held(setup: Setup) -> bool:
    """Whether the set-up fixes the offset (mm) or the stand of the face (rad), so that nothing is
    matched.
    """
    return setup.offset is not None or setup.face_angle is not None


class NoPose(Refusal):
    """A cutter cannot form this space."""


def cuts_for(
    wheel: Wheel, wedge: Wedge, first: Literal["face", "back"] = "face"
) -> tuple[Cut, ...]:
    """The cuts by which a wedge forms every space: one, or two or three laps when it is narrower.

    Args:
        wheel: with straight flanks.
        wedge: the way round in which it stands; narrower than the space by less than 1e-12 rad it
            counts as equal.
        first: the flank that lap 1 forms when there are several.

    Raises:
        NoPose: a flank is curved; the wedge is wider than the space, its edges end within its tip,
            its nose or flat does not fit the root, or an island would stay between three cuts.
    """
    space = wheel.space
    if space.face is None or space.back is None:
        raise NoPose("flank-curved")
    check_edge(wedge)
    spare = space.angle - wedge.angle
    if spare < -SAME_ANGLE:
        raise NoPose("cutter-too-wide", math.degrees(wedge.angle), math.degrees(space.angle))
    if spare <= SAME_ANGLE:
        _check_root(space, wedge, space.vertex + 0j, space.vertex + 0j)
        turn = turn_to_face(space.face, wedge.face_side)
        return (posed_cut(wheel, wedge, "both", 1, turn, space.vertex),)
    return _two_cuts(wheel, wedge, space.face, space.back, first)


def check_edge(wedge: Wedge) -> None:
    """Refuse a wedge whose edges end before they begin: it has a tip, and no flanks.

    Raises:
        NoPose: it is one; told are how far the edge reaches up from the tip and what it would need,
            mm.
    """
    blunt = max(start.imag for start in wedge.edge_starts())
    if wedge.edge_top <= blunt + SHORTEST_CHORD:
        has = wedge.edge_top - wedge.tip.imag
        raise NoPose("edge-short", has, 2 * blunt)


def _two_cuts(
    wheel: Wheel, wedge: Wedge, face: Flank, back: Flank, first: Literal["face", "back"]
) -> tuple[Cut, ...]:
    """A lap of faces and one of backs, each as deep as it can go without entering the other flank.

    When an island would stay between the two, a lap in the middle goes before them.
    """
    angle = wheel.space.angle
    needs_middle = angle > 2 * wedge.angle + SAME_ANGLE
    if needs_middle and (angle > 3 * wedge.angle + SAME_ANGLE or wedge.flat):
        raise NoPose(
            "island-left",
            math.degrees(wedge.angle),
            math.degrees(angle / (2 if wedge.flat else 3)),
        )
    face_apex, back_apex = _two_apexes(wheel.space, wedge, face, back)
    _check_root(wheel.space, wedge, face_apex, back_apex)
    face_turn = turn_to_face(face, wedge.face_side)
    back_turn = math.pi / 2 + wedge.back_side - cmath.phase(back.outward)
    order: list[tuple[Forms, float, complex]] = [
        ("face", face_turn, face_apex),
        ("back", back_turn, back_apex),
    ]
    if first == "back":
        order.reverse()
    if needs_middle:
        order.insert(0, _middle_cut(wedge, face_turn, back_turn, face_apex))
    hand = -1.0 if wheel.wheel_from_base.flip else 1.0
    start = order[0][1]
    return tuple(
        posed_cut(wheel, wedge, forms, lap, turn, apex, hand * (turn - start))
        for lap, (forms, turn, apex) in enumerate(order, start=1)
    )


def _middle_cut(
    wedge: Wedge, face_turn: float, back_turn: float, face_apex: complex
) -> tuple[Forms, float, complex]:
    """Half way between the two others, its nose where theirs is."""
    nose = face_apex + wedge.nose_centre * cmath.exp(-1j * face_turn)
    turn = (face_turn + back_turn) / 2
    return "middle", turn, nose - wedge.nose_centre * cmath.exp(-1j * turn)


def turn_to_face(face: Flank, from_infeed: float) -> float:
    """Turn of the wheel that stands its face at an angle from the infeed, rad, counter-clockwise
    positive, from base orientation to the set-up pose.

    Args:
        face: in base orientation.
        from_infeed: from straight up (+y) to the face, towards +x, rad, such as the angle of a
            wedge's face-side edge.
    """
    return math.pi / 2 - from_infeed - cmath.phase(face.outward)


def _two_apexes(space: Toothing, wedge: Wedge, face: Flank, back: Flank) -> tuple[complex, complex]:
    """Apexes of the face cut and the back cut, in base orientation.

    A nose stands in both cuts on the centre of the circle tangent to both flanks; a flat runs from
    the flank being formed to the other flank.
    """
    angle = space.angle
    on_face, on_back = wedge.edge_starts()
    if wedge.flat:
        reach_face = max(0.0, wedge.flat * math.cos(angle - wedge.face_side) / math.sin(angle))
        reach_back = max(0.0, wedge.flat * math.cos(angle - wedge.back_side) / math.sin(angle))
    else:
        reach_face = reach_back = wedge.nose / math.tan(angle / 2)
    return (
        space.vertex + (reach_face - abs(on_face)) * face.outward,
        space.vertex + (reach_back - abs(on_back)) * back.outward,
    )


def _check_root(space: Toothing, wedge: Wedge, face_apex: complex, back_apex: complex) -> None:
    """Refuse a nose or flat that leaves more of a flank unformed than the root allows."""
    for flank, apex, start in zip(
        (space.face, space.back), (face_apex, back_apex), wedge.edge_starts(), strict=True
    ):
        if flank is None:
            continue
        blunt = abs(start) + ((apex - space.vertex) / flank.outward).real
        tip_size = wedge.nose or wedge.flat
        limit = min(space.bluntness, flank.length)
        if blunt > limit + SAME_POINT:
            raise NoPose("root-too-tight", tip_size, tip_size * limit / blunt)
        if space.exact_root and abs(blunt - limit) > SAME_POINT:
            raise NoPose("root-not-exact", tip_size, space.root_radius or space.root_flat)


def posed_cut(
    wheel: Wheel,
    tool: Tool,
    forms: Forms,
    lap: int,
    turn: float,
    base_apex: complex,
    wheel_angle: float = 0.0,
) -> Cut:
    """One cut, measured against the blank.

    Args:
        wheel: on the blank that is cut.
        tool: the cutter as it stands.
        forms: the flanks it forms.
        lap: from 1.
        turn: from base orientation to the set-up pose, rad, counter-clockwise positive.
        base_apex: where the cutter's apex stands, mm in base orientation.
        wheel_angle: turn of the wheel from the first cut, rad, counter-clockwise positive seen from
            the front.

    Raises:
        NoPose: coming down at its offset the cutter passes beside the blank.
    """
    apex = base_apex * cmath.exp(1j * turn)
    edge = tool.silhouette(4 * wheel.radius)
    posed = moved(edge, Move(shift=apex))
    touch = first_contact(posed, circle(0, wheel.radius), -1j)
    if touch is None:
        raise NoPose("cutter-misses")
    root = nearest(posed, 0j)[0]
    return Cut(tool, forms, lap, turn, wheel_angle + 0.0, apex, wheel.radius, root, -touch.travel)
