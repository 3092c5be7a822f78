"""Spare names: whose they are, and what the next run does with those of a killed one."""

from __future__ import annotations

import json
import os
import platform
import subprocess
import sys
import time
from collections.abc import Iterator
from ctypes import c_void_p
from pathlib import Path

import pytest

from profilegen.cli.spare import LONGEST_RUN, put_right, runs_on_windows, spare_name

GONE = 2**22 + 1
"""No process has this number: it is above the greatest that Linux gives."""


@pytest.fixture
def running() -> Iterator[int]:
    """The number of a process that runs and is not this one."""
    process = subprocess.Popen([sys.executable, "-c", "input()"], stdin=subprocess.PIPE)
    yield process.pid
    process.communicate(b"\n")


def named_by(process: int, number: int, ending: str = "part") -> str:
    """The spare name that another process of this machine would give."""
    return spare_name(number, ending).replace(f"-{os.getpid()}-", f"-{process}-")


def half_in_place(folder: Path, process: int) -> Path:
    """Two files of which one is renamed, and the journal; the other file."""
    first, second = named_by(process, 1), named_by(process, 2)
    (folder / "a.txt").write_bytes(b"new")
    (folder / "b.txt").write_bytes(b"old")
    os.utime(folder / "b.txt", (0.0, 0.0))
    (folder / second).write_bytes(b"new")
    journal = folder / named_by(process, 3, "journal")
    journal.write_text(json.dumps({first: "a.txt", second: "b.txt"}))
    return folder / "b.txt"


def test_spare_names_of_a_running_process_are_left_alone(tmp_path: Path, running: int) -> None:
    """Another run that is still writing keeps its files; those of a dead one go."""
    (tmp_path / ".profilegen-notes.part").write_bytes(b"mine")
    theirs, dead = (tmp_path / named_by(number, 1) for number in (running, GONE))
    for path in (theirs, dead):
        path.write_bytes(b"half")
    put_right(tmp_path)
    assert sorted(os.listdir(tmp_path)) == sorted([theirs.name, ".profilegen-notes.part"])


def test_a_set_left_half_in_place_is_finished(tmp_path: Path) -> None:
    """As the journal says, and nothing of it stays."""
    other = half_in_place(tmp_path, GONE)
    put_right(tmp_path)
    assert other.read_bytes() == b"new"
    assert sorted(os.listdir(tmp_path)) == ["a.txt", "b.txt"]


def test_what_was_written_since_is_not_replaced(tmp_path: Path) -> None:
    """By hand, or by a later run that could not tell whether the first was dead: nothing of the old
    set comes back, neither into the file that was written nor into the other."""
    other = half_in_place(tmp_path, GONE)
    later = time.time() + 10.0
    os.utime(tmp_path / "a.txt", (later, later))
    put_right(tmp_path)
    assert other.read_bytes() == b"old"
    assert sorted(os.listdir(tmp_path)) == ["a.txt", "b.txt"]


def test_another_machine_on_a_shared_disk_is_left_alone_for_a_day(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Its process numbers say nothing here, dead as they may look."""
    monkeypatch.setattr(platform, "node", lambda: "the other bench")
    names = [named_by(GONE, 1), named_by(os.getpid(), 2)]
    monkeypatch.undo()
    for name in names:
        (tmp_path / name).write_bytes(b"half")
    put_right(tmp_path)
    assert sorted(os.listdir(tmp_path)) == sorted(names)
    before = time.time() - LONGEST_RUN - 60.0
    for name in names:
        os.utime(tmp_path / name, (before, before))
    put_right(tmp_path)
    assert os.listdir(tmp_path) == []


@pytest.mark.parametrize("told", ["", "[]", "{", '{"../x": "b.txt"}', '{"mine.txt": "b.txt"}'])
def test_a_journal_that_is_none_moves_nothing(tmp_path: Path, told: str) -> None:
    """Damaged, or with names that no run gives."""
    for name in ("mine.txt", "b.txt"):
        (tmp_path / name).write_text(name)
        os.utime(tmp_path / name, (0.0, 0.0))
    (tmp_path / named_by(GONE, 1, "journal")).write_text(told)
    put_right(tmp_path)
    assert {path.name: path.read_text() for path in tmp_path.iterdir()} == {
        "mine.txt": "mine.txt",
        "b.txt": "b.txt",
    }


class Kernel:
    """What kernel32 of Windows answers for one process; it notes what it is asked."""

    def __init__(self, handle: int | None, waited: int = 0) -> None:
        self.handle, self.waited = handle, waited
        self.closed: list[c_void_p] = []

    def OpenProcess(self, access: int, inherit: int, number: int) -> int | None:  # noqa: N802
        """It is asked for the right to wait, and for nothing else."""
        assert (access, inherit, number) == (0x100000, 0, 4712)
        return self.handle

    def WaitForSingleObject(self, handle: c_void_p, wait: int) -> int:  # noqa: N802
        """It is waited for, for no time."""
        assert (handle.value, wait) == (self.handle, 0)
        return self.waited

    def CloseHandle(self, handle: c_void_p) -> None:  # noqa: N802
        """The handle is given back."""
        self.closed.append(handle)


@pytest.mark.parametrize(
    ("handle", "waited", "code", "expected"),
    [
        (77, 0x102, 0, True),  # still runs: the time passes
        (77, 0, 0, False),  # has ended, and somebody still holds its handle
        (None, 0, 87, False),  # no such process
        (None, 0, 5, True),  # of another user: access is denied
    ],
)
def test_whether_a_process_runs_on_windows(
    handle: int | None, waited: int, code: int, expected: bool
) -> None:
    """By opening and waiting for it, never by a signal; the codes are those of the system."""
    kernel = Kernel(handle, waited)
    assert runs_on_windows(4712, kernel, lambda: code) is expected
    assert len(kernel.closed) == (handle is not None)
