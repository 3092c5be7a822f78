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
from collections.abc import Iterator, Mapping
from typing import TYPE_CHECKING, ClassVar, Final, Literal, cast

from pydantic import Field

from profilegen.errors import Finding
from profilegen.figures import Quantity
from profilegen.forms import straight
from profilegen.forms.form import FIRST, LAST, Ask, Form, Hold
from profilegen.forms.say import Say
from profilegen.forms.straight import Blank, NoTooth, Tooth
from profilegen.forms.straight_care import (
    land_finding,
    neck_finding,
    sharp_finding,
    thickness_finding,
)
from profilegen.forms.straight_keys import (
    SPACE,
    WEIGHTS,
    StraightKeys,
    check_land,
    given,
    is_sound,
    keys_for_blank,
    land_left,
    least_sizes,
    root_given,
    varied_keys,
)
from profilegen.forms.wheel import Flank, Size, Space, Wheel
from profilegen.geometry.moves import moved, repeated, rotation
from profilegen.part.limits import Measured

if TYPE_CHECKING:
    from profilegen.part.part import Part

MEASURED: Final = ("root_diameter", "across_roots", "land", "space_angle", "span", "over_pins")

ROOT: Final = Measured("Root diameter", "Point micrometer or projector")
LAND: Final = Measured(
    "Land, straight across", "Loupe with scale, or projector", (-0.05, 0.10, "+0.10 -0.05 mm")
)


class Serrated(StraightKeys):
    """A serrated wheel: just two of land, space angle, and root diameter or tooth depth."""

    left_out_at_zero: ClassVar = frozenset({"root_radius"})

    kind: Literal["serrated"] = Field(description="The tooth form: symmetrical straight flanks.")


class SerratedForm(Form[Serrated]):
    """Symmetrical straight-flanked teeth, as on a serrated shaft or a knurled-looking coupling."""

    kind = "serrated"
    keys = Serrated
    line = "symmetrical teeth with straight flanks"
    weights = WEIGHTS
    asked = (
        *FIRST,
        Ask("wheel", "outside_diameter"),
        Ask("wheel", "thickness"),
        SPACE,
        Ask("wheel", "root_radius"),
        *LAST,
    )

    def toothed(self, keys: Serrated) -> Wheel:
        """The wheel of these keys without bore and holes, nothing objected to.

        Raises:
            NoTooth: there is none.
        """
        tooth = solve_tooth(keys)
        space = _space(keys, tooth)
        return Wheel(
            kind="serrated",
            teeth=keys.teeth,
            hand=None,
            thickness=keys.thickness,
            radius=keys.outside_diameter / 2,
            root_radius=tooth.deepest(),
            outline=repeated(space.pitch, keys.teeth),
            bore=None,
            holes=(),
            space=space,
            sizes=_sizes(keys, tooth),
            bore_sizes=(),
            measured=MEASURED,
            driving="land",
            keys=keys,
        )

    def cautions(self, part: Part, wheel: Wheel) -> Iterator[Finding]:
        """Land, neck, root and thickness."""
        keys, say = cast(Serrated, part.wheel), Say(part)
        tooth = solve_tooth(keys)
        found = (
            thickness_finding(keys, say, tooth),
            land_finding(keys, say, tooth),
            neck_finding(keys, say, tooth, solve_tooth),
            sharp_finding(keys, say, tooth),
        )
        yield from (one for one in found if one is not None)

    def varied(self, keys: Serrated, sizes: Mapping[str, float]) -> Serrated:
        """The space angle stays as solved, and the land too unless the root is one of the sizes."""
        return varied_keys(keys, solve_tooth(keys), sizes)

    def for_blank(self, keys: Serrated, diameter: float, hold: Hold | None) -> Serrated:
        """The two givens stay, or the space angle with the land or the root that is held."""
        return keys_for_blank(keys, solve_tooth, diameter, hold)

    def is_sound(self, keys: Serrated) -> bool:
        """Whether there is a tooth, and it is one to work with."""
        try:
            return is_sound(solve_tooth(keys), keys)
        except NoTooth:
            return False

    def least(self, keys: Serrated) -> Iterator[tuple[str, float]]:
        """The least land, in place of 0."""
        return least_sizes(keys)

    def consequence(self, keys: Serrated, say: Say, code: str, key: str) -> str:
        """The land that a shallower root leaves."""
        return land_left(keys, say, code, key)


def solve_tooth(keys: Serrated) -> Tooth:
    """The tooth that the two givens fix, its face tip at angle 0.

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
        raise NoTooth("root-outside-blank", "the root lies outside the blank", root, radius)
    if vertex <= 0:
        raise NoTooth("root-below-axis", "the space reaches past the axis", vertex, 0.0)
    return half - math.asin(vertex * math.sin(half) / radius)


def _angle_to(radius: float, root: float, half: float, nose: float) -> float:
    """Space angle with which flanks from the crests are tangent to a nose at this root, rad.

    Raises:
        NoTooth: the root lies outside the chord between the crests.
    """
    if root >= radius * math.cos(half):
        text = "the root lies outside the line between the crests"
        raise NoTooth("root-outside-blank", text, root, radius * math.cos(half))
    reach = cmath.rect(radius, half) - (root + nose)
    if abs(reach) <= nose:
        raise NoTooth("root-too-big", "the root runs off its flanks", nose, abs(reach))
    return 2 * (cmath.phase(reach) - math.asin(nose / abs(reach)))


def _space(keys: Serrated, tooth: Tooth) -> Space:
    """The space, turned so that the middle of tooth 1's crest stands at angle 0."""
    turn = cmath.exp(1j * math.asin(tooth.land / keys.outside_diameter))
    back_tip = tooth.blank.back_tip(tooth.land)
    return Space(
        pitch=moved(tooth.pitch_chain(), rotation(cmath.phase(turn))),
        face=Flank(tooth.blank.radius * turn, tooth.blank.face * turn, tooth.face_length),
        back=Flank(back_tip * turn, tooth.back * turn, tooth.back_length),
        vertex=tooth.vertex * turn,
        root_radius=tooth.blank.root_radius,
        bluntness=math.inf if keys.root_radius is None else tooth.bluntness,
    )


def _sizes(keys: Serrated, tooth: Tooth) -> tuple[Size, ...]:
    """Everything known of the tooth, in the order in which JSON and tables tell it."""
    named, root = given(keys), tooth.deepest()

    def size(
        key: str,
        value: float | int | str,
        label: str,
        quantity: Quantity = "length",
        measured: Measured | None = None,
    ) -> Size:
        return Size(key, value, quantity, label, "given" if key in named else "solved", measured)

    angle = Measured("Space angle", "Projector or template", leg=tooth.face_length)
    pitch = math.pi * keys.outside_diameter / keys.teeth
    return (
        size("kind", "serrated", "Kind", "text"),
        size("teeth", keys.teeth, "Teeth", "count"),
        size("angular_pitch", math.tau / keys.teeth, "Angular pitch", "angle"),
        size("outside_diameter", keys.outside_diameter, "Outside diameter"),
        size("root_diameter", 2 * root, "Root diameter, real material", "length", ROOT),
        size("vertex_diameter", 2 * abs(tooth.vertex), "Diameter over sharp root vertices"),
        size("tooth_depth", tooth.blank.radius - root, "Tooth depth, radial"),
        size("land", tooth.land, "Land", "length", LAND),
        size("space_angle", tooth.angle, "Space angle, flank to flank", "angle", angle),
        size("thickness", keys.thickness, "Thickness"),
        size("root_radius", tooth.blank.root_radius, "Root radius, greatest allowed"),
        size("flank_length", tooth.face_length - tooth.bluntness, "Straight length of a flank"),
        size("circular_pitch", pitch, "Pitch along the outside"),
    )


FORM = SerratedForm()
