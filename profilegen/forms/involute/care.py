"""What is objected to in any involute gear, whatever cuts it.

Limits are common practice, no published source.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator

from profilegen.findings.finding import Finding, Make, bounded, mm
from profilegen.forms.involute.cutters import FEWEST, cutter_for
from profilegen.forms.involute.tooth import Gear
from profilegen.geometry.tolerance import SAME_POINT

THINNEST_TIP = 0.2
"""of the module: a thinner tip burrs, and chips when hardened."""


def thin_tip(gear: Gear, low: float, width_at: Callable[[float], float]) -> Iterator[Finding]:
    """A tip so thin that it burrs, and the outside with which it is not.

    Args:
        gear: whose module and outside count.
        low: radius at which the teeth are wide enough, mm.
        width_at: straight across a tip, mm, of the same teeth with another outside radius, mm.
    """
    least = THINNEST_TIP * gear.module
    width, high = width_at(gear.outside), gear.outside
    if width >= least - SAME_POINT:
        return
    for _ in range(60):
        middle = (low + high) / 2
        low, high = (middle, high) if width_at(middle) >= least else (low, middle)
    make = Make("wheel.outside_diameter", "at most", mm(2 * low, "at most"))
    facts = {"width": mm(width)}
    yield bounded("tip-thin", "caution", make, 2 * gear.outside, 2 * high, facts)


def of_cutter(teeth: int) -> Iterator[Finding]:
    """A count for which no set has a cutter."""
    if cutter_for(teeth) is None:
        facts = {"teeth": teeth}
        yield Finding("cutter-range", "note", "wheel.teeth", teeth, FEWEST, facts=facts)
