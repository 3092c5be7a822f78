"""A part with one value changed, as the remedy of a finding tells it.

Holds the way from a key path and a value as it is typed to a changed `Part`, and the lengths that a
part gives. Nothing is validated: whoever changes a value solves the part again to see what it does.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace
from typing import TYPE_CHECKING, Any

from profilegen.findings.finding import Remedy
from profilegen.findings.telling import typed
from profilegen.units import parse_angle, parse_length

if TYPE_CHECKING:
    from profilegen.part.base import Table
    from profilegen.part.part import Part

_PATH = re.compile(r"([a-z]+)(?:\[(\d+)\])?\.([a-z_]+)")
_ATTRIBUTES = {"cutter": "cutters"}
"""Table -> attribute of `Part`, where they differ."""

_SIZED = ("wheel", "bore", "hub", "holes")
"""Tables whose lengths are those of the part itself."""


def mended(part: Part, remedy: Remedy) -> Part:
    """Return the part with the value of a remedy at its key.

    Args:
        part: it stays as it is.
        remedy: key path, and the value as it would be typed there, bare sizes in the part's unit,
            mm or in.

    Raises:
        KeyError: the part has no such table.
        UnitsError: the value is a size that no part file may have.
    """
    path = _PATH.fullmatch(remedy.key)
    if path is None:
        raise KeyError(remedy.key)
    name, number, key = path.groups()
    attribute = _ATTRIBUTES.get(name, name)
    old = getattr(part, attribute)
    value = typed(remedy, part.units)
    fresh: dict[str, Any] = {}
    if number is None:
        fresh[attribute] = _changed(part, old, key, value)
    else:
        place = int(number) - 1
        row = _changed(part, old[place], key, value)
        fresh[attribute] = (*old[:place], row, *old[place + 1 :])
    return replace(part, **fresh)


def _changed(
    part: Part, table: Table | None, key: str, value: str | int | float | bool | None
) -> Table:
    if table is None:
        raise KeyError(key)
    read = _read(part, value)
    fresh = type(table).model_fields[key].default if value is None else read
    return table.model_copy(update={key: fresh})


def _read(part: Part, value: str | int | float | bool | None) -> Any:
    """The value as a table holds it: mm, radians, or as it stands."""
    if not isinstance(value, str) or not any(sign.isdigit() for sign in value):
        return value
    return parse_angle(value) if value.endswith("deg") else parse_length(value, part.units)


def lengths_given(part: Part) -> Iterator[tuple[str, float]]:
    """Yield key path and size (mm, not 0) of each length of wheel, bore, hub and holes."""
    for name in _SIZED:
        found = getattr(part, name)
        many = isinstance(found, tuple)
        for number, table in enumerate(found if many else [found], 1):
            label = f"{name}[{number}]" if many else name
            yield from ((f"{label}.{key}", size) for key, size in _lengths(table))


def _lengths(table: Table | None) -> Iterator[tuple[str, float]]:
    if table is None:
        return
    for key in type(table).model_fields:
        size = getattr(table, key)
        is_size = key in table.model_fields_set and isinstance(size, float)
        is_size = is_size and key not in type(table).bare_numbers
        if is_size and size > 0 and not key.endswith("angle"):
            yield key, size
