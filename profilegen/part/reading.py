"""From a file to the tables in it: bytes, text, TOML.

Owns: opening the file, and what to say when it cannot be opened or is no TOML.
Refuses: changing anything, and files that no part file can be (over 1 MB, no file).
"""

from __future__ import annotations

import os
import re
import stat
import tomllib
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path
from typing import Any, NoReturn

from profilegen.errors import InputError, Problem
from profilegen.part.decoding import decode
from profilegen.part.lines import KEY, excerpt, key_lines, printable, with_lines

LARGEST_FILE = 1_000_000
"""Bytes. A larger file is no part file and is not read."""

LONGEST_NAME = 400
"""Characters of a file's name that are shown."""

LONGEST_LINE = 2000
"""Characters. A longer line is no line of a part file; some would take a parser hours."""

_STRING = re.compile(r'"((?:[^"\\]|\\.)*)"')
_OTHER_FORM = re.compile(r"\s*([{<]|\[\s*(?:[{\]\d-]|\"[^\"\n]*\"\s*,))")
"""How JSON and XML begin; a TOML text begins with a key, a table or a comment."""

_SWALLOWED = re.compile(r"(?<!\\)(?:\\\\)*\\[btnfre]")


def text_of(file: Path, what: str = "a part file") -> str:
    """Return the text of a file, lines ended by line feeds.

    Args:
        file: to read.
        what: a file of this sort is, for the message when it is too big.

    Raises:
        InputError: it cannot be read, or is no text.
    """
    return decode(bytes_of(file, what=what), named(file))


def parsed(text: str, name: str, hint: str) -> dict[str, Any]:
    """Return the tables in a text as they stand.

    Args:
        text: a whole file, lines ended by line feeds.
        name: the file's name, for the messages.
        hint: what to do when the text is empty.

    Raises:
        InputError: it is empty or all comments, or no TOML, with every line that cannot be read.
    """
    if not text.strip():
        raise InputError(Problem(name, "this file is empty", hint=hint))
    if all(line.startswith("#") for line in map(str.strip, text.split("\n")) if line):
        message = "every line of this file is a comment, so nothing is in it"
        comments = "take the # away from the lines that are meant, or read what they say to do"
        raise InputError(Problem(name, message, hint=comments))
    _refuse_other_forms(text, name, hint)
    _refuse_long_lines(text, name)
    try:
        return tomllib.loads(text)
    except (ValueError, RecursionError):
        from profilegen.part.toml_faults import rescue

        raise InputError(*rescue(text, name)) from None


def _refuse_other_forms(text: str, name: str, hint: str) -> None:
    """Refuse in one sentence what begins as no TOML does: JSON, XML and pages of the web."""
    found = _OTHER_FORM.match(text)
    if found:
        form = "XML or a web page" if found[1] == "<" else "JSON"
        message = f"this is {form}; the file wanted here is TOML: lines such as teeth = 24"
        raise InputError(Problem(name, message, hint=hint))


def placed(problems: tuple[Problem, ...], text: str) -> Iterator[Problem]:
    """Yield problems in the order of the file with their lines, swallowed backslashes shown."""
    return _with_backslashes(with_lines(problems, text), text)


def named(path: Path | str) -> str:
    """Return a file's name as it can be printed, the end of it when it is endless."""
    return printable(str(path)[-LONGEST_NAME:])


def _refuse_long_lines(text: str, name: str) -> None:
    for number, line in enumerate(text.split("\n"), 1):
        if len(line) > LONGEST_LINE:
            message = f"this line has {len(line)} characters, far too many for a part file"
            allowed = f"up to {LONGEST_LINE} characters in a line"
            raise InputError(Problem(f"{name}, line {number}", message, allowed=allowed))


def bytes_of(path: Path, most: int = LARGEST_FILE, what: str = "a part file") -> bytes:
    """Return the bytes of a file.

    Args:
        path: of the file.
        most: bytes it may have.
        what: a file of this sort is, for the message when it has more.

    Raises:
        InputError: it cannot be read, or is too big.
    """
    try:
        status = path.stat()
        data = _bytes(path, most) if _fits(status, most) else b""
    except FileNotFoundError:
        _tell_missing(path)
    except PermissionError:
        _fail(path, "you may not read this file", "ask for the right to read it, or copy it")
    except (OSError, ValueError) as error:
        text = getattr(error, "strerror", None) or "this is no file name"
        _fail(path, f"this file cannot be read ({str(text).lower()})")
    if not _fits(status, most):
        _refuse(path, status, what)
    return data


def _fits(status: os.stat_result, most: int) -> bool:
    return stat.S_ISREG(status.st_mode) and status.st_size <= most


def _bytes(path: Path, most: int) -> bytes:
    with path.open("rb") as file:
        return file.read(most)


def _refuse(path: Path, status: os.stat_result, what: str) -> NoReturn:
    if stat.S_ISDIR(status.st_mode):
        _tell_folder(path)
    if not stat.S_ISREG(status.st_mode):
        _fail(path, "this is no ordinary file")
    text = f"this file has {status.st_size / 1e6:.0f} MB, far too much for {what}"
    hint = "give the part file, a text of a few lines" if what == "a part file" else ""
    _fail(path, text, hint)


def _fail(path: Path, message: str, hint: str = "") -> NoReturn:
    raise InputError(Problem(named(path), message, hint=hint))


def _tell_folder(path: Path) -> NoReturn:
    names = [name for name in _names(path) if name.lower().endswith(".toml")]
    hint = f"give a file in it, such as {named(path / names[0])}" if names else "give a file"
    _fail(path, "this is a folder, not a file", hint)


def _tell_missing(path: Path) -> NoReturn:
    """Raise the error for a file that is not there, naming what is there instead."""
    names = _names(path.parent)
    doubled = f"{path.name}.txt"
    if doubled in names:
        hint = f"there is {doubled}: take .txt off its name"
    elif f"{path.name}.toml" in names:
        hint = f"write {named(path)}.toml"
    elif not path.parent.is_dir():
        hint = f"there is no folder {named(path.parent)}"
    else:
        hint = _close_names(path.name, names)
    _fail(path, "there is no such file", hint)


def _close_names(name: str, names: list[str]) -> str:
    from profilegen.part.nearest import near

    low = {other.lower(): other for other in names}
    close = near(name.lower(), low)
    if close:
        return f"did you mean {named(low[close])}?"
    parts = [other for other in names if other.lower().endswith(".toml")][:5]
    return f"in this folder: {', '.join(map(named, parts))}" if parts else ""


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
