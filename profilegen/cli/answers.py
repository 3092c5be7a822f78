"""One answer: what may be said, whether it will do, and how it is written in TOML.

Owns the way from a typed line to a value that the part's own models accept. The models judge; here
their judgement of one key is asked for alone.
"""

from __future__ import annotations

import json
import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cache
from typing import TYPE_CHECKING, Any

from profilegen.errors import Problem
from profilegen.part import kinds
from profilegen.part.checking import check_table
from profilegen.part.values import Value, repair_value
from profilegen.units import format_length, parse_length

if TYPE_CHECKING:
    from profilegen.units import Unit

_NUMBER = re.compile(r"-?(?:0|[1-9][0-9]*)?(?:\.[0-9]+)?")
_FILES = frozenset({"of", "dxf"})
"""Keys that name a file."""

_PROBE = -359
"""A value that no key allows, to hear what it does allow; only a turn takes it."""

_MEANT = re.compile(
    r"""(?:write|did you mean) (?:[a-z_]+ = )?+(?:"([^"]+)"|'([^']+)'|([^\s,;?]++))(?! or )"""
)
"""A hint that names what to write; one that names two leaves the choice."""


class AnswerError(ValueError):
    """An answer that will not do; its text says why.

    Attributes:
        offer: what was probably meant, as it would be typed; or empty.
    """

    def __init__(self, text: str, offer: str = "") -> None:
        super().__init__(text)
        self.offer = offer


@dataclass(frozen=True, slots=True)
class Key:
    """What is asked for.

    Attributes:
        table: where the key stands, empty for the top of the file.
        kind: of that table, or empty.
        name: of the key.
        unit: of a bare length.
        below: what a length must be less than, mm; None where only the key's own limits count.
        beside: the other keys of the table that are answered, with their values.
    """

    table: str
    kind: str
    name: str
    unit: Unit
    below: float | None = None
    beside: Mapping[str, Any] = field(default_factory=dict)

    def described(self) -> list[str]:
        """The lines in front of the question: meaning, limits, unit of a bare number."""
        meaning = kinds.model(self.table, self.kind).model_fields[self.name].description or ""
        return [f"{self.name}: {meaning}", f"  {self.limits() or 'any'}{self._bare()}"]

    def limits(self) -> str:
        """What is allowed, in words."""
        schema = self._schema()
        match self.sort:
            case "text":
                return f"one line of text, up to {schema['maxLength']} signs"
            case "file":
                return "the name of a file that is there"
            case "list":
                return "two angles, parted by a blank"
        problem = self._problem(_PROBE)
        allowed = problem.allowed if problem else ""
        return allowed if self.below is None else f"{allowed}, {self._below()}"

    def _below(self) -> str:
        return f"less than {format_length(self.below or 0.0, self.unit, rounding='down')}"

    def _bare(self) -> str:
        """What a bare number is, where it may be of more than one unit."""
        if self.sort != "size":
            return ""
        if self.is_angle:
            return "; a bare number is in degrees"
        return f"; a bare number is in {'inches' if self.unit == 'in' else self.unit}"

    @property
    def is_angle(self) -> bool:
        """Whether it is an angle."""
        return "60 deg" in self._schema().get("examples", ())

    @property
    def sort(self) -> str:
        """`text`, `file`, `choice`, `count`, `size`, `list` or `yes or no`."""
        schema = self._schema()
        if "enum" in schema or "const" in schema:
            return "choice"
        if self.name in _FILES:
            return "file"
        named = {"string": "text", "integer": "count", "array": "list", "boolean": "yes or no"}
        kind_of = schema.get("type")
        return named.get(kind_of, "size") if isinstance(kind_of, str) else "size"

    def _schema(self) -> dict[str, Any]:
        schema = _schemas(self.table, self.kind)[self.name]
        for item in schema.get("anyOf", ()):
            if item.get("type") != "null":
                return dict(item)
        return schema

    def read(self, raw: str) -> str:
        """A typed line as a TOML value.

        Raises:
            AnswerError: it will not do; with what was probably meant, where that would.
        """
        value = _value(raw if self.sort == "text" else _unquoted(raw), self.sort)
        problem = self._problem(value)
        if problem is None:
            return literal(value)
        offers, text = self._repaired(raw), _words(problem)
        if offers.message:
            rest = self._problem(_value(_unquoted(offers.text), self.sort))
            text = "; ".join([offers.message, *([_words(rest)] if rest else [])])
        meant = [_unquoted(offers.text)]
        meant += [next(filter(None, found)) for found in _MEANT.findall(problem.hint)]
        raise AnswerError(text, next(filter(self._would_do, meant), ""))

    def _repaired(self, raw: str) -> Value:
        """What `check` tells to write in place of a value that TOML refuses; nothing for a text,
        nor for a size that would lose its unit."""
        found = repair_value(raw) if self.sort not in ("text", "file") else None
        if found is None or _unquoted(found.text) == raw:
            return Value("")
        keeps_all = re.sub(r"\W", "", raw) == re.sub(r"\W", "", found.text)
        return found if keeps_all or self.sort == "count" else Value("")

    def takes(self, value: object) -> bool:
        """Whether a value as a TOML file holds it would do."""
        return self._problem(value) is None

    def _would_do(self, raw: str) -> bool:
        return bool(raw) and self.takes(_value(raw, self.sort))

    def _problem(self, value: Any) -> Problem | None:
        """What the model says about this key, then whether it is below its limit."""
        kind = {"kind": self.kind} if self.table in kinds.KINDS else {}
        raw = {**self.beside, **kind, self.name: value}
        where = f"{self.table}.{self.name}" if self.table else self.name
        problems = check_table(self.table, self.table, raw, self.unit).problems
        found = [p for p in problems if p.where == where or p.where.startswith(f"{where}[")]
        if found or self.below is None or parse_length(value, self.unit) < self.below:
            return found[0] if found else None
        return Problem(where, "this is too big for this wheel", allowed=self._below())


@cache
def _schemas(table: str, kind: str) -> Mapping[str, dict[str, Any]]:
    """What JSON Schema says of each key of a table; made once, for a dialogue asks often."""
    schemas: dict[str, dict[str, Any]] = kinds.model(table, kind).model_json_schema()["properties"]
    return schemas


def _words(problem: Problem) -> str:
    allowed = f"; allowed: {problem.allowed}" if problem.allowed else ""
    return f"{problem.message}{allowed}{f'; {problem.hint}' if problem.hint else ''}"


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
            if len(raw) < 40 and raw.lstrip("-").isdecimal():
                return int(raw)
            return float(raw) if len(raw) < 40 and _NUMBER.fullmatch(raw) else raw
        case "size":
            is_number = _NUMBER.fullmatch(raw) and raw.strip("-") and len(raw) < 40
            return _typed(re.sub(r"^(-?)\.", r"\g<1>0.", raw)) if is_number else raw
        case "list":
            parting = r"," if raw.startswith("[") else r",\s+|,(?=\D)|\s+and\s+|\s+"
            words = (word.strip() for word in re.split(parting, raw.strip("[] ")))
            return [_value(_unquoted(word), "size") for word in words]
        case "yes or no":
            return {"true": True, "yes": True, "false": False, "no": False}.get(raw.lower(), raw)
    return raw
