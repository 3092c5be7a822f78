"""Where zero is: every usual touch-off and the dial moves from it to the cut.

Owns the zeros of offset and infeed for the set-up frame, and two routes to each cut that meet in
one pose, so that one checks the other. A move is told of the cutter against the work: a table goes
the other way. A touch is taken with the spindle off, through the feeler where the part has one.
Formulas: plane geometry of a touch, derived here; the rules of thumb behind the zeros are common
practice, no published source unless one is named.
"""

from __future__ import annotations

import cmath
import math
from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Literal

from profilegen.cutting.engagement import end_chord, engagement_of
from profilegen.cutting.frame import Frame
from profilegen.cutting.gap import sides
from profilegen.cutting.plan import Plan
from profilegen.cutting.poses import Cut
from profilegen.cutting.touch import InfeedZero, touch_infeed, touch_place
from profilegen.cutting.wedge import Wedge
from profilegen.forms.wheel import Toothing, Wheel
from profilegen.geometry.tolerance import SAME_ANGLE
from profilegen.setting.bar import Bar
from profilegen.setting.dials import Less

if TYPE_CHECKING:
    from profilegen.part.part import Part

Axis = Literal["X", "Y", "Z"]
Zero = Literal["flat", "body", "height", "both sides", "top", "offset", "edge finder", "end face"]
Sets = Literal["offset", "infeed", "feed"]


@dataclass(frozen=True, slots=True)
class DialMove:
    """One move of one slide, from where the cutter touches to where it cuts.

    Attributes:
        zero: what is touched: `flat` the flank along the infeed on the side of the blank, `body`
            the side of the cutter there, `height` a height gauge on the table, `both sides` the
            middle between two touches of the tip, `top` the tip on the blank's top as the cutter
            sees it, `offset` the first touch at the set offset, `edge finder` an edge finder on
            the blank's side, `end face` the cutter on the end of the work.
        sets: what the move sets: `feed` is the way along the wheel axis.
        lap: of the cut that the move leads to.
        routes: two ways to the same pose have the name of the infeed's zero; both may begin with
            the same zero of the offset. None: one more zero, to check by.
        vector: of the cutter in the set-up pose, mm; 0 for a feed along the wheel axis.
        axis: of the machine.
        direction: the way the cutter goes against the work, in shop words; for a height gauge
            `above the table`.
        amount: of travel, mm, 0 or more; for a height gauge the height to set.
        less: which way a rounded move takes less metal off.
        touches: the surface that touches, in shop words.
    """

    zero: Zero
    sets: Sets
    lap: int
    routes: tuple[InfeedZero, ...]
    vector: complex
    axis: Axis
    direction: str
    amount: float
    less: Less
    touches: str

    @property
    def is_setting(self) -> bool:
        """Whether the amount is a height to set on a gauge and no move of a slide."""
        return self.zero == "height"


@dataclass(frozen=True, slots=True)
class _Touch:
    """A touch: where the apex then stands along one axis of the set-up pose, mm.

    A height gauge stands at its height and the cutter is brought to it: there is no move after.
    """

    zero: Zero
    apex: float
    touches: str
    height: float | None = None


def every_move(part: Part, plan: Plan, bar: Bar) -> tuple[DialMove, ...]:
    """The moves of every lap in the order of setting, each lap's followed by its feed.

    Args:
        part: for setup, feeler and blank.
        plan: of the blank at hand, with cuts.
        bar: of those cuts, mm.
    """
    moves = touch_off(part, plan.frame, plan.cuts)
    fed = feed_moves(bar, plan.frame, plan.cuts, part.setup.feeler or 0.0)
    return tuple(sorted((*moves, *fed), key=lambda move: move.lap))


def touch_off(part: Part, frame: Frame, cuts: tuple[Cut, ...]) -> tuple[DialMove, ...]:
    """The move from every zero to every cut, each once: lap by lap, zeros of the offset before
    those of the infeed, the one to set by first.

    A route is one zero of the offset and one of the infeed. The first counts the infeed from the
    zero that `[setup] touch` names, the second from the other; they begin with the same zero of the
    offset where the part does not give enough to have two.
    """
    return tuple(move for cut in cuts for move in _moves(part, frame, cut))


def feed_moves(
    bar: Bar, frame: Frame, cuts: tuple[Cut, ...], feeler: float = 0.0
) -> tuple[DialMove, ...]:
    """The feed, from where the cutter of lap 1 at full depth, turned by hand, touches the end face
    of the whole blank through the feeler.

    A later lap finds the face cut, would touch nearer to it and run on too far: it keeps the zero
    and the end of lap 1. Empty when the sweep of the cutter is not known.

    Args:
        bar: lengths along the wheel axis, mm.
        frame: for the end at which the cutter enters.
        cuts: one a lap; only the first is used.
        feeler: its thickness, mm; 0 for metal to metal.
    """
    if bar.sweep is None or bar.overrun is None:
        return ()
    way, rest = bar.feed_direction.partition(",")[0], bar.cut_length + bar.overrun
    touches = f"the cutter at full depth, turned by hand, on the end at the {frame.enters_at}"
    return tuple(
        DialMove(
            "end face",
            "feed",
            cut.lap,
            (),
            0j,
            "X",
            way,
            end_chord(cut, bar.sweep) + rest + feeler,
            "short",
            touches,
        )
        for cut in cuts[:1]
    )


def _moves(part: Part, frame: Frame, cut: Cut) -> Iterator[DialMove]:
    less = _less_at_offset(cut)
    over = [_offset_move(frame, cut, touch, less) for touch in _offset_touches(part, frame, cut)]
    down = [_infeed_move(frame, cut, touch) for touch in _infeed_touches(part, frame, cut)]
    routes = routes_of(part.setup.touch)
    if down[0].zero != routes[0]:
        down[0], down[1] = down[1], down[0]
    shared = len(over) == 1
    for number, move in enumerate(over):
        yield replace(move, routes=routes if shared else routes[number : number + 1])
    for number, move in enumerate(down):
        yield replace(move, routes=routes[number : number + 1])


def routes_of(touch: InfeedZero) -> tuple[InfeedZero, InfeedZero]:
    """Both routes, that of the zero which `[setup] touch` names first."""
    return ("top", "offset") if touch == "top" else ("offset", "top")


def _offset_touches(part: Part, frame: Frame, cut: Cut) -> Iterator[_Touch]:
    """Where the apex stands across the infeed at every touch that fits this cutter."""
    feeler = part.setup.feeler or 0.0
    radius, tool = cut.blank_radius, cut.tool
    side = _side_words(frame, -1 + 0j)
    if isinstance(tool, Wedge):
        if tool.face_side <= SAME_ANGLE:
            yield _Touch("flat", -radius - feeler, f"its flat on {side}")
        elif (half := body_side(tool)) is not None:
            yield _Touch("body", -radius - feeler - half, f"its side on {side}")
    height = part.setup.centre_height
    if height is not None and frame.cutter_side != "above":
        yield _gauged_offset(height, feeler, frame, cut)
    yield _Touch("both sides", -cut.tool.tip.real, "its tip, on both sides of the axis by turns")


def body_side(wedge: Wedge, face: bool = True) -> float | None:
    """From the apex to the side of the cutter's body, square to the infeed, mm; None where the
    part file does not tell how wide it is.

    Args:
        wedge: the cutter as it stands.
        face: True for the side on +x of the set-up pose, where its face-side edge is.
    """
    spread = math.tan(wedge.face_side) + math.tan(wedge.back_side)
    if not math.isfinite(wedge.body_width) or wedge.edge_top < wedge.body_width / spread - 1e-9:
        return None
    return wedge.edge_top * math.tan(wedge.face_side if face else wedge.back_side)


def second_zero_keys(part: Part, frame: Frame, cut: Cut) -> tuple[str, ...]:
    """The keys that would give the offset of this cut one more zero.

    A body_width does so for a wedge whose edge has no end of its own, a centre height for a cutter
    at the side.
    """
    tool, keys = cut.tool, []
    if (
        isinstance(tool, Wedge)
        and tool.face_side > SAME_ANGLE
        and math.isinf(tool.body_width)
        and math.isinf(tool.edge_length)
    ):
        keys.append("the cutter's body_width")
    if part.setup.centre_height is None and frame.cutter_side != "above":
        keys.append("setup.centre_height")
    return tuple(keys)


def _gauged_offset(centre: float, feeler: float, frame: Frame, cut: Cut) -> _Touch:
    """The height gauge over the cutter's upper side, under its flat, or level with its tip: there
    nothing touches, so no feeler counts."""
    lies_up = frame.face_tooth_lies == "up"
    rise = cut.offset if lies_up else -cut.offset
    wedge = cut.tool if isinstance(cut.tool, Wedge) else None
    half = body_side(wedge, face=lies_up) if wedge else None
    if wedge and wedge.face_side <= SAME_ANGLE and lies_up:
        half = 0.0
    if half is not None:
        height = gauge_height(centre, half, rise, feeler)
        return _Touch("height", cut.offset, "the upper side of the cutter", height)
    if wedge and wedge.face_side <= SAME_ANGLE:
        height = gauge_height(centre, 0.0, rise, -feeler)
        return _Touch("height", cut.offset, "the flat of the cutter, from below", height)
    tip = cut.tip.real if lies_up else -cut.tip.real
    return _Touch(
        "height",
        cut.offset,
        f"the tip of the cutter, level with the gauge{_bare(feeler)}",
        gauge_height(centre, 0.0, tip),
    )


def gauge_height(centre: float, half: float, rise: float = 0.0, feeler: float = 0.0) -> float:
    """Height above the table to set the gauge to, mm.

    Worked example of a shop article on setting a slitting cutter on centre: 95.25 + 0.265 = 95.515
    mm.

    Args:
        centre: the head's centre height above the table, mm.
        half: from the middle of the cutter up to the side that is touched, mm.
        rise: of that middle above the centre, mm; negative below it.
        feeler: between gauge and cutter, mm; negative when the gauge touches from below.
    """
    return centre + half + rise + feeler


def _infeed_touches(part: Part, frame: Frame, cut: Cut) -> Iterator[_Touch]:
    """Where the apex stands along the infeed at every touch: top and offset first."""
    feeler = part.setup.feeler or 0.0
    radius, tip = cut.blank_radius, cut.tool.tip.imag
    near = _side_words(frame, 1j)
    level = "straight above the axis" if frame.cutter_side == "above" else "level with the axis"
    yield _Touch("top", radius + feeler - tip, f"its tip, {level}, on {near}")
    first = cut.apex_height + touch_infeed(cut, feeler)
    yield _Touch("offset", first, f"whatever touches first at the set offset, on {near}")
    if frame.cutter_side == "above":
        if part.setup.centre_height is not None:
            height = gauge_height(part.setup.centre_height, 0.0, cut.tip.imag, -feeler)
            yield _Touch(
                "height", cut.apex_height, "the tip of the cutter, come down on the gauge", height
            )
    elif (sweep := sweep_of(part, cut)) is not None:
        finder = (part.setup.edge_finder or 0.0) / 2
        what = "an edge finder in the spindle" if finder else "the spindle's axis"
        yield _Touch(
            "edge finder", radius + finder - sweep / 2 - tip, f"{what}{_bare(feeler)}, at {near}"
        )


def _bare(feeler: float) -> str:
    """What is said of a zero at which nothing is laid between, where the others have a feeler."""
    return " (without the feeler)" if feeler else ""


def sweep_of(part: Part, cut: Cut) -> float | None:
    """Diameter of the circle that the tip of the cutter set up runs on, mm, or None."""
    for cutter in part.cutters:
        if cutter.name == cut.tool.name:
            return cutter.sweep_diameter
    return None


def _offset_move(frame: Frame, cut: Cut, touch: _Touch, less: complex) -> DialMove:
    way = complex(cut.offset - touch.apex)
    short: Less = "over" if way.real * less.real > 0 else "short"
    return _move(frame, cut, "offset", touch, way, 1 + 0j, short)


def _infeed_move(frame: Frame, cut: Cut, touch: _Touch) -> DialMove:
    way = 1j * (cut.apex_height - touch.apex)
    return _move(frame, cut, "infeed", touch, way, -1j, "over" if way.imag > 0 else "short")


def _move(
    frame: Frame,
    cut: Cut,
    sets: Sets,
    touch: _Touch,
    way: complex,
    usual: complex,
    less: Less,
) -> DialMove:
    """A move by its vector; one of no length is told in the usual direction."""
    still = abs(way) < 5e-10
    axis, direction = shop_words(frame, usual if still else way)
    amount = 0.0 if still else abs(way)
    if touch.height is not None:
        axis, direction, amount = "Z", "above the table", touch.height
    return DialMove(
        touch.zero, sets, cut.lap, (), way, axis, direction, amount, less, touch.touches
    )


def shop_words(frame: Frame, way: complex) -> tuple[Axis, str]:
    """Axis and direction of a move, as the machinist calls them: Z up and down, Y to and from the
    column.

    Args:
        frame: how the work stands on the machine.
        way: the move in the set-up pose, mm or of any length but 0; -1j is the infeed.
    """
    seen = frame.view_from_setup.direction(way)
    if abs(seen.imag) > abs(seen.real):
        return "Z", "up" if seen.imag > 0 else "down"
    side = "right" if seen.real > 0 else "left"
    at_column = side == frame.column_at
    return "Y", "towards the column" if at_column else "towards the operator"


def _side_words(frame: Frame, outward: complex) -> str:
    """The place of the blank that lies in this direction of the set-up pose from its axis."""
    words = shop_words(frame, outward)[1]
    return {
        "up": "the top of the blank",
        "down": "the underside of the blank",
    }.get(words, f"the side of the blank {words}")


def _less_at_offset(cut: Cut) -> complex:
    """The way across the infeed in which a cutter set aside takes less: off its own flank, or,
    where it forms both, less in all."""
    match cut.forms:
        case "face":
            return -1 + 0j
        case "back":
            return 1 + 0j
        case _:
            return engagement_of(cut).less_metal


def side_touched(zero: Zero, cut: Cut) -> float | None:
    """Where on the blank a zero touches; None for what touches no one place of it.

    Args:
        zero: what is touched.
        cut: of which the `offset` zero is the first touch.

    Returns:
        Direction from the wheel axis in the set-up pose, rad from +x, counter-clockwise positive:
        the top, where the infeed comes from, is pi / 2.
    """
    sides = {"top": math.pi / 2, "edge finder": math.pi / 2, "flat": math.pi, "body": math.pi}
    return cmath.phase(touch_place(cut)) if zero == "offset" else sides.get(zero)


def turn_to_uncut_crest(
    wheel: Wheel, cuts: tuple[Cut, ...], cut: Cut, side: float
) -> tuple[float, int]:
    """How to bring a crest that earlier laps left whole to where a later lap's cutter touches.

    Args:
        wheel: on the blank at hand.
        cuts: of all laps.
        cut: of the later lap.
        side: of the blank that it touches: the direction from the axis in the set-up pose, rad.

    Returns:
        The turn of the work from the first stop of that lap, rad, counter-clockwise positive in the
        set-up pose and half a pitch at most either way; and the number of the crest's tooth.
    """
    pair = sides(wheel, tuple(one for one in cuts if one.lap < cut.lap))
    pitch = wheel.angular_pitch
    middle = pitch / 2 if pair is None else (pair[0].base_angle + pair[1].base_angle + pitch) / 2
    wanted = side - cut.turn
    steps = round((wanted - middle) / pitch)
    return wanted - middle - steps * pitch, (1 + steps) % wheel.teeth + 1


def levelled_face(space: Toothing) -> float | None:
    """Height of a face over the axis when it is level and looks up, mm: `-R sin g`.

    Minus is below: so it is for a positive hook. None for a curved face.
    """
    if space.face is None:
        return None
    return (space.face.tip * space.face.outward.conjugate()).imag


def is_level(height: float) -> bool:
    """Whether a levelled face stands at axis height, within what a size is written to.

    Args:
        height: over the axis, mm, as `levelled_face` gives it.
    """
    return abs(height) < 5e-7
