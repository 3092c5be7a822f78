"""The command line: the only room that writes files, talks, or ends the process.

Nothing is imported up here; the program is imported when it is called, and a command's own module
when that command is.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import NoReturn


def main(args: Sequence[str] | None = None) -> NoReturn:
    """Run the program on `args`, or on the words typed, and end the process; Ctrl-C while it is
    still being imported ends it like any other."""
    try:
        from profilegen.cli.program import main as run
    except KeyboardInterrupt:
        raise SystemExit(130) from None
    run(args)


__all__ = ["main"]
