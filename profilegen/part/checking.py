"""One table of a part file against the model of its kind, every problem at once.

Owns: finding the model, validating, adding the broken rules between keys.
Refuses: rules between tables (`part`), and reading files.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from pydantic import ValidationError

from profilegen.errors import Problem
from profilegen.part import kinds
from profilegen.part.base import Table
from profilegen.part.nearest import bracketed, key_guess, meant_word, word_guess
from profilegen.part.rewording import reworded, shown
from profilegen.units import Unit


@dataclass(frozen=True, slots=True)
class Checked:
    """A table after checking.

    Attributes:
        table: the validated model, or None when there are problems.
        problems: everything that is wrong with the table.
    """

    table: Table | None
    problems: tuple[Problem, ...] = ()


def check_table(name: str, label: str, raw: object, unit: Unit) -> Checked:
    """Validate one table.

    Args:
        name: the table's name in the registry, empty for the top of the file.
        label: its key path, such as `cutter[2]`.
        raw: what the file holds there.
        unit: the unit of a bare length.
    """
    if not isinstance(raw, Mapping):
        text = f"a table is wanted here: a line {bracketed(name)} with its keys below"
        return Checked(None, (Problem(label, text, shown(raw)),))
    if name not in kinds.KINDS:
        return _check(kinds.model(name), name, label, raw, unit)
    kind, problem = _kind(name, label, raw)
    if problem is None:
        return _check(kinds.model(name, kind), name, label, raw, unit)
    rest = (
        _check(kinds.model(name, kind), name, label, {**raw, "kind": kind}, unit) if kind else None
    )
    return Checked(None, (problem, *(rest.problems if rest else ())))


def _kind(name: str, label: str, raw: Mapping[str, object]) -> tuple[str, Problem | None]:
    """Return the kind, and what is wrong with it; a wrong kind with its likeliest meaning."""
    known = tuple(kinds.KINDS[name])
    value = raw.get("kind")
    if isinstance(value, str) and value in known:
        return value, None
    allowed = ", ".join(f'"{kind}"' for kind in known)
    where = f"{label}.kind" if label else "kind"
    only = known[0] if len(known) == 1 else ""
    if "kind" not in raw:
        problem = Problem(where, "kind is missing", allowed=allowed, hint=_kind_hint(name, raw))
        return only, problem
    meant = meant_word(value, known)
    text = f"there is no such kind of {name}"
    return meant or only, Problem(where, text, shown(value), allowed, word_guess(value, known))


def _kind_hint(name: str, raw: Mapping[str, object]) -> str:
    for key in ("type", "form", "shape"):
        if key in raw:
            return f"write kind instead of {key}"
    first = next(iter(kinds.KINDS[name]))
    return f'add kind = "{first}"' if len(kinds.KINDS[name]) == 1 else "add a line kind = ..."


def _check(
    model: type[Table], name: str, label: str, raw: Mapping[str, object], unit: Unit
) -> Checked:
    data = {str(key): value for key, value in raw.items()}
    try:
        return Checked(model.model_validate(data, context={"units": unit}))
    except ValidationError as error:
        return Checked(None, tuple(_problems(error, model, name, label, data)))


def _problems(
    error: ValidationError, model: type[Table], name: str, label: str, data: Mapping[str, object]
) -> Iterator[Problem]:
    """Yield every problem; a key that stands in for another is not reported as missing too."""
    fields = model.model_fields
    guess = {key: key_guess(key, name, fields) for key in data if key not in fields}
    meant = {found.key for found in guess.values() if found.key}
    for item in error.errors(include_url=False):
        loc = item["loc"]
        stood_in = item["type"] == "missing" and len(loc) == 1 and loc[0] in meant
        if loc and not stood_in:
            yield reworded(item, label, name, model, guess)
    for rule in model.key_rules((data.keys() & fields.keys()) | meant):
        where = f"{label}.{rule.key}" if rule.key else label
        yield Problem(where, rule.message, allowed=rule.allowed, hint=rule.hint)
