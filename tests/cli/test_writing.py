"""Files appear whole or not at all."""

from __future__ import annotations

import errno
import os
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

from profilegen.cli.spare import put_right
from profilegen.cli.writing import Outgoing, write_all
from profilegen.errors import OutputError
from tests.cli.support import environment, files_below


def three(folder: Path, data: bytes = b"new") -> list[Outgoing]:
    """Three files in a folder two steps down."""
    return [Outgoing(folder / "a" / "b" / name, data) for name in ("x.dxf", "y.svg", "z.pdf")]


def nth(call: int, error: BaseException) -> Callable[[str, str], None]:
    """A rename that fails at one call, counted from 1."""
    real, calls = os.replace, [0]

    def replace(source: str, target: str) -> None:
        calls[0] += 1
        if calls[0] == call:
            raise error
        real(source, target)

    return replace


def test_all_files_and_nothing_else(tmp_path: Path) -> None:
    """Folders are made, every file has its bytes, and no spare name stays."""
    written = write_all(three(tmp_path), force=False, again="")
    assert [item.state for item in written] == ["new"] * 3
    assert files_below(tmp_path) == {
        os.path.join("a", "b", name): b"new" for name in ("x.dxf", "y.svg", "z.pdf")
    }


def test_same_bytes_are_left_alone(tmp_path: Path) -> None:
    """Writing the same again changes nothing and is no fault."""
    write_all(three(tmp_path), force=False, again="")
    before = (tmp_path / "a" / "b" / "x.dxf").stat().st_mtime_ns
    written = write_all(three(tmp_path), force=False, again="")
    assert {item.state for item in written} == {"unchanged"}
    assert (tmp_path / "a" / "b" / "x.dxf").stat().st_mtime_ns == before


def test_other_contents_are_refused_with_the_command(tmp_path: Path) -> None:
    """One file with other contents keeps all from being written; the command to type is told."""
    (tmp_path / "a" / "b").mkdir(parents=True)
    (tmp_path / "a" / "b" / "y.svg").write_bytes(b"old")
    with pytest.raises(OutputError) as caught:
        write_all(three(tmp_path), force=False, again="profilegen make --force 'my part.toml'")
    (problem,) = caught.value.problems
    assert "y.svg" in problem.message
    assert problem.hint == "to replace: profilegen make --force 'my part.toml'"
    assert files_below(tmp_path) == {os.path.join("a", "b", "y.svg"): b"old"}


def test_force_replaces_and_keeps_the_rights(tmp_path: Path) -> None:
    """With force the old file is replaced, its access rights are kept, and no copy of it stays."""
    old = tmp_path / "a" / "b" / "y.svg"
    old.parent.mkdir(parents=True)
    old.write_bytes(b"old")
    old.chmod(0o640)
    written = write_all(three(tmp_path), force=True, again="")
    assert [item.state for item in written] == ["new", "replaced", "new"]
    assert (old.read_bytes(), old.stat().st_mode & 0o777) == (b"new", 0o640)
    assert len(files_below(tmp_path)) == 3


@pytest.mark.parametrize("call", [1, 2, 3])
@pytest.mark.parametrize("error", [OSError(errno.ENOSPC, "No space left"), KeyboardInterrupt()])
def test_a_failing_rename_leaves_everything_as_it_was(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, call: int, error: BaseException
) -> None:
    """Whichever rename fails, old files are back, new ones gone, and no spare name stays."""
    (tmp_path / "a" / "b").mkdir(parents=True)
    (tmp_path / "a" / "b" / "y.svg").write_bytes(b"old")
    before = files_below(tmp_path)
    monkeypatch.setattr(os, "replace", nth(call, error))
    wanted = OutputError if isinstance(error, OSError) else KeyboardInterrupt
    with pytest.raises(wanted):
        write_all(three(tmp_path), force=True, again="")
    assert files_below(tmp_path) == before


def test_a_full_disk_leaves_nothing(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """When the bytes do not fit, no file and no folder stays, and the reason is told."""

    def full(path: Path, mode: str) -> object:
        raise OSError(errno.ENOSPC, "No space left on device", str(path))

    monkeypatch.setattr(Path, "open", full)
    with pytest.raises(OutputError) as caught:
        write_all(three(tmp_path), force=False, again="")
    assert "no space left on device" in str(caught.value)
    assert list(tmp_path.iterdir()) == []


def test_failing_to_write_beside_never_touches_the_old_file(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A file that could not even be written beside its target leaves the target alone."""
    target = tmp_path / "x.dxf"
    target.write_bytes(b"old")
    real = Path.open

    def no_new_files(path: Path, mode: str = "r") -> object:
        if "x" in mode:
            raise OSError(errno.EROFS, "Read-only file system", str(path))
        return real(path, mode)

    monkeypatch.setattr(Path, "open", no_new_files)
    with pytest.raises(OutputError):
        write_all([Outgoing(target, b"new")], force=True, again="")
    assert files_below(tmp_path) == {"x.dxf": b"old"}


def test_a_disk_without_second_names_still_works(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Where hard links do not exist the old file is kept as a copy until all is done."""

    def no_links(source: object, target: object) -> None:
        raise OSError(errno.EPERM, "Operation not permitted")

    (tmp_path / "x.dxf").write_bytes(b"old")
    monkeypatch.setattr(os, "link", no_links)
    monkeypatch.setattr(os, "replace", nth(1, OSError(errno.EIO, "broken")))
    with pytest.raises(OutputError):
        write_all([Outgoing(tmp_path / "x.dxf", b"new")], force=True, again="")
    assert files_below(tmp_path) == {"x.dxf": b"old"}
    monkeypatch.undo()
    monkeypatch.setattr(os, "link", no_links)
    write_all([Outgoing(tmp_path / "x.dxf", b"new")], force=True, again="")
    assert files_below(tmp_path) == {"x.dxf": b"new"}


def test_a_folder_is_no_file(tmp_path: Path) -> None:
    """A target that is a folder is refused, and a file name in it is proposed."""
    with pytest.raises(OutputError, match="this is a folder, not a file"):
        write_all([Outgoing(tmp_path, b"new")], force=True, again="")


def test_a_device_is_never_replaced() -> None:
    """A target that is no ordinary file is refused even with force."""
    with pytest.raises(OutputError, match="no ordinary file"):
        write_all([Outgoing(Path(os.devnull), b"new")], force=True, again="")


def test_a_file_in_place_of_a_folder(tmp_path: Path) -> None:
    """Where a folder is wanted and a file stands, nothing is changed and the reason is told."""
    (tmp_path / "a").write_bytes(b"a file")
    with pytest.raises(OutputError, match="cannot be written"):
        write_all(three(tmp_path), force=True, again="")
    assert files_below(tmp_path) == {"a": b"a file"}


@pytest.mark.parametrize("fails", [False, True])
def test_a_folder_that_another_run_makes_at_the_same_moment(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, fails: bool
) -> None:
    """It is used, and when nothing can be written it is not taken away again."""
    real = Path.mkdir

    def theirs_first(path: Path) -> None:
        monkeypatch.undo()
        if fails:
            monkeypatch.setattr(os, "replace", nth(1, KeyboardInterrupt()))
        real(path)
        real(path)

    monkeypatch.setattr(Path, "mkdir", theirs_first)
    if fails:
        with pytest.raises(KeyboardInterrupt):
            write_all([Outgoing(tmp_path / "a" / "x.dxf", b"new")], force=True, again="")
    else:
        write_all([Outgoing(tmp_path / "a" / "x.dxf", b"new")], force=True, again="")
    assert (tmp_path / "a").is_dir()
    assert len(files_below(tmp_path)) == (not fails)


def test_a_name_that_is_too_long(tmp_path: Path) -> None:
    """A name longer than the disk takes is an output fault that names the file."""
    with pytest.raises(OutputError, match="cannot be written"):
        write_all([Outgoing(tmp_path / ("x" * 300), b"new")], force=False, again="")
    assert list(tmp_path.iterdir()) == []


def test_a_link_is_followed(tmp_path: Path) -> None:
    """A target that is a link to a file stays a link; the file behind it is replaced."""
    (tmp_path / "real.dxf").write_bytes(b"old")
    (tmp_path / "link.dxf").symlink_to(tmp_path / "real.dxf")
    write_all([Outgoing(tmp_path / "link.dxf", b"new")], force=True, again="")
    assert (tmp_path / "link.dxf").is_symlink()
    assert (tmp_path / "real.dxf").read_bytes() == b"new"


KILLED = """
import io, os, sys
from pathlib import Path
from profilegen.cli.writing import Outgoing, write_all
steps = int(sys.argv[1])
def watched(module, name):
    real = getattr(module, name)
    def step(*words, **more):
        global steps
        steps -= 1
        if steps < 0:
            os._exit(9)
        return real(*words, **more)
    setattr(module, name, step)
for name in ("replace", "link", "unlink"):
    watched(os, name)
watched(io, "open")
files = [Outgoing(Path("a") / name, b"new") for name in ("x.dxf", "y.svg", "z.pdf")]
write_all(files, force=True, again="")
"""


def test_a_kill_at_any_step_leaves_all_old_or_all_new(tmp_path: Path) -> None:
    """Killed before any file operation, the next run finds a whole set: the old one or the new."""
    names, ended = ("x.dxf", "y.svg", "z.pdf"), 0
    seen = set()
    for steps in range(60):
        folder = tmp_path / str(steps)
        (folder / "a").mkdir(parents=True)
        for name in names:
            (folder / "a" / name).write_bytes(b"old")
        done = subprocess.run(
            [sys.executable, "-c", KILLED, str(steps)],
            cwd=folder, env=environment(), check=False, capture_output=True,
        )  # fmt: skip
        put_right(folder / "a")
        found = {name: (folder / "a" / name).read_bytes() for name in names}
        assert set(found.values()) in ({b"old"}, {b"new"}), (steps, found)
        assert sorted(os.listdir(folder / "a")) == list(names)
        seen |= set(found.values())
        ended += done.returncode == 0
        if ended:
            break
    assert ended == 1
    assert seen == {b"old", b"new"}


def test_a_link_to_nothing_is_refused(tmp_path: Path) -> None:
    """Nothing is made at the far end of a dangling link, be it the file or a folder above it."""
    (tmp_path / "link").symlink_to(tmp_path / "gone" / "far")
    for path in (tmp_path / "link", tmp_path / "link" / "x.dxf"):
        with pytest.raises(OutputError, match="a link to"):
            write_all([Outgoing(path, b"new")], force=True, again="")
    assert os.listdir(tmp_path) == ["link"]
