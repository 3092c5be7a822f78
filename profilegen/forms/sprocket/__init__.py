"""The sprocket: teeth for a roller chain, all of the form.

`keys` are its part file's, `chains` the chains by number, `tooth` the gap and its limits, `sizes`
what is known and measured of it, `care` what a careful machinist objects to.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from types import MappingProxyType
from typing import TYPE_CHECKING, cast

from profilegen.findings.finding import Finding
from profilegen.forms.form import FIRST, LAST, Ask, Form, Hold
from profilegen.forms.sprocket.care import cautions_of
from profilegen.forms.sprocket.keys import Sprocket
from profilegen.forms.sprocket.sizes import MEASURED, sizes_of
from profilegen.forms.sprocket.tooth import gap_of, pitch_of
from profilegen.forms.wheel import Toothing, Wheel
from profilegen.geometry.moves import repeated

if TYPE_CHECKING:
    from profilegen.part.part import Part


class SprocketForm(Form[Sprocket]):
    """Teeth between which the rollers of a chain sit."""

    kind = "sprocket"
    keys = Sprocket
    line = "a wheel for a roller chain"
    asked = (  # the cutter is a form cutter, of this very wheel
        *FIRST,
        Ask("wheel", "chain"),
        Ask("wheel", "thickness"),
        Ask("wheel", "gap_form"),
        *(step for step in LAST if getattr(step, "table", "") != "cutter"),
    )
    weights = MappingProxyType({"tip_diameter": 1.0, "root_diameter": 1.5})

    def toothed(self, keys: Sprocket) -> Wheel:
        """The wheel of these keys without bore and holes, nothing objected to.

        Args:
            keys: of the sprocket, mm.

        Raises:
            NoGap: there is none.
        """
        gap = gap_of(keys)
        pitch = pitch_of(gap)
        root = complex(pitch.points[2])
        return Wheel(
            kind=self.kind,
            thickness=keys.thickness,
            radius=gap.tip,
            root_radius=gap.root,
            outline=repeated(pitch, keys.teeth),
            sizes=sizes_of(keys, gap),
            toothing=Toothing(pitch, None, None, root, teeth=keys.teeth, at_zero="crest"),
            measured=MEASURED,
            driving="root_diameter",
            pins_rest_on="root",
            keys=keys,
        )

    def cautions(self, part: Part, wheel: Wheel) -> Iterator[Finding]:
        """Tip, count, width of the teeth and hub against what chain and standard allow."""
        del wheel
        yield from cautions_of(part, cast(Sprocket, part.wheel))

    def varied(self, keys: Sprocket, sizes: Mapping[str, float]) -> Sprocket:
        """The tips stay as solved: the blank sets them, and not the cutter.

        Args:
            keys: of the sprocket as it is.
            sizes: key -> its new size, mm.
        """
        return keys.model_copy(update={"tip_diameter": 2 * gap_of(keys).tip, **sizes})

    def for_blank(self, keys: Sprocket, diameter: float, hold: Hold | None) -> Sprocket:
        """Only the tips give way: the seats stay where the chain has them.

        Args:
            keys: of the print.
            diameter: of the blank at hand, mm: the new one over the tips.
            hold: plays no part here.
        """
        del hold
        return keys.model_copy(update={"tip_diameter": diameter})


FORM = SprocketForm()
