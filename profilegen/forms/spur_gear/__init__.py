"""The spur gear: involute teeth and true roots, as a rack generates them; all of the form.

`keys` are its part file's, `rack` its proportions, `tooth` the flank and the root, `sizes` what is
known and measured of it, `care` what a careful machinist objects to.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from types import MappingProxyType
from typing import TYPE_CHECKING, Final, cast

from profilegen.findings.finding import Finding
from profilegen.forms.form import FIRST, LAST, Ask, AskSome, Form, Hold
from profilegen.forms.spur_gear.care import cautions_of, is_workable
from profilegen.forms.spur_gear.keys import SpurGear
from profilegen.forms.spur_gear.sizes import sizes_of
from profilegen.forms.spur_gear.tooth import Gear, NoGear, pitch_of
from profilegen.forms.wheel import Space, Wheel
from profilegen.geometry.moves import repeated

if TYPE_CHECKING:
    from profilegen.part.part import Part

WEIGHTS: Final = MappingProxyType(
    {"thinning": 1.0, "profile_shift": 2.0, "outside_diameter": 4.0, "pressure_angle": 40.0}
)
"""Key -> what a change counts when a part is mended; module and teeth belong to the mate too."""

MEASURED: Final = ("root_diameter", "chordal", "span", "over_pins")


class SpurGearForm(Form[SpurGear]):
    """Straight involute teeth on the outside of a wheel."""

    kind = "spur-gear"
    keys = SpurGear
    weights = WEIGHTS
    line = "a gear with straight involute teeth: change gears, wheels and pinions"
    asked = (  # the cutter is a form cutter, of this very wheel
        *FIRST,
        AskSome("wheel", ("module", "diametral_pitch"), "Which of these does the print give?"),
        Ask("wheel", "thickness"),
        Ask("wheel", "pressure_angle"),
        Ask("wheel", "profile_shift"),
        Ask("wheel", "thinning"),
        *(step for step in LAST if step.table != "cutter"),
    )

    def toothed(self, keys: SpurGear) -> Wheel:
        """The wheel of these keys without bore and holes, nothing objected to.

        Raises:
            NoGear: there is none.
        """
        gear = gear_of(keys)
        pitch, error = pitch_of(gear, keys.fit_tolerance)
        space = Space(pitch, None, None, complex(pitch.points[len(pitch) // 2]))
        return Wheel(
            kind=self.kind,
            teeth=keys.teeth,
            hand=None,
            thickness=keys.thickness,
            radius=gear.outside,
            root_radius=gear.root,
            outline=repeated(pitch, keys.teeth),
            bore=None,
            holes=(),
            space=space,
            sizes=sizes_of(keys, gear, pitch),
            bore_sizes=(),
            fit_error=error,
            measured=MEASURED,
            driving="tooth_thickness",
            keys=keys,
        )

    def cautions(self, part: Part, wheel: Wheel) -> Iterator[Finding]:
        """Undercut, interference, a thin tip, a count without a form cutter."""
        keys = cast(SpurGear, part.wheel)
        yield from cautions_of(keys, gear_of(keys))

    def varied(self, keys: SpurGear, sizes: Mapping[str, float]) -> SpurGear:
        """A thickness of the tooth or a root is made by thinning, as the depth of the cut makes
        it."""
        gear, update = gear_of(keys), dict(sizes)
        if "tooth_thickness" in update:
            update["thinning"] = keys.thinning + gear.thickness - update.pop("tooth_thickness")
        if "root_diameter" in update:
            deeper = gear.root - update.pop("root_diameter") / 2
            update["thinning"] = keys.thinning + deeper * keys.thinning_per_depth
        return keys.model_copy(update=update)

    def for_blank(self, keys: SpurGear, diameter: float, hold: Hold | None) -> SpurGear:
        """Only the outside gives way: flank and root stay where the pitch circle has them."""
        del hold
        return keys.model_copy(update={"outside_diameter": diameter})

    def is_sound(self, keys: SpurGear) -> bool:
        """Whether there is such a gear, and its teeth are ones to work with."""
        gear = gear_of(keys)
        try:
            gear.check()
        except NoGear:
            return False
        return is_workable(gear)


def gear_of(keys: SpurGear) -> Gear:
    """The gear that the keys describe; nothing is checked."""
    return Gear(
        keys.teeth,
        keys.size,
        keys.pressure_angle,
        keys.factors,
        keys.profile_shift * keys.size - keys.deeper,
        (keys.outside_diameter or keys.plain_outside) / 2,
    )


FORM = SpurGearForm()
