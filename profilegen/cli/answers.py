"""One answer: what may be said, whether it will do, and how it is written in TOML.

Owns the way from a typed line to a value that the part's own models accept. The models judge; here
their judgement of one key is asked for alone.
"""

from __future__ import annotations

import json
import re
from typing import TYPE_CHECKING, Any

from profilegen.part import kinds
from profilegen.part.checking import check_table

if TYPE_CHECKING:
    from profilegen.errors import Problem
    from profilegen.units import Unit

_NUMBER = re.compile(r"-?(?:0|[1-9][0-9]*)?(?:\.[0-9]+)?")
_PROBE = -359
"""A value that no key allows, to hear what it does allow; only a turn takes it."""


class AnswerError(ValueError):
    """An answer that will not do; its text says why."""


def described(table: str, kind: str, key: str, unit: Unit) -> list[str]:
    """The lines in front of a question: meaning, range, unit of a bare number."""
    description = kinds.model(table, kind).model_fields[key].description or ""
    sort = _sort(table, kind, key)
    allowed = _allowed(table, kind, key, unit) if sort != "text" else "one line of text"
    examples = _schema(table, kind, key).get("examples", [])
    bare = ""
    if sort == "size":
        is_angle = "60 deg" in examples
        bare = (
            f"; a bare number is in {'degrees' if is_angle else {'in': 'inches'}.get(unit, unit)}"
        )
    if sort == "list":
        allowed = "two angles, parted by a blank"
    return [f"{key}: {description}", f"  {allowed or 'any'}{bare}"]


def read_answer(table: str, kind: str, key: str, raw: str, unit: Unit) -> str:
    """A typed line as a TOML value.

    Raises:
        AnswerError: it will not do.
    """
    sort = _sort(table, kind, key)
    value = _value(raw if sort == "text" else _unquoted(raw), sort)
    problem = _problem(table, kind, key, value, unit)
    if problem is not None:
        allowed = f"; allowed: {problem.allowed}" if problem.allowed else ""
        hint = f"; {problem.hint}" if problem.hint else ""
        raise AnswerError(f"{problem.message}{allowed}{hint}")
    return literal(value)


def literal(value: Any) -> str:
    """A value as it is written in TOML."""
    if isinstance(value, list | tuple):
        return f"[{', '.join(map(literal, value))}]"
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, _Typed):
        return value.text
    return json.dumps(value, ensure_ascii=False)


class _Typed(float):
    """A number that keeps the digits typed."""

    text: str = ""


def _typed(text: str) -> _Typed:
    number = _Typed(text)
    number.text = text
    return number


def _unquoted(raw: str) -> str:
    """A typed line without the quotes in which a part file would have it."""
    quote = raw[:1]
    is_quoted = (
        len(raw) > 1 and quote in ("'", '"') and raw.endswith(quote) and raw.count(quote) == 2
    )
    return raw[1:-1].strip() if is_quoted else raw


def _value(raw: str, sort: str) -> Any:
    """A typed line as the kind of value that a TOML file would hold."""
    match sort:
        case "count":
            return int(raw) if raw.lstrip("-").isdecimal() and len(raw) < 40 else raw
        case "size":
            is_number = _NUMBER.fullmatch(raw) and raw.strip("-") and len(raw) < 40
            return _typed(re.sub(r"^(-?)\.", r"\g<1>0.", raw)) if is_number else raw
        case "list":
            return [_value(word, "size") for word in raw.strip("[]").replace(" and ", " ").split()]
        case "yes or no":
            return {"true": True, "yes": True, "false": False, "no": False}.get(raw.lower(), raw)
    return raw


def _sort(table: str, kind: str, key: str) -> str:
    """The sort of a key's value: `text`, `choice`, `count`, `size`, `list` or `yes or no`."""
    schema = _schema(table, kind, key)
    if "enum" in schema or "const" in schema:
        return "choice"
    named = {"string": "text", "integer": "count", "array": "list", "boolean": "yes or no"}
    kind_of = schema.get("type")
    return named.get(kind_of, "size") if isinstance(kind_of, str) else "size"


def _schema(table: str, kind: str, key: str) -> dict[str, Any]:
    schema: dict[str, Any] = kinds.model(table, kind).model_json_schema()["properties"][key]
    for item in schema.get("anyOf", ()):
        if item.get("type") != "null":
            return dict(item)
    return schema


def _allowed(table: str, kind: str, key: str, unit: Unit) -> str:
    problem = _problem(table, kind, key, _PROBE, unit)
    return problem.allowed if problem else ""


def _problem(table: str, kind: str, key: str, value: Any, unit: Unit) -> Problem | None:
    """What the model says about one key alone."""
    raw = {"kind": kind, key: value} if table in kinds.KINDS else {key: value}
    where = f"{table}.{key}" if table else key
    problems = check_table(table, table, raw, unit).problems
    found = [p for p in problems if p.where == where or p.where.startswith(f"{where}[")]
    return found[0] if found else None
