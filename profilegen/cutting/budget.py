"""How far each setting error moves the land, and how well each must be set to hold it.

Owns the sensitivities of land, hook angle, root diameter and spacing, in closed form, and the
setting accuracy that follows from the land's tolerance. Refuses text.

Each side of the space leaves the blank at the angle `arg u + asin(m / R)` of the set-up pose, `u`
being the direction of its edge and `m` the edge's signed distance from the axis; everything here is
a derivative of that. Derived here, no published source; tests re-cut the wheel.

Signs: infeed deeper, offset towards the tooth that owns the face, blank bigger, cutter's angle
wider, tip blunter are positive; a positive tilt turns the cutter counter-clockwise in the set-up
pose about its tip, which stays where it was touched off.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Final, Literal, TypeAlias

from profilegen.cutting.gap import Exit, sides
from profilegen.cutting.land_tolerance import tighter_side
from profilegen.cutting.poses import Cut
from profilegen.cutting.touch import InfeedZero, touch_place
from profilegen.cutting.wedge import Wedge
from profilegen.forms.wheel import Wheel
from profilegen.geometry.measure import nearest
from profilegen.geometry.moves import Move, moved
from profilegen.geometry.tolerance import SAME_POINT
from profilegen.part.how_measured import LAND

USUAL: Final[dict[str, float]] = {
    "infeed": 0.03,
    "offset": 0.03,
    "offset_at_offset_zero": 0.03,
    "blank_radius": 0.01,
    "blank_radius_at_offset_zero": 0.01,
    "blank_radius_from_axis": 0.01,
    "run_out": 0.02,
    "cutter_angle": math.radians(0.25),
    "tilt": math.radians(0.25),
    "tip": 0.02,
    "index": math.radians(3 / 60),
}
"""What a careful hand leaves, mm and rad: common practice, no published source."""

SETTING: Final = {
    "offset_at_offset_zero": "offset",
    "blank_radius_at_offset_zero": "blank_radius",
    "blank_radius_from_axis": "blank_radius",
}
"""Source -> the source in whose place it stands when zero is found in another way than from the
top: what is set or measured is the same."""

INSTEAD: Final[dict[InfeedZero, tuple[str, ...]]] = {
    "top": ("offset_at_offset_zero", "blank_radius_at_offset_zero", "blank_radius_from_axis"),
    "offset": ("offset", "blank_radius", "blank_radius_from_axis"),
}
"""Zero of the infeed -> the sources that count only when zero is found in another way."""

GREATEST_RUN_OUT: Final = 0.02
"""mm, the whole swing of the indicator: the usual aim, common practice, no published source. The
land may ask for less: `run_out_limit`."""

ANGULAR: Final = ("cutter_angle", "tilt", "index")
"""Sources measured in angles."""


@dataclass(frozen=True, slots=True)
class Effects:
    """What one unit (mm or rad) of one error does.

    Attributes:
        land: mm.
        hook: rad; None when the face is curved.
        root: of the root diameter, mm.
        spacing: along the rim between neighbouring face tips, mm, when one stop alone is off.
    """

    land: float
    hook: float | None
    root: float
    spacing: float = 0.0


@dataclass(frozen=True, slots=True)
class BudgetRow:
    """One source of error.

    Attributes:
        source: a key of `USUAL`.
        is_instead: whether it stands for another row when zero is found in another way.
        lap: the lap whose setting it is, or None for all laps alike.
        effects: of 1 mm or 1 rad.
        usual: what a careful hand leaves, mm or rad.
        moves_land: size of what that does to the land, mm.
        alone: error that spends the whole tolerance, mm or rad; infinite when none does.
        needed: error allowed when all sources spend equal shares (root of the sum of squares).
    """

    source: str
    is_instead: bool
    lap: int | None
    effects: Effects
    usual: float
    moves_land: float
    alone: float
    needed: float

    @property
    def is_angle(self) -> bool:
        """Whether the error is an angle, rad."""
        return self.source in ANGULAR

    @property
    def setting(self) -> str:
        """What is set or measured: the source, however zero is found."""
        return SETTING.get(self.source, self.source)


@dataclass(frozen=True, slots=True)
class Budget:
    """Every source of error, those that move the land most first.

    Attributes:
        rows: the sources.
        tolerance: the tighter side of the land's tolerance, mm.
    """

    rows: tuple[BudgetRow, ...]
    tolerance: float


@dataclass(frozen=True, slots=True)
class _Change:
    """What an error does to one cut: shift of its apex, turn of its edges, growth of the blank."""

    shift: complex = 0j
    face_turn: float = 0.0
    back_turn: float = 0.0
    swell: float = 0.0
    root: float = 0.0


def budget_for(
    wheel: Wheel,
    cuts: tuple[Cut, ...],
    tolerance: tuple[float, float] = LAND,
    zero: InfeedZero = "top",
) -> Budget | None:
    """The error budget of a wheel's cuts; None without cuts, or when a cutter is no wedge.

    Args:
        wheel: as wanted.
        cuts: one a lap.
        tolerance: least and greatest deviation of the land, mm; the tighter side counts.
        zero: that the infeed counts from; sources that do not count with it are told too.
    """
    if not all(isinstance(cut.tool, Wedge) for cut in cuts):
        return None
    pair = sides(wheel, cuts)
    if pair is None:
        return None
    tight = tighter_side(*tolerance)
    found, instead = list(_sources(wheel, cuts, pair)), INSTEAD[zero]
    shares = [one for one in found if one[0] not in instead and abs(one[2].land) > 1e-9]
    rows = [
        _row(source, source in instead, lap, effects, tight, len(shares))
        for source, lap, effects in found
    ]
    return Budget(tuple(sorted(rows, key=lambda row: -row.moves_land)), tight)


def _row(
    source: str,
    is_instead: bool,
    lap: int | None,
    effects: Effects,
    tolerance: float,
    shares: int,
) -> BudgetRow:
    size = abs(effects.land)
    alone = tolerance / size if size > 1e-9 else math.inf
    usual = USUAL[source]
    needed = alone / math.sqrt(max(shares, 1))
    return BudgetRow(source, is_instead, lap, effects, usual, size * usual, alone, needed)


def _sources(
    wheel: Wheel, cuts: tuple[Cut, ...], pair: tuple[Exit, Exit]
) -> Iterator[tuple[str, int | None, Effects]]:
    """Source, lap and effects of every error."""
    touches = {cut.lap: touch_place(cut) for cut in cuts}
    for cut in cuts:
        if all(side.cut is not cut for side in pair):
            continue
        lap = cut.lap if len(cuts) > 1 else None
        slid = complex(1.0, -touches[cut.lap].real / touches[cut.lap].imag)
        for source, shift in (("infeed", -1j), ("offset", 1 + 0j), ("offset_at_offset_zero", slid)):
            change = {cut.lap: _Change(shift, root=_root_shift(cut, shift))}
            yield source, lap, _effects(wheel, cuts, pair, change, alone=True)
    for source, rise in _blanks(wheel, cuts, touches).items():
        lifts = {cut.lap: 1j * rise[cut.lap] for cut in cuts}
        changes = {
            cut.lap: _Change(lifts[cut.lap], swell=1.0, root=_root_shift(cut, lifts[cut.lap]))
            for cut in cuts
        }
        yield source, None, _effects(wheel, cuts, pair, changes)
    yield "run_out", None, _run_out(wheel, pair)
    for source in ("cutter_angle", "tilt", "tip"):
        changes = {cut.lap: _tool_change(cut, source) for cut in cuts}
        yield source, None, _effects(wheel, cuts, pair, changes)
    yield "index", None, _index(wheel, pair)


def _blanks(
    wheel: Wheel, cuts: tuple[Cut, ...], touches: dict[int, complex]
) -> dict[str, dict[int, float]]:
    """How far each lap's cutter rises with 1 mm of blank radius, by the way in which zero is
    found."""
    return {
        "blank_radius": {cut.lap: 1.0 for cut in cuts},
        "blank_radius_at_offset_zero": {
            cut.lap: wheel.radius / touches[cut.lap].imag for cut in cuts
        },
        "blank_radius_from_axis": {cut.lap: 0.0 for cut in cuts},
    }


def _effects(
    wheel: Wheel,
    cuts: tuple[Cut, ...],
    pair: tuple[Exit, Exit],
    changes: dict[int, _Change],
    alone: bool = False,
) -> Effects:
    """The derivative of everything for changes by lap; `alone` when one stop only may have them."""
    face, back = pair
    none = _Change()
    on_face, on_back = changes.get(face.cut.lap, none), changes.get(back.cut.lap, none)
    face_moves = _exit_moves(wheel, face, on_face, on_face.face_turn)
    back_moves = _exit_moves(wheel, back, on_back, on_back.back_turn)
    angle = wheel.angular_pitch - (back.base_angle - face.base_angle)
    swell = max((change.swell for change in changes.values()), default=0.0)
    land = 2 * math.sin(angle / 2) * swell
    land -= wheel.radius * math.cos(angle / 2) * (back_moves - face_moves)
    root = 2 * min(changes.get(cut.lap, none).root for cut in _deepest_cuts(cuts))
    hook = on_face.face_turn - face_moves if isinstance(face.cut.tool, Wedge) else None
    return Effects(land, hook, root, wheel.radius * face_moves if alone else 0.0)


def _exit_moves(wheel: Wheel, side: Exit, change: _Change, turn: float) -> float:
    """Change of the exit's polar angle, rad."""
    reach = _reach(side)
    apex = side.cut.apex
    shifted = (side.along.conjugate() * change.shift).imag / reach
    turned = turn * (1 - (side.along.conjugate() * apex).real / reach)
    return shifted + turned + _swollen(wheel, side) * change.swell


def _reach(side: Exit) -> float:
    """From the foot of the axis on the edge to the exit, along the edge, mm."""
    return (side.along.conjugate() * side.place).real


def _swollen(wheel: Wheel, side: Exit) -> float:
    """Change of the exit's polar angle with the blank's radius, the cutter staying, rad per mm."""
    return -(side.along.conjugate() * side.place).imag / wheel.radius / _reach(side)


def _deepest_cuts(cuts: tuple[Cut, ...]) -> list[Cut]:
    """The cuts that reach the root: where laps tie, the one that an error takes deeper counts."""
    least = min(cut.root_radius for cut in cuts)
    return [cut for cut in cuts if cut.root_radius < least + SAME_POINT]


def _root_shift(cut: Cut, shift: complex) -> float:
    """Change of the radius of the deepest material for a shift of the cutter, mm."""
    place = _deepest(cut)
    return (place.conjugate() * shift).real / abs(place) if place else -abs(shift)


def _deepest(cut: Cut) -> complex:
    """The place of the cutter nearest to the axis, mm in the set-up pose."""
    posed = moved(cut.tool.silhouette(4 * cut.blank_radius), Move(shift=cut.apex))
    return nearest(posed, 0j)[1]


def _tool_change(cut: Cut, source: str) -> _Change:
    """An error of the cutter's shape or stand; its tip stays where it was touched off."""
    wedge = cut.wedge
    if source == "tip":
        shift = -_tip_rate(wedge)
        return _Change(shift, root=_blunter(cut))
    if source == "tilt":
        return _Change(-1j * wedge.tip, 1.0, 1.0, root=_root_shift(cut, 1j * _past_the_tip(cut)))
    face = back = 0.5
    if wedge.face_side == 0.0 or wedge.back_side == 0.0:
        face, back = (0.0, 1.0) if wedge.face_side == 0.0 else (1.0, 0.0)
    by_face, by_back = _tip_by_angle(wedge)
    shift = -(face * by_face + back * by_back)
    return _Change(shift, -face, back, root=_opened(cut, shift, -face, back))


def _tip_rate(wedge: Wedge) -> complex:
    """Change of the tip's place from the apex with the nose radius or the flat's width."""
    if wedge.flat:
        return wedge.tip / wedge.flat
    return replace(wedge, nose=1.0, flat=0.0).tip


def _tip_by_angle(wedge: Wedge) -> tuple[complex, complex]:
    """Change of the tip's place from the apex with the face-side and the back-side angle, mm."""
    if not wedge.flat:
        shrink = 0.5 / math.tan(wedge.angle / 2)
        return wedge.nose_centre * complex(-shrink, -0.5), wedge.nose_centre * complex(-shrink, 0.5)
    face, back = math.tan(wedge.face_side), math.tan(wedge.back_side)
    rates = []
    for own, sign in ((face, 1.0), (back, -1.0)):
        steep = 1 + own * own
        height = -wedge.flat * steep / (face + back) ** 2
        lean = complex((face - back) / 2, 1.0)
        rates.append(height * lean + wedge.flat_height * sign * steep / 2)
    return rates[0], rates[1]


Part: TypeAlias = Literal["tip", "face", "back"]


def _deepest_part(cut: Cut) -> Part:
    """Which part of the edge reaches the root: the tip with its nose or flat, or a flank."""
    on_face, on_back = cut.wedge.edge_starts()
    place = _deepest(cut) - cut.apex
    if place.imag > on_face.imag + SAME_POINT and place.real > on_face.real - SAME_POINT:
        return "face"
    if place.imag > on_back.imag + SAME_POINT and place.real < on_back.real + SAME_POINT:
        return "back"
    return "tip"


def _past_the_tip(cut: Cut) -> complex:
    """From the tip to the deepest place, mm."""
    return _deepest(cut) - cut.tip


def _opened(cut: Cut, shift: complex, face_turn: float, back_turn: float) -> float:
    """Change of the root's radius with the cutter's angle: its tip stays, its flanks turn about the
    apex, which shifts."""
    part = _deepest_part(cut)
    if part == "tip":
        return 0.0
    turn = face_turn if part == "face" else back_turn
    return _root_shift(cut, shift + 1j * turn * (_deepest(cut) - cut.apex))


def _blunter(cut: Cut) -> float:
    """Change of the root's radius with the tip's radius or flat, the tip's height staying."""
    wedge, place = cut.wedge, _deepest(cut)
    if _deepest_part(cut) != "tip":
        return _root_shift(cut, -_tip_rate(wedge))
    outward = place / abs(place) if place else 1j
    if wedge.flat:
        side = place - cut.tip
        at_corner = abs(abs(side) - wedge.flat / 2) < 1e-9
        return math.copysign(0.5, side.real) * outward.real if at_corner else 0.0
    return outward.imag - 1.0


def _run_out(wheel: Wheel, pair: tuple[Exit, Exit]) -> Effects:
    """Swing, plus and minus, for 1 mm of indicator reading: the blank stands 0.5 mm off the head's
    axis, the cutter's depth kept from that axis."""
    face, back = pair
    angle = wheel.angular_pitch - (back.base_angle - face.base_angle)
    crest = wheel.radius * math.cos(angle / 2)
    wide = math.sin(angle / 2)
    land = 0.5 * abs(
        (crest * _swollen(wheel, face) + wide) * _turned(wheel.angular_pitch)
        + (wide - crest * _swollen(wheel, back)) * _turned(back.base_angle - face.base_angle)
    )
    hook = 0.5 * abs(_swollen(wheel, face)) if isinstance(face.cut.tool, Wedge) else None
    return Effects(land, hook, 0.0, 0.5 * _spacing_swing(wheel, face))


def _spacing_swing(wheel: Wheel, face: Exit) -> float:
    """Swing of the straight distance between neighbouring face tips for an eccentricity of 1 mm."""
    lean = face.along / (face.place / abs(face.place))
    slide = lean / lean.real
    next_tip = _turned(wheel.angular_pitch)
    chord = (next_tip - 1) / abs(next_tip - 1)
    here = (chord.conjugate() * slide).real
    there = (chord.conjugate() * slide * next_tip).real
    return abs(there * next_tip - here)


def _turned(angle: float) -> complex:
    return complex(math.cos(angle), math.sin(angle))


def _index(wheel: Wheel, pair: tuple[Exit, Exit]) -> Effects:
    """One stop 1 rad too far: one land grows and the other shrinks."""
    angle = wheel.angular_pitch - (pair[1].base_angle - pair[0].base_angle)
    return Effects(wheel.radius * math.cos(angle / 2), 0.0, 0.0, wheel.radius)


def run_out_limit(budget: Budget | None) -> float:
    """Greatest run-out of the blank, mm, the whole swing of the indicator: what the land allows in
    the error budget, and no more than the usual aim. The one limit that sheet, findings and trial
    cuts go by."""
    rows = budget.rows if budget is not None else ()
    needed = (row.needed for row in rows if row.source == "run_out")
    return min((GREATEST_RUN_OUT, *needed))
