"""The ratchet wheel, all of it: keys, tooth, what is objected to, what is asked."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import cast

from profilegen.errors import Finding
from profilegen.forms.form import FIRST, LAST, Ask, Form, Hold
from profilegen.forms.ratchet import tooth
from profilegen.forms.ratchet.care import objections
from profilegen.forms.ratchet.keys import Ratchet
from profilegen.forms.say import Say
from profilegen.forms.straight import NoTooth
from profilegen.forms.straight_keys import (
    SPACE,
    WEIGHTS,
    is_sound,
    keys_for_blank,
    land_left,
    least_sizes,
    varied_keys,
)
from profilegen.forms.wheel import Wheel
from profilegen.part.part import Part

__all__ = ["FORM", "Ratchet"]


class RatchetForm(Form[Ratchet]):
    """A wheel that a pawl drives or holds, its faces steep and its backs long."""

    kind = "ratchet"
    keys = Ratchet
    line = "a wheel that a pawl drives or holds"
    weights = WEIGHTS
    asked = (
        *FIRST,
        Ask("wheel", "outside_diameter"),
        Ask("wheel", "thickness"),
        SPACE,
        Ask("wheel", "hook_angle"),
        Ask("wheel", "root_radius"),
        Ask("wheel", "rotation"),
        *LAST,
    )

    def toothed(self, keys: Ratchet) -> Wheel:
        """The wheel without bore and holes."""
        return tooth.toothed(keys)

    def cautions(self, part: Part, wheel: Wheel) -> Iterator[Finding]:
        """Land, hook, neck, back, root and thickness."""
        keys = cast(Ratchet, part.wheel)
        yield from objections(keys, Say(part), tooth.solve_tooth(keys), tooth.solve_tooth)

    def varied(self, keys: Ratchet, sizes: Mapping[str, float]) -> Ratchet:
        """Hook and space angle stay as solved, and the land too unless the root is a size."""
        return varied_keys(keys, tooth.solve_tooth(keys), sizes)

    def for_blank(self, keys: Ratchet, diameter: float, hold: Hold | None) -> Ratchet:
        """The two givens stay, or the space angle with the land or the root that is held."""
        return keys_for_blank(keys, tooth.solve_tooth, diameter, hold)

    def is_sound(self, keys: Ratchet) -> bool:
        """Whether there is a tooth, and it is one to work with."""
        try:
            return is_sound(tooth.solve_tooth(keys), keys)
        except NoTooth:
            return False

    def least(self, keys: Ratchet) -> Iterator[tuple[str, float]]:
        """The least land, in place of 0."""
        return least_sizes(keys)

    def consequence(self, keys: Ratchet, say: Say, code: str, key: str) -> str:
        """The land that a shallower root leaves."""
        return land_left(keys, say, code, key)


FORM = RatchetForm()
