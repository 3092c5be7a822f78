"""A measured blank outside the limits that the outside diameter has.

Owns the finding: the limit, and what land and root become on this blank, the root as the sheet has
it, as the cutter leaves it.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from profilegen.cutting.poses import Cut, root_left
from profilegen.findings.finding import Fact, Finding, Make, Phrase, bounded, mm
from profilegen.forms.wheel import Wheel
from profilegen.geometry.tolerance import SAME_POINT
from profilegen.part.limits import limits_of

if TYPE_CHECKING:
    from profilegen.part.part import Part


def blank_limit_findings(
    part: Part, wheel: Wheel, made: Wheel, cuts: tuple[Cut, ...]
) -> Iterator[Finding]:
    """What there is to say of a blank at hand that the print's limits leave out.

    Args:
        part: with its tolerances and its blank.
        wheel: of the print, mm.
        made: as it comes out of this blank.
        cuts: by which it is made of it.

    Raises:
        InputError: the tolerance of the outside diameter has no value at its size.
    """
    measured = part.blank.diameter
    if measured is None or abs(measured - 2 * made.radius) > SAME_POINT:
        return
    limits = limits_of(part.tolerance, "outside_diameter", 2 * wheel.radius)
    where, land = "blank.diameter", made.fact("land", None)
    facts: dict[str, Fact] = {
        "measured": mm(measured),
        "source": limits.source,
        "land": "" if land is None else Phrase("land-becomes", {"land": mm(land)}),
        "root": mm(2 * root_left(made, cuts)),
    }
    case = "" if made.is_toothed else "plain"
    if measured < limits.low - SAME_POINT:
        make = Make(where, "at least", mm(limits.low, "at least"))
        yield bounded("blank-small", "caution", make, measured, limits.low, facts, case=case)
    elif measured > limits.high + SAME_POINT:
        make = Make(where, "at most", mm(limits.high, "at most"))
        yield bounded("blank-large", "caution", make, measured, limits.high, facts, case=case)
