"""Everything known of a sprocket's teeth, told and measured.

Diameters and limits by ISO 606. Over pins as thick as a roller: `d + d1`, over an odd count
`d cos(90 deg / z) + d1`, less what the seats are deeper (remembered from ISO 606; the odd form is
the caliper factor of ASME B29.1). Width of the teeth: 0.93 or, over a pitch of 12.7 mm, 0.95 of the
least width between the inner plates (remembered from ISO 606). Greatest hub: `p cot(180 deg / z) -
1.04 h - 0.76`, h being the height of the plates (common practice).
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import TYPE_CHECKING, Final, Literal

from profilegen.figures import Quantity
from profilegen.forms.sprocket.tooth import Gap, limits_of, pitch_diameter
from profilegen.forms.wheel import Size
from profilegen.part.how_measured import Measured
from profilegen.part.iso286 import UP_TO, standard_tolerance

if TYPE_CHECKING:
    from profilegen.forms.sprocket.keys import Sprocket

MEASURED: Final = ("root_diameter", "over_pins")

_NARROW_PITCH: Final = 12.7
"""mm, the greatest pitch whose teeth are 0.93 of the width between the plates."""


def tooth_width(keys: Sprocket) -> float:
    """Greatest width of the teeth, mm; 0 where the chain's width is not known."""
    chain = keys.roller
    return (0.93 if chain.pitch <= _NARROW_PITCH else 0.95) * chain.inner_width


def hub_limit(keys: Sprocket) -> float:
    """Greatest diameter of a hub that the chain's plates clear, mm; 0 where the height of the
    plates is not known."""
    chain = keys.roller
    if chain.plate_height == 0:
        return 0.0
    return chain.pitch / math.tan(math.pi / keys.teeth) - 1.04 * chain.plate_height - 0.76


def over_rollers(gap: Gap, roller: float) -> float:
    """Size over two pins as thick as a roller, in opposite seats or in those nearest to it, mm."""
    apart = 1.0 if gap.teeth % 2 == 0 else math.cos(math.pi / (2 * gap.teeth))
    return (2 * gap.root + roller) * apart + roller


def sizes_of(keys: Sprocket, gap: Gap) -> tuple[Size, ...]:
    """Everything known, in the order in which JSON and tables tell it; lengths mm, angles rad."""
    return tuple(_sizes(keys, gap))


def _sizes(keys: Sprocket, gap: Gap) -> Iterator[Size]:
    named = {key for key in keys.model_fields_set if getattr(keys, key) is not None}

    def size(
        key: str,
        value: float | str,
        label: str,
        quantity: Quantity = "length",
        measured: Measured | None = None,
    ) -> Size:
        source: Literal["given", "solved"] = "given" if key in named else "solved"
        return Size(key, value, quantity, label, source, measured)

    chain = keys.roller
    limits = limits_of(chain.pitch, chain.roller, gap.teeth)
    yield size("kind", "sprocket", "Kind", "text")
    yield size("teeth", gap.teeth, "Teeth", "count")
    yield size("angular_pitch", math.tau / gap.teeth, "Angular pitch", "angle")
    if keys.chain is not None:
        yield size("chain", keys.chain, "Roller chain", "text")
    yield size("pitch", chain.pitch, "Pitch of the chain")
    yield size("roller_diameter", chain.roller, "Roller diameter, greatest")
    pitch = pitch_diameter(chain.pitch, gap.teeth)
    yield size("pitch_diameter", pitch, "Pitch diameter, through the rollers")
    yield size("outside_diameter", 2 * gap.tip, "Outside diameter, over the tips")
    yield size("tip_diameter_min", limits.tip[0], "Least tip diameter of the standard")
    yield size("tip_diameter_max", limits.tip[1], "Greatest tip diameter of the standard")
    yield size("root_diameter", 2 * gap.root, "Root diameter, real material", "length", _root(gap))
    yield size("gap_form", keys.gap_form, "Gap drawn", "text")
    yield size("seat_radius", gap.seat, "Radius of the roller's seat")
    yield size("roller_seat_min", limits.seat[0], "Least radius of the seat")
    yield size("roller_seat_max", limits.seat[1], "Greatest radius of the seat")
    yield size("seat_drill_min", 2 * limits.seat[0], "Least drill for the seats")
    yield size("seat_drill_max", 2 * limits.seat[1], "Greatest drill for the seats")
    yield size("seat_angle", gap.angle, "Angle of the seat", "angle")
    yield size("flank_radius", gap.flank, "Radius of a flank")
    yield size("tip_width", 2 * gap.tip * math.sin(gap.half_crest(gap.tip)), "Width of a tip")
    yield size("thickness", keys.thickness, "Thickness")
    if chain.inner_width:
        yield size("tooth_width", tooth_width(keys), "Greatest width of the teeth")
    if hub_limit(keys) > 0:
        yield size("hub_limit", hub_limit(keys), "Greatest hub that clears the chain")
    yield size("over_pins.pin", chain.roller, "Diameter of the pins")
    yield size("over_pins.length", over_rollers(gap, chain.roller), "Size over two pins")


def _root(gap: Gap) -> Measured:
    """The root and its limits, h11 (ISO 606)."""
    is_even = gap.teeth % 2 == 0
    tool = "Caliper or point micrometer" if is_even else "By the size over pins, or projector"
    if 2 * gap.root > UP_TO[-1]:
        return Measured("Root diameter", tool)
    return Measured("Root diameter", tool, (-standard_tolerance(2 * gap.root, 11), 0.0, "h11"))
