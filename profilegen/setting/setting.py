"""What the machine is set by: the plan on the blank at hand, its lengths along the axis, the speed.

Owns the gathering, and the findings of setting and running. Everything here is for the measured
blank where there is one, for the print's blank otherwise.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING

from profilegen.cutting.plan import Plan
from profilegen.findings.cannot_make import CannotMakeError
from profilegen.findings.finding import Finding, Make, Phrase, mm
from profilegen.forms.wheel import Wheel
from profilegen.geometry.tolerance import SAME_POINT
from profilegen.setting.bar import Bar, bar_for
from profilegen.setting.blank import (
    OnBlank,
    blank_findings,
    in_other_unit,
    on_blank,
    refused_blank,
)
from profilegen.setting.clash import clash_findings
from profilegen.setting.metals import is_hardened, metal_of
from profilegen.setting.speeds import SINGLE_POINT_CAP, Speed, speed_for

if TYPE_CHECKING:
    from profilegen.part.base import CutterTable
    from profilegen.part.part import Part

LONGEST_STICK_OUT = 3.0
"""of the blank's diameter, unsupported: common practice, no published source."""

THICKEST_FEELER = 0.3
"""mm, of paper and foil: common practice, no published source."""

_SOFT = ("silver steel", "carbon steel", "gauge plate", "drill rod")
"""Cutters of these do for brass and aluminium but not for steel (a shop article)."""

_HARDER = ("carbide", "cermet", "cbn", "boron nitride", "ceramic", "diamond")
"""Cutters of these cut a hardened wheel; how fast, their maker says."""


@dataclass(frozen=True, slots=True)
class Setting:
    """How the machine is set for one wheel; `bar` and `speed` are None without a cut.

    Attributes:
        wheel: as it comes out of the blank at hand.
        plan: how it is cut from that blank.
        blank: what another blank than the print's moves, or None.
        bar: lengths along the wheel axis.
        speed: starting values; None for a metal that is not known.
        findings: of blank, stick-out and speed.
    """

    wheel: Wheel
    plan: Plan
    blank: OnBlank | None
    bar: Bar | None
    speed: Speed | None
    findings: tuple[Finding, ...]


def setting_for(part: Part, wheel: Wheel, plan: Plan) -> Setting:
    """The settings of a planned wheel, on the measured blank if the part has one.

    A blank from which the wheel cannot be cut is a `refused` finding; the settings are then those
    of the print's blank.

    Args:
        part: for setup, blank, material and dials.
        wheel: on the print's blank, mm.
        plan: of that wheel; without cuts there are no bar and no speed.
    """
    other, refused = None, in_other_unit(part, wheel)
    if not refused:
        try:
            other = on_blank(part, wheel, plan)
        except CannotMakeError as refusal:
            refused = (refused_blank(part, wheel, refusal),)
    made, there = (other.wheel, other.plan) if other else (wheel, plan)
    said = (*refused, *blank_findings(part, wheel, plan, other))
    if not there.cuts:
        return Setting(made, there, other, None, None, said)
    cutter = _cutter(part, there)
    bar = bar_for(part, made, there.frame, there.cuts, cutter)
    setup, edges = part.setup, cutter.teeth if cutter else None
    speed = speed_for(part.material, bar.sweep, edges, setup.speed_limit, setup.surface_speed)
    return Setting(
        made,
        there,
        other,
        bar,
        speed,
        (
            *said,
            *_feeler_findings(part),
            *clash_findings(part, cutter, there.cuts, bar),
            *_bar_findings(part, made, bar),
            *_speed_findings(part, speed),
            *_metal_findings(part, cutter),
        ),
    )


def _cutter(part: Part, plan: Plan) -> CutterTable | None:
    return next((cutter for cutter in part.cutters if cutter.name == plan.cutter), None)


def _feeler_findings(part: Part) -> Iterator[Finding]:
    feeler = part.setup.feeler
    if feeler is not None and feeler > THICKEST_FEELER + SAME_POINT:
        make = Make("setup.feeler", "at most", mm(THICKEST_FEELER, "at most"))
        yield Finding(
            "feeler-thick",
            "caution",
            make.key,
            feeler,
            THICKEST_FEELER,
            facts={"feeler": mm(feeler)},
            advice=Phrase("for-paper", {"make": make}),
        )


def _bar_findings(part: Part, wheel: Wheel, bar: Bar) -> Iterator[Finding]:
    count, longest = part.blank.count, LONGEST_STICK_OUT * 2 * wheel.radius
    if count == 1 or bar.stick_out is None or bar.stick_out <= longest + SAME_POINT:
        return
    rest = bar.stick_out - count * part.pitch_on_bar
    fewer = max(1, int((longest - rest) / part.pitch_on_bar))
    make = Make("blank.count", "", fewer)
    yield Finding(
        "stick-out-long",
        "caution",
        make.key,
        bar.stick_out,
        longest,
        facts={"out": mm(bar.stick_out)},
        advice=Phrase("support-or", {"make": make}),
    )


def _speed_findings(part: Part, speed: Speed | None) -> Iterator[Finding]:
    if speed is not None and speed.capped_from is not None and part.setup.speed_limit is None:
        facts = {"cap": SINGLE_POINT_CAP}
        yield Finding("speed-capped", "note", "setup.speed_limit", facts=facts)


def _metal_findings(part: Part, cutter: CutterTable | None) -> Iterator[Finding]:
    """What the cutter's metal cannot do to the wheel's."""
    if cutter is None:
        return
    own = (cutter.material or "").lower().replace("-", " ")
    if is_hardened(part.material) and not any(word in own for word in _HARDER):
        facts = {"material": part.material}
        yield Finding("metal-hardened", "refused", "material", facts=facts)
    metal = metal_of(part.material)
    steel = metal.name if metal and "steel" in metal.name else None
    hard = any(word in own for word in ("high speed", "hss"))
    if steel and not hard and any(word in own for word in _SOFT):
        where = f"cutter[{part.cutters.index(cutter) + 1}].material"
        yield Finding(
            "cutter-soft",
            "caution",
            where,
            facts={"material": cutter.material or "", "steel": steel, "key": where},
            about=(cutter.name,),
        )
