"""What is wrong with tables, in shop words.

Owns: an unknown kind, the errors of the model in order, the broken rules between keys, names
that tables use of each other.
Refuses: validating. Imported only when something is wrong, so that a good file starts fast.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence, Set

from pydantic import ValidationError

from profilegen.errors import Problem
from profilegen.part import kinds
from profilegen.part.base import KeyRule, Table
from profilegen.part.model_errors import reworded, shown, shown_key
from profilegen.part.nearest import key_guess, meant_word, near, table_guess, word_guess
from profilegen.units import Unit

MOST_UNKNOWN = 30
"""Unknown keys of one table that are told; a table with more is something else."""


def no_table(name: str, label: str, raw: object) -> Problem:
    """Return the problem of a value that stands where a table is wanted."""
    text = f"a table is wanted here: a line {kinds.bracketed(name)} with its keys below"
    return Problem(label, text, shown(raw))


def kind_problem(name: str, label: str, raw: Mapping[str, object]) -> tuple[str, Problem]:
    """Return the likeliest meaning of a wrong kind, or an empty text, and the problem."""
    known = tuple(kinds.KINDS[name])
    allowed = ", ".join(f'"{kind}"' for kind in known)
    where, only = f"{label}.kind", known[0] if len(known) == 1 else ""
    if "kind" not in raw:
        hint = _kind_hint(name, raw)
        return only, Problem(where, "kind is missing", allowed=allowed, hint=hint)
    value = raw["kind"]
    meant = meant_word(value, known) or near(str(value).lower(), known)
    text = f"there is no such kind of {name}"
    return meant or only, Problem(where, text, shown(value), allowed, word_guess(value, known))


def _kind_hint(name: str, raw: Mapping[str, object]) -> str:
    for key in ("type", "form", "shape"):
        if key in raw:
            return f"write kind instead of {key}"
    first = next(iter(kinds.KINDS[name]))
    return f'add kind = "{first}"' if len(kinds.KINDS[name]) == 1 else "add a line kind = ..."


def problems(
    error: ValidationError,
    model: type[Table],
    name: str,
    label: str,
    data: Mapping[str, object],
    unit: Unit,
) -> tuple[Problem, ...]:
    """Return everything that is wrong with a table, each problem once.

    Args:
        error: what the model said.
        model: the model that refused.
        name: the table's name in the registry.
        label: its key path.
        data: the table.
        unit: of a bare length.
    """
    return tuple(dict.fromkeys(_problems(error, model, name, label, data, unit)))


def _problems(
    error: ValidationError,
    model: type[Table],
    name: str,
    label: str,
    data: Mapping[str, object],
    unit: Unit,
) -> Iterator[Problem]:
    """Yield every problem; a key that stands in for another is not reported as missing too."""
    fields = model.model_fields
    unknown = [key for key in data if key not in fields][:MOST_UNKNOWN]
    guess = {key: key_guess(key, name, fields) for key in unknown}
    meant = {found.key for found in guess.values() if found.key}
    for item in error.errors(include_url=False):
        loc, kind = item["loc"], item["type"]
        stood_in = kind == "missing" and len(loc) == 1 and loc[0] in meant
        untold = kind == "extra_forbidden" and loc[0] not in guess
        if loc and not stood_in and not untold:
            yield reworded(item, label, name, model, guess, unit)
    for rule in _broken_either_way(model, data.keys() & fields.keys(), meant):
        where = f"{label}.{rule.key}" if rule.key else label
        yield Problem(where, rule.message, allowed=rule.allowed, hint=rule.hint)


def _broken_either_way(model: type[Table], given: Set[str], meant: Set[str]) -> Iterator[KeyRule]:
    """Yield the rules that the keys given break, whether the guessed ones are right or not."""
    guessed = {rule.key for rule in model.key_rules(given | meant)}
    yield from (rule for rule in model.key_rules(given) if rule.key in guessed)


def unknown_table(name: str) -> Problem:
    """Return the problem of a table that no part file has."""
    known, allowed = shown_key(name), ", ".join(map(kinds.bracketed, kinds.TABLES))
    return Problem(known, f"there is no table {known}", allowed=allowed, hint=table_guess(name))


def same_names(names: Sequence[str]) -> Iterator[Problem]:
    """Yield a problem for each cutter whose name an earlier one has; empty names do not count."""
    for place, name in enumerate(names, 1):
        first = names.index(name) + 1
        if name and first != place:
            text, allowed = f"cutter[{first}] has the same name", "a name of its own for each"
            yield Problem(f"cutter[{place}].name", text, shown(name), allowed)


def unknown_cutter(wanted: str, names: Sequence[str]) -> Iterator[Problem]:
    """Yield the problem of a set-up that names a cutter which is not in the file."""
    if wanted and wanted not in names:
        known = ", ".join(map(shown, dict.fromkeys(names))) or "a [[cutter]] of this name"
        close = near(wanted, names)
        hint = f"did you mean {shown(close)}?" if close else ""
        text = "no [[cutter]] has this name"
        yield Problem("setup.cutter", text, shown(wanted), known, hint)
