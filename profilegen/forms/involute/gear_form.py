"""What the program knows of any involute gear, whatever cuts its teeth."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import ClassVar, Final, TypeVar

from profilegen.forms.form import FIRST, LAST, Ask, AskSome, Form, Hold
from profilegen.forms.involute.keys import GearKeys
from profilegen.forms.involute.sizes import sizes_of
from profilegen.forms.involute.teeth import Teeth
from profilegen.forms.involute.tooth import Gear
from profilegen.forms.wheel import Size, Toothing, Wheel
from profilegen.geometry.moves import repeated

Keys = TypeVar("Keys", bound=GearKeys)

MEASURED: Final = ("root_diameter", "chordal", "span", "over_pins")


class GearForm(Form[Keys]):
    """Involute teeth on the outside of a wheel; what cuts them is of the kind."""

    weights: ClassVar[Mapping[str, float]] = MappingProxyType(
        {"thinning": 1.0, "profile_shift": 2.0, "outside_diameter": 4.0, "pressure_angle": 40.0}
    )
    asked = (  # the cutter is a form cutter, of this very wheel
        *FIRST,
        AskSome("wheel", ("module", "diametral_pitch"), "Which of these does the print give?"),
        Ask("wheel", "thickness"),
        Ask("wheel", "pressure_angle"),
        Ask("wheel", "profile_shift"),
        Ask("wheel", "thinning"),
        *(step for step in LAST if step.table != "cutter"),
    )

    def made(self, keys: Keys) -> Teeth:
        """The teeth that are made, mm.

        Args:
            keys: of the wheel, mm and rad.

        Raises:
            NoGear: there are none.
        """
        raise NotImplementedError

    def told(self, keys: Keys, teeth: Teeth) -> tuple[Size, ...]:
        """Everything known of them, in order; lengths mm, angles rad."""
        return sizes_of(keys, teeth)

    def toothed(self, keys: Keys) -> Wheel:
        """The wheel of these keys without bore and holes, nothing objected to.

        Args:
            keys: of the wheel, mm and rad.

        Raises:
            NoGear: there is none.
        """
        teeth = self.made(keys)
        pitch = teeth.pitch
        root = complex(pitch.points[len(pitch) // 2])
        return Wheel(
            kind=self.kind,
            thickness=keys.thickness,
            radius=teeth.gear.outside,
            root_radius=teeth.root,
            outline=repeated(pitch, keys.teeth),
            sizes=self.told(keys, teeth),
            toothing=Toothing(pitch, None, None, root, teeth=keys.teeth, at_zero="crest"),
            fit_error=teeth.error,
            measured=MEASURED,
            driving="tooth_thickness",
            keys=keys,
        )

    def for_blank(self, keys: Keys, diameter: float, hold: Hold | None) -> Keys:
        """Only the outside gives way: flank and root stay where the pitch circle has them.

        Args:
            keys: of the print.
            diameter: of the blank at hand, mm.
            hold: plays no part here.
        """
        del hold
        return keys.model_copy(update={"outside_diameter": diameter})


def gear_of(keys: GearKeys) -> Gear:
    """The gear that the keys describe, mm and rad; nothing is checked."""
    return Gear(
        keys.teeth,
        keys.size,
        keys.pressure_angle,
        keys.factors,
        keys.profile_shift * keys.size - keys.deeper,
        (keys.outside_diameter or keys.plain_outside) / 2,
    )
