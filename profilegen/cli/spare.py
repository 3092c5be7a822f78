"""Spare names: whose they are, and putting right what a killed run left under them.

While a set of files is written each stands under a spare name beside its target, and a journal
notes which goes where. The name tells the process and the machine that gave it, since a folder may
lie on a disk that several machines write to, and a process number means nothing on another one.
"""

from __future__ import annotations

import json
import os
import platform
import re
import sys
import time
from collections.abc import Callable
from contextlib import suppress
from hashlib import sha256
from pathlib import Path
from typing import Any

PART = "part"
"""Ending of a spare name of a file."""

JOURNAL = "journal"
"""Ending of the spare name under which a folder's renames are noted."""

LONGEST_RUN = 24 * 3600.0
"""Seconds. Another machine cannot be asked whether its run still writes; none writes as long."""

_SPARE = re.compile(rf"\.profilegen-([0-9a-f]{{8}})-(\d{{1,10}})-\d+\.({PART}|{JOURNAL})")


def spare_name(number: int, ending: str = PART) -> str:
    """A hidden name, marked as ours and as this process's; `number` is a new one each time."""
    return f".profilegen-{_here()}-{os.getpid()}-{number}.{ending}"


def _here() -> str:
    """This machine, and within it the room that process numbers count in, in eight signs."""
    room = ""
    with suppress(OSError, AttributeError):
        room = os.readlink("/proc/self/ns/pid")
    return sha256(f"{platform.node()} {room}".encode("utf-8", "replace")).hexdigest()[:8]


def put_right(folder: Path) -> None:
    """Finish a set of files that a killed run left half in place, and take away its spare names.

    A journal stands only once every new file is written whole beside its target, so finishing is
    renaming. Where a target has been written since, by hand or by a later run, nothing is finished.
    Spare names of a process that may still run are left alone.
    """
    try:
        names = [name for name in os.listdir(folder) if _SPARE.fullmatch(name)]
    except OSError:
        return
    dead = [name for name in names if not _may_run(folder / name)]
    for journal in (folder / name for name in dead if name.endswith(JOURNAL)):
        for beside, target in _left_by(journal):
            with suppress(OSError):
                os.replace(folder / beside, folder / target)
    for name in dead:
        with suppress(OSError):
            (folder / name).unlink()


def _left_by(journal: Path) -> list[tuple[str, str]]:
    """The renames of a journal that are left to be done: from and to, names in its folder."""
    try:
        told = json.loads(journal.read_bytes())
        pairs = [(str(beside), str(target)) for beside, target in told.items()]
        since = journal.stat().st_mtime
    except (OSError, ValueError, AttributeError):
        return []
    folder = journal.parent
    plain = [(a, b) for a, b in pairs if _SPARE.fullmatch(a) and Path(b).name == b]
    if any(_written(folder / target) > since for _, target in plain):
        return []
    return [(a, b) for a, b in plain if (folder / a).is_file()]


def _written(path: Path) -> float:
    """When a file was written, in seconds; 0 when it is not there."""
    try:
        return path.stat().st_mtime
    except OSError:
        return 0.0


def _may_run(path: Path) -> bool:
    """Whether the process that gave a spare name may still be there."""
    found = _SPARE.fullmatch(path.name)
    if found is None or found[1] != _here():
        return time.time() - _written(path) < LONGEST_RUN
    return int(found[2]) != os.getpid() and runs(int(found[2]))


def runs(number: int) -> bool:
    """Whether a process of this machine runs, as far as the system tells; True in doubt."""
    if sys.platform == "win32":
        import ctypes

        kernel = ctypes.WinDLL("kernel32", use_last_error=True)
        return runs_on_windows(number, kernel, ctypes.get_last_error)
    try:
        os.kill(number, 0)
    except (ProcessLookupError, OverflowError):
        return False
    except OSError:
        return True
    return True


_SYNCHRONIZE, _TIMEOUT, _NO_SUCH_PROCESS = 0x100000, 0x102, 87


def runs_on_windows(number: int, kernel: Any, last_error: Callable[[], int]) -> bool:
    """As `runs`, on Windows, where signal 0 of `os.kill` would end the process.

    The process is opened and waited for, for no time: what still runs lets the time pass. Source:
    the system's published interface, OpenProcess, WaitForSingleObject and CloseHandle.

    Args:
        number: of the process.
        kernel: the library kernel32.
        last_error: the code of the last call that failed; 87 tells that there is no such process.
    """
    from ctypes import c_void_p

    handle = c_void_p(kernel.OpenProcess(_SYNCHRONIZE, 0, number))
    if not handle:
        return last_error() != _NO_SUCH_PROCESS
    try:
        return bool(kernel.WaitForSingleObject(handle, 0) == _TIMEOUT)
    finally:
        kernel.CloseHandle(handle)
