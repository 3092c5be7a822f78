"""The form-cut gear: what a form cutter of a set, made for another count, really leaves.

`keys` are its part file's, `tooth` the flank and root that are made, `sizes` what is told of them
beside the true gear's, `care` what a careful machinist objects to.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace
from typing import TYPE_CHECKING, Final, cast

from profilegen.findings.finding import Finding
from profilegen.forms.form import Ask
from profilegen.forms.form_cut_gear.care import cautions_of
from profilegen.forms.form_cut_gear.keys import FormCutGear
from profilegen.forms.form_cut_gear.sizes import cut_sizes
from profilegen.forms.form_cut_gear.tooth import FormCut
from profilegen.forms.involute.care import THINNEST_TIP
from profilegen.forms.involute.gear_form import GearForm, gear_of
from profilegen.forms.involute.teeth import Teeth
from profilegen.forms.involute.tooth import NoGear

if TYPE_CHECKING:
    from profilegen.forms.wheel import Size, Wheel
    from profilegen.part.part import Part

ROUNDS: Final = 12
"""Steps to the thinning that makes a size: each leaves a tenth of what the last was off."""


class FormCutGearForm(GearForm[FormCutGear]):
    """Teeth whose spaces have the shape of another count's."""

    kind = "form-cut-gear"
    keys = FormCutGear
    line = "a gear as a form cutter of a set of eight really makes it"
    asked = (*GearForm.asked, Ask("wheel", "made_for"))

    def made(self, keys: FormCutGear) -> Teeth:
        """The teeth that the cutter leaves, mm.

        Args:
            keys: of the wheel, mm and rad; their `fit_tolerance` says how near the outline comes.

        Raises:
            NoGear: there are none.
        """
        return cut_of(keys).teeth(keys.fit_tolerance)

    def told(self, keys: FormCutGear, teeth: Teeth) -> tuple[Size, ...]:
        """Its own sizes, its flank against the true one, the true gear's sizes; mm and rad.

        Args:
            keys: of the wheel.
            teeth: by them.
        """
        return cut_sizes(keys, cut_of(keys), teeth)

    def cautions(self, part: Part, wheel: Wheel) -> Iterator[Finding]:
        """Flanks outside the true ones, an undercut cutter, a shift, a thin tip, no such cutter."""
        keys = cast(FormCutGear, part.wheel)
        yield from cautions_of(keys, cut_of(keys))

    def varied(self, keys: FormCutGear, sizes: Mapping[str, float]) -> FormCutGear:
        """A thickness of the tooth or a root is made by thinning, as the depth of the cut makes it.

        Args:
            keys: of the wheel as it is.
            sizes: key -> its new size, mm; `tooth_thickness` is along the pitch circle.
        """
        update = dict(sizes)
        thickness, root = update.pop("tooth_thickness", None), update.pop("root_diameter", None)
        found = keys.model_copy(update=update)
        for _ in range(ROUNDS):
            cut = cut_of(found)
            thinning = found.thinning
            if thickness is not None:
                thinning += cut.thickness() - thickness
            if root is not None:
                thinning += (cut.deepest() - root / 2) * found.thinning_per_depth
            found = found.model_copy(update={"thinning": thinning})
        return found

    def is_sound(self, keys: FormCutGear) -> bool:
        """Whether the cutter leaves teeth, and they are ones to work with."""
        cut = cut_of(keys)
        try:
            cut.check()
        except NoGear:
            return False
        return cut.tip_width(cut.gear.outside) >= THINNEST_TIP * cut.gear.module


def cut_of(keys: FormCutGear) -> FormCut:
    """The gear of the keys and the gear whose space its cutter has; nothing is checked.

    Args:
        keys: of the wheel, mm and rad.
    """
    gear, count = gear_of(keys), keys.cutter_teeth
    outside = (count / 2 + gear.rack.addendum) * gear.module
    return FormCut(gear, replace(gear, teeth=count, shift=0.0, outside=outside))


FORM = FormCutGearForm()
