"""The size that the depth of the cut sets, within its limits: what other sizes follow from.

Owns its limits (a default made smaller where teeth are too small for it), those of the root, which
given decides (the root where only that has a tolerance of its own), and the wheels at the least and
the greatest, solved again. Refuses what is measured of a wheel.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from profilegen.errors import InputError, Problem
from profilegen.findings.finding import Refusal
from profilegen.findings.telling import told
from profilegen.forms.solve import varied
from profilegen.forms.wheel import Size, Wheel
from profilegen.gauging import spans
from profilegen.gauging.feature import combined
from profilegen.geometry.tolerance import SAME_POINT
from profilegen.part.limits import Limits, is_given, limits_of

if TYPE_CHECKING:
    from profilegen.part.measuring import Tolerance
    from profilegen.part.part import Part

ROOT = "root_diameter"


@dataclass(frozen=True, slots=True)
class Driven:
    """The limits of the size that the depth sets, and the wheels at its least and its greatest.

    Attributes:
        size: the one that the depth sets, as drawn.
        limits: of that size.
        root: limits of the root diameter.
        wheels: on the blank at hand as drawn, at the least size or root, at the greatest.
        key: of the given that the wheels were carried through from: that size, or the root.
        root_follows: whether the root's limits follow from that size.
    """

    size: Size
    limits: Limits
    root: Limits
    wheels: tuple[Wheel, ...]
    key: str
    root_follows: bool

    @property
    def words(self) -> str:
        """The given that decides, in words."""
        return "root diameter" if self.key == ROOT else self.size.label.lower()


def driven_of(part: Part, wheel: Wheel, made: Wheel, root_left: float | None) -> Driven:
    """What the depth of the cut sets on a wheel that has such a size.

    Args:
        part: with its tolerances.
        wheel: of the print: a size and a root that it gives keep their limits on any blank.
        made: the wheel on the blank at hand: every nominal is its own.
        root_left: radius of the deepest material that the cutter leaves, mm, when there is one.

    Raises:
        InputError: a class has no value at a size, or the limits leave no teeth.
    """
    tolerance, size = part.tolerance, made.size(made.driving)
    if size is None:
        raise ValueError(f"the depth sets no size of a {made.kind}")
    limits = _driving_limits(tolerance, wheel, made, size)
    root, is_given_root = _root_limits(tolerance, wheel, made)
    by_root = is_given(tolerance, ROOT) and not is_given(tolerance, size.key)
    if by_root:
        ends = tuple(_with(part, made, ROOT, root, each) for each in (root.low, root.high))
        found = tuple(end.fact(size.key) for end in ends)
        limits = combined(limits.nominal, found, "follows from the root")
    else:
        ends = tuple(_with(part, made, size.key, limits, x) for x in (limits.low, limits.high))
    wheels = (made, *ends)
    root_follows = not (is_given_root or is_given(tolerance, ROOT))
    if root_follows:
        deeper = 0.0 if root_left is None else 2 * (made.root_radius - root_left)
        nominal, *sizes = (2 * each.root_radius - deeper for each in wheels)
        tip = " and the cutter's tip" if abs(deeper) > SAME_POINT else ""
        root = combined(nominal, tuple(sizes), f"follows from the {size.label.lower()}{tip}")
    return Driven(size, limits, root, wheels, ROOT if by_root else size.key, root_follows)


def _root_limits(tolerance: Tolerance | None, wheel: Wheel, made: Wheel) -> tuple[Limits, bool]:
    """Limits of the root diameter, and whether the print gives it, or the depth from the rim."""
    size, is_given_root = 2 * made.root_radius, True
    if wheel.gives(ROOT):
        size = 2 * wheel.root_radius
    elif wheel.gives("tooth_depth"):
        size = 2 * (made.radius - (wheel.radius - wheel.root_radius))
    else:
        is_given_root = False
    limits = limits_of(tolerance, ROOT, size)
    return replace(limits, nominal=2 * made.root_radius), is_given_root


def _driving_limits(tolerance: Tolerance | None, wheel: Wheel, made: Wheel, size: Size) -> Limits:
    """As given, or the default; of a width, made smaller where teeth are too small for it."""
    of, here = wheel if wheel.gives(size.key) else made, made.fact(size.key)
    drawn = of.fact(size.key)
    limits = limits_of(tolerance, size.key, drawn, size.measured)
    if not limits.is_default or size.key == ROOT:
        return replace(limits, nominal=here)
    gap = spans.chord(2 * of.radius, of.teeth) - drawn
    low, high = max(limits.low, drawn / 2), min(limits.high, drawn + gap / 8)
    while not _is_there(made, size.key, high):
        high = (here + high) / 2
    cut = (low, high) != (limits.low, limits.high)
    source = f"{limits.source}, less for so small a tooth" if cut else limits.source
    return Limits(here, low, high, source)


def _is_there(wheel: Wheel, key: str, value: float) -> bool:
    """Whether teeth have this size; the size as drawn counts as such."""
    if value - wheel.fact(key) < SAME_POINT:
        return True
    try:
        varied(wheel, **{key: value})
    except Refusal:
        return False
    return True


def _with(part: Part, wheel: Wheel, key: str, limits: Limits, value: float) -> Wheel:
    """The teeth with one size at its limit.

    Raises:
        InputError: there are none.
    """
    try:
        return varied(wheel, **{key: value})
    except Refusal as error:
        label = "root diameter" if key == ROOT else key.replace("_", " ")
        figures = part.figures
        why = told(error.finding, figures)
        text = f"at a {label} of {figures.length(value)} {why}"
        hint = f'give it less room, such as tolerance.{key} = "+0.05 -0.02"'
        raise InputError(Problem(f"tolerance.{key}", text, limits.source, hint=hint)) from None
