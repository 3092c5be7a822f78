"""From a file to a `Part`.

Owns: opening the file, what to say when it cannot be opened, and the order: bytes, text, TOML,
tables. Refuses: changing anything, and files that no part file can be (over 1 MB, no file).
"""

from __future__ import annotations

import re
import stat
import tomllib
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path
from typing import NoReturn

from profilegen.errors import InputError, Problem
from profilegen.part.decoding import decode
from profilegen.part.lines import KEY, excerpt, key_lines, with_lines
from profilegen.part.nearest import near
from profilegen.part.part import Part
from profilegen.part.rescue import rescue
from profilegen.part.rewording import shown_key

LARGEST_FILE = 1_000_000
"""Bytes. A larger file is no part file and is not read."""

_STRING = re.compile(r'"((?:[^"\\]|\\.)*)"')
_SWALLOWED = re.compile(r"(?<!\\)(?:\\\\)*\\[btnfre]")


def load(path: str | Path) -> Part:
    """Return the part in a file.

    Raises:
        InputError: the file cannot be read, or with every problem found in it.
    """
    file = Path(path)
    return loads(decode(_read(file), _named(file)), file)


def loads(text: str, path: Path | None = None) -> Part:
    """Return the part in a text.

    Args:
        text: a whole part file, lines ended by line feeds.
        path: the file it came from, for the messages and the title.

    Raises:
        InputError: with every problem found.
    """
    name = _named(path) if path else "the text"
    if not text.strip():
        hint = "profilegen start ratchet writes a part file to begin with"
        raise InputError(Problem(name, "this file is empty", hint=hint))
    try:
        mapping = tomllib.loads(text)
    except (ValueError, RecursionError):
        raise InputError(*rescue(text, name)) from None
    try:
        part = Part.from_dict(mapping, path)
    except InputError as error:
        problems = with_lines(error.problems, text)
        raise InputError(*_with_backslashes(problems, text)) from None
    return part


def _named(path: Path) -> str:
    return shown_key(path)


def _read(path: Path) -> bytes:
    """Return the bytes of a file of a size that a part file can have."""
    try:
        status = path.stat()
        _refuse_other(path, status.st_mode, status.st_size)
        with path.open("rb") as file:
            return file.read(LARGEST_FILE + 1)[:LARGEST_FILE]
    except FileNotFoundError:
        _tell_missing(path)
    except PermissionError:
        _fail(path, "you may not read this file", "ask for the right to read it, or copy it")
    except (OSError, ValueError) as error:
        text = getattr(error, "strerror", None) or "this is no file name"
        _fail(path, f"this file cannot be read ({str(text).lower()})")


def _refuse_other(path: Path, mode: int, size: int) -> None:
    if stat.S_ISDIR(mode):
        _tell_folder(path)
    if not stat.S_ISREG(mode):
        _fail(path, "this is no ordinary file")
    if size > LARGEST_FILE:
        text = f"this file has {size / 1e6:.0f} MB, far too much for a part file"
        _fail(path, text, "give the part file, a text of a few lines")


def _fail(path: Path, message: str, hint: str = "") -> NoReturn:
    raise InputError(Problem(_named(path), message, hint=hint))


def _tell_folder(path: Path) -> NoReturn:
    names = [name for name in _names(path) if name.lower().endswith(".toml")]
    hint = f"give a file in it, such as {shown_key(path / names[0])}" if names else "give a file"
    _fail(path, "this is a folder, not a file", hint)


def _tell_missing(path: Path) -> NoReturn:
    """Raise the error for a file that is not there, naming what is there instead."""
    names = _names(path.parent)
    doubled = f"{path.name}.txt"
    if doubled in names:
        hint = f"there is {doubled}: take .txt off its name"
    elif f"{path.name}.toml" in names:
        hint = f"write {shown_key(path)}.toml"
    elif not path.parent.is_dir():
        hint = f"there is no folder {shown_key(path.parent)}"
    else:
        hint = _close_names(path.name, names)
    _fail(path, "there is no such file", hint)


def _close_names(name: str, names: list[str]) -> str:
    low = {other.lower(): other for other in names}
    close = near(name.lower(), low)
    if close:
        return f"did you mean {shown_key(low[close])}?"
    parts = [other for other in names if other.lower().endswith(".toml")][:5]
    return f"in this folder: {', '.join(map(shown_key, parts))}" if parts else ""


def _names(folder: Path) -> list[str]:
    try:
        return sorted(item.name for item in folder.iterdir())
    except OSError:
        return []


def _with_backslashes(problems: tuple[Problem, ...], text: str) -> Iterator[Problem]:
    """Yield the problems; where TOML swallowed a backslash, with the line to write instead."""
    lines = text.split("\n")
    known = {f"{path}, line {number}": number for path, number in key_lines(text).items()}
    for problem in problems:
        number = known.get(problem.where, 0)
        corrected = _single_quoted(lines[number - 1]) if number else ""
        if not corrected:
            yield problem
            continue
        line = lines[number - 1]
        match = KEY.match(line)
        column = line.find("\\", match.end() if match else 0)
        yield replace(problem, excerpt=excerpt(number, line, column, corrected))


def _single_quoted(line: str) -> str:
    r"""Return a line with single quotes round each text in which `\t` and the like stand."""

    def straight(match: re.Match[str]) -> str:
        swallowed = _SWALLOWED.search(match[0]) and "'" not in match[1]
        return f"'{match[1]}'" if swallowed else match[0]

    corrected = _STRING.sub(straight, line)
    try:
        tomllib.loads(corrected)
    except ValueError:
        return ""
    return corrected if corrected != line else ""
