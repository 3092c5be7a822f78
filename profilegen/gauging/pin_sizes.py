"""Standard pins, and which of them suits a space.

Owns two lists: parallel dowel pins (mm: ISO 2338 and ISO 8734; inch: the trade's fractions; both
remembered) and sets of plain pin gauges in steps of 0.05 mm or 0.0025 in (common practice, no
published source). A dowel is taken where one touches near the middle of the shorter flank and
stands proud, else a pin gauge.
"""

from __future__ import annotations

from typing import Final

from profilegen.figures import Figure
from profilegen.findings.finding import mm
from profilegen.forms.wheel import Toothing
from profilegen.gauging.drills import fraction_name
from profilegen.gauging.pins import (
    BadPin,
    check_pin,
    contact_length,
    diameter_touching_at,
    flanks,
    pin_centre,
    root_length,
)
from profilegen.geometry.tooth_sizes import apart
from profilegen.units import Unit

DOWELS_MM: Final = (
    *(0.6, 0.8, 1.0, 1.2, 1.5, 2.0, 2.5, 3.0, 4.0, 5.0, 6.0, 8.0, 10.0, 12.0, 16.0, 20.0),
    *(25.0, 30.0, 40.0, 50.0),
)
"""mm."""

DOWELS_INCH: Final = (
    *(1 / 32, 3 / 64, 1 / 16, 5 / 64, 3 / 32, 1 / 8, 5 / 32, 3 / 16, 1 / 4, 5 / 16, 3 / 8),
    *(7 / 16, 1 / 2, 5 / 8, 3 / 4, 7 / 8, 1.0, 1.25, 1.5),
)
"""inch."""

GAUGES_MM: Final = tuple(round(0.05 * n, 2) for n in range(4, 401))
"""mm: 0.2 to 20."""

GAUGES_INCH: Final = tuple(round(0.0025 * n, 4) for n in range(4, 301))
"""inch: 0.010 to 0.750."""

SHARES: Final = (0.35, 0.45)
"""of the shorter flank: how far from its middle a dowel or a pin gauge may touch."""

PROUD: Final = 0.02
"""of the pin's diameter: the least that a chosen pin stands over the crests."""


def pin_name(diameter: float, unit: Unit, written: str) -> str:
    """A pin as the trade calls it: as written, or the fraction that four decimals would round.

    Args:
        diameter: mm, whatever the unit.
        unit: of the part; a fraction is for inches only.
        written: the diameter as a sheet writes it.
    """
    parts = 64 * diameter / 25.4
    if unit == "in" and abs(parts - round(parts)) < 1e-9 and round(parts) % 4:
        return fraction_name(round(parts))
    return written


def pin_fact(pin: float, unit: Unit) -> Figure | str:
    """A pin (mm) as a finding names it: by its name in the trade, or else its size."""
    return pin_name(pin, unit, "") or mm(pin)


def choose_pin(spaces: tuple[Toothing, ...], teeth: int, unit: Unit) -> float | None:
    """The diameter of a standard pin, mm; None when none serves.

    Args:
        spaces: the space as drawn first, then the same at its limits: one pin must serve them all.
        teeth: of the whole wheel.
        unit: whose lists are looked through: dowels first, then gauge pins.
    """
    scale = 25.4 if unit == "in" else 1.0
    lists = (DOWELS_INCH, GAUGES_INCH) if unit == "in" else (DOWELS_MM, GAUGES_MM)
    for sizes, share in zip(lists, SHARES, strict=True):
        for diameter in _suited(spaces[0], tuple(round(size * scale, 9) for size in sizes), share):
            if all(_serves(space, teeth, diameter) for space in spaces):
                return diameter
    return None


def _suited(space: Toothing, sizes: tuple[float, ...], share: float) -> list[float]:
    """Pins that touch within a share of the shorter flank of its middle, the nearest first."""
    low, high = root_length(space), min(flank.length for flank in flanks(space))
    middle, reach = (low + high) / 2, share * (high - low)
    least = diameter_touching_at(space, middle - reach)
    most = diameter_touching_at(space, middle + reach)
    fit = [size for size in sizes if least <= size <= most]
    return sorted(fit, key=lambda size: abs(contact_length(space, size) - middle))


def _serves(space: Toothing, teeth: int, diameter: float) -> bool:
    """Whether a pin stands proud enough, and rests on both flanks when it is rolled in."""
    face, _ = flanks(space)
    past = abs(pin_centre(space, diameter)) * apart(teeth) - abs(face.tip)
    if (-past if space.inside else past) + diameter / 2 < PROUD * diameter:
        return False
    try:
        check_pin(space, teeth, diameter)
    except BadPin:
        return False
    return True
