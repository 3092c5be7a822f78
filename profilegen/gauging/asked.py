"""What the part file asks of measuring that cannot be: everything at once, for every command.

Holds the check of `[tolerance]` and `[gauge]` against the sizes of the wheel at hand: each
tolerance by itself first, then what shows only when they are carried through together.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from functools import partial
from typing import TYPE_CHECKING

from profilegen.errors import InputError, Problem
from profilegen.findings.finding import Finding, Phrase, Remedy
from profilegen.gauging.bores import bore_features
from profilegen.gauging.gauges import gauges_for, span_teeth
from profilegen.part.allowance import INSIDE
from profilegen.part.limits import limits_of

if TYPE_CHECKING:
    from profilegen.cutting.poses import Cut
    from profilegen.forms.wheel import Wheel
    from profilegen.part.how_measured import Measured
    from profilegen.part.part import Part


def measuring_problems(
    part: Part, wheel: Wheel, made: Wheel, cuts: tuple[Cut, ...]
) -> tuple[Problem, ...]:
    """Everything that keeps a part from being measured as its file asks, by key path.

    Args:
        part: with its tolerances.
        wheel: of that part, on the print's blank.
        made: on the blank at hand; the same wheel where none is measured.
        cuts: by which it is made of that blank.
    """
    questions: list[Callable[[], object]] = [
        partial(limits_of, part.tolerance, *each) for each in _sizes(part, wheel)
    ]
    questions.append(partial(bore_features, part.bore, part.tolerance))
    questions.append(partial(span_teeth, part, made))
    questions.append(partial(gauges_for, part, wheel, made, cuts))
    return tuple(dict.fromkeys(one for ask in questions for one in _told_by(ask)))


def _sizes(part: Part, wheel: Wheel) -> Iterator[tuple[str, float, Measured | None]]:
    """Every length that may have a tolerance of its own, by its key in `[tolerance]`: its value in
    mm and how it is measured."""
    yield "outside_diameter", 2 * wheel.radius, None
    yield "thickness", wheel.thickness, None
    for size in wheel.sizes:
        if size.measured is not None and size.quantity == "length":
            yield size.key, wheel.fact(size.key), size.measured
    for key in (*sorted(INSIDE), "key_depth"):
        given = getattr(part.bore, key.removeprefix("bore_"), None)
        if given is not None:
            yield key, given, None


def unused_tolerances(part: Part, wheel: Wheel) -> Iterator[Finding]:
    """Each tolerance of a feature that this part has not, and so is used nowhere."""
    if part.tolerance is None:
        return
    has = {key for key, _, _ in _sizes(part, wheel)} | {"general"}
    has |= {size.key for size in wheel.sizes if size.measured is not None}
    for key in type(part.tolerance).model_fields:
        if key not in has and getattr(part.tolerance, key) is not None:
            where = f"tolerance.{key}"
            yield Finding(
                "tolerance-unused",
                "caution",
                where,
                remedy=Remedy(where, None),
                facts={"name": key.replace("_", " ")},
                advice=Phrase("take-out", {"key": where}),
            )


def _told_by(ask: Callable[[], object]) -> tuple[Problem, ...]:
    try:
        ask()
    except InputError as error:
        return error.problems
    return ()
