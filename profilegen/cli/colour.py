"""Colour on a terminal: how grave a finding is shows at a glance.

Only a terminal gets colour, and none where `NO_COLOR` is set or the terminal is a dumb one.
"""

from __future__ import annotations

import os
import re
from typing import Final, TextIO

import click

_HEADS: Final = re.compile(r"^( *)(refused|caution|note|sorry)(?=[:,])", re.MULTILINE)
_COLOURS: Final = {"refused": "red", "caution": "yellow", "note": "cyan", "sorry": "red"}


def coloured(text: str, stream: TextIO | None) -> str:
    """A text as it is shown on a stream: the word for how grave something is in its colour."""
    if not takes_colour(stream):
        return text
    return _HEADS.sub(lambda head: head[1] + click.style(head[2], fg=_COLOURS[head[2]]), text)


def takes_colour(stream: TextIO | None) -> bool:
    """Whether a stream is a terminal whose user wants colour."""
    if os.environ.get("NO_COLOR") or os.environ.get("TERM") == "dumb":
        return False
    return stream is not None and stream.isatty()
