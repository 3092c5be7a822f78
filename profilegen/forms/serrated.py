"""The serrated wheel: symmetrical teeth with straight flanks, all of the form.

Owns its keys, its solver, its sizes and what a careful machinist objects to. Tooth 1 stands with
the middle of its crest at angle 0. The flanks of a space lean alike from the radius through its
middle, so such a tooth is one whose face leans from the radius at its tip by half of what the space
spans at the outside, less half the space angle. Derived here, no published source; tests build the
same teeth of lines mirrored in that radius.
"""

from __future__ import annotations

import cmath
import math
from collections.abc import Iterator
from typing import TYPE_CHECKING, ClassVar, Final, Literal, cast

from pydantic import Field

from profilegen.findings.finding import Finding
from profilegen.forms import straight
from profilegen.forms.form import FIRST, LAST, Ask
from profilegen.forms.straight import Blank, NoTooth, Tooth
from profilegen.forms.straight_care import (
    land_finding,
    neck_finding,
    sharp_finding,
    thickness_finding,
)
from profilegen.forms.straight_form import SizeOf, StraightForm
from profilegen.forms.straight_keys import SPACE, StraightKeys, check_land, root_given
from profilegen.forms.wheel import Flank, Size, Toothing, Wheel
from profilegen.geometry.moves import moved, rotation
from profilegen.part.how_measured import Measured

if TYPE_CHECKING:
    from profilegen.part.part import Part

MEASURED: Final = ("root_diameter", "across_roots", "land", "space_angle", "span", "over_pins")


class Serrated(StraightKeys):
    """A serrated wheel: just two of land, space angle, and root diameter or tooth depth."""

    left_out_at_zero: ClassVar = frozenset({"root_radius"})

    kind: Literal["serrated"] = Field(description="The tooth form: symmetrical straight flanks.")


class SerratedForm(StraightForm[Serrated]):
    """Symmetrical straight-flanked teeth, as on a serrated shaft or a knurled-looking coupling."""

    kind = "serrated"
    keys = Serrated
    line = "symmetrical teeth with straight flanks"
    measured = MEASURED
    asked = (
        *FIRST,
        Ask("wheel", "outside_diameter"),
        Ask("wheel", "thickness"),
        SPACE,
        Ask("wheel", "root_radius"),
        *LAST,
    )

    def tooth(self, keys: Serrated) -> Tooth:
        """The tooth that the two givens fix."""
        return solve_tooth(keys)

    def toothing(self, keys: Serrated, tooth: Tooth) -> Toothing:
        """The teeth, turned so that the middle of tooth 1's crest stands at angle 0, mm.

        Args:
            keys: of the wheel.
            tooth: with its face tip at angle 0, as `solve_tooth` gives it.
        """
        turn = cmath.exp(1j * math.asin(tooth.land / keys.outside_diameter))
        back_tip = tooth.blank.back_tip(tooth.land)
        return Toothing(
            pitch=moved(tooth.pitch_chain(), rotation(cmath.phase(turn))),
            face=Flank(tooth.blank.radius * turn, tooth.blank.face * turn, tooth.face_length),
            back=Flank(back_tip * turn, tooth.back * turn, tooth.back_length),
            vertex=tooth.vertex * turn,
            root_radius=tooth.blank.root_radius,
            bluntness=math.inf if keys.root_radius is None else tooth.bluntness,
            teeth=keys.teeth,
            at_zero="crest",
        )

    def own_sizes(self, keys: Serrated, tooth: Tooth, size: SizeOf) -> tuple[Size, ...]:
        """From the space angle to the length of a flank."""
        angle = Measured("Space angle", "Projector or template", leg=tooth.face_length)
        return (
            size("space_angle", tooth.angle, "Space angle, flank to flank", "angle", angle),
            size("thickness", keys.thickness, "Thickness"),
            size("root_radius", tooth.blank.root_radius, "Root radius, greatest allowed"),
            size("flank_length", tooth.face_length - tooth.bluntness, "Straight length of a flank"),
        )

    def cautions(self, part: Part, wheel: Wheel) -> Iterator[Finding]:
        """Land, neck, root and thickness."""
        keys = cast(Serrated, part.wheel)
        tooth = solve_tooth(keys)
        found = (
            thickness_finding(keys, tooth),
            land_finding(keys, tooth),
            neck_finding(keys, tooth, solve_tooth),
            sharp_finding(part, tooth),
        )
        yield from (one for one in found if one is not None)


def solve_tooth(keys: Serrated) -> Tooth:
    """The tooth that the two givens fix, its face tip at angle 0, mm and rad.

    Its hook is such that the flanks stand alike on both sides of the space's middle.

    Args:
        keys: with just two of land, space angle and root.

    Raises:
        NoTooth: there is none.
    """
    radius, teeth, nose = keys.outside_diameter / 2, keys.teeth, keys.root_radius or 0.0
    root, land, angle = root_given(keys), keys.land, keys.space_angle
    if land is not None:
        check_land(keys, land)
    if land is None:
        half = _half_space(radius, root or 0.0, angle or 0.0, nose)
        land = 2 * radius * math.sin(math.pi / teeth - half)
    half = math.pi / teeth - math.asin(land / (2 * radius))
    if angle is None:
        angle = _angle_to(radius, root or 0.0, half, nose)
    blank = Blank(radius, teeth, half - angle / 2, nose)
    return straight.from_land_and_angle(blank, land, angle)


def _half_space(radius: float, root: float, angle: float, nose: float) -> float:
    """Half of what a space of this angle and root spans at the outside, rad.

    Raises:
        NoTooth: the space opens wider than the pitch can hold, or not at all.
    """
    half = angle / 2
    vertex = root - nose * (1 / math.sin(half) - 1)
    if root >= radius:
        raise NoTooth("root-outside-blank", root, radius)
    if vertex <= 0:
        raise NoTooth("root-below-axis", vertex, 0.0)
    return half - math.asin(vertex * math.sin(half) / radius)


def _angle_to(radius: float, root: float, half: float, nose: float) -> float:
    """Space angle with which flanks from the crests are tangent to a nose at this root, rad.

    Raises:
        NoTooth: the root lies outside the chord between the crests.
    """
    if root >= radius * math.cos(half):
        raise NoTooth("root-outside-blank", root, radius * math.cos(half), case="crests")
    reach = cmath.rect(radius, half) - (root + nose)
    if abs(reach) <= nose:
        raise NoTooth("root-too-big", nose, abs(reach))
    return 2 * (cmath.phase(reach) - math.asin(nose / abs(reach)))


FORM = SerratedForm()
