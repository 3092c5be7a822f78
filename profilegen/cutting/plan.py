"""From a part and its solved wheel to the cuts and the set-up frame.

Owns the choice of the cutter and of the way round it stands, and what a careful machinist would
say about the set-up. What cannot be cut is a `refused` finding in the plan: the wheel itself may
still be bought.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, cast

from profilegen.cutting.frame import OPPOSITE, Direction, Frame, frame_for
from profilegen.cutting.poses import Cut, NoPose, Tool, cuts_for, is_held
from profilegen.cutting.tools import tools_for
from profilegen.cutting.wedge import Wedge, is_wedge_kind, ways_round
from profilegen.findings.finding import (
    Fact,
    Finding,
    Make,
    Phrase,
    Remedy,
    Severity,
    Than,
    bounded,
    mm,
    rad,
)
from profilegen.forms.wheel import Wheel
from profilegen.geometry.tolerance import SAME_POINT

if TYPE_CHECKING:
    from profilegen.cutting.compare import Match
    from profilegen.cutting.fit import Fit
    from profilegen.part.base import CutterTable
    from profilegen.part.part import Part
    from profilegen.part.tables import Setup


HOOK_TOLERANCE = math.radians(1.0)
"""rad that a hook may be off before the pawl is in question: common practice, no published
source."""


@dataclass(frozen=True, slots=True)
class Plan:
    """How one wheel is cut.

    Attributes:
        cutter: name of the cutter that is set up, or None without one.
        cuts: one, or one for each of two or three laps; empty when no cutter is given or none can
            form the space.
        frame: how it stands on the machine.
        flat: where the flat (the steeper flank) of an angle cutter looks, or None.
        findings: cautions and refusals of the set-up.
    """

    cutter: str | None
    cuts: tuple[Cut, ...]
    frame: Frame
    flat: Direction | None
    findings: tuple[Finding, ...]


def plan_for(part: Part, wheel: Wheel) -> Plan:
    """The plan for the cutter that `[setup]` names, or the first one.

    Args:
        part: for its cutters and `[setup]`.
        wheel: on the blank that is cut, mm; the print's, or the one at hand.

    Raises:
        CannotMakeError: the wheel of a form cutter cannot be made. What keeps any other cutter from
            cutting this wheel is a `refused` finding of the plan.
    """
    frame = frame_for(part.setup, wheel.hand)
    if not wheel.is_toothed:
        return Plan(None, (), frame, None, tuple(_needless(part)))
    cutter, cuts, findings = cuts_of(part, wheel, frame)
    flat = _flat_looks(frame, cuts[0].tool) if cuts else None
    return Plan(cutter, cuts, frame, flat, findings)


def _needless(part: Part) -> Iterator[Finding]:
    """That a wheel without teeth to cut takes no cutter, where its file has some."""
    if part.cutters and not part.cutters_from:
        where = "cutter[1]"
        yield Finding("cutter-needless", "note", where, advice=Phrase("take-out", {"key": where}))


def cuts_of(
    part: Part, wheel: Wheel, frame: Frame
) -> tuple[str | None, tuple[Cut, ...], tuple[Finding, ...]]:
    """The cutter that is set up, its cuts, one a lap, and what is to be said of the set-up.

    Args:
        part: for its cutters and `[setup]`.
        wheel: on the blank that is cut, mm.
        frame: how it stands on the machine.

    Returns:
        Its name, or None where the part has none; no cuts where it cannot form the space, which is
        then a `refused` finding.
    """
    number = _chosen(part)
    if number is None:
        return None, (), (Finding("no-cutter", "note", "cutter"),)
    where, cutter = f"cutter[{number + 1}]", part.cutters[number]
    try:
        cuts = choose(part, wheel, frame, cutter, where)
    except NoPose as refusal:
        return cutter.name, (), (_refusal(refusal.finding, cutter, part.setup, where, wheel),)
    about = _plunge_findings if cuts[0].forms == "space" else _cut_findings
    findings = (
        *about(part.setup, wheel, cutter, cuts, where),
        *_frame_findings(part, wheel, frame, cuts[0].tool),
    )
    return cutter.name, cuts, findings


def _chosen(part: Part) -> int | None:
    names = [cutter.name for cutter in part.cutters]
    wanted = part.setup.cutter
    if wanted is not None and wanted in names:
        return names.index(wanted)
    return 0 if names else None


def choose(
    part: Part, wheel: Wheel, frame: Frame, cutter: CutterTable, where: str
) -> tuple[Cut, ...]:
    """The cuts of one cutter, the way round that `[setup] flat` asks for, or else the usual one.

    A wedge is matched flank on flank unless `[setup]` holds its pose, or gives a left-over that is
    still usable and the deepest plunge stays within it.

    Args:
        part: for `[setup]`; its `accept` is mm.
        wheel: on the print's blank or the one at hand: the cuts are for that one.
        frame: for the side to which a flat looks.
        cutter: as the part file gives it.
        where: its key path.

    Raises:
        NoPose: it cannot form the space, or `flat` contradicts the hand.
    """
    setup, ways = part.setup, _allowed(part, frame, tools_for(cutter, where))
    refusals = []
    if is_wedge_kind(cutter) and not is_held(setup):
        for way in ways:
            try:
                return cuts_for(wheel, cast("Wedge", way), setup.first)
            except NoPose as refusal:
                refusals.append(refusal)
        if "accept" not in setup.model_fields_set:
            raise refusals[0]
    from profilegen.cutting.compare import compared

    (match,) = compared(wheel, [ways], setup)
    if not match.cuts or (refusals and match.verdict != "forms"):
        raise refusals[0] if refusals else _cannot_enter(match)
    return match.cuts


def _cannot_enter(match: Match) -> NoPose:
    """The refusal of a cutter that has no pose, with the reason that the comparison found."""
    if match.why is None:
        return NoPose("cutter-cannot-enter")
    return NoPose("cutter-cannot-enter", case="why", facts={"why": match.why})


def _allowed(part: Part, frame: Frame, ways: tuple[Tool, ...]) -> tuple[Tool, ...]:
    """The ways round whose flat looks as `[setup] flat` asks.

    Raises:
        NoPose: there is none.
    """
    wanted = part.setup.flat
    if wanted is None or part.setup.cutter_side == "above":
        return ways
    allowed = tuple(way for way in ways if _flat_looks(frame, way) in (wanted, None))
    if not allowed:
        raise NoPose("hand-contradiction", facts=_contradiction(frame, wanted))
    return allowed


def _plunge_findings(
    setup: Setup, wheel: Wheel, cutter: CutterTable, cuts: tuple[Cut, ...], where: str
) -> Iterator[Finding]:
    """What the deepest plunge leaves in the space, and whether that is still usable."""
    from profilegen.cutting.fit import fit_of

    fit, accept = fit_of(wheel, cuts), setup.accept
    left, key, about = fit.left_over, "setup.accept", (cutter.name,)
    place, makes = wheel.named(left.where), _makes(wheel, fit)
    facts: dict[str, Fact] = {"left": mm(left.value), "place": place, "makes": makes}
    if SAME_POINT < left.value <= accept:
        within: dict[str, Fact] = {**facts, "accept": mm(accept)}
        wanted = wheel.fact("hook_angle", None)
        leans = wanted is not None and abs(fit.hook - wanted) > HOOK_TOLERANCE
        severity: Severity = "caution" if leans else "note"
        yield Finding("cutter-usable", severity, key, left.value, accept, facts=within, about=about)
    if left.value > accept:
        make = Make(key, "at least", mm(left.value, "at least"))
        yield Finding(
            "cutter-leaves",
            "caution",
            key,
            left.value,
            accept,
            facts=facts,
            advice=Phrase("choose-or", {"make": make}),
            about=about,
        )


def _makes(wheel: Wheel, fit: Fit) -> Phrase:
    """What comes out of the cuts in place of the wheel's own sizes."""
    root, crest = mm(2 * fit.root_radius), mm(fit.land)
    if not wheel.has_lands:
        return Phrase("makes-tip", {"tip": crest, "root": root})
    return Phrase("makes", {"land": crest, "hook": rad(fit.hook), "root": root})


def _flat_looks(frame: Frame, wedge: Tool) -> Direction | None:
    """Where the steeper flank looks in the view; None for a symmetric wedge and other shapes.

    A flank looks away from the wedge, at the tooth that it forms.
    """
    if not isinstance(wedge, Wedge) or math.isclose(wedge.face_side, wedge.back_side):
        return None
    lies = frame.face_tooth_lies
    return lies if wedge.face_side < wedge.back_side else OPPOSITE[lies]


def _contradiction(frame: Frame, flat: str) -> dict[str, str]:
    wanted = frame.hand_at_free_end
    return {
        "head": frame.head,
        "side": frame.cutter_side,
        "flat": flat,
        "comes": "clockwise" if wanted == "counter-clockwise" else "counter-clockwise",
        "wanted": wanted,
    }


def _refusal(
    refusal: Finding, cutter: CutterTable, setup: Setup, where: str, wheel: Wheel
) -> Finding:
    """The finding of a cutter that cannot form this space, with the key and a value that would
    pass."""
    key, advice, remedy = _advice(refusal, cutter, setup, where, wheel)
    if refusal.code in ("cutter-too-wide", "root-too-tight", "root-not-exact"):
        advice = Phrase("or-accept", {"advice": advice})
    return replace(refusal, where=key, advice=advice, remedy=remedy, about=(cutter.name,))


Advice = tuple[str, "Fact", "Remedy | None"]
"""The key to change, what to do, and the value that does it where one is known."""


def _advice(
    refusal: Finding, cutter: CutterTable, setup: Setup, where: str, wheel: Wheel
) -> Advice:
    limit = refusal.limit or 0.0
    match refusal.code:
        case "cutter-too-wide":
            return _other_angle(cutter, where, "at most", limit)
        case "island-left":
            return _other_angle(cutter, where, "at least", limit)
        case "root-too-tight":
            make = Make(_tip_key(cutter, where), "", mm(limit, "at most"))
            root = "root_flat" if wheel.space.root_flat else "root_radius"
            return make.key, (make, Phrase("or-bigger", {"key": f"wheel.{root}"})), make.remedy
        case "root-not-exact":
            make = Make(f"{where}.tip_radius", "", mm(limit))
            inexact = Phrase("or-write", {"key": "wheel.root_exact", "value": "false"})
            return make.key, (make, inexact), make.remedy
        case "edge-short":
            need = _whole_edge(wheel, cutter, limit)
            key, passing = _edge_key(cutter, ways_round(cutter)[0], need)
            make = Make(f"{where}.{key}", "at least", mm(passing, "at least"))
            return make.key, make, make.remedy
        case "hand-contradiction":
            return _turned_over(setup)
        case _ if is_held(setup):
            key = "setup.offset" if setup.offset is not None else "setup.face_angle"
            return key, Phrase("is-held", {"key": key}), Remedy(key, None)
        case _:
            return where, Phrase("choose-another"), None


def _other_angle(cutter: CutterTable, where: str, than: Than, limit: float) -> Advice:
    """A wedge of another included angle; `limit` in degrees."""
    keys = {"vee": "included_angle", "single-angle": "angle"}
    key, angle = f"{where}.{keys.get(cutter.kind, 'angles')}", rad(math.radians(limit), than)
    if cutter.kind == "double-angle":
        return key, Phrase("add-up", {"key": key, "than": than, "angle": angle}), None
    make = Make(key, than, angle)
    return key, make, make.remedy


def _tip_key(cutter: CutterTable, where: str) -> str:
    return f"{where}.{'tip_flat' if cutter.tip_flat else 'tip_radius'}"


def _turned_over(setup: Setup) -> Advice:
    """The flat, the cutter or the wheel the other way round."""
    key, flat = "setup.flat", "up" if setup.flat == "down" else "down"
    front = "head" if setup.front == "free end" else "free end"
    facts = {"key": key, "flat": flat, "front": front}
    return key, Phrase("or-turn-over", facts), Remedy(key, flat)


def _cut_findings(
    setup: Setup, wheel: Wheel, cutter: CutterTable, cuts: tuple[Cut, ...], where: str
) -> Iterator[Finding]:
    if cutter.tip_radius is None and cutter.tip_flat is None:
        yield Finding(
            "tip-assumed-sharp",
            "caution",
            f"{where}.tip_radius",
            facts={"cutter": where},
            about=(cutter.name,),
        )
    yield from _root_findings(setup, wheel, cutter, cuts, where)
    if len(cuts) > 1:
        spare, first = wheel.space.angle - cuts[0].wedge.angle, wheel.named(cuts[0].forms)
        facts: dict[str, Fact] = {
            "cutter": cutter.name,
            "spare": rad(spare),
            "laps": len(cuts),
            "first": first,
            "angle": rad(wheel.space.angle),
        }
        yield Finding("two-laps", "note", where, math.degrees(spare), 0.0, facts=facts)
    yield from _edge_findings(wheel, cutter, cuts, where)


def _root_findings(
    setup: Setup, wheel: Wheel, cutter: CutterTable, cuts: tuple[Cut, ...], where: str
) -> Iterator[Finding]:
    """The root left is another than the one drawn, if only within what the print allows."""
    left, space, wedge = min(cut.root_radius for cut in cuts), wheel.space, cuts[0].wedge
    about, sizes = (cutter.name,), (2 * left, 2 * wheel.root_radius)
    if left < wheel.root_radius - SAME_POINT:
        key = f"{where}.{'tip_flat' if space.root_flat else 'tip_radius'}"
        make = Make(key, "", mm(space.root_flat or space.root_radius))
        is_over = space.root_flat > 0.0 and wheel.root_radius - left > setup.accept
        severity: Severity = "caution" if is_over else "note"
        facts: dict[str, Fact] = {"root": mm(2 * left), "make": make}
        yield Finding("root-deeper", severity, key, *sizes, facts=facts, about=about)
    if left > wheel.root_radius + SAME_POINT:
        key = "wheel.root_flat" if wedge.flat else "wheel.root_radius"
        make = Make(key, "", mm(wedge.flat or wedge.nose))
        yield Finding(
            "root-rounded",
            "caution",
            key,
            *sizes,
            facts={"root": mm(2 * left)},
            advice=Phrase("to-say-so", {"make": make}),
            about=about,
        )


def _edge_findings(
    wheel: Wheel, cutter: CutterTable, cuts: tuple[Cut, ...], where: str
) -> Iterator[Finding]:
    """The body enters the blank before the edge has formed the whole flank."""
    has = min(cut.wedge.edge_top - cut.wedge.tip.imag for cut in cuts)
    need = max(edge_needed(wheel, cut) for cut in cuts)
    if has < need - SAME_POINT:
        key, passing = _edge_key(cutter, cuts[0].wedge, need)
        make, short = Make(f"{where}.{key}", "at least", mm(passing, "at least")), mm(need - has)
        yield bounded(
            "edge-short", "caution", make, has, need, {"short": short}, (cutter.name,), "flank"
        )


def _edge_key(cutter: CutterTable, wedge: Wedge, need: float) -> tuple[str, float]:
    """The key that ends the edges too soon, and its value with which they are `need` mm long."""
    if cutter.edge_length is not None and cutter.edge_length < need:
        return "edge_length", need
    spread = math.tan(wedge.face_side) + math.tan(wedge.back_side)
    return "body_width", (need + wedge.tip.imag) * spread


def _whole_edge(wheel: Wheel, cutter: CutterTable, otherwise: float) -> float:
    """The edge that the cutter needs, were its own endless, mm; `otherwise` when it has no pose."""
    endless = replace(ways_round(cutter)[0], edge_length=math.inf, body_width=math.inf)
    try:
        return max(edge_needed(wheel, cut) for cut in cuts_for(wheel, endless))
    except NoPose:
        return otherwise


def edge_needed(wheel: Wheel, cut: Cut) -> float:
    """How far the edges must reach up from the tip, along the infeed, to form their flanks, mm."""
    formed = {"both": (wheel.space.face, wheel.space.back), "face": (wheel.space.face,)}
    flanks = formed.get(cut.forms, (wheel.space.back,))
    return max(
        cut.setup_from_base(flank.tip).imag - cut.tip.imag for flank in flanks if flank is not None
    )


def _frame_findings(part: Part, wheel: Wheel, frame: Frame, tool: Tool) -> Iterator[Finding]:
    if frame.pushes == "pulls out":
        yield Finding("cut-pulls-out", "caution", "setup.cutter_side")
    if part.hub is None and wheel.hand is not None:
        other = "head" if frame.front == "free end" else "free end"
        yield Finding("plain-wheel", "note", "setup.front", facts={"front": other})
    unused = part.setup.flat is not None and (
        part.setup.cutter_side == "above" or _flat_looks(frame, tool) is None
    )
    if unused:
        where = "setup.flat"
        yield Finding("flat-unused", "note", where, advice=Phrase("take-out", {"key": where}))
