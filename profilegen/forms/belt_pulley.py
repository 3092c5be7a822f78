"""The synchronous-belt pulley: its diameters by the belt's standard, all of the form.

Owns its keys and the belts. The pitch circle holds the teeth at the belt's pitch, z p / pi, and the
outside lies a fixed way inside it, because the belt bends about its cords: by ISO 5294 for the
inch pitches, by DIN 7721 for T5. The groove is not drawn: no published data of it was to be had,
and it is not guessed.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from types import MappingProxyType
from typing import TYPE_CHECKING, Final, Literal, NamedTuple

from pydantic import Field

from profilegen.findings.finding import Finding
from profilegen.forms.form import FIRST, LAST, Ask, Form
from profilegen.forms.wheel import Round, Size, Wheel
from profilegen.geometry.chain import circle
from profilegen.part.base import ToothedTable

if TYPE_CHECKING:
    from profilegen.part.part import Part

Belt = Literal["MXL", "XL", "L", "H", "T5"]


class Pitch(NamedTuple):
    """What a standard says of one belt.

    Attributes:
        pitch: of the belt and along the pitch circle, mm.
        less: that the outside diameter is less than the pitch diameter, mm.
        source: the standard.
    """

    pitch: float
    less: float
    source: str


BELTS: Final = MappingProxyType(
    {
        "MXL": Pitch(2.032, 0.508, "ISO 5294"),
        "XL": Pitch(5.080, 0.508, "ISO 5294"),
        "L": Pitch(9.525, 0.762, "ISO 5294"),
        "H": Pitch(12.700, 1.372, "ISO 5294"),
        "T5": Pitch(5.000, 0.84, "DIN 7721"),
    }
)
"""Belt -> its pitch and twice its pitch-line offset, both mm. From memory of the standards' tables;
the tests hold them against printed pulley catalogues."""


class BeltPulley(ToothedTable):
    """A pulley for a toothed belt: its belt and its count."""

    kind: Literal["belt-pulley"] = Field(
        description="The form of the wheel: a pulley for a toothed belt, its diameters alone."
    )
    belt: Belt = Field(
        description=(
            "The belt that it is for: MXL, XL, L or H by ISO 5294, T5 by DIN 7721. It sets the "
            "pitch and how far the outside lies inside the pitch circle."
        )
    )


class BeltPulleyForm(Form[BeltPulley]):
    """The blank of a synchronous-belt pulley, and the stops of its grooves."""

    kind = "belt-pulley"
    keys = BeltPulley
    line = "a pulley for a toothed belt: its diameters and its stops"
    asked = (
        *FIRST,
        Ask("wheel", "belt"),
        Ask("wheel", "thickness"),
        *(step for step in LAST if step.table == "bore"),
    )

    def toothed(self, keys: BeltPulley) -> Wheel:
        """The blank of these keys, without bore and holes: a plain disc, no groove in it.

        Args:
            keys: of the wheel, mm; teeth and belt set the outside diameter.
        """
        belt = BELTS[keys.belt]
        pitch = keys.teeth * belt.pitch / math.pi
        outside = pitch - belt.less
        return Wheel(
            kind=self.kind,
            thickness=keys.thickness,
            radius=outside / 2,
            root_radius=outside / 2,
            outline=circle(0, outside / 2),
            sizes=(
                Size("kind", keys.kind, "text", "Kind", "given"),
                Size("belt", keys.belt, "text", "Belt", "given"),
                Size("standard", belt.source, "text", "Diameters by", "solved"),
                Size("teeth", keys.teeth, "count", "Teeth", "given"),
                Size("angular_pitch", math.tau / keys.teeth, "angle", "Angular pitch", "solved"),
                Size("belt_pitch", belt.pitch, "length", "Belt pitch", "solved"),
                Size("pitch_diameter", pitch, "length", "Pitch diameter", "solved"),
                Size("outside_diameter", outside, "length", "Outside diameter", "solved"),
                Size("thickness", keys.thickness, "length", "Thickness", "given"),
            ),
            other_rounds=(Round("grooves", keys.teeth, 0.0, outside, 0.0, "groove"),),
            keys=keys,
        )

    def cautions(self, part: Part, wheel: Wheel) -> Iterator[Finding]:
        """That the groove is not drawn."""
        del part, wheel
        yield Finding("groove-unknown", "note", "wheel.belt")


FORM = BeltPulleyForm()
