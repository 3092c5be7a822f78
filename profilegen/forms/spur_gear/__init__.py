"""The spur gear: involute teeth and true roots, as a rack generates them.

`keys` are its part file's, `care` what a careful machinist objects to; rack, tooth and sizes it
shares with the other gears of `forms.involute`.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import TYPE_CHECKING, cast

from profilegen.findings.finding import Finding
from profilegen.forms.involute.gear_form import GearForm, gear_of
from profilegen.forms.involute.teeth import Teeth, generated
from profilegen.forms.involute.tooth import NoGear
from profilegen.forms.spur_gear.care import cautions_of, is_workable
from profilegen.forms.spur_gear.keys import SpurGear

if TYPE_CHECKING:
    from profilegen.forms.wheel import Wheel
    from profilegen.part.part import Part


class SpurGearForm(GearForm[SpurGear]):
    """Straight involute teeth on the outside of a wheel."""

    kind = "spur-gear"
    keys = SpurGear
    line = "a gear with straight involute teeth: change gears, wheels and pinions"

    def made(self, keys: SpurGear) -> Teeth:
        """The teeth that the rack generates, mm.

        Args:
            keys: of the wheel, mm and rad; their `fit_tolerance` says how near the outline comes.

        Raises:
            NoGear: there are none.
        """
        return generated(gear_of(keys), keys.fit_tolerance)

    def cautions(self, part: Part, wheel: Wheel) -> Iterator[Finding]:
        """Undercut, interference, a thin tip, a count without a form cutter."""
        keys = cast(SpurGear, part.wheel)
        yield from cautions_of(keys, gear_of(keys))

    def varied(self, keys: SpurGear, sizes: Mapping[str, float]) -> SpurGear:
        """A thickness of the tooth or a root is made by thinning, as the depth of the cut makes it.

        Args:
            keys: of the wheel as it is.
            sizes: key -> its new size, mm; `tooth_thickness` is along the pitch circle.
        """
        gear, update = gear_of(keys), dict(sizes)
        if "tooth_thickness" in update:
            update["thinning"] = keys.thinning + gear.thickness - update.pop("tooth_thickness")
        if "root_diameter" in update:
            deeper = gear.root - update.pop("root_diameter") / 2
            update["thinning"] = keys.thinning + deeper * keys.thinning_per_depth
        return keys.model_copy(update=update)

    def is_sound(self, keys: SpurGear) -> bool:
        """Whether there is such a gear, and its teeth are ones to work with."""
        gear = gear_of(keys)
        try:
            gear.check()
        except NoGear:
            return False
        return is_workable(gear)


FORM = SpurGearForm()
