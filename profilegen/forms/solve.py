"""From a part to its solved wheel, whatever its tooth form.

Owns the order: the teeth by the form, the check that the outline does not cross itself, bore, hub
and holes, what is objected to; and the same teeth on another blank, or with another size. A form's
module is imported when a part names it.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from profilegen.findings.cannot_make import CannotMakeError
from profilegen.findings.finding import Finding, Phrase, Refusal
from profilegen.forms.form import AnyForm, Hold
from profilegen.forms.holes import features_of
from profilegen.forms.other_unit import in_cautions, in_refusal
from profilegen.forms.wheel import Wheel
from profilegen.geometry.validity import why_invalid
from profilegen.part.kinds import form_module

if TYPE_CHECKING:
    from profilegen.part.part import Part


def form_of(kind: str) -> AnyForm:
    """The tooth form of a `[wheel] kind`."""
    form: AnyForm = form_module(kind).FORM
    return form


def solve(part: Part) -> Wheel:
    """Solve the wheel of a part: outline, bore, holes, sizes and findings, mm and rad, the centre
    at the origin, seen from the front.

    Raises:
        CannotMakeError: no wheel has these sizes; its findings say why and what would pass.
    """
    try:
        wheel = _advised(part)
    except CannotMakeError as refusal:
        told = _mendable(part, refusal.findings)
        raise CannotMakeError(*told, figures=part.figures) from refusal
    about = in_cautions(part, wheel, _made)
    return replace(wheel, findings=(*about, *wheel.findings)) if about else wheel


def _mendable(part: Part, findings: tuple[Finding, ...]) -> tuple[Finding, ...]:
    """The refusals of a part, a size in the other unit among them, each remedy tried."""
    from profilegen.forms.proof import proved

    found = in_refusal(part, findings, _made)
    return proved(part, found, lambda again: _made(again).findings)


def _advised(part: Part) -> Wheel:
    """The wheel of a part; a refusal names the key to change and a value that passes.

    Raises:
        CannotMakeError: no wheel has these sizes.
    """
    try:
        return _made(part)
    except CannotMakeError as refusal:
        from profilegen.forms.advice import advised

        form = form_of(part.wheel.kind)
        raise CannotMakeError(*advised(part, form, refusal.findings, _whole)) from refusal


def _made(part: Part) -> Wheel:
    """The wheel of a part; what no key is blamed for yet is refused at `wheel`.

    Raises:
        CannotMakeError: no wheel has these sizes.
    """
    wheel = _whole(part)
    cautions = form_of(part.wheel.kind).cautions(part, wheel)
    return replace(wheel, findings=(*cautions, *wheel.findings))


def _whole(part: Part) -> Wheel:
    """The wheel of a part, its teeth not objected to.

    Raises:
        CannotMakeError: no wheel has these sizes.
    """
    try:
        wheel = form_of(part.wheel.kind).toothed(part.wheel)
    except Refusal as refusal:
        raise CannotMakeError(replace(refusal.finding, where="wheel")) from refusal
    fault = why_invalid(wheel.outline, pitches=max(wheel.teeth, 1))
    if fault is not None:
        raise CannotMakeError(Finding("teeth-overlap", "refused", "wheel", facts={"fault": fault}))
    features = features_of(part, wheel.radius, wheel.root_radius)
    return replace(
        wheel,
        bore=features.bore,
        holes=(*wheel.holes, *features.holes),
        bore_sizes=features.sizes,
        findings=features.findings,
    )


def varied(wheel: Wheel, **sizes: float) -> Wheel:
    """The same teeth with other sizes, solved again without bore and holes.

    What the cutter and the blank set stays as it is: the form says what.

    Args:
        wheel: as it is; it is not changed.
        sizes: key -> its new size, mm or rad.

    Raises:
        Refusal: no teeth have these sizes.
    """
    form = form_of(wheel.kind)
    return form.toothed(form.varied(wheel.keys, sizes))


def resolve_for_blank(part: Part, diameter: float, hold: Hold | None = None) -> Wheel:
    """Solve the same wheel on a blank of another diameter (mm).

    The givens of the print stay; with `hold` the space angle of the print and the one named.

    Raises:
        CannotMakeError: no wheel has these sizes, or this form takes no other blank.
    """
    keys = form_of(part.wheel.kind).for_blank(part.wheel, diameter, hold)
    if keys is None:
        where = "blank.diameter"
        advice = Phrase("take-out", {"key": where})
        fixed = Finding("blank-fixed", "refused", where, advice=advice)
        raise CannotMakeError(fixed, figures=part.figures)
    return solve(replace(part, wheel=keys))
