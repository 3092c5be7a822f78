"""Answers put into a starter part file, every comment kept.

Owns the change of lines: a key with an answer gets it, a key without one stands behind a `#` with a
sample value, and a key that the starter does not show is added to its table with its meaning.
Refuses to judge the answers.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping

from profilegen.part import kinds

Answers = Mapping[str, Mapping[str, str]]
"""Table -> key -> value as it is written in TOML; the top of the file is the table with no name."""

Samples = Mapping[str, Mapping[str, str | None]]
"""Table -> key -> value to show behind a `#`, or None to take the line out."""

_KEY = re.compile(r"""(# )?([a-z_]+)( = )("[^"]*"|\[[^\]]*\]|[^\s#]+)(\s*)(#.*)?""")
_HEAD = re.compile(r"(# )?\[\[?([a-z]+(?:\.[a-z]+)?)\]\]?")
_COLUMN = 32
"""Where comments begin, counted from 0."""


def filled(text: str, answers: Answers, samples: Samples | None = None) -> str:
    """The starter with these answers, and these samples behind a `#`; a table that has none stays
    as it is."""
    out: list[str] = []
    for table, lines in _tables(text):
        shown = (samples or {}).get(table, {})
        given = answers.get(table)
        out += _sampled(lines, shown) if given is None else _answered(table, lines, given, shown)
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


def _sampled(lines: list[str], samples: Mapping[str, str | None]) -> list[str]:
    """The lines of a table that nobody was asked about."""
    out = list[str]()
    for line in lines:
        match = _KEY.fullmatch(line)
        if match is None or not match[1]:
            out.append(line)
        else:
            out += _sample(match, samples)
    return out


def _sample(match: re.Match[str], samples: Mapping[str, str | None]) -> list[str]:
    """A key behind a `#`, with a value that suits; no line where none does."""
    value = samples.get(match[2], match[4])
    if match[1] and value == match[4]:
        return [match[0]]
    return [] if value is None else [_line(f"# {match[2]}", value, match[6] or "")]


def _answered(
    table: str, lines: list[str], given: Mapping[str, str], samples: Mapping[str, str | None]
) -> list[str]:
    """The lines of a table with its answers; keys that its kind lacks are taken out."""
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
            out += _sample(match, samples)
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
