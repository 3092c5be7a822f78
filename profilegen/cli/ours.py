"""Which files in a part's folder this program wrote, and whether anybody has changed them since.

`.profilegen.json` beside the files holds the digest of each, of the part file and of every file
that was read for it, the version and the options. A file whose digest still stands there is ours
and may be replaced unasked; one that was changed by hand, or that somebody else put there, is not.
"""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from hashlib import sha256
from pathlib import Path
from typing import Any

from profilegen import __version__
from profilegen.cli.writing import Outgoing

NAME = ".profilegen.json"


def digest(data: bytes) -> str:
    """SHA-256 of some bytes, in hexadecimal."""
    return sha256(data).hexdigest()


def record(
    folder: Path,
    files: Sequence[Outgoing],
    inputs: Mapping[str, bytes],
    options: Mapping[str, Any],
) -> Outgoing:
    """The record of one run, to be written with its files.

    Args:
        folder: where the files stand.
        files: what is written there.
        inputs: name -> contents of the part file and of every file that was read for it.
        options: what was chosen on the command line.

    Files of an earlier run that are not made anew and that nobody changed stay ours.
    """
    kept = {path.name: digest(path.read_bytes()) for path in untouched(folder) if path.name != NAME}
    made = {
        "version": __version__,
        "options": dict(options),
        "inputs": {name: digest(data) for name, data in inputs.items()},
        "files": kept | {file.path.name: digest(file.data) for file in files},
    }
    text = json.dumps(made, indent=1, ensure_ascii=False) + "\n"
    return Outgoing(folder / NAME, text.encode(), "keep", shown=False)


def untouched(folder: Path) -> frozenset[Path]:
    """The files of a folder that we wrote and nobody has changed since, the record among them."""
    record_of = folder / NAME
    try:
        told = json.loads(record_of.read_bytes())["files"]
        known = {str(name): str(value) for name, value in told.items()}
    except (OSError, ValueError, KeyError, TypeError, AttributeError):
        return frozenset()
    ours = {folder / name for name, value in known.items() if _stands(folder, name, value)}
    return frozenset({*ours, record_of})


def _stands(folder: Path, name: str, value: str) -> bool:
    """Whether a file of the record is there as it was written."""
    if Path(name).name != name:
        return False
    try:
        return digest((folder / name).read_bytes()) == value
    except OSError:
        return False
