"""The ratchet wheel, all of it: keys, tooth, what is objected to, what is asked."""

from __future__ import annotations

from collections.abc import Iterator
from typing import cast

from profilegen.findings.finding import Finding
from profilegen.forms.form import FIRST, LAST, Ask
from profilegen.forms.ratchet.care import objections
from profilegen.forms.ratchet.keys import Ratchet
from profilegen.forms.ratchet.tooth import MEASURED, sizes_of, solve_tooth, toothing_of
from profilegen.forms.straight import Tooth
from profilegen.forms.straight_form import SizeOf, StraightForm
from profilegen.forms.straight_keys import SPACE
from profilegen.forms.wheel import Size, Toothing, Wheel
from profilegen.part.part import Part

__all__ = ["FORM", "Ratchet"]


class RatchetForm(StraightForm[Ratchet]):
    """A wheel that a pawl drives or holds, its faces steep and its backs long."""

    kind = "ratchet"
    keys = Ratchet
    line = "a wheel that a pawl drives or holds"
    measured = MEASURED
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

    def tooth(self, keys: Ratchet) -> Tooth:
        """The tooth that the two givens fix."""
        return solve_tooth(keys)

    def toothing(self, keys: Ratchet, tooth: Tooth) -> Toothing:
        """The teeth as solved, mm: the face tip of tooth 1 stands at angle 0."""
        return toothing_of(keys, tooth)

    def own_sizes(self, keys: Ratchet, tooth: Tooth, size: SizeOf) -> tuple[Size, ...]:
        """From the space angle to the length of the back."""
        return sizes_of(keys, tooth, size)

    def cautions(self, part: Part, wheel: Wheel) -> Iterator[Finding]:
        """Land, hook, neck, back, root and thickness."""
        keys = cast(Ratchet, part.wheel)
        yield from objections(part, keys, solve_tooth(keys), solve_tooth)


FORM = RatchetForm()
