"""Files appear whole or not at all, and nothing is overwritten unasked.

Owns the one way in which this program writes files: look first, write all beside their targets,
note what goes where, then put them in place; after any failure, Ctrl-C too, everything is as it was
before. Once they are in place Ctrl-C is held off, so that nothing finished is told as stopped.
Refuses to replace anything that is not an ordinary file.
"""

from __future__ import annotations

import json
import os
import stat
from collections.abc import Sequence, Set
from contextlib import suppress
from dataclasses import dataclass, field
from errno import EACCES, ENOTDIR
from pathlib import Path
from typing import Literal, NoReturn

from profilegen.cli.spare import JOURNAL, PART, put_right, spare_name
from profilegen.cli.stopping import hear_again, hold_off
from profilegen.errors import OutputError, Problem

State = Literal["new", "replaced", "unchanged"]


@dataclass(frozen=True, slots=True)
class Outgoing:
    """One file to write.

    Attributes:
        path: where to.
        data: the whole contents.
        use: what it is for: `send`, `print`, `pin up`, `keep`.
        words: one line about it, or empty.
        shown: whether it is listed when it has been written.
    """

    path: Path
    data: bytes
    use: str = "keep"
    words: str = ""
    shown: bool = True


@dataclass(frozen=True, slots=True)
class Written:
    """One file that now stands at its place.

    Attributes:
        path: where.
        state: whether it is new, replaced another, or was there with the same bytes.
        use: what it is for.
        words: one line about it, or empty.
    """

    path: Path
    state: State
    use: str
    words: str


@dataclass(slots=True)
class _Undo:
    """What has been done so far, each step noted before it is taken.

    Attributes:
        folders: made for these files, outer ones first.
        beside: target -> its bytes under a spare name.
        backups: target -> what stood there, under a spare name.
        placed: targets whose file is being, or has been, renamed into place.
        journals: what is left to be renamed, should this process be killed.
        names: how many spare names have been given out; none is given twice.
    """

    folders: list[Path] = field(default_factory=list)
    beside: dict[Path, Path] = field(default_factory=dict)
    backups: dict[Path, Path] = field(default_factory=dict)
    placed: set[Path] = field(default_factory=set)
    journals: list[Path] = field(default_factory=list)
    names: int = 0


def write_all(
    files: Sequence[Outgoing], *, force: bool, again: str, ours: Set[Path] = frozenset()
) -> tuple[Written, ...]:
    """Write every file, or none; what a killed run left in their folders is put right first.

    When this returns, requests to stop are held off: who goes on calls `hear_again`.

    Args:
        files: what to write; a file that is there with the same bytes is left alone.
        force: whether files with other contents may be replaced.
        again: the command that would replace them, for the refusal.
        ours: files that may be replaced all the same, since this program wrote them.

    Returns:
        Those that are listed, in order.

    Raises:
        OutputError: a target may not be replaced or cannot be written; then nothing has changed.
    """
    for folder in {file.path.parent for file in files}:
        put_right(folder)
    states = [_state(file) for file in files]
    changes = [f for f, state in zip(files, states, strict=True) if state == "replaced"]
    stands = [file for file in changes if file.path not in ours]
    if stands and not force:
        _refuse(stands, again)
    fresh = [f for f, state in zip(files, states, strict=True) if state != "unchanged"]
    undo = _Undo()
    try:
        for file in fresh:
            _write_beside(file, undo)
        _write_journals(undo)
        for file in fresh:
            _put_in_place(file, undo)
        hold_off()
    except BaseException as error:
        hold_off()
        _take_back(undo)
        hear_again()
        if isinstance(error, OSError):
            _fail(_culprit(error, files), error)
        raise
    for left in (*undo.journals, *undo.backups.values()):
        with suppress(OSError):
            left.unlink()
    return tuple(
        Written(f.path, state, f.use, f.words)
        for f, state in zip(files, states, strict=True)
        if f.shown
    )


def _write_journals(undo: _Undo) -> None:
    """Note, in each folder, which file goes to which name: what a killed run leaves to be done."""
    folders: dict[Path, dict[str, str]] = {}
    for path, beside in undo.beside.items():
        folders.setdefault(beside.parent, {})[beside.name] = Path(os.path.realpath(path)).name
    for folder, moves in folders.items():
        if len(moves) > 1:
            path = _spare_name(folder, undo, JOURNAL)
            undo.journals.append(path)
            path.write_text(json.dumps(moves), encoding="utf-8")


def refuse_what_stands(
    paths: Sequence[Path], *, force: bool, again: str, ours: Set[Path] = frozenset()
) -> None:
    """Refuse early what `write_all` would refuse later: for use before a long dialogue.

    Args:
        paths: what will be written, with contents that are not known yet.
        force: whether files that are there may be replaced.
        again: the command that would replace them, for the refusal.
        ours: files that may be replaced all the same.

    Raises:
        OutputError: something stands at a path, or nothing can be written there.
    """
    files = [Outgoing(path, b"") for path in paths]
    stands = [file for file in files if _state(file) != "new" and file.path not in ours]
    if stands and not force:
        _refuse(stands, again)
    for path in paths:
        place = next(folder for folder in path.absolute().parents if folder.exists())
        if not place.is_dir():
            _fail(path, NotADirectoryError(ENOTDIR, "a file stands where its folder would be"))
        if not os.access(place, os.W_OK):
            _fail(path, PermissionError(EACCES, os.strerror(EACCES)))


def _state(file: Outgoing) -> State:
    """What stands at the target now."""
    path = file.path
    try:
        status = path.stat()
    except FileNotFoundError:
        _refuse_dangling(path)
        return "new"
    except (OSError, ValueError) as error:
        _fail(path, error)
    if stat.S_ISDIR(status.st_mode):
        hint = f"give a file name, such as {path / 'part'}{path.suffix or '.dxf'}"
        raise OutputError(Problem(str(path), "this is a folder, not a file", hint=hint))
    if not stat.S_ISREG(status.st_mode):
        hint = "give a file name, or --out - for standard output"
        raise OutputError(Problem(str(path), "this is no ordinary file", hint=hint))
    try:
        same = status.st_size == len(file.data) and path.read_bytes() == file.data
    except OSError:
        return "replaced"
    return "unchanged" if same else "replaced"


def _refuse_dangling(path: Path) -> None:
    """Refuse to make folders and files at the far end of a link that leads to nothing."""
    for place in (path, *path.parents):
        if place.is_symlink() and not place.exists():
            text = f"this is a link to {os.readlink(place)}, and nothing is there"
            hint = "make what it leads to, take the link away, or give another place with --out"
            raise OutputError(Problem(str(place), text, hint=hint))


def _refuse(stands: Sequence[Outgoing], again: str) -> NoReturn:
    """Refuse to replace these files, a problem a folder; the last one says how to replace them."""
    folders: dict[Path, list[str]] = {}
    for file in stands:
        folders.setdefault(file.path.parent, []).append(file.path.name)
    problems = []
    for number, (folder, names) in enumerate(folders.items(), 1):
        text = f"there already, with other contents; nothing was written: {', '.join(names)}"
        hint = f"to replace: {again}" if number == len(folders) else ""
        problems.append(Problem(str(folder), text, hint=hint))
    raise OutputError(*problems)


def _write_beside(file: Outgoing, undo: _Undo) -> None:
    """Write the bytes under another name in the target's own folder."""
    target = Path(os.path.realpath(file.path))
    _make_folders(target.parent, undo)
    beside = _spare_name(target.parent, undo)
    undo.beside[file.path] = beside
    with beside.open("xb") as stream:
        stream.write(file.data)
    with suppress(FileNotFoundError):
        beside.chmod(stat.S_IMODE(target.stat().st_mode))


def _put_in_place(file: Outgoing, undo: _Undo) -> None:
    """Rename the written file to its target, keeping what stood there until all is done."""
    target = Path(os.path.realpath(file.path))
    if target.exists():
        backup = _spare_name(target.parent, undo)
        undo.backups[file.path] = backup
        _keep(target, backup)
    undo.placed.add(file.path)
    os.replace(undo.beside[file.path], target)


def _keep(target: Path, backup: Path) -> None:
    """Give the old file a second name; where the disk knows no second names, a copy."""
    try:
        os.link(target, backup)
    except (OSError, NotImplementedError):
        backup.write_bytes(target.read_bytes())


def _make_folders(folder: Path, undo: _Undo) -> None:
    if folder.is_dir():
        return
    _make_folders(folder.parent, undo)
    undo.folders.append(folder)
    try:
        folder.mkdir()
    except FileExistsError:  # made meanwhile by another run, whose it is
        if not folder.is_dir():
            raise
        undo.folders.remove(folder)


def _spare_name(folder: Path, undo: _Undo, ending: str = PART) -> Path:
    """A name that nothing has or had in this run."""
    while True:
        undo.names += 1
        path = folder / spare_name(undo.names, ending)
        if not path.exists():
            return path


def _take_back(undo: _Undo) -> None:
    """Put everything back as it was; go on when a step fails, as later ones may still succeed."""
    for path, beside in undo.beside.items():
        backup = undo.backups.get(path)
        with suppress(OSError):
            if path in undo.placed and not beside.exists():
                _restore(Path(os.path.realpath(path)), backup)
        for left in (beside, backup):
            if left is not None:
                with suppress(OSError):
                    left.unlink(missing_ok=True)
    for journal in undo.journals:
        with suppress(OSError):
            journal.unlink(missing_ok=True)
    for folder in reversed(undo.folders):
        with suppress(OSError):
            folder.rmdir()


def _restore(target: Path, backup: Path | None) -> None:
    """Take a new file away again, or put the old one back over it."""
    if backup is None:
        target.unlink()
    else:
        os.replace(backup, target)


def _culprit(error: OSError, files: Sequence[Outgoing]) -> Path:
    """The target that an error of the system is about, as far as it says."""
    named = str(error.filename2 or error.filename or "")
    for file in files:
        if os.path.realpath(file.path) == named:
            return file.path
    return Path(named).parent if named.endswith(f".{PART}") else Path(named or files[0].path)


def _fail(path: Path, error: OSError | ValueError) -> NoReturn:
    reason = getattr(error, "strerror", None) or str(error)
    text = f"this cannot be written ({reason.lower()}); nothing was left behind"
    hint = "give another place with --out, or make room and the right to write there"
    raise OutputError(Problem(str(path), text, hint=hint)) from None
