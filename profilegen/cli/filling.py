"""Answers put into a starter part file, every comment kept.

Owns the change of lines: a key with an answer gets it, a key without one stands behind a `#`, and a
key that the starter does not show is added to its table with its meaning.
Refuses to judge the answers.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping

from profilegen.part import kinds

Answers = Mapping[str, Mapping[str, str]]
"""Table -> key -> value as it is written in TOML; the top of the file is the table with no name."""

_KEY = re.compile(r"""(# )?([a-z_]+)( = )("[^"]*"|\[[^\]]*\]|[^\s#]+)(\s*)(#.*)?""")
_HEAD = re.compile(r"(# )?\[\[?([a-z]+)\]\]?")
_COLUMN = 32
"""Where comments begin, counted from 0."""


def filled(text: str, answers: Answers) -> str:
    """The starter with these answers; a table that has none stays as it is."""
    out: list[str] = []
    for table, lines in _tables(text):
        given = answers.get(table)
        out += lines if given is None else _filled_table(table, lines, given)
    return "\n".join(out).rstrip("\n") + "\n"


def _tables(text: str) -> Iterator[tuple[str, list[str]]]:
    """Each table with its lines, the head first; the top of the file under the empty name."""
    name, lines = "", list[str]()
    for line in text.rstrip("\n").split("\n"):
        head = _HEAD.match(line)
        if head:
            yield name, lines
            name, lines = head[2], []
        lines.append(line)
    yield name, lines


def _filled_table(table: str, lines: list[str], given: Mapping[str, str]) -> list[str]:
    kind = given.get("kind", "").strip('"')
    model = kinds.model(table, kind if table in kinds.KINDS else "")
    left, out = dict(given), list[str]()
    for line in lines:
        match = _KEY.fullmatch(line)
        if match is None:
            out.append(line)
        elif match[2] in left:
            out.append(_line(match[2], left.pop(match[2]), match[6] or ""))
        elif match[2] in model.model_fields:
            out.append(line if match[1] else _line(f"# {match[2]}", match[4], match[6] or ""))
    while out and not out[-1]:
        out.pop()
    for key, value in left.items():
        field = model.model_fields[key]
        out.append(_line(key, value, f"# {_short(field.description or '')}"))
    return [*out, ""]


def _line(key: str, value: str, comment: str) -> str:
    start = f"{key} = {value}"
    return f"{start.ljust(_COLUMN - 1)} {comment}".rstrip() if comment else start


def _short(description: str) -> str:
    """A description as a comment: its first letter small, without its full stop."""
    text = description.rstrip(".")
    return text[:1].lower() + text[1:]


def commented(text: str) -> dict[str, dict[str, object]]:
    """The keys that stand behind a `#` in a starter, with their values, by table."""
    import tomllib

    found: dict[str, dict[str, object]] = {}
    for table, lines in _tables(text):
        for line in lines:
            match = _KEY.fullmatch(line)
            if match and match[1]:
                values = tomllib.loads(f"{match[2]} = {match[4]}")
                found.setdefault(table, {}).update(values)
    return found
