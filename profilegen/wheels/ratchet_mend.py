"""Which key to change, and to what, when a ratchet cannot be made: found by trying.

Every size that the print gives is tried smaller and larger, the least change first, until the whole
part can be made, bore and all; where no size alone mends it, the count of teeth. What is tried is
solved by the solver itself, so no rule of a tooth stands here twice.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from itertools import islice
from typing import TYPE_CHECKING, cast

from profilegen.errors import CannotMakeError, Finding, Remedy
from profilegen.part.mending import mended
from profilegen.part.part import bare_part
from profilegen.wheels.ratchet import solve_tooth
from profilegen.wheels.ratchet_care import least_land
from profilegen.wheels.ratchet_tooth import NoTooth
from profilegen.wheels.say import Say
from profilegen.wheels.wheel import Wheel

if TYPE_CHECKING:
    from profilegen.part.part import Part
    from profilegen.part.wheels.ratchet import Ratchet

Solve = Callable[["Part"], Wheel]

WEIGHTS = {
    "land": 1.0,
    "root_diameter": 1.0,
    "tooth_depth": 1.0,
    "root_radius": 1.0,
    "root_flat": 1.0,
    "space_angle": 2.0,
    "hook_angle": 2.0,
    "outside_diameter": 30.0,
}
"""Key -> what a change counts: angles more, as the cutter has them; the blank most of the sizes."""

STEPS = (0.02, 0.05, 0.1, 0.15, 0.2, 0.3, 0.4, 0.55, 0.7, 0.9, 1.2, 1.5, 1.9, 2.4, 3.0, 4.0)
"""Changes that are tried, as natural logarithms of new to old; a hook of `HOOK_STEP` each."""

HOOK_STEP = math.radians(20)
MOST_TEETH_TRIED = 60
HALVINGS = 30

MOST_SOLVED = 80
"""Whole parts that are solved for one refusal; teeth by themselves are tried much faster."""

ALIKE = 1 - 1e-9
"""Of two lands that differ by arithmetic only."""

STRAIGHT = 0.1
"""of a flank: less is not offered as straight."""

DEEPEST = 0.1
"""of the blank's radius: a root nearer to the axis is not offered."""

TOO_BIG = "the root is too big for the space between the teeth"


@dataclass(frozen=True, slots=True)
class Trial:
    """A key and a value to try, mm or rad or a count, and what the change counts."""

    key: str
    value: float
    cost: float


def advised(part: Part, findings: tuple[Finding, ...], solve: Solve) -> tuple[Finding, ...]:
    """The refusals of a ratchet; those at `wheel` as a whole get the key to change, its value, and
    a remedy.

    Args:
        part: which cannot be made.
        findings: its refusals.
        solve: solves a part, or raises `CannotMakeError`.
    """
    if all(one.where != "wheel" for one in findings):
        return findings
    keys, say = cast("Ratchet", part.wheel), Say(part)
    found = _nearest(part, keys, solve)
    return tuple(_told(keys, say, one, found) if one.where == "wheel" else one for one in findings)


def _told(keys: Ratchet, say: Say, one: Finding, found: Trial | None) -> Finding:
    if found is None:
        return _unmended(keys, one)
    where, remedy = f"wheel.{found.key}", _remedy(keys, say, found)
    advice = f"make {where} {_than(keys, found)} {_shown(say, keys, found)}"
    if one.code == "land-gone" and found.key in ("root_diameter", "tooth_depth"):
        advice += f", which leaves a land of {say.length(least_land(keys.outside_diameter))}"
    if found.key in ("root_radius", "root_flat"):
        size = float(getattr(keys, found.key))
        text = f"{TOO_BIG}: {advice}"
        return Finding("root-too-big", "refused", text, where, size, found.value, remedy)
    return replace(one, message=f"{one.message}: {advice}", where=where, remedy=remedy)


def _unmended(keys: Ratchet, one: Finding) -> Finding:
    """The refusal that takes more than one other value: the keys to look at."""
    first, *rest = _suspects(keys)
    where = f"wheel.{first}"
    advice = f"no one value mends it, so look at {where} first, then at {', '.join(rest)} and teeth"
    if first in ("root_radius", "root_flat"):
        text, size = f"{TOO_BIG}: {advice}", float(getattr(keys, first))
        return Finding("root-too-big", "refused", text, where, size)
    return replace(one, message=f"{one.message}: {advice}", where=where)


def _than(keys: Ratchet, found: Trial) -> str:
    return "at least" if found.value > float(getattr(keys, found.key)) else "at most"


def _shown(say: Say, keys: Ratchet, found: Trial) -> str:
    than = _than(keys, found)
    if found.key == "teeth":
        return str(int(found.value))
    is_angle = found.key.endswith("angle")
    return say.turn_bound(found.value, than) if is_angle else say.bound(found.value, than)


def _remedy(keys: Ratchet, say: Say, found: Trial) -> Remedy:
    where, than = f"wheel.{found.key}", _than(keys, found)
    if found.key == "teeth":
        return Remedy(where, int(found.value))
    if found.key.endswith("angle"):
        return Remedy(where, say.turn_typed(found.value, than))
    return Remedy(where, say.typed(found.value, than))


def _given(keys: Ratchet) -> list[str]:
    """The keys that may be changed: those of `WEIGHTS` that the print gives."""
    return [key for key in WEIGHTS if key in keys.model_fields_set and getattr(keys, key)]


def _suspects(keys: Ratchet) -> list[str]:
    """The keys given, one that cannot be right whatever the others are in front."""
    pitch = math.pi * keys.outside_diameter / keys.teeth
    wide = [key for key in ("root_radius", "root_flat") if (getattr(keys, key) or 0) > pitch / 2]
    return list(dict.fromkeys((*wide, *_given(keys))))


def _nearest(part: Part, keys: Ratchet, solve: Solve) -> Trial | None:
    """The least change with which the whole part can be made, or else the wheel without bore, hub
    and holes; None when no key alone mends it."""
    trials = sorted(_trials(keys), key=lambda trial: trial.cost)
    bare = replace(bare_part(keys), units=part.units)
    plain = part.bore.kind == "none" and part.hub is None and not part.holes
    for whole in (bare,) if plain else (part, bare):
        stand = (trial for trial in trials if _stands(keys, trial))
        for trial in islice(stand, MOST_SOLVED):
            if _makes(whole, keys, trial, solve):
                return _edge(whole, keys, trial, solve)
    return None


def _trials(keys: Ratchet) -> Iterator[Trial]:
    for key in _given(keys):
        for step in STEPS:
            for value in (_changed(keys, key, step), _changed(keys, key, -step)):
                if _is_allowed(key, value):
                    yield Trial(key, value, WEIGHTS[key] * step)
    if not keys.land and "land" in keys.model_fields_set and keys.land is not None:
        yield Trial("land", least_land(keys.outside_diameter), 0.0)
    for more in range(1, MOST_TEETH_TRIED + 1):
        for count in (keys.teeth + more, keys.teeth - more):
            if 2 <= count <= 1000:
                yield Trial("teeth", count, 100.0 + more)


def _changed(keys: Ratchet, key: str, step: float) -> float:
    """The value of a key changed by a step up (or down, negative); of a root, by its depth, or by
    what it lies outside the blank."""
    now = float(getattr(keys, key))
    if key == "hook_angle":
        return now + step * HOOK_STEP
    if key == "root_diameter":
        depth = abs(keys.outside_diameter - now) or now / 10
        return keys.outside_diameter - depth * math.exp(-step)
    return now * math.exp(step)


def _is_allowed(key: str, value: float) -> bool:
    """Whether a part file may hold the value."""
    if key == "hook_angle":
        return abs(value) < math.radians(44)
    if key == "space_angle":
        return math.radians(5) < value < math.radians(170)
    return 1e-3 < value < 5000


def _tried(keys: Ratchet, trial: Trial) -> Ratchet:
    value = int(trial.value) if trial.key == "teeth" else trial.value
    return keys.model_copy(update={trial.key: value})


def _stands(keys: Ratchet, trial: Trial) -> bool:
    """Whether there is a tooth with a value, and it is one to work with."""
    changed = _tried(keys, trial)
    try:
        tooth = solve_tooth(changed)
    except NoTooth:
        return False
    shortest = min(tooth.face_length, tooth.back_length)
    return (
        tooth.land >= min(least_land(changed.outside_diameter), changed.land or math.inf) * ALIKE
        and tooth.deepest() >= DEEPEST * tooth.blank.radius
        and tooth.bluntness <= (1 - STRAIGHT) * shortest
    )


def _makes(part: Part, keys: Ratchet, trial: Trial, solve: Solve) -> bool:
    """Whether the part can be made with a value: its outline does not cross itself, and what stands
    in the wheel does not break out."""
    try:
        solve(replace(part, wheel=_tried(keys, trial)))
    except CannotMakeError:
        return False
    return True


def _edge(part: Part, keys: Ratchet, trial: Trial, solve: Solve) -> Trial:
    """The value nearest to the one given that still makes the part, as a limit that is written; the
    value tried, where there is no such limit."""
    if trial.key == "teeth" or not getattr(keys, trial.key):
        return trial
    fails, stands = float(getattr(keys, trial.key)), trial.value
    for _ in range(HALVINGS):
        middle = (fails + stands) / 2
        if _stands(keys, replace(trial, value=middle)):
            stands = middle
        else:
            fails = middle
    near = replace(trial, value=stands)
    typed = mended(part, _remedy(keys, Say(part), near)).wheel
    written = replace(near, value=float(getattr(typed, trial.key)))
    return near if _stands(keys, written) and _makes(part, keys, written, solve) else trial
