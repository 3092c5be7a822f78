"""The land's limits, and the spaces at its least and its greatest: what other sizes follow from.

Owns which given decides (the land, or the root where only that has a tolerance of its own), and the
default land made smaller where teeth are too small for it. Refuses what is measured of a space.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from profilegen.errors import InputError, Problem
from profilegen.gauging import spans
from profilegen.gauging.feature import combined
from profilegen.gauging.varied import NoSpace, deepest, land_for_root, with_land
from profilegen.geometry.tolerance import SAME_POINT
from profilegen.part.limits import Limits, is_given, limits_of
from profilegen.wheels.say import Say
from profilegen.wheels.solve import Hold
from profilegen.wheels.wheel import Space, Wheel

if TYPE_CHECKING:
    from profilegen.part.measuring import Tolerance
    from profilegen.part.part import Part


@dataclass(frozen=True, slots=True)
class Lands:
    """The land's limits, and the spaces at its least and its greatest.

    Attributes:
        land: limits of the land.
        root: limits of the root diameter.
        spaces: as drawn, at the least land or root, at the greatest.
        varied: which given the spaces were carried through from.
        root_follows: whether the root's limits follow from the land.
    """

    land: Limits
    root: Limits
    spaces: tuple[Space, ...]
    varied: Hold
    root_follows: bool

    @property
    def varied_words(self) -> str:
        """The given that decides, in words."""
        return "land" if self.varied == "land" else "root diameter"


def lands_of(part: Part, wheel: Wheel, made: Wheel, root_left: float | None) -> Lands:
    """The lands of a wheel of straight flanks.

    Args:
        part: with its tolerances.
        wheel: of the print: land and root that it gives keep their limits on any blank.
        made: the wheel on the blank at hand: every nominal is its own.
        root_left: radius of the deepest material that the cutter leaves, mm, when there is one.

    Raises:
        InputError: a class has no value at a size, or a land has no space left.
    """
    tolerance = part.tolerance
    land = _land_limits(tolerance, wheel, made)
    root, is_given_root = _root_limits(tolerance, wheel, made)
    by_root = is_given(tolerance, "root_diameter") and not is_given(tolerance, "land")
    if by_root:
        ends = tuple(_land_of(part, made, root, size) for size in (root.low, root.high))
        land = combined(land.nominal, ends, "follows from the root")
    spaces = (made.space, *(_space_of(part, made, size) for size in (land.low, land.high)))
    root_follows = not (is_given_root or is_given(tolerance, "root_diameter"))
    if root_follows:
        deeper = 0.0 if root_left is None else 2 * (made.root_radius - root_left)
        nominal, *sizes = (2 * deepest(each) - deeper for each in spaces)
        tip = " and the cutter's tip" if abs(deeper) > SAME_POINT else ""
        root = combined(nominal, tuple(sizes), f"follows from the land{tip}")
    return Lands(land, root, spaces, "root" if by_root else "land", root_follows)


def _is_given(wheel: Wheel, key: str) -> bool:
    """Whether the print gives this size, rather than that it follows from others."""
    return any(fact.key == key and fact.source == "given" for fact in wheel.facts)


def _root_limits(tolerance: Tolerance | None, wheel: Wheel, made: Wheel) -> tuple[Limits, bool]:
    """Limits of the root diameter, and whether the print gives it, or the depth from the rim."""
    size, is_given_root = 2 * made.root_radius, True
    if _is_given(wheel, "root_diameter"):
        size = 2 * wheel.root_radius
    elif _is_given(wheel, "tooth_depth"):
        size = 2 * (made.radius - (wheel.radius - wheel.root_radius))
    else:
        is_given_root = False
    limits = limits_of(tolerance, "root_diameter", size)
    return replace(limits, nominal=2 * made.root_radius), is_given_root


def _land_limits(tolerance: Tolerance | None, wheel: Wheel, made: Wheel) -> Limits:
    """As given, or the default, made smaller where teeth are too small for it."""
    of, here = wheel if _is_given(wheel, "land") else made, made.fact("land", 0.0)
    land = of.fact("land", 0.0)
    limits = limits_of(tolerance, "land", land)
    if not limits.is_default:
        return replace(limits, nominal=here)
    gap = spans.chord(2 * of.radius, of.teeth) - land
    low, high = max(limits.low, land / 2), min(limits.high, land + gap / 8)
    while not _has_space(made, high):
        high = (here + high) / 2
    cut = (low, high) != (limits.low, limits.high)
    source = f"{limits.source}, less for so small a tooth" if cut else limits.source
    return Limits(here, low, high, source)


def _has_space(wheel: Wheel, land: float) -> bool:
    """Whether the root still fits between the flanks; the land as drawn counts as such."""
    if land - wheel.fact("land", 0.0) < SAME_POINT:
        return True
    try:
        with_land(wheel.space, wheel.teeth, land)
    except NoSpace:
        return False
    return True


def _space_of(part: Part, wheel: Wheel, land: float) -> Space:
    try:
        return with_land(wheel.space, wheel.teeth, land)
    except NoSpace as error:
        text = f"at a land of {Say(part).length(land)} {error}"
        hint = 'give the land less room, such as tolerance.land = "+0.05 -0.02"'
        raise InputError(Problem("tolerance.land", text, hint=hint)) from None


def _land_of(part: Part, wheel: Wheel, root: Limits, size: float) -> float:
    try:
        return land_for_root(wheel.space, wheel.teeth, size / 2)
    except NoSpace as error:
        text = f"at a root diameter of {Say(part).length(size)} {error}"
        hint = "give it less room, or give tolerance.land instead"
        raise InputError(Problem("tolerance.root_diameter", text, root.source, hint=hint)) from None
