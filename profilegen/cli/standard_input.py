"""The part from standard input, where the file is named `-`.

Files that such a part names are looked for in the current folder. What is written is called after
its number, or else its title, or else `part`.
"""

from __future__ import annotations

import sys
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

from profilegen.errors import InputError, Problem

if TYPE_CHECKING:
    from profilegen.part.part import Part

DASH = "-"
"""The file's name that means standard input."""

NAME = "standard input"
"""What it is called in messages."""

NAMELESS = "part"
"""What a part from standard input is called that has neither number nor title."""


def called(file: str) -> str:
    """A part file's name as it is said."""
    return NAME if file == DASH else file


def text_given() -> str:
    """Read standard input to its end.

    Raises:
        InputError: it is closed, too long, or no text.
    """
    from profilegen.part.decoding import decode
    from profilegen.part.reading import LARGEST_FILE

    if sys.stdin is None:
        raise InputError(Problem(NAME, "it is closed", hint="give a part file"))
    if sys.stdin.isatty():
        from profilegen.cli.saying import say

        say("type the part, or paste it; Ctrl-D on a line of its own ends it (Windows: Ctrl-Z)")
    try:
        data = sys.stdin.buffer.read(LARGEST_FILE + 1)
    except OSError as error:
        text = f"it cannot be read ({(error.strerror or str(error)).lower()})"
        raise InputError(Problem(NAME, text)) from None
    if len(data) > LARGEST_FILE:
        raise InputError(Problem(NAME, "over 1 MB came in, far too much for a part file"))
    return decode(data, NAME)


def part_in(text: str) -> Part:
    """The part in a text from standard input.

    Raises:
        InputError: with every problem found.
    """
    from profilegen.part.load import loads

    part = loads(text, Path(DASH), NAME)
    return replace(part, title=NAMELESS) if part.title == DASH else part


def part_or_none(text: str | None) -> Part | None:
    """The part in a text from standard input, where it is one."""
    try:
        return None if text is None else part_in(text)
    except InputError:
        return None


def stem_of_part(part: Part) -> str:
    """The name that outputs of a part from standard input begin with."""
    return plain_name(part.number) or plain_name(part.title) or NAMELESS


def plain_name(text: str) -> str:
    """A text as a piece of a file name: letters and digits, anything else between as one dash."""
    return "-".join("".join(sign if sign.isalnum() else " " for sign in text).split())
