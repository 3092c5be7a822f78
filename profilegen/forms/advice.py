"""Which key to change, and to what, when a wheel cannot be made: found by trying.

Every size that the print gives is tried smaller and larger, the least change first, until the whole
part can be made, bore and all; where no size alone mends it, the count of teeth. What is tried is
solved by the solver itself, so no rule of a tooth stands here twice.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from itertools import islice
from typing import TYPE_CHECKING

from profilegen.findings.cannot_make import CannotMakeError
from profilegen.findings.finding import Fact, Finding, Make, Phrase, Than, bare, mm, rad
from profilegen.forms.form import AnyForm
from profilegen.forms.wheel import Wheel
from profilegen.part.base import ToothedTable
from profilegen.part.mending import mended
from profilegen.part.part import bare_part

if TYPE_CHECKING:
    from profilegen.part.base import WheelTable
    from profilegen.part.part import Part

Solve = Callable[["Part"], Wheel]

STEPS = (0.02, 0.05, 0.1, 0.15, 0.2, 0.3, 0.4, 0.55, 0.7, 0.9, 1.2, 1.5, 1.9, 2.4, 3.0, 4.0)
"""Changes that are tried, as natural logarithms of new to old; a hook of `HOOK_STEP` each."""

HOOK_STEP = math.radians(20)
MOST_TEETH_TRIED = 60
HALVINGS = 30

MOST_SOLVED = 80
"""Whole parts that are solved for one refusal; teeth by themselves are tried much faster."""

ROOTS = ("root_radius", "root_flat")


@dataclass(frozen=True, slots=True)
class Trial:
    """A key and a value to try, mm or rad or a count, and what the change counts."""

    key: str
    value: float
    cost: float


def advised(
    part: Part, form: AnyForm, findings: tuple[Finding, ...], solve: Solve
) -> tuple[Finding, ...]:
    """The refusals of a wheel; those at `wheel` as a whole get the key to change, its value, and
    a remedy.

    Args:
        part: which cannot be made.
        form: of its wheel.
        findings: its refusals.
        solve: solves a part, or raises `CannotMakeError`.
    """
    if all(one.where != "wheel" for one in findings):
        return findings
    keys = part.wheel
    found = _nearest(part, form, keys, solve)
    return tuple(
        _mendable(form, keys, one, found) if one.where == "wheel" else one for one in findings
    )


def _mendable(form: AnyForm, keys: WheelTable, one: Finding, found: Trial | None) -> Finding:
    """The refusal with what mends it: at a root that is too big, of that root."""
    if found is None:
        return _unmended(form, keys, one)
    make = _make(keys, found)
    then = form.consequence(keys, one.code, found.key)
    advice = make if then is None else (make, then)
    if found.key in ROOTS:
        return replace(_too_big(keys, found.key, advice), limit=found.value, remedy=make.remedy)
    return replace(one, where=make.key, advice=advice, remedy=make.remedy)


def _unmended(form: AnyForm, keys: WheelTable, one: Finding) -> Finding:
    """The refusal that takes more than one other value: the keys to look at."""
    first, *rest = [*_suspects(form, keys), "teeth"]
    where = f"wheel.{first}"
    advice = Phrase("look-first", {"first": where})
    if rest:
        advice = Phrase("look-at-teeth", {"first": where})
    if rest[:-1]:
        advice = Phrase("look-at", {"first": where, "others": tuple(rest[:-1])})
    if first in ROOTS:
        return _too_big(keys, first, advice)
    return replace(one, where=where, advice=advice)


def _too_big(keys: WheelTable, key: str, advice: Fact) -> Finding:
    """The refusal of a root that no space between the teeth takes."""
    size = float(getattr(keys, key))
    where = f"wheel.{key}"
    return Finding("root-too-big", "refused", where, size, case="space", advice=advice)


def _make(keys: WheelTable, found: Trial) -> Make:
    """The value found, as a bound on the side on which it lies."""
    where, now = f"wheel.{found.key}", float(getattr(keys, found.key))
    than: Than = "at least" if found.value > now else "at most"
    if found.key == "teeth":
        return Make(where, than, int(found.value))
    if found.key in keys.bare_numbers:
        return Make(where, than, bare(found.value, than))
    is_angle = found.key.endswith("angle")
    return Make(where, than, rad(found.value, than) if is_angle else mm(found.value, than))


def _given(form: AnyForm, keys: WheelTable) -> list[str]:
    """The keys that may be changed: those of the form's `weights` that the print gives."""
    return [key for key in form.weights if key in keys.model_fields_set and getattr(keys, key)]


def _suspects(form: AnyForm, keys: WheelTable) -> list[str]:
    """The keys given, one that cannot be right whatever the others are in front."""
    pitch = math.pi * (getattr(keys, "outside_diameter", None) or math.inf)
    pitch /= keys.teeth if isinstance(keys, ToothedTable) else 1
    wide = [key for key in ROOTS if (getattr(keys, key, None) or 0) > pitch / 2]
    return list(dict.fromkeys((*wide, *_given(form, keys))))


def _nearest(part: Part, form: AnyForm, keys: WheelTable, solve: Solve) -> Trial | None:
    """The least change with which the whole part can be made, or else the wheel without bore, hub
    and holes; None when no key alone mends it."""
    trials = sorted(_trials(form, keys), key=lambda trial: trial.cost)
    bare = replace(bare_part(keys), units=part.units)
    plain = part.bore.kind == "none" and part.hub is None and not part.holes
    for whole in (bare,) if plain else (part, bare):
        stand = (trial for trial in trials if _stands(form, keys, trial))
        for trial in islice(stand, MOST_SOLVED):
            if _makes(whole, keys, trial, solve):
                return _edge(whole, form, keys, trial, solve)
    return None


def _trials(form: AnyForm, keys: WheelTable) -> Iterator[Trial]:
    for key in _given(form, keys):
        for step in STEPS:
            for value in (_changed(keys, key, step), _changed(keys, key, -step)):
                if _is_allowed(keys, key, value):
                    yield Trial(key, value, form.weights[key] * step)
    yield from (Trial(key, value, 0.0) for key, value in form.least(keys))
    if not isinstance(keys, ToothedTable):
        return
    for more in range(1, MOST_TEETH_TRIED + 1):
        for count in (keys.teeth + more, keys.teeth - more):
            if 2 <= count <= 1000:
                yield Trial("teeth", count, 100.0 + more)


def _changed(keys: WheelTable, key: str, step: float) -> float:
    """The value of a key changed by a step up (or down, negative); of a root, by its depth, or by
    what it lies outside the blank."""
    now = float(getattr(keys, key))
    if key == "hook_angle":
        return now + step * HOOK_STEP
    if key in keys.bare_numbers:
        return now + step
    if key == "root_diameter":
        outside = float(getattr(keys, "outside_diameter", now))
        return outside - (abs(outside - now) or now / 10) * math.exp(-step)
    return now * math.exp(step)


def _is_allowed(keys: WheelTable, key: str, value: float) -> bool:
    """Whether a part file may hold the value."""
    if key in keys.bare_numbers:
        least, most = keys.bare_numbers[key]
        return least <= value <= most
    if key == "hook_angle":
        return abs(value) < math.radians(44)
    if key == "space_angle":
        return math.radians(5) < value < math.radians(170)
    return 1e-3 < value < 5000


def _tried(keys: WheelTable, trial: Trial) -> WheelTable:
    value = int(trial.value) if trial.key == "teeth" else trial.value
    return keys.model_copy(update={trial.key: value})


def _stands(form: AnyForm, keys: WheelTable, trial: Trial) -> bool:
    """Whether there is a tooth with a value, and it is one to work with."""
    return form.is_sound(_tried(keys, trial))


def _makes(part: Part, keys: WheelTable, trial: Trial, solve: Solve) -> bool:
    """Whether the part can be made with a value: its outline does not cross itself, and what stands
    in the wheel does not break out."""
    try:
        solve(replace(part, wheel=_tried(keys, trial)))
    except CannotMakeError:
        return False
    return True


def _edge(part: Part, form: AnyForm, keys: WheelTable, trial: Trial, solve: Solve) -> Trial:
    """The value nearest to the one given that still makes the part, as a limit that is written; the
    value tried, where there is no such limit."""
    if trial.key == "teeth" or not getattr(keys, trial.key):
        return trial
    fails, stands = float(getattr(keys, trial.key)), trial.value
    for _ in range(HALVINGS):
        middle = (fails + stands) / 2
        if _stands(form, keys, replace(trial, value=middle)):
            stands = middle
        else:
            fails = middle
    near = replace(trial, value=stands)
    typed = mended(part, _make(keys, near).remedy).wheel
    written = replace(near, value=float(getattr(typed, trial.key)))
    return near if _stands(form, keys, written) and _makes(part, keys, written, solve) else trial
