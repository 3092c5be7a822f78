"""Which files in a part's folder this program wrote, from what, and whether they still stand so.

`.profilegen.json` beside the files is the record of the last run: what the files depend on
(version, options, the digest of every file that was read), the digest of each file, and what was
found. A file whose digest still stands there is ours and may be replaced unasked; one that was
changed by hand, or that somebody else put there, is not. Where all of it is as recorded, nothing
need be made.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import asdict, dataclass
from hashlib import sha256
from pathlib import Path
from typing import Any

from profilegen import __version__
from profilegen.cli.writing import Outgoing
from profilegen.errors import Worded

NAME = ".profilegen.json"

About = Mapping[str, Any]
"""What the files of a run depend on: `version`, `options` and `inputs`."""


@dataclass(frozen=True, slots=True)
class Before:
    """What a run before this one left, all of which still stands as it was written.

    Attributes:
        files: the names of what it made.
        findings: what it found.
    """

    files: frozenset[str]
    findings: tuple[Worded, ...]


def digest(data: bytes) -> str:
    """SHA-256 of some bytes, in hexadecimal."""
    return sha256(data).hexdigest()


def about(inputs: Mapping[str, str], options: Mapping[str, Any]) -> About:
    """What the files of a run depend on.

    Args:
        inputs: name -> digest of the part file and of every file that was read for it.
        options: what was chosen on the command line.
    """
    return {"version": __version__, "options": dict(options), "inputs": dict(inputs)}


def record(
    folder: Path, files: Sequence[Outgoing], about: About, findings: Iterable[Worded]
) -> Outgoing:
    """The record of one run, to be written with its files.

    Args:
        folder: where the files stand.
        files: what is written there.
        about: what they depend on.
        findings: what was found.

    Files of an earlier run that are not made anew and that nobody changed stay ours.
    """
    made = {file.path.name: digest(file.data) for file in files}
    kept = {path.name: digest(path.read_bytes()) for path in untouched(folder) if path.name != NAME}
    told = {
        **about,
        "files": made,
        "earlier": {name: value for name, value in kept.items() if name not in made},
        "findings": [asdict(one) for one in findings],
    }
    text = json.dumps(told, indent=1, ensure_ascii=False) + "\n"
    return Outgoing(folder / NAME, text.encode(), "keep", shown=False)


def untouched(folder: Path) -> frozenset[Path]:
    """The files of a folder that we wrote and nobody has changed since, the record among them."""
    try:
        told = _told(folder)
        known = {**told["files"], **told.get("earlier", {})}
    except (OSError, ValueError, KeyError, TypeError, AttributeError):
        return frozenset()
    ours = {folder / str(name) for name, value in known.items() if _stands(folder, name, value)}
    return frozenset({*ours, folder / NAME})


def as_before(folder: Path, about: About) -> Before | None:
    """What a run before this one left, where it had the same to go by and every file that it made
    still stands; None where something is to be made."""
    try:
        told = _told(folder)
        files = dict(told["files"])
        same = all(told[key] == value for key, value in about.items())
        findings = tuple(Worded(**one) for one in told["findings"])
    except (OSError, ValueError, KeyError, TypeError, AttributeError):
        return None
    stand = bool(files) and all(_stands(folder, name, value) for name, value in files.items())
    return Before(frozenset(files), findings) if same and stand else None


def _told(folder: Path) -> dict[str, Any]:
    """The record of a folder; raises OSError or ValueError where there is none."""
    found: dict[str, Any] = json.loads((folder / NAME).read_bytes())
    return found


def _stands(folder: Path, name: str, value: object) -> bool:
    """Whether a file of the record is there as it was written."""
    if Path(name).name != name:
        return False
    try:
        return digest((folder / name).read_bytes()) == value
    except OSError:
        return False
