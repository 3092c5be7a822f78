"""Runs that are killed or asked to end at any moment, and what is then in their folder.

On the command line alone: every file there is the old one or the new one, whole; the next run ends
well, and leaves the new ones and nothing half-done.
"""

from __future__ import annotations

import os
import random
import signal
import subprocess
import sys
import time
from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory

from profilegen.cli.templates import example_bytes
from tests.cli.support import environment, files_below

NAMES = ("take-up-ratchet", "warp-beam-ratchet")
LONGEST = 1.6
"""Seconds after which a run is killed at the latest: about as long as one takes."""


def attack(rng: random.Random, folder: Path) -> None:
    """Make a part, edit it, kill the next makes at random moments, then let one end.

    Raises:
        AssertionError: a file is neither the old nor the new one, or the last run ends badly.
    """
    names = NAMES[: rng.choice((1, 2))]
    old, new = (_whole_set(names, edited) for edited in (False, True))
    _write(folder, names, edited=False)
    if rng.random() < 0.7:
        _run(folder, names)
    _write(folder, names, edited=True)
    for _ in range(rng.randint(1, 3)):
        _killed(rng, folder, names)
        for name, data in _seen(folder).items():
            assert data in (old.get(name), new.get(name)), f"{name} is neither old nor new"
    _run(folder, names)
    assert _seen(folder) == new, "after the kills the next run does not leave what it makes"
    left = [name for name in files_below(folder / "out") if ".profilegen-" in name]
    assert not left, f"left over: {left}"


def _write(folder: Path, names: tuple[str, ...], *, edited: bool) -> None:
    for name in names:
        text = example_bytes(name)
        title = text.replace(b'title = "', b'title = "New ') if edited else text
        (folder / f"{name}.toml").write_bytes(title)


def _command(names: tuple[str, ...]) -> list[str]:
    return [sys.executable, "-m", "profilegen", "make", *(f"{name}.toml" for name in names)]


def _run(folder: Path, names: tuple[str, ...]) -> None:
    ended = subprocess.run(
        _command(names), cwd=folder, env=environment(), capture_output=True, check=False
    )
    words = ended.stderr.decode("utf-8", "replace")
    assert ended.returncode == 0, f"exit code {ended.returncode}: {words}"


def _killed(rng: random.Random, folder: Path, names: tuple[str, ...]) -> None:
    """Start a run and end it by a signal at a random moment, sometimes by two."""
    process = subprocess.Popen(
        _command(names),
        cwd=folder,
        env=environment(),
        stdout=subprocess.DEVNULL,
        stderr=subprocess.PIPE,
        start_new_session=True,
    )
    time.sleep(rng.uniform(0.0, LONGEST))
    for number in rng.choice(((signal.SIGKILL,), (signal.SIGTERM,), (signal.SIGINT,) * 2)):
        if process.poll() is None:
            os.killpg(process.pid, number)
    words = process.communicate(timeout=60)[1].decode("utf-8", "replace")
    assert "Traceback" not in words, words
    assert "itself is at fault" not in words, words


def _seen(folder: Path) -> dict[str, bytes]:
    """The files that a user sees in the folder of outputs, by path."""
    found = files_below(folder / "out") if (folder / "out").exists() else {}
    return {name: data for name, data in found.items() if "/." not in f"/{name}"}


@cache
def _whole_set(names: tuple[str, ...], edited: bool) -> dict[str, bytes]:
    """What a run that nobody disturbs leaves."""
    with TemporaryDirectory() as place:
        folder = Path(place)
        _write(folder, names, edited=edited)
        _run(folder, names)
        return _seen(folder)
