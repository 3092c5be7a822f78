"""The program run in a terminal of our own, typed to and read as a person does."""

from __future__ import annotations

import os
import select
import signal
import subprocess
import sys
import time
from pathlib import Path

from tests.cli.support import environment

WAIT = 60.0
"""Seconds after which nothing more is expected."""

SETTLED = 0.5
"""Seconds after which a terminal takes keys one by one."""


class Terminal:
    """One run of the program at a terminal; all that it shows is in `shown`."""

    def __init__(self, *words: str, folder: Path, **extra: str) -> None:
        import pty

        self.master, slave = pty.openpty()
        env = {name: value for name, value in environment().items() if name != "NO_COLOR"}
        self.process = subprocess.Popen(
            [sys.executable, "-m", "profilegen", *words],
            stdin=slave,
            stdout=slave,
            stderr=slave,
            cwd=folder,
            env=env | {"TERM": "xterm"} | extra,
            start_new_session=True,
            preexec_fn=_take_terminal,
        )
        os.close(slave)
        self.shown = ""
        self.seen = 0

    def wait_for(self, text: str) -> None:
        """Read until a text is shown that was not waited for before.

        Raises:
            AssertionError: it does not come.
        """
        end = time.monotonic() + WAIT
        while text not in self.shown[self.seen :]:
            if time.monotonic() > end or not self._read(1.0):
                raise AssertionError(f"{text!r} is not shown; shown: {self.shown[-2000:]}")
        self.seen = self.shown.index(text, self.seen) + len(text)

    def type(self, text: str) -> None:
        """Type a text as it stands."""
        os.write(self.master, text.encode())

    def answer(self, question: str, text: str) -> None:
        """Wait for a question and type an answer and the enter key."""
        self.wait_for(question)
        self.type(f"{text}\n")

    def press(self, key: str) -> None:
        """Press a key such as Ctrl-C, once the question has settled: a terminal that is being set
        for a line drops what was typed just before."""
        time.sleep(SETTLED)
        self.type(key)

    def ends(self) -> int:
        """Read to the end; the exit code.

        Raises:
            AssertionError: it does not end.
        """
        end = time.monotonic() + WAIT
        while self._read(1.0):
            if time.monotonic() > end:
                self.process.kill()
                raise AssertionError(f"it does not end; shown: {self.shown[-2000:]}")
        code = self.process.wait(WAIT)
        os.close(self.master)
        return code

    def _read(self, seconds: float) -> bool:
        """Read what there is; False at the end."""
        ready, _, _ = select.select([self.master], [], [], seconds)
        if not ready:
            return self.process.poll() is None
        try:
            data = os.read(self.master, 65536)
        except OSError:
            return False
        self.shown += data.decode("utf-8", "replace")
        return bool(data)


def _take_terminal() -> None:
    """In the child: make the pseudo-terminal its own, so that Ctrl-C typed there reaches it."""
    import fcntl
    import termios

    signal.signal(signal.SIGINT, signal.default_int_handler)
    fcntl.ioctl(0, termios.TIOCSCTTY, 0)
