"""Where things stand in the text of a part file, and how a line is shown.

Owns: key path -> line number, and the excerpt of a line with caret and corrected line.
Refuses: understanding values; it reads only heads of tables and keys, and never raises.
"""

from __future__ import annotations

import math
import re
from collections.abc import Iterator, Mapping
from dataclasses import replace

from profilegen.errors import Problem

WIDEST = 96
"""Characters of a line that are shown."""

HEAD = re.compile(r"""\s*(\[\[?)\s*([\w.\-]+)\s*\]\]?\s*(?:\#.*)?""", re.ASCII)
"""A line that begins a table."""

KEY = re.compile(r"""\s*([\w\-]+|"[^"\\]*"|'[^']*')\s*=""", re.ASCII)
"""The key at the start of a line."""


def excerpt(number: int, line: str, column: int, corrected: str = "") -> str:
    """Return a line with its number, a caret below the fault, and the corrected line.

    Signs that cannot be printed show as `?`.

    Args:
        number: of the line, from 1.
        line: without its end; of a long one the part about the fault is shown.
        column: of the fault, from 0.
        corrected: what to write, several lines or empty.
    """
    shift = max(0, column - WIDEST + 10)
    rows = [
        f"{number:>6} | {_in_one_cell(line)[shift : shift + WIDEST]}",
        f"{'':>6} | {' ' * (column - shift)}^",
    ]
    for place, row in enumerate(corrected.split("\n") if corrected else []):
        rows.append(f"{'' if place else 'write':>6} | {_in_one_cell(row)}")
    return "\n".join(rows)


def _in_one_cell(line: str) -> str:
    return "".join(sign if sign.isprintable() else " " if sign == "\t" else "?" for sign in line)


def printable(text: str) -> str:
    """Return a text with every sign that cannot be printed as its code."""
    return "".join(map(_visible, text))


def _visible(sign: str) -> str:
    if sign.isprintable():
        return sign
    return sign.encode("unicode_escape").decode("ascii")


def statements(text: str) -> Iterator[tuple[int, str]]:
    """Yield (line number from 1, line) of the lines outside strings that run over lines."""
    inside = ""
    for number, line in enumerate(text.split("\n"), 1):
        if not inside:
            yield number, line
        for mark in ('"""', "'''"):
            if line.count(mark) % 2 and inside in ("", mark):
                inside = "" if inside else mark
                break


def key_lines(text: str) -> dict[str, int]:
    """Return the line of each table and key by key path, lists counted from 1."""
    found: dict[str, int] = {}
    counts: dict[str, int] = {}
    table = ""
    for number, line in statements(text):
        head, key = HEAD.fullmatch(line), KEY.match(line)
        if head:
            table = head[2]
            if head[1] == "[[":
                counts[table] = counts.get(table, 0) + 1
                found.setdefault(table, number)
                table = f"{table}[{counts[table]}]"
            found.setdefault(table, number)
        elif key:
            name = key[1].strip("\"'")
            found.setdefault(f"{table}.{name}" if table else name, number)
    return found


def with_lines(problems: tuple[Problem, ...], text: str) -> tuple[Problem, ...]:
    """Return the problems in the order of the file, each with its line where one is known."""
    return at_lines(problems, key_lines(text))


def at_lines(problems: tuple[Problem, ...], known: Mapping[str, int]) -> tuple[Problem, ...]:
    """Return the problems as `with_lines` does, by the line of each key path."""
    placed = [(_line(problem.where, known), problem) for problem in problems]
    placed.sort(key=lambda pair: pair[0] or math.inf)
    return tuple(
        replace(problem, where=f"{problem.where}, line {line}") if line else problem
        for line, problem in placed
    )


def _line(where: str, known: Mapping[str, int]) -> int:
    """Return the line of a key path, or of the table it is missing from, or 0."""
    path = where
    while path:
        if path in known:
            return known[path]
        path = path[: max(path.rfind("."), path.rfind("["), 0)]
    return 0
