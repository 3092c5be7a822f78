"""`start KIND --ask`: one value at a time, with its meaning, limits and default.

Owns the dialogue: what is asked, on stderr, and what is said to an answer that will not do. Answers
are read from standard input, so that it works piped. Refuses files: it returns the text of one.
"""

from __future__ import annotations

import tomllib
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING, Any, Final, TypeVar

from profilegen.cli.answers import AnswerError, Key, literal
from profilegen.cli.filling import Samples, commented, filled
from profilegen.cli.saying import answer_to, say
from profilegen.cli.suiting import below, suited
from profilegen.cli.unfinished import LEFT_OUT
from profilegen.errors import InputError, Problem
from profilegen.forms.form import Ask, AskKind, AskSome
from profilegen.forms.solve import form_of
from profilegen.part import kinds
from profilegen.part.nearest import key_guess, word_guess

if TYPE_CHECKING:
    from profilegen.units import Unit

WHICH: Final = "which"
"""What the question is called by which one says what the print gives."""

T = TypeVar("T")
Kept = dict[str, dict[str, Any]]
"""Table -> key -> value that an earlier dialogue left off with."""


@dataclass(slots=True)
class Answered:
    """The answers so far.

    Attributes:
        text: the starter, with the names that it and its picture get.
        folder: where files that are named are looked for.
        unit: of a bare length.
        defaults: table -> key -> value of the starter, keys behind a `#` too.
        kinds: table -> kind, answered or of the starter.
        kept: what an earlier dialogue left off with, and this one has not asked again.
        given: table -> key -> answer as it is written in TOML; None where a key is left out.
        chosen: table -> which keys the print gives, parted by blanks.
    """

    text: str
    folder: Path
    unit: Unit
    defaults: dict[str, dict[str, Any]]
    kinds: dict[str, str]
    kept: Kept
    given: dict[str, dict[str, str | None]] = field(default_factory=dict)
    chosen: dict[str, str] = field(default_factory=dict)

    def note(self, table: str, key: str, answer: str | None) -> None:
        """Note one answer."""
        self.given.setdefault(table, {})[key] = answer
        self.kept.get(table, {}).pop(key, None)

    def tables(self) -> Kept:
        """The answers as a TOML file would hold them, keys left out not among them."""
        return {
            table: {key: tomllib.loads(f"x = {text}")["x"] for key, text in keys.items()}
            for table, keys in self._real().items()
        }

    def _real(self) -> dict[str, dict[str, str]]:
        """The answers with the unit and the kind of wheel, which are settled without a question."""
        settled: Kept = {"": {"units": self.unit}, "wheel": {"kind": self.kinds["wheel"]}}
        real = {table: {k: literal(v) for k, v in keys.items()} for table, keys in settled.items()}
        for table, keys in self.given.items():
            known = {key: text for key, text in keys.items() if text is not None}
            real.setdefault(table, {}).update(known)
        return real

    def so_far(self) -> Kept:
        """The answers to keep when the dialogue ends here; those kept before among them."""
        tables, found = self.tables(), Kept({"": {"units": self.unit}})
        for table in ("", *kinds.TABLES):
            given = self.given.get(table, {})
            real = {key: value for key, value in tables.get(table, {}).items() if key in given}
            left_out = dict.fromkeys(given, LEFT_OUT)
            found.setdefault(table, {}).update(self.kept.get(table, {}) | left_out | real)
            if table in self.chosen:
                found[table][WHICH] = self.chosen[table]
        return found if any(self.given.values()) else {}

    def whole(self, samples: Samples | None = None) -> str:
        """The text of the part file, with these values behind a `#`."""
        return filled(self.text, self._real(), samples or {})


def begun(text_of: Callable[[Unit], str], unit: Unit | None, kept: Kept, folder: Path) -> Answered:
    """The sheet before the first question; the unit is asked for here when it is not given.

    Args:
        text_of: the starter in a unit.
        unit: as the command line gives it, or None.
        kept: what an earlier dialogue left off with.
        folder: of the file that will be written.

    Raises:
        InputError: the answers end too soon.
    """
    before: Unit = "in" if kept.get("", {}).get("units") == "in" else "mm"
    unit = unit or _ask_unit(before)
    text = text_of(unit)
    tables = tomllib.loads(text)
    defaults: dict[str, dict[str, Any]] = {"": tables}
    for table in kinds.TABLES:
        first = tables.get(table, {})
        defaults[table] = dict(first[0] if isinstance(first, list) else first)
    for table, values in commented(text).items():
        defaults[table] = values | defaults[table]
    named = {table: str(defaults[table].get("kind", "")) for table in kinds.KINDS}
    sheet = Answered(text, folder, unit, defaults, named, {})
    sheet.kept = _still_good(kept, before, sheet)
    sheet.chosen = {table: str(keys[WHICH]) for table, keys in kept.items() if WHICH in keys}
    return sheet


def _still_good(kept: Kept, before: Unit, sheet: Answered) -> Kept:
    """The kept answers that can still be offered; a bare length in the other unit says its unit."""
    found: Kept = {}
    for table, keys in kept.items():
        kind = str(keys.get("kind", sheet.kinds.get(table, "")))
        if table in kinds.KINDS and kind not in kinds.KINDS[table]:
            continue
        if not table or table in kinds.TABLES:
            known = kinds.model(table, kind).model_fields.keys() - {"units"}
            asked = {name: Key(table, kind, name, sheet.unit) for name in keys if name in known}
            values = {name: _in_unit(keys[name], asked[name], before) for name in asked}
            found[table] = {
                name: value
                for name, value in values.items()
                if value == LEFT_OUT or asked[name].takes(value)
            }
    found.get("wheel", {}).pop("kind", None)
    return found


def _in_unit(value: Any, key: Key, unit: Unit) -> Any:
    bare = isinstance(value, int | float) and key.sort == "size" and not key.is_angle
    return f"{value} {unit}" if bare and unit != key.unit else value


def ask_all(kind: str, sheet: Answered) -> None:
    """Ask for everything, noting each answer as it comes.

    Raises:
        InputError: the answers end too soon.
    """
    for step in form_of(kind).asked:
        match step:
            case Ask():
                _ask(sheet, step.table, step.key, may_leave=True)
            case AskSome():
                _ask_some(sheet, step)
            case AskKind():
                _ask_kind(sheet, step)


def _ask_unit(before: Unit) -> Unit:
    say("units: the unit of the print, and of what is written: mm or in")
    answer = _until(lambda offer: _choice(_prompt("units", before, offer) or before, ("mm", "in")))
    return "in" if answer == "in" else "mm"


def _ask(sheet: Answered, table: str, name: str, may_leave: bool) -> None:
    """Ask for one key; an optional one may be left out."""
    kind = sheet.kinds.get(table, "")
    given = sheet.tables()
    limit = below(given, table, name, sheet.unit)
    key = Key(table, kind, name, sheet.unit, limit, given.get(table, {}))
    item = kinds.model(table, kind).model_fields[name]
    optional = may_leave and item.default is None
    default = _default(sheet, key, None if item.is_required() else item.default)
    if optional and default is None:
        default = LEFT_OUT
    say("")
    for line in key.described():
        say(line)
    if optional:
        say(f"  {LEFT_OUT} leaves it out")

    def answer(offer: str) -> str | None:
        raw = _prompt(name, default, offer)
        if optional and (raw or default) == LEFT_OUT:
            return None
        if not raw and default is None:
            raise AnswerError("this has no default: type a value")
        found = key.read(raw) if raw else literal(default)
        _refuse_missing(key, raw or str(default), sheet.folder)
        return found

    sheet.note(table, name, _until(answer))


def _default(sheet: Answered, key: Key, usual: object) -> object:
    """What an empty line takes: what was kept, else what the starter has or is usual, made to suit
    the wheel so far; None for nothing, and where neither would do."""
    kept = sheet.kept.get(key.table, {}).get(key.name)
    if kept is not None and (kept == LEFT_OUT or key.takes(kept)):
        return kept
    shown = sheet.defaults[key.table].get(key.name, usual)
    default = suited(shown, key, tomllib.loads(sheet.text), sheet.tables())
    return default if default is not None and key.takes(default) else None


def _refuse_missing(key: Key, raw: str, folder: Path) -> None:
    if key.sort == "file" and not (folder / raw.strip("\"'")).is_file():
        raise AnswerError(f"there is no such file in {folder.absolute()}")


def _ask_some(sheet: Answered, step: AskSome) -> None:
    """Ask which keys are given, until the model's own rules are content, then for each."""
    model = kinds.model(step.table, sheet.kinds.get(step.table, ""))
    kept, shown = sheet.kept.get(step.table, {}), tomllib.loads(sheet.text)[step.table]
    usual = [key for key in step.keys if key in sheet.chosen.get(step.table, "").split()]
    if not usual or model.key_rules(frozenset(usual)):
        usual = [key for key in step.keys if key in shown]
    say(f"\n{step.question}")
    for number, key in enumerate(step.keys, 1):
        say(f"  {number}  {key}: {model.model_fields[key].description}")

    def answer(offer: str) -> list[str]:
        raw = _prompt(WHICH, " ".join(usual), offer)
        chosen = _chosen(raw, step.keys, step.table) if raw else usual
        broken = model.key_rules(frozenset(chosen))
        if broken:
            raise AnswerError(f"{broken[0].message}; wanted: {broken[0].allowed}")
        return chosen

    chosen = _until(answer)
    sheet.chosen[step.table] = " ".join(chosen)
    for key in step.keys:
        if key not in chosen:
            kept.pop(key, None)
    for key in chosen:
        _ask(sheet, step.table, key, may_leave=False)


def _chosen(raw: str, keys: tuple[str, ...], table: str) -> list[str]:
    """The keys that a line names, by number or by name."""
    for key in keys:
        raw = raw.replace(key.replace("_", " "), key)
    words = raw.replace(",", " ").replace(" and ", " ").split()
    chosen = []
    for word in words:
        if word.isdecimal() and 1 <= int(word) <= len(keys):
            chosen.append(keys[int(word) - 1])
        elif word.replace("-", "_") in keys:
            chosen.append(word.replace("-", "_"))
        else:
            meant = key_guess(word, table, keys).key
            line = " ".join(meant if other == word else other for other in words)
            raise AnswerError(
                _not_among(word, keys, f"write {meant}" if meant else ""), meant and line
            )
    return chosen


def _ask_kind(sheet: Answered, step: AskKind) -> None:
    """Ask for the kind of a table, then for what that kind needs."""
    table, words = step.table, tuple(kinds.KINDS[step.table])
    say(f"\nkind of {table}: {', '.join(words)}")
    shown = sheet.kinds[table]
    kept = str(sheet.kept.get(table, {}).get("kind", shown))
    kind = _until(lambda offer: _choice(_prompt(f"{table} kind", kept, offer) or kept, words))
    if kind != shown:
        sheet.defaults[table] = {"name": f"{kind} cutter"} if table == "cutter" else {}
    if kind != kept:
        sheet.kept[table] = {}
    sheet.kinds[table] = kind
    sheet.note(table, "kind", literal(kind))
    for key in _wanted(sheet, table, step.extra):
        _ask(sheet, table, key, may_leave=False)


def _wanted(sheet: Answered, table: str, extra: tuple[str, ...]) -> Iterator[str]:
    """The keys that the kind of a table must have, then those of `extra` that go with them."""
    model = kinds.model(table, sheet.kinds[table])
    yield from (
        key for key, item in model.model_fields.items() if item.is_required() and key != "kind"
    )
    for key in extra:
        given = frozenset(sheet.given[table]) | {key}
        broken = {rule.key for rule in model.key_rules(given)}
        if key in model.model_fields and key not in given ^ {key} and key not in broken:
            yield key


def _choice(word: str, words: tuple[str, ...]) -> str:
    plain = word.strip("\"'")
    if plain in words:
        return plain
    guess = word_guess(plain, words)
    found = [one for one in words if f'"{one}"' in guess]
    raise AnswerError(_not_among(word, words, guess), found[0] if found else "")


def _not_among(word: str, words: tuple[str, ...], guess: str) -> str:
    return f"{word[:40]!r} is not one of: {', '.join(words)}{f'; {guess}' if guess else ''}"


def _until(answer: Callable[[str], T]) -> T:
    """Ask again until an answer will do; what was probably meant is offered the next time."""
    offer = ""
    while True:
        try:
            return answer(offer)
        except AnswerError as reason:
            say(f"  {reason}")
            offer = reason.offer


def _prompt(name: str, default: object, offer: str) -> str:
    """One line from standard input, or what is offered for an empty one.

    Raises:
        InputError: there is none.
    """
    shown = " ".join(map(str, default)) if isinstance(default, list) else default
    taken = offer or shown
    try:
        line = answer_to(f"{name} {'(no default)' if taken is None else f'[{taken}]'}: ")
    except UnicodeDecodeError:
        raise AnswerError("this is no text that can be read") from None
    if line is None:
        text = "the answers ended before the last question"
        hint = "answer every question; an empty line takes what stands in brackets"
        raise InputError(Problem(f"--ask, {name}", text, hint=hint))
    return line or offer
