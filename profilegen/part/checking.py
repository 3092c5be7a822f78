"""One table of a part file against the model of its kind, every problem at once.

Owns: finding the model and validating.
Refuses: wording what is wrong (`refusals`, imported only then), rules between tables (`part`).
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from pydantic import ValidationError

from profilegen.errors import Problem
from profilegen.part import kinds
from profilegen.part.base import Table
from profilegen.units import Unit, UnitsError, parse_length


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
        from profilegen.part import refusals

        return Checked(None, (refusals.no_table(name, label, raw),))
    if name not in kinds.KINDS:
        return check_model(kinds.model(name), name, label, raw, unit)
    kind = raw.get("kind")
    if isinstance(kind, str) and kind in kinds.KINDS[name]:
        return check_model(kinds.model(name, kind), name, label, raw, unit)
    return _of_no_kind(name, label, raw, unit)


def _of_no_kind(name: str, label: str, raw: Mapping[str, object], unit: Unit) -> Checked:
    """Tell a wrong kind, and what else is wrong by the kind that was probably meant."""
    from profilegen.part import refusals

    meant, problem = refusals.kind_problem(name, label, raw)
    if not meant:
        return Checked(None, (problem,))
    rest = check_model(kinds.model(name, meant), name, label, {**raw, "kind": meant}, unit)
    return Checked(None, (problem, *rest.problems))


def check_model(
    model: type[Table], name: str, label: str, raw: Mapping[str, object], unit: Unit
) -> Checked:
    """Validate one table against a given model.

    Args:
        model: of this kind of table.
        name: the table's name in the registry.
        label: its key path, for the messages.
        raw: as it stands in the file; a key that is None, as a dictionary may have it, is left out.
        unit: of a bare length: mm or in.
    """
    data = {
        str(key): value
        for key, value in raw.items()
        if value is not None and (key not in model.left_out_at_zero or not _is_zero(value, unit))
    }
    below = (
        *_check_inner(model, label, data, unit),
        *_check_lists(model, name, label, data, unit),
    )
    try:
        table = model.model_validate(data, context={"units": unit})
    except ValidationError as error:
        from profilegen.part import refusals

        return Checked(None, (*refusals.problems(error, model, name, label, data, unit), *below))
    return _with_values_checked(table, label, below)


def _is_zero(value: object, unit: Unit) -> bool:
    """Whether a value is a length of 0, in whatever spelling."""
    if isinstance(value, bool) or not isinstance(value, str | int | float):
        return False
    try:
        return parse_length(value, unit) == 0
    except UnitsError:
        return False


def _check_inner(
    model: type[Table], label: str, data: dict[str, object], unit: Unit
) -> tuple[Problem, ...]:
    """Check the tables within a table and put the checked ones in their place.

    One that is wrong is replaced by a text, so that the rest of the table can still be checked.
    """
    problems: list[Problem] = []
    for key, name in model.inner.items():
        raw = data.get(key)
        if isinstance(raw, Mapping):
            checked = check_table(name, f"{label}.{key}", raw, unit)
            data[key] = checked.table or "a table that is wrong"
            problems += checked.problems
    return tuple(problems)


def _check_lists(
    model: type[Table], name: str, label: str, data: dict[str, object], unit: Unit
) -> tuple[Problem, ...]:
    """Check the tables of the lists within a table and put the checked ones in their place.

    One that is wrong leaves a blank one behind, so that the rest of the table can still be checked.
    """
    problems: list[Problem] = []
    for key, each in model.inner_lists.items():
        if key not in data:
            continue
        raw, where = data[key], f"{label}.{key}"
        if not isinstance(raw, list | tuple) or not raw:
            text = f"a list of tables is wanted: a line [[{name}.{key}]] before each"
            problems.append(Problem(where, text))
            raw = ()
        found = []
        for number, item in enumerate(raw, 1):
            checked = _check_item(each, f"{name}.{key}", f"{where}[{number}]", item, unit)
            found.append(checked.table or each.model_construct())
            problems += checked.problems
        data[key] = tuple(found)
    return tuple(problems)


def _check_item(model: type[Table], name: str, label: str, raw: object, unit: Unit) -> Checked:
    """Check one table of a list."""
    if not isinstance(raw, Mapping):
        return Checked(None, (Problem(label, "a table of keys is wanted here"),))
    return check_model(model, name, label, raw, unit)


def _with_values_checked(table: Table, label: str, below: tuple[Problem, ...]) -> Checked:
    """Return a valid table, or what is wrong between its values and below it."""
    problems = [
        Problem(
            f"{label}.{rule.key}" if rule.key else label,
            rule.message,
            allowed=rule.allowed,
            hint=rule.hint,
        )
        for rule in table.value_rules()
    ]
    problems += below
    return Checked(None, tuple(problems)) if problems else Checked(table)
