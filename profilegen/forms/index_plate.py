"""The index plate: circles of drilled holes in a round plate, all of the form.

Owns its keys, where the holes stand, and what is too near to what. Hole 1 of every circle stands at
angle 0. The least web is common practice (half of the smaller hole), no published source.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from itertools import combinations
from typing import TYPE_CHECKING, ClassVar, Final, Literal, cast

import numpy as np
from pydantic import Field

from profilegen.findings.cannot_make import CannotMakeError
from profilegen.findings.finding import Fact, Finding, Make, Phrase, mm
from profilegen.forms.bore import hole_circle
from profilegen.forms.form import FIRST, LAST, Ask, Form, Hold
from profilegen.forms.wheel import Round, Size, Wheel
from profilegen.geometry.chain import Contour, Points, circle
from profilegen.geometry.measure import contains, nearest_each
from profilegen.geometry.tolerance import SAME_POINT
from profilegen.part.base import Table, WheelTable
from profilegen.part.fields import Length, Teeth

if TYPE_CHECKING:
    from profilegen.part.part import Part

LEAST_SHARE: Final = 0.5
"""Of the smaller hole's diameter: what is to stand between two holes, so that no pin spreads it."""


class HoleCircle(Table):
    """One circle of holes."""

    holes: Teeth = Field(description="The number of holes, evenly spaced round the whole circle.")
    circle_diameter: Length = Field(
        description="The diameter of the circle through the middles of the holes."
    )
    hole_diameter: Length = Field(description="The diameter of each hole.")


class IndexPlate(WheelTable):
    """An index plate: one or more circles of holes."""

    inner_lists: ClassVar = {"circles": HoleCircle}

    kind: Literal["index-plate"] = Field(
        description="The form of the wheel: a plate with circles of holes to divide by."
    )
    outside_diameter: Length = Field(description="The diameter of the plate.")
    circles: tuple[HoleCircle, ...] = Field(
        description="The circles of holes, each a [[wheel.circles]]."
    )


class IndexPlateForm(Form[IndexPlate]):
    """A round plate with circles of holes, which are drilled and not cut."""

    kind = "index-plate"
    keys = IndexPlate
    line = "a plate with circles of holes, to divide by"
    asked = (
        *(step for step in FIRST if step != Ask("wheel", "teeth")),
        Ask("wheel", "outside_diameter"),
        Ask("wheel", "thickness"),
        *(step for step in LAST if step.table == "bore"),
    )

    def toothed(self, keys: IndexPlate) -> Wheel:
        """The plate of these keys with its holes, without bore and other holes.

        Args:
            keys: of the plate, mm.

        Raises:
            CannotMakeError: holes run into each other or through the rim.
        """
        gone = [one for one in _webs(keys) if one.severity == "refused"]
        if gone:
            raise CannotMakeError(*gone)
        radius = keys.outside_diameter / 2
        return Wheel(
            kind=self.kind,
            thickness=keys.thickness,
            radius=radius,
            root_radius=radius,
            outline=circle(0, radius),
            sizes=_sizes(keys),
            other_rounds=tuple(_rounds(keys)),
            holes=tuple(hole for ring in keys.circles for hole in _holes(ring)),
            keys=keys,
        )

    def cautions(self, part: Part, wheel: Wheel) -> Iterator[Finding]:
        """Webs that are thin, mm, to the rim, between holes and to the bore."""
        keys = cast(IndexPlate, part.wheel)
        yield from _webs(keys)
        if wheel.bore is not None:
            for number, ring in enumerate(keys.circles, 1):
                middles = _middles(ring)
                sides = np.where(contains(wheel.bore, middles), -1.0, 1.0)
                apart = float(np.min(sides * nearest_each(wheel.bore, middles)[0]))
                away = Phrase("move-away", {"key": f"wheel.circles[{number}].circle_diameter"})
                web = apart - ring.hole_diameter / 2
                yield from _web("bore", web, ring.hole_diameter, away)

    def for_blank(self, keys: IndexPlate, diameter: float, hold: Hold | None) -> IndexPlate:
        """The holes stay where they are, on whatever plate.

        Args:
            keys: of the print.
            diameter: of the plate at hand, mm.
            hold: plays no part here.
        """
        del hold
        return keys.model_copy(update={"outside_diameter": diameter})

    def varied(self, keys: IndexPlate, sizes: Mapping[str, float]) -> IndexPlate:
        """Only the outside is a size that may vary: `outside_diameter`, mm."""
        return keys.model_copy(update=dict(sizes))


def _rounds(keys: IndexPlate) -> Iterator[Round]:
    for number, ring in enumerate(keys.circles, 1):
        name = f"circle {number}"
        yield Round(name, ring.holes, 0.0, ring.circle_diameter, ring.hole_diameter, "hole")


def _sizes(keys: IndexPlate) -> tuple[Size, ...]:
    """What is told of the plate, circle by circle."""
    found = [
        Size("kind", keys.kind, "text", "Kind", "given"),
        Size("outside_diameter", keys.outside_diameter, "length", "Outside diameter", "given"),
        Size("thickness", keys.thickness, "length", "Thickness", "given"),
        Size("circles", len(keys.circles), "count", "Circles of holes", "given"),
    ]
    for number, ring in enumerate(keys.circles, 1):
        key, name = f"circle_{number}", f"Circle {number}"
        pitch = math.tau / ring.holes
        found += [
            Size(f"{key}.holes", ring.holes, "count", f"{name}: holes", "given"),
            Size(f"{key}.diameter", ring.circle_diameter, "length", f"{name}: diameter", "given"),
            Size(f"{key}.hole_diameter", ring.hole_diameter, "length", f"{name}: hole", "given"),
            Size(f"{key}.pitch", pitch, "angle", f"{name}: hole to hole", "solved"),
            Size(f"{key}.chord", _chord(ring), "length", f"{name}: straight across", "solved"),
        ]
    return tuple(found)


def _holes(ring: HoleCircle) -> tuple[Contour, ...]:
    return hole_circle(ring.holes, ring.circle_diameter, ring.hole_diameter, 0.0)


def _middles(ring: HoleCircle) -> Points:
    """Of every hole, mm: shape (holes,), complex."""
    turns = math.tau * np.arange(ring.holes) / ring.holes
    return np.asarray(ring.circle_diameter / 2 * np.exp(1j * turns))


def _chord(ring: HoleCircle) -> float:
    """Straight from middle to middle of neighbours, mm."""
    return ring.circle_diameter * math.sin(math.pi / ring.holes)


def _webs(keys: IndexPlate) -> Iterator[Finding]:
    """Every web that is gone or thin, but that to the bore."""
    for number, ring in enumerate(keys.circles, 1):
        where, size = f"wheel.circles[{number}]", ring.hole_diameter
        rim = (keys.outside_diameter - ring.circle_diameter - size) / 2
        inside = Make(
            f"{where}.circle_diameter",
            "at most",
            mm(keys.outside_diameter - (1 + 2 * LEAST_SHARE) * size, "at most"),
        )
        yield from _web("rim", rim, size, inside)
        thinner = mm(_chord(ring) / (1 + LEAST_SHARE), "at most")
        yield from _web(
            "hole", _chord(ring) - size, size, Make(f"{where}.hole_diameter", "at most", thinner)
        )
    for (early, one), (late, other) in combinations(enumerate(keys.circles, 1), 2):
        apart = np.abs(_middles(one)[:, None] - _middles(other)[None, :])
        web = float(np.min(apart)) - (one.hole_diameter + other.hole_diameter) / 2
        away = Phrase("move-away", {"key": f"wheel.circles[{late}].circle_diameter"})
        smaller = min(one.hole_diameter, other.hole_diameter)
        yield from _web(f"circle {early}", web, smaller, away)


def _web(name: str, web: float, hole: float, advice: Make | Phrase) -> Iterator[Finding]:
    """What is to be said of one web; nothing of one that is thick enough.

    Args:
        name: of what lies beyond it.
        web: what is left, mm; negative where they cut into each other.
        hole: diameter of the hole, or of the smaller of two, that sets the least web, mm.
        advice: the key to change.
    """
    least = LEAST_SHARE * hole
    if web >= least - SAME_POINT:
        return
    where = advice.key if isinstance(advice, Make) else str(advice.facts["key"])
    if web <= 0:
        gone: dict[str, Fact] = {"name": name}
        yield Finding("hole-breaks-out", "refused", where, web, 0.0, facts=gone, advice=advice)
        return
    thin: dict[str, Fact] = {"web": mm(web), "name": name}
    yield Finding("web-thin", "caution", where, web, least, facts=thin, case="hole", advice=advice)


FORM = IndexPlateForm()
