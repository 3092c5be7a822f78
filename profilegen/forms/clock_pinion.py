"""The clock pinion: leaves with radial flanks and rounded or ogival tops; all of the form.

Owns its keys and its proportions, in modules. Sources: allowances, dedenda and leaf widths by count
from a table of pinion cutters (7, 8, 10 and 16 leaves; root diameters are that table's own); forms
of the leaf for both widths from BS 978-2, remembered and not seen. For 10 leaves the two disagree,
and a note says which was taken; the table's whole depth of 2.755 for 10 leaves does not agree with
its own blank and root, which give 2.855.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from types import MappingProxyType
from typing import TYPE_CHECKING, Annotated, ClassVar, Final, Literal, cast

from pydantic import BeforeValidator, Field, WithJsonSchema

from profilegen.findings.finding import Finding
from profilegen.forms.arc_teeth import ArcTooth
from profilegen.forms.clock_form import BRITISH, ClockForm, ClockKeys, shared_cautions
from profilegen.forms.form import FIRST, LAST, Ask
from profilegen.forms.wheel import Size, Wheel
from profilegen.part.base import KeyRule
from profilegen.part.fields import number_between

if TYPE_CHECKING:
    from profilegen.part.part import Part

LeafForm = Literal["semicircular", "round", "ogival"]

DEDENDA: Final = {7: 1.85, 8: 1.90, 10: 2.05, 16: 2.10}
"""Leaves -> depth below the pitch circle, modules."""

NARROW: Final = 1.05
WIDE: Final = 1.25
"""Modules, of BS 978-2: leaves up to 10 and above; the trade has a third and two fifths of the
pitch, from 10 leaves on."""

FORMS: Final[dict[LeafForm, tuple[tuple[float, float], tuple[float, float]]]] = {
    "semicircular": ((0.525, 0.525), (0.625, 0.625)),
    "round": ((0.670, 0.70), (0.805, 0.83)),
    "ogival": ((0.855, 1.05), (1.050, 1.25)),
}
"""Form -> addendum and radius of its arcs of narrow leaves, of wide ones, modules: the profiles A,
B and C of BS 978-2."""

BETWEEN: Final = (NARROW + WIDE) / 2
"""Modules: a leaf wider than this takes the form of the wide ones."""

TEN: Final = 10
"""Leaves, for which the sources disagree."""

LIMITS: Final = {
    "addendum_factor": (0.4, 1.6),
    "dedendum_factor": (0.8, 2.6),
    "leaf_width": (0.5, 2.0),
}


def _modules(key: str) -> BeforeValidator:
    return BeforeValidator(number_between(*LIMITS[key], "a number of modules without a unit"))


def _json(key: str) -> WithJsonSchema:
    least, most = LIMITS[key]
    return WithJsonSchema({"type": "number", "minimum": least, "maximum": most})


class ClockPinion(ClockKeys):
    """A clock pinion: module and leaves; the proportions give the rest."""

    bare_numbers: ClassVar = LIMITS

    kind: Literal["clock-pinion"] = Field(
        description="The tooth form: a clock pinion, which a wheel drives."
    )
    root_form: Literal["flat", "round"] = Field(
        default="flat", description="The bottom of the spaces between the leaves."
    )
    leaf_form: LeafForm | None = Field(
        default=None,
        description=(
            "The top of the leaves: semicircular, round (a little pointed) or ogival; ogival on "
            "narrow leaves and round on wide ones when left out."
        ),
    )
    leaf_width: Annotated[float, _modules("leaf_width"), _json("leaf_width")] | None = Field(
        default=None,
        description=(
            "The width of a leaf along the pitch circle, in modules: 1.05 is narrow and 1.25 wide; "
            "by the count of leaves when left out."
        ),
    )
    addendum_factor: (
        Annotated[float, _modules("addendum_factor"), _json("addendum_factor")] | None
    ) = Field(
        default=None,
        description="The height of the leaves over the pitch circle, in modules; by their form "
        "when left out.",
    )
    dedendum_factor: (
        Annotated[float, _modules("dedendum_factor"), _json("dedendum_factor")] | None
    ) = Field(
        default=None,
        description=(
            "The depth of the spaces below the pitch circle, in modules; 7, 8, 10 and 16 leaves "
            "have a usual one."
        ),
    )

    def value_rules(self) -> Iterator[KeyRule]:
        """Yield that a count has no usual depth."""
        if self.dedendum_factor is None and self.teeth not in DEDENDA:
            text = f"there is no usual depth for a pinion of {self.teeth} leaves"
            allowed = "7, 8, 10 or 16 leaves, or own numbers"
            hint = (
                "add dedendum_factor = 1.9, the depth below the pitch circle in modules, and where "
                "the print gives them leaf_width and addendum_factor"
            )
            yield KeyRule("teeth", text, allowed, hint)

    @property
    def width(self) -> float:
        """Of a leaf along the pitch circle, modules."""
        if self.leaf_width is not None:
            return self.leaf_width
        if self.proportions == BRITISH:
            return NARROW if self.teeth <= TEN else WIDE
        return math.pi / 3 if self.teeth < TEN else 0.4 * math.pi

    @property
    def top(self) -> LeafForm:
        """The form of the leaves, given or usual."""
        return self.leaf_form or ("round" if self.width > BETWEEN else "ogival")

    def tooth(self) -> ArcTooth:
        """The leaf by these keys, mm; nothing is checked."""
        m = self.module
        addendum, arc = FORMS[self.top][self.width > BETWEEN]
        if self.addendum_factor is not None:
            addendum, arc = self.addendum_factor, arc * self.addendum_factor / addendum
        below = self.dedendum_factor or DEDENDA[self.teeth]
        return ArcTooth(
            teeth=self.teeth,
            pitch=self.pitch_radius,
            thickness=self.width * m,
            outside=self.pitch_radius + addendum * m,
            arc=arc * m,
            root=self.pitch_radius - below * m,
            is_round=self.root_form == "round",
        )

    @property
    def own_sizes(self) -> Iterator[Size]:
        """Form and width of the leaves, form of the root."""
        source: Literal["given", "solved"] = "given" if self.leaf_form else "solved"
        yield Size("leaf_form", self.top, "text", "Form of the leaves", source)
        source = "given" if self.leaf_width else "solved"
        label = "Width of a leaf, in modules"
        yield Size("leaf_width", round(self.width, 6), "count", label, source)
        yield Size("root_form", self.root_form, "text", "Form of the root", "given")


class ClockPinionForm(ClockForm[ClockPinion]):
    """A pinion of a clock train."""

    kind = "clock-pinion"
    keys = ClockPinion
    leaf = "leaf"
    line = "a pinion of a clock train, with leaves that a wheel drives"
    weights = MappingProxyType({"addendum_factor": 1.0, "leaf_width": 1.0, "dedendum_factor": 1.0})
    asked = (  # the cutter is a form cutter, of this very pinion
        *FIRST,
        Ask("wheel", "module"),
        Ask("wheel", "thickness"),
        Ask("wheel", "proportions"),
        Ask("wheel", "leaf_form"),
        Ask("wheel", "leaf_width"),
        Ask("wheel", "dedendum_factor"),
        Ask("wheel", "mate_teeth"),
        *(step for step in LAST if step.table != "cutter"),
    )

    def varied(self, keys: ClockPinion, sizes: Mapping[str, float]) -> ClockPinion:
        """The thickness of a leaf is its width in modules.

        Args:
            keys: of the pinion as it is.
            sizes: key -> its new size, mm; `tooth_thickness` is along the pitch circle.
        """
        update = dict(sizes)
        if "tooth_thickness" in update:
            update["leaf_width"] = update.pop("tooth_thickness") / keys.module
        return super().varied(keys, update)

    def is_sound(self, keys: ClockPinion) -> bool:
        """Whether there is such a leaf, with a depth of its own or a usual one."""
        has_depth = keys.dedendum_factor is not None or keys.teeth in DEDENDA
        return has_depth and super().is_sound(keys)

    def cautions(self, part: Part, wheel: Wheel) -> Iterator[Finding]:
        """Corner of the arcs, few leaves, ten leaves."""
        del wheel
        keys = cast(ClockPinion, part.wheel)
        yield from shared_cautions(keys, keys.tooth(), keys.teeth)
        if keys.teeth == TEN and keys.leaf_width is None:
            case = "standard" if keys.proportions == BRITISH else "trade"
            yield Finding("ten-leaves", "note", "wheel.proportions", case=case)


FORM = ClockPinionForm()
