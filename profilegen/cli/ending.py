"""How a run ends: every way to fail, its exit code and its words.

Owns the exit codes: 0 done, 1 internal fault, 2 input, 3 cannot be made as asked, 4 output,
130 stopped by the user, 141 reader gone, 143 asked to end.
Refuses tracebacks, unless `PROFILEGEN_TRACEBACK=1` asks for one.
"""

from __future__ import annotations

import os
import sys
from collections.abc import Callable
from contextlib import suppress
from io import StringIO

import click

from profilegen.cli.colour import coloured
from profilegen.cli.saying import say, say_findings, say_problems, shown
from profilegen.cli.stopping import Ended, heard
from profilegen.errors import OutputError, Problem, ProfilegenError

STOPPED = 130
"""Exit code after Ctrl-C, as shells count it: 128 + signal 2."""

READER_GONE = 141
"""Exit code when what reads our output has closed it, as shells count it: 128 + signal 13."""


ENDED = 143
"""Exit code after a request to end, as shells count it: 128 + signal 15."""


class ReaderGone(Exception):
    """What reads our standard output has closed it: there is nothing left to do."""


def exit_code(run: Callable[[], object]) -> int:
    """Run a command to its end; return the exit code, everything said on stderr."""
    _never_fail_on_signs()
    try:
        with heard():
            code = run()
            _flush()
        return code if isinstance(code, int) else 0
    except (click.Abort, KeyboardInterrupt) as error:
        say("stopped; no half-written file is left")
        return ENDED if isinstance(error.__cause__ or error, Ended) else STOPPED
    except (ReaderGone, BrokenPipeError):
        _let_go_of_stdout()
        return READER_GONE
    except click.ClickException as error:
        words = StringIO()
        error.show(words)
        say(words.getvalue().rstrip("\n"))
        return error.exit_code
    except ProfilegenError as error:
        _tell(error)
        return error.exit_code
    except Exception as error:
        _apologise(error)
        return 1


def to_stdout(data: str | bytes) -> None:
    """Write data to standard output, at once.

    Raises:
        OutputError: it is closed or full.
        ReaderGone: what reads it has closed it.
    """
    try:
        if sys.stdout is None:
            raise OSError("it is closed")
        if isinstance(data, bytes):
            sys.stdout.buffer.write(data)
        else:
            sys.stdout.write(coloured(shown(data), sys.stdout))
        sys.stdout.flush()
    except BrokenPipeError:
        raise ReaderGone from None
    except OSError as error:
        _let_go_of_stdout()
        text = f"this cannot be written ({(error.strerror or str(error)).lower()})"
        raise OutputError(Problem("standard output", text, hint="give --out FILE")) from None


def _flush() -> None:
    if sys.stdout is not None:
        sys.stdout.flush()
    with suppress(OSError, ValueError):
        if sys.stderr is not None:
            sys.stderr.flush()


def _never_fail_on_signs() -> None:
    """Let a stream that lacks a sign write its code instead, so that no title can stop a run."""
    for stream in (sys.stdout, sys.stderr):
        reconfigure = getattr(stream, "reconfigure", None)
        if reconfigure is not None:
            reconfigure(errors="backslashreplace")


def _let_go_of_stdout() -> None:
    """Point standard output at nothing, so that the interpreter's last flush stays quiet."""
    try:
        nothing = os.open(os.devnull, os.O_WRONLY)
        os.dup2(nothing, sys.stdout.fileno())
        os.close(nothing)
    except (AttributeError, OSError, ValueError):
        return


def _tell(error: ProfilegenError) -> None:
    from profilegen.findings.cannot_make import CannotMakeError

    if isinstance(error, CannotMakeError):
        say_findings(error.findings, error.figures)
    else:
        say_problems(error.problems)


def _apologise(error: Exception) -> None:
    wanted = os.environ.get("PROFILEGEN_TRACEBACK", "") not in ("", "0")
    if wanted:
        import traceback

        traceback.print_exception(error)
    more = "" if wanted else "; PROFILEGEN_TRACEBACK=1 in the environment shows more"
    say(f"{fault_words(error)}{more}")


def fault_words(error: BaseException) -> str:
    """A fault of the program in one line."""
    first_line = (str(error).splitlines() or [""])[0]
    return f"sorry, profilegen itself is at fault: {type(error).__name__}: {first_line[:200]}"
