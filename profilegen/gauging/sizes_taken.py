"""The sizes that trial cuts show, beside the land: over pins, over the crests.

Each is a function of the infeed still to go: the pin sinks with the flanks that the last lap forms,
exactly, as straight flanks move along the infeed; the crests end where the cutter leaves the blank.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from profilegen.cutting.gap import land_left, monotone_root
from profilegen.cutting.taken import Taken, land_taken
from profilegen.gauging import spans
from profilegen.gauging.curved_flanks import curved_taken, is_curved
from profilegen.gauging.pins import Infeed, contacts, pin_centre, pin_moves
from profilegen.geometry.tooth_sizes import over_pins

if TYPE_CHECKING:
    from profilegen.cutting.poses import Cut
    from profilegen.forms.wheel import Wheel
    from profilegen.gauging.gauges import Gauges


def sizes_taken(wheel: Wheel, cuts: tuple[Cut, ...], gauges: Gauges) -> dict[str, Taken]:
    """Every size that trial cuts of a wheel show, by its key: the land first, or, of curved flanks,
    the size over pins; each in mm, as a function of the infeed that the last lap still has to go.

    Args:
        wheel: on the blank at hand.
        cuts: one a lap; not empty.
        gauges: what is measured of it.
    """
    return {taken.key: taken for taken in _taken(wheel, cuts, gauges)}


def _taken(wheel: Wheel, cuts: tuple[Cut, ...], gauges: Gauges) -> Iterator[Taken]:
    if is_curved(wheel):
        spanned = gauges.span_teeth if gauges.feature("span") is not None else 0
        has_chord = gauges.feature("chordal") is not None
        yield from curved_taken(wheel, cuts, gauges.pin, spanned, has_chord)
        return
    yield land_taken(wheel, cuts)
    if gauges.feature("span") is not None:
        yield _span_taken(wheel, cuts, gauges.span_teeth)
    if gauges.pin is not None and gauges.leaves is None and cuts[-1].forms != "middle":
        yield _pins_taken(wheel, cuts[-1], gauges.pin)


def _span_taken(wheel: Wheel, cuts: tuple[Cut, ...], teeth: int) -> Taken:
    def over(remaining: float) -> float:
        land = land_left(wheel, cuts, remaining)
        return spans.crest_span(wheel.radius, wheel.teeth, land, teeth)

    return Taken(
        "span",
        f"size over the crests of {teeth} teeth",
        f"sizes over the crests of {teeth} teeth",
        over,
        cuts[-1].infeed_from_offset,
        "outer corner to outer corner",
        spaces=(1, teeth + 1),
    )


def _pins_taken(wheel: Wheel, last: Cut, pin: float) -> Taken:
    infeed = Infeed(last.turn, last.forms != "back", last.forms != "face")
    centre, move = pin_centre(wheel.space, pin), pin_moves(wheel.space, infeed)

    def over(remaining: float) -> float:
        return over_pins(centre - remaining * move, pin, wheel.teeth)

    def past_the_blank(remaining: float) -> float:
        """How far a contact lies past the blank's edge, mm: no pin rests there."""
        places = contacts(wheel.space, centre - remaining * move, pin)
        return max(abs(place) for place in places) - wheel.radius

    touch = last.infeed_from_offset
    most = touch if past_the_blank(touch) < 0 else monotone_root(past_the_blank, 0.0, touch)
    return Taken(
        "over_pins",
        "size over pins",
        "sizes over pins",
        over,
        most,
        "with both pins in the spaces cut",
        spaces=(1, 1 + wheel.teeth // 2),
    )
