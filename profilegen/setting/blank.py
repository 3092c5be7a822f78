"""The blank as it really is: what moves when it is not of the size that the print gives.

Owns the wheel and the plan on a measured blank, the list of what moved, and what a careful
machinist says about it. The wheel of the print stays what is wanted; the measured blank
decides how the machine is set.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from profilegen.cutting.plan import Plan, plan_for
from profilegen.cutting.poses import Cut, root_left
from profilegen.cutting.touch import InfeedZero, infeed_from
from profilegen.errors import CannotMakeError, Finding, Remedy, Severity
from profilegen.forms.say import Say
from profilegen.forms.solve import resolve_for_blank
from profilegen.forms.wheel import Wheel
from profilegen.geometry.tolerance import SAME_POINT
from profilegen.units import MM_PER_INCH, both_units

if TYPE_CHECKING:
    from profilegen.part.part import Part

_ZEROS: tuple[InfeedZero, ...] = ("top", "offset")


@dataclass(frozen=True, slots=True)
class Shift:
    """One size that another blank changes.

    Attributes:
        key: for programs.
        label: the trade's words.
        nominal: on the blank of the print, mm.
        measured: on the blank at hand, mm.
        lap: of the cut it belongs to, or None when it is the wheel's.
        on_dial: of an infeed, both sizes again from its zero taken through the feeler, mm; else
            None.
    """

    key: str
    label: str
    nominal: float
    measured: float
    lap: int | None = None
    on_dial: tuple[float, float] | None = None

    @property
    def told(self) -> tuple[float, float]:
        """Nominal and measured as people are told them, mm."""
        return self.on_dial or (self.nominal, self.measured)


@dataclass(frozen=True, slots=True)
class OnBlank:
    """The wheel on the blank as measured.

    Attributes:
        wheel: with the same givens, or those that `hold` names, on this blank.
        plan: how it is cut.
        shifts: what moved and what did not, land and root first.
    """

    wheel: Wheel
    plan: Plan
    shifts: tuple[Shift, ...]


def on_blank(part: Part, wheel: Wheel, plan: Plan) -> OnBlank | None:
    """The wheel on the measured blank; None when the blank is nominal or not measured.

    Args:
        part: for the blank as measured and what `blank.hold` keeps.
        wheel: on the print's blank, mm.
        plan: of that wheel, for what moved.

    Raises:
        CannotMakeError: no such wheel can be cut from it.
    """
    measured = part.blank.diameter
    if measured is None or abs(measured - 2 * wheel.radius) <= SAME_POINT:
        return None
    made = resolve_for_blank(part, measured, part.blank.hold)
    there = plan_for(part, made)
    return OnBlank(made, there, tuple(_shifts(part, wheel, made, plan, there)))


def _shifts(part: Part, wheel: Wheel, made: Wheel, plan: Plan, there: Plan) -> Iterator[Shift]:
    before, after = wheel.fact("land", None), made.fact("land", None)
    if before is not None and after is not None:
        yield Shift("land", "Land", before, after)
    roots = (2 * root_left(wheel, plan.cuts), 2 * root_left(made, there.cuts))
    yield Shift("root_diameter", "Root diameter, real material", *roots)
    for old, new in zip(plan.cuts, there.cuts, strict=False):
        yield Shift("offset", "Offset of the apex", old.offset, new.offset, old.lap)
        for zero in _ZEROS:
            yield _infeed_shift(old, new, zero, part.setup.feeler or 0.0)


def _infeed_shift(old: Cut, new: Cut, zero: InfeedZero, feeler: float) -> Shift:
    before, after = (infeed_from(cut, zero, 0.0) for cut in (old, new))
    told = (infeed_from(old, zero, feeler), infeed_from(new, zero, feeler))
    return Shift(
        f"infeed_from_{zero}", f"Infeed from the {zero} zero", before, after, old.lap, told
    )


def in_other_unit(part: Part, wheel: Wheel) -> tuple[Finding, ...]:
    """The finding of a measured diameter that makes sense in the other unit only."""
    measured, nominal = part.blank.diameter, 2 * wheel.radius
    if measured is None:
        return ()
    factor = float(MM_PER_INCH)
    other, words = ("in", "inches") if part.file_units == "mm" else ("mm", "millimetres")
    meant = measured * factor if part.file_units == "mm" else measured / factor
    if not (0.8 < meant / nominal < 1.25 < max(measured / nominal, nominal / measured)):
        return ()
    said = measured / factor if part.file_units == "in" else measured
    typed = f"{said:g} {other}"
    text = (
        f"a blank of {both_units(measured, first=part.units)} is none for this wheel, and in "
        f'{words} it would be: make blank.diameter "{typed}"'
    )
    remedy = Remedy("blank.diameter", typed)
    return (Finding("blank-unit", "refused", text, "blank.diameter", measured, nominal, remedy),)


def blank_findings(
    part: Part, wheel: Wheel, plan: Plan, found: OnBlank | None
) -> Iterator[Finding]:
    """What there is to say about the blank."""
    say = Say(part)
    if found is not None:
        yield _differs(part, say, wheel, found)
        yield from _only_there(wheel, plan, found)


def run_out_findings(part: Part, limit: float) -> Iterator[Finding]:
    """What there is to say of a blank whose run-out was measured.

    Args:
        part: without `blank.run_out` nothing is said.
        limit: greatest run-out, the whole swing of the indicator, mm.
    """
    run_out = part.blank.run_out
    if run_out is not None and run_out > limit + SAME_POINT:
        text = "the blank runs out, so the lands swing once a turn, wide to narrow"
        yield Say(part).sized(
            "blank-runs-out", "caution", text, "blank.run_out", run_out, limit, than="at most"
        )


def _only_there(wheel: Wheel, plan: Plan, found: OnBlank) -> Iterator[Finding]:
    """What is to be said of the wheel on this blank and not of the print's."""
    known = {(finding.code, finding.severity) for finding in (*wheel.findings, *plan.findings)}
    for finding in (*found.wheel.findings, *found.plan.findings):
        if (finding.code, finding.severity) not in known:
            yield replace(finding, message=f"on the blank as measured: {finding.message}")


def _differs(part: Part, say: Say, wheel: Wheel, found: OnBlank) -> Finding:
    moved = [shift for shift in found.shifts if abs(shift.measured - shift.nominal) > 5e-4]
    told = ", ".join(
        " to ".join(
            (f"{shift.label.lower()} {say.length(shift.told[0])}", say.length(shift.told[1]))
        )
        for shift in moved
        if shift.lap in (None, 1)
    )
    far = any(
        shift.lap is None and abs(shift.measured - shift.nominal) > part.setup.accept
        for shift in moved
    )
    nominal, measured = 2 * wheel.radius, 2 * found.wheel.radius
    held = f"its space angle and {part.blank.hold}" if part.blank.hold else "the print's givens"
    text = (
        f"the blank measures {say.length(measured)} where the print has {say.length(nominal)}; "
        f"with {held} held this moves: {told or 'nothing you could measure'}; the settings are "
        f"for this blank; to have the print's make blank.diameter {say.length(nominal)}"
    )
    severity: Severity = "caution" if far else "note"
    return Finding("blank-differs", severity, text, "blank.diameter", measured, nominal)


def refused_blank(part: Part, wheel: Wheel, refusal: CannotMakeError) -> Finding:
    """The finding of a blank from which no such wheel can be cut."""
    say, nominal = Say(part), 2 * wheel.radius
    text = (
        f"on the blank as measured {refusal.findings[0].message.partition(':')[0]}: make "
        f"blank.diameter {say.length(nominal)}, or hold the other given by blank.hold"
    )
    return Finding("blank-refused", "refused", text, "blank.diameter", part.blank.diameter, nominal)
