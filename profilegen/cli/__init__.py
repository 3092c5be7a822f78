"""The command line: the only room that writes files, talks, or ends the process.

Nothing is imported up here; the program is imported when it is called, and a command's own module
when that command is.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import NoReturn


def main(args: Sequence[str] | None = None) -> NoReturn:
    """Run the program on `args`, or on the words typed, and end the process; Ctrl-C while it is
    still being imported, or while it ends, shows no traceback."""
    try:
        from profilegen.cli.program import main as run

        run(args)
    except KeyboardInterrupt:
        raise SystemExit(130) from None


__all__ = ["main"]
