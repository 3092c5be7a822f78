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
from profilegen.errors import Finding, Remedy, Severity
from profilegen.forms.say import Say
from profilegen.forms.wheel import Wheel
from profilegen.geometry.tolerance import SAME_POINT

if TYPE_CHECKING:
    from profilegen.part.base import CutterTable
    from profilegen.part.part import Part


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
    cutter, cuts, findings = cuts_of(part, wheel, frame)
    flat = _flat_looks(frame, cuts[0].tool) if cuts else None
    return Plan(cutter, cuts, frame, flat, findings)


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
    number, say = _chosen(part), Say(part)
    if number is None:
        note = Finding(
            "no-cutter",
            "note",
            "no cutter is given, so nothing is set up: add a [[cutter]], or name your drawer by "
            'drawer = "..."; profilegen cutters says which cutters would do',
            "cutter",
        )
        return None, (), (note,)
    where, cutter = f"cutter[{number + 1}]", part.cutters[number]
    try:
        cuts = choose(part, wheel, frame, cutter)
    except NoPose as refusal:
        finding = _refusal(refusal, cutter, say, where, wheel)
        return cutter.name, (), (finding,)
    about = _plunge_findings if cuts[0].forms == "space" else _cut_findings
    findings = (
        *about(say, wheel, cutter, cuts, where),
        *_frame_findings(part, wheel, frame, cuts[0].tool),
    )
    return cutter.name, cuts, findings


def _chosen(part: Part) -> int | None:
    names = [cutter.name for cutter in part.cutters]
    wanted = part.setup.cutter
    if wanted is not None and wanted in names:
        return names.index(wanted)
    return 0 if names else None


def choose(part: Part, wheel: Wheel, frame: Frame, cutter: CutterTable) -> tuple[Cut, ...]:
    """The cuts of one cutter, the way round that `[setup] flat` asks for, or else the usual one.

    A wedge is matched flank on flank unless `[setup]` holds its pose, or gives a left-over that is
    still usable and the deepest plunge stays within it.

    Args:
        part: for `[setup]`; its `accept` is mm.
        wheel: on the print's blank or the one at hand: the cuts are for that one.
        frame: for the side to which a flat looks.
        cutter: as the part file gives it.

    Raises:
        NoPose: it cannot form the space, or `flat` contradicts the hand.
    """
    from profilegen.cutting.compare import compared

    setup, ways = part.setup, _allowed(part, frame, tools_for(cutter))
    refusals = []
    if is_wedge_kind(cutter) and not is_held(setup):
        for way in ways:
            try:
                return cuts_for(wheel, cast("Wedge", way), setup.first)
            except NoPose as refusal:
                refusals.append(refusal)
        if "accept" not in setup.model_fields_set:
            raise refusals[0]
    (match,) = compared(wheel, [ways], setup)
    if not match.cuts or (refusals and match.verdict != "forms"):
        raise refusals[0] if refusals else NoPose("cutter-cannot-enter", match.why)
    return match.cuts


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
        raise NoPose("hand-contradiction", _contradiction(frame, wanted))
    return allowed


def _plunge_findings(
    say: Say, wheel: Wheel, cutter: CutterTable, cuts: tuple[Cut, ...], where: str
) -> Iterator[Finding]:
    """What the deepest plunge leaves in the space, and whether that is still usable."""
    from profilegen.cutting.fit import fit_of

    fit, accept = fit_of(wheel, cuts), say.part.setup.accept
    left = fit.left_over
    makes = (
        f"it makes a land of {say.length(fit.land)}, a hook of {say.angle(fit.hook)} and a root of "
        f"diameter {say.length(2 * fit.root_radius)}"
    )
    if SAME_POINT < left.value <= accept:
        text = (
            f"{cutter.name}: it leaves {say.length(left.value)} at the {left.where}, within your "
            f"setup.accept of {say.length(accept)}: usable; {makes}"
        )
        wanted = wheel.fact("hook_angle", None)
        leans = wanted is not None and abs(fit.hook - wanted) > HOOK_TOLERANCE
        severity: Severity = "caution" if leans else "note"
        yield Finding("cutter-usable", severity, text, "setup.accept", left.value, accept)
    if left.value > accept:
        text = (
            f"{cutter.name}: at its deepest it leaves {say.length(left.value)} at the "
            f"{left.where}, and {makes}: choose another cutter, or make setup.accept at least "
            f"{say.bound(left.value, 'at least')}"
        )
        yield Finding("cutter-leaves", "caution", text, "setup.accept", left.value, accept)


def _flat_looks(frame: Frame, wedge: Tool) -> Direction | None:
    """Where the steeper flank looks in the view; None for a symmetric wedge and other shapes.

    A flank looks away from the wedge, at the tooth that it forms.
    """
    if not isinstance(wedge, Wedge) or math.isclose(wedge.face_side, wedge.back_side):
        return None
    lies = frame.face_tooth_lies
    return lies if wedge.face_side < wedge.back_side else OPPOSITE[lies]


def _contradiction(frame: Frame, flat: str) -> str:
    other = "clockwise" if frame.hand_at_free_end == "counter-clockwise" else "counter-clockwise"
    return (
        f"with the head on the {frame.head}, the cutter {frame.cutter_side} and its flat "
        f"{flat} the wheel "
        f"comes out {other} seen from the free end, and the part asks for {frame.hand_at_free_end}"
    )


def _refusal(refusal: NoPose, cutter: CutterTable, say: Say, where: str, wheel: Wheel) -> Finding:
    """The finding of a cutter that cannot form this space, with the key and a value that would
    pass."""
    limit, fresh = refusal.limit or 0.0, ""
    match refusal.code:
        case "cutter-too-wide" | "island-left":
            than = "at most" if refusal.code == "cutter-too-wide" else "at least"
            angle = say.turn_bound(math.radians(limit), than)
            keys = {"vee": "included_angle", "single-angle": "angle"}
            key = f"{where}.{keys.get(cutter.kind, 'angles')}"
            advice = f"make {key} {than} {angle}"
            fresh = say.turn_typed(math.radians(limit), than)
            if cutter.kind == "double-angle":
                advice, fresh = f"make the two {key} add up to {than} {angle}", ""
        case "root-too-tight":
            key = f"{where}.{'tip_flat' if cutter.tip_flat else 'tip_radius'}"
            fresh = say.typed(limit, "at most")
            root = "root_flat" if wheel.space.root_flat else "root_radius"
            advice = f"make {key} {say.bound(limit, 'at most')}, or wheel.{root} bigger"
        case "root-not-exact":
            key = f"{where}.tip_radius"
            fresh = say.typed(limit)
            advice = f"make {key} {say.length(limit)}, or wheel.root_exact false"
        case "edge-short":
            need = _whole_edge(wheel, cutter, limit)
            key, passing = _edge_key(cutter, ways_round(cutter)[0], need)
            key = f"{where}.{key}"
            fresh = say.typed(passing, "at least")
            advice = f"make {key} at least {say.bound(passing, 'at least')}"
        case "hand-contradiction":
            key = "setup.flat"
            other = "head" if say.part.setup.front == "free end" else "free end"
            fresh = "up" if say.part.setup.flat == "down" else "down"
            advice = (
                f'make {key} "{fresh}", '
                f"setup.cutter_side "
                f'the other side, or turn the wheel over: setup.front = "{other}"'
            )
        case _ if is_held(say.part.setup):
            key = "setup.offset" if say.part.setup.offset is not None else "setup.face_angle"
            advice = f"it is held there: take out {key}, or hold another value"
            return _of_cutter(refusal, cutter, advice, key, Remedy(key, None))
        case _:
            key, advice = where, "choose another cutter"
    if refusal.code in ("cutter-too-wide", "root-too-tight", "root-not-exact"):
        advice += "; profilegen cutters says what it would leave, and setup.accept takes that much"
    return _of_cutter(refusal, cutter, advice, key, Remedy(key, fresh) if fresh else None)


def _of_cutter(
    refusal: NoPose, cutter: CutterTable, advice: str, key: str, remedy: Remedy | None
) -> Finding:
    text = f"{cutter.name}: {refusal}: {advice}"
    return Finding(refusal.code, "refused", text, key, refusal.value, refusal.limit, remedy)


def _cut_findings(
    say: Say, wheel: Wheel, cutter: CutterTable, cuts: tuple[Cut, ...], where: str
) -> Iterator[Finding]:
    if cutter.tip_radius is None and cutter.tip_flat is None:
        message = "the tip is taken as sharp, and no tip is: measure it and give"
        text = f"{cutter.name}: {message} {where}.tip_radius or {where}.tip_flat, 0.1 mm say"
        yield Finding("tip-assumed-sharp", "caution", text, f"{where}.tip_radius")
    yield from _root_findings(say, wheel, cutter, cuts, where)
    if len(cuts) > 1:
        spare, first = wheel.space.angle - cuts[0].wedge.angle, wheel.named(cuts[0].forms)
        text = (
            f"{cutter.name} is {say.angle(spare)} narrower than the space: {len(cuts)} laps, the "
            f"{first}s first; for one lap take a cutter of {say.angle(wheel.space.angle)}"
        )
        yield Finding("two-laps", "note", text, where, math.degrees(spare), 0.0)
    yield from _edge_findings(say, wheel, cutter, cuts, where)


def _root_findings(
    say: Say, wheel: Wheel, cutter: CutterTable, cuts: tuple[Cut, ...], where: str
) -> Iterator[Finding]:
    """The root left is another than the one drawn, if only within what the print allows."""
    left, space, wedge = min(cut.root_radius for cut in cuts), wheel.space, cuts[0].wedge
    leaves = f"root of diameter {say.length(2 * left)}"
    if left < wheel.root_radius - SAME_POINT:
        key = f"{where}.{'tip_flat' if space.root_flat else 'tip_radius'}"
        text = (
            f"{cutter.name}: its tip leaves a sharper, deeper {leaves}; for the root drawn "
            f"make {key} {say.length(space.root_flat or space.root_radius)}"
        )
        is_over = space.root_flat > 0.0 and wheel.root_radius - left > say.part.setup.accept
        severity: Severity = "caution" if is_over else "note"
        yield Finding("root-deeper", severity, text, key, 2 * left, 2 * wheel.root_radius)
    if left > wheel.root_radius + SAME_POINT:
        key = "wheel.root_flat" if wedge.flat else "wheel.root_radius"
        text = (
            f"{cutter.name}: its tip leaves a {leaves} where the print draws a sharp one: "
            f"make {key} {say.length(wedge.flat or wedge.nose)} to say so"
        )
        yield Finding("root-rounded", "caution", text, key, 2 * left, 2 * wheel.root_radius)


def _edge_findings(
    say: Say, wheel: Wheel, cutter: CutterTable, cuts: tuple[Cut, ...], where: str
) -> Iterator[Finding]:
    """The body enters the blank before the edge has formed the whole flank."""
    has = min(cut.wedge.edge_top - cut.wedge.tip.imag for cut in cuts)
    need = max(edge_needed(wheel, cut) for cut in cuts)
    if has < need - SAME_POINT:
        key, passing = _edge_key(cutter, cuts[0].wedge, need)
        message = (
            f"{cutter.name}: its edges end {say.length(need - has)} before the blank's edge, so "
            "they leave part of a flank"
        )
        yield say.sized("edge-short", "caution", message, f"{where}.{key}", has, need, passing)


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
        text = (
            "a conventional cut pulls the work out of the chuck: grip it well and stop it "
            "endwise, or change "
            "setup.cutter_side, or setup.spindle with a cutter of the other hand"
        )
        yield Finding("cut-pulls-out", "caution", text, "setup.cutter_side")
    if part.hub is None and wheel.hand is not None:
        other = "head" if frame.front == "free end" else "free end"
        text = (
            "both faces are alike: turned over, it serves as the other hand, so setup.front may as "
            f'well be "{other}" with the other rotation'
        )
        yield Finding("plain-wheel", "note", text, "setup.front")
    unused = part.setup.flat is not None and (
        part.setup.cutter_side == "above" or _flat_looks(frame, tool) is None
    )
    if unused:
        text = "this cutter has no flat that looks up or down: take out setup.flat"
        yield Finding("flat-unused", "note", text, "setup.flat")
