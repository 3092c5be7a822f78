"""What clock wheel and clock pinion share: their common keys, the solved wheel, what is measured.

Owns the sizes of any tooth of radial flanks and arcs, their pins, and what is objected to in both.
Refuses the proportions, which each form has of its own, and the geometry (`arc_teeth`).
"""

from __future__ import annotations

import cmath
import math
from collections.abc import Iterator, Mapping
from typing import ClassVar, Final, Literal, TypeVar

from pydantic import Field

from profilegen.figures import Quantity
from profilegen.findings.finding import Fact, Finding, Make, bounded, rad
from profilegen.forms.arc_teeth import ArcTooth, NoTooth
from profilegen.forms.form import Form
from profilegen.forms.wheel import Size, Toothing, Wheel
from profilegen.geometry.chain import Chain
from profilegen.geometry.moves import repeated
from profilegen.geometry.tooth_sizes import over_pins, pin_seat
from profilegen.part.base import ToothedTable
from profilegen.part.fields import Length, Teeth
from profilegen.part.how_measured import Measured

BRITISH: Final = "BS 978-2"
TRADE: Final = "trade 2.76"

MEASURED: Final = ("root_diameter", "across_roots", "chordal", "over_pins")

PIN_FACTORS: Final = (1.7, 1.6, 1.8, 1.5, 1.9, 2.0, 1.4, 2.2, 1.3, 2.4)
"""of the module: pins to try; common practice with gears, no published source for clock wheels."""

PIN_STEP: Final = 0.05
"""mm. Steps of a set of pin gauges."""

PROUD: Final = 0.1
"""of the module: how far a pin stands over the tips at least."""

SLACK: Final = 0.03
"""of the module: how much thinner or thicker a tooth may come out where the part says nothing;
common practice, no published source."""

FEWEST_LEAVES: Final = 6
"""Fewer are driven far before the line of centres (common practice, no published source)."""

MOST_CORNER: Final = math.radians(15)
"""A sharper corner between flank and arc is felt by the mate; no published source."""


class ClockKeys(ToothedTable):
    """The keys that a clock wheel and a clock pinion share."""

    module: Length = Field(description="The pitch diameter divided by the number of teeth.")
    proportions: Literal["BS 978-2", "trade 2.76"] = Field(
        default=TRADE,
        description=(
            "The rule that the tooth is shaped by: trade 2.76 is named for its wheel blanks of "
            "N + 2.76 modules; with BS 978-2 the addendum of a wheel goes by its pinion."
        ),
    )
    mate_teeth: Teeth | None = Field(
        default=None, description="The number of teeth or leaves of the wheel that it runs with."
    )

    def tooth(self) -> ArcTooth:
        """The tooth by these keys, mm; nothing is checked."""
        raise NotImplementedError

    @property
    def own_sizes(self) -> Iterator[Size]:
        """Sizes that only this kind has, and those whose source it knows."""
        yield from ()

    @property
    def pitch_radius(self) -> float:
        """mm."""
        return self.module * self.teeth / 2

    @property
    def root_diameter(self) -> float:
        """As the proportions give it, mm."""
        return 2 * self.tooth().root


Keys = TypeVar("Keys", bound=ClockKeys)


class ClockForm(Form[Keys]):
    """A tooth of radial flanks and arcs, on its own blank only."""

    leaf: ClassVar[str] = "tooth"

    def toothed(self, keys: Keys) -> Wheel:
        """The wheel of these keys without bore and holes, nothing objected to, mm and rad.

        Raises:
            NoTooth: there is none.
        """
        tooth = keys.tooth()
        pitch = tooth.pitch_chain()
        root = cmath.rect(tooth.root, math.pi / keys.teeth)
        return Wheel(
            kind=self.kind,
            thickness=keys.thickness,
            radius=tooth.outside,
            root_radius=tooth.root,
            outline=repeated(pitch, keys.teeth),
            sizes=tuple(sizes_of(keys, tooth, pitch, self.leaf)),
            toothing=Toothing(pitch, None, None, root, teeth=keys.teeth, at_zero="crest"),
            measured=MEASURED,
            driving="tooth_thickness",
            keys=keys,
        )

    def is_sound(self, keys: Keys) -> bool:
        """Whether there is such a tooth.

        Args:
            keys: of the wheel, mm and modules, whether or not a tooth comes of them.
        """
        try:
            keys.tooth().check()
        except NoTooth:
            return False
        return True

    def varied(self, keys: Keys, sizes: Mapping[str, float]) -> Keys:
        """Thickness of the tooth and depth below the pitch circle are keys of their own.

        Args:
            keys: of the wheel as it is.
            sizes: key -> its new size, mm; `root_diameter` becomes a depth in modules.
        """
        update = dict(sizes)
        if "root_diameter" in update:
            below = keys.pitch_radius - update.pop("root_diameter") / 2
            update["dedendum_factor"] = below / keys.module
        return keys.model_copy(update=update)


def sizes_of(keys: ClockKeys, tooth: ArcTooth, pitch: Chain, leaf: str) -> Iterator[Size]:
    """Everything known, in the order in which JSON and tables tell it; lengths mm, angles rad.

    Args:
        keys: of the wheel.
        tooth: by them.
        pitch: one pitch of its outline, mm, tooth 1 centred on +x.
        leaf: what a tooth is called, `tooth` or `leaf`.
    """
    root = Measured("Root diameter, real material", "Point micrometer or projector")
    label = f"Thickness of a {leaf} along the pitch circle"
    off = SLACK * keys.module
    thick = Measured(label, "Worked out from the others", (-off, off, "0.03 module either way"))
    yield _size(keys, "kind", keys.kind, "Kind", "text")
    yield _size(keys, "teeth", keys.teeth, "Teeth", "count")
    yield _size(keys, "angular_pitch", math.tau / keys.teeth, "Angular pitch", "angle")
    yield _size(keys, "module", keys.module, "Module")
    yield _size(keys, "proportions", keys.proportions, "Proportions", "text")
    yield from keys.own_sizes
    yield _size(keys, "pitch_diameter", 2 * tooth.pitch, "Pitch diameter")
    yield _size(keys, "outside_diameter", 2 * tooth.outside, "Outside diameter, over the tips")
    yield _size(keys, "root_diameter", 2 * tooth.root, root.label, "length", root)
    yield _size(keys, "whole_depth", tooth.outside - tooth.root, "Whole depth, from the outside")
    yield _size(keys, "tooth_thickness", tooth.thickness, label, "length", thick)
    yield from _shape(keys, tooth)
    yield _size(keys, "thickness", keys.thickness, "Thickness")
    yield from _gauged(keys, tooth, pitch)
    yield from _pair(keys)
    yield _size(keys, "circular_pitch", math.pi * keys.module, "Pitch along the pitch circle")


def _size(
    keys: ClockKeys,
    key: str,
    value: float | int | str,
    label: str,
    quantity: Quantity = "length",
    measured: Measured | None = None,
) -> Size:
    source: Literal["given", "solved"] = "given" if key in keys.model_fields_set else "solved"
    return Size(key, value, quantity, label, source, measured)


def _shape(keys: ClockKeys, tooth: ArcTooth) -> Iterator[Size]:
    """Heights, arcs and the space: what a fly cutter is ground to."""
    yield _size(keys, "addendum", tooth.outside - tooth.pitch, "Addendum")
    yield _size(keys, "dedendum", tooth.pitch - tooth.root, "Dedendum")
    yield _size(keys, "addendum_radius", tooth.arc, "Radius of the addendum arcs")
    label = "Corner that the arc leaves at the flank"
    yield _size(keys, "addendum_corner", tooth.corner, label, "angle")
    label = "Flank of the cutter, from the middle of the space"
    yield _size(keys, "flank_angle", tooth.half_space, label, "angle")
    if tooth.is_round:
        yield _size(keys, "root_radius", tooth.root_circle[1], "Radius of the round root")
    else:
        yield _size(keys, "root_flat", tooth.floor_width, "Width of the flat root")


def _gauged(keys: ClockKeys, tooth: ArcTooth, pitch: Chain) -> Iterator[Size]:
    pins = best_pin(tooth, pitch, keys.module)
    if pins is not None:
        yield _size(keys, "over_pins.pin", pins[0], "Diameter of the pins")
        yield _size(keys, "over_pins.length", pins[1], "Size over two pins")
    half = tooth.thickness / (2 * tooth.pitch)
    thick, height = 2 * tooth.pitch * math.sin(half), tooth.outside - tooth.pitch * math.cos(half)
    yield _size(keys, "chordal.thickness", thick, "Thickness, straight across")
    yield _size(keys, "chordal.height", height, "Height of the tip over that thickness")


def _pair(keys: ClockKeys) -> Iterator[Size]:
    if keys.mate_teeth is not None:
        distance = keys.module * (keys.teeth + keys.mate_teeth) / 2
        yield _size(keys, "mate_teeth", keys.mate_teeth, "Teeth or leaves of the mate", "count")
        yield _size(keys, "centre_distance", distance, "Centre distance, pitch circles touching")


def best_pin(tooth: ArcTooth, pitch: Chain, module: float) -> tuple[float, float] | None:
    """Diameter of a usual pin and the size over two, mm; None where none rests on flanks or arcs
    and stands proud of the tips."""
    for factor in PIN_FACTORS:
        pin = max(PIN_STEP, round(round(factor * module / PIN_STEP) * PIN_STEP, 9))
        seat = pin_seat(pitch, tooth.teeth, pin)
        if seat is not None and seat.is_on_flanks:
            size = over_pins(seat.centre, pin, tooth.teeth)
            if size > 2 * tooth.outside + PROUD * module:
                return pin, size
    return None


def shared_cautions(keys: ClockKeys, tooth: ArcTooth, leaves: int | None) -> Iterator[Finding]:
    """What is said of wheel and pinion alike; the corner of the arcs is told in degrees.

    Args:
        keys: of either.
        tooth: by them, mm and rad.
        leaves: of the pinion of the pair; None where it is not known.
    """
    if abs(tooth.corner) > MOST_CORNER:
        corner: dict[str, Fact] = {"corner": rad(abs(tooth.corner))}
        found, most = math.degrees(tooth.corner), math.degrees(MOST_CORNER)
        yield Finding("addendum-corner", "caution", "wheel", found, most, facts=corner)
    if leaves is not None and leaves < FEWEST_LEAVES:
        is_own = leaves == keys.teeth
        make = Make("wheel.teeth" if is_own else "wheel.mate_teeth", "at least", FEWEST_LEAVES)
        count: dict[str, Fact] = {"leaves": leaves}
        yield bounded("leaves-few", "caution", make, leaves, FEWEST_LEAVES, count)
    if keys.mate_teeth is None:
        yield Finding("mate-missing", "note", "wheel.mate_teeth")
