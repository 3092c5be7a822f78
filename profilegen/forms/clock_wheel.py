"""The clock wheel: pointed teeth of arcs on radial flanks, which drive a pinion; all of the form.

Owns its keys and its proportions. Sources: the trade's rule is that of a table of wheel cutters
(blank N + 2.76, root N - 3.14, arcs of 1.93; short and round-bottomed forms beside it, in modules);
BS 978-2, remembered and not seen: addendum 0.95 f and arcs of 1.40 f. Its factor f is the height in
modules at which two epicycloids would meet in a point, worked out for the pair.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from types import MappingProxyType
from typing import TYPE_CHECKING, Annotated, ClassVar, Final, Literal, cast

from pydantic import BeforeValidator, Field, WithJsonSchema

from profilegen.findings.finding import Finding
from profilegen.forms.arc_teeth import ArcTooth, epicycloid_addendum
from profilegen.forms.clock_form import BRITISH, ClockForm, ClockKeys, shared_cautions
from profilegen.forms.form import FIRST, LAST, Ask
from profilegen.forms.wheel import Size, Wheel
from profilegen.part.base import KeyRule
from profilegen.part.fields import Length, number_between

if TYPE_CHECKING:
    from profilegen.part.part import Part

LEAST_FACTOR, MOST_FACTOR = 0.8, 2.4
"""Addendum factors, for which epicycloids of 6 to 16 leaves give 1.2 to 2.1, and dedenda in
modules."""

Factor = Annotated[
    float,
    BeforeValidator(number_between(LEAST_FACTOR, MOST_FACTOR, "an addendum factor without a unit")),
    WithJsonSchema({"type": "number", "minimum": LEAST_FACTOR, "maximum": MOST_FACTOR}),
]
"""A number without a unit."""


@dataclass(frozen=True, slots=True)
class Shape:
    """A tooth in modules: its heights, its arc, its thickness."""

    addendum: float
    dedendum: float
    arc: float
    thickness: float = 1.57


TRADE_SHAPES: Final = {
    "flat": Shape(1.38, 1.57, 1.93),
    "short": Shape(1.38, 1.07, 1.93),
    "round": Shape(1.25, 1.75, 2.00, 1.41),
}
"""Form of the root -> the tooth that a table of wheel cutters has with it."""

BRITISH_DEDENDUM: Final = 1.57


class ClockWheel(ClockKeys):
    """A clock wheel: module and teeth; the proportions give the rest."""

    bare_numbers: ClassVar = dict.fromkeys(
        ("addendum_factor", "dedendum_factor"), (LEAST_FACTOR, MOST_FACTOR)
    )

    kind: Literal["clock-wheel"] = Field(
        description="The tooth form: a clock wheel, which drives a pinion."
    )
    root_form: Literal["flat", "short", "round"] = Field(
        default="flat",
        description=(
            "The bottom of the spaces: flat, flat and less deep (short), or round; the trade's "
            "round form has a lower and thinner tooth."
        ),
    )
    addendum_factor: Factor | None = Field(
        default=None,
        description=(
            "The factor f of BS 978-2, which sets the height of the teeth; worked out from "
            "mate_teeth when left out."
        ),
    )
    tooth_thickness: Length | None = Field(
        default=None,
        description="The thickness of a tooth along the pitch circle, where it is not that of the "
        "proportions.",
    )
    dedendum_factor: Factor | None = Field(
        default=None,
        description="The depth of the spaces below the pitch circle, in modules, where it is not "
        "that of the proportions.",
    )

    def value_rules(self) -> Iterator[KeyRule]:
        """Yield what the proportions do not have."""
        if self.proportions == BRITISH:
            if self.addendum_factor is None and self.mate_teeth is None:
                text = "with BS 978-2 the height of the teeth goes by the pinion, and it is missing"
                hint = "add mate_teeth, such as mate_teeth = 8, or addendum_factor"
                yield KeyRule("", text, "mate_teeth or addendum_factor", hint)
            if self.root_form == "short":
                text = "only the trade's cutters have the short form"
                yield KeyRule("root_form", text, "flat or round", 'or proportions = "trade 2.76"')
        elif self.addendum_factor is not None:
            text = "the height of the teeth is fixed by trade 2.76"
            hint = 'take out addendum_factor, or write proportions = "BS 978-2"'
            yield KeyRule("addendum_factor", text, "addendum_factor with BS 978-2", hint)

    @property
    def factor(self) -> float | None:
        """The addendum factor, given or worked out; None where the proportions need none."""
        if self.proportions != BRITISH or self.addendum_factor is not None:
            return self.addendum_factor
        return epicycloid_addendum(self.teeth, self.mate_teeth or 0)

    @property
    def shape(self) -> Shape:
        """The tooth in modules."""
        factor = self.factor
        if factor is None:
            return TRADE_SHAPES[self.root_form]
        return Shape(0.95 * factor, BRITISH_DEDENDUM, 1.40 * factor)

    def tooth(self) -> ArcTooth:
        """The tooth by these keys, mm; nothing is checked."""
        shape, m = self.shape, self.module
        below = self.dedendum_factor or shape.dedendum
        return ArcTooth(
            teeth=self.teeth,
            pitch=self.pitch_radius,
            thickness=shape.thickness * m if self.tooth_thickness is None else self.tooth_thickness,
            outside=self.pitch_radius + shape.addendum * m,
            arc=shape.arc * m,
            root=self.pitch_radius - below * m,
            is_round=self.root_form == "round",
        )

    @property
    def own_sizes(self) -> Iterator[Size]:
        """Form of the root and the factor."""
        yield Size("root_form", self.root_form, "text", "Form of the root", "given")
        if self.factor is not None:
            source: Literal["given", "solved"] = "given" if self.addendum_factor else "solved"
            label = "Addendum factor f"
            yield Size("addendum_factor", round(self.factor, 6), "count", label, source)


class ClockWheelForm(ClockForm[ClockWheel]):
    """A wheel of a clock train."""

    kind = "clock-wheel"
    keys = ClockWheel
    line = "a wheel of a clock train, with pointed teeth that drive a pinion"
    weights = MappingProxyType(
        {"addendum_factor": 1.0, "dedendum_factor": 1.0, "tooth_thickness": 1.0}
    )
    asked = (  # the cutter is a form cutter, of this very wheel
        *FIRST,
        Ask("wheel", "module"),
        Ask("wheel", "thickness"),
        Ask("wheel", "proportions"),
        Ask("wheel", "mate_teeth"),
        Ask("wheel", "root_form"),
        *(step for step in LAST if step.table != "cutter"),
    )

    def cautions(self, part: Part, wheel: Wheel) -> Iterator[Finding]:
        """Corner of the arcs, leaves of the mate."""
        del wheel
        keys = cast(ClockWheel, part.wheel)
        yield from shared_cautions(keys, keys.tooth(), keys.mate_teeth)


FORM = ClockWheelForm()
