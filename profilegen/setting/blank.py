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
from profilegen.findings.cannot_make import CannotMakeError
from profilegen.findings.finding import Fact, Finding, Make, Phrase, Remedy, Severity, bounded, mm
from profilegen.forms.solve import resolve_for_blank
from profilegen.forms.wheel import Wheel
from profilegen.geometry.tolerance import SAME_POINT
from profilegen.units import MM_PER_INCH, UNIT_WORDS, Unit

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
    if not wheel.is_toothed:
        return
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
    other: Unit = "in" if part.file_units == "mm" else "mm"
    meant = measured * factor if part.file_units == "mm" else measured / factor
    if not (0.8 < meant / nominal < 1.25 < max(measured / nominal, nominal / measured)):
        return ()
    said = measured / factor if part.file_units == "in" else measured
    typed = f"{said:g} {other}"
    where = "blank.diameter"
    found = Finding(
        "blank-unit",
        "refused",
        where,
        measured,
        nominal,
        Remedy(where, typed),
        {"size": mm(measured), "unit": UNIT_WORDS[other]},
        advice=Make(where, "", f'"{typed}"'),
    )
    return (found,)


def blank_findings(
    part: Part, wheel: Wheel, plan: Plan, found: OnBlank | None
) -> Iterator[Finding]:
    """What there is to say about the blank."""
    if found is not None:
        yield _differs(part, wheel, found)
        yield from _only_there(wheel, plan, found)


def run_out_findings(part: Part, wheel: Wheel, limit: float) -> Iterator[Finding]:
    """What there is to say of a blank whose run-out was measured.

    Args:
        part: without `blank.run_out` nothing is said.
        wheel: whose teeth swing.
        limit: greatest run-out, the whole swing of the indicator, mm.
    """
    run_out = part.blank.run_out
    if run_out is not None and run_out > limit + SAME_POINT:
        make = Make("blank.run_out", "at most", mm(limit, "at most"))
        case = "" if wheel.has_lands else "teeth"
        yield bounded("blank-runs-out", "caution", make, run_out, limit, case=case)


def _only_there(wheel: Wheel, plan: Plan, found: OnBlank) -> Iterator[Finding]:
    """What is to be said of the wheel on this blank and not of the print's."""
    known = {(finding.code, finding.severity) for finding in (*wheel.findings, *plan.findings)}
    for finding in (*found.wheel.findings, *found.plan.findings):
        if (finding.code, finding.severity) not in known:
            yield replace(finding, about=(Phrase("on-blank"), *finding.about))


def _differs(part: Part, wheel: Wheel, found: OnBlank) -> Finding:
    moved = [shift for shift in found.shifts if abs(shift.measured - shift.nominal) > 5e-4]
    told = tuple(_shift_told(shift) for shift in moved if shift.lap in (None, 1))
    far = any(
        shift.lap is None and abs(shift.measured - shift.nominal) > part.setup.accept
        for shift in moved
    )
    nominal, measured = 2 * wheel.radius, 2 * found.wheel.radius
    hold, make = part.blank.hold, Make("blank.diameter", "", mm(nominal))
    facts: dict[str, Fact] = {
        "measured": mm(measured),
        "nominal": mm(nominal),
        "held": Phrase("angle-and", {"held": hold}) if hold else Phrase("givens"),
        "moved": told or Phrase("no-shift"),
        "make": make,
    }
    severity: Severity = "caution" if far else "note"
    return Finding("blank-differs", severity, make.key, measured, nominal, facts=facts)


def _shift_told(shift: Shift) -> Phrase:
    nominal, measured = map(mm, shift.told)
    label = shift.label.lower()
    return Phrase("shift", {"label": label, "nominal": nominal, "measured": measured})


def refused_blank(part: Part, wheel: Wheel, refusal: CannotMakeError) -> Finding:
    """The finding of a blank from which no such wheel can be cut."""
    nominal = 2 * wheel.radius
    make = Make("blank.diameter", "", mm(nominal))
    return Finding(
        "blank-refused",
        "refused",
        make.key,
        part.blank.diameter,
        nominal,
        facts={"cause": refusal.findings[0]},
        advice=(make, Phrase("or-hold")),
    )
