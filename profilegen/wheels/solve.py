"""From a part to its solved wheel: the table of tooth forms.

Owns which module solves which `[wheel] kind`. A form's module is imported when a part names it; it
offers `solve(part) -> Wheel`, and `keys_for_blank` where the same wheel can be cut from a blank of
another size. A new tooth form is one module and one line here.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from importlib import import_module
from typing import TYPE_CHECKING, Final, Literal, cast

from profilegen.errors import CannotMakeError, Finding
from profilegen.wheels.other_unit import in_cautions, in_refusal
from profilegen.wheels.wheel import Wheel

if TYPE_CHECKING:
    from profilegen.part.base import WheelTable
    from profilegen.part.part import Part

FORMS: Final[dict[str, str]] = {"ratchet": "profilegen.wheels.ratchet"}
"""Kind -> module with `solve(part)`."""


def solve(part: Part) -> Wheel:
    """Solve the wheel of a part: outline, bore, holes, facts and findings.

    Raises:
        CannotMakeError: no wheel has these sizes; its findings say why and what would pass.
    """
    form = cast(Callable[["Part"], Wheel], import_module(FORMS[part.wheel.kind]).solve)
    try:
        wheel = form(part)
    except CannotMakeError as refusal:
        raise CannotMakeError(*_mendable(part, refusal.findings, form)) from refusal
    about = in_cautions(part, wheel, form)
    return replace(wheel, findings=(*about, *wheel.findings)) if about else wheel


def _mendable(
    part: Part, findings: tuple[Finding, ...], form: Callable[[Part], Wheel]
) -> tuple[Finding, ...]:
    """The refusals of a part, a size in the other unit among them, each remedy tried."""
    from profilegen.wheels.proof import proved

    return proved(part, in_refusal(part, findings, form), lambda again: form(again).findings)


Hold = Literal["land", "root"]
"""Which given of a tooth stays, beside its space angle, when the blank is not nominal."""


def resolve_for_blank(part: Part, diameter: float, hold: Hold | None = None) -> Wheel:
    """Solve the same wheel on a blank of another diameter (mm).

    The givens of the print stay; with `hold` the space angle of the print and the one named.

    Raises:
        CannotMakeError: no wheel has these sizes, or this form takes no other blank.
    """
    form = import_module(FORMS[part.wheel.kind])
    keys_for = getattr(form, "keys_for_blank", None)
    if keys_for is None:
        text = "this form takes no other blank than its own: take out blank.diameter"
        raise CannotMakeError(Finding("blank-fixed", "refused", text, "blank.diameter"))
    rekeyed = cast("Callable[[WheelTable, float, Hold | None], WheelTable]", keys_for)
    return solve(replace(part, wheel=rekeyed(part.wheel, diameter, hold)))
