"""From a part to its solved wheel: the table of tooth forms.

Owns which module solves which `[wheel] kind`. A form's module is imported when a part names it; it
offers `solve(part) -> Wheel`. A new tooth form is one module and one line here.
"""

from __future__ import annotations

from collections.abc import Callable
from importlib import import_module
from typing import TYPE_CHECKING, Final, cast

from profilegen.wheels.wheel import Wheel

if TYPE_CHECKING:
    from profilegen.part.part import Part

FORMS: Final[dict[str, str]] = {"ratchet": "profilegen.wheels.ratchet"}
"""Kind -> module with `solve(part)`."""


def solve(part: Part) -> Wheel:
    """Solve the wheel of a part: outline, bore, holes, facts and findings.

    Raises:
        CannotMakeError: no wheel has these sizes; its findings say why and what would pass.
    """
    form = cast(Callable[["Part"], Wheel], import_module(FORMS[part.wheel.kind]).solve)
    return form(part)
