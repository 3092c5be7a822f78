"""`start KIND --ask`: one value at a time, with its meaning, range and default.

Owns the dialogue: what is asked, on stderr, and what is said to an answer that will not do. Answers
are read from standard input, so that it works piped. Refuses files: it returns the text of one.
"""

from __future__ import annotations

import tomllib
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any, TypeVar

from profilegen.cli.answers import AnswerError, described, literal, read_answer
from profilegen.cli.filling import commented, filled
from profilegen.cli.questions import QUESTIONS, Ask, AskKind, AskSome, Step
from profilegen.cli.saying import answer_to, say
from profilegen.cli.templates import starter_text
from profilegen.errors import InputError, Problem
from profilegen.part import kinds

if TYPE_CHECKING:
    from profilegen.units import Unit

LEAVE_OUT = "-"
"""The answer that leaves an optional key out."""

T = TypeVar("T")


@dataclass(slots=True)
class Answered:
    """The answers so far.

    Attributes:
        unit: of a bare length.
        defaults: table -> key -> value of the starter, keys behind a `#` too.
        kinds: table -> kind, answered or of the starter.
        given: table -> key -> answer as it is written in TOML.
    """

    unit: Unit
    defaults: dict[str, dict[str, Any]]
    kinds: dict[str, str]
    given: dict[str, dict[str, str]] = field(default_factory=dict)

    def note(self, table: str, key: str, answer: str) -> None:
        """Note one answer."""
        self.given.setdefault(table, {})[key] = answer


def asked_text(kind: str, unit: Unit | None) -> str:
    """Ask for everything; return the text of the part file.

    Raises:
        InputError: the answers end too soon.
    """
    unit = unit or _ask_unit()
    text = starter_text(kind, unit)
    sheet = _sheet(text, unit)
    sheet.note("wheel", "kind", literal(kind))
    for step in QUESTIONS[kind]:
        _take(step, sheet)
    sheet.note("", "units", literal(sheet.unit))
    return filled(text, sheet.given)


def _ask_unit() -> Unit:
    say("units: the unit of the print, and of what is written: mm or in")
    return (
        "in"
        if _until(lambda: _choice(_prompt("units", "mm") or "mm", ("mm", "in"))) == "in"
        else "mm"
    )


def _sheet(text: str, unit: Unit) -> Answered:
    tables = tomllib.loads(text)
    defaults: dict[str, dict[str, Any]] = {"": tables}
    for table in kinds.TABLES:
        first = tables.get(table, {})
        defaults[table] = dict(first[0] if isinstance(first, list) else first)
    for table, values in commented(text).items():
        defaults[table] = values | defaults[table]
    named = {table: str(defaults[table].get("kind", "")) for table in kinds.KINDS}
    return Answered(unit, defaults, named)


def _take(step: Step, sheet: Answered) -> None:
    match step:
        case Ask():
            _ask(sheet, step.table, step.key, may_leave=True)
        case AskSome():
            _ask_some(sheet, step)
        case AskKind():
            _ask_kind(sheet, step)


def _ask(sheet: Answered, table: str, key: str, may_leave: bool) -> None:
    """Ask for one key; an optional one may be left out."""
    kind = sheet.kinds.get(table, "")
    default = sheet.defaults[table].get(key)
    optional = may_leave and kinds.model(table, kind).model_fields[key].default is None
    say("")
    for line in described(table, kind, key, sheet.unit):
        say(line)
    if optional:
        say(f"  {LEAVE_OUT} leaves it out")

    def answer() -> str | None:
        raw = _prompt(key, default)
        if optional and raw == LEAVE_OUT:
            return None
        if not raw:
            if default is None:
                raise AnswerError("a value is wanted here")
            return literal(default)
        return read_answer(table, kind, key, raw, sheet.unit)

    found = _until(answer)
    sheet.given.setdefault(table, {})
    if found is not None:
        sheet.note(table, key, found)


def _ask_some(sheet: Answered, step: AskSome) -> None:
    """Ask which keys are given, until the model's own rules are content, then for each."""
    model = kinds.model(step.table, sheet.kinds.get(step.table, ""))
    shown = tomllib.loads(starter_text(sheet.kinds["wheel"], sheet.unit))[step.table]
    usual = [key for key in step.keys if key in shown]
    say(f"\n{step.question}")
    for number, key in enumerate(step.keys, 1):
        say(f"  {number}  {key}: {model.model_fields[key].description}")

    def answer() -> list[str]:
        raw = _prompt("which", " ".join(usual))
        chosen = _chosen(raw, step.keys) if raw else usual
        broken = model.key_rules(frozenset(chosen))
        if broken:
            raise AnswerError(f"{broken[0].message}; wanted: {broken[0].allowed}")
        return chosen

    for key in _until(answer):
        _ask(sheet, step.table, key, may_leave=False)


def _chosen(raw: str, keys: tuple[str, ...]) -> list[str]:
    words = raw.replace(",", " ").replace(" and ", " ").split()
    chosen = []
    for word in words:
        if word.isdecimal() and 1 <= int(word) <= len(keys):
            chosen.append(keys[int(word) - 1])
        else:
            chosen.append(_choice(word.replace("-", "_"), keys))
    return chosen


def _ask_kind(sheet: Answered, step: AskKind) -> None:
    """Ask for the kind of a table, then for what that kind needs."""
    table, words = step.table, tuple(kinds.KINDS[step.table])
    say(f"\nkind of {table}: {', '.join(words)}")
    usual = sheet.kinds[table]
    kind = _until(lambda: _choice(_prompt(f"{table} kind", usual) or usual, words))
    if kind != usual:
        sheet.defaults[table] = {"name": f"{kind} cutter"} if table == "cutter" else {}
    sheet.kinds[table] = kind
    sheet.note(table, "kind", literal(kind))
    for key in _wanted(table, kind, step.extra):
        _ask(sheet, table, key, may_leave=False)


def _wanted(table: str, kind: str, extra: tuple[str, ...]) -> Iterator[str]:
    fields = kinds.model(table, kind).model_fields
    yield from (key for key, item in fields.items() if item.is_required() and key != "kind")
    yield from (key for key in extra if key in fields and not fields[key].is_required())


def _choice(word: str, words: tuple[str, ...]) -> str:
    if word in words:
        return word
    raise AnswerError(f"{word[:40]!r} is not one of: {', '.join(words)}")


def _until(answer: Callable[[], T]) -> T:
    """Ask again until an answer will do."""
    while True:
        try:
            return answer()
        except AnswerError as reason:
            say(f"  {reason}")


def _prompt(name: str, default: object) -> str:
    """One line from standard input.

    Raises:
        InputError: there is none.
    """
    shown = " ".join(map(str, default)) if isinstance(default, list) else default
    try:
        line = answer_to(f"{name} [{shown}]: " if default is not None else f"{name}: ")
    except UnicodeDecodeError:
        raise AnswerError("this is no text that can be read") from None
    if line is None:
        text = "the answers ended before the last question; nothing was written"
        hint = "answer every question; an empty line takes what stands in brackets"
        raise InputError(Problem(f"--ask, {name}", text, hint=hint))
    return line
