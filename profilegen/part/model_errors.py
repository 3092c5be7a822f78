"""A validation error of the model library in shop words.

Owns: one sentence for each type of error, key paths as a person counts, how a value is shown.
Refuses: validating; it sees only the errors and the model that made them.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any, get_args

from profilegen.errors import Problem
from profilegen.part.fields import FieldError
from profilegen.part.lines import printable
from profilegen.part.missing_lines import usual_line
from profilegen.part.nearest import Guess, heading, word_guess
from profilegen.part.values import marked_size
from profilegen.units import Unit, UnitsError

LONGEST_SHOWN = 60
"""Characters of a value shown in a message."""


def shown(value: object) -> str:
    """Return a value as it would stand in the file, cut short, tables and lists only named."""
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, Mapping):
        return "a table"
    if isinstance(value, str):
        quote = "'" if '"' in value else '"'
        return _cut(quote + printable(value[: LONGEST_SHOWN + 1]) + quote)
    if isinstance(value, list | tuple):
        flat = not any(isinstance(item, Mapping | list | tuple) for item in value)
        return _cut("[" + ", ".join(map(shown, value[:8])) + "]") if flat else "a list"
    if isinstance(value, int) and value.bit_length() > 200:
        return "a number of more than 60 digits"
    return _cut(str(value))


def _cut(text: str) -> str:
    return text if len(text) <= LONGEST_SHOWN else text[: LONGEST_SHOWN - 3] + "..."


def path_text(label: str, loc: Sequence[int | str]) -> str:
    """Return the key path below `label`, list places counted from 1."""
    text = label
    for step in loc:
        dot = "." if text else ""
        text += f"[{step + 1}]" if isinstance(step, int) else f"{dot}{shown_key(step)}"
    return text


def shown_key(key: object) -> str:
    """Return a key as it can be printed, cut short; an empty one as its quotes."""
    return _cut(printable(str(key)[: LONGEST_SHOWN + 1])) or '""'


def choices(annotation: Any) -> tuple[str, ...]:
    """Return the words of a `Literal`, with or without None beside it."""
    found: list[str] = []
    for item in get_args(annotation):
        found += [item] if isinstance(item, str) else choices(item)
    return tuple(found)


def reworded(
    error: Mapping[str, Any],
    label: str,
    table: str,
    model: Any,
    guess: Mapping[str, Guess],
    unit: Unit,
) -> Problem:
    """Return one error of the model library as a problem.

    Args:
        error: an item of `ValidationError.errors()`.
        label: the key path of the table, empty for the top of the file.
        table: the table's name in the registry.
        model: the model that refused.
        guess: what each unknown key probably stands for.
        unit: of a bare length.
    """
    loc = tuple(error["loc"])
    where = path_text(label, loc) or "the file"
    key = str(loc[0]) if loc else ""
    value = error["input"]
    field = model.model_fields.get(key)
    match error["type"]:
        case "missing" if len(loc) == 1:
            return Problem(where, f"{key} is missing", hint=_missing(table, key, field, unit))
        case "extra_forbidden":
            return _unknown(where, key, table, value, guess.get(key, Guess("")), model)
        case "value_error":
            return _own(where, error["ctx"]["error"], value)
        case "literal_error":
            words = choices(field.annotation)
            allowed = ", ".join(f'"{word}"' for word in words)
            hint = word_guess(value, words)
            return Problem(where, "this word is not known here", shown(value), allowed, hint)
        case "bool_type":
            return Problem(where, "this is answered by yes or no", shown(value), "true or false")
        case "tuple_type" | "too_long" | "too_short" | "missing":
            text = "a list of two values is wanted"
            return Problem(path_text(label, loc[:1]), text, shown(value), "[a, b]")
    return Problem(where, "this value is not allowed", shown(value))


def _missing(table: str, key: str, field: Any, unit: Unit) -> str:
    """Return the line to write for a missing key, and what it means."""
    meaning = (field.description or "") if field else ""
    line = usual_line(table, key, unit)
    if not line:
        return meaning
    return f"write {line}, with your own value: {meaning[:1].lower()}{meaning[1:].rstrip('.')}"


def _own(where: str, error: Exception, value: object) -> Problem:
    if isinstance(error, UnitsError | FieldError):
        hint = error.hint or _without_marks(where, value)
        return Problem(where, error.message, shown(value), error.allowed, hint)
    return Problem(where, "this value is not allowed", shown(value))


def _without_marks(where: str, value: object) -> str:
    """Return what to write for a size in quotes with a drawing's marks, such as `"Ø40"`."""
    size = marked_size(value) if isinstance(value, str) else ""
    key = where.rpartition(".")[2]
    return f"write {size if key.endswith(']') else f'{key} = {size}'}" if size else ""


def _unknown(where: str, key: str, table: str, value: object, guess: Guess, model: Any) -> Problem:
    name = shown_key(key)
    allowed = "" if guess.hint else ", ".join(model.model_fields)
    text = f"there is no key {name} {heading(table)}"
    return Problem(where, text, f"{name} = {shown(value)}", allowed, guess.hint)
