"""Ctrl-C and requests to end: what a run does when it hears one, and when it must not be disturbed.

While files are put back, and from the moment a set of files is whole until that has been told, a
request is only noted. A request that the process was started deaf to, as in the background of a
shell, stays unheard.
"""

from __future__ import annotations

import signal
from collections.abc import Iterator
from contextlib import contextmanager


class Ended(KeyboardInterrupt):
    """The system or another program asked this one to end."""


class _Ears:
    """Hears requests during a run: raises at once, or notes the last one while held off."""

    def __init__(self) -> None:
        self.held_off = False
        self.noted = 0

    def __call__(self, number: int, _: object) -> None:
        if self.held_off:
            self.noted = number
        elif number == signal.SIGTERM:
            raise Ended
        else:
            raise KeyboardInterrupt


_USUAL = {signal.SIGINT: signal.default_int_handler, signal.SIGTERM: signal.SIG_DFL}


@contextmanager
def heard() -> Iterator[None]:
    """Let a request to end (SIGTERM) do what Ctrl-C does, and both be held off, during a run."""
    before = {number: signal.getsignal(number) for number in _USUAL}
    taken = [number for number, usual in _USUAL.items() if before[number] == usual]
    ears = _Ears()
    try:
        for number in taken:
            signal.signal(number, ears)
    except ValueError:  # not the main thread, which alone hears signals
        taken = []
    try:
        yield
    finally:
        for number in taken:
            signal.signal(number, before[number])


def hold_off() -> None:
    """From here on a request is only noted, until `hear_again` or the end of the run."""
    ears = _ears()
    if ears is not None:
        ears.held_off = True


def hear_again() -> None:
    """Hear requests again.

    Raises:
        KeyboardInterrupt: one came while they were held off.
    """
    ears = _ears()
    if ears is not None:
        ears.held_off, noted, ears.noted = False, ears.noted, 0
        if noted:
            ears(noted, None)


def _ears() -> _Ears | None:
    """What hears requests now; None outside a run."""
    handlers = map(signal.getsignal, _USUAL)
    return next((handler for handler in handlers if isinstance(handler, _Ears)), None)
