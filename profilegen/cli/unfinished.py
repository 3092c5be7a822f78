"""Answers kept as comments, when a dialogue ends before its last question.

Owns how such a file looks and where it lies: in the part file that was to be written, or beside it
where that is somebody's. Nothing in it is TOML but comments, so no command takes it for a part.
"""

from __future__ import annotations

import tomllib
from collections.abc import Iterator, Mapping
from contextlib import suppress
from pathlib import Path
from typing import Any, Final

from profilegen.cli.answers import literal
from profilegen.cli.saying import say
from profilegen.cli.writing import Outgoing, write_all
from profilegen.errors import OutputError

LEFT_OUT: Final = "-"
"""What is kept of an optional key that was left out."""

_MARK: Final = "# Answers so far, to be offered again: this is no part yet. To go on, type:"
_LARGEST: Final = 100_000

Values = Mapping[str, Mapping[str, Any]]
"""Table -> key -> value; the top of the file is the table with no name."""


def places(target: Path) -> tuple[Path, Path]:
    """Where answers to the questions about a part file are kept: in it, or else beside it."""
    return target, target.with_stem(f"{target.stem}-unfinished")


def is_unfinished(path: Path) -> bool:
    """Whether a file holds answers and nothing else."""
    try:
        text = path.read_bytes()[:_LARGEST].decode("utf-8", "replace") if path.is_file() else ""
    except OSError:
        return False
    lines = text.splitlines()
    return lines[:1] == [_MARK] and all(line.startswith("#") or not line.strip() for line in lines)


def kept_for(target: Path) -> dict[str, dict[str, Any]]:
    """The answers that are kept for a part file; none where there are none."""
    found = next(filter(is_unfinished, places(target)), None)
    text = "" if found is None else found.read_text(encoding="utf-8", errors="replace")
    kept: dict[str, dict[str, Any]] = {}
    for table, key, value in _read(text):
        kept.setdefault(table, {})[key] = value
    return kept


def _read(text: str) -> Iterator[tuple[str, str, Any]]:
    for line in text.splitlines():
        where, sign, value = line.removeprefix("# ").partition(" = ")
        if sign and line.startswith("# "):
            table, _, key = where.rpartition(".")
            with suppress(ValueError):
                yield table, key, tomllib.loads(f"x = {value}")["x"]


def keep(answers: Values, target: Path, go_on: str) -> None:
    """Keep the answers so far, and say where; where they cannot be written, on the screen.

    Args:
        answers: those given, and those kept before that were not asked for again.
        target: the part file.
        go_on: the line to type to go on.
    """
    rows = [
        f"# {f'{table}.' if table else ''}{key} = {literal(value)}"
        for table, keys in answers.items()
        for key, value in keys.items()
    ]
    if not rows:
        return
    text = "\n".join([_MARK, f"#     {go_on}", *rows]) + "\n"
    free = (path for path in places(target) if is_unfinished(path) or not path.exists())
    place = next(free, target)
    try:
        write_all((Outgoing(place, text.encode()),), force=is_unfinished(place), again=go_on)
    except OutputError:
        say("\n".join(["the answers so far, which could not be written:", *rows]))
        return
    say(f"the answers so far are kept in {place}; to go on: {go_on}")


def forget(target: Path) -> None:
    """Take away answers that were kept beside a part file which is now written."""
    beside = places(target)[1]
    if is_unfinished(beside):
        with suppress(OSError):
            beside.unlink()
