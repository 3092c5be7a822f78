"""A text that TOML refuses, read again by line and answered in shop words.

Owns: finding every line that cannot be read, keys and tables that stand twice, in one go.
Refuses: giving back a part: a repaired line is an offer to the user, never taken.
"""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterator
from dataclasses import dataclass

from profilegen.errors import Problem
from profilegen.part import kinds
from profilegen.part.lines import HEAD, KEY, excerpt
from profilegen.part.toml_lines import Repair, parses, repair

MOST_PROBLEMS = 30
"""Problems told at once; a file with more is no part file."""

LONGEST_VALUE = 60
"""Lines that one value may run over."""

_PLACE = re.compile(r"\(at line (\d+), column (\d+)\)")


@dataclass(frozen=True, slots=True)
class _Told:
    """A problem on a line, and the line to read on with."""

    number: int
    problem: Problem


def rescue(text: str, name: str) -> tuple[Problem, ...]:
    """Return everything that keeps TOML from reading a text, in the order of the lines.

    Args:
        text: a text that `tomllib` refuses, lines ended by line feeds.
        name: the file's name, for the messages.
    """
    lines = text.split("\n")
    told = list(_bad_lines(lines, name))
    told += _bad_structure(lines, name, MOST_PROBLEMS - len(told))
    told.sort(key=lambda item: item.number)
    return tuple(item.problem for item in told) or (_unreadable(name, text),)


def _unreadable(name: str, text: str) -> Problem:
    """Return the last resort, for what is no fault of any one line."""
    try:
        tomllib.loads(text)
    except RecursionError:
        return Problem(name, "tables or lists are nested far too deep")
    except ValueError as error:
        return Problem(name, "this file cannot be read as TOML", str(error)[:80])
    return Problem(name, "this file cannot be read as TOML")


def _bad_lines(lines: list[str], name: str) -> Iterator[_Told]:
    """Yield what is wrong with single lines; each is replaced in `lines` by its repair."""
    place = count = 0
    while place < len(lines) and count < MOST_PROBLEMS:
        end = _statement_end(lines, place)
        if end:
            place = end
            continue
        told, last = _tell_line(lines, place, name)
        yield told
        count += 1
        place = last


def _statement_end(lines: list[str], place: int) -> int:
    """Return the place behind the readable statement that starts at `place`, or 0."""
    if parses(lines[place]):
        return place + 1
    if not _may_run_on(lines[place]):
        return 0
    for end in range(place + 1, min(len(lines), place + LONGEST_VALUE)):
        if parses("\n".join(lines[place : end + 1])):
            return end + 1
        if _begins(lines[end]) and not _opens_text(lines[place]):
            return 0
    return 0


def _opens_text(line: str) -> bool:
    return any(mark in line for mark in ('"""', "'''"))


def _may_run_on(line: str) -> bool:
    value = line.partition("=")[2]
    return "[" in value or "{" in value or _opens_text(value)


def _begins(line: str) -> bool:
    return bool(HEAD.fullmatch(line) or KEY.match(line))


def _tell_line(lines: list[str], place: int, name: str) -> tuple[_Told, int]:
    """Return the problem of the statement at `place` and the place to read on."""
    line, last = lines[place], place + 1
    found = repair(line, kinds.LISTS)
    if not found and _may_run_on(line) and "[" in line:
        joined, last = _joined(lines, place)
        found = repair(joined, kinds.LISTS) if last > place + 1 else None
        last = last if found else place + 1
    lines[place] = found.corrected if found and "\n" not in found.corrected else ""
    for rest in range(place + 1, last):
        lines[rest] = ""
    return _Told(place + 1, _line_problem(name, place + 1, line, found)), last


def _joined(lines: list[str], place: int) -> tuple[str, int]:
    """Return a list over several lines as one line, and the place behind it."""
    end = place + 1
    while end < min(len(lines), place + LONGEST_VALUE) and not _begins(lines[end]):
        end += 1
        if lines[end - 1].strip().endswith("]"):
            break
    rows = (re.sub(r"\s#.*", "", row).strip() for row in lines[place:end])
    return " ".join(row for row in rows if row), end


def _line_problem(name: str, number: int, line: str, found: Repair | None) -> Problem:
    where = f"{name}, line {number}"
    if found is None:
        column = _column(line)
        text = "this line cannot be read"
        hint = 'write key = value, with text and sizes in quotes, such as land = "0.4 mm"'
        return Problem(where, text, hint=hint, excerpt=excerpt(number, line, column))
    column = _first_difference(line, found.corrected) if found.corrected else _value_column(line)
    shown = excerpt(number, line, column, found.corrected)
    return Problem(where, found.message, hint=found.hint, excerpt=shown)


def _column(line: str) -> int:
    """Return the place (from 0) at which TOML stopped reading a line."""
    try:
        tomllib.loads(line)
    except (ValueError, RecursionError) as error:
        match = _PLACE.search(str(error))
        if match:
            return int(match[2]) - 1
    return len(line) if line.strip() else 0


def _value_column(line: str) -> int:
    front, sign, value = line.partition("=")
    return len(front) + len(sign) + len(value) - len(value.lstrip()) if sign else 0


def _first_difference(line: str, corrected: str) -> int:
    pairs = zip(line, corrected, strict=False)
    same = next((place for place, (a, b) in enumerate(pairs) if a != b), None)
    return min(len(line), len(corrected)) if same is None else same


def _bad_structure(lines: list[str], name: str, most: int) -> Iterator[_Told]:
    """Yield what is wrong between lines that each can be read: keys and tables twice."""
    for _ in range(most):
        try:
            tomllib.loads("\n".join([*lines, ""]))
        except (ValueError, RecursionError) as error:
            match = _PLACE.search(str(error))
            number = int(match[1]) if match else 0
            if not 0 < number <= len(lines) or not lines[number - 1].strip():
                return
            yield from _tell_structure(lines, number, name)
        else:
            return


def _tell_structure(lines: list[str], number: int, name: str) -> Iterator[_Told]:
    line = lines[number - 1]
    head, key = HEAD.fullmatch(line), KEY.match(line)
    if head and head[2] in kinds.LISTS:
        yield from _double_brackets(lines, head[2], name)
    elif head:
        text = f"[{head[2]}] stands twice: put all its keys under the first one"
        yield _Told(number, _structure_problem(lines, number, name, text, head[2]))
    elif key:
        text = f"{key[1]} stands twice in the same table"
        yield _Told(number, _structure_problem(lines, number, name, text, key[1]))
    else:
        yield _Told(number, _line_problem(name, number, line, None))
    if lines[number - 1] == line:
        lines[number - 1] = ""


def _double_brackets(lines: list[str], table: str, name: str) -> Iterator[_Told]:
    """Yield one problem for each head of a list of tables in single brackets."""
    for place, line in enumerate(lines):
        head = HEAD.fullmatch(line)
        if head and head[2] == table and head[1] == "[":
            lines[place] = line.replace(f"[{table}]", f"[[{table}]]")
            if not parses(lines[place]):
                lines[place] = f"[[{table}]]"
            text = f"[{table}] may stand more than once, so it takes double brackets"
            shown = excerpt(place + 1, line, line.find("["), lines[place])
            yield _Told(place + 1, Problem(f"{name}, line {place + 1}", text, excerpt=shown))


def _structure_problem(lines: list[str], number: int, name: str, text: str, what: str) -> Problem:
    line = lines[number - 1]
    first = _first_line(lines, number, what)
    hint = f"the first stands in line {first}; take one of them out" if first else ""
    shown = excerpt(number, line, len(line) - len(line.lstrip()))
    return Problem(f"{name}, line {number}", text, hint=hint, excerpt=shown)


def _first_line(lines: list[str], number: int, what: str) -> int:
    """Return the line before `number` in which the same table or key stands, or 0."""
    is_head = HEAD.fullmatch(lines[number - 1])
    for place in range(number - 2, -1, -1):
        head, key = HEAD.fullmatch(lines[place]), KEY.match(lines[place])
        if key and key[1] == what and not is_head:
            return place + 1
        if head and is_head and head[2] == what:
            return place + 1
        if head and not is_head:
            return 0
    return 0
