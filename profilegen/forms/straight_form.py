"""What every tooth form with straight flanks offers, once there is a way to its solved tooth.

Owns the wheel made of such a tooth, the sizes that all of them have, how land and root are
measured, and what stays when sizes or the blank change. A form of this kind says how its tooth is
solved, where its space stands and which sizes are its own. Refuses the trigonometry (`straight`).
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import ClassVar, Final

from profilegen.figures import Quantity
from profilegen.findings.finding import Phrase, mm
from profilegen.forms.form import Form, Hold
from profilegen.forms.straight import NoTooth, Tooth
from profilegen.forms.straight_keys import (
    WEIGHTS,
    AnyKeys,
    StraightKeys,
    given,
    is_workable,
    least_land,
)
from profilegen.forms.wheel import Size, Toothing, Wheel
from profilegen.geometry.moves import MIRROR_X, moved, repeated
from profilegen.part.how_measured import LAND as LAND_DEVIATIONS
from profilegen.part.how_measured import Measured

LAND: Final = Measured(
    "Land, straight across", "Loupe with scale, or projector", (*LAND_DEVIATIONS, "+0.10 -0.05 mm")
)


@dataclass(frozen=True, slots=True)
class SizeOf:
    """Makes the sizes of one wheel, each told as given by its keys or solved."""

    keys: StraightKeys

    def __call__(
        self,
        key: str,
        value: float | int | str,
        label: str,
        quantity: Quantity = "length",
        measured: Measured | None = None,
    ) -> Size:
        """One size; mm, rad, a count or a word, as `quantity` says."""
        is_given = key in given(self.keys)
        return Size(key, value, quantity, label, "given" if is_given else "solved", measured)


class StraightForm(Form[AnyKeys]):
    """A tooth form with straight flanks, made of its solved tooth.

    Attributes:
        measured: what is measured of the teeth, in the order in which it is told.
    """

    weights = WEIGHTS
    measured: ClassVar[tuple[str, ...]]

    def tooth(self, keys: AnyKeys) -> Tooth:
        """The tooth that the givens fix, its face tip at angle 0, mm.

        Raises:
            NoTooth: there is none.
        """
        raise NotImplementedError

    def toothing(self, keys: AnyKeys, tooth: Tooth) -> Toothing:
        """The teeth, turned to where the form has them stand, mm in base orientation.

        Args:
            keys: of the wheel.
            tooth: with its face tip at angle 0.
        """
        raise NotImplementedError

    def own_sizes(self, keys: AnyKeys, tooth: Tooth, size: SizeOf) -> tuple[Size, ...]:
        """The sizes that stand between those of all straight flanks, from the space angle on.

        Args:
            keys: of the wheel.
            tooth: as solved, mm and rad.
            size: makes a `Size`, given or solved by what the keys say.
        """
        raise NotImplementedError

    def toothed(self, keys: AnyKeys) -> Wheel:
        """The wheel of these keys without bore and holes, nothing objected to, mm and rad.

        Raises:
            NoTooth: there is none.
        """
        tooth = self.tooth(keys)
        toothing = self.toothing(keys, tooth)
        outline = repeated(toothing.pitch, keys.teeth)
        return Wheel(
            kind=self.kind,
            thickness=keys.thickness,
            radius=keys.outside_diameter / 2,
            root_radius=tooth.deepest(),
            outline=moved(outline, MIRROR_X) if toothing.hand == "counter-clockwise" else outline,
            sizes=self._sizes(keys, tooth),
            toothing=toothing,
            measured=self.measured,
            driving="land",
            keys=keys,
        )

    def _sizes(self, keys: AnyKeys, tooth: Tooth) -> tuple[Size, ...]:
        """Everything known of the tooth, in the order in which JSON and tables tell it."""
        size, root = SizeOf(keys), tooth.deepest()
        pitch = math.pi * keys.outside_diameter / keys.teeth
        across = _root(keys.teeth)
        return (
            size("kind", self.kind, "Kind", "text"),
            size("teeth", keys.teeth, "Teeth", "count"),
            size("angular_pitch", math.tau / keys.teeth, "Angular pitch", "angle"),
            size("outside_diameter", keys.outside_diameter, "Outside diameter"),
            size("root_diameter", 2 * root, "Root diameter, real material", "length", across),
            size("vertex_diameter", 2 * abs(tooth.vertex), "Diameter over sharp root vertices"),
            size("tooth_depth", tooth.blank.radius - root, "Tooth depth, radial"),
            size("land", tooth.land, "Land", "length", LAND),
            *self.own_sizes(keys, tooth, size),
            size("circular_pitch", pitch, "Pitch along the outside"),
        )

    def varied(self, keys: AnyKeys, sizes: Mapping[str, float]) -> AnyKeys:
        """The space angle and what the form adds to it stay as solved, and the land too unless the
        root is one of the sizes.

        Args:
            keys: of the wheel as it is.
            sizes: key -> its new size, mm or rad.
        """
        tooth = self.tooth(keys)
        held = {"land": tooth.land, "space_angle": tooth.angle, "root_diameter": None}
        if "root_diameter" in sizes:
            held["land"] = None
        return keys.model_copy(update={**held, "tooth_depth": None, **sizes})

    def for_blank(self, keys: AnyKeys, diameter: float, hold: Hold | None) -> AnyKeys:
        """The two givens stay, or the space angle with the land or the root that is held.

        Args:
            keys: of the print.
            diameter: of the blank at hand, mm.
            hold: `land` or `root`; None for the givens.
        """
        sizes = {"outside_diameter": diameter}
        if hold is None:
            return keys.model_copy(update=sizes)
        if hold == "root":
            sizes["root_diameter"] = 2 * self.tooth(keys).deepest()
        return self.varied(keys, sizes)

    def is_sound(self, keys: AnyKeys) -> bool:
        """Whether there is a tooth, and it is one to work with."""
        try:
            return is_workable(self.tooth(keys), keys)
        except NoTooth:
            return False

    def least(self, keys: AnyKeys) -> Iterator[tuple[str, float]]:
        """The least land, mm, in place of a land of 0."""
        if not keys.land and "land" in keys.model_fields_set and keys.land is not None:
            yield "land", least_land(keys.outside_diameter)

    def consequence(self, keys: AnyKeys, code: str, key: str) -> Phrase | None:
        """What a shallower root leaves of a land that is gone."""
        if code != "land-gone" or key not in ("root_diameter", "tooth_depth"):
            return None
        return Phrase("leaves-land", {"land": mm(least_land(keys.outside_diameter))})


def _root(teeth: int) -> Measured:
    """Over an odd count nothing measures the root across: what a point micrometer reads in its
    place is told beside it."""
    is_even = teeth % 2 == 0
    tool = "Point micrometer or projector" if is_even else "By the next size, or projector"
    return Measured("Root diameter", tool)
