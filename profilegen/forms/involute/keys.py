"""The keys that every involute gear's `[wheel]` table has, and which of them go together."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Set
from typing import Annotated, ClassVar, Final

from pydantic import BeforeValidator, Field, WithJsonSchema

from profilegen.forms.involute.rack import (
    MM_PER_INCH,
    NAMED,
    Factors,
    full_depth,
    greatest_tip_radius,
)
from profilegen.geometry.arcfit import DEFAULT_TOLERANCE
from profilegen.part.base import KeyRule, ToothedTable
from profilegen.part.fields import FieldError, Flank, Length, LengthOrZero, number_between, what

MOST_SHIFT: Final = 2.0
"""Modules, either way: more has no use in any table of gears."""

LEAST_PITCH, MOST_PITCH = 0.2, 400.0
"""Teeth per inch of pitch diameter."""

LEAST_FIT, MOST_FIT = 1e-6, 0.1
"""mm, of the fit tolerance: finer is rounding, coarser is no flank."""


def _shift(value: object) -> float:
    return number_between(-MOST_SHIFT, MOST_SHIFT, "a number of modules without a unit")(value)


def _per_inch(value: object) -> float:
    wanted = "a number of teeth per inch of diameter without a unit"
    return number_between(LEAST_PITCH, MOST_PITCH, wanted)(value)


def _rack(value: object) -> str | Factors:
    names = ", ".join(NAMED)
    if isinstance(value, Factors) or (isinstance(value, str) and value in NAMED):
        return value
    if isinstance(value, Mapping):
        return _own_rack(value)
    text = "there is no such rack" if isinstance(value, str) else f"this is {what(value)}"
    raise FieldError(text, f"one of {names}, or {{ addendum, dedendum, tip_radius }} in modules")


def _own_rack(table: Mapping[str, object]) -> Factors:
    """Own factors: all three, in modules."""
    wanted = ("addendum", "dedendum", "tip_radius")
    strange = [key for key in table if key not in wanted]
    missing = [key for key in wanted if key not in table]
    if strange or missing:
        text = f"a rack has no key {strange[0]}" if strange else f"the rack lacks {missing[0]}"
        raise FieldError(text, "{ addendum = 1.0, dedendum = 1.25, tip_radius = 0.38 }, in modules")
    a, d, r = (
        number_between(least, 3.0, f"{key} as a number of modules without a unit")(table[key])
        for key, least in zip(wanted, (0.1, 0.1, 0.0), strict=True)
    )
    return Factors(a, d, r)


Shift = Annotated[
    float,
    BeforeValidator(_shift),
    WithJsonSchema({"type": "number", "minimum": -MOST_SHIFT, "maximum": MOST_SHIFT}),
]
"""Modules, of either sign."""

PerInch = Annotated[
    float,
    BeforeValidator(_per_inch),
    WithJsonSchema({"type": "number", "minimum": LEAST_PITCH, "maximum": MOST_PITCH}),
]
"""Teeth per inch of pitch diameter."""

RackKey = Annotated[
    str | Factors,
    BeforeValidator(_rack),
    WithJsonSchema({"type": ["string", "object"], "examples": list(NAMED)}),
]
"""The name of a rack, or its three factors."""


class GearKeys(ToothedTable):
    """An involute gear: module or diametral pitch; the rest has a usual value."""

    bare_numbers: ClassVar = {
        "profile_shift": (-MOST_SHIFT, MOST_SHIFT),
        "diametral_pitch": (LEAST_PITCH, MOST_PITCH),
    }

    module: Length | None = Field(
        default=None, description="The pitch diameter divided by the number of teeth."
    )
    diametral_pitch: PerInch | None = Field(
        default=None, description="The number of teeth per inch of pitch diameter."
    )
    pressure_angle: Flank = Field(
        default=math.radians(20),
        description="The lean of the rack's flanks: 20 deg as a rule, 14.5 deg on old gears.",
    )
    profile_shift: Shift = Field(
        default=0.0,
        description=(
            "How far the rack is drawn out when the gear is cut, in modules; it makes teeth "
            "thicker, and keeps small gears from undercut."
        ),
    )
    rack: RackKey | None = Field(
        default=None,
        description=(
            "The proportions of the teeth: ISO 53 A to D, full depth, stub, or own factors of the "
            "module; ISO 53 A with a module and full depth with a diametral pitch when left out."
        ),
    )
    thinning: LengthOrZero = Field(
        default=0.0,
        description=(
            "What every tooth is made thinner for backlash, along the pitch circle: the cutter "
            "goes deeper, the outside stays."
        ),
    )
    outside_diameter: Length | None = Field(
        default=None,
        description="The diameter over the tips; two addenda and the shift over the pitch circle "
        "when left out.",
    )
    fit_tolerance: Length = Field(
        default=DEFAULT_TOLERANCE,
        description="How far the arcs of the outline may stand off the true flank; 0.001 mm when "
        "left out.",
    )

    @classmethod
    def key_rules(cls, given: Set[str]) -> tuple[KeyRule, ...]:
        """Return the broken rule: just one of module and diametral pitch."""
        allowed = "just one of: module, diametral_pitch"
        if {"module", "diametral_pitch"} <= given:
            text = "module and diametral_pitch both say the size of the teeth"
            return (KeyRule("diametral_pitch", text, allowed, "take out one of them"),)
        if not {"module", "diametral_pitch"} & given:
            text = "the size of the teeth is not given"
            return (KeyRule("", text, allowed, "add module = 1.0, or diametral_pitch = 24"),)
        return ()

    def value_rules(self) -> Iterator[KeyRule]:
        """Yield what no rack can be."""
        angle = math.degrees(self.pressure_angle)
        if not 5 <= angle <= 35:
            text = "no rack has flanks at such a pressure angle"
            yield KeyRule("pressure_angle", text, "5 deg to 35 deg", "20 deg is usual")
            return
        if not LEAST_FIT <= self.fit_tolerance <= MOST_FIT:
            yield KeyRule("fit_tolerance", "no outline is fitted so", "0.000001 mm to 0.1 mm")
        yield from self._rack_rules()

    def _rack_rules(self) -> Iterator[KeyRule]:
        rack = self.factors
        most = greatest_tip_radius(rack, self.pressure_angle)
        if most <= 0:
            text = "at this pressure angle the rack comes to a point above its dedendum"
            yield KeyRule("rack", text, hint="give less dedendum or a lesser pressure_angle")
        elif rack.tip_radius > most + 1e-12:
            text = "the tip radius is more than the tip of the rack has room for"
            yield KeyRule("rack", text, f"tip_radius up to {math.floor(1e4 * most) / 1e4:g}")
        elif rack.dedendum <= rack.tip_radius * (1 - math.sin(self.pressure_angle)):
            text = "the tip radius takes up the whole dedendum"
            yield KeyRule("rack", text, hint="give more dedendum or a lesser tip_radius")

    @property
    def size(self) -> float:
        """The module, mm, whichever was given."""
        if self.module is not None:
            return self.module
        return MM_PER_INCH / (self.diametral_pitch or 1.0)

    @property
    def factors(self) -> Factors:
        """The rack's proportions."""
        name = self.rack or ("ISO 53 A" if self.module is not None else "full depth")
        if isinstance(name, Factors):
            return name
        if name == "full depth":
            return full_depth(self.size, self.pressure_angle)
        return NAMED[name]

    @property
    def rack_name(self) -> str:
        """What the rack is called in a table."""
        name = self.rack or ("ISO 53 A" if self.module is not None else "full depth")
        return name if isinstance(name, str) else "own factors"

    @property
    def plain_outside(self) -> float:
        """Outside diameter that goes with the rack, mm: `m (z + 2 ha + 2 x)`."""
        return self.size * (self.teeth + 2 * self.factors.addendum + 2 * self.profile_shift)

    @property
    def deeper(self) -> float:
        """How much deeper the rack goes for the thinning, mm: `thinning / (2 tan a)`."""
        return self.thinning / self.thinning_per_depth

    @property
    def thinning_per_depth(self) -> float:
        """What a tooth loses along the pitch circle per mm that the rack goes deeper, mm."""
        return 2 * math.tan(self.pressure_angle)
