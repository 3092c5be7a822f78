"""Any record as a dictionary for programs: mm and degrees, unrounded.

`picked` takes values by their keys from a record, `plain` turns a value to what JSON has, an angle
by the quantity that its field names, `by_key` does so with rows.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import fields, is_dataclass
from typing import Any

from profilegen.figures import Quantity
from profilegen.topics.topic import Row


def picked(of: object, keys: str, **given: Any) -> dict[str, Any]:
    """A dictionary of a record, its angles in degrees.

    Args:
        of: the record.
        keys: in order; `key=path` where the value has another name in the record, or lies further
            in it. None where a step of the way is None.
        given: values that the record has not, by their keys, taken as they are.
    """
    found = {}
    for word in keys.split():
        key, _, path = word.partition("=")
        found[key] = given[key] if key in given else _at(of, path or key)
    return found


def plain(value: Any, quantity: Quantity | None = None) -> Any:
    """A value as JSON has it: records as dictionaries, angles in degrees, no infinity."""
    if is_dataclass(value):
        named = _quantities(value)
        return {name: plain(getattr(value, name), kind) for name, kind in named.items()}
    if isinstance(value, tuple):
        return [plain(each, quantity) for each in value]
    if isinstance(value, float):
        value = math.degrees(value) if quantity == "angle" else value
        return value if math.isfinite(value) else None
    return value


def _at(of: object, path: str) -> Any:
    """What lies at the end of a way of attributes and places."""
    quantity = None
    for step in path.split("."):
        if of is None:
            return None
        if step.isdigit() and isinstance(of, tuple):
            of = of[int(step)]
        else:
            quantity = _quantities(of).get(step)
            of = getattr(of, step)
    return plain(of, quantity)


def _quantities(of: object) -> dict[str, Quantity | None]:
    """Each field of a record with the quantity that it names; nothing for what is no record."""
    if not is_dataclass(of):
        return {}
    return {one.name: one.metadata.get("quantity") for one in fields(of)}


def by_key(rows: Iterable[Row]) -> dict[str, Any]:
    """Rows by their keys, lengths in mm, angles in degrees; a dot in a key opens a dictionary of
    its own."""
    found: dict[str, Any] = {}
    for row in rows:
        *above, key = row.key.split(".")
        place = found
        for name in above:
            place = place.setdefault(name, {})
        value = row.value
        place[key] = value if isinstance(value, str) else plain(value.value, value.quantity)
    return found
