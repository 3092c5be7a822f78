"""The machine's settings as programs read them: mm, turns a minute, unrounded.

Owns the keys `touch_off`, `passes`, `bar`, `speed`, `blank`. Refuses text for people.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import asdict
from typing import TYPE_CHECKING, Any

from profilegen.setting.dials import Dialled
from profilegen.setting.passes import Pass
from profilegen.setting.setting import Setting, dial_of, pass_on_dial
from profilegen.setting.touchoff import DialMove, routes_of

if TYPE_CHECKING:
    from profilegen.part.part import Part


def setting_as_dict(part: Part, shop: Setting) -> dict[str, Any]:
    """The settings as JSON has them: two lists and three tables, lengths in mm, unrounded; `bar`,
    `speed` and `blank` are None where there is nothing.

    Args:
        part: for the zero to set by and the dials; what is told of a dial is in its own marks.
        shop: of the blank at hand.
    """
    return {
        "touch_off": list(_moves(part, shop)),
        "passes": [_pass(part, shop, one) for one in shop.passes],
        "bar": asdict(shop.bar) if shop.bar else None,
        "speed": asdict(shop.speed) if shop.speed else None,
        "blank": _blank(part, shop),
    }


def _moves(part: Part, shop: Setting) -> Iterator[dict[str, Any]]:
    """A row for every move on its route, lap by lap: the route to set by, the other, the checks;
    a zero that both routes begin with has a row on each. The feed comes last."""
    set_by = [move for move in shop.touch_off if move.sets != "feed"]
    for lap in dict.fromkeys(move.lap for move in set_by):
        here = [move for move in set_by if move.lap == lap]
        for route in routes_of(part.setup.touch):
            yield from (_move(part, move, route) for move in here if route in move.routes)
        yield from (_move(part, move, "check") for move in here if not move.routes)
    yield from (_move(part, one, "check") for one in shop.touch_off if one.sets == "feed")


def _move(part: Part, move: DialMove, route: str) -> dict[str, Any]:
    return {
        "zero": move.zero,
        "axis": move.axis,
        "direction": move.direction,
        "amount": move.amount,
        "lap": move.lap,
        "route": route,
        "sets": move.sets,
        "touches": move.touches,
        "dial": _dial(dial_of(part, move)),
    }


def _pass(part: Part, shop: Setting, one: Pass) -> dict[str, Any]:
    return {
        "lap": one.lap,
        "pass": one.number,
        "kind": one.kind,
        "spaces": one.spaces,
        "infeed": one.from_zero(part.setup.touch),
        "from_contact": one.from_contact,
        "from_offset": one.from_offset,
        "from_top": one.from_top,
        "chip_area": one.chip_area,
        "dial": _dial(pass_on_dial(part, shop, one)),
    }


def _dial(found: Dialled | None) -> dict[str, Any] | None:
    return asdict(found) if found else None


def _blank(part: Part, shop: Setting) -> dict[str, Any] | None:
    if shop.blank is None:
        return None
    return {
        "diameter": 2 * shop.wheel.radius,
        "hold": part.blank.hold,
        "shifts": [asdict(shift) for shift in shop.blank.shifts],
    }
