"""What a careful machinist objects to in a sprocket.

Limits of tips and counts by ISO 606; width of the teeth and greatest hub as `sizes` tells them.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, Final

from profilegen.findings.finding import Fact, Finding, Make, Severity, bounded, mm
from profilegen.forms.sprocket.sizes import hub_limit, tooth_width
from profilegen.forms.sprocket.tooth import gap_of, limits_of, pitch_diameter
from profilegen.geometry.tolerance import SAME_POINT

if TYPE_CHECKING:
    from profilegen.forms.sprocket.keys import Sprocket
    from profilegen.part.part import Part

FEWEST, MOST = 9, 150
"""Teeth of the sprockets that ISO 606 covers."""

SMOOTH: Final = 17
"""Teeth under which a chain runs roughly (common practice, no published source)."""


def cautions_of(part: Part, keys: Sprocket) -> Iterator[Finding]:
    """Everything to be said of a sprocket that can be made.

    Args:
        part: for its hub.
        keys: of its wheel.
    """
    yield from _tip(keys)
    yield from _count(keys)
    yield from _width(keys)
    yield from _hub(part, keys)
    yield _drilled(keys)


def _drilled(keys: Sprocket) -> Finding:
    """The seats may be drilled before the blank is turned down to the tips."""
    chain = keys.roller
    limits = limits_of(chain.pitch, chain.roller, keys.teeth)
    drill = (2 * limits.seat[0], 2 * limits.seat[1])
    facts: dict[str, Fact] = {
        "least": mm(drill[0], "at least"),
        "most": mm(drill[1], "at most"),
        "circle": mm(pitch_diameter(chain.pitch, keys.teeth)),
    }
    return Finding("seats-drilled", "note", "wheel.chain", *drill, facts=facts)


def _tip(keys: Sprocket) -> Iterator[Finding]:
    """The tips lie outside the limits of the standard."""
    tip = 2 * gap_of(keys).tip
    chain = keys.roller
    low, high = limits_of(chain.pitch, chain.roller, keys.teeth).tip
    severity: Severity = "note" if keys.tip_diameter is None else "caution"
    if tip < low - SAME_POINT:
        make = Make("wheel.tip_diameter", "at least", mm(low, "at least"))
        yield bounded("tip-low", severity, make, tip, low, {"tip": mm(tip)})
    elif tip > high + SAME_POINT:
        make = Make("wheel.tip_diameter", "at most", mm(high, "at most"))
        yield bounded("tip-high", severity, make, tip, high, {"tip": mm(tip)})


def _count(keys: Sprocket) -> Iterator[Finding]:
    """A count outside the standard, or one with which a chain runs roughly."""
    if keys.teeth < FEWEST:
        make = Make("wheel.teeth", "at least", FEWEST)
        yield bounded("teeth-few", "caution", make, keys.teeth, FEWEST)
    elif keys.teeth > MOST:
        make = Make("wheel.teeth", "at most", MOST)
        yield bounded("teeth-many", "caution", make, keys.teeth, MOST)
    elif keys.teeth < SMOOTH:
        make = Make("wheel.teeth", "at least", SMOOTH)
        yield bounded("chain-rough", "note", make, keys.teeth, SMOOTH)


def _width(keys: Sprocket) -> Iterator[Finding]:
    """The teeth do not go between the plates of the chain."""
    most = tooth_width(keys)
    if most and keys.thickness > most + SAME_POINT:
        make = Make("wheel.thickness", "at most", mm(most, "at most"))
        yield bounded("teeth-wide", "caution", make, keys.thickness, most)


def _hub(part: Part, keys: Sprocket) -> Iterator[Finding]:
    """The plates of the chain run on the hub."""
    most = hub_limit(keys)
    if part.hub is not None and 0 < most < part.hub.diameter - SAME_POINT:
        make = Make("hub.diameter", "at most", mm(most, "at most"))
        yield bounded("hub-under-chain", "caution", make, part.hub.diameter, most)
